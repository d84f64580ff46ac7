"""A vote on a server of its own, and phones that speak to it as browsers do."""

import asyncio
import http.client
import json
import re
import threading
from contextlib import contextmanager
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urlencode

from dashboard.join.door import opened_door
from dashboard.join.reach import Reach
from dashboard.join.subject import Subject
from dashboard.join.voting import Voting
from dashboard.votes.ballots import Ballots
from tests.model.demo import DEMO
from tests.ports import free_port


@dataclass(eq=False)
class Kept:
    """A folder kept open whose study is the tests' own."""

    known: object
    folder: object = DEMO
    asked: int = 0

    def study(self, _folder=None):
        """The study, counting how often it was asked for."""
        self.asked += 1
        return self.known


def voting(study, url: str) -> Voting:
    """The votes of a server of its own."""
    return Voting(Kept(study), Ballots(url))


def begun(votes: Voting, study):
    """The key of a vote on the study's chosen place."""
    return votes.store.new_session(Subject.chosen(study, DEMO).text)


@contextmanager
def door(votes: Voting):
    """The port of a door for phones, in a loop of its own."""
    votes.reach = Reach(free_port())
    loop, ready, ports = asyncio.new_event_loop(), threading.Event(), []

    async def listen() -> None:
        ports.append(opened_door(votes))
        ready.set()

    def run() -> None:
        asyncio.set_event_loop(loop)
        loop.create_task(listen())
        loop.run_forever()

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    assert ready.wait(20)
    yield ports[0]
    loop.call_soon_threadsafe(loop.stop)
    thread.join(20)


@dataclass
class Answer:
    """What the server answered."""

    status: int
    headers: list
    text: str

    @property
    def said(self) -> str:
        """The sentence for the script."""
        told = json.loads(self.text)
        return told.get("said") or told.get("fault")

    @property
    def cookies(self) -> list[str]:
        """Cookies as they were set."""
        return [value for name, value in self.headers if name.lower() == "set-cookie"]


@dataclass
class Phone:
    """A browser's cookies and requests; `origin` is the page that it says it sends from."""

    port: int
    cookies: dict = field(default_factory=dict)

    def ask(self, method: str, path: str, body: bytes = b"", **headers) -> Answer:
        """Ask as a browser does, and keep what cookies it gives."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        if self.cookies:
            headers["Cookie"] = "; ".join(f"{name}={one}" for name, one in self.cookies.items())
        connection.request(method, path, body or None, headers)
        answer = connection.getresponse()
        given = Answer(answer.status, answer.getheaders(), answer.read().decode())
        connection.close()
        for cookie in given.cookies:
            name, value = re.match(r"([^=]+)=([^;]*)", cookie).groups()
            self.cookies[name] = value
        return given

    def get(self, path: str, **fields) -> Answer:
        """Open a page."""
        return self.ask("GET", f"{path}?{urlencode(fields)}")

    def post(self, path: str, fields: dict, origin: str | None = "own", script=False) -> Answer:
        """Send a form."""
        headers = {"Content-Type": "application/x-www-form-urlencoded"}
        if origin is not None:
            headers["Origin"] = f"http://127.0.0.1:{self.port}" if origin == "own" else origin
        if script:
            headers["X-Requested-With"] = "script"
        return self.ask("POST", path, urlencode(fields, doseq=True).encode(), **headers)

    def join(self, code: str, group: str) -> Answer:
        """Give code and name."""
        return self.post("/join", {"code": code, "group": group})

    def send(self, code: str, group: str, voted: int = 1, **fields) -> Answer:
        """Send a ballot, as the script does."""
        told = {"code": code, "group": group, "round": voted, **fields}
        return self.post("/join/vote", told, script=True)


class Form(HTMLParser):
    """What a form holds as the page comes: the values of its fields."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.values: dict[str, str] = {}
        self.disabled = False
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        """Note a field."""
        told = dict(attrs)
        self.disabled |= tag == "fieldset" and "disabled" in told
        if tag == "input" and (told.get("type") not in ("radio", "checkbox") or "checked" in told):
            self.values[told["name"]] = told.get("value", "")
