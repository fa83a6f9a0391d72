"""Narrations as tensors."""

import math
import random

import torch

from model import BETWEEN, DISTANCES, ROLES, SENTENCES, STRIDE, WINDOW
from targets import BEFORE, BEHIND, STRUCTURE_BEHIND


PAD, UNKNOWN, CLS, SEP, MASK = range(5)


class Example:
    """A narration cut into pieces, its marks, and what may be asked of it."""

    def __init__(self, read, tokenizer, marks, items, targets=None, anchors=None, parts=None):
        self.id, self.input, self.targets = read["id"], read["input"], targets
        words = self.input["words"]
        self.count = len(words)
        self.pieces = [tokenizer.encode(w, add_special_tokens=False).ids or [UNKNOWN] for w in words]
        self.marks = [[marks[m] for m in ms if m in marks] or [0] for ms in self.input["marks"]]
        self.items = items
        things, amounts = self.input["things"], self.input["amounts"]
        ends = set(t["last"] for t in things)
        self.things_before = prefix(ends, self.count)
        self.breaks_before = prefix({i for i, m in enumerate(self.input["marks"]) if "break:sentence" in m}, self.count)
        self.holder = {}
        for a in range(len(amounts)):
            self.holder[a] = holder(amounts[a], self.input["marks"], things)
        self.anchors = anchors if anchors is not None else sorted(targets.anchors) if targets else []
        self.found = None
        self.windows = windows(sum(map(len, self.pieces)))
        self.parts = parts if parts is not None else [(s["first"], s["last"]) for s in targets.segments] if targets else []

    def pair(self, a, span, held=None):
        """Marks of a pair of places: how far apart, what stands between, whether one holds the other."""
        first, last = span
        far = first - a if first > a else (last - a if last < a else 0)
        bucket = 12 + int(math.copysign(min(11, round(2 * math.log2(abs(far) + 1))), far)) if far else 12
        lo, hi = min(a, first), max(a, last)
        things = self.things_before[hi] - self.things_before[lo + 1] if hi > lo else 0
        breaks = self.breaks_before[hi + 1] - self.breaks_before[lo + 1]
        role = 0 if held is None else 1 if held == a else 2 if held >= 0 else 3
        return [bucket, DISTANCES + min(things, BETWEEN - 1), DISTANCES + BETWEEN + min(breaks, SENTENCES - 1), DISTANCES + BETWEEN + SENTENCES + min(role, ROLES - 1)]

    def candidates(self):
        """For each anchor and part: which amounts, things and structures may belong to it, and how they stand to it."""
        if self.found is None:
            self.found = self.find_candidates()
        return self.found

    def find_candidates(self):
        amounts, things, named = self.input["amounts"], self.input["things"], self.input["structures"]
        of = {"number": [], "thing": [], "structure": [], "part_thing": [], "part_amount": []}
        for a in self.anchors:
            of["number"].append([(n, self.pair(a, (x["first"], x["last"]), self.holder[n])) for n, x in enumerate(amounts) if a - BEFORE <= x["first"] <= a + BEHIND])
            of["thing"].append([(n, self.pair(a, (x["first"], x["last"]))) for n, x in enumerate(things) if x["last"] <= a and a - x["last"] <= BEFORE])
            of["structure"].append([(n, self.pair(a, (x["first"], x["last"]))) for n, x in enumerate(named) if x["first"] <= a + STRUCTURE_BEHIND])
        for first, last in self.parts:
            middle = (first + last) // 2
            of["part_thing"].append([(n, self.pair(middle, (x["first"], x["last"]))) for n, x in enumerate(things) if first - 80 <= x["first"] <= last + 40])
            of["part_amount"].append([(2 * n + by, self.pair(middle, (x["first"], x["last"]))) for n, x in enumerate(amounts) for by in (0, 1) if first - 40 <= x["first"] <= last + 40 and (not by or x["by"] is not None)])
        return {key: padded(rows) for key, rows in of.items()}


def padded(rows):
    """Candidates with their marks as tensors, and their places as lists."""
    K = max((len(r) for r in rows), default=0)
    which = torch.tensor([[n for n, _ in r] + [0] * (K - len(r)) for r in rows], dtype=torch.long).view(len(rows), K)
    pairs = torch.tensor([[m for _, m in r] + [[0, 0, 0, 0]] * (K - len(r)) for r in rows], dtype=torch.long).view(len(rows), K, 4)
    there = torch.tensor([[True] * len(r) + [False] * (K - len(r)) for r in rows], dtype=torch.bool).view(len(rows), K)
    return which, pairs, there, [[n for n, _ in r] for r in rows]


def prefix(places, count):
    sums = [0]
    for i in range(count):
        sums.append(sums[-1] + (i in places))
    return sums


def holder(amount, marks, things):
    """The last word of the name of the thing that the rules say holds the number; -1 for a free one."""
    if "amount:free" in marks[amount["first"]]:
        return -1
    near = [t["last"] for t in things if t["last"] >= amount["first"]]
    return min(near) if near else -2


def windows(count):
    """Overlapping windows over the pieces, and for each piece the window it stands most central in."""
    starts = [0]
    while starts[-1] + WINDOW < count:
        starts.append(min(starts[-1] + STRIDE, count - WINDOW))
    best = []
    for p in range(count):
        w = max(range(len(starts)), key=lambda i: min(p - starts[i], starts[i] + WINDOW - 1 - p) if starts[i] <= p < starts[i] + WINDOW else -1)
        best.append((w, p - starts[w]))
    return starts, best


def collate(examples, noise=0.0, rng=random):
    """Several narrations as one batch, and the candidates of each row."""
    T = max(e.count for e in examples)
    ids, piece, word, share, slot, marks, marks_at = [], [], [], [], [], [], []
    total = 0
    for b, e in enumerate(examples):
        flat = [p for ps in e.pieces for p in ps]
        if noise:
            flat = [MASK if rng.random() < noise else p for p in flat]
        starts, best = e.windows
        base = len(ids)
        for s in starts:
            chunk = flat[s : s + WINDOW]
            ids.append([CLS] + chunk + [SEP] + [PAD] * (WINDOW - len(chunk)))
        piece += [(base + w) * (WINDOW + 2) + 1 + p for w, p in best]
        for i, ps in enumerate(e.pieces):
            word += [total + i] * len(ps)
            share += [1.0 / len(ps)] * len(ps)
            slot.append(b * T + i)
            marks_at.append(len(marks))
            marks += e.marks[i] if not noise or rng.random() > noise else [0]
        total += e.count
    tensor = lambda x, kind=torch.long: torch.tensor(x, dtype=kind)
    x = {"ids": tensor(ids), "piece": tensor(piece), "word": tensor(word), "share": tensor(share, torch.float), "slot": tensor(slot),
         "marks": tensor(marks), "marks_at": tensor(marks_at), "words": total}
    x["attend"] = x["ids"] != PAD
    x["mask"] = torch.zeros(len(examples), T, dtype=torch.bool)
    for b, e in enumerate(examples):
        x["mask"][b, : e.count] = True
    spans = {"amount": "amounts", "thing": "things", "structure": "structures"}
    offset = {}
    for name, key in spans.items():
        first, last, base = [], [], []
        for b, e in enumerate(examples):
            base.append(len(first))
            first += [b * T + s["first"] for s in e.input[key]]
            last += [b * T + s["last"] for s in e.input[key]]
        x[name + "_first"], x[name + "_last"], offset[name] = tensor(first), tensor(last), base
    x["anchor"] = tensor([b * T + a for b, e in enumerate(examples) for a in e.anchors])
    x["anchor_before"] = tensor([b * T + max(0, a - 1) for b, e in enumerate(examples) for a in e.anchors])
    x["part_first"] = tensor([b * T + p[0] for b, e in enumerate(examples) for p in e.parts])
    x["part_last"] = tensor([b * T + p[1] for b, e in enumerate(examples) for p in e.parts])
    of = [e.candidates() for e in examples]
    for key, kind, times in (("number", "amount", 1), ("thing", "thing", 1), ("structure", "structure", 1), ("part_thing", "thing", 1), ("part_amount", "amount", 2)):
        K = max(o[key][0].shape[1] for o in of)
        grow = lambda v: torch.nn.functional.pad(v, (0, 0) * (v.dim() - 2) + (0, K - v.shape[1]))
        which = torch.cat([grow(o[key][0] + times * offset[kind][b]) for b, o in enumerate(of)])
        pairs, there = (torch.cat([grow(o[key][k]) for o in of]) for k in (1, 2))
        x[key] = (which * there, pairs, there)
    return x, [{key: rows[3] for key, rows in o.items()} for o in of]


def moved(x, device):
    """The batch on a device."""
    put = lambda v: v.to(device, non_blocking=True) if torch.is_tensor(v) else tuple(map(put, v)) if isinstance(v, (tuple, list)) else v
    return {k: put(v) for k, v in x.items()}
