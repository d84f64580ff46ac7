"""The app's websocket, spoken as a browser's script speaks it, without drawing anything."""

import asyncio
import json
from collections.abc import Callable, Iterator
from typing import Any
from uuid import uuid4

from tornado.httpclient import HTTPRequest
from tornado.websocket import WebSocketClientConnection, websocket_connect

PATIENCE = 120.0  # s for one answer, so that a lost one is counted and not waited for


class Closed(ConnectionError):  # noqa: N818 - what happened
    """The server closed the connection."""


class Wire:
    """One session. `changed(model, attribute, value)` is called with what the server patches."""

    def __init__(self, connection: WebSocketClientConnection) -> None:
        self._connection = connection
        self._waiting: dict[str, asyncio.Future] = {}
        self.changed: Callable[[str, str, Any], None] = lambda *_change: None
        self._writing = asyncio.Lock()
        self.taken = 0  # characters and bytes that came
        self._reading = asyncio.create_task(self._read())

    @classmethod
    async def opened(cls, port: int, token: str, cookies: str = "") -> "Wire":
        """The session that a page's token stands for; the server's greeting has come."""
        told = {"Origin": f"http://localhost:{port}", "Cookie": cookies}
        asked = HTTPRequest(f"ws://localhost:{port}/ws", headers=told, request_timeout=PATIENCE)
        connection = await websocket_connect(asked, subprotocols=["bokeh", token])
        header, _content = await _message(connection)
        if header["msgtype"] != "ACK":
            raise Closed(f"found {header['msgtype']}, expected ACK")
        return cls(connection)

    async def ask(self, kind: str, content: dict | None = None) -> dict:
        """Send a message; the content of the answer to it."""
        name = uuid4().hex.upper()
        self._waiting[name] = asyncio.get_running_loop().create_future()
        async with self._writing:  # a message's parts stand together
            for part in ({"msgid": name, "msgtype": kind}, {}, content or {}):
                await self._connection.write_message(json.dumps(part))
        return await asyncio.wait_for(self._waiting[name], PATIENCE)

    async def patch(self, *events: dict) -> dict:
        """Send changes of the document; returns when the server has taken them."""
        return await self.ask("PATCH-DOC", {"events": list(events)})

    def close(self) -> None:
        """Leave, as a browser whose tab is closed."""
        self._reading.cancel()
        self._connection.close()

    async def _read(self) -> None:
        try:
            while True:
                header, content = await _message(self._connection, self._count)
                if header["msgtype"] == "PATCH-DOC":
                    for event in content["events"]:
                        if event["kind"] == "ModelChanged":
                            self.changed(event["model"]["id"], event["attr"], event["new"])
                waiting = self._waiting.pop(header.get("reqid", ""), None)
                if waiting is not None and not waiting.done():
                    self._settle(waiting, header, content)
        except Closed as error:
            for waiting in self._waiting.values():
                if not waiting.done():
                    waiting.set_exception(error)

    def _settle(self, waiting: asyncio.Future, header: dict, content: dict) -> None:
        if header["msgtype"] == "ERROR":
            waiting.set_exception(Closed(f"the server answered: {content.get('text')}"))
        else:
            waiting.set_result(content)

    def _count(self, part: str | bytes) -> None:
        self.taken += len(part)


async def _message(
    connection: WebSocketClientConnection, count: Callable[[str | bytes], None] = lambda _part: None
) -> tuple[dict, dict]:
    """Header and content of the next message; its arrays are read and let go."""

    async def part() -> str | bytes:
        given = await connection.read_message()
        if given is None:
            raise Closed("the server closed the connection")
        count(given)
        return given

    header = json.loads(await part())
    await part()
    content = json.loads(await part())
    for _ in range(2 * header.get("num_buffers", 0)):
        await part()
    return header, content


def models(part: Any) -> Iterator[dict]:
    """All models written out in a part of a document."""
    if isinstance(part, dict):
        if part.get("type") == "object" and "id" in part:
            yield part
        for value in part.values():
            yield from models(value)
    elif isinstance(part, list):
        for value in part:
            yield from models(value)


def plain(value: Any) -> Any:
    """A value as it is sent, its maps as dictionaries."""
    if isinstance(value, list):
        return [plain(one) for one in value]
    if isinstance(value, dict) and value.get("type") == "map":
        return {key: plain(one) for key, one in value.get("entries", ())}
    return value


def wrapped(value: dict) -> dict:
    """A dictionary as the wire has it."""
    return {"type": "map", "entries": [list(pair) for pair in value.items()]}
