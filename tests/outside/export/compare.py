#!/usr/bin/env python3
"""Do other programs read out of every export what the knowledge base says?

The readers are SQLite's own program and Python's sqlite3, json, csv and tomllib, NetworkX and Graphviz. What they find is compared with
the TOML as tomllib reads it and with what `coeval list`, `outfit`, `homes` and `why` answer, never with another export. Twice: for
the demo, and for the demo with every text replaced by a hostile one (tests/site/hostile_kb.py).

usage: compare.py PROGRAM
"""
import csv
import io
import json
import os
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile
import tomllib
import xml.etree.ElementTree

import jsonschema
import networkx

ROOT = pathlib.Path(__file__).resolve().parents[3]
GRAPHML = "{http://graphml.graphdrawing.org/xmlns}"
FILES = ("kb.sqlite", "kb.json", "kb.jsonld", "links.graphml", "links.dot", "chronology.graphml", "chronology.dot")
SAMPLE = 8  # of the issues and runs that are asked about one by one

troubles = []
checked = 0


def check(right, what):
    global checked
    checked += 1
    if not right:
        troubles.append(what)


class Coeval:
    def __init__(self, program, kb):
        self.program, self.kb = program, str(kb)

    def run(self, *words, one_core=False):
        cpu = str(min(os.sched_getaffinity(0)))
        command = ["taskset", "-c", cpu] if one_core else []
        return subprocess.run([*command, self.program, *words, "--kb", self.kb], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)

    def answer(self, *words):
        return json.loads(self.run(*words, "--format", "json").stdout)

    def export(self, to, *words, **how):
        graph = ["--graph", "chronology"] if "chronology" in str(to) else []
        done = self.run("export", "--to", str(to), *graph, *words, **how)
        check(done.returncode == 0, f"export to {to}: {done.stdout.decode(errors='replace')}")


def sampled(things):
    things = sorted(things)
    return things[:: max(1, len(things) // SAMPLE)]


def written(kb):
    """(the name of its table, the table, that of its parent) of every TOML table of the knowledge base."""
    inner = {
        "line": ("leftover", "allowance", "picture"), "figure": ("picture",),
        "issue": ("leftover", "takes", "pairing", "timing", "picture"), "accessory": ("picture",), "mould": ("run", "timing", "picture"),
        "run": ("exclusive", "colour", "timing", "picture"), "repro": ("colour", "picture"), "period": ("timing",),
        "card": ("timing", "picture"), "route": ("timing",), "mark": ("timing", "number", "picture"), "feature": ("value", "picture"),
        "value": ("picture",), "claim": ("pairing", "timing"),
    }

    def walk(kind, table, parent):
        yield kind, table, parent
        for name in inner.get(kind, ()):
            below = table.get(name, [])
            for one in below if isinstance(below, list) else [below]:
                yield from walk(name, one, kind)

    for path in sorted(pathlib.Path(kb).rglob("*.toml")):
        for kind, below in tomllib.loads(path.read_text("utf-8")).items():
            for one in below if isinstance(below, list) else [below]:
                yield from walk(kind, one, None)


def table_of(kind, parent):
    special = {"takes": "takes", "accessory": "accessories", "value": "feature_values", "number": "mark_numbers"}
    if parent == "claim" and kind in ("pairing", "timing"):
        return f"claimed_{kind}s"
    return special.get(kind, kind + "s")


def check_sqlite(coeval, path, tables, listed):
    said = subprocess.run(["sqlite3", "-readonly", path, "PRAGMA integrity_check; PRAGMA foreign_key_check; PRAGMA user_version;"],
                          stdout=subprocess.PIPE, check=True).stdout
    check(said == b"ok\n1\n", f"{path}: {said}")
    base = sqlite3.connect(f"file:{path}?mode=ro", uri=True)

    def rows(sql, *values):
        return base.execute(sql, values).fetchall()

    check(rows("PRAGMA application_id") == [(int.from_bytes(b"Coev", "big"),)], "application_id")
    check(rows("SELECT value FROM meta WHERE key = 'format'") == [("coeval-sqlite",)], "meta")
    strict = dict(rows("SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND schema = 'main'"))
    check(all(value for name, value in strict.items() if not name.startswith("search")), f"tables that are not strict: {strict}")

    counts = {}
    for kind, _, parent in tables:
        counts[table_of(kind, parent)] = counts.get(table_of(kind, parent), 0) + 1
    for table, count in counts.items():
        check(rows(f"SELECT count(*) FROM {table}") == [(count,)], f"{table}: not the {count} rows that tomllib finds")
    check(rows("SELECT count(*) FROM entries") == [(sum(counts.values()),)], "entries are not all that tomllib finds")
    for kind, table in rows("SELECT kind, held_in FROM kinds"):
        check(table in counts or rows(f"SELECT count(*) FROM {table}") == [(0,)], f"{kind}: rows that nobody wrote")

    found = {(kind, address, name or "") for kind, address, name in rows("SELECT kind, address, name FROM entries WHERE address IS NOT NULL")}
    check(found == {(one["kind"], one["address"], one["name"]) for one in listed if one["kind"] != "value"}
          | {("feature-value", one["address"], one["name"]) for one in listed if one["kind"] == "value"}, "entries are not what `list` says")

    texts = {table["notes"] for _, table, _ in tables if "notes" in table}
    kept = set()
    for table in counts:
        if any(column[1] == "notes" for column in rows(f"PRAGMA table_info({table})")):
            kept |= {row[0] for row in rows(f"SELECT notes FROM {table} WHERE notes IS NOT NULL")}
    check(texts == kept, "notes are not as they were written")
    plants = sorted(table["plant"] for kind, table, _ in tables if kind == "run" and "plant" in table)
    check(plants == sorted(row[0].removeprefix("plant/") for row in rows("SELECT plant FROM runs WHERE plant IS NOT NULL")), "plants of runs")
    markets = sorted(code for kind, table, _ in tables if kind == "issue" for code in table.get("market", ()))
    check(markets == sorted(row[0] for row in rows("SELECT value FROM issues_market")), "markets of issues")

    issues = [one["address"] for one in listed if one["kind"] == "issue"]
    rank = dict(rows("SELECT verdict, rank FROM verdict_words"))
    for issue in sampled(issues):
        # [slot, run, verdict, basis] in the order of the answer, slot by slot
        answer = coeval.answer("outfit", issue)
        asked = [(slot["slot"], run["run"], run["verdict"], run["basis"]) for slot in answer["slots"] for run in slot["runs"]]
        check(len(asked) == rows("SELECT count(*) FROM verdicts WHERE issue = ?", issue)[0][0], f"verdicts of {issue}")
        for slot in {slot for slot, *_ in asked}:
            view = rows("SELECT slot, run, verdict, basis FROM outfit WHERE issue = ? AND slot = ?", issue, slot)
            here = [one for one in asked if one[0] == slot]
            if len({one["accessory"] for one in answer["slots"] if one["slot"] == slot}) > 1:  # the view has them together
                here.sort(key=lambda one: (rank[one[2]], one[1]))
            check(view == here, f"outfit of {issue}, {slot}")
    runs = [one["address"] for one in listed if one["kind"] == "run"]
    for run in sampled(runs):
        asked = [(home["issue"], home["verdict"], home["basis"]) for one in coeval.answer("homes", run)["runs"] for home in one["homes"]]
        check(asked == rows("SELECT issue, verdict, basis FROM homes WHERE run = ?", run), f"homes of {run}")
        for point in coeval.answer("why", run)["points"]:
            end = point["point"].rsplit(".", 1)[1]
            bounds = {one["basis"]: one for one in point["bounds"]}
            for basis, earliest, latest in rows('SELECT basis, earliest, latest FROM bounds WHERE span = ? AND "end" = ?', run, end):
                known = bounds[basis]
                check((known["earliest"], known["latest"]) == (earliest, latest), f"bounds of {run}.{end} on {basis}")
    words = [word for table in tables for word in re.findall(r"\b[a-z]{6,12}\b", table[1].get("notes", ""))]
    for word in sampled(set(words)):
        found = rows("SELECT count(*) FROM search WHERE search MATCH ?", f'"{word}"')[0][0]
        check(found > 0, f"search finds nothing for {word}")
    return rows


def check_bounds(path, rows):
    """Every day of the table of bounds is a shortest path of the graph, found by NetworkX."""
    graph = networkx.MultiDiGraph(networkx.read_graphml(path))
    strength = ("definition", "documented", "observed", "reported", "conjectured")
    day_zero = rows("SELECT julianday('1970-01-01')")[0][0]
    for basis in strength[1:]:
        kept = networkx.DiGraph()
        kept.add_nodes_from(graph)
        for start, end, data in graph.edges(data=True):
            if strength.index(data["basis"]) > strength.index(basis):
                continue
            if not kept.has_edge(start, end) or kept[start][end]["weight"] > data["days"]:
                kept.add_edge(start, end, weight=data["days"])
        latest = networkx.single_source_bellman_ford_path_length(kept, "origin")
        earliest = networkx.single_source_bellman_ford_path_length(kept.reverse(), "origin")
        for span, end, first, last in rows('SELECT span, "end", julianday(earliest), julianday(latest) FROM bounds WHERE basis = ?', basis):
            node = f"{span.replace('/', ':')}.{end}"
            check((first is None and node not in earliest) or (first is not None and -earliest[node] == first - day_zero), f"{node} on {basis}: earliest")
            check((last is None and node not in latest) or (last is not None and latest[node] == last - day_zero), f"{node} on {basis}: latest")


def check_json(program, path, tables, listed, coeval, folder):
    document = json.loads(path.read_text("utf-8"))
    schema = json.loads(subprocess.run([program, "schema", "export"], stdout=subprocess.PIPE, check=True).stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    for error in list(jsonschema.Draft202012Validator(schema).iter_errors(document))[:5]:
        check(False, f"JSON against its schema, {error.json_path}: {error.message[:200]}")
    check(len(document["entries"]) == len(tables), "entries of the JSON are not all that tomllib finds")
    check({one["address"] for one in document["entries"] if one["address"]} == {one["address"] for one in listed}, "addresses of the JSON")

    # Written back, compiled and exported again: the same but for places and for the order of files.
    back = folder / "back"
    done = subprocess.run([program, "import", path, "--to", back], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    check(done.returncode == 0, f"import: {done.stdout.decode(errors='replace')[:2000]}")
    again = subprocess.run([program, "import", path, "--to", back], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    check(again.returncode == 4 and b"foreign-file" in again.stdout, "import wrote over what was there")
    for picture in re.findall(rf"^  {re.escape(str(back))}/(.*)$", done.stdout.decode(), re.MULTILINE):
        if (pathlib.Path(coeval.kb) / picture).exists():
            (back / picture).parent.mkdir(parents=True, exist_ok=True)
            (back / picture).write_bytes((pathlib.Path(coeval.kb) / picture).read_bytes())
    for picture in pathlib.Path(coeval.kb).rglob("*"):  # those that the list of the first few left out
        to = back / picture.relative_to(coeval.kb)
        if picture.suffix in (".svg", ".png", ".jpg", ".jpeg", ".webp") and not to.exists():
            to.parent.mkdir(parents=True, exist_ok=True)
            to.write_bytes(picture.read_bytes())
    reborn = Coeval(program, back)
    reborn.export(folder / "again.json")
    reborn.export(folder / "again-csv")
    coeval.export(folder / "first-csv")

    def placeless(entries):
        return sorted(json.dumps({key: value for key, value in one.items() if key not in ("file", "line")}, sort_keys=True) for one in entries)

    check(placeless(document["entries"]) == placeless(json.loads((folder / "again.json").read_text("utf-8"))["entries"]), "import changed an entry")
    first, second = ((folder / name / "verdicts.csv").read_text("utf-8") for name in ("first-csv", "again-csv"))
    check(sorted(first.splitlines()) == sorted(second.splitlines()), "import changed a verdict")
    check(sorted(path.relative_to(back).as_posix() for path in back.rglob("*.toml") if path.parent.name == "figures")
          == sorted(f"figures/{one['address']}.toml" for one in listed if one["kind"] == "figure"), "a file for each figure")


def check_csv(folder, tables, listed):
    number = re.compile(r"[-+]?\d+(\.\d+)?")
    kinds = {}
    for kind, table, parent in tables:
        kinds.setdefault(table_of(kind, parent).replace("_", "-"), []).append(table)
    for path in sorted(folder.glob("*.csv")):
        text = path.read_bytes().decode("utf-8")
        found = list(csv.reader(io.StringIO(text, newline="")))
        check(all(len(row) == len(found[0]) for row in found), f"{path.name}: rows of different lengths")
        for cell in (cell for row in found for cell in row):
            if cell and cell[0] in "=+-@\t\r":
                check(number.fullmatch(cell) is not None, f"{path.name}: a formula, {cell[:40]!r}")
        if path.stem == "verdicts":
            continue
        check(len(found) - 1 == len(kinds.get(path.stem, ())), f"{path.name}: {len(found) - 1} rows")
        for key in ("name", "title", "notes"):
            if key in found[0]:
                column = found[0].index(key)
                cells = sorted(row[column].removeprefix("'") for row in found[1:] if row[column])
                check(cells == sorted(table[key] for table in kinds[path.stem] if key in table), f"{path.name}: {key}")
    check({path.stem for path in folder.glob("*.csv")} == set(kinds) | {"verdicts"}, "tables of CSV")


XML_CANNOT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")


def check_graphml(path):
    """The elements and attributes of the GraphML Primer, ids that are NMTOKENs and unique, references that lead somewhere."""
    tree = xml.etree.ElementTree.parse(path).getroot()
    check(tree.tag == GRAPHML + "graphml", f"{path.name}: {tree.tag}")
    keys = {key.get("id"): key.get("for") for key in tree.findall(GRAPHML + "key")}
    graph = tree.find(GRAPHML + "graph")
    check([child.tag for child in tree] == [GRAPHML + "key"] * len(keys) + [GRAPHML + "graph"], f"{path.name}: order of elements")
    nodes = [node.get("id") for node in graph.findall(GRAPHML + "node")]
    check(len(set(nodes)) == len(nodes) and all(re.fullmatch(r"[A-Za-z0-9.:_-]+", node) for node in nodes), f"{path.name}: ids")
    known = set(nodes)
    for element in graph:
        of = element.tag.removeprefix(GRAPHML)
        check(of in ("node", "edge"), f"{path.name}: {element.tag}")
        if of == "edge":
            check(element.get("source") in known and element.get("target") in known, f"{path.name}: an edge to nowhere")
        given = [data.get("key") for data in element]
        check(all(data.tag == GRAPHML + "data" for data in element) and len(set(given)) == len(given)
              and all(keys.get(key) == of for key in given), f"{path.name}: data of {element.attrib}")


def check_links(path, tables, listed):
    graph = networkx.read_graphml(path)
    check(graph.is_directed() and graph.number_of_nodes() == len(tables), f"{path.name}: nodes")
    named = {data["address"]: data.get("name", "") for _, data in graph.nodes(data=True) if "address" in data}
    check(named == {one["address"]: XML_CANNOT.sub("\ufffd", one["name"]) for one in listed}, f"{path.name}: names")
    edges = list(graph.edges(data=True))
    for kind, key, prefix in (("run", "plant", "plant/"), ("issue", "packer", "plant/"), ("plant", "maker", "maker/"), ("takes", "accessory", "")):
        found = sorted(graph.nodes[to]["address"].removeprefix(prefix) for start, to, data in edges
                       if data["key"] == key and graph.nodes[start]["kind"] == kind)
        check(found == sorted(table[key] for name, table, _ in tables if name == kind and key in table), f"{path.name}: {key} of {kind}")
    cited = sorted((graph.nodes[to]["address"], data.get("detail", "")) for _, to, data in edges if data["key"] == "source")
    entered = sorted(("source/" + text.split(" ", 1)[0], XML_CANNOT.sub("\ufffd", text.partition(" ")[2])) for _, table, _ in tables
                     for text in table.get("source", ()))
    check(cited == entered, f"{path.name}: citations")
    below = sum(data["key"] == "parent" for _, _, data in edges)
    tops = sum(1 for kind, _, parent in tables if parent is None and kind not in ("issue", "mould", "repro"))
    check(below == len(tables) - tops, f"{path.name}: parents")


def check_dot(path, graphml):
    """Graphviz finds the nodes and edges that NetworkX finds in the GraphML."""
    graph = networkx.read_graphml(graphml)
    said = subprocess.run(["gvpr", "N{print(\"N \", $.name)} E{print(\"E \", $.tail.name, \" \", $.head.name)}", path], stdout=subprocess.PIPE,
                          check=True).stdout.decode("utf-8").splitlines()
    check(sorted(line[2:] for line in said if line.startswith("N ")) == sorted(graph), f"{path.name}: nodes")
    check(sorted(line[2:] for line in said if line.startswith("E ")) == sorted(f"{start} {to}" for start, to in graph.edges()), f"{path.name}: edges")


def check_drawing(coeval, folder):
    """Labels come out of a drawing as they went in."""
    coeval.export(folder / "small.dot")
    svg = subprocess.run(["dot", "-Tsvg", folder / "small.dot"], stdout=subprocess.PIPE, check=True).stdout
    drawn = [text.text for text in xml.etree.ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]
    for one in coeval.answer("list")["entries"]:
        if one["name"]:
            check(one["name"] in drawn, f"not drawn: {one['name']}")


def examine(program, kb, folder):
    coeval = Coeval(program, kb)
    tables = list(written(kb))
    listed = coeval.answer("list")["entries"]
    check(len(listed) > 100 and len(tables) > 500, "the knowledge base is not the demo")
    for name in FILES:
        coeval.export(folder / name)
        before = (folder / name).read_bytes()
        coeval.export(folder / name, one_core=True)  # over an earlier export of its own
        check((folder / name).read_bytes() == before, f"{name}: other bytes on one core")
    rows = check_sqlite(coeval, folder / "kb.sqlite", tables, listed)
    check_json(program, folder / "kb.json", tables, listed, coeval, folder)
    check_csv(folder / "first-csv", tables, listed)
    for name in ("links", "chronology"):
        check_graphml(folder / f"{name}.graphml")
        check_dot(folder / f"{name}.dot", folder / f"{name}.graphml")
    check_links(folder / "links.graphml", tables, listed)
    check_bounds(folder / "chronology.graphml", rows)


def check_readme(folder):
    """What the README shows of the database is what comes out of it."""
    blocks = re.findall(r"```console\n\$ (sqlite3 .+?)\n(.*?)```", (ROOT / "README.md").read_text(), re.DOTALL)
    check(len(blocks) > 0, "the README shows no question to the database")
    for command, shown in blocks:
        said = subprocess.run(["bash", "-c", command], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False).stdout
        check(said == shown, f"README: {command}: {said}")


def check_refusals(program, folder):
    """Nothing that is not an earlier export of the kind is replaced, and nothing is left behind."""
    coeval = Coeval(program, ROOT / "kb")
    mine = folder / "mine.json"
    mine.write_text("{}")
    check(coeval.run("export", "--to", str(mine)).returncode == 4 and mine.read_text() == "{}", "somebody's file was replaced")
    (folder / "link.json").symlink_to(mine)
    check(coeval.run("export", "--to", str(folder / "link.json"), "--replace").returncode == 4 and mine.read_text() == "{}", "a link was followed")
    check(coeval.run("export", "--to", str(mine), "--replace").returncode == 0 and mine.stat().st_size > 1000, "--replace")
    check(sorted(path.name for path in folder.iterdir()) == ["link.json", "mine.json"], "something was left behind")


def main(program):
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for part in ("demo", "hostile", "refusals"):
            (folder / part).mkdir()
        examine(program, ROOT / "kb", folder / "demo")
        check_readme(folder / "demo")
        subprocess.run([sys.executable, ROOT / "tests/site/hostile_kb.py", ROOT / "kb", folder / "hostile-kb"], stdout=subprocess.PIPE, check=True)
        examine(program, folder / "hostile-kb", folder / "hostile")
        check_drawing(Coeval(program, ROOT / "tests/golden/answers/kb"), folder / "demo")
        check_refusals(program, folder / "refusals")
    for trouble in troubles[:30]:
        print(f"  {trouble}")
    print(f"outside/export: {checked} checked, {len(troubles)} failed")
    return 1 if troubles or checked < 1000 else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
