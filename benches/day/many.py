"""Makes a folder of many stored transcripts, each with a digest and a name of its own, and drafts it with `day`.

    python3 benches/day/many.py PROGRAM FOLDER NUMBER

FOLDER is made, and must not be there yet. The words are those of tests/narrations/heard.
"""

import hashlib
import json
import os
import sys
import time
import subprocess

HEARD = os.path.join(os.path.dirname(__file__), "..", "..", "tests", "narrations", "heard")


def spelled_out(utterances):
    """Utterances as `hear` writes them; the stored ones are shortened to lists."""
    fields = ("text", "start", "end", "probability")
    return [{"words": [dict(zip(fields, word)) for word in words]} for [words] in utterances]


def main(program, folder, number):
    program = os.path.abspath(program)
    words = []
    for at, _, names in sorted(os.walk(HEARD)):
        for name in sorted(names):
            if name.endswith(".json"):
                with open(os.path.join(at, name), encoding="utf-8") as file:
                    transcript = json.load(file)
                words.append(transcript | {key: spelled_out(transcript.get(key, [])) for key in ("utterances", "heard_again")})
    total = 0
    for n in range(int(number)):
        transcript = words[n % len(words)]
        at = os.path.join(folder, f"week {n // 500 + 1}")
        os.makedirs(at, exist_ok=True)
        digest = hashlib.sha256(f"recording {n}".encode()).hexdigest()
        name = f"{n + 1} Elm Street"
        # The order of the program's own files: source and digest first.
        one = {"source": f"{name}.m4a", "digest": digest, **{k: v for k, v in transcript.items() if k not in ("source", "digest")}}
        total += sum(len(utterance["words"]) for utterance in transcript["utterances"])
        with open(os.path.join(at, f"{name}.transcript.json"), "w", encoding="utf-8") as file:
            json.dump(one, file)
    print(f"{number} transcripts, {total} words", flush=True)
    for run in ("first", "second"):
        begun = time.monotonic()
        code = subprocess.run([program, "day", folder, "--still", "0"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode
        wall = time.monotonic() - begun
        print(f"{run} run: {wall:.1f} s, {int(number) / wall:.0f} transcripts/s, exit code {code}", flush=True)
    store = os.path.getsize(os.path.join(folder, "eavesdraft.sqlite"))
    print(f"store: {store / 1e6:.0f} MB", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
