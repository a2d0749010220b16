#!/usr/bin/env python3
"""Does the chronology judge real pairings of a whole and its part as their publishers made them?

An Electron is a whole that is packed with one Chromium; both have public release days (sources: majors.json). Every Chromium
becomes a run, made from the day on which it became stable, its end unknown; every Electron an issue, packed on its day of
publication. Which Chromium went into which Electron is not entered: it is what the answers are compared with.

 - A Chromium that became stable after an Electron was published is anachronistic, by exactly the days between.
 - One from the same day fits. One from before is open, because nothing says how long a Chromium was kept in use.
 - So no true pairing may be anachronistic, but for the Electrons that came out before their Chromium was stable.

usage: compare.py PROGRAM [--all]     after `npm ci --ignore-scripts` in tests/outside
 --all  every stable Electron with every Chromium, from the optional packages
"""
import datetime
import json
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
PACKAGES = HERE.parent / "node_modules"

# Published before their Chromium was stable, and by how many days.
EARLY = {"6.0.0": 1, "7.0.0": 1, "8.0.0": 1, "10.0.0": 1, "11.0.0": 1, "14.0.0": 1, "19.0.0": 1, "20.0.0": 1, "21.0.0": 1}
EXIT_CODES = {"fits": 0, "anachronistic": 1, "open": 3}

failures = []
passed = 0


def check(right, complaint):
    global passed
    if right:
        passed += 1
    else:
        failures.append(complaint)


def package(name, file):
    path = PACKAGES / name / file
    if not path.exists():
        sys.exit(f"electron: {path} is missing; run `npm ci --ignore-scripts` in {HERE.parent}")
    return json.loads(path.read_text(encoding="utf-8"))


def day(text):
    return datetime.date.fromisoformat(text)


def major(version):
    return version.split(".")[0]


def the_majors():
    """(days of Electrons, days of Chromiums by major version, the Chromium version in each Electron)"""
    rows = json.loads((HERE / "majors.json").read_text(encoding="utf-8"))["rows"]
    assert len(rows) == 21
    electrons = {row["electron"]: day(row["published"]) for row in rows}
    chromiums = {major(row["chromium"]): day(row["stable"]) for row in rows}
    return electrons, chromiums, {row["electron"]: row["chromium"] for row in rows}


def everything():
    """The same of every stable Electron whose Chromium is published, and of every Chromium."""
    releases = package("@mdn/browser-compat-data", "data.json")["browsers"]["chrome"]["releases"]
    chromiums = {version: day(release["release_date"]) for version, release in releases.items() if release.get("release_date")}
    electrons, inside = {}, {}
    for release in package("electron-releases", "lite.json"):
        chromium = release.get("deps", {}).get("chrome")
        if chromium and not release["prerelease"] and "-" not in release["version"]:
            electrons[release["version"]] = day(release["published_at"][:10])
            inside[release["version"]] = chromium
    for version, published in the_majors()[0].items():
        check(electrons.get(version) == published, f"Electron {version}: published {electrons.get(version)}, not {published}")
    for version, stable in the_majors()[1].items():
        check(chromiums.get(version) == stable, f"Chromium {version}: stable {chromiums.get(version)}, not {stable}")
    return electrons, chromiums, inside


def knowledge_base(folder, electrons, chromiums):
    runs = "".join(
        f'\n[[mould]]\nid = "v{version}"\n\n[[mould.run]]\nid = "only"\nmade = "{stable}/"\nplant = "net"\n'
        f'basis = "documented"\nsource = ["packages"]\n'
        for version, stable in chromiums.items()
    )
    issues = "".join(
        f'\n[[issue]]\nid = "v{version.replace(".", "-")}"\npacked = "{published}"\npacker = "net"\n'
        f'basis = "documented"\nsource = ["packages"]\n\n[[issue.takes]]\naccessory = "chromium"\n'
        for version, published in electrons.items()
    )
    (folder / "frame.toml").write_text(
        '[[plant]]\nid = "net"\nname = "Net"\n\n[[source]]\nid = "packages"\ntitle = "Packages"\nkind = "web-page"\n'
    )
    (folder / "chromium.toml").write_text('[accessory]\nid = "chromium"\nname = "Chromium"\nslot = "engine"\n' + runs)
    (folder / "electron.toml").write_text('[figure]\nid = "electron"\nname = "Electron"\n' + issues)


def expected(published, stable):
    """The verdict, and the gap in days where there is one."""
    gap = (stable - published).days
    return ("anachronistic", gap) if gap > 0 else ("fits", None) if gap == 0 else ("open", None)


def ask(program, *question):
    done = subprocess.run([program, *question, "--format", "json"], stdout=subprocess.PIPE, check=False)
    return done.returncode, json.loads(done.stdout)


def compare(program, electrons, chromiums, inside, every_pair_alone):
    with tempfile.TemporaryDirectory() as folder:
        knowledge_base(pathlib.Path(folder), electrons, chromiums)
        _, answer = ask(program, "homes", "chromium", "--kb", folder)
        verdicts = {
            (home["issue"], home["run"]): (home["verdict"], home["gap-days"]) for run in answer["runs"] for home in run["homes"]
        }
        assert len(verdicts) == len(electrons) * len(chromiums), f"{len(verdicts)} verdicts"
        early = {}
        for electron, published in electrons.items():
            issue = f"electron/v{electron.replace('.', '-')}"
            for chromium, stable in chromiums.items():
                said = verdicts[issue, f"chromium/v{chromium}/only"]
                meant = expected(published, stable)
                check(said == meant, f"Electron {electron} with Chromium {chromium}: {said}, but the dates mean {meant}")
            chromium = major(inside[electron])
            verdict, gap = verdicts[issue, f"chromium/v{chromium}/only"]
            if verdict == "anachronistic":
                early[electron] = gap
            check(verdict != "anachronistic" or electron in EARLY, f"Electron {electron}: its own Chromium {chromium} is {verdict}")
            if every_pair_alone:
                code, alone = ask(program, "belongs", f"chromium/v{chromium}", issue, "--kb", folder)
                said = [(one["verdict"], one["gap-days"]) for one in alone["answers"]]
                check(said == [(verdict, gap)], f"Electron {electron}: belongs says {said}, homes {verdict}, {gap}")
                check(code == EXIT_CODES[verdict], f"Electron {electron}: belongs ends with {code} for {verdict}")
        check(early == EARLY, f"published before their Chromium: {early}, not {EARLY}")


def main(program, all_of_them):
    paired = package("electron-to-chromium", "full-versions.json")
    electrons, chromiums, inside = everything() if all_of_them else the_majors()
    for electron, chromium in inside.items():
        check(paired.get(electron) == chromium, f"Electron {electron}: {chromium}, but electron-to-chromium says {paired.get(electron)}")
    compare(program, electrons, chromiums, inside, every_pair_alone=not all_of_them)
    for complaint in failures[:50]:
        print(complaint)
    print(f"electron: {passed} passed, {len(failures)} failed")
    enough = 90000 if all_of_them else 500
    return 1 if failures or passed < enough else 0


if __name__ == "__main__":
    if len(sys.argv) < 2 or sys.argv[2:] not in ([], ["--all"]):
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2:] == ["--all"]))
