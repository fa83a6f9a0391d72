"""What the reader is to get right: the answers to a batch as tensors, and how far from them it is."""

import torch
import torch.nn.functional as F

from model import chain
from targets import LINE, UNITS, WORKS


def mask_of(rows, width):
    """A row of marks for each row of columns."""
    mask = torch.zeros(len(rows), width, dtype=torch.bool)
    for r, row in enumerate(rows):
        if row:
            mask[r, row] = True
    return mask


def columns(candidates, fixed, wanted):
    """Where the wanted candidates stand in each row of a pointer's answers."""
    rows = []
    for row, want in zip(candidates, wanted):
        at = {n: k + fixed for k, n in enumerate(row)}
        rows.append([c for c in (w if w < fixed else at.get(w - fixed) for w in want) if c is not None])
    return rows


def answers(examples, x, of):
    """What would be right for a batch."""
    B, T = x["mask"].shape
    gold = [(e, e.targets.anchors[at]) for e in examples for at in e.anchors]
    parts = [(e, s) for e in examples for s in e.targets.segments]
    flat = lambda key: [row for o in of for row in o[key]]
    width = lambda key: x[key][0].shape[1]
    is_line = [a["status"] == LINE for _, a in gold]
    line = lambda rows: [r if yes else [] for r, yes in zip(rows, is_line)]
    y = {"status": torch.full((B, T), -1), "tags": torch.full((B, T), -1), "walk": torch.zeros(B, T, 5)}
    for b, e in enumerate(examples):
        y["status"][b, : e.count] = torch.tensor(e.targets.status)
        tags = [0] * e.count
        for s in e.targets.segments:
            for w in range(s["first"], s["last"] + 1):
                tags[w] = -1 if s["optional"] else 1 + 2 * s["kind"] + (w > s["first"])
        y["tags"][b, : e.count] = torch.tensor(tags)
        for word, side in e.targets.chain:
            y["walk"][b, word] = -0.6
            y["walk"][b, word, side] = 0.0
    y["tagged"] = max(1, sum(s["last"] - s["first"] + 1 for _, s in parts))
    y["sides"] = mask_of([[] if a["optional"] else a["sides"] for _, a in gold], 5)
    y["part_sides"] = mask_of([s["sides"] for _, s in parts], 5)
    y["lines"] = torch.tensor(is_line, dtype=torch.bool)
    y["works"] = torch.tensor([a.get("works", [0.0] * len(WORKS)) for _, a in gold]).view(len(gold), len(WORKS))
    heed = [[float(yes and k not in a["unsure_works"]) for k in range(len(WORKS))] if yes else [0.0] * len(WORKS) for (_, a), yes in zip(gold, is_line)]
    y["heed"] = torch.tensor(heed).view(len(gold), len(WORKS))
    y["yes"] = torch.tensor([[a.get("only_if", -1.0), a.get("look", -1.0)] for _, a in gold]).view(len(gold), 2)
    y["unit"] = mask_of(line([a.get("units", []) for _, a in gold]), len(UNITS))
    y["number"] = mask_of(line(columns(flat("number"), 2, [a.get("numbers", []) for _, a in gold])), 2 + width("number"))
    y["size"] = mask_of(line(columns(flat("number"), 1, [a.get("sizes", []) for _, a in gold])), 1 + width("number"))
    y["structure"] = mask_of(columns(flat("structure"), 1, [a["structures"] for _, a in gold]), 1 + width("structure"))
    y["item"] = mask_of([[e.items[i] for i in a["item"] if i in e.items] for e, a in gold], len(gold[0][0].items) if gold else 1)
    things = flat("thing")
    y["same"] = mask_of([[k for k, n in enumerate(row) if e.input["things"][n]["id"] in a["item"]] for (e, a), row in zip(gold, things)], width("thing"))
    known = [[0] if a["ellipsis"] is None else [k + 1 for k, n in enumerate(row) if n in a["antecedent"]] for (_, a), row in zip(gold, things)]
    y["antecedent"] = mask_of(known, 1 + width("thing"))
    y["part_item"] = mask_of(columns(flat("part_thing"), 1, [s.get("item", []) for _, s in parts]), 1 + width("part_thing"))
    for key, name in (("wide", "width"), ("high", "height")):
        y[key] = mask_of(columns(flat("part_amount"), 1, [s.get(name, []) for _, s in parts]), 1 + width("part_amount"))
    return y


def chosen(logits, mask):
    """The loss of answers of which any of several is right; rows without one are left out."""
    if mask.numel() == 0:
        return logits.sum() * 0.0
    there = mask.any(1)
    apart = torch.logsumexp(logits, 1) - torch.logsumexp(logits.masked_fill(~mask, -1e4), 1)
    return torch.where(there, apart, 0.0).sum() / there.sum().clamp(min=1)


def seen(sides, own, weight):
    """What the side of a thing tells of where the narrator stands: all, or nothing where its words say the side themselves."""
    says, silent = F.logsigmoid(own[:, :1]), F.logsigmoid(-own[:, :1])
    into = torch.logsumexp(torch.log_softmax(own[:, 1:], 1).masked_fill(~sides, -1e4), 1, keepdim=True)
    other = (says + into).expand(-1, 5)
    value = torch.where(sides, torch.logaddexp(silent.expand(-1, 5), other), other)
    return torch.where(sides.any(1, keepdim=True), value, 0.0) * weight


def loss(net, x, y, out):
    B, T = x["mask"].shape
    count = max(1, x["anchor"].shape[0])
    lines = y["lines"].float()
    many = lines.sum().clamp(min=1)
    total = {}
    weigh = torch.tensor([1.0, 2.0, 2.0], device=out["status"].device)
    total["status"] = F.cross_entropy(out["status"].reshape(-1, 3), y["status"].reshape(-1), ignore_index=-1, reduction="sum", weight=weigh) / count * 1.5
    total["tags"] = F.cross_entropy(out["tags"].reshape(B * T, -1), y["tags"].reshape(-1), ignore_index=-1, reduction="sum") / y["tagged"] * 0.5
    walk = torch.zeros(B * T, 5, device=weigh.device)
    walk = walk.index_add(0, x["anchor"], seen(y["sides"], out["own_side"], 1.0)).index_add(0, x["part_last"], seen(y["part_sides"], out["part_side"], 0.5))
    walk = walk.view(B, T, 5) + y["walk"]
    both = chain(*(torch.cat([v, v]) for v in (out["move"], out["stay"])), net.start, torch.cat([x["mask"]] * 2), torch.cat([torch.zeros_like(walk), walk]))
    total["side"] = (both[:B] - both[B:]).sum() / count * 3
    total["works"] = (F.binary_cross_entropy_with_logits(out["works"], y["works"], reduction="none") * y["heed"]).sum() / many
    yes = F.binary_cross_entropy_with_logits(out["yes"], y["yes"].clamp(min=0), reduction="none") * (y["yes"] >= 0) * lines[:, None]
    total["only_if"], total["look"] = yes[:, 0].sum() / many, yes[:, 1].sum() / many * 0.5
    for key in ("unit", "number", "size", "structure"):
        total[key] = chosen(out[key], y[key])
    back, own = torch.log_softmax(out["antecedent"], 1), torch.log_softmax(out["item"], 1)
    ways = torch.cat([back[:, :1] + torch.logsumexp(own.masked_fill(~y["item"], -1e4), 1, keepdim=True), back[:, 1:].masked_fill(~y["same"], -1e4)], 1)
    total["item"] = -torch.logsumexp(ways, 1).clamp(min=-12).mean() if ways.shape[0] else ways.sum() * 0.0
    total["antecedent"] = chosen(out["antecedent"], y["antecedent"]) * 0.5
    total["part_item"] = chosen(out["part_item"], y["part_item"]) * 0.5
    total["wide"], total["high"] = chosen(out["wide"], y["wide"]) * 0.3, chosen(out["high"], y["high"]) * 0.3
    return total
