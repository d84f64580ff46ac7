"""The app on a copy of the demo, and the system's Chromium to look at it."""

import os
import subprocess
import sys

import pytest

from model.opening import open_study
from tests.model.demo import DEMO
from tests.ports import free_port, wait_for
from tests.system_browser import FLAGS, chromium

PATIENCE = 60.0  # s until the server must listen


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    path = chromium()
    if path is None:
        if os.environ.get("TREESTEAD_REQUIRE_BROWSER") == "1":
            pytest.fail("found no chromium, chromium-browser or google-chrome on the path")
        pytest.skip("no Chromium on this machine")
    return {**browser_type_launch_args, "executable_path": path, "args": list(FLAGS)}


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    copy = tmp_path_factory.mktemp("site")
    for file in DEMO.iterdir():
        (copy / file.name).write_bytes(file.read_bytes())
    return copy


@pytest.fixture(scope="session")
def address(folder, tmp_path_factory):
    port = free_port()
    command = [sys.executable, "-m", "dashboard", "serve", str(folder), "--no-browser"]
    kept = tmp_path_factory.mktemp("kept")
    own = {"TREESTEAD_DATA": str(kept), "TREESTEAD_BALLOTS": f"sqlite:///{kept}/ballots.sqlite3"}
    server = subprocess.Popen(  # noqa: S603 - our own command
        [*command, "--port", str(port)], env=os.environ | own
    )
    wait_for(port, PATIENCE)
    yield f"http://localhost:{port}/"
    server.terminate()
    server.wait(20)


@pytest.fixture(scope="session")
def known_browser(browser):
    """A browser that has the app's scripts already."""
    return browser.new_context()


@pytest.fixture
def context(known_browser):
    """A visitor who was never here: scripts are kept from test to test, nothing else."""
    yield known_browser
    for page in known_browser.pages:
        if page.url.startswith("http"):
            page.evaluate("window.localStorage.clear(), window.sessionStorage.clear()")
        page.close()
    known_browser.clear_cookies()


@pytest.fixture
def study():
    return open_study(DEMO)


@pytest.fixture
def outside(page):
    """Addresses asked for beyond this machine."""
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    local = ("http://localhost:", "http://127.0.0.1:", "data:", "blob:", "about:")
    return lambda: [url for url in asked if not url.startswith(local)]


@pytest.fixture
def errors(page):
    """What went wrong in the page."""
    said = []
    page.on("pageerror", lambda error: said.append(str(error)))
    return said
