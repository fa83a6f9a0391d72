#!/usr/bin/env python3
"""Holds the review server to its own description.

    python3 tests/server/api.py PROGRAM FOLDER [--examples N]

PROGRAM is a built eavesdraft, FOLDER a folder of drafts. The folder is copied, so nothing in it changes. The server
listens on a free port of this machine; schemathesis (from PyPI, 4.32 or later; nothing else is needed) asks it
everything that `src/office/server/openapi.json` describes, rightly and wrongly, and judges every answer by it. The exit
status is schemathesis' own: 0 where nothing is wrong. The same PROGRAM and FOLDER are always asked the same, in less
than a minute on two slow cores.

Generated recordings, lines, follow-ups and versions would be refused before anything is tried, so most of them are put
right just before they are sent: schemathesis loads this very file for that.

Left out, and why:
  GET /api/changes                        never ends
  ignored_auth                            no token is needed on the server's own machine
  use_after_free                          what is taken back may be taught again
  ensure_resource_availability            nothing is created under an address of its own
  object_level_authorization              there is one office, not one of many
  not_a_server_error, for 503 of sound    it says that sound is being made ready
  positive_data_acceptance, for 410, 412, 416 of sound
                                          whether a file plays, and what stands in it, the description can't tell
  positive_data_acceptance, for 422, 423  whether a command can be carried out depends on the scope, whether a text is a
                                          quantity on the grammar: the description can't tell
"""

import argparse
import functools
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import urllib.request
import zlib

DESCRIPTION = pathlib.Path(__file__).resolve().parents[2] / "src/office/server/openapi.json"
# Where the server is, for the part that schemathesis loads.
ADDRESS = "EAVESDRAFT_REVIEW_ADDRESS"

SETTINGS = """
hooks = {hooks}
continue-on-failure = true
request-timeout = 20

[generation]
deterministic = true
database = "none"
max-examples = {examples}

[phases.stateful.generation]
max-examples = {sequences}

[checks]
ignored_auth.enabled = false
use_after_free.enabled = false
ensure_resource_availability.enabled = false
object_level_authorization.enabled = false

[[operations]]
include-operation-id = "changes"
enabled = false

[[operations]]
include-operation-id = "sound"
checks.not_a_server_error.expected-statuses = ["2xx", "3xx", "4xx", 503]
checks.positive_data_acceptance.expected-statuses = ["2xx", "3xx", 401, 403, 404, 410, 412, 416, 503]

[[operations]]
include-operation-id = ["command", "read", "teach"]
checks.positive_data_acceptance.expected-statuses = ["2xx", 401, 403, 404, 409, 422, 423]
checks.negative_data_rejection.expected-statuses = [400, 401, 403, 404, 409, 413, 415, 422]
"""

# What people type as a quantity, and what they should not.
QUANTITIES = [
    "12", "6' 6\"", "12-14 ft", "about 30 feet", "2 1/2", "3 squares", "a pair", "0",
    "", "nine by seven", "-4", "9" * 40,
]
PEOPLE = ["Ada", "Ben"]

# What every answer tells the browser; a `Content-Security-Policy` too, which documents have their own of.
GUARDED = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "x-frame-options": "DENY",
    "cache-control": "no-store",
}


def main():
    parser = argparse.ArgumentParser(description="Holds the review server to its own description.")
    parser.add_argument("program", type=pathlib.Path, metavar="PROGRAM", help="a built eavesdraft")
    parser.add_argument("folder", type=pathlib.Path, metavar="FOLDER", help="a folder of drafts")
    parser.add_argument(
        "--examples", type=int, default=100, metavar="N", help="how many requests are made up for an operation"
    )
    asked = parser.parse_args()
    places = os.pathsep.join([os.path.dirname(sys.executable), os.environ.get("PATH", "")])
    schemathesis = shutil.which("schemathesis", path=places)
    if schemathesis is None:
        sys.exit("schemathesis is missing: python3 -m pip install schemathesis")
    with tempfile.TemporaryDirectory(prefix="eavesdraft-api-") as within:
        within = pathlib.Path(within)
        drafts = within / "drafts"
        shutil.copytree(asked.folder, drafts, ignore=shutil.ignore_patterns("eavesdraft.sqlite*"))
        settings = within / "schemathesis.toml"
        settings.write_text(SETTINGS.format(
            hooks=json.dumps(str(pathlib.Path(__file__).resolve())),
            examples=asked.examples,
            sequences=max(1, asked.examples // 4),
        ))
        command = [asked.program.resolve(), "review", drafts, "--no-browser", "--listen", "127.0.0.1:0"]
        server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        try:
            address = server.stdout.readline().strip().rstrip("/")
            if not address:
                sys.exit("the server did not begin")
            env = {**os.environ, ADDRESS: address, "PYTHONDONTWRITEBYTECODE": "1"}
            command = [schemathesis, "--config-file", settings, "run", DESCRIPTION, "--url", address]
            return subprocess.run(command, cwd=within, env=env).returncode
        finally:
            server.terminate()
            server.wait(timeout=10)


def put_right():
    """Registers what makes generated requests reach what is there."""
    import schemathesis
    from schemathesis.core.parameters import ParameterLocation

    def fetched(path, body=None):
        data = body and json.dumps(body).encode()
        request = urllib.request.Request(os.environ[ADDRESS] + path, data, {"Content-Type": "application/json"})
        with urllib.request.urlopen(request) as answer:
            return json.load(answer)

    @functools.cache
    def recordings():
        return [recording["id"] for recording in fetched("/api/queue")["recordings"]]

    @functools.cache
    def words(recording):
        return len(fetched(f"/api/recordings/{recording}/words")["words"])

    def draw(value, below):
        """Any number below that; the same for the same value."""
        return zlib.crc32(repr(value).encode()) % below

    def chosen(value, among, whole, is_wrong):
        """One of those, and sometimes the value itself; `whole` is what it is part of. In a request that is wrong
        elsewhere always one of those, so that it is refused for what is wrong."""
        drawn = (value, whole)
        return among[draw(drawn, len(among))] if among and (is_wrong or draw((drawn, "other"), 8)) else value

    def is_right(case, location):
        part = case.meta and case.meta.components.get(location)
        return bool(part) and part.mode.is_positive

    def make_possible(do, who, scope):
        """Does first what a command needs to have been done."""
        seen = {line["id"]: line["version"] for line in scope["lines"]}
        add = {"do": "add", "fields": {"item": "hose reel"}}
        accept = [{"do": "accept", "lines": list(seen)}] if seen else []
        needed = {"undo": [add], "redo": [add, {"do": "undo"}], "sign-off": accept, "reopen": [*accept, {"do": "sign-off"}]}
        if scope["signed_off"]:
            fetched(f"/api/recordings/{scope['id']}/events", {"who": who, "command": {"do": "reopen"}})
        for command in needed.get(do, []):
            fetched(f"/api/recordings/{scope['id']}/events", {"who": who, "seen": seen, "command": command})

    def put_right_request(request, recording, is_wrong):
        command, seen, whole = request.get("command"), request.get("seen", {}), repr(request)
        # Few people, so that they do more than one thing.
        if isinstance(request.get("who"), str) and 0 < len(request["who"].strip()) <= 60:
            request["who"] = chosen(request["who"], PEOPLE, whole, is_wrong)
        if not isinstance(command, dict):
            return
        scope = fetched(f"/api/recordings/{recording}")
        do = command.get("do")
        if request.get("who") in PEOPLE and isinstance(do, str) and (is_wrong or draw((whole, "possible"), 4)):
            make_possible(do, request["who"], scope)
            scope = fetched(f"/api/recordings/{recording}")
        lines, follow_ups = ({one["id"]: one["version"] for one in scope[key]} for key in ("lines", "follow_ups"))
        takeoff = fetched(f"/api/recordings/{recording}/takeoff")
        dimensions = {one["id"]: one["version"] for one in takeoff["dimensions"]}
        for field, among in ("line", lines), ("follow_up", follow_ups):
            if isinstance(command.get(field), str):
                command[field] = chosen(command[field], list(among), whole, is_wrong)
        if isinstance(command.get("question"), str):
            open_ones = [question["id"] for question in scope["questions"]]
            command["question"] = chosen(command["question"], open_ones, whole, is_wrong)
        named = command.get("lines")
        if isinstance(named, list) and all(isinstance(one, str) for one in named):
            command["lines"] = [chosen(one, list(lines), (n, whole), is_wrong) for n, one in enumerate(named)]
        if isinstance(seen, dict) and all(type(version) is int and version >= 0 for version in seen.values()):
            if is_wrong or draw((whole, "seen"), 8):
                request["seen"] = {**seen, **lines, **follow_ups, **dimensions}
        if not is_wrong:
            put_right_values(command, whole, recording)

    def put_right_values(command, whole, recording):
        if command.get("words"):
            there = sorted(int(word) % words(recording) for word in command["words"])
            command["words"] = chosen(command["words"], [there], whole, False)
        if "reading" in command:
            command["reading"] = int(command["reading"]) % 3
        for fields in [command, command.get("fields"), *command.get("parts", [])]:
            for field in ("quantity", "measurement"):
                if fields and fields.get(field):
                    fields[field] = chosen(fields[field], QUANTITIES, whole, False)

    @schemathesis.check
    def is_guarded(context, response, case):
        for name, value in GUARDED.items():
            assert response.headers.get(name) == [value], f"{name} is not {value}"
        assert response.headers.get("content-security-policy"), "no content-security-policy"

    @schemathesis.hook
    def before_call(context, case, kwargs):
        named, body = case.path_parameters or {}, case.body
        is_wrong = not (case.meta and case.meta.generation.mode.is_positive)
        if "id" in named and is_right(case, ParameterLocation.PATH):
            named["id"] = chosen(named["id"], recordings(), repr(body), is_wrong)
        if case.path == "/api/read" and not is_wrong:
            body["text"] = chosen(body["text"], QUANTITIES, None, False)
        if case.path.endswith("/events") and isinstance(body, dict) and named.get("id") in recordings():
            put_right_request(body, named["id"], is_wrong)


if __name__ == "__main__":
    sys.exit(main())
else:
    put_right()
