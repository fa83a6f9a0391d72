"""Cuts the base model's vocabulary down to what narrations need.

usage: prune.py BASE OUT FIRST NARRATIONS.jsonl...

Kept are the special and single-letter pieces, the FIRST most frequent ones, and those that words of the narrations and of a list of
everyday names are cut into. A word that loses its piece is cut into smaller ones.
"""

import json
import sys
from pathlib import Path

from safetensors.torch import load_file, save_file
from tokenizers import Tokenizer

base, out, first = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
full = json.load(open(base / "tokenizer.json"))
tokenizer = Tokenizer.from_file(str(base / "tokenizer.json"))
vocabulary = full["model"]["vocab"]
used = set()
for path in sys.argv[4:]:
    for line in open(path):
        for word in json.loads(line)["text"].split():
            used.update(tokenizer.encode(word, add_special_tokens=False).ids)
letter = lambda piece: len(piece.removeprefix("##")) == 1
keep = [(i, p) for p, i in vocabulary.items() if i in used or p.startswith("[") and not p.startswith("[unused") or (letter(p) and ord(p[-1]) < 256) or (1000 <= i < first)]
keep.sort()
# The program needs [PAD] first.
full["model"]["vocab"] = {p: n for n, (_, p) in enumerate(keep)}
for token in full["added_tokens"]:
    token["id"] = full["model"]["vocab"][token["content"]]
post = full["post_processor"]
if post and "special_tokens" in post:
    for token in post["special_tokens"].values():
        token["ids"] = [full["model"]["vocab"][t] for t in token["tokens"]]
out.mkdir(parents=True, exist_ok=True)
json.dump(full, open(out / "tokenizer.json", "w"))
weights = {k: v.half() for k, v in load_file(str(base / "model.safetensors")).items() if v.is_floating_point() and not k.startswith("pooler")}
weights["embeddings.word_embeddings.weight"] = weights["embeddings.word_embeddings.weight"][[i for i, _ in keep]].contiguous()
save_file(weights, str(out / "model.safetensors"))
print(len(keep), "pieces kept of", len(vocabulary), "; used", len(used))
