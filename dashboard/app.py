"""The server that gives each visitor a session of the app."""

from collections.abc import Callable
from pathlib import Path
from secrets import token_bytes
from typing import Any
from urllib.parse import quote, urlencode

import panel as pn
from tornado.web import ErrorHandler

from dashboard.join.handlers import patterns
from dashboard.join.reach import Reach
from dashboard.join.voting import Voting
from dashboard.opened import Opened
from dashboard.pages.wall import wall
from dashboard.session import Session
from dashboard.shell import Shell
from dashboard.signing import SHORTEST, signing_key
from dashboard.visitors import COOKIE, Visitors
from model.survey.archive import LARGEST_ZIP

# Bytes: a whole folder as a zip, as text of base 64, and what goes with it.
MESSAGE = LARGEST_ZIP * 4 // 3 + 1_000_000
BODY = 1_000_000  # of a request; only phones send any, and theirs are smaller
# Panel would import any module that a request names.
CLOSED = [(r"/components/.*", ErrorHandler, {"status_code": 404})]
ALONE = "several processes behind one address need TREESTEAD_SECRET"
DEMOS = Path(__file__).parents[1] / "demo_data"


def session(opened: Opened) -> Any:
    """A visitor's own session of a folder, set as the link asks, and the app for it."""
    begun = Session.begun(opened, (pn.state.cookies or {}).get(COOKIE, ""))
    location = pn.state.location
    words = {}
    if location is not None:
        words = {key: str(value) for key, value in location.query_params.items()}
    begun.page = words.get("page", begun.page)
    demo = opened.folder.resolve().is_relative_to(DEMOS)
    # Where others reach the app it is not known who asks: each changes their own copy only.
    begun.saves = not demo and Voting.of(opened).reach.private
    shell = Shell(begun, demo)
    if location is not None:
        notes = shell.page.follow(words)
        begun.said = " ".join([begun.said, *notes]).strip()
        shell.settled = lambda: setattr(location, "search", f"?{address(shell.query())}")
    return shell.view


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
    opened = Opened(folder)
    opened.prepare(say)
    voting = Voting.of(opened)
    voting.reach = reach
    pn.serve(
        {"/": lambda: session(opened), "/wall": lambda: wall(voting)},
        address=reach.address,
        auth_provider=Visitors(secure=reach.secure),
        extra_patterns=[*patterns(voting), *CLOSED],
        http_server_kwargs={"max_body_size": BODY, "xheaders": bool(reach.public)},
        port=reach.port,
        secret_key=key,
        show=show,
        sign_sessions=True,
        title="Treestead",
        websocket_max_message_size=MESSAGE,
        websocket_origin=reach.origins,
    )


def _key(say: Callable[[str], None]) -> bytes:
    """The key that sessions are signed by; one for this process alone where none can be kept."""
    try:
        return signing_key()
    except OSError as error:
        say(f"note: the key of the sessions could not be kept ({error.strerror}); {ALONE}")
        return token_bytes(SHORTEST)
