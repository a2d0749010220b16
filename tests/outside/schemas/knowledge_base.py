#!/usr/bin/env python3
"""Does an editor that follows `coeval schema` see the same mistakes in a file as the program does?

 - The schema is valid by the metaschema of JSON Schema 2020-12, every reference in it leads somewhere, and every pattern is a
   regular expression of ECMA-262, the kind that editors use.
 - Every file of the demonstration's knowledge base is valid by it.
 - Of the golden cases, it refuses exactly the places whose mistake can be told from one file and needs no look at its neighbours.

Outside material: the metaschema and the validator of Debian's python3-jsonschema (MIT), Python's own TOML reader, node.

usage: knowledge_base.py PROGRAM
"""
import collections
import copy
import datetime
import json
import subprocess
import sys
import tomllib

from jsonschema import Draft202012Validator
from jsonschema.exceptions import SchemaError

from subjects import DEMO, Tally, broken_knowledge_bases, run_json

# The mistakes that a schema of one file can see.
SEEN = {
    "broken-address", "broken-colour", "broken-country", "broken-duration", "broken-id", "broken-url", "duplicate-value",
    "empty-text", "misplaced-table", "missing-key", "unknown-key", "unknown-table", "wrong-feature-value", "wrong-type",
    "wrong-value",
}  # fmt: skip
# Where it sees fewer of them, and why.
SEES_FEWER = {
    "wrong-type/a.toml": 2,  # a TOML date reads as text in JSON; a key is not looked at inside a table of the wrong shape
    "wrong-feature-value/a.toml": 6,  # what a feature can be stands in its own entry
}


def as_json(value):
    """What an editor makes of TOML: dates and times become text."""
    if isinstance(value, dict):
        return {key: as_json(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_json(inner) for inner in value]
    return value.isoformat() if isinstance(value, (datetime.date, datetime.time)) else value


def objects(value):
    if isinstance(value, dict):
        yield value
    if isinstance(value, (dict, list)):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from objects(inner)


def places(validator, document):
    """How many places the schema refuses; of unknown keys, each one."""
    count = 0
    for error in validator.iter_errors(document):
        unknown = set(error.instance) - set(error.schema.get("properties", {})) if error.validator == "additionalProperties" else ()
        count += len(unknown) or 1
    return count


def check_schema(schema, tally):
    tally.check(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema", f"the schema calls itself {schema['$schema']}")
    try:
        Draft202012Validator.check_schema(schema)
        tally.check(True, "")
    except SchemaError as error:
        tally.check(False, f"the metaschema refuses {list(error.absolute_path)}: {error.message}")
    patterns = set()
    for part in objects(schema):
        if isinstance(part.get("$ref"), str):
            name = part["$ref"].removeprefix("#/$defs/")
            tally.check(name in schema["$defs"], f"{part['$ref']} leads nowhere")
        if isinstance(part.get("pattern"), str):
            patterns.add(part["pattern"])
    for pattern in sorted(patterns):
        code = f"new RegExp({json.dumps(pattern)}, 'u')"
        said = subprocess.run(["node", "-e", code], stderr=subprocess.PIPE, text=True, check=False)
        tally.check(said.returncode == 0, f"{pattern} is no regular expression of ECMA-262: {said.stderr}")
    # The metaschema is not blind.
    wrong = copy.deepcopy(schema)
    wrong["$defs"]["figure"]["required"] = "id"
    tally.check(not Draft202012Validator(Draft202012Validator.META_SCHEMA).is_valid(wrong), "the metaschema lets anything pass")


def main(program):
    tally = Tally("schemas/knowledge-base", at_least=200)
    schema = run_json(program, "schema")
    check_schema(schema, tally)
    validator = Draft202012Validator(schema)
    for file in sorted(DEMO.rglob("*.toml")):
        document = as_json(tomllib.loads(file.read_text(encoding="utf-8")))
        errors = [f"{list(error.absolute_path)}: {error.message}" for error in validator.iter_errors(document)]
        tally.check(not errors, f"{file}: {'; '.join(errors)}")
    codes = set()
    with broken_knowledge_bases() as cases:
        for name, folder in cases:
            reported = collections.Counter()
            for diagnostic in run_json(program, "check", str(folder), "--format", "json")["diagnostics"]:
                if diagnostic["code"] in SEEN:
                    codes.add(diagnostic["code"])
                    reported[diagnostic["place"]["file"]] += 1
            for file in sorted(folder.rglob("*.toml")):
                try:
                    document = as_json(tomllib.loads(file.read_bytes().decode("utf-8")))
                except ValueError:
                    continue  # no TOML, so no editor gets as far as the schema
                path = f"{name}/{file.relative_to(folder)}"
                expected = reported[str(file.relative_to(folder))] - SEES_FEWER.get(path, 0)
                found = places(validator, document)
                tally.check(found == expected, f"{path}: the schema refuses {found} places, the program {expected} of them")
    tally.check(codes == SEEN, f"no golden case shows {sorted(SEEN - codes)}")
    return tally.close()


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
