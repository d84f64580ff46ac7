"""The server that gives each visitor a session of the app."""

from collections.abc import Callable
from pathlib import Path
from secrets import token_bytes
from typing import Any
from urllib.parse import quote, urlencode

import panel as pn
from bokeh.document import Document
from bokeh.settings import settings
from panel.io.state import set_curdoc
from threadpoolctl import threadpool_limits
from tornado.web import ErrorHandler

from dashboard.book import FIRST
from dashboard.join.handlers import patterns
from dashboard.join.reach import Reach
from dashboard.join.voting import Voting
from dashboard.keeping.opened import Opened
from dashboard.keeping.working_copy import WorkingCopy
from dashboard.pages.wall import wall
from dashboard.session import Session
from dashboard.shell import Shell
from dashboard.visits.readied import Readied
from dashboard.visits.signing import SHORTEST, signing_key
from dashboard.visits.visitors import COOKIE, Visitors
from model.survey.archive import LARGEST_ZIP

# Bytes: a whole folder as a zip, as text of base 64, and what goes with it.
MESSAGE = LARGEST_ZIP * 4 // 3 + 1_000_000
# ms after which the session of who does not come is let go. When a class comes at once a page's
# connection may be a while in following the page; a session let go too soon is built again.
ABSENT = 60_000
BODY = 1_000_000  # of a request; only phones send any, and theirs are smaller
# Panel would import any module that a request names.
CLOSED = [(r"/components/.*", ErrorHandler, {"status_code": 404})]
ALONE = "several processes behind one address need TREESTEAD_SECRET"
DEMOS = Path(__file__).parents[1] / "demo_data"


def session(opened: Opened, readied: Readied | None = None) -> Any:
    """A visitor's own session of a folder, set as the link asks, and the app for it."""
    location, words = pn.state.location, {}
    if location is not None:
        words = {key: str(value) for key, value in location.query_params.items()}
    shell = _shell(opened, words.get("page", FIRST), readied)
    if "Mobi" in (pn.state.headers or {}).get("User-Agent", ""):
        shell.view.sidebar_open = False
    if location is not None:
        notes = shell.page.follow(words)
        shell.session.said = " ".join([shell.session.said, *notes]).strip()
        shell.settled = lambda: setattr(location, "search", f"?{address(shell.query())}")
    return shell.view


def _shell(opened: Opened, page: str, readied: Readied | None) -> Shell:
    """The app for whoever asks for a page, one made ahead where there is one."""
    visitor, shell = (pn.state.cookies or {}).get(COOKIE, ""), None
    if readied is not None and page == FIRST:
        shell = readied.taken(WorkingCopy(opened.folder, visitor))
    if shell is None:
        begun = Session.begun(opened, visitor)
        begun.page = page
        shell = app_of(begun, opened)
    if readied is not None:
        readied.given(shell)
    return shell


def app_of(begun: Session, opened: Opened) -> Shell:
    """The app for a session of a folder."""
    demo = opened.folder.resolve().is_relative_to(DEMOS)
    # Where others reach the app it is not known who asks: each changes their own copy only.
    begun.saves = not demo and Voting.of(opened).reach.private
    return Shell(begun, demo)


def address(query: dict[str, str]) -> str:
    """Settings as the part of an address after the question mark, still readable."""
    return urlencode(query, safe=":~,", quote_via=quote)


def serve(
    folder: str | Path, reach: Reach, show: bool = True, say: Callable[[str], None] = print
) -> None:
    """Serve the app on a folder until it is stopped.

    By default it listens on this machine only; a door for phones, to the vote alone, opens with a
    vote. Raises OSError when the port is taken or the address is not this machine's, ValueError
    when the secret is none.
    """
    key = _key(say)
    threadpool_limits(1, "blas")  # many visitors' small products; threads would only wait
    opened = Opened(folder)
    opened.prepare(say)
    voting = Voting.of(opened)
    voting.reach = reach
    readied = Readied(opened.folder, lambda: app_of(Session(opened.study(), opened), opened))
    readied.begin()
    settings.perform_document_validation = False  # what is empty is filled when it is opened
    _rehearse(opened)
    pn.serve(
        {"/": lambda: session(opened, readied), "/wall": lambda: wall(voting)},
        address=reach.address,
        auth_provider=Visitors(secure=reach.secure),
        extra_patterns=[*patterns(voting), *CLOSED],
        http_server_kwargs={"max_body_size": BODY, "xheaders": bool(reach.public)},
        port=reach.port,
        secret_key=key,
        show=show,
        sign_sessions=True,
        title="Treestead",
        unused_session_lifetime_milliseconds=ABSENT,
        websocket_max_message_size=MESSAGE,
        websocket_origin=reach.origins,
    )


def _rehearse(opened: Opened) -> None:
    """Draw the first page for nobody, so that the first visitor need not wait for it longer."""
    document = Document()
    with set_curdoc(document):
        app_of(Session(opened.study(), opened), opened).view.server_doc(document)
    pn.state.reset()  # it would hold the page for ever


def _key(say: Callable[[str], None]) -> bytes:
    """The key that sessions are signed by; one for this process alone where none can be kept."""
    try:
        return signing_key()
    except OSError as error:
        say(f"note: the key of the sessions could not be kept ({error.strerror}); {ALONE}")
        return token_bytes(SHORTEST)
