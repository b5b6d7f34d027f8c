#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An interrupt ends work with what is known so far: whole verdicts, pictures and clips, and word that it was stopped.

Usage: interrupt.py SIGHTFALL
  Interrupts the check of a made site at moments which the progress on the terminal tells, while needs are judged,
  remedies looked for and plans drawn, and a walk while its clip is made.
"""
import json
import os
import pathlib
import pty
import re
import signal
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree

HERE = pathlib.Path(__file__).resolve().parent
NEEDS = 60
PATIENCE = 240  # seconds


def site():
    """The yard of the cases with many more places, most of which no camera serves."""
    project = json.loads((HERE / "files" / "yard.sightfall.json").read_text(encoding="utf-8"))
    for i in range(NEEDS - len(project["needs"])):
        x, y = -13 + 2.4 * (i % 12), 0 + 4.5 * (i // 12)
        outline = [[x, y], [x + 2, y], [x + 2, y + 4], [x, y + 4]]
        project["site"]["places"].append({"kind": "zone", "name": f"plot {i}", "outline": outline})
        project["needs"].append({"name": f"plot {i}", "subject": "person", "place": f"plot {i}", "level": "perceive"})
    project["settings"] = {"sample_spacing_m": 0.05}
    return project


def interrupted(sightfall, folder, words, moment):
    """Runs the command on a terminal of its own and interrupts it once the progress says `moment`."""
    mine, its = pty.openpty()
    with open(folder / "out", "w+b") as out:
        running = subprocess.Popen([sightfall, *words], cwd=folder, stdout=out, stderr=its, stdin=subprocess.DEVNULL)
        os.close(its)
        told, sent, began = b"", False, time.monotonic()
        while True:
            if time.monotonic() - began > PATIENCE:
                running.kill()
                raise AssertionError(f"did not end within {PATIENCE} s; its progress: {told[-200:]}")
            try:
                piece = os.read(mine, 4096)
            except OSError:  # the terminal was closed at its end
                break
            if not piece:
                break
            told += piece
            if not sent and re.search(moment, told):
                running.send_signal(signal.SIGINT)
                sent = True
        status = running.wait(timeout=PATIENCE)
        os.close(mine)
        out.seek(0)
        return sent, status, out.read().decode(), told.decode(errors="replace")


def hold(promise, text):
    if not promise:
        raise AssertionError(text)


def hold_pictures(folder, most):
    drawn = sorted((folder / "plans").glob("*"))
    hold(len(drawn) <= 2 * most and len(drawn) % 2 == 0, f"{len(drawn)} pictures of at most {most} needs, two each")
    for path in drawn:
        if path.suffix == ".svg":
            xml.etree.ElementTree.fromstring(path.read_bytes())
        else:
            data = path.read_bytes()
            hold(data.startswith(b"\x89PNG") and b"IEND" in data[-12:], f"{path.name} is cut short")
    return len(drawn) // 2


def while_judging(sightfall, folder):
    sent, status, out, told = interrupted(sightfall, folder, ["check", "many.sightfall.json", "--maps", "plans"], rb"judging needs")
    hold(sent, f"it never told its progress: {told[-300:]}")
    hold(status == 1, f"exit status {status}, not 1")
    hold("Stopped before its end" in out, "it does not say that it was stopped")
    judged = int(re.search(r"^(\d+) needs?,", out, re.MULTILINE).group(1))
    hold(0 < judged < NEEDS, f"{judged} of {NEEDS} needs were judged")
    rows = re.findall(r"^(?:person|face|plot)\b.* (?:met|marginal|missed) ", out, re.MULTILINE)
    hold(len(rows) == judged, f"{len(rows)} rows for {judged} needs")
    hold(hold_pictures(folder, judged) == 0, "plans were drawn after the stop")


def while_looking_for_remedies(sightfall, folder):
    sent, status, out, told = interrupted(sightfall, folder, ["check", "many.sightfall.json", "--json"], rb"looking for remedies")
    hold(sent and status == 1, f"exit status {status}; {told[-300:]}")
    answer = json.loads(out)
    hold(answer["stopped"], "the answer does not say that it was stopped")
    hold(len(answer["needs"]) == NEEDS, "every need was judged before remedies were looked for")


def while_drawing(sightfall, folder):
    words = ["check", "many.sightfall.json", "--no-remedies", "--maps", "plans"]
    sent, status, out, told = interrupted(sightfall, folder, words, rb"[1-9]\d* %  drawing plans")
    hold(sent and status == 1, f"exit status {status}; {told[-300:]}")
    hold(f"{NEEDS} needs, " in out, "the verdicts are not all there")
    drawn = hold_pictures(folder, NEEDS)
    hold(0 < drawn < NEEDS, f"{drawn} plans of {NEEDS}")
    hold(re.search(rf"stopped: {drawn} of \d+ plans were drawn", told), f"it does not say how many were drawn: {told[-300:]}")


def while_filming(sightfall, folder):
    words = ["walk", "--open-ground", str(HERE / "files" / "stream.sheet.json"), "--when", "day", "--marks", "60"]
    sent, status, out, told = interrupted(sightfall, folder, [*words, "--clip", "--out", "film", "--json"], rb"frame [2-9] of")
    hold(sent and status == 1, f"exit status {status}; {told[-300:]}")
    clips = json.loads(out)["clips"]
    hold(len(clips) == 2, f"{len(clips)} clips, not the one under the rate and the one free of it")
    of = int(re.search(r"frame \d+ of (\d+)", told).group(1))
    for clip in clips:
        hold(0 < clip["frames"] < of, f"{clip['frames']} frames of {of}")
        hold(f"stopped: 1 of 1 pictures and {clip['frames']} frames were made" in told, f"not told: {told[-300:]}")
        data = (folder / "film" / clip["file"]).read_bytes()
        hold(b"ftyp" in data[:12] and b"moov" in data, f"{clip['file']} is cut short")
    left = [path.name for path in (folder / "film").glob("*.part*")]
    hold(not left, f"left behind: {left}")


def main():
    failed = 0
    for moment in (while_judging, while_looking_for_remedies, while_drawing, while_filming):
        with tempfile.TemporaryDirectory() as made:
            folder = pathlib.Path(made)
            (folder / "many.sightfall.json").write_text(json.dumps(site()), encoding="utf-8")
            try:
                moment(pathlib.Path(sys.argv[1]).resolve(), folder)
            except (AssertionError, ValueError, AttributeError, xml.etree.ElementTree.ParseError) as fault:
                failed += 1
                print(f"{moment.__name__}: {fault}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
