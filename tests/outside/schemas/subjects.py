"""What the checks of this folder have in common: the program, the knowledge bases to try it on, and the count at the end."""
import contextlib
import json
import os
import pathlib
import shutil
import subprocess
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[3]
DEMO = ROOT / "kb"
CASES = ROOT / "tests/golden/diagnose"
PACKAGES = ROOT / "tests/outside/node_modules"


def run(program, *arguments, folder=ROOT):
    """Exit code and standard output."""
    done = subprocess.run([program, *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    return done.returncode, done.stdout


def run_json(program, *arguments, folder=ROOT):
    return json.loads(run(program, *arguments, folder=folder)[1])


@contextlib.contextmanager
def broken_knowledge_bases():
    """The golden cases of diagnostics, as (name, knowledge base); made ready where they need it, and gone afterwards."""
    with tempfile.TemporaryDirectory() as scratch:
        ready = []
        for case in sorted(CASES.iterdir()):
            if not (case / "kb").is_dir():
                continue
            work = case
            if (case / "prepare").exists():
                work = pathlib.Path(scratch) / case.name
                shutil.copytree(case, work)
                subprocess.run(["bash", "prepare"], cwd=work, env={**os.environ, "COEVAL_ROOT": str(ROOT)}, check=True)
            ready.append((case.name, work / "kb"))
        yield ready


class Tally:
    def __init__(self, name, at_least):
        self.name = name
        self.at_least = at_least  # with fewer checks than this, something was not found that should be there
        self.passed = 0
        self.complaints = []

    def check(self, right, complaint):
        if right:
            self.passed += 1
        else:
            self.complaints.append(complaint)
        return right

    def close(self):
        for complaint in self.complaints[:50]:
            print(complaint)
        if self.passed + len(self.complaints) < self.at_least:
            self.complaints.append("too few checks")
            print(f"{self.name}: {self.passed} checks passed, of {self.at_least} or more that there should be")
        print(f"{self.name}: {self.passed} passed, {len(self.complaints)} failed")
        return 1 if self.complaints else 0
