"""Long work of visitors who left: dropped, without a trace in the pages or the log."""

import asyncio
import logging
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field

import panel as pn
import pytest
from bokeh.client import pull_session

from dashboard.session import Session
from tests.model.small_site import study
from tests.ports import free_port, wait_for

PATIENCE = 30.0  # s; a promise is waited for, however busy the machine
FLEETING = {"unused_session_lifetime_milliseconds": 500, "check_unused_sessions_milliseconds": 50}


@dataclass
class Visit:
    """One visitor's session and work that stops where the test lets it go on."""

    session: Session
    begun: threading.Event = field(default_factory=threading.Event)
    go_on: threading.Event = field(default_factory=threading.Event)
    over: threading.Event = field(default_factory=threading.Event)
    left: threading.Event = field(default_factory=threading.Event)
    told: threading.Event = field(default_factory=threading.Event)
    complained: threading.Event = field(default_factory=threading.Event)
    came: list = field(default_factory=list)
    words: tuple = ("half way",)
    wrong: Exception | None = None

    def work(self, progress):
        """Work that says how it gets on, unless it has no words, or goes wrong."""
        self.came.append("begun")
        self.begun.set()
        try:
            assert self.go_on.wait(PATIENCE)
            if self.wrong is not None:
                raise self.wrong
            for words in self.words:
                progress(words)
                self.came.append(words)
        finally:
            self.over.set()
        return "done"

    def then(self, result):
        """Take the result on the page."""
        self.came.append(result)
        self.told.set()

    def ask(self):
        """Ask for the work on the page."""
        self.session.param.watch(lambda _event: self.complained.set(), "said")
        self.session.run("working", self.work, self.then)


@contextmanager
def served(made):
    """The visits of whoever comes, each with a page that begins with the work."""
    visits = []

    def page():
        visit = Visit(Session(made))
        visits.append(visit)
        pn.state.on_session_destroyed(lambda _context: visit.left.set())
        visit.ask()
        return pn.pane.Str("a page")

    port = free_port()
    server = pn.serve(
        {"/": page}, port=port, address="127.0.0.1", show=False, threaded=True, **FLEETING,
        websocket_origin=[f"127.0.0.1:{port}"], verbose=False,
    )  # fmt: skip
    wait_for(port, PATIENCE)
    try:
        yield f"http://127.0.0.1:{port}/", visits
    finally:
        server.stop()


@pytest.fixture(scope="module")
def place():
    with served(study()) as (address, visits):
        yield address, visits


@pytest.fixture
def come(place):
    """A browser that comes, and the visit that it is."""
    address, visits = place
    open_still = []

    def one():
        browser = apart(pull_session, url=address)
        open_still.append(browser)
        return browser, visits[-1]

    yield one
    for visit in visits:
        visit.go_on.set()
    for browser in open_still:
        apart(browser.close)


# A browser test before may leave its loop running in this thread.
APART = ThreadPoolExecutor(1, initializer=lambda: asyncio.set_event_loop(asyncio.new_event_loop()))


def apart(act, **given):
    """What comes of an act in the thread of those who come."""
    return APART.submit(act, **given).result()


def left(browser, visit):
    """Close a browser, and wait until the server has seen that it is gone."""
    apart(browser.close)
    assert visit.left.wait(PATIENCE)


def complaints(caplog):
    """What was logged that a visitor's leaving must not bring about."""
    return [one.getMessage() for one in caplog.records if one.levelno >= logging.WARNING]


def waited(visit):
    """Wait until a visit's page has what its work came to."""
    assert visit.told.wait(PATIENCE)


def test_work_of_who_left_stops_at_its_next_word(come, caplog):
    browser, visit = come()
    assert visit.begun.wait(PATIENCE)
    left(browser, visit)
    visit.go_on.set()
    assert visit.over.wait(PATIENCE)
    _browser, next_one = come()
    next_one.go_on.set()
    waited(next_one)
    assert visit.came == ["begun"]
    assert next_one.came == ["begun", "half way", "done"]
    assert not next_one.session.doing
    assert complaints(caplog) == []


def test_work_that_waits_in_line_is_not_begun_once_its_visitor_left(come, caplog):
    _browser, first = come()
    assert first.begun.wait(PATIENCE)
    browser, second = come()
    left(browser, second)
    first.go_on.set()
    waited(first)
    _browser, third = come()
    third.go_on.set()
    waited(third)
    assert second.came == []
    assert third.came[-1] == "done"
    assert complaints(caplog) == []


def test_work_that_ends_after_its_visitor_left_is_told_to_nobody(come, caplog):
    browser, visit = come()
    assert visit.begun.wait(PATIENCE)
    visit.words = ()
    left(browser, visit)
    visit.go_on.set()
    assert visit.over.wait(PATIENCE)
    _browser, next_one = come()
    next_one.go_on.set()
    waited(next_one)
    assert visit.came == ["begun"]
    assert complaints(caplog) == []


def test_an_error_that_nobody_foresaw_is_said_and_logged_and_the_line_goes_on(come, caplog):
    _browser, visit = come()
    visit.wrong = KeyError("nobody foresaw this")
    visit.go_on.set()
    assert visit.complained.wait(PATIENCE)
    assert visit.session.doing == ""
    assert visit.session.said.startswith("That did not work, through a fault of this software.")
    assert "nobody foresaw this" not in visit.session.said
    assert "KeyError: 'nobody foresaw this'" in caplog.text
    _browser, next_one = come()
    next_one.go_on.set()
    waited(next_one)


def test_what_is_being_done_is_said_of_the_work_that_still_is():
    session = Session(study())
    said = []

    def outer(progress):
        session.run("inner", lambda _progress: said.append(session.doing), lambda _done: None)
        said.append(session.doing)
        progress("outer goes on")
        said.append(session.doing)

    session.run("outer", outer, lambda _done: None)
    assert said == ["inner", "outer", "outer goes on"]
    assert session.doing == ""


def test_an_error_in_showing_a_result_is_said(caplog):
    session = Session(study())
    with pytest.raises(ZeroDivisionError):
        session.run("working", lambda _progress: 0, lambda none: 1 / none)
    assert session.doing == ""
    assert session.said.startswith("That did not work")
