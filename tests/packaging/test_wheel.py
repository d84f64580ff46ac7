"""The wheel: everything that the app needs is in it, nothing else, and its words are true."""

import ast
import re
import sys
import tomllib
import zipfile
from email.parser import HeaderParser
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from dashboard.__main__ import main
from dashboard.version import VERSION
from tests.packaging.lowest import ROOT, wheel

PACKAGES = ("model", "dashboard", "demo_data")
NEEDED = (
    *("model/trees/data/species.csv", "model/trees/data/rootstocks.csv"),
    *("model/trees/data/cultivars.csv", "model/trees/data/neighbours.csv"),
    *("model/trees/data/sources.csv", "model/planting/dates/pruning.csv"),
    *("demo_data/sorrelhay/site.toml", "demo_data/sorrelhay/features.geojson"),
    *("demo_data/sallowbend/site.toml", "demo_data/sallowbend/features.geojson"),
    *("dashboard/lessons/1_sun_and_shade.ipynb", "dashboard/lessons/5_a_year_later.ipynb"),
    *("dashboard/join/static/join.css", "dashboard/join/static/join.js"),
    *("dashboard/report/report.css", "dashboard/pages/navigation.css", "dashboard/serving.md"),
)
BY_PANEL = {"jupyter-bokeh"}  # in a notebook, by itself


@pytest.fixture(scope="module")
def archive(tmp_path_factory):
    with zipfile.ZipFile(wheel(tmp_path_factory.mktemp("wheel"))) as opened:
        yield opened


@pytest.fixture(scope="module")
def words(archive):
    name = next(one for one in archive.namelist() if one.endswith(".dist-info/METADATA"))
    return HeaderParser().parsestr(archive.read(name).decode())


@pytest.fixture(scope="module")
def project():
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def test_every_file_beside_the_code_is_in_the_wheel_and_nothing_more(archive):
    inside = {name for name in archive.namelist() if ".dist-info/" not in name}
    standing = {path.relative_to(ROOT).as_posix() for path in files()}
    assert inside == standing
    assert {name.split("/")[0] for name in inside} == set(PACKAGES)


@pytest.mark.parametrize("name", NEEDED)
def test_what_the_app_opens_is_in_the_wheel_as_it_stands_here(archive, name):
    assert archive.read(name) == (ROOT / name).read_bytes()


def test_the_licence_goes_with_it(archive, words):
    assert words["License-Expression"] == "Apache-2.0"
    text = next(one for one in archive.namelist() if one.endswith("/licenses/LICENSE"))
    assert archive.read(text) == (ROOT / "LICENSE").read_bytes()


def test_it_names_no_person_and_no_host(words):
    said = "\n".join(value for name, value in words.items() if name != "Description")
    assert words["Author"] == "The Treestead developers"
    assert not re.search(r"@|://", said)


def test_one_version_is_said_everywhere(words, capsys):
    assert main(["--version"]) == 0
    assert capsys.readouterr().out.strip() == f"Treestead {VERSION}"
    assert words["Version"] == VERSION
    newest = re.search(r"^### (\S+)", section("DEVELOPERS.md", "Changelog"), re.M)
    assert newest
    assert newest[1] == VERSION
    assert f"version = {{{VERSION}}}" in section("README.md", "Citation")


def test_each_library_has_a_lower_bound_and_comes_from_a_release(project):
    for asked in project["dependencies"]:
        assert re.fullmatch(r"[\w-]+>=\d+(\.\d+)*", asked), asked


def test_what_is_imported_is_asked_for_and_what_is_asked_for_is_imported(project):
    told = {name(one) for one in project["dependencies"]}
    extra = {
        name(one)
        for group, asked in project["optional-dependencies"].items()
        if group != "test"
        for one in asked
    }
    owners = packages_distributions()
    used = {name(owners[one][0]) for one in imported() if one in owners}
    assert {one for one in imported() if one not in owners} == set()
    assert used - extra == told - BY_PANEL


def files() -> list[Path]:
    """All files of the packages but those that Python and editors make for themselves."""
    found = [path for package in PACKAGES for path in (ROOT / package).rglob("*")]
    made = ("__pycache__", ".ipynb_checkpoints")
    return [path for path in found if path.is_file() and not set(made) & set(path.parts)]


def imported() -> set[str]:
    """Every library that the packages import, in a function too."""
    found = set()
    for path in files():
        if path.suffix == ".py":
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Import):
                    found |= {alias.name.split(".")[0] for alias in node.names}
                elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                    found.add(node.module.split(".")[0])
    return found - set(PACKAGES) - sys.stdlib_module_names


def name(asked: str) -> str:
    """A library's name as registries compare them."""
    return re.split(r"[\[>=<]", asked)[0].lower().replace("_", "-")


def section(page: str, heading: str) -> str:
    """A section of a page of ours."""
    parts = (ROOT / page).read_text(encoding="utf-8").split(f"\n## {heading}\n")
    assert len(parts) == 2, f"{page} has no section {heading}"
    return parts[1].split("\n## ")[0]
