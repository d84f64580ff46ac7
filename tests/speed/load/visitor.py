"""A person at the app: opens the page, then drags sliders and waits for what follows."""

import asyncio
import random
import re
import time
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urljoin

from tornado.httpclient import AsyncHTTPClient, HTTPResponse

from .wire import PATIENCE, Wire, models, plain, wrapped

TOKEN = re.compile(r'"token":\s*"([^"]+)"')
LINKED = re.compile(r'(?:src|href)="([^"]+\.(?:js|css)[^"]*)"|from "([^"]+\.js[^"]*)"')
STEP = 0.08  # s between two places of a hand that drags
STEPS = (3, 6)
THINKS = (1.0, 3.0)  # s


@dataclass
class Move:
    """A slider moved: to where, how long the answer took [s], and whether it was of that slider."""

    block: str
    value: float
    settled: bool
    seconds: float
    answered: bool


@dataclass
class Visitor:
    """One session of the app on a server at `port`."""

    number: int
    port: int
    http: AsyncHTTPClient
    moves: list[Move] = field(default_factory=list)
    arrival: float = 0.0  # s from asking for the page until all of it had come
    on: float = 0.0  # by the clock
    ranking: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    wire: Wire | None = None

    async def arrive(self) -> None:
        """Open the page with an empty cache, and say that it has loaded."""
        self.chance = random.Random(self.number)  # noqa: S311 -- a hand, not a secret
        start = time.perf_counter()
        page = await self._fetched("/")
        text = page.body.decode()
        cookies = [one.partition(";")[0] for one in page.headers.get_list("Set-Cookie")]
        seen = set(await self._linked(text, set()))
        self.wire = await Wire.opened(self.port, TOKEN.search(text)[1], "; ".join(cookies))
        self.document = (await self.wire.ask("PULL-DOC-REQ"))["doc"]
        self._learn()
        await self._linked(self._bundles(), seen)
        await self._drawn()
        ready = {"type": "event", "name": "document_ready", "values": {"type": "map"}}
        await self.wire.patch(_event(ready))
        self.on = time.perf_counter()
        self.arrival = self.on - start

    async def work(self, end: float) -> None:
        """Drag one slider after another until the clock says `end`."""
        while time.perf_counter() < end and not self.faults:
            await asyncio.sleep(self.chance.uniform(*THINKS))
            try:
                await self.drag()
            except (TimeoutError, ConnectionError) as error:
                self.faults.append(f"session {self.number}: {error or 'no answer'}")

    async def drag(self) -> None:
        """Take a slider some steps along; what the hand passes before an answer is not sent."""
        block = self.chance.choice(sorted(self.sliders))
        at, way, count = (
            self.sliders[block],
            self.chance.choice((-1, 1)),
            self.chance.randint(*STEPS),
        )
        places = [min(max(round(2 * at + 5 * way * k) / 2, 0.5), 60.0) for k in range(1, count + 1)]
        begun, shown = time.perf_counter(), -1
        while shown < count - 1:
            step = min(int((time.perf_counter() - begun) / STEP), count - 1)
            if step > shown:
                await self.move(block, places[step], settled=False)
                shown = step
            else:
                await asyncio.sleep(begun + (shown + 1) * STEP - time.perf_counter())
        await self.move(block, places[-1], settled=True)

    async def move(self, block: str, value: float, settled: bool) -> None:
        """One message of a slider; returns when its answer has come."""
        self._answer = asyncio.get_running_loop().create_future()
        data = wrapped({"id": block, "value": value, "settled": settled})
        values = wrapped({"model": {"id": self.component}, "data": data})
        told = {"type": "event", "name": "data_event", "values": values}
        start = time.perf_counter()
        taken = asyncio.create_task(self.wire.patch(_event(told)))
        done, _waiting = await asyncio.wait(
            (self._answer, taken), timeout=PATIENCE, return_when=asyncio.FIRST_COMPLETED
        )
        seconds = time.perf_counter() - start
        if taken in done and not self._answer.done():
            taken.result()  # says why, when the connection is gone
        await asyncio.wait_for(self._answer, PATIENCE)
        self.moves.append(Move(block, value, settled, seconds, self._shows(block, value)))
        await taken

    def close(self) -> None:
        """Close the tab."""
        if self.wire is not None:
            self.wire.close()

    def _shows(self, block: str, value: float) -> bool:
        """Whether the sliders stand as this one was moved."""
        return self.touched == block and abs(self.sliders[block] - value) < 0.051

    def _learn(self) -> None:
        """Find sliders and order of merit in the document, and follow them from now on."""
        parts = {}
        for model in models(self.document):
            given = model.get("attributes", {})
            kind = given.get("class_name")
            if kind in ("Sliders", "RankedRows"):
                data = given["data"]
                told = data["attributes"]
                if kind == "Sliders" or told.get("kind", "merit") == "merit":
                    parts[kind] = model["id"], data["id"], told
        self.component, self._data, told = parts["Sliders"]
        _component, self._merit, ranked = parts["RankedRows"]
        self._take_sliders(told["rows"])
        self._take_ranking(ranked["rows"])
        self.wire.changed = self._changed

    def _changed(self, model: str, attribute: str, value: Any) -> None:
        if model == self._merit and attribute == "rows":
            self._take_ranking(value)
        elif model == self._data and attribute == "rows":
            self._take_sliders(value)
        elif model == self._data and attribute == "answer" and not self._answer.done():
            self._answer.set_result(value)

    def _take_sliders(self, rows: Any) -> None:
        told = plain(rows)
        self.sliders = {row["id"]: row["value"] for row in told if row["kind"] != "trade"}
        self.touched = next((row["id"] for row in told if row["touched"]), "")

    def _take_ranking(self, rows: Any) -> None:
        self.ranking = [row["label"] for row in plain(rows) if not row["out"]]

    async def _drawn(self) -> None:
        """Say of every plot what a browser says once it is drawn: its size, its dress."""
        sizes = {"inner_width": 455, "inner_height": 529, "outer_width": 523, "outer_height": 529}
        told = []
        for model in models(self.document):
            if model["name"] == "Figure":
                told += [(model, sizes), (model, {"border_fill_color": "#fff"})]
            elif model["name"].endswith("Axis"):
                told += [(model, {"axis_line_color": "rgba(0, 0, 0, 0.22)"})]
        # A browser sends one after another without waiting for what is said to it.
        await asyncio.gather(*(self._tell(model, values) for model, values in told))

    async def _tell(self, model: dict, values: dict[str, Any]) -> None:
        kind, where = "ModelChanged", {"id": model["id"]}
        await self.wire.patch(
            *({"kind": kind, "model": where, "attr": name, "new": v} for name, v in values.items())
        )

    def _bundles(self) -> str:
        given = [model.get("attributes", {}) for model in models(self.document)]
        found = {one["bundle"] for one in given if one.get("bundle")}
        return " ".join(f'src="{bundle}"' for bundle in sorted(found))

    async def _linked(self, text: str, seen: set[str]) -> list[str]:
        """Fetch the scripts and styles that a text links to, as a browser does."""
        links = sorted({a or b for a, b in LINKED.findall(text)} - seen)
        links = [one for one in links if not one.startswith("data:")]
        await asyncio.gather(*(self._fetched(link) for link in links))
        return links

    async def _fetched(self, path: str) -> HTTPResponse:
        url = urljoin(f"http://localhost:{self.port}/", path)
        return await self.http.fetch(url, request_timeout=PATIENCE, connect_timeout=PATIENCE)


def _event(data: dict) -> dict:
    return {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": data}
