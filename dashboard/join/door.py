"""The door for phones: a server of the vote alone, opened on the network when a vote begins.

The app itself listens on this machine only; what phones can reach is the vote and nothing else.
"""

from threading import Lock
from urllib.parse import urlencode

import segno
from tornado.httpserver import HTTPServer
from tornado.web import Application, RedirectHandler

from dashboard.join.handlers import patterns
from dashboard.join.voting import Voting
from model.language import _

TRIES = 20  # ports after the app's own
_LOCK = Lock()
_OPEN: dict[int, tuple[HTTPServer, int]] = {}


def opened_door(voting: Voting) -> int:
    """The port at which phones reach the vote, opened now if it was not; beside the app's port.

    Raises OSError when no port near it is free.
    """
    beside = voting.reach.port
    with _LOCK:
        if beside in _OPEN:
            return _OPEN[beside][1]
        server = HTTPServer(
            Application([(r"/", RedirectHandler, {"url": "/join"}), *patterns(voting)])
        )
        for port in range(beside + 1, beside + 1 + TRIES):
            try:
                server.listen(port)
            except OSError:
                continue
            _OPEN[beside] = server, port
            return port
        raise OSError(
            _("Phones cannot join: found no free port from {first} to {last}.").format(
                first=beside + 1, last=beside + TRIES
            )
        )


def join_address(base: str, code: str) -> str:
    """The address that takes a phone straight to a vote."""
    return f"{base}/join?{urlencode({'code': code})}"


def picture(address: str) -> str:
    """The QR code of an address as SVG that can be read aloud."""
    said = _("QR code of {address}").format(address=address)
    drawn: str = segno.make(address, micro=False, error="m").svg_inline(
        border=2, dark="#000000", light="#ffffff", omitsize=True, title=said
    )
    return drawn.replace("<svg ", '<svg role="img" ', 1)
