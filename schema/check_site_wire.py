#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the examples of schema/examples/wire/KIND.json against schema/wire.schema.json, with a validator that is not
ours: each validates, and no longer does when one of its members is left out or one is added. What they hold of documents
and verdicts is held by the schemas of those, and the examples that tell one story agree."""
import copy
import json
import pathlib
import sys

import jsonschema

HERE = pathlib.Path(__file__).parent
EXAMPLES_OF = {"edits": ["edits", "undo"], "edits_request": ["edits_request", "edits_request_wrong"]}
NO_EXAMPLE = {"change", "conflict"}  # part of others
MAY_BE_LEFT_OUT = {"index"}


def load(name):
    return json.loads((HERE / name).read_text(encoding="utf-8"))


def validator(schema, kind=None):
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator({**schema, "$ref": f"#/$defs/{kind}"} if kind else schema)


def objects(value, free=("was", "now", "found", "document", "answer")):
    """Every object that the schema describes, as a path, but for what other schemas describe."""
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    if isinstance(value, dict):
        yield ()
    for step, inner in steps:
        if step not in free:
            yield from ((step, *path) for path in objects(inner, free))


def changed(value, path, change):
    value = copy.deepcopy(value)
    at = value
    for step in path:
        at = at[step]
    change(at)
    return value


def faults_of(held, name):
    example = load(f"examples/wire/{name}.json")
    for error in held.iter_errors(example):
        yield f"{name}.json: {error.json_path}: {error.message[:200]}"
    for path in objects(example):
        if held.is_valid(changed(example, path, lambda at: at.update({"one more": 1}))):
            yield f"{name}.json: a member too many passes at {path}"
        at = example
        for step in path:
            at = at[step]
        for member in set(at) - MAY_BE_LEFT_OUT:
            if held.is_valid(changed(example, path, lambda at, member=member: at.pop(member))):
                yield f"{name}.json: passes without {member} at {path}"


def parts():
    """What in the examples has a schema of its own."""
    yield "site.json", load("project.schema.json"), load("examples/wire/site.json")["document"]
    yield "event_check.json", load("check_answer.schema.json"), load("examples/wire/event_check.json")["answer"]


def story():
    """One edit, as asked for, as answered, as told to the other pages, and as refused when it is asked for again."""
    asked, made, told = (load(f"examples/wire/{name}.json") for name in ("edits_request", "edits", "event_edit"))
    if made["changes"] != told["changes"] or told["words"] != asked["words"]:
        yield "event_edit.json tells another edit than edits.json"
    if len(made["changes"]) <= len(asked["changes"]):
        yield "edits.json: the rename brought nothing along"
    if [one["found"] for one in load("examples/wire/conflicts.json")["conflicts"]].count(None) != 1:
        yield "conflicts.json: of a renamed object nothing stands there under its old name, and something where one was put in"


def faults():
    schema = load("wire.schema.json")
    for kind in schema["$defs"].keys() - NO_EXAMPLE:
        for name in EXAMPLES_OF.get(kind, [kind]):
            yield from faults_of(validator(schema, kind), name)
    for name, held, part in parts():
        for error in validator(held).iter_errors(part):
            yield f"{name}: {error.json_path}: {error.message[:200]}"
    yield from story()


def main():
    found = sorted(faults())
    print("\n".join(found) or "Every example of the site's wire is as its schema says.")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
