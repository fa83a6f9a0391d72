"""Makes the training data: each labelled narration as it is written, and as captions are (no capitals, no marks).

usage: prepare.py OUT READER_INPUT NARRATIONS.jsonl... [--aside AUTHOR...] [--folds N]
"""

import argparse
import gzip
import json
import re
import subprocess
from collections import Counter
from pathlib import Path

parser = argparse.ArgumentParser()
parser.add_argument("out")
parser.add_argument("reader_input")
parser.add_argument("narrations", nargs="+")
parser.add_argument("--aside", nargs="*", default=[])
parser.add_argument("--folds", type=int, default=5)
args = parser.parse_args()

KEYS = ("lines", "no_work", "follow_ups", "dimensions", "moves")


def plain(text):
    """As captions are written: the same words, no capitals, no marks."""
    return re.sub(r"\S+", lambda m: m[0].lower().strip('.,;:!?"()…') or m[0], text)


def read(narrations):
    lines = "\n".join(json.dumps({"id": n["id"], "text": n["text"]}) for n in narrations)
    done = subprocess.run([args.reader_input], input=lines, capture_output=True, text=True, check=True)
    return [json.loads(line) for line in done.stdout.splitlines()]


data = [json.loads(line) for path in args.narrations for line in open(path)]
forms = [("written", [n["text"] for n in data]), ("captions", [plain(n["text"]) for n in data])]
for kind, texts in forms:
    heard = read([{"id": n["id"], "text": t} for n, t in zip(data, texts)])
    for n, text, got in zip(data, texts, heard):
        if kind == "captions" and text == n["text"]:
            continue
        n.setdefault("read", []).append({"kind": kind, "input": got["input"]})
        if kind == "written":
            n["draft"] = got["draft"]
marks, items = Counter(), Counter()
for n in data:
    for form in n["read"]:
        for word in form["input"]["marks"]:
            marks.update(word)
catalogue = json.loads(subprocess.run([args.reader_input, "--items"], capture_output=True, text=True, check=True).stdout)
lines = Counter()
for n in data:
    lines[n["author"]] += len(n["labels"]["lines"])
folds = [[] for _ in range(args.folds)]
weight = [0] * args.folds
for author in sorted((a for a in lines if a not in args.aside), key=lambda a: (-lines[a], a)):
    k = weight.index(min(weight))
    folds[k].append(author)
    weight[k] += lines[author]
out = Path(args.out)
out.mkdir(parents=True, exist_ok=True)
json.dump({"marks": sorted(m for m, c in marks.items() if c >= 5), "items": catalogue, "folds": folds, "aside": args.aside}, open(out / "settings.json", "w"))
with gzip.open(out / "data.jsonl.gz", "wt", compresslevel=6) as f:
    for n in data:
        f.write(json.dumps({"id": n["id"], "kind": n.get("kind"), "author": n["author"], "text": n["text"], "labels": {k: n["labels"].get(k, []) for k in KEYS}, "forms": n["read"]}) + "\n")
json.dump({n["id"]: n["draft"] for n in data}, open(out / "drafts.json", "w"))
print(len(data), "narrations;", "folds", weight)
