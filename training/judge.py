"""Fits the judge, and measures it by leaving authors out.

usage: judge.py DATA READERS BASE OUT.json [--kinds FILE]

DATA is what prepare.py wrote, READERS the folder with the reader of each fold (reader-foldK.safetensors). Each narration is read by
the reader that hasn't met its author; rules and reader are weighed as src/scope/drafting/judge weighs them, and the weights
are fitted to what the labels say. Only narrations in tests/narrations/unread count: elsewhere the rules hardly err.
"""

import collections
import gzip
import json
import math
import sys
from pathlib import Path

import numpy as np
import torch
from scipy.optimize import linear_sum_assignment, minimize
from sklearn.linear_model import LogisticRegression
from tokenizers import Tokenizer

from read import load
from said import Trained
from targets import SIDES, UNITS, WORKS, allowed

# What may be a line is written from this chance on (the F1 of a list is highest where half of it is the least that gets on).
WRITTEN = 0.4
FAINT, SAME_THING, UNLIKELY, SAME_LINE, SAME_ITEM = 0.03, 20, 0.25, 25, 0.15
DEFAULT = {"structure": "house", "side": "none"}
KEYS = ("structure", "side", "item", "work", "quantity", "unit")
CHOICES = ("side", "item", "quantity", "unit", "structure")
EXISTS = ("bias", "reader", "drafted_by_rules", "rules", "rules_doubt", "cleared", "work", "number", "apart", "item", "rules_without_work")
WORK = ("reader", "rules", "rules_other", "bias")
ONLY_IF = ("reader", "rules", "drafted_by_rules", "bias")
DOUBTS = ("maybe-repeat", "changed-mind", "no-number", "no-side", "sounds-like", "not-in-catalogue", "odd-unit", "odd-size")
LINE = ("bias", "exist", "side", "item", "quantity", "unit", "structure", "work", "least", "all", "agreement", "drafted_by_rules", "look", "several_works", "only_if",
        *(d.replace("-", "_") for d in DOUBTS), "without_item", "without_quantity", "without_work", "talk", "rule_lines", "outbuilding", "alike", "company")
COMPANY, SIGHT = 40, 80


def odds(p, least=1e-3):
    p = min(max(p, least), 1 - least)
    return math.log(p / (1 - p))


def ln(p):
    return math.log(max(p, 1e-3))


def chance(z):
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, z))))


def weigh(clues, weights):
    return sum(x * w for x, w in zip(clues, weights))


def same(label, line, key):
    """Whether a line agrees with a label in a field; of several values any will do, numbers agree to one percent."""
    got = line.get(key, DEFAULT.get(key))
    for want in allowed(label.get(key, DEFAULT.get(key))):
        if want is None or got is None:
            if want is None and got is None:
                return True
        elif isinstance(want, (int, float)) and isinstance(got, (int, float)):
            if abs(want - got) <= 0.01 * max(abs(want), 1e-9):
                return True
        elif str(want).lower() == str(got).lower():
            return True
    return False


def agreement(label, line):
    if not same(label, line, "item"):
        return 0.0
    score = 1.0 + sum(w for k, w in (("structure", 0.3), ("side", 0.7), ("work", 0.6), ("quantity", 0.8), ("unit", 0.3)) if same(label, line, k))
    a, b = set(label["quote"].lower().split()), set(line["quote"].lower().split())
    return score + 0.4 * len(a & b) / len(a | b)


def pairs(labels, lines):
    if not labels or not lines:
        return []
    cost = np.array([[-agreement(a, b) for b in lines] for a in labels])
    return [(labels[i], j) for i, j in zip(*linear_sum_assignment(cost)) if cost[i, j] < 0]


class Case:
    """A narration with its draft by the rules and what the reader says of it: what may be lines, each with its clues."""

    def __init__(self, one, draft, said, items):
        self.id, self.author, self.labels, self.draft = one["id"], one["author"], one["labels"]["lines"], draft
        self.input = one["forms"][0]["input"]
        self.anchors = [self.anchor(a, said["sides"], items) for a in said["lines"]]
        self.groups = [self.clues(g) for g in self.find()]

    def anchor(self, a, sides, items):
        back = dict(a["antecedent"])
        mixed = collections.Counter()
        for k, p in a["item"].items():
            mixed[items[int(k)]] += p * back.get(-1, 0)
        for n, p in back.items():
            if n >= 0:
                mixed[self.input["things"][n]["id"]] += p
        says, *own = a["own_side"]
        side = [(1 - says) * c + says * o for c, o in zip(sides[a["at"]], own)]
        values = collections.Counter()
        for n, p in a["number"]:
            values[self.value(n)] += p
        return {**a, "items": mixed, "side": side, "values": values, "value": values.most_common(1)[0][0], "top": mixed.most_common(1)[0][0] if mixed else None}

    def value(self, n):
        if n < 0:
            return None if n == -2 else 1
        amount = self.input["amounts"][n]
        return (amount["low"] + amount["high"]) / 2

    def find(self):
        """Places of one thing taken together, with the rules' lines of it."""
        clusters = []
        for a in sorted((a for a in self.anchors if a["status"][1] > FAINT), key=lambda a: -a["status"][1]):
            known = next((c for c in clusters if c["head"]["top"] == a["top"] and abs(c["head"]["at"] - a["at"]) <= SAME_THING
                          and (a["value"] == c["head"]["value"] or a["value"] in (None, 1) or c["head"]["value"] is None or a["status"][1] < UNLIKELY)), None)
            if known:
                known["mass"] += a["status"][1]
                known["places"].append(a["at"])
            else:
                clusters.append({"head": a, "mass": a["status"][1], "places": [a["at"]], "taken": False})
        at, ends = {a["at"]: a for a in self.anchors}, {t["first"]: t["last"] for t in self.input["things"]}
        things = collections.defaultdict(list)
        for line in self.draft["lines"]:
            first = int("".join(c for c in line["id"] if c.isdigit()))
            things[ends.get(first, first), line["side"], line["structure"], line["item"]].append(line)
        groups = []
        for (place, _, _, item), lines in sorted(things.items(), key=lambda x: x[0][0]):
            near = [(min(abs(p - place) for p in c["places"]), -c["mass"], n) for n, c in enumerate(clusters) if not c["taken"]]
            near = [x for x in near if x[0] == 0 or x[0] <= SAME_LINE and clusters[x[2]]["head"]["items"].get(item, 0) > SAME_ITEM]
            if near:
                cluster = clusters[min(near)[2]]
                cluster["taken"] = True
                groups.append((cluster["head"], cluster["mass"], lines, False))
            elif place in at:
                mass = next((c["mass"] for c in clusters if c["head"]["at"] == place), at[place]["status"][1])
                groups.append((at[place], mass, lines, True))
        return groups + [(c["head"], c["mass"], [], False) for c in clusters if not c["taken"]]

    def clues(self, group):
        a, mass, lines, apart = group
        rule = lines[0] if lines else None
        by = lambda key, value: float(rule is not None and rule[key] == value)
        drafted = [x["work"] for x in lines if x["work"]]
        doubtful = rule is not None and any(f != "rough-number" for f in rule["flags"])
        of = {"anchor": a, "lines": lines, "rule": rule}
        of["exists"] = [1, odds(min(mass, 0.999), 0.01), float(rule is not None), odds(min(rule["confidence"], 0.99), 0.02) if rule else 0.0, float(doubtful), odds(a["status"][2], 0.01),
                        odds(max(a["works"]), 0.02), odds(1 - dict(a["number"]).get(-2, 0), 0.02), float(apart), odds(max(a["items"].values()) if a["items"] else 0.5, 0.02),
                        float(rule is not None and rule["work"] is None)]
        of["side"] = {s: [ln(p), by("side", s)] for s, p in zip(SIDES, a["side"])}
        items = dict(a["items"])
        values = dict(a["values"])
        structures = collections.Counter()
        for n, p in a["structure"]:
            structures["house" if n < 0 else self.input["structures"][n]["name"]] += p
        known = None
        if rule:
            items.setdefault(rule["item"], 0)
            structures.setdefault(rule["structure"], 0)
            close = [v for v in values if v is not None and rule["quantity"] is not None and abs(v - rule["quantity"]) <= 0.01 * abs(rule["quantity"]) + 1e-6]
            known = close[0] if close else rule["quantity"]
            values.setdefault(known, 0)
        of["item"] = {i: [ln(p), by("item", i)] for i, p in items.items()}
        of["quantity"] = {v: [ln(p), float(rule is not None and v == known and v is not None), float(rule is not None and v is None and known is None)] for v, p in values.items()}
        of["unit"] = {u: [ln(p), by("unit", u)] for u, p in zip(UNITS, a["unit"])}
        of["structure"] = {s: [ln(p), by("structure", s)] for s, p in structures.items()}
        of["work"] = {w: [odds(p, 0.005), float(w in drafted), float(bool(drafted) and w not in drafted), 1.0] for w, p in zip(WORKS, a["works"])}
        of["only_if"] = [odds(a["yes"][0], 0.01), float(any(x["only_if"] for x in lines)), float(bool(lines)), 1.0]
        return of

    def drafted(self, weights, least=WRITTEN):
        """The lines of these weights."""
        lines, words = [], self.input["words"]
        for g in self.groups:
            exists = chance(weigh(g["exists"], weights["exists"]))
            if exists < least:
                continue
            told = {k: choose(g[k], weights[k]) for k in CHOICES}
            best = {k: max(p, key=p.get) for k, p in told.items()}
            works = {w: chance(weigh(c, weights["work"])) for w, c in g["work"].items()}
            likeliest = max(works, key=works.get)
            done = [w for w in works if works[w] > 0.5] or ([likeliest] if works[likeliest] > 0.25 else [None])
            only_if = chance(weigh(g["only_if"], weights["only_if"]))
            at = g["anchor"]["at"]
            for work in done:
                parts = [exists, *(told[k][best[k]] for k in ("side", "item", "quantity", "unit", "structure")), works[work] if work else 1 - works[likeliest]]
                rule = next((x for x in g["lines"] if x["work"] == work), g["rule"])
                stands = sum(g["rule"] is not None and g["rule"][k] == best[k] for k in CHOICES) + float(g["rule"] is not None)
                flags = rule["flags"] if rule else []
                clues = [1.0, *(odds(p, 0.01) for p in parts), odds(min(parts), 0.01), odds(math.prod(parts), 0.01), stands / 6, float(g["rule"] is not None), odds(g["anchor"]["yes"][1], 0.02),
                         float(len(done) > 1), odds(only_if, 0.02), *(float(d in flags) for d in DOUBTS), float(best["item"] is None), float(best["quantity"] is None), float(work is None),
                         odds(g["anchor"]["status"][0], 0.01), math.log1p(len(g["lines"])), float(best["structure"] != "house")]
                lines.append({**best, "work": work, "only_if": only_if > 0.5, "quote": " ".join(words[max(0, at - 8) : at + 8]), "group": g, "clues": clues, "at": at, "all": odds(math.prod(parts), 0.02)})
        lines = once(lines)
        alike = collections.Counter(map(what, lines))
        for line in lines:
            near = [other["all"] for other in lines if other is not line and abs(other["at"] - line["at"]) <= COMPANY]
            line["clues"] += [math.log(alike[what(line)]), sum(near) / len(near) if near else 0.0]
        return lines


def what(line):
    return line["structure"], line["side"], line["item"], line["work"]


def once(lines):
    """Of lines near each other that agree in everything the surer one."""
    kept = {}
    for n, line in enumerate(lines):
        key = (*what(line), line["quantity"], line["unit"], line["only_if"]) if line["item"] else n
        if key in kept and abs(kept[key]["at"] - line["at"]) > SIGHT:
            kept[n] = kept.pop(key)
        if key not in kept or line["all"] > kept[key]["all"]:
            kept[key] = {**line, "n": kept[key]["n"] if key in kept else n}
    return sorted(kept.values(), key=lambda line: line["n"])


def choose(options, weights):
    z = {k: weigh(c, weights) for k, c in options.items()}
    most = max(z.values())
    raised = {k: math.exp(v - most) for k, v in z.items()}
    total = sum(raised.values())
    return {k: v / total for k, v in raised.items()}


FIRST = {"side": [1, 0.7], "item": [1, 1], "quantity": [1, 0.8, 0.5], "unit": [1, 0.5], "structure": [1, 0.5], "work": [1, 1, -1, 0], "only_if": [1, 1, -0.5, 0],
         "exists": [0, 1, 0.5, 0.3, 0, 0, 0, 0, 0, 0, 0]}


def fit(cases):
    """The weights that the labels of these narrations ask for."""
    weights = dict(FIRST)
    for _ in range(2):
        options, binary = {k: [] for k in CHOICES}, {"work": [], "only_if": [], "exists": []}
        for case in cases:
            lines = case.drafted(weights, 0.15)
            of = collections.defaultdict(list)
            for label, j in pairs(case.labels, lines):
                of[id(lines[j]["group"])].append(label)
            for g in case.groups:
                labels = of.get(id(g))
                if labels and all(x.get("optional") for x in labels):
                    continue
                binary["exists"].append((g["exists"], float(bool(labels))))
                if labels:
                    learn(g, labels, options, binary)
        for key, rows in options.items():
            start = FIRST[key]
            cost = lambda w, rows=rows, key=key, start=start: sum(-math.log(max(1e-9, sum(choose(c, w)[o] for o in ok))) for c, ok in rows) / len(rows) + 0.002 * sum((a - b) ** 2 for a, b in zip(w, start))
            weights = {**weights, key: list(minimize(cost, weights[key], method="Nelder-Mead", options={"maxiter": 120, "fatol": 1e-4}).x)}
        for key, rows in binary.items():
            weights = {**weights, key: logistic(rows, 3)}
    rows = []
    for case in cases:
        lines = case.drafted(weights)
        right = {j for label, j in pairs(case.labels, lines) if all(same(label, lines[j], k) for k in KEYS)}
        rows += [(line["clues"], float(j in right)) for j, line in enumerate(lines)]
    return {**weights, "line": logistic(rows, 1)}


def learn(g, labels, options, binary):
    for key, rows in options.items():
        right = [c for c in g[key] if same({key: allowed(labels[0].get(key, DEFAULT.get(key)))}, {key: c}, key)]
        if right and len(right) < len(g[key]):
            rows.append((g[key], right))
    wanted, loose = set(), set()
    for label in labels:
        first, *others = allowed(label["work"])
        wanted.add(first)
        loose.update(others + ([first] if None in others else []))
    binary["work"] += [(c, float(w in wanted)) for w, c in g["work"].items() if w not in loose]
    binary["only_if"].append((g["only_if"], float(any(x.get("only_if") for x in labels))))


def logistic(rows, strength):
    x, y = np.array([c for c, _ in rows]), np.array([t for _, t in rows])
    return list(LogisticRegression(C=strength, fit_intercept=False, max_iter=1000).fit(x, y).coef_[0])


def measure(cases, weights_of, sure):
    right = drafted = missed = quiet = wrong = 0
    for case in cases:
        weights = weights_of(case)
        lines = case.drafted(weights)
        found = pairs(case.labels, lines)
        ok = {j for label, j in found if all(same(label, lines[j], k) for k in KEYS)}
        right, drafted = right + len(ok), drafted + len(lines)
        missed += sum(not label.get("optional") for label in case.labels) - sum(j in ok and not label.get("optional") for label, j in found)
        for j, line in enumerate(lines):
            if chance(weigh(line["clues"], weights["line"])) >= sure:
                quiet, wrong = quiet + 1, wrong + (j not in ok)
    f1 = 2 * right / max(1, 2 * right + (drafted - right) + missed)
    return f"line F1 {f1:.3f}; {wrong} wrong of {quiet} that are sure ({wrong / max(1, quiet):.3f})"


def main():
    data, readers, base, out = sys.argv[1:5]
    torch.set_num_threads(2)
    settings = json.load(open(Path(data) / "settings.json"))
    drafts = json.load(open(Path(data) / "drafts.json"))
    fold = {a: k for k, authors in enumerate(settings["folds"]) for a in authors}
    narrations = [json.loads(line) for line in gzip.open(Path(data) / "data.jsonl.gz", "rt")]
    narrations = [n for n in narrations if n["kind"] == "unread" and n["author"] in fold]
    tokenizer = Tokenizer.from_file(str(Path(base) / "tokenizer.json"))
    tokenizer.no_truncation()
    tokenizer.no_padding()
    cases, items = [], settings["items"] + [None]
    for k in range(len(settings["folds"])):
        net, marks, own = load(Path(readers) / f"reader-fold{k}.safetensors")
        reader = Trained(net, tokenizer, marks, own, "cpu")
        cases += [Case(n, drafts[n["id"]], reader.said(n, n["forms"][0]), items) for n in narrations if fold[n["author"]] == k]
        print("read fold", k, flush=True)
    sure = json.load(open(out))["sure"] if Path(out).exists() else 0.8
    each = {k: fit([c for c in cases if fold[c.author] != k]) for k in sorted({fold[c.author] for c in cases})}
    for author in sorted({c.author for c in cases}):
        print(author, measure([c for c in cases if c.author == author], lambda c: each[fold[c.author]], sure))
    print("all", measure(cases, lambda c: each[fold[c.author]], sure))
    weights = fit(cases)
    names = {"exists": EXISTS, "side": ("reader", "rules"), "item": ("reader", "rules"), "quantity": ("reader", "rules", "rules_unsaid"), "unit": ("reader", "rules"), "structure": ("reader", "rules"),
             "work": WORK, "only_if": ONLY_IF, "line": LINE}
    told = {key: {n: round(float(w), 4) for n, w in zip(own, weights[key])} for key, own in names.items()}
    look = json.load(open(out))["look"] if Path(out).exists() else 0.35
    json.dump({**told, "written": WRITTEN, "sure": sure, "look": look}, open(out, "w"), indent=1)


if __name__ == "__main__":
    main()
