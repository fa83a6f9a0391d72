"""The reader: a small pretrained language model over windows of the words, the rules' marks on them, a running memory over the
whole narration, and heads for what is asked of each word. `src/language/reader` computes the same."""

import math

import torch
import torch.nn as nn
import torch.nn.functional as F

from targets import SEGMENTS, SIDES, UNITS, WORKS

WINDOW, STRIDE = 254, 190
PAIR = 64
DISTANCES, BETWEEN, SENTENCES, ROLES = 24, 6, 4, 4
PAIR_MARKS = DISTANCES + BETWEEN + SENTENCES + ROLES


class Encoder(nn.Module):
    """A transformer as all-MiniLM-L6-v2 is one."""

    def __init__(self, vocabulary, width=384, layers=6, heads=12, inner=1536, places=256):
        super().__init__()
        self.words = nn.Embedding(vocabulary, width)
        self.places = nn.Embedding(places, width)
        self.norm = nn.LayerNorm(width, eps=1e-12)
        self.layers = nn.ModuleList(Layer(width, heads, inner) for _ in range(layers))
        self.drop = nn.Dropout(0.1)

    def forward(self, ids, mask):
        h = self.words(ids) + self.places.weight[: ids.shape[1]]
        h = self.drop(self.norm(h))
        for layer in self.layers:
            h = layer(h, mask)
        return h


class Layer(nn.Module):
    def __init__(self, width, heads, inner):
        super().__init__()
        self.heads = heads
        self.query, self.key, self.value, self.out = (nn.Linear(width, width) for _ in range(4))
        self.norm1, self.norm2 = nn.LayerNorm(width, eps=1e-12), nn.LayerNorm(width, eps=1e-12)
        self.inner, self.outer = nn.Linear(width, inner), nn.Linear(inner, width)
        self.drop = nn.Dropout(0.1)

    def forward(self, h, mask):
        b, t, w = h.shape
        cut = lambda x: x.view(b, t, self.heads, -1).transpose(1, 2)
        a = F.scaled_dot_product_attention(cut(self.query(h)), cut(self.key(h)), cut(self.value(h)), attn_mask=mask[:, None, None, :])
        h = self.norm1(h + self.drop(self.out(a.transpose(1, 2).reshape(b, t, w))))
        return self.norm2(h + self.drop(self.outer(F.gelu(self.inner(h)))))


class Memory(nn.Module):
    """A running average both ways, of which each word says how much of it to keep."""

    def __init__(self, width, inner):
        super().__init__()
        self.both = nn.Linear(width, 4 * inner)
        self.inner = inner
        with torch.no_grad():
            self.both.bias[: 2 * inner] = -1.0

    def forward(self, x, mask):
        z, c = self.both(x).float().split(2 * self.inner, -1)
        z = torch.sigmoid(z) * mask[..., None]
        b = z * torch.tanh(c)
        a = 1 - z
        there = scan(a[..., : self.inner], b[..., : self.inner])
        back = scan(a[..., self.inner :].flip(1), b[..., self.inner :].flip(1)).flip(1)
        return torch.cat([there, back], -1)


def scan(a, b):
    """h[t] = a[t] h[t-1] + b[t], in a tree."""
    step = 1
    while step < a.shape[1]:
        b = torch.cat([b[:, :step], b[:, step:] + a[:, step:] * b[:, :-step]], 1)
        a = torch.cat([a[:, :step], a[:, step:] * a[:, :-step]], 1)
        step *= 2
    return b


class Pointer(nn.Module):
    """The chance of each candidate for a query, beside those of some fixed answers."""

    def __init__(self, query, key, fixed):
        super().__init__()
        self.query, self.key = nn.Linear(query, PAIR), nn.Linear(key, PAIR)
        self.fixed = nn.Linear(query, fixed)
        self.marks = nn.Embedding(PAIR_MARKS, 1)
        nn.init.zeros_(self.marks.weight)

    def forward(self, query, keys, which, marks, mask):
        """`which`: candidates of each query (Q, K) among keys; `marks` (Q, K, 4); `mask` where there is one."""
        fixed = self.fixed(query)
        if which.shape[1] == 0:
            return fixed.float()
        k = self.key(keys)[which]
        near = torch.einsum("qd,qkd->qk", self.query(query), k) / math.sqrt(PAIR) + self.marks(marks)[..., 0].sum(-1)
        return torch.cat([fixed, near.masked_fill(~mask, -1e4)], 1).float()


class Reader(nn.Module):
    def __init__(self, vocabulary, marks, items, layers=6, width=384, memory=192, inner=256):
        super().__init__()
        self.encoder = Encoder(vocabulary, width, layers)
        self.marks = nn.EmbeddingBag(marks, width, mode="sum")
        nn.init.normal_(self.marks.weight, std=0.01)
        self.memory1, self.memory2 = Memory(width, memory), Memory(2 * memory, memory)
        w = width + 2 * memory
        self.norm = nn.LayerNorm(w)
        self.drop = nn.Dropout(0.2)
        self.status, self.tags = nn.Linear(w, 3), nn.Linear(w, 1 + 2 * len(SEGMENTS))
        self.move, self.stay = nn.Linear(w, 5), nn.Linear(w, 5)
        nn.init.constant_(self.move.bias, -3.0)
        self.start = nn.Parameter(torch.tensor([-1.0, -3.0, -3.0, -3.0, 0.0]))
        self.join = nn.Sequential(nn.Linear(2 * w, inner), nn.GELU(), nn.Dropout(0.2))
        self.works, self.unit = nn.Linear(inner, len(WORKS)), nn.Linear(inner, len(UNITS))
        self.yes = nn.Linear(inner, 2)  # only_if, look
        self.item = nn.Linear(inner, items)
        self.own_side = nn.Linear(inner, 6)  # how much its words say the side themselves, and which
        self.number, self.size = Pointer(inner, w, 2), Pointer(inner, w, 1)
        self.antecedent, self.structure = Pointer(inner, w, 1), Pointer(inner, w, 1)
        self.part = nn.Sequential(nn.Linear(w, inner), nn.GELU(), nn.Dropout(0.2))
        self.part_side = nn.Linear(inner, 6)
        self.part_item, self.wide, self.high = Pointer(inner, w, 1), Pointer(inner, 2 * w, 1), Pointer(inner, 2 * w, 1)

    def read(self, x):
        """Vectors of all words, padded: (B, T, w)."""
        h = self.encoder(x["ids"], x["attend"])
        h = h.reshape(-1, h.shape[-1])[x["piece"]]
        words = torch.zeros(x["words"], h.shape[-1], device=h.device, dtype=h.dtype).index_add_(0, x["word"], h * x["share"][:, None].to(h.dtype))
        words = words + self.marks(x["marks"], x["marks_at"]).to(h.dtype)
        padded = torch.zeros(x["mask"].shape[0] * x["mask"].shape[1], words.shape[-1], device=h.device, dtype=words.dtype)
        padded[x["slot"]] = words
        padded = self.drop(padded.view(*x["mask"].shape, -1))
        m = self.memory1(padded, x["mask"])
        m = self.memory2(self.drop(m), x["mask"]) + m
        return self.drop(self.norm(torch.cat([padded.float(), m], -1)))

    def pooled(self, w, first, last):
        """The mean of a stretch of words, flat places."""
        sums = torch.cat([torch.zeros_like(w[:1]), w.cumsum(0)], 0)
        return (sums[last + 1] - sums[first]) / (last + 1 - first)[:, None]

    def forward(self, x):
        w = self.read(x)
        flat = w.reshape(-1, w.shape[-1])
        out = {"status": self.status(w).float(), "tags": self.tags(w).float(), "move": self.move(w).float(), "stay": self.stay(w).float()}
        amounts = self.pooled(flat, x["amount_first"], x["amount_last"])
        things = self.pooled(flat, x["thing_first"], x["thing_last"])
        named = self.pooled(flat, x["structure_first"], x["structure_last"])
        q = x["anchor"]
        before = flat[x["anchor_before"]]
        a = self.join(torch.cat([flat[q], before], -1))
        out |= {"works": self.works(a).float(), "unit": self.unit(a).float(), "yes": self.yes(a).float(), "item": self.item(a).float(), "own_side": self.own_side(a).float()}
        out["number"] = self.number(a, amounts, *x["number"])
        out["size"] = self.size(a, amounts, *x["number"])
        out["antecedent"] = self.antecedent(a, things, *x["thing"])
        out["structure"] = self.structure(a, named, *x["structure"])
        p = self.part(self.pooled(flat, x["part_first"], x["part_last"]))
        out["part_side"] = self.part_side(p).float()
        out["part_item"] = self.part_item(p, things, *x["part_thing"])
        lengths = torch.stack([F.pad(amounts, (0, amounts.shape[1])), F.pad(amounts, (amounts.shape[1], 0))], 1).reshape(-1, 2 * amounts.shape[1])
        out["wide"] = self.wide(p, lengths, *x["part_amount"])
        out["high"] = self.high(p, lengths, *x["part_amount"])
        return out


def chain(move, stay, start, mask, seen=None):
    """The log of the summed weight of all walks; `seen` (B, T, 5) weighs the sides at words."""
    same = torch.eye(5, dtype=torch.bool, device=move.device)
    here = stay * 0.3 + (seen if seen is not None else 0.0)
    first = start + here[:, 0]
    steps = torch.where(same, torch.zeros((), device=move.device), move[:, :, None, :]) + here[:, :, None, :]
    still = torch.where(same, 0.0, -1e4)
    steps = torch.where(mask[:, :, None, None], steps, still)[:, 1:]
    while steps.shape[1] > 1:
        if steps.shape[1] % 2:
            steps = torch.cat([steps, still.expand(steps.shape[0], 1, 5, 5)], 1)
        steps = torch.logsumexp(steps[:, 0::2, :, :, None] + steps[:, 1::2, None, :, :], 3)
    if steps.shape[1] == 0:
        return torch.logsumexp(first, 1)
    return torch.logsumexp(first[:, :, None] + steps[:, 0], (1, 2))


def sides(move, stay, start, count):
    """The chance of each side at each word of one narration, forward and backward."""
    move, stay = move[:count].double().cpu(), stay[:count].double().cpu() * 0.3
    start = start.double().cpu()
    same = torch.eye(5, dtype=torch.bool)
    steps = torch.where(same, 0.0, move[:, None, :]) + stay[:, None, :]
    ahead, behind = [start + stay[0]], [torch.zeros(5, dtype=torch.double)]
    for t in range(1, count):
        ahead.append(torch.logsumexp(ahead[-1][:, None] + steps[t], 0))
    for t in range(count - 1, 0, -1):
        behind.append(torch.logsumexp(steps[t] + behind[-1][None], 1))
    return torch.softmax(torch.stack(ahead) + torch.stack(behind[::-1]), -1)
