#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The workbench from start to end: it says where it is, serves the page and the site, refuses a port that is in use, asks
who comes from a network to pair, and ends by an interrupt with everything on disk.

Usage: served.py SIGHTFALL
"""
import json
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request

HERE = pathlib.Path(__file__).resolve().parent
SITE = "shed.sightfall.json"
PATIENCE = 60  # seconds
WORKING = 1.0  # seconds, when judging is under way
AT_ONCE = 1.5  # seconds, on a busy machine with sanitizers; some 0.2 s otherwise


def hold(promise, text):
    if not promise:
        raise AssertionError(text)


def served(sightfall, folder, *words):
    """The running program and what it says up to the line that ends its greeting."""
    running = subprocess.Popen([sightfall, "serve", *words, "--port", "0"], cwd=folder, stdout=subprocess.PIPE,
                               stderr=subprocess.PIPE, text=True)
    said = ""
    for line in running.stdout:
        said += line
        if line.startswith("Ctrl-C"):
            return running, said, re.search(r"http://localhost:\d+", said).group(0)
    raise AssertionError(f"it ended: {running.stderr.read()}")


def ask(url, body=None, headers=()):
    """Status, headers and body."""
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(url, data=data, headers={"X-Sightfall-Tab": "test", **dict(headers)})
    try:
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
            return answer.status, answer.headers, answer.read()
    except urllib.error.HTTPError as refused:
        return refused.code, refused.headers, refused.read()


def ended(running):
    running.send_signal(signal.SIGINT)
    out, errors = running.communicate(timeout=PATIENCE)
    hold(running.returncode == 0, f"exit status {running.returncode} after an interrupt: {errors}")
    return out


def on_this_machine(sightfall, folder):
    running, _, url = served(sightfall, folder, SITE)
    try:
        status, headers, page = ask(url + "/")
        hold(status == 200 and b"Sightfall" in page, f"the page: {status}")
        hold("default-src 'self'" in headers["Content-Security-Policy"], "the page has no policy")
        status, _, body = ask(url + "/api/site")
        site = json.loads(body)
        hold(status == 200 and site["file"] == SITE, f"the site: {status} {body[:200]}")
        edit = {"words": "name it anew", "changes": [{"at": ["name"], "was": site["document"]["name"], "now": "Served"}]}
        status, _, body = ask(url + "/api/edits", edit)
        hold(status == 200, f"an edit: {status} {body[:200]}")
        port = url.rsplit(":", 1)[1]
        second = subprocess.run([sightfall, "serve", "--port", port], capture_output=True, text=True, timeout=PATIENCE, check=False)
        hold(second.returncode == 2 and "in use" in second.stderr, f"a port in use: {second.returncode} {second.stderr}")
    finally:
        ended(running)
    hold(json.loads((folder / SITE).read_text(encoding="utf-8"))["name"] == "Served", "the edit is not in the file")


def in_the_midst_of_work(sightfall, folder):
    """An end while the demo is judged and an edit has just been made: at once, and nothing is lost."""
    running, _, url = served(sightfall, folder)
    try:
        status, _, body = ask(url + "/api/open", {"demo": True, "as": "demo.sightfall.json"})
        hold(status == 200, f"the demo: {status} {body[:200]}")
        time.sleep(WORKING)
        was = json.loads(body)["document"]["name"]
        status, _, body = ask(url + "/api/edits", {"words": "x", "changes": [{"at": ["name"], "was": was, "now": "Last"}]})
        hold(status == 200, f"an edit: {status} {body[:200]}")
    finally:
        asked = time.monotonic()
        running.send_signal(signal.SIGTERM)
        _, errors = running.communicate(timeout=PATIENCE)
    took = time.monotonic() - asked
    hold(running.returncode == 0, f"exit status {running.returncode}: {errors}")
    hold(took < AT_ONCE, f"it took {took:.2f} s to end")
    hold(json.loads((folder / "demo.sightfall.json").read_text(encoding="utf-8"))["name"] == "Last", "the edit is not in the file")
    hold(not list(folder.glob("*.history-*")), "the history was not closed")


def from_a_network(sightfall, folder):
    running, said, url = served(sightfall, folder, SITE, "--listen", "127.0.0.1", "--host", "yard.example")
    try:
        hold("http://yard.example:" in said, f"it does not say its name: {said}")
        code = re.search(r"ten minutes: (\S+)", said).group(1)
        hold(ask(url + "/")[0] == 200, "the page is free")
        hold(ask(url + "/api/site")[0] == 401, "the site is not")
        hold(ask(url + "/api/pair", {"code": "AAAA-AAAA"})[0] == 401, "a wrong code opens nothing")
        status, headers, body = ask(url + "/api/pair", {"code": code})
        hold(status == 200, f"the code: {status} {body}")
        cookie = headers["Set-Cookie"].split(";")[0]
        hold(ask(url + "/api/site", headers=[("Cookie", cookie)])[0] == 200, "the cookie opens")
    finally:
        said = ended(running)
    hold(re.search(r"The next code: \S{4}-\S{4}", said), f"no further code was shown: {said}")


def main():
    failed = 0
    for trial in (on_this_machine, in_the_midst_of_work, from_a_network):
        with tempfile.TemporaryDirectory() as made:
            folder = pathlib.Path(made)
            shutil.copy(HERE / "files" / SITE, folder)
            try:
                trial(pathlib.Path(sys.argv[1]).resolve(), folder)
            except (AssertionError, AttributeError, KeyError, ValueError, OSError) as fault:
                failed += 1
                print(f"{trial.__name__}: {fault!r}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
