#!/usr/bin/env python3
"""Does the program identify each row of a public table as itself, or as the rows that equal it?

    python3 compare.py PROGRAM FOLDER

The tables: "Zoo", 101 animals by 16 features (R. Forsyth, UCI Machine Learning Repository), and "Soybean", 683 diseased
plants by 35 features, many of them missing (R. S. Michalski, R. L. Chilausky 1980; UCI), both from FOLDER, the data of R's
package mlbench. Each row becomes a run, each column a feature, and what is missing is not stated. Rows of the same class
are runs of one mould.

The answers are compared with a comparison of the rows themselves, in Python: for the whole row, and for random parts of
it with sets and "not x" among them. A key must lead every animal to the animals that equal it.
"""
import json
import pathlib
import random
import subprocess
import sys
import tempfile

from r_data import read_frame

SEED = 20250711


def quoted(text):
    return json.dumps(text)


class Table:
    def __init__(self, rows, frame, label):
        self.rows = rows
        self.label = frame.pop(label)
        self.columns = list(frame)
        self.values = [{name: frame[name][i] for name in self.columns if frame[name][i] is not None} for i in range(len(rows))]
        self.vocabulary = {name: sorted({row[name] for row in self.values if name in row}) for name in self.columns}
        self.numbers = {name for name in self.columns if name == "legs"}
        self.flags = {name for name in self.columns if set(self.vocabulary[name]) <= {0, 1} and name not in self.numbers}

    def feature(self, name):
        return f"f{self.columns.index(name)}"

    def word(self, name, value):
        """A value as the program takes it."""
        if name in self.flags:
            return ("no", "yes")[value]
        return str(value) if name in self.numbers else f"v{self.vocabulary[name].index(value)}"

    def address(self, row):
        return f"thing/{self.mould(row)}/r{row}"

    def mould(self, row):
        return f"m{sorted(set(self.label)).index(self.label[row])}"

    def toml(self):
        text = []
        for name in self.columns:
            kind = "present" if name in self.flags else "count" if name in self.numbers else "choice"
            text.append(f"[[feature]]\nid = {quoted(self.feature(name))}\nname = {quoted(name)}\nkind = {quoted(kind)}\n")
            if kind == "choice":
                words = ", ".join(quoted(self.word(name, value)) for value in self.vocabulary[name])
                text.append(f"values = [{words}]\n")
        text.append('[accessory]\nid = "thing"\nname = "Thing"\nslot = "hand"\n')
        for label in sorted(set(self.label)):
            first = self.label.index(label)
            text.append(f"[[mould]]\nid = {quoted(self.mould(first))}\nname = {quoted(label)}\n")
            for row in range(len(self.rows)):
                if self.label[row] != label:
                    continue
                text.append(f"[[mould.run]]\nid = \"r{row}\"\nname = {quoted(self.rows[row])}\n[mould.run.features]\n")
                for name, value in self.values[row].items():
                    word = self.word(name, value)
                    stated = {"yes": "true", "no": "false"}[word] if name in self.flags else word if name in self.numbers else quoted(word)
                    text.append(f"{self.feature(name)} = {stated}\n")
        return "".join(text)

    def left(self, seen):
        """The rows that none of the observations excludes; an observation is (name, allowed values)."""
        return [row for row in range(len(self.rows))
                if all(name not in self.values[row] or self.values[row][name] in allowed for name, allowed in seen)]  # fmt: skip

    def told(self, observation):
        name, allowed = observation
        others = [value for value in self.vocabulary[name] if value not in allowed]
        if len(others) == 1 and len(allowed) > 1:
            return f"{self.feature(name)}=!{self.word(name, others[0])}"
        return f"{self.feature(name)}=" + ",".join(self.word(name, value) for value in sorted(allowed))


def ask(program, kb, *arguments):
    run = subprocess.run([program, *arguments, "--kb", kb, "--format", "json"], capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1, 3):
        raise SystemExit(f"{arguments} ended with {run.returncode}: {run.stderr}")
    return json.loads(run.stdout)


def identify(program, kb, table, seen, complaints, what):
    answer = ask(program, kb, "identify", "thing", *(["--seen", *map(table.told, seen)] if seen else []))
    found = sorted(one["address"] for one in answer["left"])
    expected = sorted(table.address(row) for row in table.left(seen))
    if found != expected:
        complaints.append(f"{what}: {len(found)} left, not {len(expected)}: {found[:5]} {expected[:5]}")


def whole_row(table, row):
    return [(name, {value}) for name, value in table.values[row].items()]


def random_part(table, rng):
    row = rng.randrange(len(table.rows))
    seen = []
    for name in rng.sample(list(table.values[row]), min(4, len(table.values[row]))):
        allowed = {table.values[row][name]}
        if rng.random() < 0.5:
            allowed.add(rng.choice(table.vocabulary[name]))
        if rng.random() < 0.2:
            allowed = {value for value in table.vocabulary[name] if value != rng.choice(table.vocabulary[name])} or allowed
        seen.append((name, allowed))
    return seen


def follow(key, table, row):
    """Where the key leads one row: the node, and how many looks that took."""
    node, looks = key["nodes"][0], 0
    while node["look"] is not None:
        name = table.columns[int(node["look"][1:])]
        word = table.word(name, table.values[row][name])
        node = key["nodes"][next(b["node"] for b in node["branches"] if word in b["shows"].replace(" or ", ", ").split(", "))]
        looks += 1
    return node, looks


def check_key(program, kb, table, complaints):
    key = ask(program, kb, "key", "thing")
    places = [one["address"] for one in key["candidates"]]
    looks = 0
    for row in range(len(table.rows)):
        node, taken = follow(key, table, row)
        looks += taken
        equal = {table.address(other) for other in range(len(table.rows)) if table.values[other] == table.values[row]}
        if {places[i] for i in node["candidates"]} != equal:
            complaints.append(f"the key leads {table.rows[row]} to {len(node['candidates'])} things, not to the {len(equal)} that equal it")
    mean = looks / len(table.rows)
    if abs(mean - key["expected-looks"]) > 1e-3:
        complaints.append(f"the key takes {mean} looks on average, and says {key['expected-looks']}")
    if mean < key["least-looks"]:
        complaints.append(f"the key takes {mean} looks on average, fewer than the bound {key['least-looks']}")
    return f"{mean:.2f} looks on average, {key['least-looks']:.2f} at least"


def compare(program, table, every, parts, keyed, complaints):
    rng = random.Random(SEED)
    with tempfile.TemporaryDirectory() as kb:
        (pathlib.Path(kb) / "table.toml").write_text(table.toml(), encoding="utf-8")
        asked = list(range(0, len(table.rows), every))
        for row in asked:
            identify(program, kb, table, whole_row(table, row), complaints, f"row {row}")
        for number in range(parts):
            seen = random_part(table, rng)
            identify(program, kb, table, seen, complaints, f"part {number} of seed {SEED}, {[table.told(one) for one in seen]}")
        said = check_key(program, kb, table, complaints) if keyed else "no key"
    return len(asked) + parts + (len(table.rows) if keyed else 0), said


def main(program, folder):
    folder = pathlib.Path(folder)
    complaints, checks = [], 0
    zoo = Table(*read_frame(folder / "Zoo.rda", "Zoo"), "type")
    soybean = Table(*read_frame(folder / "Soybean.rda", "Soybean"), "Class")
    if (len(zoo.rows), len(zoo.columns), len(soybean.rows), len(soybean.columns)) != (101, 16, 683, 35):
        complaints.append("the tables are not of the size that is published")
    for name, table, every, parts, keyed in (("zoo", zoo, 1, 60, True), ("soybean", soybean, 15, 40, False)):
        done, said = compare(program, table, every, parts, keyed, complaints)
        missing = sum(len(table.columns) - len(row) for row in table.values)
        print(f"{name}: {len(table.rows)} rows, {len(set(map(str, table.values)))} of them different, {missing} values missing; {said}")
        checks += done
    for complaint in complaints[:40]:
        print(complaint)
    print(f"tables: {checks - len(complaints)} passed, {len(complaints)} failed")
    return 1 if complaints or checks < 200 else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2]))
