#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every figure of every paper is one that `check --json`, `loads --json` or a camera's `card --json` holds.

Usage: figures.py SIGHTFALL PROJECT
In texts (PDF, SVG, columns of words) a figure with digits after its point must be the rounding of a number of the answers
or of the document (as it is, as a percentage, in feet, or as one over it), of one that is worked out here from the
document alone (`derived`), or stand in a text of theirs; whole numbers below 32 are left out, for lists and counts have
them. In columns of numbers (CSV and XLSX) each cell is held against the one number that it has to be. What is exempt
stands in EXEMPT, with why.
"""
import csv
import ipaddress
import itertools
import json
import math
import re
import tempfile
import zipfile
from xml.etree import ElementTree

from common import CASES, PROJECT, answer, end, expect, papers, words_of

FIGURE = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?![\w.]*\d)")
DEMO = next((PROJECT / "demo").glob("*.sightfall.json"))
TEXTS = ("report.pdf", "owner.pdf", "settings.pdf", "field.pdf", "upkeep.pdf", "signs.pdf", "plan.pdf")
REFERENCE_CONTRAST, REFERENCE_BLUR = 0.8, 0.5  # docs/models.md, 6
THRESHOLD = json.loads((PROJECT / "data" / "typical.json").read_text(encoding="utf-8"))["contrast_threshold"]["nominal"]
TABLES = ("cameras", "cables", "ports", "materials")

# Figures that are no results, by paper ("": all of them): what they look like, and why they are left out.
EXEMPT = {
    "": [
        (r"IEC/EN [\d:-]+|IEC 62471|EN 1991-1-4|IEEE 802\.3\w*|TIA-568|NEC", "names of standards"),
        (r"edition \d|20\d\d-\d\d-\d\d|\d+ / \d+", "editions, dates, pages"),
        (r"\d+ % range", "the words of what a range is"),
        (r"class \d(?!\d)", "classes of power over Ethernet"),
    ],
    "settings.pdf": [
        (r"\d+\.\d+\.\d+\.\d+", "addresses, which `check_addresses` holds against the network"),
        (r"ETSI EN 303 645|provision \d\.\d|\(\d\.\d\)", "names of a standard and its provisions"),
        (r"H\.26\d", "names of codecs"),
        (r"every \d+ frames", "the codec's own distance of key frames, a constant of the encodes"),
        (r"1/1[02]0 s", "the mains' half wave, from the field `mains`"),
        (r"mains frequency 50 Hz|mains frequency 60 Hz", "the document's default"),
    ],
    "field.pdf": [
        (r"this line is 100 mm long|print at 100 %", "the line that the print is checked by"),
    ],
    "upkeep.pdf": [(r"every \d+ to \d+ years|\d+ times", "usual intervals, which say that they are")],
    "signs.pdf": [
        (r"2016/679|Articles? \d+(\(\d+\))*(\(\w\))?|C-\d+/\d+|Guidelines \d/\d+|\d+ December \d+|within \d+ hours|\d+ hours",
         "numbers of laws, cases and their terms"),
    ],
    "plan.pdf": [
        (r"1\s*:\s*\d+|\b\d+ m\b", "the scale and its bar, which the site's size decides (draw/site_plan_test.cpp)"),
        (r"paper of \d+ x \d+ mm", "the paper's own size"),
    ],
    "materials": [(r"IP\d+", "protection by the sheet's own words")],
}


def numbers_in(value, numbers, texts):
    if isinstance(value, dict):
        for one in value.values():
            numbers_in(one, numbers, texts)
    elif isinstance(value, list):
        for one in value:
            numbers_in(one, numbers, texts)
    elif isinstance(value, bool) or value is None:
        return
    elif isinstance(value, (int, float)):
        numbers.append(abs(float(value)))
    else:
        texts.append(value)


def is_rounding(figure, numbers):
    digits = len(figure.partition(".")[2])
    told, half = float(figure), 0.5000001 * 10 ** -digits
    for number in numbers:
        for scale in (1, 100, 1 / 0.3048, 0.001, 0.01):
            if abs(scale * number - told) <= half:
                return True
        if number > 0 and abs(1 / number - told) <= half:
            return True
    return False


def cards_of(document):
    """The range card of each camera as it hangs, by the command line."""
    sheets = {sheet["name"]: sheet for sheet in document["catalogue"]}
    for camera in document["cameras"]:
        mount = the(document["site"]["mounts"], camera["mount"])
        with tempfile.NamedTemporaryFile("w", suffix=".json", encoding="utf-8") as file:
            sheet = dict(sheets[camera["sheet"]])
            if "stream" in camera:
                sheet["stream"] = camera["stream"]
            json.dump(sheet, file)
            file.flush()
            options = ["--height", mount["height_m"], "--tilt", camera.get("tilt_deg", 0)]
            for option, field in (("--focal", "focal_mm"), ("--focus", "focus_m"), ("--shutter", "shutter_s")):
                if field in camera:
                    options += [option, camera[field]]
            yield answer("card", file.name, *options)


def the(things, name):
    return next(one for one in things if one["name"] == name)


def corners_of(document):
    """Where a tape can be held: corners, ends of walls, thin boxes, the ground under cameras."""
    site = document["site"]
    for solid in site.get("solids", []):
        yield from solid.get("outline", [])
        yield from solid.get("line", [])
        if "at" in solid:
            yield solid["at"]
    for camera in document["cameras"]:
        yield the(site["mounts"], camera["mount"])["at"]


def marks_of(document, checked):
    """What is found with a tape: mounts, worst places, ends of routes, what is set down to aim by."""
    for mount in document["site"]["mounts"]:
        yield mount["at"]
    for need in checked["needs"]:
        if need["worst"]:
            yield need["worst"]["at"][:2]
    for place in document["site"].get("places", []):
        if "line" in place:
            yield place["line"][0]
            yield place["line"][-1]
    for aim in checked["aims"]:
        for point in aim["points"]:
            yield point["at"][:2]


def along_walls(document):
    """How far along a wall each mount is from both ends of it, m."""
    for solid, mount in itertools.product(document["site"].get("solids", []), document["site"]["mounts"]):
        outline, line = solid.get("outline", []), solid.get("line", [])
        for one, other in [*zip(outline, outline[1:] + outline[:1]), *zip(line, line[1:])]:
            for begin, end in ((one, other), (other, one)):
                wall = math.dist(begin, end)
                yield sum((at - b) * (e - b) for at, b, e in zip(mount["at"], begin, end)) / wall if wall else 0


def bars_of(levels):
    """Width of a bar, m: half a wave at the frequency that the reference picture still shows (docs/models.md, 6)."""
    low, high = 1e-6, 0.5
    for _ in range(60):
        half = (low + high) / 2
        shown = REFERENCE_CONTRAST * math.exp(-2 * (math.pi * REFERENCE_BLUR * half) ** 2) * math.sin(math.pi * half) / (math.pi * half)
        low, high = (half, high) if shown > THRESHOLD else (low, half)
    return [1 / (2 * low * density) for density in levels]


def derived(document, checked):
    """Numbers that papers work out from the document alone, by other code than theirs."""
    numbers = [math.dist(one, other) for one in corners_of(document) for other in marks_of(document, checked)]
    for one, other in itertools.product(list(corners_of(document)), list(marks_of(document, checked))):
        numbers.append(math.degrees(math.atan2(other[0] - one[0], other[1] - one[1])) % 360)
    bars = bars_of({need["required_px_per_m"] for need in checked["needs"]})
    numbers += [1000 * bar for bar in bars] + [7000 * bar for bar in bars]  # wide, and long
    numbers += [length_of(way["line"]) for way in document["site"].get("ways", [])]
    return numbers + list(along_walls(document))


def costs_of(document, loads):
    """What cameras, devices, disks and cable come to, as far as they have prices."""
    prices = {sheet["name"]: sheet.get("price") or 0 for sheet in document["catalogue"]}
    feeds = document["site"].get("feeds", [])
    disks = [feed["disks"] for feed in feeds if "disks" in feed]
    return [sum(prices[camera["sheet"]] for camera in document["cameras"]),
            sum(feed.get("price", 0) for feed in feeds),
            sum(one.get("price", 0) * one.get("count", 1) for one in disks),
            sum(kind["price"] or 0 for kind in loads["cable"]["to_buy"])]


def length_of(line):
    return sum(math.dist(one, other) for one, other in zip(line, line[1:]))


class Site:
    """A site's papers, and all that its answers hold."""

    def __init__(self, path):
        self.path = path
        self.folder = papers(path, "--no-masks", "--no-pictures")
        self.document = json.loads(path.read_text(encoding="utf-8"))
        self.checked, self.loads = answer("check", path), answer("loads", path, "--no-masks")
        self.numbers, self.texts = [], []
        for table in ("levels", "cables", "typical"):
            numbers_in(json.loads((PROJECT / "data" / f"{table}.json").read_text(encoding="utf-8")), self.numbers, self.texts)
        for part in (self.document, self.checked, self.loads, *cards_of(self.document)):
            numbers_in(part, self.numbers, self.texts)
        self.numbers += derived(self.document, self.checked)
        self.costs = costs_of(self.document, self.loads)
        self.numbers += [*self.costs, sum(self.costs)]
        self.own = set(FIGURE.findall(" ".join(self.texts)))

    def strange(self, paper, text):
        for pattern, _ in EXEMPT[""] + EXEMPT.get(paper, []):
            text = re.sub(pattern, " ", text)
        for figure in FIGURE.findall(text):
            if "." not in figure and float(figure) < 32:
                continue
            if figure not in self.own and not is_rounding(figure, self.numbers):
                yield figure

    def rows(self, table):
        with open(self.folder / f"{table}.csv", encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))


def same(told, number, digits, what):
    """A cell against the number that it has to be."""
    expect(told != "" and abs(float(told) - number) <= 0.5000001 * 10 ** -digits, f"{what}: {told} told, {number} answered")


def check_texts(site):
    for paper in TEXTS:
        strange = sorted(set(site.strange(paper, words_of(site.folder / paper))))
        expect(not strange, f"{site.path.name}: {paper}: figures of no answer: {' '.join(strange)}")
    for table in TABLES:
        words = " ".join(cell for row in site.rows(table) for cell in row.values() if cell and not is_number(cell))
        if table != "materials":
            words = re.sub(r"\d+\.\d+\.\d+\.\d+", " ", words)
        strange = sorted(set(site.strange(table, words)))
        expect(not strange, f"{site.path.name}: {table}.csv: figures of no answer: {' '.join(strange)}")


def check_cost(site):
    told, words = sum(site.costs), words_of(site.folder / "owner.pdf")
    if told == 0:
        expect("No prices were entered." in words, f"{site.path.name}: the owner's page has prices from nowhere")
    else:
        found = re.search(r"What has a price comes to (\d+(?:\.\d+)?)", words)
        expect(found and abs(float(found[1]) - told) < 0.006, f"{site.path.name}: {told} in all, the owner's page: {found}")


def is_number(text):
    try:
        float(text)
        return True
    except ValueError:
        return False


def check_cameras(site):
    for row, camera, aim in zip(site.rows("cameras"), site.document["cameras"], site.checked["aims"]):
        name = camera["name"]
        expect(row["camera"] == name == aim["camera"], f"{row['camera']} stands in place of {name}")
        for column, number, digits in (("east, m", aim["at"][0], 2), ("north, m", aim["at"][1], 2),
                                       ("height of the lens, m", aim["height_m"], 2), ("heading, deg", aim["heading_deg"], 1),
                                       ("tilt, deg", aim["tilt_deg"], 1), ("focal length, mm", aim["focal_mm"], 2)):
            same(row[column], number, digits, f"{name}: {column}")
        price = the(site.document["catalogue"], camera["sheet"]).get("price")
        told = next(value for key, value in row.items() if key.startswith("price"))
        expect(told == "" if price is None else float(told) == price, f"{name}: price {told}")


def worst(held):
    return max(held, key=["met", "marginal", "unknown", "missed"].index)


def check_cables(site):
    runs = site.loads["cable"]["runs"]
    supplied = {run["run"]: run["held"] for run in site.loads["power"]["supply_runs"]}
    expect([row["label"] for row in site.rows("cables")] == [run["run"] for run in runs], "cables.csv has other runs")
    for row, run in zip(site.rows("cables"), runs):
        for column, end_of in (("length with slack and loops, m", "nominal"), ("at least, m", "low"), ("at most, m", "high")):
            same(row[column], run["length_m"][end_of], 1, f"{run['run']}: {column}")
        expect(row["cable"] == (run["instead"] or run["cable"]), f"{run['run']}: {row['cable']}")
        held = worst([run["held"], supplied.get(run["run"], "met")])
        expect(row["as planned"] == held, f"{run['run']}: {row['as planned']}")


def fibre_kinds():
    cables = json.loads((PROJECT / "data" / "cables.json").read_text(encoding="utf-8"))["cables"]
    return {cable["name"] for cable in cables if cable["medium"] == "fibre"}


def check_ports(site):
    laid = {run["run"]: run for run in site.loads["cable"]["runs"]}
    power = {port["run"]: port for port in site.loads["power"]["ports"]}
    for row in site.rows("ports"):
        run = laid.get(row["cable"])
        fed = run and row["to"] == run["to"] and run["powered"] and (run["instead"] or run["cable"]) not in fibre_kinds()
        if fed:
            same(row["draws at most, W"], power[row["cable"]]["at_port"]["load_w"]["high"], 2, f"{row['cable']} at its port")
        else:
            expect(row["draws at most, W"] == "", f"{row['cable']}: {row['draws at most, W']} W at no powered port")
        feed = the(site.document["site"]["feeds"], row["feed"])
        if row["power class"]:
            expect(float(row["power class"]) == feed.get("power_class", 4), f"{row['feed']}: class {row['power class']}")


def check_materials(site):
    laid = {run["run"]: run for run in site.loads["cable"]["runs"]}
    bought = {}
    for row in site.rows("materials"):
        price = [value for key, value in row.items() if key.startswith("price")]
        if all(price):
            same(price[1], float(price[0]) * float(row["quantity"]), 2, f"{row['what']}: price")
        if row["kind"] in ("cable", "settle before buying") and row["quantity"]:
            run = laid[row["what"].partition(":")[0]]
            same(row["quantity"], run["length_m"]["high"], 1, f"{row['what']}: metres")
            if row["kind"] == "cable":
                kind = run["instead"] or run["cable"]
                bought[kind] = bought.get(kind, 0) + float(row["quantity"])
        elif row["unit"] == "m on the plan":
            ways = [way for way in site.document["site"]["ways"] if way["name"] in row["remarks"]]
            total = sum(round(length_of(way["line"]), 1) for way in ways)
            same(row["quantity"], total, 1, f"{row['kind']} {row['what']}: metres")
    for row in site.rows("materials"):
        if row["kind"] == "cable in all":
            same(row["quantity"], bought[row["what"]], 1, f"{row['what']} in all")


def check_addresses(site):
    """Each address is in the network, and no two devices have one."""
    network = ipaddress.ip_network("192.168.50.0/24")
    found = [row["address"] for row in site.rows("cameras")]
    expect(len(set(found)) == len(found), "two cameras have one address")
    for text in re.findall(r"\d+\.\d+\.\d+\.\d+", words_of(site.folder / "settings.pdf")):
        expect(text == str(network.netmask) or ipaddress.ip_address(text) in network, f"{text} is in no network")


def sheet_rows(path, number):
    """Cells of a sheet as they are stored."""
    names = {"m": "http://schemas.openxmlformats.org/spreadsheetml/2006/main"}
    with zipfile.ZipFile(path) as book:
        shared = [
            "".join(part.text or "" for part in item.iterfind(".//m:t", names))
            for item in ElementTree.fromstring(book.read("xl/sharedStrings.xml")).iterfind("m:si", names)
        ]
        sheet = ElementTree.fromstring(book.read(f"xl/worksheets/sheet{number}.xml"))
    for row in sheet.iterfind(".//m:row", names):
        cells = {}
        for cell in row.iterfind("m:c", names):
            value = cell.find("m:v", names)
            text = "" if value is None else shared[int(value.text)] if cell.get("t") == "s" else value.text
            cells[re.match(r"[A-Z]+", cell.get("r")).group()] = text
        yield cells


def check_spreadsheet(site):
    """The spreadsheet's figures are those of the tables beside it."""
    for number, table in enumerate(TABLES, 1):
        stored = list(sheet_rows(site.folder / "schedules.xlsx", number))
        rows = site.rows(table)
        expect(len(stored) == len(rows) + 1, f"{table}: {len(stored)} rows in the spreadsheet")
        for cells, row in zip(stored[1:], rows):
            told = [float(cell) for cell in row.values() if is_number(cell)]
            kept = [float(cell) for cell in cells.values() if is_number(cell)]
            expect(sorted(told) == sorted(kept), f"{table}: {told} beside {kept} in the spreadsheet")


def main():
    for path in (CASES / "wired.sightfall.json", CASES / "yard.sightfall.json", DEMO):
        site = Site(path)
        for check in (check_texts, check_cost, check_cameras, check_cables, check_ports, check_materials, check_addresses, check_spreadsheet):
            check(site)


main()
end()
