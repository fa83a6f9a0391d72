"""Reads narrations with a trained reader.

usage: read.py WEIGHTS BASE DATA OUT AUTHOR...
"""

import gzip
import json
import struct
import sys
from pathlib import Path

import torch
from safetensors.torch import load_file
from tokenizers import Tokenizer

from model import Reader
from quantize import GROUP
from said import Trained


def load(path):
    """The network of a reader's file, its marks and its items."""
    raw = open(path, "rb").read()
    told = json.loads(raw[8 : 8 + struct.unpack("<Q", raw[:8])[0]])["__metadata__"]
    marks, items, pieces = (json.loads(told[k]) for k in ("marks", "items", "pieces"))
    tensors, state = load_file(path), {}
    for name, w in tensors.items():
        if name.endswith(".q4"):
            scale = tensors[name[:-3] + ".scale"].float()
            level = torch.stack([w & 15, w >> 4], -1).view(w.shape[0], -1, GROUP).float() - 8
            state[name[:-3]] = (level * scale[..., None]).view(w.shape[0], -1)
        elif not name.endswith(".scale"):
            state[name] = w.float()
    layers = 1 + max(int(n.split(".")[2]) for n in state if n.startswith("encoder.layers."))
    net = Reader(len(pieces), len(marks) + 1, len(items) + 1, layers=layers)
    own = net.state_dict()
    net.load_state_dict({n: w[:, : own[n].shape[1]] if w.dim() == 2 else w for n, w in state.items()})
    return net.eval(), {m: i + 1 for i, m in enumerate(marks)}, {**{i: n for n, i in enumerate(items)}, None: len(items)}


if __name__ == "__main__":
    weights, base, data, out, *authors = sys.argv[1:]
    net, marks, items = load(weights)
    tokenizer = Tokenizer.from_file(str(Path(base) / "tokenizer.json"))
    tokenizer.no_truncation()
    tokenizer.no_padding()
    torch.set_num_threads(1)
    reader = Trained(net, tokenizer, marks, items, "cpu")
    done = []
    for line in gzip.open(data, "rt"):
        one = json.loads(line)
        if one["author"] in authors:
            done.append(reader.said(one, one["forms"][0]))
    json.dump(done, open(out, "w"))
