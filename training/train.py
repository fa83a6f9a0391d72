"""Trains the reader.

usage: train.py DATA OUT [--fold K/N] [--passes N] [--layers N] [--seed N] [--base FOLDER] [--predict FILE]

DATA holds narrations a line, as examples/reader_input.rs writes them, each with its author and its variants.
With --fold the authors of fold K of N are left out, and what the reader says of them is written to OUT/read-K.json.
"""

import argparse
import gzip
import json
import math
import random
import time
from pathlib import Path

import torch
import torch.nn as nn
from safetensors.torch import load_file, save_file
from tokenizers import Tokenizer

from batch import Example, collate, moved
from losses import answers, loss
from model import Reader, sides
from targets import Targets

parser = argparse.ArgumentParser()
parser.add_argument("data")
parser.add_argument("out")
parser.add_argument("--fold")
parser.add_argument("--passes", type=int, default=24)
parser.add_argument("--layers", type=int, default=6)
parser.add_argument("--seed", type=int, default=0)
parser.add_argument("--batch", type=int, default=6)
parser.add_argument("--rate", type=float, default=6e-5)
parser.add_argument("--base", default="base")
parser.add_argument("--limit", type=int)
parser.add_argument("--save", action="store_true")
parser.add_argument("--workers", type=int, default=2)
parser.add_argument("--threads", type=int, default=2)
parser.add_argument("--name", default="")
args = parser.parse_args()
torch.set_num_threads(args.threads)
device = "cuda" if torch.cuda.is_available() else "cpu"
random.seed(args.seed)
torch.manual_seed(args.seed)
out = Path(args.out)
out.mkdir(parents=True, exist_ok=True)

opened = gzip.open(args.data, "rt") if args.data.endswith(".gz") else open(args.data)
data = [json.loads(line) for line in opened]
settings = json.load(open(Path(args.data).parent / "settings.json"))
tokenizer = Tokenizer.from_file(str(Path(args.base) / "tokenizer.json"))
tokenizer.no_truncation()
tokenizer.no_padding()
marks = {m: i + 1 for i, m in enumerate(settings["marks"])}
items = {i: n for n, i in enumerate(settings["items"])}
items[None] = len(settings["items"])

fold = None
if args.fold:
    fold = [int(x) for x in args.fold.split("/")]
    held = set(settings["folds"][fold[0]])
else:
    held = set()
training, apart = [], []
for one in data:
    if args.limit and len(training) >= args.limit:
        break
    if one["author"] in held:
        apart.append(one)
    elif one["author"] not in settings["aside"]:
        forms = []
        for form in one["forms"]:
            read = {"id": one["id"], "input": form["input"], "text": form.get("text", one["text"]), "labels": form.get("labels", one["labels"])}
            forms.append(Example(read, tokenizer, marks, items, Targets(read)))
        training.append(forms)
print(len(training), "narrations to learn,", len(apart), "left out", flush=True)

net = Reader(tokenizer.get_vocab_size(), len(marks) + 1, len(items), layers=args.layers)
weights = load_file(str(Path(args.base) / "model.safetensors"))
state = {}
state["words.weight"] = weights["embeddings.word_embeddings.weight"]
state["places.weight"] = weights["embeddings.position_embeddings.weight"] + weights["embeddings.token_type_embeddings.weight"][0]
state["norm.weight"], state["norm.bias"] = weights["embeddings.LayerNorm.weight"], weights["embeddings.LayerNorm.bias"]
names = {"query": "attention.self.query", "key": "attention.self.key", "value": "attention.self.value", "out": "attention.output.dense",
         "norm1": "attention.output.LayerNorm", "inner": "intermediate.dense", "outer": "output.dense", "norm2": "output.LayerNorm"}
keep = {6: [0, 1, 2, 3, 4, 5], 5: [0, 1, 2, 3, 5], 4: [0, 1, 3, 5], 3: [0, 2, 5]}[args.layers]
for n, layer in enumerate(keep):
    for ours, theirs in names.items():
        for part in ("weight", "bias"):
            state[f"layers.{n}.{ours}.{part}"] = weights[f"encoder.layer.{layer}.{theirs}.{part}"]
net.encoder.load_state_dict({k: v.float() for k, v in state.items()})
net.to(device)

inner = list(net.encoder.parameters())
known = {id(p) for p in inner}
outer = [p for p in net.parameters() if id(p) not in known]
optimizer = torch.optim.AdamW([{"params": inner, "lr": args.rate}, {"params": outer, "lr": 1e-3}], weight_decay=0.01, fused=device == "cuda")
steps = args.passes * math.ceil(len(training) / args.batch)
schedule = torch.optim.lr_scheduler.LambdaLR(optimizer, lambda k: min(1, (k + 1) / 100) * max(0.02, 1 - k / steps))
net.train()
began = time.time()


class Batches(torch.utils.data.IterableDataset):
    """Every narration once, in a form of its own, in random order: the share of one worker."""

    def __init__(self, turn):
        self.turn = turn

    def __iter__(self):
        info = torch.utils.data.get_worker_info()
        order = list(range(len(training)))
        rng = random.Random(args.seed * 1000 + self.turn)
        rng.shuffle(order)
        for n, at in enumerate(range(0, len(order), args.batch)):
            chosen = [rng.choice(training[i]) for i in order[at : at + args.batch]]
            noise = random.Random(rng.random())
            if info is None or n % info.num_workers == info.id:
                x, of = collate(chosen, 0.06, noise)
                yield x, answers(chosen, x, of)


for turn in range(args.passes):
    sums = {}
    for x, y in torch.utils.data.DataLoader(Batches(turn), batch_size=None, num_workers=args.workers):
        x, y = moved(x, device), moved(y, device)
        with torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
            told = net(x)
        parts = loss(net, x, y, told)
        optimizer.zero_grad(set_to_none=True)
        sum(parts.values()).backward()
        nn.utils.clip_grad_norm_(net.parameters(), 1.0)
        optimizer.step()
        schedule.step()
        for k, v in parts.items():
            sums[k] = sums.get(k, 0.0) + v.detach()
    if turn % 4 == 3 or turn == args.passes - 1 or turn < 2:
        print(f"{args.name} pass {turn} {time.time() - began:.0f} s", " ".join(f"{k} {float(v) / math.ceil(len(training) / args.batch):.3f}" for k, v in sums.items()), flush=True)
net.eval()


def said(one, form, least=0.1):
    """All that the reader says of a narration."""
    read = {"id": one["id"], "input": form["input"]}
    with torch.no_grad(), torch.autocast(device, dtype=torch.bfloat16, enabled=device == "cuda"):
        bare = Example(read, tokenizer, marks, items, anchors=[0], parts=[(0, 0)])
        x, _ = collate([bare])
        x = moved(x, device)
        told = net(x)
        status = torch.softmax(told["status"][0, : bare.count], 1).cpu()
        tags = torch.softmax(told["tags"][0, : bare.count], 1).cpu()
        where = sides(told["move"][0], told["stay"][0], net.start, bare.count)
        wanted = {t["last"] for t in form["input"]["things"]}
        anchors = [w for w in range(bare.count) if w in wanted or status[w, 0] < 1 - least]
        parts = stretches(tags)
        full = Example(read, tokenizer, marks, items, anchors=anchors, parts=[(f, l) for f, l, _ in parts])
        x, of = collate([full])
        x = moved(x, device)
        told = net(x)
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


if apart:
    began = time.time()
    json.dump([said(one, one["forms"][0]) for one in apart], open(out / f"read-{args.name}{fold[0]}.json", "w"))
    print("read", len(apart), "in", round(time.time() - began), "s")
if args.save:
    save_file({k: v.half() for k, v in net.state_dict().items()}, str(out / f"reader-{args.name}.safetensors"))
