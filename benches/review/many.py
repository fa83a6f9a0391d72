#!/usr/bin/env python3
"""Measure how soon the review of very many drafts is there.

    python3 benches/review/many.py PROGRAM [--drafts N] [--folder DIR]

PROGRAM is the release build of eavesdraft. A walk with times is drafted and copied N times into a folder of its own,
each copy with another digest and name, as if N recordings had been heard. Told is, in seconds:

  start, first   from starting `review` until it prints its address, with no store yet
  start, second  the same once more, nothing having changed
  queue          asking for /api/queue, the first time after a start and the median of the next ten
  queue, act     the same after an act on one recording
  opened         asking for one recording

Goals for 10,000: second start in less than 3, queue in less than 1. Nothing but Python is needed.
"""
import argparse, hashlib, json, os, pathlib, statistics, subprocess, tempfile, time, urllib.request

PHRASES = [f"{side} elevation. {work}" for side in ("Front", "Right", "Rear", "Left") for work in (
    "Two coach lights, detach and reset.", "Gutter, eleven foot, no wait, seven foot, replace.", "Mailbox, replace.",
    "Three window screens, replace.", "Gas meter, detach and reset. Get a photo of it.", "There's a hose reel here.")]


def transcript():
    """The walk as `hear` writes it: every word with a time."""
    words = lambda n, text: [{"text": word, "start": 6 * n + 0.2 * i, "end": 6 * n + 0.2 * i + 0.2}
                             for i, word in enumerate(text.split())]
    return {"source": "walk.wav", "digest": "0" * 64, "length": 6.0 * len(PHRASES),
            "utterances": [{"words": words(n, text)} for n, text in enumerate(PHRASES)]}


def fill(program, folder, count):
    """The drafts of `count` recordings; each stands in a folder of its day's."""
    first = folder / "walk.transcript.json"
    first.write_text(json.dumps(transcript()))
    drafted = subprocess.run([program, "draft", first.name, "--json"], cwd=folder, check=True, stdout=subprocess.PIPE)
    first.unlink()
    draft, words = json.loads(drafted.stdout), transcript()
    past = time.time() - 60
    for n in range(count):
        name, day = f"walk-{n:05}", folder / f"day-{n // 100:03}"
        day.mkdir(exist_ok=True)
        same = {"source": f"{name}.wav", "digest": hashlib.sha256(name.encode()).hexdigest()}
        for ending, value in (("scope.json", draft | same), ("transcript.json", words | same)):
            path = day / f"{name}.{ending}"
            path.write_text(json.dumps(value, indent=2))
            os.utime(path, (past, past))
    return draft


def asked(address, body=None):
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(address, data=data, headers={"content-type": "application/json"} if data else {})
    begun = time.perf_counter()
    with urllib.request.urlopen(request) as answer:
        text = answer.read()
    return json.loads(text), time.perf_counter() - begun


class Served:
    def __init__(self, program, folder):
        begun = time.perf_counter()
        self.process = subprocess.Popen([program, "review", ".", "--no-browser", "--listen", "127.0.0.1:0"], cwd=folder,
                                        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.address = self.process.stdout.readline().strip()
        self.started = time.perf_counter() - begun

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait()

    def queue(self):
        return asked(f"{self.address}api/queue")

    def memory(self):
        try:
            status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
            return next(int(line.split()[1]) >> 10 for line in status.splitlines() if line.startswith("VmRSS"))
        except OSError:
            return None


def told(name, seconds):
    print(f"{name:16} {seconds:7.3f} s")


def measure(program, folder, count):
    for name in ("first", "second"):
        with Served(program, folder) as served:
            told(f"start, {name}", served.started)
            listed, first = served.queue()
            assert len(listed["recordings"]) == count, len(listed["recordings"])
            told("queue, first", first)
            told("queue, median", statistics.median(served.queue()[1] for _ in range(10)))
            recording = f"{served.address}api/recordings/{listed['recordings'][count // 2]['id']}"
            scope, opened = asked(recording)
            told("opened", opened)
            line = next(line for line in scope["lines"] if line["state"] == "open")
            command = {"do": "drop", "lines": [line["id"]], "reason": "not seen"}
            asked(f"{recording}/events", {"who": "Bea", "seen": {line["id"]: line["version"]}, "command": command})
            told("queue, act", served.queue()[1])
            print(f"memory           {served.memory()} MB")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", type=pathlib.Path)
    parser.add_argument("--drafts", type=int, default=10_000)
    parser.add_argument("--folder", help="where the folder is made, which is removed in the end")
    args = parser.parse_args()
    program = args.program.resolve()
    with tempfile.TemporaryDirectory(dir=args.folder) as folder:
        draft = fill(program, pathlib.Path(folder), args.drafts)
        print(f"{args.drafts} drafts of {len(draft['lines'])} lines")
        measure(program, pathlib.Path(folder), args.drafts)


if __name__ == "__main__":
    main()
