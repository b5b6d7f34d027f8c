#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An installer with the papers alone: for each camera where to drill, what to buy, which cable and port, what to type
in, where to aim and what was promised, all read from the papers and compared with the document and its answers.

Usage: installer.py SIGHTFALL PROJECT
"""
import csv
import json
import re

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


def check_camera(folder, document, checked, loads, camera):
    name = camera["name"]
    mount = next(one for one in document["site"]["mounts"] if one["name"] == camera["mount"])
    run = next((one for one in document["site"]["runs"] if one["to"] == name), None)
    row = the(schedule(folder, "cameras"), camera=name)
    # Where to drill, what to buy, where to aim.
    expect(row["mount"] == camera["mount"] and row["sheet"] == camera["sheet"], f"{name}: {row}")
    expect(near(row["east, m"], mount["at"][0], 0.005) and near(row["north, m"], mount["at"][1], 0.005), f"{name}: place")
    expect(near(row["height of the lens, m"], mount["height_m"], 0.005), f"{name}: height")
    expect(near(row["heading, deg"], camera["heading_deg"], 0.05), f"{name}: heading")
    expect(near(row["tilt, deg"], camera.get("tilt_deg", 0), 0.05), f"{name}: tilt")
    check_holes(folder, document, mount, name)
    # Which cable and port.
    if run:
        cable = the(schedule(folder, "cables"), label=run["name"])
        laid = next(one for one in loads["cable"]["runs"] if one["run"] == run["name"])
        kind = laid["instead"] or laid["cable"]
        expect(cable["to"] == name and cable["from"] == run["from"] and cable["cable"] == kind, f"{name}: {cable}")
        bought = the([row for row in schedule(folder, "materials") if row["what"].startswith(run["name"] + ": ")])
        expect(bought["what"] == f"{run['name']}: {kind}", f"{name}: {bought} is bought, {kind} is laid")
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


def check_holes(folder, document, mount, name):
    """Where the holes are, what goes into them, and what hangs on it."""
    field, report = words_of(folder / "field.pdf"), words_of(folder / "report.pdf")
    place = re.search(rf"on {re.escape(mount['name'])} Held by .*?(\d+\.\d+ m from .{{0,160}}?) Lens {mount['height_m']:g}", field)
    expect(place and re.search(r", along its \S+ wall|, and \d+\.\d+ m from|, along it\b", place[1]), f"{name}: one distance is no place")
    expect("not of the holes. On a table, put bracket and camera together" in field and "measure upright" in report and f"{mount['height_m']:.1f} m" in field, f"{name}: holes")
    fixing = mount.get("fixing")
    told = f"{fixing.get('count', 4)} x {fixing['kind']}" if fixing else "no fixing is stated"
    for paper in (field, report):
        expect(told in paper, f"{name}: not told what holds it: {told}")
    materials = schedule(folder, "materials")
    sheet = next(one["sheet"] for one in document["cameras"] if one["name"] == name)
    for kind, what in (("bracket", f"for {sheet}"), ("fixing", fixing["kind"] if fixing else "no fixing is stated")):
        found = [row for row in materials if row["kind"] == kind and row["what"].startswith(what) and mount["name"] in row["remarks"]]
        expect(len(found) == 1, f"{name}: {len(found)} rows of {kind} for {mount['name']}")


def check_devices(folder, document):
    """A page for each router, recorder and switch, with its name, address and ports."""
    settings = words_of(folder / "settings.pdf")
    for feed in document["site"]["feeds"]:
        if feed["kind"] not in ("router", "recorder", "switch"):
            continue
        expect(f"{feed['name']} setting value why done kind {feed['kind']} [ ] name {feed['name']}" in settings, f"{feed['name']}: no page")
        for run in document["site"]["runs"]:
            if feed["kind"] == "switch" and run["from"] == feed["name"]:
                expect(f"port {run['port']} {run['name']} to {run['to']}" in settings, f"{feed['name']}: port {run['port']}")


def check_networks(folder, document):
    """The demo's recorder stands between router and cameras: two networks, with a port and an address on each."""
    recorder = next(one for one in document["site"]["feeds"] if one["kind"] == "recorder")["name"]
    settings, ports = words_of(folder / "settings.pdf"), schedule(folder, "ports")
    for words in ("network address, cameras' network", "network address, house's network", "routing and bridging off",
                  "Who reaches what", f'two networks: "{recorder}" forwards nothing between them'):
        expect(words in settings, f"the settings do not say: {words}")
    sides = {row["remarks"].partition(";")[0] for row in ports if row["feed"] == recorder and row["cable"]}
    expect(sides == {"the cameras' network", "the house's network"}, f"ports of the recorder: {sides}")


def check_light(folder, document, checked):
    """Whose light a verdict counts on, as the answer has it."""
    report = words_of(folder / "report.pdf")
    lit = [one["name"] for one in document["conditions"] if "light" in one or "date" in one]
    told = 0
    for need in checked["needs"]:
        for condition in need["conditions"]:
            if condition["name"] not in lit:
                continue
            for light in condition["light"]:
                if light["from"] == "lamp":
                    told += 1
                    words = f"lamp \"{light['name']}\" {100 * light['share']:.0f} %"
                    expect(words in report, f"{need['name']}, {condition['name']}: the report has no {words}")
    expect(told > 0, "no lamp is told")


def main():
    folder = papers(DEMO, "--no-masks", "--no-pictures")
    document = json.loads(DEMO.read_text(encoding="utf-8"))
    checked, loads = answer("check", DEMO), answer("loads", DEMO, "--no-masks")
    check_networks(folder, document)
    check_devices(folder, document)
    check_light(folder, document, checked)
    addresses = [row["address"] for row in schedule(folder, "cameras")]
    expect(len(set(addresses)) == len(addresses), "two cameras have one address")
    for camera in document["cameras"]:
        check_camera(folder, document, checked, loads, camera)


main()
end()
