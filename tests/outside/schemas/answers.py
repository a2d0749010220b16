#!/usr/bin/env python3
"""Is what each command writes with --format json valid by what `coeval schema COMMAND` says of it?

Every command is asked about the demonstration's knowledge base in many ways (one in so many of the questions that there are), and
`check` about every golden case too. A schema that lets anything pass would say so as well: so each kind of member that
occurs in an answer is also taken out, given a value of another type, and joined by a member that nobody knows, and the schema must
refuse all three.

Outside material: the metaschema and the validator of Debian's python3-jsonschema (MIT).

usage: answers.py PROGRAM
"""
import copy
import json
import re
import sys

from jsonschema import Draft202012Validator

from subjects import ROOT, Tally, broken_knowledge_bases, run, run_json

COMMANDS = ("check", "belongs", "outfit", "homes", "why", "list", "explain", "marks", "dated", "identify", "key", "examine", "ask",
            "agenda", "claims", "disputes", "ledger", "ceiling", "comparables")
BASES = ("documented", "observed", "reported", "conjectured")
# Members that some objects may do without: a statement that holds by the meaning of words stands in no file.
OPTIONAL = re.compile(r"/(proof/\*|statements/\*|statement)/(file|line)$|/become/[a-z]+$")
SPANS = ("mould", "run", "issue", "period", "card", "route", "mark")


def questions(program):
    """(command, arguments) of everything that is asked."""
    entries = run_json(program, "list", "--format", "json")["entries"]
    yield "list", []

    def addresses(*kinds):
        return [entry["address"] for entry in entries if entry["kind"] in kinds]

    for kind in sorted({entry["kind"] for entry in entries})[::4]:
        yield "list", [kind]
    issues, accessories = addresses("issue"), addresses("accessory")
    for number, issue in enumerate(issues[::8]):
        yield "outfit", [issue, "--basis", BASES[number % 4]]
        yield "belongs", [accessories[number % len(accessories)], issue, "--basis", BASES[-1 - number % 2]]
    # One run that its issue does take: only a single no is answered with what would do instead.
    outfit = run_json(program, "outfit", issues[0], "--format", "json")
    for home in [one for slot in outfit["slots"] for one in slot["runs"]][:6]:
        yield "belongs", [home["run"], home["issue"], "--every-ground"]
    for number, accessory in enumerate(accessories[::4]):
        yield "homes", [accessory, "--basis", BASES[number % 4]]
    for number, span in enumerate(addresses(*SPANS)[::24]):
        yield "why", [span + ("", ".start", ".end")[number % 3], "--basis", BASES[number % 4]]
    runs = addresses("run")
    for number, accessory in enumerate(accessories[::6]):
        yield "key", [accessory]
        yield "identify", [accessory]
    yield "key", ["--slot", "head"]
    yield "identify", ["signal-lantern", "--seen", "top=ring", "height-mm=21.9±0.05", "weight-g=900"]
    yield "identify", ["signal-lantern", "--seen", "top=ring", "height-mm=22.2±0.3"]
    for number, run_asked in enumerate(runs[::24]):
        yield "ask", [run_asked, "--for", issues[number]]
        yield "examine", [run_asked, "--seen", "height-mm=22.2±1", "--for", issues[number]]
    yield "examine", ["ring-top/brass", "--seen", "top=plain"]
    yield "ask", ["ring-top/brass", "--seen", "top=plain"]
    yield "examine", ["ring-top/brass", "--seen", "top=ring", "--mark", "ce-toy", "--mark", "copyright=1977"]
    yield "identify", ["signal-lantern", "--mark", "ce-toy"]
    yield "marks", []
    yield "marks", ["origin", "--basis", "documented"]
    yield "dated", ["--mark", "ce-toy", "--mark", "copyright=1977", "--mark", "us-patent=3,858,241"]
    yield "dated", ["--mark", "kt-roundel", "--mark", "ce-toy"]
    yield "dated", ["--mark", "us-patent=12", "--mark", "west-germany", "--basis", "observed"]
    yield "dated", ["--mark", "kt-roundel"]
    for basis in BASES[:1] + BASES[-1:]:
        yield "agenda", ["--basis", basis]
        yield "disputes", ["--basis", basis]
    yield "agenda", ["--top", "2"]
    yield "claims", []
    yield "explain", []
    yield "explain", ["contradiction"]
    yield "check", []
    # A shelf of the golden cases, beside its own knowledge base.
    case = ROOT / "tests/golden/shelf/money"
    shelf = ["--kb", str(case / "kb"), "--shelf", str(case / "shelf.toml")]
    yield "ledger", shelf
    yield "ledger", ["--kb", str(case / "kb"), "--shelf", str(case.parent / "missing-rate/shelf.toml")]
    for budget in ("250.00 GBP", "12.00 GBP"):
        yield "ceiling", ["saleroom", budget, *shelf]
    for sold in ("keeper-maren/painted-buttons", "signal-lantern", "heaving-line"):
        yield "comparables", [sold, *shelf]


def walk(value, path, steps=()):
    """Every object as (its place with * for a position in a list, the steps that lead to it)."""
    if isinstance(value, dict):
        yield path, steps
        for key, inner in value.items():
            yield from walk(inner, f"{path}/{key}", (*steps, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from walk(inner, f"{path}/*", (*steps, index))


def spoilt(document, steps, change):
    """A copy in which one object was changed; the rest is shared."""
    if not steps:
        changed = dict(document)
        change(changed)
        return changed
    changed = copy.copy(document)
    changed[steps[0]] = spoilt(document[steps[0]], steps[1:], change)
    return changed


def check_refusals(validator, command, document, tried, tally):
    for path, steps in walk(document, command):
        here = document
        for step in steps:
            here = here[step]
        if path not in tried:
            tried.add(path)
            stranger = spoilt(document, steps, lambda changed: changed.update({"stranger": 1}))
            tally.check(not validator.is_valid(stranger), f"{path} may hold a member that the schema does not name")
        for key, value in here.items():
            member = f"{path}/{key}"
            if member in tried:
                continue
            tried.add(member)
            other = spoilt(document, steps, lambda changed: changed.update({key: {"other": [value]}}))
            tally.check(not validator.is_valid(other), f"{member} may be of any type")
            if not OPTIONAL.search(member):
                without = spoilt(document, steps, lambda changed: changed.pop(key))
                tally.check(not validator.is_valid(without), f"{member} may be missing")


def main(program):
    tally = Tally("schemas/answers", at_least=450)
    validators = {}
    for command in COMMANDS:
        schema = run_json(program, "schema", command)
        Draft202012Validator.check_schema(schema)
        validators[command] = Draft202012Validator(schema)
    tried = set()

    def judge(command, asked, document):
        errors = [f"{list(error.absolute_path)}: {error.message[:200]}" for error in validators[command].iter_errors(document)]
        tally.check(not errors, f"{command} {' '.join(asked)}: {'; '.join(errors)}")
        check_refusals(validators[command], command, document, tried, tally)

    for command, arguments in questions(program):
        code, written = run(program, command, *arguments, "--format", "json")
        if not tally.check(code in (0, 1, 3) and written, f"{command} {' '.join(arguments)} ended with {code} and {len(written)} bytes"):
            continue
        judge(command, arguments, json.loads(written))
    with broken_knowledge_bases() as cases:
        for name, folder in cases:
            judge("check", [name], run_json(program, "check", str(folder), "--format", "json"))
        judge("check", ["no folder"], run_json(program, "check", str(folder / "missing"), "--format", "json"))
    for member in ("belongs/instead/*/run", "belongs/answers/*/grounds/time/proof/*/statement", "why/points/*/earliest/proof/*/file",
                   "explain/codes/*/repair", "check/diagnostics/*/fix/certain", "check/diagnostics/*/labels/*/place/line",
                   "check/diagnostics/*/reasons/*/place/end",
                   "identify/next/*/bits", "identify/nearest/*/address", "identify/excluded/*/by/*/stated",
                   "marks/marks/*/numbers/*/from", "dated/contradictions/*/proof/*/statement", "dated/earliest/mark", "dated/latest/day",
                   "examine/marks/*/excludes/proof/*/statement", "identify/excluded/*/by-mark/words",
                   "key/nodes/*/branches/*/shows", "examine/could-also-be/*/copies", "examine/with/grounds/time/words",
                   "ask/ask-the-seller/*/rules-out/*/original", "ledger/lines/*/without-rate", "ledger/rates/*/most-days-later",
                   "ceiling/highest/lines/*/parts/*/percent", "comparables/currencies/*/by-quarter/*/median",
                   "comparables/without-rate/*/price"):  # fmt: skip
        tally.check(member in tried, f"nothing that was asked is answered with {member}")
    return tally.close()


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
