#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Papers opened by other programs: PDF by poppler, XLSX and DXF by GDAL, CSV by Python; XLSX by LibreOffice, too, where it
is installed (libreoffice-calc-nogui: 270 MB, so tools/packages does not ask for it).

Usage: opened.py SIGHTFALL PROJECT
"""
import csv
import json
import math
import pathlib
import re
import shutil
import tempfile

from common import CASES, PROJECT, SIGHTFALL, end, expect, papers, run, text_of, words_of

SHEETS = ["cameras", "cables", "ports", "materials"]
PDFS = ["report.pdf", "owner.pdf", "settings.pdf", "field.pdf", "upkeep.pdf", "signs.pdf", "plan.pdf"]
NAMES = ["ворота и двор", "正門カメラ", "대문", "गेट कैमरा", "Πύλη", "<script>alert(1)</script>", "=1+1", 'a "quoted", name']


def facts_of(pdf):
    return {key.strip(): value.strip() for key, _, value in
            (line.partition(":") for line in run("pdfinfo", pdf).stdout.splitlines())}


def rows_of(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def check_pdfs(folder, size, plan_size):
    for name in PDFS:
        facts = facts_of(folder / name)
        expect(facts.get("Tagged") == "yes", f"{name} is not tagged")
        expect(facts.get("Title"), f"{name} has no title")
        wanted = plan_size if name == "plan.pdf" else size
        expect(wanted in facts.get("Page size", ""), f"{name}: {facts.get('Page size')}, not {wanted}")
        expect("2026" in facts.get("CreationDate", ""), f"{name}: {facts.get('CreationDate')}")
        expect(len(text_of(folder / name)) > 200, f"{name} has no text")
    expect(facts_of(folder / "owner.pdf").get("Pages") == "1", "the owner's summary is not one page")


def check_figures(folder):
    """Each figure of the structure that poppler sees tells what it shows (ISO 32000-1, 14.9.3)."""
    for name, least in {"report.pdf": 3, "field.pdf": 1, "signs.pdf": 1, "plan.pdf": 1}.items():
        seen = run("pdfinfo", "-struct", folder / name)
        figures = [line for line in seen.stdout.splitlines() if line.strip() == "Figure"]
        told = re.findall(rb"/S /Figure\n   /Alt <FEFF([0-9A-F]+)>", (folder / name).read_bytes())
        expect(not seen.stderr, f"{name}: {seen.stderr}")
        expect(len(figures) >= least, f"{name}: {len(figures)} figures")
        expect(len(told) == len(figures), f"{name}: {len(told)} of {len(figures)} figures are told")
        for one in told:
            text = bytes.fromhex(one.decode()).decode("utf-16-be")
            expect(len(text) > 20 and text.isprintable(), f"{name}: a figure is told as {text!r}")


def check_same(site):
    first, second = papers(site, "--no-masks"), papers(site, "--no-masks")
    for path in sorted(first.iterdir()):
        expect(path.read_bytes() == (second / path.name).read_bytes(), f"{path.name} differs from run to run")


def compare(name, ours, theirs, program):
    expect(ours[0] == theirs[0], f"{name}, {program}: columns {theirs[0]}")
    expect(len(ours) == len(theirs), f"{name}, {program}: {len(theirs)} rows in the spreadsheet, {len(ours)} in the CSV file")
    for mine, other in zip(ours[1:], theirs[1:]):
        expect(len(mine) == len(other), f"{name}, {program}: {other}")
        for left, right in zip(mine, other):
            left = left[1:] if left.startswith("'=") else left
            same = left == right or (left and right and is_number(left) and float(left) == float(right))
            expect(same, f"{name}, {program}: {left!r} in the CSV file, {right!r} in the spreadsheet")


def check_spreadsheet(folder):
    for name in SHEETS:
        with tempfile.TemporaryDirectory() as other:
            target = pathlib.Path(other) / "out.csv"
            run("ogr2ogr", "-f", "CSV", "-oo", "HEADERS=FORCE", target, folder / "schedules.xlsx", name)
            ours = rows_of(folder / f"{name}.csv")
            if len(ours) > 1:  # of a sheet with headings alone GDAL makes a row
                compare(name, ours, rows_of(target), "GDAL")
    office = shutil.which("soffice")
    if office is None:
        print("skipped: LibreOffice is not installed, so it has not opened schedules.xlsx")
        return
    with tempfile.TemporaryDirectory() as other:
        # Commas, quotes, UTF-8; cells as they are stored; every sheet a file.
        as_csv = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"
        run(office, "--headless", f"-env:UserInstallation=file://{other}/profile", "--convert-to", as_csv,
            "--outdir", other, folder / "schedules.xlsx")
        for name in SHEETS:
            target = pathlib.Path(other) / f"schedules-{name}.csv"
            expect(target.exists(), f"LibreOffice found no sheet {name}")
            if target.exists():
                compare(name, rows_of(folder / f"{name}.csv"), rows_of(target), "LibreOffice")


def is_number(text):
    try:
        float(text)
        return True
    except ValueError:
        return False


def check_dxf(folder, cameras):
    told = run("ogrinfo", "-al", "-q", folder / "plan.dxf").stdout
    expect(told.count("Layer (String) = CAMERA-NUMBERS") == cameras, "plan.dxf has not each camera's number")
    expect("Layer (String) = BUILDINGS" in told, "plan.dxf has no buildings")


def check_leaders(folder):
    """Each leader of the drawing, as GDAL reads it, ends at words and begins away from where they are."""
    told = json.loads(run("ogr2ogr", "-f", "GeoJSON", "/vsistdout/", folder / "plan.dxf").stdout)["features"]
    words = [one["geometry"]["coordinates"][:2] for one in told if one["properties"].get("Text")]
    leaders = [one["geometry"] for one in told if one["properties"]["Layer"] == "LEADERS"]
    expect(leaders, "plan.dxf has no leaders")
    for leader in leaders:
        expect(leader["type"] == "LineString" and len(leader["coordinates"]) == 2, f"a leader is {leader}")
        begin, tip = (point[:2] for point in leader["coordinates"])
        expect(min(math.dist(tip, one) for one in words) < 0.4, f"a leader ends at {tip}, where no words are")
        expect(math.dist(begin, tip) > 0.2, f"a leader at {tip} leads nowhere")


def renamed(site, folder):
    """The site with names in many scripts, and some that a program could take for something else."""
    document = json.loads(site.read_text(encoding="utf-8"))
    first = document["cameras"][0]
    document["cameras"] = [dict(first, name=name) for name in NAMES]
    document["name"] = " ".join(NAMES)[:80]
    target = pathlib.Path(folder) / "names.sightfall.json"
    target.write_text(json.dumps(document), encoding="utf-8")
    return target, [camera["name"] for camera in document["cameras"]]


def check_names():
    with tempfile.TemporaryDirectory() as folder:
        site, cameras = renamed(CASES / "yard.sightfall.json", folder)
        made = papers(site, "--no-masks", "--no-pictures")
        for name in ["ворота и двор", "正門カメラ", "대문", "Πύλη", "<script>alert(1)</script>", "=1+1"]:
            expect(name in words_of(made / "report.pdf"), f"the report has no {name}")
        svg = (made / "plan.svg").read_text(encoding="utf-8")
        expect("<script" not in svg, "a name is markup in plan.svg")
        check_spreadsheet(made)
        for row in rows_of(made / "cameras.csv")[1:]:
            expect(row[1].lstrip("'") in cameras and not row[1].startswith("="), f"cameras.csv: {row[1]}")


def main():
    wired = CASES / "wired.sightfall.json"
    folder = papers(wired, "--no-masks")
    check_pdfs(folder, "A4", "A3")
    check_figures(folder)
    check_pdfs(papers(wired, "--no-masks", "--no-pictures", "--paper", "letter"), "letter", "1224 x 792")
    check_spreadsheet(folder)
    check_dxf(folder, len(json.loads(wired.read_text(encoding="utf-8"))["cameras"]))
    check_leaders(papers(next((PROJECT / "demo").glob("*.sightfall.json")), "--no-masks", "--no-pictures"))
    check_same(wired)
    check_names()


main()
end()
