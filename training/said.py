"""What a trained reader says of a narration; `src/language/reader` says the same."""

import torch

from batch import Example, collate, moved
from model import sides


class Trained:
    """A network with what it needs to know."""

    def __init__(self, net, tokenizer, marks, items, device):
        self.net, self.tokenizer, self.marks, self.items, self.device = net, tokenizer, marks, items, device

    def said(self, one, form, least=0.1):
        """All that the reader says of a narration."""
        read = {"id": one["id"], "input": form["input"]}
        with torch.no_grad(), torch.autocast(self.device, dtype=torch.bfloat16, enabled=self.device == "cuda"):
            bare = Example(read, self.tokenizer, self.marks, self.items, anchors=[0], parts=[(0, 0)])
            x, _ = collate([bare])
            x = moved(x, self.device)
            told = self.net(x)
            status = torch.softmax(told["status"][0, : bare.count], 1).cpu()
            tags = torch.softmax(told["tags"][0, : bare.count], 1).cpu()
            where = sides(told["move"][0], told["stay"][0], self.net.start, bare.count)
            wanted = {t["last"] for t in form["input"]["things"]}
            anchors = [w for w in range(bare.count) if w in wanted or status[w, 0] < 1 - least]
            parts = stretches(tags)
            full = Example(read, self.tokenizer, self.marks, self.items, anchors=anchors, parts=[(f, l) for f, l, _ in parts])
            x, of = collate([full])
            x = moved(x, self.device)
            told = self.net(x)
        soft = lambda v: [round(float(p), 4) for p in torch.softmax(v, 0)]
        sig = lambda v: [round(float(p), 4) for p in torch.sigmoid(v)]
        of = of[0]
        lines = []
        for i, a in enumerate(anchors):
            lines.append({
                "at": a, "status": [round(float(p), 4) for p in status[a]], "works": sig(told["works"][i]), "yes": sig(told["yes"][i]), "unit": soft(told["unit"][i]),
                "item": {k: p for k, p in enumerate(soft(told["item"][i])) if p > 0.01},
                "own_side": [float(torch.sigmoid(told["own_side"][i, 0])), *soft(told["own_side"][i, 1:])],
                "number": [(n, p) for n, p in zip([-2, -1] + [n for n in of["number"][i]], soft(told["number"][i])) if p > 0.005],
                "size": [(n, p) for n, p in zip([-1] + [n for n in of["number"][i]], soft(told["size"][i])) if p > 0.01],
                "antecedent": [(n, p) for n, p in zip([-1] + [n for n in of["thing"][i]], soft(told["antecedent"][i])) if p > 0.01],
                "structure": [(n, p) for n, p in zip([-1] + [n for n in of["structure"][i]], soft(told["structure"][i])) if p > 0.01],
            })
        segments = []
        for i, (first, last, kind) in enumerate(parts):
            segments.append({
                "first": first, "last": last, "kind": kind,
                "own_side": [float(torch.sigmoid(told["part_side"][i, 0])), *soft(told["part_side"][i, 1:])],
                "item": [(n, p) for n, p in zip([-1] + [n for n in of["part_thing"][i]], soft(told["part_item"][i])) if p > 0.02],
                "wide": [(n, p) for n, p in zip([-1] + [n for n in of["part_amount"][i]], soft(told["wide"][i])) if p > 0.02],
                "high": [(n, p) for n, p in zip([-1] + [n for n in of["part_amount"][i]], soft(told["high"][i])) if p > 0.02],
            })
        return {"id": one["id"], "sides": [[round(float(p), 4) for p in row] for row in where], "lines": lines, "segments": segments}


def stretches(tags):
    """Runs of words that tell one thing to do or to measure: first, last, chances of the kinds."""
    runs, run = [], None
    for w, row in enumerate(tags):
        kinds = row[1:].view(-1, 2).sum(1)
        kind = int(kinds.argmax())
        if row[0] > 0.6:
            run = None
        elif run is None or run[2] != kind or float(row[1 + 2 * kind]) > 0.5:
            run = [w, w, kind, [kinds]]
            runs.append(run)
        else:
            run[1] = w
            run[3].append(kinds)
    return [(f, l, [round(float(p), 4) for p in torch.stack(k).mean(0)]) for f, l, _, k in runs]
