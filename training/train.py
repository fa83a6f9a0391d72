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
from safetensors.torch import load_file
from tokenizers import Tokenizer

from batch import Example, collate, moved
import quantize
from losses import answers, loss
from model import WINDOW, Reader
from said import Trained
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
parser.add_argument("--bits", action="store_true")
parser.add_argument("--read", action="store_true")
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
state["places.weight"] = weights["embeddings.position_embeddings.weight"][: WINDOW + 2] + weights["embeddings.token_type_embeddings.weight"][0]
state["norm.weight"], state["norm.bias"] = weights["embeddings.LayerNorm.weight"], weights["embeddings.LayerNorm.bias"]
names = {"query": "attention.self.query", "key": "attention.self.key", "value": "attention.self.value", "out": "attention.output.dense",
         "norm1": "attention.output.LayerNorm", "inner": "intermediate.dense", "outer": "output.dense", "norm2": "output.LayerNorm"}
for n in range(args.layers):
    for ours, theirs in names.items():
        for part in ("weight", "bias"):
            state[f"layers.{n}.{ours}.{part}"] = weights[f"encoder.layer.{n}.{theirs}.{part}"]
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
    if args.bits and turn == args.passes * 2 // 3:
        quantize.bear(net)
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

if apart and args.read:
    began = time.time()
    json.dump([Trained(net, tokenizer, marks, items, device).said(one, one["forms"][0]) for one in apart], open(out / f"read-{args.name}{fold[0]}.json", "w"))
    print("read", len(apart), "in", round(time.time() - began), "s")
if args.save:
    pieces = [p for p, _ in sorted(tokenizer.get_vocab().items(), key=lambda x: x[1])]
    quantize.save(net, out / f"reader-{args.name}{fold[0] if fold else ''}.safetensors", settings["marks"], settings["items"], pieces)
