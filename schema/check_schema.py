#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the JSON Schemas against the examples with a validator that is not ours.

Good examples validate and use every field the schema knows. Bad ones that a schema can tell do not validate. Bad ones
that only the program can tell, such as a name that nothing carries, do validate: the list below says which is which, so
that a schema that grows lax or strict is noticed.
"""
import json
import pathlib
import sys

import jsonschema

HERE = pathlib.Path(__file__).parent
ONLY_THE_PROGRAM_TELLS = {
    "camera_settings", "carriers_joined", "conditions", "estimates.sheet", "injectors", "lamps", "lens.sheet", "levels",
    "no_anchor", "no_time_zone", "plan_picture", "references", "repeated_fields", "terrain_count", "unknown_time_zone",
}
# A program leaves out a terrain that is flat.
NEVER_WRITTEN = {".site.terrain(flat).kind"}
# Each assumption is a field of settings.typical with the same four fields; the example replaces two of them.
REPLACED_ENOUGH = {"typical"}


def validator(name):
    schema = json.loads((HERE / f"{name}.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def kind_of(path):
    return "sheet" if path.name.endswith(".sheet.json") else "project"


def unused(schema, instances, path):
    """Fields of the schema that no instance has."""
    for alternative in schema.get("oneOf", []):
        if "properties" in alternative:
            kind = alternative["properties"]["kind"]["const"]
            yield from unused(alternative, [i for i in instances if i.get("kind") == kind], f"{path}({kind})")
    for name, field in schema.get("properties", {}).items():
        having = [i[name] for i in instances if name in i]
        if not having and f"{path}.{name}" not in NEVER_WRITTEN:
            yield f"{path}.{name}"
        elif name not in REPLACED_ENOUGH:
            yield from unused(field, having, f"{path}.{name}")
    items = schema.get("items", {})
    if "properties" in items or "oneOf" in items:
        yield from unused(items, [item for instance in instances for item in instance], f"{path}[]")


def main():
    validators = {name: validator(name) for name in ("project", "sheet")}
    faults = []
    for path in sorted((HERE / "examples").glob("*.json")):
        for error in validators[kind_of(path)].iter_errors(json.loads(path.read_text())):
            faults.append(f"{path.name}: {error.json_path}: {error.message}")
    for kind, name in (("project", "full.sightfall.json"), ("sheet", "full.sheet.json")):
        document = json.loads((HERE / "examples" / name).read_text())
        faults += [f"{name}: does not use {field}" for field in unused(validators[kind].schema, [document], "")]
    told = set()
    for path in sorted((HERE / "examples" / "bad").glob("*.json")):
        try:
            document = json.loads(path.read_bytes(), parse_constant=lambda word: int(word))
        except (ValueError, UnicodeDecodeError):
            continue  # not JSON
        name = path.name.removesuffix(".json").removesuffix(".sightfall")
        valid = validators[kind_of(path)].is_valid(document)
        if valid != (name in ONLY_THE_PROGRAM_TELLS):
            faults.append(f"{path.name}: {'validates' if valid else 'does not validate'}")
        told.add(name)
    faults += [f"{name}: no such bad example" for name in sorted(ONLY_THE_PROGRAM_TELLS - told)]
    print("\n".join(faults) or "the schemas and the examples agree")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
