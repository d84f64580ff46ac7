"""From the command to a page that can be used, in a real browser, and the memory it takes."""

import os
import subprocess
import sys
import tempfile
import time

from tests.ports import free_port, wait_for
from tests.system_browser import FLAGS, chromium

from .comparison import Comparison
from .memory import peak

LIBRARIES = "import panel, holoviews, geopandas, rasterio, scipy.ndimage"
READY = """
() => window.Bokeh?.documents[0]?.is_idle
  && [...Bokeh.index.query((view) => view.model.type === "Figure")].length > 0
"""
GIGABYTE = 1024.0  # [MB]
PATIENCE = 600.0  # [s] a stall, not a time to hold


def comparisons() -> list[Comparison]:
    """Server listening, first page and next page drawn, and memory, on the demo from cold."""
    bare = _bare()
    with tempfile.TemporaryDirectory() as empty:
        environment = os.environ | {"TREESTEAD_CACHE": empty, "HOME": empty}
        port = free_port()
        start = time.perf_counter()
        server = subprocess.Popen(  # noqa: S603 - our own command
            [sys.executable, "-m", "dashboard", "serve", "--no-browser", "--port", str(port)],
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            wait_for(port, PATIENCE)
            listening = 1000 * (time.perf_counter() - start)
            first, later = _pages(port, start)
            memory = peak(server.pid)
        finally:
            server.terminate()
            server.wait(20)
    against = "importing the libraries it stands on"
    lines = [Comparison("server listening, from the command", against, listening, bare)]
    if first:
        lines += [
            Comparison("first page drawn, from the command, nothing kept", against, first, bare),
            Comparison("the next visitor's page drawn", against, later, bare),
        ]
    return [*lines, Comparison("server's most memory [MB]", "1 GB", memory, GIGABYTE, 1.0)]


def _bare() -> float:
    """Time to import the libraries in a process of its own [ms]."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", LIBRARIES], check=True)  # noqa: S603 - our own code
    return 1000 * (time.perf_counter() - start)


def _pages(port: int, start: float) -> tuple[float, float]:
    """When the first page stood [ms after the start], and how long a second visitor's took [ms]."""
    path = chromium()
    if path is None:
        sys.stderr.write("start: no Chromium here, so pages were not timed\n")
        return 0.0, 0.0
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - absent where no browser is

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=list(FLAGS))
        _open(browser, port)
        first = 1000 * (time.perf_counter() - start)
        again = time.perf_counter()
        _open(browser, port)
        later = 1000 * (time.perf_counter() - again)
        browser.close()
    return first, later


def _open(browser: object, port: int) -> None:
    """A page of a visitor of its own, until a plot is drawn and nothing more is on its way."""
    page = browser.new_context().new_page()
    page.goto(f"http://localhost:{port}/", timeout=1000 * PATIENCE)
    page.wait_for_function(READY, timeout=1000 * PATIENCE)
