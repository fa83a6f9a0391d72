"""Four-bit weights: as the reader is trained to bear them, and as its file holds them."""

import json

import torch
import torch.nn as nn
import torch.nn.utils.parametrize
import torch.nn.functional as F
from safetensors.torch import save_file

GROUP = 64


def grouped(w):
    """A weight in groups along its rows; each row is filled up to whole groups."""
    rows, columns = w.shape
    return F.pad(w, (0, -columns % GROUP)).view(rows, -1, GROUP)


def levels(w):
    """The scale of each group and the level of each weight, from -7 to 7."""
    g = grouped(w)
    scale = (g.abs().amax(-1) / 7).clamp(min=1e-8).half().float()
    return scale, (g / scale[..., None]).round().clamp(-7, 7)


class Rounded(torch.autograd.Function):
    """The weight as four bits give it back; gradients pass as if nothing had been rounded."""

    @staticmethod
    def forward(ctx, w):
        scale, level = levels(w)
        return (level * scale[..., None]).view(w.shape[0], -1)[:, : w.shape[1]].to(w.dtype)

    @staticmethod
    def backward(ctx, grad):
        return grad


def fits(name, w):
    return w.dim() == 2 and w.shape[1] >= GROUP


def bear(net):
    """From now on the network computes with rounded weights."""
    for module in net.modules():
        if isinstance(module, (nn.Linear, nn.Embedding, nn.EmbeddingBag)) and fits("", module.weight):
            torch.nn.utils.parametrize.register_parametrization(module, "weight", Round())


class Round(nn.Module):
    def forward(self, w):
        return Rounded.apply(w)


def save(net, path, marks, items, pieces):
    """The reader's file: safetensors with four-bit weights as NAME.q4 and NAME.scale, and what else it needs to know."""
    tensors = {}
    for name, w in net.state_dict().items():
        name = name.replace(".parametrizations.weight.original", ".weight")
        w = w.detach().float().cpu()
        if fits(name, w):
            scale, level = levels(w)
            level = (level.view(w.shape[0], -1) + 8).to(torch.uint8)
            tensors[name + ".q4"] = (level[:, 0::2] | (level[:, 1::2] << 4)).contiguous()
            tensors[name + ".scale"] = scale.half().contiguous()
        else:
            tensors[name] = w.half().contiguous()
    told = {"form": "eavesdraft-reader/1", "marks": json.dumps(marks), "items": json.dumps(items), "pieces": json.dumps(pieces)}
    save_file(tensors, str(path), metadata=told)
