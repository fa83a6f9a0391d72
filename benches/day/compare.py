"""Hears and drafts a folder of recordings with `day`, and with a shell loop over `draft`, and tells what each took.

    python3 benches/day/compare.py PROGRAM FOLDER

FOLDER is copied, so that nothing is written into it. Memory is that of the largest process.
"""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time

SOUND = (".wav", ".m4a", ".mp3", ".flac", ".ogg", ".opus")


def took(command):
    """Wall time, processor time and peak memory of a command and its children."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    told = process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    wall = time.monotonic() - begun
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    processor = used.ru_utime + used.ru_stime or (after.ru_utime - before.ru_utime)
    return wall, processor, used.ru_maxrss / 1024, os.waitstatus_to_exitcode(status), told


def report(name, wall, processor, peak, code, sound):
    print(
        f"{name}: {wall:.0f} s, {sound / wall:.1f} times as fast as spoken, "
        f"{100 * processor / wall / os.cpu_count():.0f} % of {os.cpu_count()} cores, {peak:.0f} MB at the peak, exit code {code}",
        flush=True,
    )


def main(program, folder):
    program = os.path.abspath(program)
    with tempfile.TemporaryDirectory() as top:
        day = os.path.join(top, "day")
        shutil.copytree(folder, day)
        wall, processor, peak, code, told = took([program, "day", day])
        sound = heard(program, day)
        report("day", wall, processor, peak, code, sound)
        print(told.strip())
        wall, processor, peak, code, _ = took([program, "day", day])
        print(f"day once more: {wall:.1f} s, exit code {code}")

        loop = os.path.join(top, "loop")
        shutil.copytree(folder, loop)
        files = sorted(
            os.path.join(at, name) for at, _, names in os.walk(loop) for name in names if name.endswith(SOUND)
        )
        begun = time.monotonic()
        processor, peak = 0, 0
        for file in files:
            _, one, most, _, _ = took([program, "draft", file])
            processor, peak = processor + one, max(peak, most)
        report("loop over draft", time.monotonic() - begun, processor, peak, "-", sound)


def heard(program, folder):
    """Seconds of sound in the folder's drafts, each recording once."""
    import json

    lengths = {}
    for at, _, names in os.walk(folder):
        for name in names:
            if name.endswith(".transcript.json"):
                with open(os.path.join(at, name), encoding="utf-8") as file:
                    transcript = json.load(file)
                if not transcript.get("clips"):
                    lengths[transcript["digest"]] = transcript["length"]
    return sum(lengths.values())


if __name__ == "__main__":
    main(*sys.argv[1:])
