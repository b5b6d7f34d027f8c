#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An installer with the papers alone: for each camera where to drill, what to buy, which cable and port, what to type
in, where to aim and what was promised, all read from the papers and compared with the document and its answers.

Usage: installer.py SIGHTFALL PROJECT
"""
import csv
import json

from common import PROJECT, answer, end, expect, papers, words_of

DEMO = next((PROJECT / "demo").glob("*.sightfall.json"))


def schedule(folder, name):
    with open(folder / f"{name}.csv", encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def the(rows, **members):
    found = [row for row in rows if all(row[key] == value for key, value in members.items())]
    expect(len(found) == 1, f"{len(found)} rows with {members}")
    return found[0] if found else {}


def near(told, truth, error):
    return bool(told) and abs(float(told) - truth) <= error


def check_camera(folder, document, checked, camera):
    name = camera["name"]
    mount = next(one for one in document["site"]["mounts"] if one["name"] == camera["mount"])
    run = next((one for one in document["site"]["runs"] if one["to"] == name), None)
    row = the(schedule(folder, "cameras"), camera=name)
    # Where to drill, what to buy, where to aim.
    expect(row["mount"] == camera["mount"] and row["sheet"] == camera["sheet"], f"{name}: {row}")
    expect(near(row["east, m"], mount["at"][0], 0.005) and near(row["north, m"], mount["at"][1], 0.005), f"{name}: place")
    expect(near(row["height, m"], mount["height_m"], 0.005), f"{name}: height")
    expect(near(row["heading, deg"], camera["heading_deg"], 0.05), f"{name}: heading")
    expect(near(row["tilt, deg"], camera.get("tilt_deg", 0), 0.05), f"{name}: tilt")
    # Which cable and port.
    if run:
        cable = the(schedule(folder, "cables"), label=run["name"])
        expect(cable["to"] == name and cable["from"] == run["from"] and cable["cable"] == run["cable"], f"{name}: {cable}")
        port = the(schedule(folder, "ports"), feed=run["from"], port=str(run["port"]))
        expect(port["cable"] == run["name"] and port["to"] == name and port["address"] == row["address"], f"{name}: {port}")
    # What to type in.
    settings = words_of(folder / "settings.pdf")
    expect(name in settings and row["address"] in settings, f"{name}: no settings")
    # What was promised, and two points to aim by, in the report.
    report = words_of(folder / "report.pdf")
    aim = next(one for one in checked["aims"] if one["camera"] == name)
    for point in aim["points"]:
        expect(point["name"] in report, f"{name}: the report has no point {point['name']}")
        expect(f"{100 * point['right_share']:.1f} %" in report, f"{name}: {point['right_share']} from the left")
    for need in checked["needs"]:
        if need["worst"] and need["worst"]["camera"] == name:
            delivered = need["worst"]["delivered_px_per_m"]
            expect(f"{delivered['nominal']:.0f} px/m" in report, f"{name}: {need['name']}: {delivered}")


def main():
    folder = papers(DEMO, "--no-masks", "--no-pictures")
    document = json.loads(DEMO.read_text(encoding="utf-8"))
    checked = answer("check", DEMO)
    addresses = [row["address"] for row in schedule(folder, "cameras")]
    expect(len(set(addresses)) == len(addresses), "two cameras have one address")
    for camera in document["cameras"]:
        check_camera(folder, document, checked, camera)


main()
end()
