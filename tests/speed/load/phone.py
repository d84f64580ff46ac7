"""A participant at a phone: joins with the code, moves, looks at the result, sends, changes."""

import asyncio
import random
import re
import time
from dataclasses import dataclass, field
from urllib.parse import quote, urlencode

from tornado.httpclient import AsyncHTTPClient, HTTPResponse

from tests.dashboard.phones import Form

from .wire import PATIENCE

LOOKS = (2.5, 4.0)  # s between two looks at the vote's state, as the page's script does
THINKS = (2.0, 8.0)  # s between two moves
SENDS = (15.0, 40.0)  # s between two ballots
COOKIE = re.compile(r"([^=]+)=([^;]*)")
KEEPS = ("/join/static/join.css", "/join/static/join.js")


@dataclass
class Sent:
    """A ballot: its fields, and whether the server said that it has it."""

    fields: dict[str, str]
    acknowledged: bool
    seconds: float


@dataclass
class Phone:
    """One participant; every request goes to any of the servers."""

    number: int
    ports: list[int]
    code: str
    http: AsyncHTTPClient
    cookies: dict[str, str] = field(default_factory=dict)
    sent: list[Sent] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    arrival: float = 0.0
    on: float = 0.0
    faults: list[str] = field(default_factory=list)

    @property
    def group(self) -> str:
        """The name on its ballots."""
        return f"Table {self.number}"

    async def arrive(self) -> None:
        """Open the page by the code, give a name, and stand before the ballot."""
        self.chance = random.Random(1000 + self.number)  # noqa: S311 -- a hand, not a secret
        start = time.perf_counter()
        await self.asked("GET", f"/join?code={self.code}")
        await asyncio.gather(*(self.asked("GET", path) for path in KEEPS))
        joined = await self.asked("POST", "/join", {"code": self.code, "group": self.group})
        page = await self.asked("GET", joined.headers.get("Location", "/join/vote"))
        self.fields = Form(page.body.decode()).values
        self.on = time.perf_counter()
        self.arrival = self.on - start

    async def work(self, end: float) -> None:
        """Move, look and send until the clock says `end`; then send once more."""
        await asyncio.gather(self._follows(end), self._weighs(end))
        await self.send()

    async def _follows(self, end: float) -> None:
        while time.perf_counter() < end:
            await asyncio.sleep(self.chance.uniform(*LOOKS))
            await self.asked("GET", f"/join/state?code={self.code}")

    async def _weighs(self, end: float) -> None:
        due = time.perf_counter() + self.chance.uniform(*THINKS)
        while time.perf_counter() < end:
            await asyncio.sleep(self.chance.uniform(*THINKS))
            self.move()
            await self.asked("POST", "/join/result", self.fields, script=True)
            if time.perf_counter() > due:
                await self.send()
                due = time.perf_counter() + self.chance.uniform(*SENDS)

    def move(self) -> None:
        """Move a family's slider."""
        families = sorted(name for name in self.fields if name.startswith("family-"))
        self.fields[self.chance.choice(families)] = str(self.chance.randint(5, 100))

    async def send(self) -> None:
        """Send the ballot as it is."""
        start = time.perf_counter()
        answer = await self.asked("POST", "/join/vote", self.fields, script=True)
        self.sent.append(Sent(dict(self.fields), answer.code == 200, time.perf_counter() - start))

    async def asked(
        self, method: str, path: str, fields: dict[str, str] | None = None, script: bool = False
    ) -> HTTPResponse:
        """The answer to one request; cookies are kept, what is refused is noted."""
        port = self.chance.choice(self.ports)
        headers = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())}
        if fields is not None:
            headers["Origin"] = f"http://localhost:{port}"
        if script:
            headers["X-Requested-With"] = "script"
        start = time.perf_counter()
        answer = await self.http.fetch(
            f"http://localhost:{port}{quote(path, safe='/?=&%')}",
            method=method,
            headers=headers,
            body=None if fields is None else urlencode(fields),
            follow_redirects=False,
            raise_error=False,
            connect_timeout=PATIENCE,
            request_timeout=PATIENCE,
        )
        self.seconds.append(time.perf_counter() - start)
        for cookie in answer.headers.get_list("Set-Cookie"):
            name, value = COOKIE.match(cookie).groups()
            self.cookies[name] = value
        if answer.code >= 400:
            self.faults.append(f"{method} {path}: {answer.code} {answer.body[:200]!r}")
        return answer
