"""Servers of the app for one run, each in a process of its own, over folders of their own."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from secrets import token_urlsafe

from tests.model.demo import DEMO
from tests.ports import free_port, wait_for

from .watched import MARK

START = 600.0  # s for all servers to listen, their ground computed


class Server:
    """One process."""

    def __init__(self, folder: str, ballots: str, secret: str) -> None:
        self.port = free_port()
        own = {
            "TREESTEAD_DATA": folder,
            "TREESTEAD_BALLOTS": ballots,
            "TREESTEAD_SECRET": secret,
        }
        words = ["-m", "tests.speed.load.watched", str(DEMO), "--port", str(self.port)]
        self.process = subprocess.Popen(  # noqa: S603 - our own command
            [sys.executable, *words],
            env=os.environ | own,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def wait(self) -> None:
        """Wait until it listens."""
        wait_for(self.port, START, lambda: self.process.poll() is None)

    def report(self, question: str = "report") -> dict:
        """How the process is: bytes of memory, seconds of processor, how late its loop was."""
        self.process.stdin.write(f"{question}\n")
        self.process.stdin.flush()
        for line in self.process.stdout:
            if line.startswith(MARK):
                return json.loads(line.removeprefix(MARK))
        raise ConnectionError(f"the server at port {self.port} is gone")


@contextmanager
def servers(count: int, folder: str, ballots: str) -> Iterator[list[Server]]:
    """So many servers that share folder, ballots and secret, listening."""
    secret = token_urlsafe(32)
    begun = [Server(folder, ballots, secret) for _ in range(count)]
    try:
        for one in begun:
            one.wait()
        yield begun
    finally:
        for one in begun:
            one.process.terminate()
        for one in begun:
            one.process.wait(20)
