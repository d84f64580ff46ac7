"""The command `serve`: where it listens, and the address that people type."""

import argparse
import errno
import socket
from collections.abc import Callable
from pathlib import Path

from dashboard.join.reach import Reach, public_address


def add_serve(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    run: Callable[[argparse.Namespace], int],
    demo: Path,
) -> None:
    """Add the command and its words."""
    serve = commands.add_parser("serve", help="open the app on a survey folder, or on the demo")
    serve.add_argument("folder", nargs="?", type=Path, default=demo)
    serve.add_argument("--port", type=int, default=5010, help="where to listen (5010)")
    serve.add_argument(
        "--address",
        metavar="HOST",
        default="localhost",
        help="on which of the machine's addresses (localhost: this machine alone; 0.0.0.0: all)",
    )
    serve.add_argument(
        "--public",
        metavar="URL",
        default="",
        help="what people type when the app stands behind a proxy, such as "
        "https://trees.example.org",
    )
    serve.add_argument("--no-browser", action="store_true", help="do not open a browser")
    serve.add_argument(
        "--language", type=Path, metavar="PO", help="a language file that was translated"
    )
    serve.set_defaults(command=run)


def served(given: argparse.Namespace) -> str:
    """Serve until stopped; a sentence when it cannot, empty when it was stopped in peace."""
    from dashboard.app import serve  # noqa: PLC0415 - the other commands need no plotting library

    try:
        public = public_address(given.public) if given.public else ""
        reach = Reach(given.port, given.address, public)
        serve(given.folder, reach, show=not (given.no_browser or public))
    except ValueError as error:
        return str(error)
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            return f"port {given.port}: found it taken, expected a free one; try --port 5011, say"
        if error.errno == errno.EADDRNOTAVAIL or isinstance(error, socket.gaierror):
            return (
                f"--address {given.address}: found no such address here, expected one of this "
                "machine's own, localhost or 0.0.0.0"
            )
        raise
    return ""
