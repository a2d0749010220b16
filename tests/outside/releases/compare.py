#!/usr/bin/env python3
"""Does the chronology judge real release intervals as Debian's own program does?

Source: Debian packages distro-info-data (the dates, ISC licence) and distro-info (the answers, ISC licence).
Every release becomes a run, made from the day it was created until the day before its end of life; every day on or beside such
a boundary becomes an issue packed on that one day. With no stock kept at all, a run fits a day exactly where distro-info calls the
release supported on it; a release that came later is anachronistic, one that had ended is stale.

usage: compare.py PROGRAM
"""
import csv
import datetime
import json
import pathlib
import subprocess
import sys
import tempfile

ONE_DAY = datetime.timedelta(days=1)


def releases(distribution):
    """(series, first day, day of its end) of every release that has both dates."""
    with open(f"/usr/share/distro-info/{distribution}.csv", newline="") as file:
        for row in csv.DictReader(file):
            if row.get("created") and row.get("eol"):
                # distro-info counts the longer of the two supports of early long-term releases
                ended = max(row["eol"], row.get("eol-server") or "")
                yield row["series"], datetime.date.fromisoformat(row["created"]), datetime.date.fromisoformat(ended)


def boundary_days(found):
    days = set()
    for _, created, ended in found:
        for day in (created, ended):
            days.update((day - ONE_DAY, day, day + ONE_DAY))
    return sorted(days)


def knowledge_base(folder, found, days):
    runs = "".join(
        f'\n[[mould]]\nid = "{series}"\n\n[[mould.run]]\nid = "only"\nplant = "archive"\nbasis = "documented"\nsource = ["csv {series}"]\n'
        f'made = "{created}/{ended - ONE_DAY}"\n'
        for series, created, ended in found
    )
    issues = "".join(
        f'\n[[issue]]\nid = "d{day}"\npacked = "{day}"\npacker = "archive"\nbasis = "documented"\nsource = ["csv {day}"]\n\n'
        f'[[issue.takes]]\naccessory = "release"\n'
        for day in days
    )
    (folder / "frame.toml").write_text(
        '[line]\nid = "archive"\nname = "Archive"\n\n[line.leftover]\nat-most = "P0D"\nbasis = "documented"\nsource = ["csv"]\n\n'
        '[[plant]]\nid = "archive"\nname = "Archive"\n\n[[source]]\nid = "csv"\ntitle = "distro-info-data"\nkind = "web-page"\n'
    )
    (folder / "release.toml").write_text('[accessory]\nid = "release"\nname = "Release"\nslot = "day"\n' + runs)
    (folder / "day.toml").write_text('[figure]\nid = "day"\nname = "Day"\n' + issues)


def main(program):
    checked = failed = 0
    for distribution in ("debian", "ubuntu"):
        found = [release for release in releases(distribution) if release[2] - release[1] > ONE_DAY]
        days = boundary_days(found)
        with tempfile.TemporaryDirectory() as name:
            folder = pathlib.Path(name)
            knowledge_base(folder, found, days)
            answer = subprocess.run([program, "homes", "release", "--kb", name, "--format", "json"], stdout=subprocess.PIPE, check=False)
        verdicts = {
            (run["run"].split("/")[1], home["issue"].split("/d")[1]): home["verdict"]
            for run in json.loads(answer.stdout)["runs"]
            for home in run["homes"]
        }
        assert len(verdicts) == len(found) * len(days), f"{len(verdicts)} verdicts for {len(found)} releases on {len(days)} days"
        for day in days:
            said = subprocess.run([f"{distribution}-distro-info", "--supported", f"--date={day}"], stdout=subprocess.PIPE, text=True, check=True)
            supported = set(said.stdout.split())
            for series, created, _ in found:
                verdict = verdicts[series, str(day)]
                expected = "fits" if series in supported else "anachronistic" if day < created else "stale"
                checked += 1
                if verdict != expected:
                    failed += 1
                    print(f"{distribution} {series} on {day}: {verdict}, but distro-info means {expected}")
    print(f"releases: {checked - failed} passed, {failed} failed")
    return 1 if failed or checked < 10000 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
