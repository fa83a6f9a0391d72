#!/usr/bin/env python3
"""Hears recordings from a bucket with three processes, kills one at work, and checks that nothing is lost or by half.

    python3 tests/pool/bucket.py PROGRAM [RECORDINGS]

PROGRAM is a built eavesdraft that has its models, RECORDINGS a folder (the people's voices in audio-fixtures without
it). One more is added in which nobody speaks, so long that it is sent in parts. moto (moto[server] from PyPI) stands in
for the store, on a free port of this machine. In the end the bucket must hold what one undisturbed process leaves in a
folder, to the byte. Tells how long each step took.
"""

import logging
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time
import wave

import boto3
from moto.server import ThreadedMotoServer

VOICES = pathlib.Path(__file__).resolve().parents[2] / "audio-fixtures/human-speech"
BUCKET = "walks"
POOL = f"s3://{BUCKET}/monday"
PARTS = 3
# Longer than what the program sends at once, and than two of its parts.
SILENCE = 20 << 20


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    program = pathlib.Path(sys.argv[1]).resolve()
    recordings = pathlib.Path(sys.argv[2] if len(sys.argv) == 3 else VOICES)
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server = ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    server.start()
    try:
        host, port = server.get_host_and_port()
        address = f"http://{host}:{port}"
        keys = {"AWS_ACCESS_KEY_ID": "none", "AWS_SECRET_ACCESS_KEY": "none", "AWS_REGION": "us-east-1"}
        os.environ.update(keys, AWS_DEFAULT_REGION="us-east-1", NO_PROXY="127.0.0.1", no_proxy="127.0.0.1")
        os.environ["AWS_ENDPOINT_URL"] = address
        store = boto3.client("s3", endpoint_url=address)
        store.create_bucket(Bucket=BUCKET)
        with tempfile.TemporaryDirectory(prefix="eavesdraft-pool-") as folder:
            folder = pathlib.Path(folder)
            shutil.copytree(recordings, folder / "monday")
            with wave.open(str(folder / "monday/silence.wav"), "wb") as silence:
                silence.setparams((1, 2, 16000, 0, "NONE", None))
                silence.writeframes(bytes(SILENCE))
            work(Program(program), folder / "monday", store, folder / "pool")
    finally:
        server.stop()


def work(program, recordings, store, folder):
    os.environ.pop("AWS_ALLOW_HTTP", None)
    program.run("status", POOL, code=2, what="plain HTTP is refused unless it is allowed")
    os.environ["AWS_ALLOW_HTTP"] = "true"

    program.run("put", recordings, folder, what="put into a folder")
    program.run("hear", folder, code=2, what="one process, undisturbed, hears the folder")
    program.run("put", recordings, POOL, what="put into the bucket")
    told = program.run("put", recordings, POOL, what="put once more")
    expect("0 recordings put into" in told.err, told.err)

    killed = hear_and_kill_one(program)
    status = program.run("status", POOL, what="status after the kill")
    left = int(re.search(r"(\d+) to hear", status.out)[1])
    expect(left > 0, f"the process was killed too late: {status.out}")
    told = program.run("hear", POOL, "--part", f"{killed}/{PARTS}", code=None, what=f"part {killed}/{PARTS} again")
    expect(f"{left} to hear" in told.err.splitlines()[0], told.err)
    status = program.run("status", POOL, what="status in the end")
    expect(" 1 skipped, 0 to hear" in status.out and "no speech was found" in status.out, status.out)
    told = program.run("hear", POOL, code=2, what="a second run hears nothing")
    expect("Part 1/1: 0 to hear" in told.err, told.err)

    there, here = in_bucket(store), in_folder(folder)
    expect(there.keys() == here.keys(), f"other objects: {sorted(there.keys() ^ here.keys())}")
    differ = [name for name in here if here[name] != there[name]]
    expect(not differ, f"other bytes: {differ}")
    print(f"The bucket's {len(there)} objects are those of the folder, to the byte")


def hear_and_kill_one(program):
    """Hears all parts at once, and kills the first that is at its second recording; gives its number."""
    begun = time.monotonic()
    args = [["hear", POOL, "--jobs", "1", "--part", f"{part + 1}/{PARTS}"] for part in range(PARTS)]
    processes = [program.start(*each) for each in args]
    victim = max(range(PARTS), key=lambda part: first_line(processes[part]))
    for line in processes[victim].stderr:
        if line.startswith("2 of "):
            time.sleep(0.2)
            break
    processes[victim].kill()
    for part, process in enumerate(processes):
        process.communicate()
        expect(part == victim or process.returncode in (0, 2), f"part {part + 1} ended with {process.returncode}")
    print(f"{time.monotonic() - begun:6.1f} s  {PARTS} processes hear the bucket, part {victim + 1} is killed")
    return victim + 1


def first_line(process):
    """How many recordings a process is about to hear."""
    return int(re.search(r"(\d+) to hear", process.stderr.readline())[1])


def in_bucket(store):
    pages = store.get_paginator("list_objects_v2").paginate(Bucket=BUCKET)
    keys = [entry["Key"] for page in pages for entry in page.get("Contents", [])]
    return {key.removeprefix("monday/"): store.get_object(Bucket=BUCKET, Key=key)["Body"].read() for key in keys}


def in_folder(folder):
    files = [path for path in folder.rglob("*") if path.is_file()]
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


class Program:
    def __init__(self, path):
        self.path = path

    def start(self, *args):
        command = [self.path, "pool", *args]
        return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def run(self, *args, what, code=0):
        begun = time.monotonic()
        process = self.start(*args)
        process.out, process.err = process.communicate(timeout=900)
        is_right = process.returncode in ((0, 2) if code is None else (code,))
        expect(is_right, f"{what}: ended with {process.returncode}\n{process.err}")
        print(f"{time.monotonic() - begun:6.1f} s  {what}", flush=True)
        return process


def expect(is_so, told):
    if not is_so:
        sys.exit(told)


if __name__ == "__main__":
    main()
