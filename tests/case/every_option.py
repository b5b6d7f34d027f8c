#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every verb and every option has a case. The program itself says what there is: its completion script.

Usage: every_option.py SIGHTFALL
"""
import pathlib
import re
import shlex
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent


def options_of_verbs(sightfall):
    script = subprocess.run([sightfall, "completion", "bash"], capture_output=True, text=True, check=True).stdout
    found = {verb: options.split() for verb, options in re.findall(r"'([a-z ]+) '\*\)\s+options='([^']*)'", script)}
    if len(found) < 5:
        raise SystemExit(f"the completion script names only {sorted(found)}")
    top = re.search(r"' '\) options='([^']*)'", script).group(1).split()
    found[""] = [word for word in top if word.startswith("--")]
    return found


def commands():
    for path in sorted((HERE / "cases").glob("*.case")):
        for line in path.read_text(encoding="utf-8").splitlines():
            if line.startswith("$ sightfall"):
                yield shlex.split(line)[2:]


def main():
    given = list(commands())
    missing = []
    for verb, options in options_of_verbs(sys.argv[1]).items():
        words = verb.split()
        calls = [call[len(words):] for call in given if call[: len(words)] == words]
        if words and not any("--help" not in call for call in calls):
            missing.append(f"sightfall {verb}")
        for option in options:
            if not any(word.split("=")[0] == option for call in calls for word in call):
                missing.append(f"sightfall {verb} {option}".replace("  ", " "))
    for one in missing:
        print(f"no case in tests/case/cases: {one}")
    return 1 if missing else 0


if __name__ == "__main__":
    sys.exit(main())
