#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the examples of schema/examples/wire/answer_KIND.json against schema/wire_answers.schema.json, with a validator
that is not ours: each validates, and no longer does when any one of its members is left out or one is added."""
import json
import pathlib
import sys

import jsonschema

HERE = pathlib.Path(__file__).parent
ADDED_BY_THE_SERVER = "revision"


def load(name):
    return json.loads((HERE / name).read_text(encoding="utf-8"))


def validator(schema, kind):
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(
        {"$defs": schema["$defs"], "$ref": f"#/$defs/{kind}"} if kind else schema
    )


def parts(kind, answer):
    """What in an answer has a schema of its own, with that schema."""
    if kind == "picture":
        yield validator(load("walk_answer.schema.json"), "mark"), answer["figures"]
    if kind == "cables":
        loads = load("loads_answer.schema.json")
        yield validator(loads, "cable"), {k: v for k, v in answer.items() if k != ADDED_BY_THE_SERVER}
    if kind == "stock":
        for sheet in answer["sheets"]:
            yield validator(load("sheet.schema.json"), ""), sheet


def faults():
    schema = load("wire_answers.schema.json")
    for kind in (name for name, one in schema["$defs"].items() if "properties" in one and name != "range"):
        whole = validator(schema, kind)
        answer = load(f"examples/wire/answer_{kind}.json")
        for held, part in [(whole, answer), *parts(kind, answer)]:
            for error in held.iter_errors(part):
                yield f"answer_{kind}.json: {error.json_path}: {error.message[:200]}"
        if whole.is_valid({**answer, "one more": 1}):
            yield f"{kind}: a member too many passes"
        for member in answer:
            if member != ADDED_BY_THE_SERVER and whole.is_valid({k: v for k, v in answer.items() if k != member}):
                yield f"{kind}: passes without {member}"


def main():
    found = list(faults())
    print("\n".join(found) or "Every example of the wire is as its schema says.")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
