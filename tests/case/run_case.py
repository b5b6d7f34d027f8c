#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs one case: commands as a user types them, with the text, exit status and files expected of them.

Usage: run_case.py SIGHTFALL CASE [--accept]
  --accept  writes what was found into the case in place of what was expected, for a person to read before it is kept

Each case runs in a folder of its own that holds copies of tests/case/files. README.md says how a case is written.
Nothing may be written there but what the case says.
"""
import hashlib
import os
import pathlib
import re
import resource
import shlex
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

HERE = pathlib.Path(__file__).resolve().parent
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SETUP = ("swap", "file", "sparse", "folder", "link")
RULES = ("makes", "changes", "within", "largest", "stdout", "columns")


class Failed(Exception):
    """What differs, in words."""


class Command:
    """One command with what is expected of it."""

    def __init__(self, words, rules):
        self.words, self.rules = words, rules
        self.out, self.err, self.status = [], [], 0

    def rule(self, name, otherwise=None):
        return next((text for rule, text in self.rules if rule == name), otherwise)

    def all(self, name):
        return [text for rule, text in self.rules if rule == name]


class Case:
    """A case file: lines about it, then setups, rules and commands in their order."""

    def __init__(self, path):
        self.path = path
        self.steps = []
        rules, command, block = [], None, None
        for line in path.read_text(encoding="utf-8").splitlines():
            if block is not None and (line.startswith("    ") or not line):
                block.append(line[4:])
                continue
            block = None
            word, _, rest = line.partition(" ")
            if not line or word == "#":
                continue
            if word == "$":
                command = Command(rest, rules)
                self.steps.append(command)
                rules, block = [], command.out
            elif word == "!":
                command.err.append(rest)
            elif word == "exit":
                command.status = int(rest)
            elif word in RULES:
                rules.append((word, rest))
            elif word in SETUP:
                block = []
                self.steps.append((word, rest, block))
            else:
                raise Failed(f"{path.name}: no such line: {line}")

    def commands(self):
        return [step for step in self.steps if isinstance(step, Command)]

    def accepted(self):
        """The case with what was found in place of what was expected."""
        found = iter(self.commands())
        lines, inside, command = [], False, None
        for line in self.path.read_text(encoding="utf-8").splitlines():
            word = line.partition(" ")[0]
            if inside and (line.startswith("    ") or not line or word in ("!", "exit")):
                continue
            if inside and lines[-1]:
                lines.append("")
            inside = word == "$"
            lines.append(line)
            if inside:
                command = next(found)
                lines += ["    " + text if text else "" for text in command.out]
                lines += ["! " + text for text in command.err]
                if command.status:
                    lines.append(f"exit {command.status}")
        return "\n".join(lines).rstrip("\n") + "\n"


def set_up(step, folder):
    kind, text, block = step
    if kind == "swap":
        name, _, change = text.partition(": ")
        old, _, new = change.partition(" => ")
        path = folder / name
        before = path.read_text(encoding="utf-8")
        if before.count(old) != 1:
            raise Failed(f"swap: {name} holds {before.count(old)} times, not once: {old}")
        path.write_text(before.replace(old, new), encoding="utf-8")
    elif kind == "file":
        while block and not block[-1]:
            block.pop()
        (folder / text).write_text("\n".join(block) + "\n", encoding="utf-8")
    elif kind == "sparse":
        name, size = text.split()
        with open(folder / name, "wb") as file:
            file.truncate(int(size))
    elif kind == "folder":
        name, *mode = text.split()
        (folder / name).mkdir()
        if mode:
            (folder / name).chmod(int(mode[0], 8))
    elif kind == "link":
        name, target = text.split()
        (folder / name).symlink_to(target)


def snapshot(folder):
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_symlink() or not path.is_file():
            found[str(path.relative_to(folder))] = "not a file"
        elif path.stat().st_size > 1 << 28:
            found[str(path.relative_to(folder))] = str(path.stat().st_size)
        else:
            found[str(path.relative_to(folder))] = hashlib.sha256(path.read_bytes()).hexdigest()
    return found


def hold_file(path):
    """A file that a command made must be whole."""
    if path.is_dir():
        return
    data = path.read_bytes()
    if path.suffix == ".svg" and not xml.etree.ElementTree.fromstring(data).tag.endswith("svg"):
        raise Failed(f"{path.name} is XML but no SVG")
    if path.suffix == ".png" and not (data.startswith(b"\x89PNG\r\n\x1a\n") and data[12:16] == b"IHDR" and b"IEND" in data[-12:]):
        raise Failed(f"{path.name} is no whole PNG")
    if not data:
        raise Failed(f"{path.name} is empty")


def hold_files(command, before, after, folder):
    made = {name for name in after if name not in before}
    changed = {name for name in after if name in before and after[name] != before[name]}
    gone = set(before) - set(after)
    if gone:
        raise Failed(f"gone: {sorted(gone)}")
    for what, found, expected in (("made", made, set(command.all("makes"))), ("changed", changed, set(command.all("changes")))):
        if found != expected:
            raise Failed(f"files {what}: {sorted(found)}; expected: {sorted(expected)}")
    for name in made | changed:
        hold_file(folder / name)


def near(found, expected):
    """Whether two numbers are the same but for rounding: within 1 % or two units of the last digit."""
    unit = 10.0 ** -len(expected.partition(".")[2])
    return abs(float(found) - float(expected)) <= max(2 * unit, 0.01 * abs(float(expected))) + 1e-12


def same_line(found, expected):
    """Words exactly, numbers nearly; columns may be a blank wider or narrower for a digit more or less."""
    if found == expected:
        return True

    def words(line):
        line = re.sub(r"(?<=\S) +", " ", line)
        return NUMBER.split(line), NUMBER.findall(line)

    (found_words, found_numbers), (words_expected, numbers_expected) = words(found), words(expected)
    if [word.strip() for word in found_words] != [word.strip() for word in words_expected]:
        return False
    return all(near(one, other) for one, other in zip(found_numbers, numbers_expected))


def match(found, expected, i=0, j=0):
    """Whether the lines match; a line `...` stands for any number of lines."""
    while j < len(expected):
        if expected[j] == "...":
            return any(match(found, expected, k, j + 1) for k in range(i, len(found) + 1))
        if i == len(found) or not same_line(found[i], expected[j]):
            return False
        i, j = i + 1, j + 1
    return i == len(found)


def hold_text(what, found, expected):
    while expected and not expected[-1]:
        expected.pop()
    if match(found, expected):
        return
    blunt = next((i for i, (one, other) in enumerate(zip(found, expected)) if not same_line(one, other)), min(len(found), len(expected)))
    raise Failed(f"{what} differs, at line {blunt + 1} at the latest. Found:\n" + "\n".join("    " + line for line in found))


def limits(command):
    largest = command.rule("largest")
    if largest is not None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(largest), int(largest)))


def run(command, sightfall, folder):
    environment = {"PATH": f"{sightfall.parent}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8", "HOME": str(folder)}
    for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
        if name in os.environ:
            environment[name] = os.environ[name]
    if command.rule("columns"):
        environment["COLUMNS"] = command.rule("columns")
    before = snapshot(folder)
    with open(command.rule("stdout") or os.devnull, "wb") as other:
        done = subprocess.run(
            shlex.split(command.words),
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=other if command.rule("stdout") else subprocess.PIPE,
            stderr=subprocess.PIPE,
            timeout=float(command.rule("within", 300)),
            preexec_fn=lambda: limits(command),
            check=False,
        )
    return done, before, snapshot(folder)


def take(case, sightfall, folder, accept):
    for step in case.steps:
        if not isinstance(step, Command):
            set_up(step, folder)
            continue
        done, before, after = run(step, sightfall, folder)
        # Where the case happens to run is not part of what it says.
        found_out = (done.stdout or b"").decode().replace(f"{folder}/", "").splitlines()
        found_err = done.stderr.decode().replace(f"{folder}/", "").splitlines()
        if accept:
            if not step.out or not match(found_out, step.out):
                step.out = found_out
            if not match(found_err, step.err):
                step.err = found_err
            step.status = done.returncode
        try:
            hold_text("standard output", found_out, step.out)
            hold_text("standard error", found_err, step.err)
            if done.returncode != step.status:
                raise Failed(f"exit status {done.returncode}; expected {step.status}")
            if any(line != line.rstrip() for line in found_out + found_err):
                raise Failed("a line ends in blanks")
            hold_files(step, before, after, folder)
        except Failed as failure:
            raise Failed(f"$ {step.words}\n{failure}\nstandard error was:\n{done.stderr.decode()}") from failure


def main():
    sightfall, path = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
    try:
        case = Case(path)
        with tempfile.TemporaryDirectory() as made:
            folder = pathlib.Path(made).resolve()
            shutil.copytree(HERE / "files", folder, dirs_exist_ok=True)
            take(case, sightfall, folder, "--accept" in sys.argv)
        if "--accept" in sys.argv:
            path.write_text(case.accepted(), encoding="utf-8")
    except subprocess.TimeoutExpired as slow:
        print(f"{path.name}: {slow}")
        return 1
    except (Failed, xml.etree.ElementTree.ParseError, OSError) as failure:
        print(f"{path.name}: {failure}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
