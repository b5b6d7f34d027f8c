#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The answers of check, card, walk and loads are as their schemas say, and the schemas refuse what is wrong.

Usage: answers_hold.py SIGHTFALL PROJECT
  Real answers: the demo, the documents of tests/case/files and a card of every sheet. Examples: those of
  schema/examples/answers; bad.json changes a good one in one place and says where it must then fail.
Needs python3-jsonschema.
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

SIGHTFALL, PROJECT = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
EXAMPLES = PROJECT / "schema" / "examples" / "answers"
CASES = PROJECT / "tests" / "case" / "files"


def validator(kind):
    schema = json.loads((PROJECT / "schema" / f"{kind}_answer.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


VALIDATORS = {kind: validator(kind) for kind in ("check", "card", "walk", "loads")}


def kind_of(answer):
    return next(kind for kind in VALIDATORS if f"sightfall_{kind}" in answer)


def faults_of(answer):
    for error in VALIDATORS[kind_of(answer)].iter_errors(answer):
        yield "/".join(str(step) for step in error.absolute_path), error.message[:200]


def real_answers():
    demo = next((PROJECT / "demo").glob("*.sightfall.json"))
    yield "check", demo, "--no-remedies"
    for document in sorted(CASES.glob("*.sightfall.json")):
        yield "check", document
    yield "check", CASES / "yard.sightfall.json", "--need", "person behind the hedge", "--when", "winter"
    yield "loads", demo, "--no-masks"
    yield "loads", CASES / "wired.sightfall.json"
    yield "loads", CASES / "yard.sightfall.json", "--no-masks"
    sheets = sorted((PROJECT / "data" / "sheets").glob("*.json")) + sorted(CASES.glob("*.sheet.json"))
    for sheet in sheets:
        yield "card", sheet
    yield "card", sheets[0], "--height", "4"
    yield "card", sheets[0], "--height", "4", "--tilt", "89", "--marks", "1,500"
    yield "card", sheets[0], "--table", "2014"
    yield "card", CASES / "bench.sheet.json", "--seen", CASES / "bench.seen.json"
    yield "card", "--pixels", "3840x2160", "--focal", "12", "--view", "23"
    small = ("walk", "--open-ground", CASES / "small.sheet.json")
    with tempfile.TemporaryDirectory() as folder:
        yield *small, "--when", "night", "--marks", "3,8", "--out", folder
        yield *small, "--when", "day", "--subject", "car", "--out", folder
    yield "card", "--pixels", "3840x2160", "--focal", "12", "--format", "1/2.5", "--infrared-reach", "80"


def hold_real():
    for words in real_answers():
        done = subprocess.run([SIGHTFALL, *words, "--json"], capture_output=True, text=True, check=False)
        name = " ".join(str(word) for word in words)
        if done.returncode not in (0, 1):
            yield f"{name}: exit status {done.returncode}: {done.stderr}"
            continue
        for place, message in faults_of(json.loads(done.stdout)):
            yield f"{name}: {place}: {message}"


def changed(answer, place, change):
    """The answer with one value set, or left out when there is nothing to set."""
    answer = copy.deepcopy(answer)
    *steps, last = (int(step) if step.isdigit() else step for step in place.split("/"))
    inside = answer
    for step in steps:
        inside = inside[step]
    if "set" in change:
        inside[last] = change["set"]
    else:
        del inside[last]
    return answer


def hold_examples():
    good = {path.name: json.loads(path.read_text(encoding="utf-8")) for path in EXAMPLES.glob("*.json") if path.name != "bad.json"}
    for name, answer in good.items():
        for place, message in faults_of(answer):
            yield f"{name} is good, yet {place}: {message}"
    bad = json.loads((EXAMPLES / "bad.json").read_text(encoding="utf-8"))
    for change in bad:
        places = [place for place, _ in faults_of(changed(good[change["of"]], change["at"], change))]
        if change["fails_at"] not in places:
            yield f"{change} fails at {places}"
    if {kind_of(answer) for answer in good.values()} != set(VALIDATORS) or len(bad) < 20:
        yield "examples are missing"


def main():
    faults = list(hold_examples()) + list(hold_real())
    print("\n".join(faults) or "Every answer is as its schema says.")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
