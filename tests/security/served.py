"""The app as the command line serves it, in a process of its own, and what speaks to it."""

import asyncio
import http.client
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tornado.httpclient import HTTPRequest
from tornado.websocket import WebSocketClosedError, websocket_connect

from tests.ports import free_port, wait_for

PATIENCE = 400.0  # s until the server must listen, on a machine however busy
HANGS = 30.0  # s after which a silent websocket is given up
PUBLIC = "trees.example.org"


@dataclass(frozen=True)
class Served:
    """A running app: its port, the folder it serves, its data folder and its ballots."""

    port: int
    folder: Path
    data: Path
    ballots: str

    @property
    def host(self) -> str:
        """Host and port, as browsers name them."""
        return f"localhost:{self.port}"

    def get(self, path: str, **headers: str) -> tuple[int, http.client.HTTPMessage, str]:
        """Status, headers and text of what is answered to a plain request."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=HANGS)
        told = {"Host": self.host, **{name.replace("_", "-"): one for name, one in headers.items()}}
        connection.request("GET", path, headers=told)
        answer = connection.getresponse()
        text = answer.read().decode("utf-8", "replace")
        connection.close()
        return answer.status, answer.headers, text

    def token(self, path: str = "/wall") -> str:
        """A session's token, as a page carries it."""
        found = re.search(r'"token":"([^"]+)"', self.get(path)[2])
        assert found is not None
        return found[1]

    def heard(self, token: str, origin: str, *said: str | bytes, path: str = "/wall") -> str | None:
        """What a websocket is told first, or after it said something; None when it is closed.

        Raises HTTPClientError when it is refused before it opens.
        """
        # In a thread: a browser test before may leave its loop running in this one.
        with ThreadPoolExecutor(1) as one:
            try:
                return one.submit(asyncio.run, self._heard(token, origin, said, path)).result()
            except WebSocketClosedError:
                return None

    async def _heard(
        self, token: str, origin: str, said: tuple[str | bytes, ...], path: str
    ) -> str | None:
        url = f"ws://127.0.0.1:{self.port}{path.rstrip('/')}/ws"
        asked = HTTPRequest(url, headers={"Origin": origin, "Host": self.host})
        line = await websocket_connect(asked, subprotocols=["bokeh", token])
        first = await asyncio.wait_for(line.read_message(), HANGS)
        for one in said:
            await line.write_message(one, binary=isinstance(one, bytes))
        if said:  # the first answer is of three parts: header, metadata, content
            for _part in range(2):
                await asyncio.wait_for(line.read_message(), HANGS)
            first = await asyncio.wait_for(line.read_message(), HANGS)
        line.close()
        return None if first is None else str(first)


@contextmanager
def served(folder: Path, kept: Path, ballots: str = "") -> Iterator[Served]:
    """The app on a folder until it is left."""
    port = free_port()
    url = ballots or f"sqlite:///{kept}/ballots.sqlite3"
    own = {"TREESTEAD_DATA": str(kept), "TREESTEAD_BALLOTS": url}
    where = ["--port", str(port), "--public", f"https://{PUBLIC}"]
    command = [sys.executable, "-m", "dashboard", "serve", str(folder), "--no-browser", *where]
    server = subprocess.Popen(command, env=os.environ | own)  # noqa: S603 - our own command
    try:
        wait_for(port, PATIENCE, lambda: server.poll() is None)
        yield Served(port, folder, kept, url)
    finally:
        server.terminate()
        server.wait(20)
