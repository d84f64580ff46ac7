"""The house keeps its shape: one direction of imports, small files, nothing drawn in the model."""

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DRAWING = {"panel", "holoviews", "bokeh", "panel_material_ui", "jupyter_bokeh", "dashboard"}
GROUND_FLOOR = ("land", "survey", "trees", "decision")
# What each room of the model may take from the others, beside its own.
MAY_IMPORT = {
    "land": set(),
    "language": set(),
    "survey": {"csv_text", "language"},
    "trees": {"csv_text", "language"},
    "decision": set(),
    "glossary": set(),
    "ground": {"survey", "land", "trees", "language"},
    "factors": {"ground", "land", "trees", "decision", "glossary", "language"},
}
LONGEST = 300


def modules(package: str) -> list[Path]:
    return sorted((ROOT / package).rglob("*.py"))


def imported(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module)
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def room(path: Path) -> str:
    return path.relative_to(ROOT / "model").parts[0].removesuffix(".py")


@pytest.mark.parametrize("path", modules("model"), ids=str)
def test_the_model_draws_nothing(path):
    assert not {name.split(".")[0] for name in imported(path)} & DRAWING


@pytest.mark.parametrize("path", [p for p in modules("model") if room(p) in MAY_IMPORT], ids=str)
def test_a_lower_floor_never_imports_a_higher_one(path):
    allowed = MAY_IMPORT[room(path)]
    taken = {name.split(".")[1] for name in imported(path) if name.startswith("model.")}
    assert taken <= allowed | {room(path)}


def test_no_files_import_one_another_in_a_circle():
    paths = modules("model") + modules("dashboard")
    files = {".".join(path.relative_to(ROOT).with_suffix("").parts): path for path in paths}
    taken = {}
    for name, path in files.items():
        # A file that names another of its own folder passes the folder's face.
        faces = {name.rsplit(".", n)[0] for n in range(1, name.count(".") + 1)}
        taken[name.removesuffix(".__init__")] = imported(path) - faces
    taken = {name: used & taken.keys() for name, used in taken.items()}
    try:
        order = tuple(TopologicalSorter(taken).static_order())
    except CycleError as error:
        pytest.fail(" imports ".join(reversed(error.args[1])))
    assert len(order) == len(files)


@pytest.mark.parametrize(
    "path",
    [p for room in ("land", "survey", "trees", "decision") for p in modules(f"model/{room}")],
    ids=str,
)
def test_physics_survey_trees_and_decision_hold_no_settings(path):
    assert "param" not in {name.split(".")[0] for name in imported(path)}


@pytest.mark.parametrize("path", modules("model") + modules("dashboard"), ids=str)
def test_every_file_is_small_enough_to_read(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST


def test_the_top_level_is_the_design_cards():
    allowed = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"}
    allowed |= {"dashboard", "model", "tests", "demo_data"}
    tracked = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    unknown = {name for name in tracked - allowed if not name.endswith(".egg-info")}
    assert unknown <= {"build", "dist", "test-results"}
