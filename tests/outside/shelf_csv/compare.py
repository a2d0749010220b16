#!/usr/bin/env python3
"""Does a shelf survive Python's csv module and LibreOffice Calc?

Python 3.11's csv and tomllib read what `coeval convert` writes of the demo's shelf and of random ones (seeds fixed), and csv writes it in
other dialects. written/ holds what LibreOffice 7.4.7.2 (Debian 12, libreoffice-calc-nogui 4:7.4.7-1+deb12u14) made of written/shelf.csv;
where that version of soffice is installed, it is asked again:

  soffice --headless --infilter='Text - txt - csv (StarCalc):44,34,76,1,,LANGUAGE,false,false' --convert-to ods shelf.csv
  soffice --headless --convert-to 'csv:Text - txt - csv (StarCalc):SEPARATOR,34,76,1,,LANGUAGE,false,true' shelf.ods

with LANGUAGE and SEPARATOR 1033 and 44 (English, comma) for en.csv, 1031 and 59 (German, semicolon) for de.csv.
Calc drops a tab within a cell, so shelf.csv has none.
usage: compare.py PROGRAM
"""
import csv
import decimal
import io
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile
import tomllib

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[2]
passed = 0
failures = []


def check(holds, what):
    global passed
    if holds:
        passed += 1
    else:
        failures.append(what)
        print(f"not so: {what}")


def plain(value):
    """A value with numbers by what they are worth: 1.50 and "1.5" alike, for a spreadsheet drops the last nought."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    if isinstance(value, str):
        try:
            return decimal.Decimal(value)
        except decimal.InvalidOperation:
            return value
    return value


def convert(program, source, target):
    said = subprocess.run([program, "convert", source, target, "--replace"], text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    check(said.returncode == 0, f"{source.name} becomes {target.name}: {said.stdout}")
    return target


def shelf_in(path):
    return tomllib.loads(path.read_bytes().decode())


def python_reads(table, shelf):
    """Every piece, part, purchase and want is a row whose cells say what TOML says."""
    rows = list(csv.DictReader(io.StringIO(table.read_bytes().decode(), newline=""), strict=True))
    for kind in ("piece", "part", "purchase", "want"):
        mine = [row for row in rows if row["table"] == kind]
        theirs = shelf.get(kind, [])
        check(len(mine) == len(theirs), f"as many rows as tables of {kind}")
        for row, entry in zip(mine, theirs):
            for key, value in entry.items():
                if isinstance(value, list) and value and isinstance(value[0], dict):
                    continue  # tables inside: rows of their own
                cell = row[key].removeprefix("'")
                lines = "\n".join(str(item) for item in value) if isinstance(value, list) else str(value)
                if isinstance(value, bool):
                    lines = lines.lower()
                if isinstance(value, list) and all(isinstance(item, (int, float)) for item in value):
                    check([float(line) for line in cell.split("\n")] == [float(item) for item in value], f"{kind} {entry['id']}: {key}")
                elif key in ("price", "shipping", "insurance", "fees", "duty", "tax", "limit"):
                    check(decimal.Decimal(cell.split()[0]) == decimal.Decimal(value.split()[0]) and cell.split()[1] == value.split()[1],
                          f"{kind} {entry['id']}: {key} is {cell}, not {value}")
                else:
                    check(cell == lines, f"{kind} {entry['id']}: {key} is {cell!r}, not {lines!r}")


def python_writes(program, table, expected, folder):
    rows = list(csv.reader(io.StringIO(table.read_bytes().decode(), newline="")))
    dialects = {
        "semicolons": {"delimiter": ";", "lineterminator": "\n"},
        "tabs": {"delimiter": "\t", "lineterminator": "\r\n"},
        "quotes": {"quoting": csv.QUOTE_ALL, "lineterminator": "\r\n"},
    }
    for name, dialect in dialects.items():
        for mark in ("", "\ufeff"):
            written = io.StringIO(newline="")
            csv.writer(written, **dialect).writerows(rows)
            path = folder / f"{name}{len(mark)}.csv"
            path.write_bytes((mark + written.getvalue()).encode())
            again = convert(program, path, folder / f"{name}{len(mark)}.toml")
            check(again.exists() and again.read_bytes() == expected, f"the same shelf from Python's {name}, {'with' if mark else 'without'} byte order mark")


# Texts that CSV, TOML or a spreadsheet could take amiss.
SIGNS = ["a", "Inês", '"', "'", ",", ";", "\t", "\\", "=1+1", "-", "+3", "@x", "#", "007", "1.5", "TRUE", "\x01", "\x7f", " ", "{", "]", "3/4", '"""', "\\u0041"]
DIALECTS = [{"delimiter": ","}, {"delimiter": ";", "lineterminator": "\n"}, {"delimiter": "\t"}, {"delimiter": ",", "quoting": csv.QUOTE_ALL}]


def random_text(choose, lines=False):
    breaks = ["\n", "\r\n", "\n\n"] if lines else [""]
    inner = [choose.choice(SIGNS) + (choose.choice(breaks) if choose.random() < 0.2 else "") for _ in range(choose.randrange(6))]
    return choose.choice(["b", "'", "=", "0", '"', "x"]) + "".join(inner) + "t"


def random_shelf(choose):
    """A shelf as TOML's tables, and as rows of cells. Ids are numbered, so that none is there twice."""
    shelf, rows = {}, []
    for i in range(choose.randrange(1, 8)):
        kind = choose.choice(["piece", "part", "purchase"])
        entry = {"id": f"{kind}-{i}"}
        if kind == "purchase":
            entry |= {"seller": random_text(choose), "paid": f"2026-05-{choose.randrange(10, 30)}", "price": f"{choose.randrange(1000)}.{choose.randrange(10, 100)} GBP"}
        else:
            entry |= {"notes": random_text(choose, lines=True), "found": [random_text(choose) + str(n) for n in range(choose.randrange(1, 4))]}
        if kind == "piece":
            entry |= {"priority": choose.randrange(1, 100), "keep": choose.random() < 0.5}
        shelf.setdefault(kind, []).append(entry)
        row = {"table": kind}
        for key, value in entry.items():
            text = "\n".join(value) if isinstance(value, list) else str(value)
            row[key] = "'" + text if text.startswith("'") else text  # the guard is doubled, so that one is left
        rows.append(row)
    return shelf, rows


def random_shelves(program, folder):
    for seed in range(40):
        choose = random.Random(seed)
        shelf, rows = random_shelf(choose)
        columns = sorted({column for row in rows for column in row}, key=lambda _: choose.random())
        written = io.StringIO(newline="")
        writer = csv.DictWriter(written, columns, restval="", **DIALECTS[seed % len(DIALECTS)])
        writer.writeheader()
        writer.writerows(rows)
        theirs = folder / "theirs.csv"
        theirs.write_bytes(written.getvalue().encode())
        toml = convert(program, theirs, folder / "theirs.toml")
        check(shelf_in(toml) == shelf, f"seed {seed}: the shelf that Python's csv has written")
        python_reads(convert(program, toml, folder / "ours.csv"), shelf)


CALC = "LibreOffice 7.4.7.2"


def calc_version():
    """As it says, without its build; empty where it is not installed."""
    if not shutil.which("soffice"):
        return ""
    said = subprocess.run(["soffice", "--version"], text=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False, timeout=60).stdout
    return " ".join(said.split()[:2])


def calc_writes(folder, table, language, separator):
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    name = "Text - txt - csv (StarCalc)"
    soffice = ["soffice", "--headless", profile]
    subprocess.run([*soffice, f"--infilter={name}:44,34,76,1,,{language},false,false", "--convert-to", "ods", "--outdir", folder, table],
                   check=True, stdout=subprocess.DEVNULL, timeout=300)
    subprocess.run([*soffice, "--convert-to", f"csv:{name}:{separator},34,76,1,,{language},false,true", "--outdir", folder / str(language),
                    (folder / table.name).with_suffix(".ods")], check=True, stdout=subprocess.DEVNULL, timeout=300)
    return next((folder / str(language)).glob("*.csv"))


def main(program):
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        source = ROOT / "compiler/demo/shelf.toml"
        table = convert(program, source, folder / "shelf.csv")
        again = convert(program, table, folder / "again.toml")
        python_reads(table, shelf_in(source))
        python_writes(program, table, again.read_bytes(), folder)
        random_shelves(program, folder)
        soffice = calc_version()
        print("LibreOffice: " + (f"asked again ({soffice})" if soffice == CALC else f"not asked, only what {CALC} wrote is read: {soffice or 'it is not installed'}"))
        ours = convert(program, HERE / "written/shelf.csv", folder / "ours.toml")
        for name, language, separator in (("en", 1033, 44), ("de", 1031, 59)):
            theirs = convert(program, HERE / f"written/{name}.csv", folder / f"{name}.toml")
            check(theirs.exists() and plain(shelf_in(theirs)) == plain(shelf_in(ours)), f"the same shelf after LibreOffice, {name}")
            if soffice == CALC:
                fresh = calc_writes(folder, HERE / "written/shelf.csv", language, separator)
                check(fresh.read_bytes() == (HERE / f"written/{name}.csv").read_bytes(), f"LibreOffice writes {name}.csv as it did")
    print(f"tables of other programs: {passed} passed, {len(failures)} failed")
    return 1 if failures or passed < 100 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
