#!/usr/bin/env python3
"""Is every statement of every reported contradiction needed for it?

    bash tests/golden/drop_one PROGRAM [CASE]

For each case of tests/golden/contradictions, each statement that a contradiction lists is taken out of the files in turn,
and the program is asked again: nothing that is left of that contradiction may be reported. What a key says is taken out
with its line (and `clean` with `replaces`, which it belongs to); what a table says, with the lines up to the next table.
The lines are emptied, not removed, so that every other statement keeps its place. With the files as they are, the
contradiction must be reported, and nothing that is no contradiction; otherwise its absence would prove nothing.
"""
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

TOPIC = pathlib.Path(__file__).resolve().parent / "contradictions"


def contradictions(program, kb):
    """Each contradiction as its statements: a set of (file, line, statement). Any other error stops the check."""
    run = subprocess.run([program, "check", "--format", "json", kb], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        raise SystemExit(f"drop_one: check ended with {run.returncode}: {run.stderr}")
    found = []
    for diagnostic in json.loads(run.stdout)["diagnostics"]:
        if diagnostic["code"] == "contradiction":
            found.append({(reason["place"]["file"], reason["place"]["line"], reason["statement"])
                          for reason in diagnostic["reasons"]})
        elif diagnostic["severity"] == "error":
            raise SystemExit(f"drop_one: {kb}: {diagnostic['code']}: {diagnostic['message']}")
    return found


def without(text, line):
    """The text with the statement at `line` (from 1) emptied."""
    lines = text.split("\n")
    at = line - 1
    if lines[at].startswith("["):
        end = at + 1
        while end < len(lines) and not lines[end].startswith("["):
            end += 1
        return "\n".join(lines[:at] + [""] * (end - at) + lines[end:])
    key = lines[at].split("=")[0].strip()
    if key in ("id", "name"):
        raise SystemExit(f"drop_one: line {line} is no statement of its own: {lines[at]}")
    lines[at] = ""
    if key == "replaces":
        near = [i for i in range(at - 1, at + 2) if 0 <= i < len(lines) and lines[i].startswith("clean")]
        for i in near:
            lines[i] = ""
    return "\n".join(lines)


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    only = sys.argv[2] if len(sys.argv) > 2 else None
    passed = failed = 0
    for case in sorted(TOPIC.iterdir()):
        if only not in (None, case.name) or not (case / "kb").is_dir():
            continue
        for number, statements in enumerate(contradictions(program, case / "kb"), 1):
            for file, line, statement in sorted(statements):
                with tempfile.TemporaryDirectory() as scratch:
                    kb = pathlib.Path(scratch) / "kb"
                    shutil.copytree(case / "kb", kb)
                    path = kb / file
                    path.write_text(without(path.read_text(encoding="utf-8"), line), encoding="utf-8")
                    left = [other for other in contradictions(program, kb) if other <= statements]
                if left:
                    failed += 1
                    print(f"{case.name}: contradiction {number} does not need {file}:{line}: {statement}")
                else:
                    passed += 1
    print(f"drop-one: {passed} passed, {failed} failed")
    return 0 if failed == 0 and passed > 0 else 1


sys.exit(main())
