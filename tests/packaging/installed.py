"""The wheel in an empty environment, used as people use it; `python -m tests.packaging` runs this.

TREESTEAD_PROGRAMS is the folder where that environment's programs are.
"""

import csv
import os
import subprocess
import time
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest

from dashboard.version import VERSION
from tests.ports import free_port

PROGRAMS = Path(os.environ.get("TREESTEAD_PROGRAMS", "/"))
PATIENCE = 300  # s until the app must answer
ASK = "import model, demo_data; print(model.__file__); print(demo_data.__path__[0])"


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """The environment's variables, with folders of these tests."""
    kept = tmp_path_factory.mktemp("kept")
    return os.environ | {"TREESTEAD_DATA": f"{kept}/data", "TREESTEAD_CACHE": f"{kept}/cache"}


@pytest.fixture
def run(tmp_path, own):
    """Runs a program of the environment in a folder that is no checkout; what it said."""

    def ran(*words):
        done = subprocess.run(  # noqa: S603 - our own words
            [PROGRAMS / words[0], *words[1:]],
            cwd=tmp_path,
            env=own,
            check=True,
            stdout=subprocess.PIPE,
            text=True,
        )
        return done.stdout

    return ran


def test_what_is_used_is_the_installed_wheel(run):
    code, demos = run("python", "-c", ASK).split()
    assert all(str(PROGRAMS.parent) in place for place in (code, demos))


def test_it_says_its_version(run):
    assert run("treestead", "--version").strip() == f"Treestead {VERSION}"


def test_the_demo_that_comes_with_it_is_judged(run, tmp_path):
    demo = Path(run("python", "-c", ASK).split()[1]) / "sorrelhay"
    run("treestead", "assess", demo, "--out", "results")
    ranking = list(csv.DictReader((tmp_path / "results" / "ranking.csv").open(encoding="utf-8")))
    pegs = list(csv.DictReader((demo / "spots.csv").open(encoding="utf-8")))
    assert {row["spot"] for row in ranking} == {row["spot"] for row in pegs}


def test_a_starter_folder_is_laid_out_and_clean(run):
    run("treestead", "new", "field")
    assert "no faults" in run("treestead", "check", "field")


def test_serve_alone_brings_the_first_page_and_stops_when_told(tmp_path, own):
    port = str(free_port())
    command = [PROGRAMS / "treestead", "serve", "--no-browser", "--port", port]
    with subprocess.Popen(command, cwd=tmp_path, env=own) as server:  # noqa: S603 - our own words
        try:
            page = answer(f"http://localhost:{port}/", server)
            script = page.split('src="static/js/bokeh')[1].split('"')[0]
            library = answer(f"http://localhost:{port}/static/js/bokeh{script}", server)
        finally:
            server.terminate()
    assert "<title>Treestead</title>" in page
    assert len(library) > 100_000


def answer(address: str, server: subprocess.Popen) -> str:
    """What a page says, as soon as there is one."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and server.poll() is None:
        try:
            with urlopen(address, timeout=PATIENCE) as page:  # noqa: S310 - this machine's
                return page.read().decode()
        except URLError as error:
            if not isinstance(error.reason, ConnectionError):
                raise
            time.sleep(0.2)
    raise AssertionError(f"the app ended with {server.poll()} and gave no page")
