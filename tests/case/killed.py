#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""kill -9 at any moment loses no edit that was answered, and of the file at most the last second.

Usage: killed.py SIGHTFALL [ROUNDS]
  A hundred times: the server is started on what the last kill left, held against what was answered, given edits,
  undoings and redoings as fast as it answers, and killed at a moment that chance chooses. A kill takes the program, not
  the machine: what a power cut would do rests on SQLite's and our syncing, which this does not show.
"""
import copy
import http.client
import json
import pathlib
import random
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time

ROUNDS = 100
PATIENCE = 60  # seconds
SITE = "killed.sightfall.json"
EMPTY = {"sightfall": 1, "name": "killed", "site": {}, "conditions": [{"name": "day", "leaves": "on"}]}


def hold(promise, text):
    if not promise:
        raise AssertionError(text)


class Expected:
    """What was answered: the mounts after each edit in force, where undo stands, and the revision."""

    def __init__(self):
        self.states, self.words, self.position, self.revision, self.made = [{}], [], 0, 1, 0

    def mounts(self):
        return self.states[self.position]

    def do(self, states, words):
        self.states[self.position + 1:], self.words[self.position:] = [states], [words]
        self.position += 1
        self.revision += 1

    def step(self, by):
        self.position += by
        self.revision += 1


def mount(name, x):
    return {"name": name, "at": [x, 0], "height_m": 3}


def an_act(chance, expected):
    """One request that is right now, and what will be expected once it is answered."""
    after = copy.deepcopy(expected)
    mounts = expected.mounts()
    kind = chance.random()
    if kind < 0.15 and expected.position > 0:
        after.step(-1)
        return "undo", {}, after
    if kind < 0.25 and expected.position < len(expected.words):
        after.step(1)
        return "redo", {}, after
    after.made += 1
    name, x = f"m{after.made}", after.made  # never where it was: an edit that changes nothing is no revision
    if kind < 0.6 or not mounts:
        was, now = None, mount(name, x)
    else:
        old = chance.choice(sorted(mounts))
        was, now = mount(old, mounts[old]), mount(chance.choice([old, name]), x)
        if kind > 0.9:
            now = None
    states = dict(mounts)
    if was:
        del states[was["name"]]
    if now:
        states[now["name"]] = now["at"][0]
    words = f"edit {after.made}"
    after.do(states, words)
    at = ["site", "mounts", (was or now)["name"]]
    return "edits", {"words": words, "changes": [{"at": at, "was": was, "now": now}]}, after


def start(sightfall, folder):
    running = subprocess.Popen([sightfall, "serve", SITE, "--port", "0"], cwd=folder, stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE, text=True)
    for line in running.stdout:
        found = re.search(r"http://localhost:(\d+)", line)
        if found:
            return running, int(found.group(1))
    raise AssertionError(f"it does not start on what a kill left: {running.stderr.read()}")


def ask(connection, method, path, body=None):
    connection.request(method, path, body=None if body is None else json.dumps(body),
                       headers={"X-Sightfall-Tab": "killed", "Host": f"localhost:{connection.port}"})
    answer = connection.getresponse()
    return answer.status, json.loads(answer.read())


def mounts_of(document):
    return {one["name"]: one["at"][0] for one in document["site"].get("mounts", [])}


def agrees(site, expected):
    undo = expected.words[expected.position - 1] if expected.position else None
    redo = expected.words[expected.position] if expected.position < len(expected.words) else None
    return (site["revision"], mounts_of(site["document"]), site["undo"], site["redo"]) == (
        expected.revision, expected.mounts(), undo, redo)


def edit_until_killed(port, chance, expected, answered):
    """Asks one thing after the other. Returns what was asked for and not answered."""
    connection = http.client.HTTPConnection("localhost", port, timeout=PATIENCE)
    while True:
        path, body, after = an_act(chance, expected)
        try:
            status, answer = ask(connection, "POST", f"/api/{path}", body)
        except (OSError, http.client.HTTPException, ValueError):
            return expected, after
        hold(status == 200, f"{path} {body} was answered {status}: {answer}")
        expected = after
        hold(answer["revision"] == expected.revision, f"revision {answer['revision']}, not {expected.revision}")
        answered.append((time.monotonic(), expected.mounts()))


def one_round(sightfall, folder, chance, possible, counts):
    """From what the last kill left to the next kill. `possible`: the last answer, and what was asked beyond it."""
    running, port = start(sightfall, folder)
    try:
        connection = http.client.HTTPConnection("localhost", port, timeout=PATIENCE)
        status, site = ask(connection, "GET", "/api/site")
        hold(status == 200, f"the site: {status} {site}")
        there = [one for one in possible if agrees(site, one)]
        hold(there, f"after a kill the site is {json.dumps(site)}; answered was revision {possible[0].revision} with "
                    f"{possible[0].mounts()}, undo {possible[0].words[:possible[0].position][-1:]}")
        expected = there[0]
        counts["asked but not answered, and kept"] += expected is not possible[0]
        on_disk = json.loads((folder / SITE).read_text(encoding="utf-8"))
        hold(mounts_of(on_disk) == expected.mounts(), "the file is not in step after the start")
        answered = [(time.monotonic(), expected.mounts())]
        delay = chance.uniform(0, 0.15) if chance.random() < 0.85 else chance.uniform(0.3, 1.6)
        killer = threading.Timer(delay, lambda: running.send_signal(signal.SIGKILL))
        killer.start()
        before, beyond = edit_until_killed(port, chance, expected, answered)
        killed = time.monotonic()
        running.wait(timeout=PATIENCE)
    finally:
        running.kill()
        running.communicate(timeout=PATIENCE)
    counts["answered"] += len(answered) - 1
    left = mounts_of(json.loads((folder / SITE).read_text(encoding="utf-8")))
    # The file as it may be: no older than what was answered a second ago.
    older = [i for i, (when, _) in enumerate(answered) if when <= killed - 1]
    allowed = [mounts for _, mounts in answered[older[-1] if older else 0:]] + [beyond.mounts()]
    hold(left in allowed, f"the file is more than a second behind: {left}")
    counts["file behind the last answer"] += left != answered[-1][1]
    return [before, beyond]


def main():
    sightfall = str(pathlib.Path(sys.argv[1]).resolve())
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else ROUNDS
    chance = random.Random(5)
    counts = {"answered": 0, "asked but not answered, and kept": 0, "file behind the last answer": 0}
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        (folder / SITE).write_text(json.dumps(EMPTY), encoding="utf-8")
        possible = [Expected()]
        for number in range(rounds):
            try:
                possible = one_round(sightfall, folder, chance, possible, counts)
            except AssertionError as fault:
                sys.exit(f"round {number}: {fault}")
    hold(counts["answered"] > rounds, "hardly anything was answered: this shows nothing")
    print(f"{rounds} kills in {time.monotonic() - began:.0f} s: " + ", ".join(f"{v} {k}" for k, v in counts.items()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
