#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every figure of the report is one that `check --json`, `loads --json` or a camera's `card --json` holds.

Usage: figures.py SIGHTFALL PROJECT
A figure with digits after its point must be the rounding of a number of the answers or of the document (as it is, as a
percentage, in feet, or as one over it), or stand in a text of theirs. Whole numbers below 32 are left out, for lists and
counts have them.
"""
import json
import re
import tempfile

from common import CASES, PROJECT, answer, end, expect, papers, words_of

FIGURE = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)(?![\w.]*\d)")


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


def of_prose(text):
    """Figures that are no results: names of standards, the words of advice."""
    return re.sub(r"IEC/EN [\d:-]+|IEC 62471|\d+ % range|edition \d|20\d\d-\d\d-\d\d|\d+ / \d+", " ", text)


def cards_of(document):
    """The range card of each camera as it hangs, by the command line."""
    sheets = {sheet["name"]: sheet for sheet in document["catalogue"]}
    for camera in document["cameras"]:
        mount = next(one for one in document["site"]["mounts"] if one["name"] == camera["mount"])
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


def check(site):
    folder = papers(site, "--no-masks", "--no-pictures")
    numbers, texts = [], []
    numbers_in(json.loads((PROJECT / "data" / "levels.json").read_text(encoding="utf-8")), numbers, texts)
    document = json.loads(site.read_text(encoding="utf-8"))
    for card in cards_of(document):
        numbers_in(card, numbers, texts)
    numbers_in(document, numbers, texts)
    numbers_in(answer("check", site), numbers, texts)
    numbers_in(answer("loads", site, "--no-masks"), numbers, texts)
    own = set(FIGURE.findall(" ".join(texts)))
    for figure in FIGURE.findall(of_prose(words_of(folder / "report.pdf"))):
        if "." not in figure and float(figure) < 32:
            continue
        if figure not in own and not is_rounding(figure, numbers):
            yield figure


def main():
    for site in (CASES / "wired.sightfall.json", CASES / "yard.sightfall.json"):
        strange = sorted(set(check(site)))
        expect(not strange, f"{site.name}: figures of no answer: {' '.join(strange)}")


main()
end()
