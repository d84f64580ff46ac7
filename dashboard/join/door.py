"""The door for phones: a server of the vote alone, opened on the network when a vote begins.

The app itself listens on this machine only; what phones can reach is the vote and nothing else.
"""

import socket
from threading import Lock
from urllib.parse import urlencode, urlsplit

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
    beside = voting.port or 0
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


def own_addresses() -> tuple[str, ...]:
    """Addresses of this machine on its networks, the likeliest first; perhaps none."""
    found: list[str] = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(
                ("10.255.255.255", 9)
            )  # sends nothing: it only asks which way it would go
            found.append(str(probe.getsockname()[0]))
        except OSError:
            pass
    try:
        own = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)
    except OSError:
        own = []
    found += [str(one[4][0]) for one in own]
    return tuple(dict.fromkeys(one for one in found if not one.startswith(("127.", "0."))))


def base_of(address: str) -> str | None:
    """The part of an address before /join as a teacher may type it, None when it is none.

    >>> base_of("192.168.1.20:5011"), base_of("https://vote.example/join?code=X")
    ('http://192.168.1.20:5011', 'https://vote.example')
    """
    typed = address.strip()
    parts = urlsplit(typed if "//" in typed else f"http://{typed}")
    try:
        valid = parts.scheme in ("http", "https") and bool(parts.hostname) and (parts.port or 80)
    except ValueError:
        return None
    if not valid or "@" in parts.netloc or any(one.isspace() for one in parts.netloc):
        return None
    return f"{parts.scheme}://{parts.netloc}"


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
