"""Makes a folder of many stored transcripts, each with a digest and a name of its own, and drafts it with `day`.

    python3 benches/day/many.py PROGRAM FOLDER NUMBER [POOL]

FOLDER is made, and must not be there yet. The words are those of tests/narrations/recogniser. With POOL, a folder that is
made, too, the words are there, FOLDER has recordings that nothing needs to hear, and `pool gather` drafts them.
"""

import hashlib
import json
import os
import sys
import time
import subprocess

HEARD = os.path.join(os.path.dirname(__file__), "..", "..", "tests", "narrations", "recogniser")


def spelled_out(utterances):
    """Utterances as `hear` writes them; the stored ones are shortened to lists."""
    fields = ("text", "start", "end", "probability")
    return [{"words": [dict(zip(fields, word)) for word in words]} for [words] in utterances]


FINGERPRINT = hashlib.sha256(b"a recogniser").hexdigest()


def put(folder, pool, name, n, transcript):
    """A transcript in the folder; or a recording there, and its words in the pool."""
    recording = f"recording {n}".encode()
    digest = hashlib.sha256(recording).hexdigest()
    # The order of the program's own files: source and digest first.
    rest = {key: value for key, value in transcript.items() if key not in ("source", "digest")}
    one = {"source": f"{name}.m4a", "digest": digest, **rest}
    file = os.path.join(folder, f"{name}.transcript.json")
    if pool:
        with open(os.path.join(folder, f"{name}.m4a"), "wb") as sound:
            sound.write(recording)
        file = os.path.join(pool, "words", FINGERPRINT, f"{digest}.json")
        os.makedirs(os.path.dirname(file), exist_ok=True)
    with open(file, "w", encoding="utf-8") as words:
        json.dump(one, words)


def main(program, folder, number, pool=None):
    program = os.path.abspath(program)
    words = []
    for at, _, names in sorted(os.walk(HEARD)):
        for name in sorted(names):
            if name.endswith(".transcript.json"):
                with open(os.path.join(at, name), encoding="utf-8") as file:
                    transcript = json.load(file)
                words.append(transcript | {key: spelled_out(transcript.get(key, [])) for key in ("utterances", "heard_again")})
    total = 0
    for n in range(int(number)):
        transcript = words[n % len(words)]
        at = os.path.join(folder, f"week {n // 500 + 1}")
        os.makedirs(at, exist_ok=True)
        total += sum(len(utterance["words"]) for utterance in transcript["utterances"])
        put(at, pool, f"{n + 1} Elm Street", n, transcript)
    print(f"{number} transcripts, {total} words", flush=True)
    for run in ("first", "second"):
        begun = time.monotonic()
        command = ["pool", "gather", folder, pool] if pool else ["day", folder]
        code = subprocess.run([program, *command, "--still", "0"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode
        wall = time.monotonic() - begun
        print(f"{run} run: {wall:.1f} s, {int(number) / wall:.0f} transcripts/s, exit code {code}", flush=True)
    store = os.path.getsize(os.path.join(folder, "eavesdraft.sqlite"))
    print(f"store: {store / 1e6:.0f} MB", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
