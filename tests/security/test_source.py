"""What the source may not do at all, and what it leans on."""

import ast
import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = [path for part in ("model", "dashboard") for path in sorted((ROOT / part).rglob("*.py"))]
SCRIPTS = sorted((ROOT / "dashboard").rglob("*.js"))
# Modules and functions that turn data into running code. Python's own documentation warns of each
# ("pickle is not secure", "marshal is not intended to be secure", "eval ... security risk").
RUNS = {"pickle", "cPickle", "dill", "cloudpickle", "joblib", "marshal", "shelve", "yaml", "code"}
FUNCTIONS = {"eval", "exec", "compile", "__import__", "breakpoint", "input"}
METHODS = (".read_pickle", ".to_pickle", ".popen", "os.system", ".spawnv", ".execv", ".getoutput")
STARTS_PROGRAMS = {"dashboard/report/printing.py"}  # a browser that prints, found on the path
WRITES_CSV = {  # each through model.csv_text.disarmed
    "model/csv_text.py",
    "model/survey/table.py",
    "model/trees/own_rows.py",
    "model/ground/store.py",  # into a digest only
}
MARKUP = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|javascript:"
)
REQUIREMENT = re.compile(r"([A-Za-z0-9._-]+)(\[[a-z]+\])?>=\d[\d.]*")
MOST = 26


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def imported(tree: ast.AST) -> set[str]:
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found.add(node.module)
    return {one.split(".")[0] for one in found}


def called(call: ast.Call) -> str:
    """What is called: a function, or something's method with a dot before it."""
    function = call.func
    if isinstance(function, ast.Attribute):
        owner = function.value.id if isinstance(function.value, ast.Name) else ""
        return f"{owner}.{function.attr}"
    return function.id if isinstance(function, ast.Name) else ""


TREES = {name(path): ast.parse(path.read_text(encoding="utf-8")) for path in FILES}
CALLS = [
    (file, called(node), node)
    for file, tree in TREES.items()
    for node in ast.walk(tree)
    if isinstance(node, ast.Call)
]


def test_data_is_never_run():
    for file, tree in TREES.items():
        assert not imported(tree) & RUNS, file
    for file, function, call in CALLS:
        where = f"{file}, line {call.lineno}"
        assert function not in FUNCTIONS, where
        assert not function.endswith(METHODS), where
        for one in call.keywords:
            if one.arg == "shell":
                assert isinstance(one.value, ast.Constant), where
                assert not one.value.value, where


def test_arrays_are_read_without_objects_in_them():
    for file, function, call in CALLS:
        if function in ("np.load", "numpy.load"):
            told = {one.arg: ast.unparse(one.value) for one in call.keywords}
            assert told.get("allow_pickle") == "False", f"{file}, line {call.lineno}"


def test_other_programs_are_started_in_one_place_only():
    found = {file for file, tree in TREES.items() if "subprocess" in imported(tree)}
    assert found == STARTS_PROGRAMS


def test_every_csv_is_written_where_formulas_are_disarmed():
    writes = (".to_csv", ".DictWriter", "csv.writer")
    assert {file for file, function, _call in CALLS if function.endswith(writes)} == WRITES_CSV
    for file in WRITES_CSV - {"model/ground/store.py"}:
        assert "disarmed(" in (ROOT / file).read_text(encoding="utf-8")


def test_scripts_write_words_and_never_markup():
    assert len(SCRIPTS) > 10
    for path in SCRIPTS:
        assert not MARKUP.search(path.read_text(encoding="utf-8")), name(path)


def test_markup_is_made_in_panes_of_html_alone_and_tooltips_escape():
    for file, function, _call in CALLS:
        assert function.split(".")[-1] not in ("Markdown", "Alert", "Div"), file
    for file in TREES:
        text = (ROOT / file).read_text(encoding="utf-8")
        assert "disable_sanitiz" not in text, file
        assert not re.search(r"@\{?\w+\}?\{safe\}", text), file


@pytest.fixture(scope="module")
def project():
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def needed(requirements: list[str]) -> set[str]:
    """Names of packages, each with the least version that will do."""
    for one in requirements:
        assert REQUIREMENT.match(one), f"{one}: expected a lower bound"
    return {REQUIREMENT.match(one)[1].lower() for one in requirements}


def test_every_dependency_is_bounded_and_has_its_reason(project):
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.split("## Dependencies", 1)[1].split("\n## ", 1)[0]
    rows = [line.strip("| ").split(" | ") for line in table.splitlines() if line.startswith("| ")]
    reasons = {}
    for packages, reason in rows[1:]:
        for one in re.split(r"[,()\s]+", packages.lower()):
            reasons[one] = reason.strip()
    extras = project["optional-dependencies"].values()
    asked = needed(project["dependencies"]).union(*map(needed, extras))
    assert sorted(one for one in asked if len(reasons.get(one, "")) < 5) == []


def test_what_is_asked_for_is_little(project):
    assert len(needed(project["dependencies"])) <= MOST
