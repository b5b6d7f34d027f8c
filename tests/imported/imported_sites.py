#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Two imported sites through `sightfall check`: a town from footprints and a hill from a height raster.

Usage: imported_sites.py SIGHTFALL DATA [KEEP]
  DATA  a folder with buildings/ and terrain/; KEEP  a folder for the documents, answers and pictures

The documents beside this script hold invented cameras, places and needs; houses and terrain are imported on top. One
need of each site is out of everybody's reach, because the imported thing is in the way: without the import it is not.
Needs python3-jsonschema.
"""
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

import jsonschema

HERE = pathlib.Path(__file__).resolve().parent
SCHEMA = HERE.parents[1] / "schema"

SITES = [
    {
        "name": "town",
        "verb": ["import", "footprints"],
        "file": "buildings/delft_buildings_wgs84.geojson",
        "hidden": "people behind the houses",
    },
    {
        "name": "slope",
        "verb": ["import", "terrain"],
        "file": "terrain/olinda_dem_utm25s.tif",
        "hidden": "people on the far slope",
    },
]


def run(*command):
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def hold(promise, text):
    if not promise:
        raise AssertionError(text)


def check(sightfall, document, *options):
    """The answer of `check --json`, valid by its schema; 0 or 1 is its exit status by what it answers."""
    status, out, said = run(sightfall, "check", document, "--json", *options)
    hold(status in (0, 1), f"check ended with {status}: {said}")
    answer = json.loads(out)
    jsonschema.validate(answer, json.loads((SCHEMA / "check_answer.schema.json").read_text()))
    all_met = all(need["verdict"] == "met" for need in answer["needs"])
    hold(status == (0 if all_met else 1), f"exit status {status} does not follow from the verdicts")
    return answer


def of_need(answer, name):
    return next(need for need in answer["needs"] if need["name"] == name)


def hold_document(document):
    text = json.loads(document.read_text())
    jsonschema.validate(text, json.loads((SCHEMA / "project.schema.json").read_text()))
    hold(len(text["cameras"]) >= 5 and len(text["needs"]) >= 8, "five cameras and eight needs at least")
    return text


def hold_pictures(folder, needs):
    for kind, begin in (("*.svg", b"<?xml"), ("*.png", b"\x89PNG")):
        pictures = sorted(folder.glob(kind))
        hold(len(pictures) == needs, f"{len(pictures)} pictures {kind} for {needs} needs")
        hold(all(picture.read_bytes().startswith(begin) for picture in pictures), f"{kind} holds something else")


def take(site, sightfall, data, folder):
    document = folder / f"{site['name']}.sightfall.json"
    shutil.copy(HERE / document.name, document)
    before = of_need(check(sightfall, document, "--no-remedies"), site["hidden"])
    hold(before["limit"] != "occlusion", "the need is hidden before anything is imported")

    status, out, said = run(sightfall, *site["verb"], data / site["file"], "--into", document)
    hold(status == 0, f"import ended with {status}: {said}")
    print(out, end="")
    project = hold_document(document)

    maps = folder / site["name"]
    answer = check(sightfall, document, "--maps", maps)
    (folder / f"{site['name']}.answer.json").write_text(json.dumps(answer, indent=2))
    hold([need["name"] for need in answer["needs"]] == [need["name"] for need in project["needs"]], "needs in order")
    hidden = of_need(answer, site["hidden"])
    hold(hidden["verdict"] == "missed" and hidden["share"] == 0, f"\"{site['hidden']}\" is {hidden['verdict']}")
    hold(hidden["limit"] == "occlusion", f"its limit is {hidden['limit']}, not occlusion")
    hold(hidden["remedy"] is None or not hidden["remedy"]["mends"], "a need that nobody can meet has a remedy")
    hold_pictures(maps, len(project["needs"]))
    hold(check(sightfall, document, "--maps", maps) == answer, "a second check answers differently")

    for need in answer["needs"]:
        print(f"  {need['name']:34} {need['verdict']:9} {need['share']:6.1%}  {need['limit'] or '-'}")
    found = {need["name"]: need["verdict"] for need in answer["needs"]}
    expected = json.loads((HERE / "expected.json").read_text())[site["name"]]
    hold(found == expected, f"verdicts differ from expected.json: {json.dumps(found)}")


def main():
    sightfall, data = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    failed = 0
    with tempfile.TemporaryDirectory() as made:
        folder = pathlib.Path(sys.argv[3]) if len(sys.argv) > 3 else pathlib.Path(made)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        for site in SITES:
            print(f"{site['name']}: {site['file']}")
            try:
                take(site, sightfall, data, folder)
            except (AssertionError, jsonschema.ValidationError, OSError, KeyError, ValueError) as fault:
                failed += 1
                print(f"FAILED: {fault}")
    print(f"imported sites: {len(SITES) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
