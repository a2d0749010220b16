#!/usr/bin/env python3
"""Can a reader of SARIF 2.1.0 take in what `check --format sarif` writes, and find each place in the files?

 - It is valid by the standard's schema, which refuses it when something that it must have is spoilt.
 - It says what --format json says, with the same exit code: codes, severities, places.
 - Every line and column lies inside its file and is the one that counting code points in the file's bytes gives; every URI leads
   to a file; every rule is the one that its index points at.

Outside material: the schema of SARIF 2.1.0 (OASIS) as in npm @microsoft/jest-sarif 1.0.0-beta.0 (MIT); the validator of Debian's
python3-jsonschema (MIT).

usage: sarif.py PROGRAM     after `npm ci --ignore-scripts` in tests/outside
"""
import copy
import json
import pathlib
import re
import sys
import tempfile
import urllib.parse

from jsonschema import Draft4Validator

from subjects import DEMO, PACKAGES, Tally, broken_knowledge_bases, run

SCHEMA = PACKAGES / "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"

# Members that SARIF asks for, and words that it does not know: what must not be accepted.
SPOILS = {
    "no version": lambda log: log.pop("version"),
    "another version": lambda log: log.update(version="2.0.0"),
    "no runs": lambda log: log.pop("runs"),
    "no tool": lambda log: log["runs"][0].pop("tool"),
    "no driver": lambda log: log["runs"][0]["tool"].pop("driver"),
    "a driver without a name": lambda log: log["runs"][0]["tool"]["driver"].pop("name"),
    "a rule without an id": lambda log: log["runs"][0]["tool"]["driver"]["rules"][0].pop("id"),
    "a result without a message": lambda log: log["runs"][0]["results"][0].pop("message"),
    "an unknown level": lambda log: log["runs"][0]["results"][0].update(level="fatal"),
    "line 0": lambda log: log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"].update(startLine=0),
    "an unknown column kind": lambda log: log["runs"][0].update(columnKind="bytes"),
    "an unknown member": lambda log: log["runs"][0]["results"][0].update(stranger=1),
}


def awkward_knowledge_base(folder):
    """A path that a URI must escape; a byte order mark, CRLF, and letters of two, three and four bytes before each mistake."""
    inner = folder / "50% off #1"
    inner.mkdir(parents=True)
    text = (
        '[accessory]\nid = "zwölf-€"\nname = "Käpt’n 🚢"\nslot = "hand"\nnotes = """\n  \N{COMBINING ACUTE ACCENT}é\n"""\n\n'
        '[[mould]]\nid = "one"\nfeatures = { "𝔘-x" = 3, "é" = "🚢🚢" , top = [] }\nplaces = { "ü" = "🚢", b = 1 }\nreplaces = "🚢€é"\n'
    )
    (inner / "größe.toml").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode("utf-8"))
    (inner / "ok.toml").write_text('[figure]\nid = "a"\nname = "A"\n', encoding="utf-8")


class File:
    """The lines of a file as SARIF counts them; each byte that is no UTF-8 counts as a code point."""

    def __init__(self, path):
        self.bytes = path.read_bytes()
        text = self.bytes.decode("utf-8", "surrogateescape")
        self.lines = [line.removesuffix("\r") for line in text.removeprefix("\ufeff").split("\n")]

    def holds(self, line, column):
        return 1 <= line <= len(self.lines) and 1 <= column <= len(self.lines[line - 1]) + 1

    def place_of(self, byte):
        before = self.bytes[:byte].decode("utf-8", "surrogateescape").removeprefix("\ufeff")
        return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


class Check:
    def __init__(self, tally, name, folder):
        self.tally, self.name, self.folder = tally, name, folder
        self.files = {}

    def file(self, path):
        if path not in self.files:
            self.files[path] = File(self.folder / path)
        return self.files[path]

    def region(self, artifact, region, place):
        """Compares a region with the place that --format json gives, and both with the file."""
        path = urllib.parse.unquote(artifact["uri"])
        ok = self.tally.check
        ok(re.fullmatch(r"(?:[A-Za-z0-9._~/-]|%[0-9A-F]{2})+", artifact["uri"]), f"{self.name}: {artifact['uri']} is no URI")
        ok(artifact["uriBaseId"] == "KB", f"{self.name}: {path} is not below the knowledge base")
        ok(path == place["file"], f"{self.name}: {path} in SARIF, {place['file']} in JSON")
        file = self.file(path)
        start, end = (region["startLine"], region["startColumn"]), (region["endLine"], region["endColumn"])
        ok(file.holds(*start) and file.holds(*end), f"{self.name}: {path} has no {start} to {end}")
        ok(start <= end, f"{self.name}: {path} {start} to {end} runs backwards")
        said = (place["line"], place["column"]), (place["end-line"], place["end-column"])
        ok((start, end) == said, f"{self.name}: {path} {start} to {end} in SARIF, {said} in JSON")
        counted = file.place_of(place["begin"]), file.place_of(place["end"])
        ok((start, end) == counted, f"{self.name}: {path} {start} to {end}, but the bytes are at {counted}")

    def location(self, location, place):
        """A location of SARIF and the place of JSON: a range, a file as a whole, or nothing."""
        physical = location.get("physicalLocation") if location else None
        if place is None:
            self.tally.check(physical is None, f"{self.name}: SARIF knows a place that JSON does not, {physical}")
        elif self.tally.check(physical is not None, f"{self.name}: SARIF does not know {place}"):
            if "begin" in place:
                self.region(physical["artifactLocation"], physical["region"], place)
            else:
                uri = urllib.parse.unquote(physical["artifactLocation"]["uri"])
                self.tally.check("region" not in physical, f"{self.name}: a region of a file as a whole")
                same = uri == place["file"] or (uri == "./" and pathlib.Path(place["file"]) == self.folder)
                self.tally.check(same, f"{self.name}: {uri} in SARIF, {place['file']} in JSON")

    def result(self, result, diagnostic, rules):
        ok, name = self.tally.check, self.name
        ok(result["ruleId"] == diagnostic["code"], f"{name}: {result['ruleId']} in SARIF, {diagnostic['code']} in JSON")
        ok(rules[result["ruleIndex"]]["id"] == result["ruleId"], f"{name}: rule {result['ruleIndex']} is not {result['ruleId']}")
        ok(result["level"] == diagnostic["severity"], f"{name}: {result['level']} in SARIF, {diagnostic['severity']} in JSON")
        locations = result["locations"]
        ok(len(locations) <= 1, f"{name}: {len(locations)} locations of one result")
        self.location(locations[0] if locations else None, diagnostic["place"])
        related = result.get("relatedLocations", [])
        others = diagnostic["labels"] + diagnostic["reasons"]
        if ok(len(related) == len(others), f"{name}: {len(related)} related places in SARIF, {len(others)} in JSON"):
            for location, other in zip(related, others):
                self.location(location, other["place"])
        ids = [location["id"] for location in related]
        ok(len(set(ids)) == len(ids), f"{name}: related places share an id: {ids}")
        fix = diagnostic["fix"]
        if ok(("fixes" in result) == (fix is not None), f"{name}: a fix in one format only") and fix is not None:
            change = result["fixes"][0]["artifactChanges"][0]
            replacement = change["replacements"][0]
            self.region(change["artifactLocation"], replacement["deletedRegion"], fix["place"])
            ok(replacement["insertedContent"]["text"] == fix["replacement"], f"{name}: the fixes differ")


def compare(program, validator, name, folder, tally):
    """The log, after comparing it with the schema, with JSON and with the files."""
    code, written = run(program, "check", str(folder), "--format", "sarif")
    json_code, json_written = run(program, "check", str(folder), "--format", "json")
    tally.check(code == json_code, f"{name}: ends with {code} for SARIF, {json_code} for JSON")
    log, diagnostics = json.loads(written), json.loads(json_written)["diagnostics"]
    errors = [f"{list(error.absolute_path)}: {error.message[:200]}" for error in validator.iter_errors(log)]
    tally.check(not errors, f"{name}: {'; '.join(errors)}")
    results, rules = log["runs"][0]["results"], log["runs"][0]["tool"]["driver"]["rules"]
    if tally.check(len(results) == len(diagnostics), f"{name}: {len(results)} results, {len(diagnostics)} diagnostics"):
        check = Check(tally, name, folder)
        for result, diagnostic in zip(results, diagnostics):
            check.result(result, diagnostic, rules)
    return log


def main(program):
    if not SCHEMA.exists():
        sys.exit(f"sarif: {SCHEMA} is missing; run `npm ci --ignore-scripts` in tests/outside")
    tally = Tally("schemas/sarif", at_least=1500)
    validator = Draft4Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
    compare(program, validator, "kb", DEMO, tally)
    with broken_knowledge_bases() as cases:
        logs = {name: compare(program, validator, name, folder, tally) for name, folder in cases}
    for name, spoil in SPOILS.items():
        log = copy.deepcopy(logs["unknown-key"])
        spoil(log)
        tally.check(not validator.is_valid(log), f"the schema accepts {name}")
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / "kb"
        compare(program, validator, "a missing folder", folder, tally)
        awkward_knowledge_base(folder)
        log = compare(program, validator, "awkward", folder, tally)
        after = [r for r in log["runs"][0]["results"] if r["locations"] and "region" in r["locations"][0]["physicalLocation"]]
        tally.check(len(after) >= 4, f"awkward: only {len(after)} mistakes were found")
    return tally.close()


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
