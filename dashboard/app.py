"""The server that gives each visitor a session of the app."""

from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

import panel as pn

from dashboard.join.handlers import patterns
from dashboard.join.voting import Voting
from dashboard.opened import Opened
from dashboard.pages.navigation import COOKIE
from dashboard.pages.wall import wall
from dashboard.session import Session
from dashboard.shell import Shell

DEMOS = Path(__file__).parents[1] / "demo_data"


def session(opened: Opened) -> Any:
    """A visitor's own session of a folder, set as the link asks, and the app for it."""
    begun = Session.begun(opened, (pn.state.cookies or {}).get(COOKIE, ""))
    location = pn.state.location
    words = {}
    if location is not None:
        words = {key: str(value) for key, value in location.query_params.items()}
    begun.page = words.get("page", begun.page)
    shell = Shell(begun, demo=opened.folder.resolve().is_relative_to(DEMOS))
    if location is not None:
        notes = shell.page.follow(words)
        begun.said = " ".join([begun.said, *notes]).strip()
        shell.settled = lambda: setattr(location, "search", f"?{address(shell.query())}")
    return shell.view


def address(query: dict[str, str]) -> str:
    """Settings as the part of an address after the question mark, still readable."""
    return urlencode(query, safe=":~,", quote_via=quote)


def serve(
    folder: str | Path, port: int = 5010, show: bool = True, say: Callable[[str], None] = print
) -> None:
    """Serve the app on a folder until it is stopped; OSError when the port is taken.

    It listens on this machine only; a door for phones, to the vote alone, opens with a vote.
    """
    opened = Opened(folder)
    opened.prepare(say)
    voting = Voting.of(opened)
    voting.port = port
    pn.serve(
        {"/": lambda: session(opened), "/wall": lambda: wall(voting)},
        address="localhost",
        extra_patterns=patterns(voting),
        port=port,
        show=show,
        title="Treestead",
        websocket_origin=[f"localhost:{port}", f"127.0.0.1:{port}"],
    )
