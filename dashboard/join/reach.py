"""Where the app is reached: what the server listens on, and the address that people type."""

import re
import socket
from dataclasses import dataclass
from urllib.parse import urlsplit

LOOPBACK = ("localhost", "127.0.0.1", "::1")
EVERYWHERE = ("", "0.0.0.0", "::")  # noqa: S104 - what is asked for is recognised, not done
HOST = re.compile(r"([\w.-]+|\[[0-9A-Fa-f:.]+\])(:\d+)?")
USUAL = {"http": 80, "https": 443}


@dataclass(frozen=True)
class Reach:
    """Host and port that a server listens on; `public` is its address when a proxy stands before.

    `public` is as `public_address` gives it, empty without a proxy.
    """

    port: int
    address: str = "localhost"
    public: str = ""

    @property
    def base(self) -> str:
        """The address that phones are told; empty when only this machine reaches the app."""
        if self.public or self.address in LOOPBACK:
            return self.public
        host = (*own_addresses(), "localhost")[0] if self.address in EVERYWHERE else self.address
        return f"http://{_netloc(host, self.port)}"

    @property
    def origins(self) -> list[str]:
        """Hosts whose pages may speak to the server by websocket: its own, and no other's."""
        others: tuple[str, ...] = (self.address.lower(),)
        if self.address in EVERYWHERE:
            others = (*own_addresses(), socket.gethostname().lower())
        hosts = dict.fromkeys((*LOOPBACK, *others))
        own = [_netloc(one, self.port) for one in hosts if ":" not in one]  # Bokeh takes no IPv6
        return [urlsplit(self.public).netloc, *own] if self.public else own

    @property
    def private(self) -> bool:
        """Whether only this machine reaches the app."""
        return not self.base

    @property
    def secure(self) -> bool:
        """Whether people come by https alone."""
        return self.public.startswith("https:")


def public_address(typed: str) -> str:
    """The address as browsers name the origin of its pages; ValueError when it is none.

    >>> public_address("https://Trees.example.org:443/")
    'https://trees.example.org'
    """
    base = base_of(typed)
    parts = urlsplit(typed.strip())
    if base is None or "//" not in typed or parts.path not in ("", "/") or parts.query:
        raise ValueError(
            f"--public: found {typed!r}, expected the address that people type, scheme and host "
            "alone, such as https://trees.example.org"
        )
    whole = urlsplit(base.lower())
    host = whole.hostname or ""
    port = whole.port or USUAL[whole.scheme]
    netloc = _netloc(host, port) if port != USUAL[whole.scheme] else _netloc(host)
    return f"{whole.scheme}://{netloc}"


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
    if not valid or not HOST.fullmatch(parts.netloc):
        return None
    return f"{parts.scheme}://{parts.netloc}"


def own_addresses() -> tuple[str, ...]:
    """Addresses of this machine on its networks, the likeliest first; perhaps none."""
    found: list[str] = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # It sends nothing: it only asks which way it would go.
            probe.connect(("10.255.255.255", 9))
            found.append(str(probe.getsockname()[0]))
        except OSError:
            pass
    try:
        own = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)
    except OSError:
        own = []
    found += [str(one[4][0]) for one in own]
    return tuple(dict.fromkeys(one for one in found if not one.startswith(("127.", "0."))))


def _netloc(host: str, port: int | None = None) -> str:
    bracketed = f"[{host}]" if ":" in host else host
    return bracketed if port is None else f"{bracketed}:{port}"
