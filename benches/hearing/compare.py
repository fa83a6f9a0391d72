#!/usr/bin/env python3
"""Hear recordings with Eavesdraft and with faster-whisper in turns, and compare time, memory and word errors.

usage: compare.py PROGRAM MODEL_DIR RECORDING... [--rounds N] [--busy]

PROGRAM is the release build of eavesdraft; MODEL_DIR a folder with the model of faster-whisper (model.bin,
config.json, tokenizer.json, vocabulary.json: the same weights, from the packages that models.md names). Beside each
RECORDING.wav the words that were spoken may stand, as RECORDING.spoken.txt. --busy lets another program keep one core
busy. Needs Python 3 and requirements.txt, and GNU time.
"""
import argparse, json, os, re, subprocess, sys, tempfile, time, wave

PEER = r"""
import sys, json, time
from faster_whisper import WhisperModel
model = WhisperModel(sys.argv[1], device="cpu", compute_type="int8", cpu_threads=2)
heard = {}
for path in sys.argv[2:]:
    segments, _ = model.transcribe(path, language="en", beam_size=1, vad_filter=True)
    heard[path] = " ".join(s.text for s in segments)
print(json.dumps(heard))
"""
FILLERS = {"uh", "um", "hmm", "er", "ah", "mm", "hm"}
ONES = ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen").split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()


def spelled(number):
    if number < 20:
        return [ONES[number]]
    if number < 100:
        return [TENS[number // 10 - 2]] + (spelled(number % 10) if number % 10 else [])
    if number < 1000:
        return [ONES[number // 100], "hundred"] + (spelled(number % 100) if number % 100 else [])
    return spelled(number // 1000) + ["thousand"] + (spelled(number % 1000) if number % 1000 else [])


def plain(text):
    """Words without capitals, marks and hesitations, numbers spelled out."""
    words = []
    for word in re.sub(r"(\d)x(\d)", r"\1 by \2", text.lower().replace("-", " ")).split():
        word = re.sub(r"[^a-z0-9']", "", word).strip("'")
        if word.isdigit() and int(word) < 1_000_000:
            words += spelled(int(word))
        elif word and word not in FILLERS:
            words.append(word)
    return words


def errors(wanted, heard):
    row = list(range(len(heard) + 1))
    for n, want in enumerate(wanted):
        diagonal, row[0] = row[0], n + 1
        for m, got in enumerate(heard):
            diagonal, row[m + 1] = row[m + 1], min(diagonal + (want != got), row[m] + 1, row[m + 1] + 1)
    return row[-1]


def seconds(path):
    with wave.open(path) as recording:
        return recording.getnframes() / recording.getframerate()


def timed(command):
    """The output of a command, its wall time in seconds and its memory at the peak in MB."""
    with tempfile.NamedTemporaryFile("r") as told:
        start = time.monotonic()
        out = subprocess.run(["/usr/bin/time", "-f", "%M", "-o", told.name, *command], check=True, text=True,
                             stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
        return out, time.monotonic() - start, int(told.read()) / 1024


def ours(program, paths):
    with tempfile.TemporaryDirectory() as out:
        _, took, peak = timed([program, "draft", *paths, "--out", out])
        heard = {}
        for path in paths:
            stem = os.path.splitext(os.path.basename(path))[0]
            transcript = json.load(open(f"{out}/{stem}.transcript.json"))
            heard[path] = " ".join(w["text"] for u in transcript["utterances"] for w in u["words"])
        return heard, took, peak


def peers(model, paths):
    out, took, peak = timed([sys.executable, "-c", PEER, model, *paths])
    return json.loads(out), took, peak


def main():
    ap = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ap.add_argument("program"); ap.add_argument("model"); ap.add_argument("recordings", nargs="+")
    ap.add_argument("--rounds", type=int, default=2); ap.add_argument("--busy", action="store_true")
    a = ap.parse_args()
    length = sum(map(seconds, a.recordings))
    busy = subprocess.Popen([sys.executable, "-c", "while True: pass"]) if a.busy else None
    try:
        for turn in range(a.rounds):
            for name, hear in (("eavesdraft", lambda: ours(a.program, a.recordings)),
                               ("faster-whisper", lambda: peers(a.model, a.recordings))):
                heard, took, peak = hear()
                wrong = said = 0
                for path in a.recordings:
                    words = os.path.splitext(path)[0] + ".spoken.txt"
                    if os.path.exists(words):
                        wanted = plain(open(words).read())
                        wrong, said = wrong + errors(wanted, plain(heard[path])), said + len(wanted)
                rate = f"{100 * wrong / said:.1f} % of {said} words wrong" if said else "words not known"
                print(f"round {turn + 1}  {name:14}  {length:.0f} s of sound in {took:.1f} s = {took / length:.4f}"
                      f"  {peak:.0f} MB  {rate}", flush=True)
    finally:
        if busy:
            busy.kill()


if __name__ == "__main__":
    sys.exit(main())
