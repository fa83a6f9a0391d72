#!/usr/bin/env python3
"""Our reading of spoken amounts beside that of general libraries, on phrases.json.

    python3 benches/peers/compare.py --venv DIR    # makes DIR with requirements.txt, then compares
    python3 benches/peers/compare.py --wrong NAME  # also prints what one reader got wrong

Every reader gives a list of (number, unit) for each phrase, and all are scored by the same two functions below.
"""

import argparse
import json
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent

# Names of units as the libraries give them, told in the labels' words. Any other name is a unit that is wrong.
UNITS = {
    "foot": "foot", "inch": "inch", "yard": "yard", "square": "square", "pair": "pair",
    "square foot": "square foot", "square-foot": "square foot",
    "dimensionless": None, "each": None, "": None,
}


# Scoring

def exact(number):
    """Numbers as fractions: floats are taken to a thousandth, so that 0.667 is two thirds for every reader."""
    if isinstance(number, str):
        number = Fraction(number)
    return round(Fraction(number).limit_denominator(10**6), 3)


def accepted(phrase):
    """Each accepted reading as groups of numbers with one unit: a range or a size is one group of two."""
    for take in phrase["takes"] or [[]]:
        yield [([exact(n) for n in (value if isinstance(value, list) else [value])], unit) for value, unit in take]


def numbers_right(phrase, read):
    got = [exact(number) for number, _ in read]
    return any(got == [n for group, _ in take for n in group] for take in accepted(phrase))


def units_right(phrase, read):
    return numbers_right(phrase, read) and any(fits(take, read) for take in accepted(phrase))


def fits(take, read):
    """Within a group, the unit may be given on the last number alone, as it is said: "ten to twelve feet"."""
    at = 0
    for group, unit in take:
        units = [u for _, u in read[at:at + len(group)]]
        at += len(group)
        if len(units) < len(group) or units[-1] != unit or any(u not in (unit, None) for u in units):
            return False
    return at == len(read)


# Readers: phrases in, a list of (number, unit) for each out. A unit of Ellipsis stands for a reader without units.

# Not the 2 of "2nd": libraries that rewrite ordinals are not to lose by it.
DIGITS = re.compile(r"(?:\d{1,3}(?:,\d{3})+|\d+)(?!\d*(?:st|nd|rd|th)\b)(?:\.\d+)?(?: \d+/\d+|/\d+)?|\.\d+")


def in_digits(text):
    """The numbers that stand in a text as digits; for libraries that rewrite text, and as the floor."""
    def value(found):
        whole, _, part = found.replace(",", "").rpartition(" ")
        return (Fraction(whole) if whole else 0) + Fraction(part)
    return [(value(m.group()), ...) for m in DIGITS.finditer(text)]


def ours(phrases):
    command = ["cargo", "run", "--quiet", "--no-default-features", "--example", "amounts"]
    lines = subprocess.run(command, cwd=ROOT, input="\n".join(phrases), text=True, check=True, stdout=subprocess.PIPE)
    return [[n for amount in json.loads(line) for n in of_amount(amount)] for line in lines.stdout.splitlines()]


def of_amount(amount):
    def number(n):
        return Fraction(*n["over"])
    unit = UNITS.get(amount["unit"] or "", "another")
    first = [(number(amount["low"]), unit)]
    if amount["high"] != amount["low"]:
        first.append((number(amount["high"]), unit))
    if amount["by"]:
        first.append((number(amount["by"]), UNITS.get(amount["by_unit"] or "", "another")))
    return first


def recognizers_text(phrases):
    from recognizers_number import NumberRecognizer
    from recognizers_number_with_unit import NumberWithUnitRecognizer
    from recognizers_text import Culture

    numbers = NumberRecognizer(Culture.English).get_number_model()
    measures = NumberWithUnitRecognizer(Culture.English).get_dimension_model()

    def read(phrase):
        measured = measures.parse(phrase)
        inside = lambda n: any(m.start <= n.start and n.end <= m.end for m in measured)
        found = list(measured) + [n for n in numbers.parse(phrase) if not inside(n)]
        unit = lambda r: UNITS.get(r.resolution.get("unit", "").lower(), "another")
        return [(r.resolution["value"], unit(r)) for r in sorted(found, key=lambda r: r.start) if r.resolution["value"]]
    return [read(p) for p in phrases]


def quantulum3(phrases):
    from quantulum3 import parser
    return [[(q.value, UNITS.get(q.unit.name, "another")) for q in parser.parse(p)] for p in phrases]


def numerizer(phrases):
    from numerizer import numerize
    return [in_digits(numerize(p)) for p in phrases]


def text2num(phrases):
    from text_to_num import alpha2digit
    return [in_digits(alpha2digit(p, "en", 0.0)) for p in phrases]


def number_parser(phrases):
    from number_parser import parse
    return [in_digits(parse(p, language="en")) for p in phrases]


def word2number(phrases):
    from word2number import w2n

    def read(phrase):
        try:
            return [(w2n.word_to_num(phrase), ...)]
        except ValueError:  # its way to say that there is none
            return []
    return [read(p) for p in phrases]


def digits_alone(phrases):
    return [in_digits(p) for p in phrases]


READERS = {
    "eavesdraft": ours,
    "recognizers-text-suite 1.0.2a2": recognizers_text,
    "quantulum3 0.10.0": quantulum3,
    "numerizer 0.2.4": numerizer,
    "text2num 3.1.0": text2num,
    "number-parser 0.3.2": number_parser,
    "word2number 1.1": word2number,
    "no library, digits alone": digits_alone,
}


def shown(read):
    return ", ".join(f"{n}{'' if u in (None, ...) else ' ' + u}" for n, u in read) or "nothing"


def main():
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--venv", type=Path, help="install the libraries into this folder and run there")
    arguments.add_argument("--wrong", default="", help="print what readers whose names hold this got wrong")
    options = arguments.parse_args()
    if options.venv:
        return in_venv(options)
    phrases = json.loads((HERE / "phrases.json").read_text())
    table, wrong = [f"| reader | numbers right of {len(phrases)} | with units right |", "|---|---|---|"], []
    for name, reader in READERS.items():
        read = reader([p["said"] for p in phrases])
        assert len(read) == len(phrases), f"{name} gave {len(read)} readings"
        numbers = sum(map(numbers_right, phrases, read))
        units = "–" if any(u is ... for r in read for _, u in r) else sum(map(units_right, phrases, read))
        table.append(f"| {name} | {numbers} | {units} |")
        if options.wrong and options.wrong in name:
            right = numbers_right if units == "–" else units_right
            faulty = [(p, r) for p, r in zip(phrases, read) if not right(p, r)]
            wrong += [f"{name}: {p['said']!r} read as {shown(r)}" for p, r in faulty]
    print("\n".join(table + wrong))


def in_venv(options):
    python = options.venv / "bin" / "python"
    if not python.exists():
        subprocess.run([sys.executable, "-m", "venv", str(options.venv)], check=True)
        pip = [str(python), "-m", "pip", "install", "--quiet"]
        subprocess.run(pip + ["setuptools<80", "wheel"], check=True)
        # One library builds from source, with the setuptools just installed rather than the newest.
        subprocess.run(pip + ["--no-build-isolation", "-r", str(HERE / "requirements.txt")], check=True)
    again = [str(python), __file__] + (["--wrong", options.wrong] if options.wrong else [])
    subprocess.run(again, check=True)


if __name__ == "__main__":
    main()
