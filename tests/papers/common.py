# SPDX-License-Identifier: GPL-3.0-or-later
"""Papers made in a folder of their own, and the answers that they have to agree with."""
import atexit
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

SIGHTFALL, PROJECT = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
CASES = PROJECT / "tests" / "case" / "files"
faults = []


def expect(holds, what):
    if not holds:
        faults.append(what)


def run(*words):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False)


def papers(site, *options):
    """The folder with the papers of a site, which goes when the program ends."""
    folder = pathlib.Path(tempfile.mkdtemp(prefix="papers-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    made = run(SIGHTFALL, "papers", site, "--out", folder, "--date", "2026-11-27", *options)
    if made.returncode != 0:
        raise SystemExit(f"papers {site}: status {made.returncode}\n{made.stderr}")
    return folder


def answer(*words):
    return json.loads(run(SIGHTFALL, *words, "--json").stdout)


def text_of(pdf):
    return run("pdftotext", "-layout", pdf, "-").stdout


def words_of(pdf):
    """The text in the order in which it was set, white space made one."""
    return " ".join(run("pdftotext", "-raw", pdf, "-").stdout.split())


def end():
    for fault in faults:
        print(fault)
    print(f"{len(faults)} faults")
    sys.exit(1 if faults else 0)
