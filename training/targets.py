"""From labels to what the reader is to learn, all by the place of a word.

Takes what `examples/reader_input.rs` writes: a narration with its labels, its words, what the rules found on them, and
the draft by the rules. Labels that say where a thing was named, a number or a work was said (`named`, `number_said`,
`work_said`) are taken at their word; where they don't, the nearest piece of the quotation that fits is taken, and what can't be told
is left out of the loss.
"""

import re

SIDES = ["front", "right", "rear", "left", "none"]
WORKS = ["detach-reset", "remove-replace", "remove", "install", "repair", "clean", "paint", "stain", "protect"]
UNITS = ["each", "foot", "square-foot", "square", "pair", "set", "roll", "sheet", "bundle", "inch", "yard", "box"]
SEGMENTS = ["photo", "measure", "check", "wall", "gable", "opening", "roof-slope"]
NONE, LINE, CLEARED = 0, 1, 2

# How far from a thing its number may stand, in words.
BEFORE, BEHIND = 150, 80
# How far behind a thing the building it stands on may be named, in words.
STRUCTURE_BEHIND = 15


def allowed(value):
    return value if isinstance(value, list) else [value]


class Words:
    """The words of a text, and which of them stand at a stretch of it."""

    def __init__(self, text):
        self.text = text
        self.spans = [m.span() for m in re.finditer(r"\S+", text)]

    def at(self, start, end):
        """The first and the last word of a stretch of text; none where it holds none."""
        inside = [i for i, (a, b) in enumerate(self.spans) if a < end and b > start]
        return (inside[0], inside[-1]) if inside else None

    def find(self, words, near=None):
        """Where these words stand: within `near` if they do, else the last time before it, else the first time."""
        text = self.text
        if near is not None:
            at = text.find(words, near[0], near[1])
            if at < 0:
                at = text.rfind(words, 0, near[0])
            if at < 0:
                at = text.find(words, near[0])
        else:
            at = text.find(words)
        return None if at < 0 else (at, at + len(words))


def matches(amount, wanted):
    """Whether a number is the one a label wants, to one percent."""
    numbers = [w for w in wanted if w is not None]
    middle = (amount["low"] + amount["high"]) / 2
    close = any(abs(middle - w) <= 0.01 * max(abs(w), 1e-9) for w in numbers)
    between = amount["low"] != amount["high"] and any(amount["low"] <= w <= amount["high"] for w in numbers)
    return amount["by"] is None and (close or between)


def is_size(amount, wanted):
    """Whether a number tells the size a label wants: its lengths agree."""
    lengths = [amount["low"]] + ([amount["by"]] if amount["by"] is not None else [])
    for size in wanted:
        if size is None:
            continue
        said = [float(x) for x in re.findall(r"\d+(?:\.\d+)?", size)]
        feet = re.findall(r"(\d+(?:\.\d+)?) ft (\d+(?:\.\d+)?) in", size)
        if len(feet) == 1 and len(said) == 2:
            said = [float(feet[0][0]) + float(feet[0][1]) / 12]
        if len(said) == len(lengths) and all(abs(a - b) < 0.011 for a, b in zip(said, lengths)):
            return True
    return False


class Targets:
    """What is to be learned of one narration."""

    def __init__(self, narration):
        self.narration, self.input = narration, narration["input"]
        self.words = Words(narration["text"])
        self.count = len(self.input["words"])
        assert self.count == len(self.words.spans), (narration["id"], self.count, len(self.words.spans))
        self.status = [NONE] * self.count
        self.anchors, self.segments, self.chain = {}, [], []
        labels = narration["labels"]
        found = [(self.line(label), label) for label in labels["lines"]]
        for place, label in found:
            if place is not None:
                self.add(place, label)
        for label in labels["no_work"]:
            self.cleared(label)
        self.name_ellipses()
        for kind in ("follow_ups", "dimensions"):
            for label in labels[kind]:
                self.segment(label)
        self.moves(labels.get("moves", []))

    # Where a line stands.

    def quote(self, label):
        stretch = self.words.find(label["quote"])
        return stretch, stretch and self.words.at(*stretch)

    def things(self, first, last, items):
        fits = lambda thing: thing["id"] in items
        return [t for t in self.input["things"] if first <= t["first"] and t["last"] <= last and fits(t)]

    def named(self, label, stretch):
        """The last word of the name."""
        if not label.get("named"):
            return None
        at = self.words.find(label["named"], stretch)
        if at is None:
            return None
        first, last = self.words.at(*at)
        inside = self.things(first, last, allowed(label["item"]))
        return inside[0]["last"] if inside else last

    def line(self, label):
        stretch, quote = self.quote(label)
        if quote is None:
            return None
        first, last = quote
        anchor = self.named(label, stretch)
        if anchor is None:
            inside = self.things(first, last, [i for i in allowed(label["item"]) if i])
            number = [a for a in self.input["amounts"] if first <= a["first"] <= last and matches(a, allowed(label["quantity"]))]
            near = number[0]["first"] if number else last
            anchor = min((abs(t["last"] - near), t["last"]) for t in inside)[1] if inside else None
        if anchor is not None and first <= anchor <= last:
            return {"anchor": anchor, "quote": quote, "ellipsis": None}
        spot = self.said(label, "number_said", stretch, quote, end=True)
        if spot is None:
            number = [a for a in self.input["amounts"] if first <= a["first"] and a["last"] <= last and matches(a, allowed(label["quantity"]))]
            spot = number[0]["last"] if number else None
        if spot is None:
            spot = self.said(label, "work_said", stretch, quote, end=False)
        if spot is None and anchor is None:
            for word in range(first, last + 1):
                self.ignore(word)
            return None
        return {"anchor": last if spot is None else spot, "quote": quote, "ellipsis": anchor if anchor is not None else -1}

    def said(self, label, key, stretch, quote, end):
        """A word of what gave a field, if it stands in the quotation."""
        if not label.get(key):
            return None
        at = self.words.text.find(label[key], *stretch)
        if at < 0:
            return None
        first, last = self.words.at(at, at + len(label[key]))
        return last if end else first

    def ignore(self, word):
        if self.status[word] == NONE:
            self.status[word] = -1

    # What is told of it.

    def add(self, place, label):
        anchor = place["anchor"]
        if place["ellipsis"] is not None and place["ellipsis"] in self.anchors:
            # A second work on all of a thing: the same line's anchor.
            before = self.anchors[place["ellipsis"]]
            if all(before["raw"].get(k) == label.get(k) for k in ("quantity", "side", "unit", "structure")) and before["raw"]["work"] != label["work"]:
                return self.second_work(before, label)
        if anchor in self.anchors:
            before = self.anchors[anchor]
            if before["status"] == LINE and before["raw"]["work"] != label["work"]:
                return self.second_work(before, label)
            number = [a for a in self.input["amounts"] if place["quote"][0] <= a["first"] <= place["quote"][1] and matches(a, allowed(label["quantity"]))]
            spot = next((a["last"] for a in number if a["last"] not in self.anchors), None)
            if spot is None:
                return
            place = {**place, "anchor": spot, "ellipsis": anchor}
            anchor = spot
        self.status[anchor] = -1 if label.get("optional") else LINE
        self.anchors[anchor] = self.fields(anchor, place, label)
        for thing in self.things(*place["quote"], allowed(label["item"])):
            self.ignore(thing["last"])

    def fields(self, anchor, place, label):
        works, unsure = self.works(label)
        return {
            "at": anchor,
            "raw": label,
            "status": LINE,
            "optional": bool(label.get("optional")),
            "ellipsis": place["ellipsis"],
            "item": allowed(label["item"]),
            "sides": [SIDES.index(s) for s in allowed(label["side"])],
            "works": works,
            "unsure_works": unsure,
            "no_work_said": None in allowed(label["work"]),
            "only_if": float(bool(label.get("only_if"))),
            "look": float(bool(label.get("look"))),
            "units": [UNITS.index(u) for u in allowed(label["unit"]) if u in UNITS],
            "numbers": self.numbers(anchor, place["quote"], label),
            "sizes": self.sizes(anchor, label),
            "structures": self.structures(anchor, label),
        }

    def works(self, label):
        fit = [WORKS.index(w) for w in allowed(label["work"]) if w]
        works = [0.0] * len(WORKS)
        for work in fit[:1]:
            works[work] = 1.0
        return works, fit[1:] + (fit[:1] if None in allowed(label["work"]) else [])

    def second_work(self, before, label):
        works, unsure = self.works(label)
        before["works"] = [max(a, b) for a, b in zip(before["works"], works)]
        before["unsure_works"] += unsure
        before["only_if"] = max(before["only_if"], 0.0) if label.get("only_if") == before["raw"].get("only_if") else -1.0

    def numbers(self, anchor, quote, label):
        """Which numbers would be right: 0 none, 1 one, from 2 on the amounts."""
        wanted = allowed(label["quantity"])
        near = lambda a: anchor - BEFORE <= a["first"] <= anchor + BEHIND
        fit = [n for n, a in enumerate(self.input["amounts"]) if near(a) and matches(a, wanted)]
        if label.get("number_said"):
            stretch = self.words.find(label["quote"])
            at = self.words.find(label["number_said"], stretch)
            span = at and self.words.at(*at)
            exact = [n for n in fit if span and self.input["amounts"][n]["first"] <= span[1] and self.input["amounts"][n]["last"] >= span[0]]
            fit = exact or fit
        elif "number_said" in label and 1 in wanted:
            fit = []
        inside = [n for n in fit if quote[0] <= self.input["amounts"][n]["first"] <= quote[1]]
        fit = inside or fit
        return [0] * (None in wanted) + [1] * (1 in wanted) + [n + 2 for n in fit]

    def sizes(self, anchor, label):
        """Which numbers tell the size: 0 none, from 1 on the amounts; empty where it can't be told."""
        wanted = allowed(label.get("size"))
        near = lambda a: anchor - BEFORE <= a["first"] <= anchor + BEHIND
        fit = [n + 1 for n, a in enumerate(self.input["amounts"]) if near(a) and is_size(a, wanted)]
        return [0] * (None in wanted) + fit

    def structures(self, anchor, label):
        """Which buildings would be right: 0 the house, from 1 on the names of others; empty where it can't be told."""
        wanted = [s.lower() for s in allowed(label.get("structure", "house"))]
        named = [n + 1 for n, s in enumerate(self.input["structures"]) if s["name"] in wanted and s["first"] <= anchor + STRUCTURE_BEHIND]
        return [0] * ("house" in wanted) + named

    def cleared(self, label):
        stretch, quote = self.quote(label)
        if quote is None:
            return
        anchor = self.named(label, stretch)
        if anchor is None:
            inside = self.things(*quote, [i for i in allowed(label["item"]) if i])
            anchor = inside[0]["last"] if inside else None
        if anchor is None:
            for word in range(quote[0], quote[1] + 1):
                self.ignore(word)
            return
        if anchor in self.anchors:
            return
        self.status[anchor] = -1 if label.get("optional") else CLEARED
        self.anchors[anchor] = {
            "at": anchor, "raw": label, "status": CLEARED, "optional": bool(label.get("optional")), "ellipsis": None,
            "item": allowed(label["item"]), "sides": [SIDES.index(s) for s in allowed(label["side"])],
            "structures": self.structures(anchor, label),
        }
        for thing in self.things(*quote, allowed(label["item"])):
            self.ignore(thing["last"])

    def name_ellipses(self):
        """What an ellipsis stands for: a named thing before it."""
        for anchor in self.anchors.values():
            back = anchor["ellipsis"]
            anchor["antecedent"] = []
            if back is not None:
                fits = [n for n, t in enumerate(self.input["things"]) if t["last"] <= anchor["at"] and anchor["at"] - t["last"] <= BEFORE and (t["last"] == back or (t["id"] in anchor["item"] and anchor["at"] - t["last"] < 60))]
                anchor["antecedent"] = fits

    def segment(self, label):
        stretch, quote = self.quote(label)
        if quote is None:
            return
        kind = label.get("kind") or label.get("shape")
        amounts = self.input["amounts"]
        near = lambda a: quote[0] - 40 <= a["first"] <= quote[1] + 40
        number = lambda w: [] if w is None else [2 * n + 1 + (part == "by") for n, a in enumerate(amounts) if near(a) for part in ("low", "by") if a[part] is not None and any(abs(a[part] - x) <= 0.01 * abs(x) + 1e-9 for x in allowed(w) if x is not None)]
        told = {"first": quote[0], "last": quote[1], "kind": SEGMENTS.index(kind), "optional": bool(label.get("optional")),
                "sides": [SIDES.index(s) for s in allowed(label.get("side", "none"))], "raw": label}
        if "kind" in label:
            items = allowed(label.get("item"))
            told["item"] = [0] * (None in items) + [n + 1 for n, t in enumerate(self.input["things"]) if t["id"] in items and t["id"] and quote[0] - 80 <= t["first"] <= quote[1] + 40]
        else:
            told["width"] = number(label.get("width_ft")) or ([0] if label.get("width_ft") is None else [])
            told["height"] = number(label.get("height_ft")) or ([0] if label.get("height_ft") is None else [])
        self.segments.append(told)

    def moves(self, moves):
        """Where the narrator stands between moves."""
        at, side, since = 0, None, None
        for move in moves:
            start = self.words.text.find(move["words"], at)
            if start < 0:
                return
            at = start
            first, last = self.words.at(start, start + len(move["words"]))
            if move.get("back"):
                continue
            if side is not None:
                self.chain += [(w, side) for w in range(since + 1, first, 12)]
            side, since = SIDES.index(move["side"]), last
        if side is not None:
            self.chain += [(w, side) for w in range(since + 1, self.count, 12)]
