"""One run: all arrive, all work, all leave; what was measured meanwhile."""

import asyncio
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from tornado.httpclient import AsyncHTTPClient, HTTPError

from .phone import Phone
from .servers import Server
from .visitor import Visitor

WINDOW = 10.0  # s within which all arrive
OPEN = 30.0  # s for which the app has stood open, as a teacher opens it before the class comes
LINGER = 120.0  # s to wait for the server to let go of sessions


@dataclass
class Asked:
    """How many people, for how long [s]."""

    full: int = 10
    phones: int = 30
    seconds: float = 300.0
    window: float = WINDOW
    again: int = 0  # how often as many visitors come and go afterwards
    linger: float = LINGER
    stood: float = OPEN


@dataclass
class Run:
    """What came of it: people, and the servers' reports by name."""

    visitors: list[Visitor]
    phones: list[Phone]
    reports: dict[str, list[dict]] = field(default_factory=dict)
    last_on: float = 0.0  # s from the first click until the last was on
    worked: float = 0.0  # s

    def memory(self, when: str) -> float:
        """Memory of all servers [MB]."""
        return sum(one["memory"] for one in self.reports[when]) / 1e6

    def sessions(self, when: str) -> int:
        """Sessions of the app that the servers still hold."""
        return sum(one["sessions"] or 0 for one in self.reports[when])


def people(asked: Asked, ports: list[int], code: str) -> Run:
    """All who come: the app's visitors each to one server, the phones to any."""
    http = AsyncHTTPClient(force_instance=True, max_clients=400)
    visitors = [Visitor(n, ports[n % len(ports)], http) for n in range(asked.full)]
    return Run(visitors, [Phone(n, ports, code, http) for n in range(asked.phones)])


async def arrived(asked: Asked, run: Run) -> None:
    """Let all come, spread over the window in a fixed mixture."""
    everyone = [*run.visitors, *run.phones]
    gap = asked.window / max(len(everyone), 1)
    # Visitors are spread among the phones, not let in first or last.
    order = sorted(everyone, key=lambda one: (_turn(one, run), isinstance(one, Phone)))
    start = time.perf_counter()

    async def come(turn: int, one: Visitor | Phone) -> None:
        await asyncio.sleep(turn * gap)
        try:
            await one.arrive()
        except (OSError, TimeoutError, HTTPError) as error:
            one.faults.append(f"{type(one).__name__} {one.number} could not come: {error!r}")

    await asyncio.gather(*(come(turn, one) for turn, one in enumerate(order)))
    run.last_on = time.perf_counter() - start


async def worked(asked: Asked, run: Run) -> None:
    """Let all work for the time asked."""
    start = time.perf_counter()
    end = start + asked.seconds
    await asyncio.gather(*(one.work(end) for one in (*run.visitors, *run.phones)))
    run.worked = time.perf_counter() - start


def workshop(
    asked: Asked, servers: list[Server], code: str, say: Callable[[str], None] = print
) -> Run:
    """The whole of it."""
    return asyncio.run(_workshop(asked, servers, code, say))


async def _workshop(
    asked: Asked, servers: list[Server], code: str, say: Callable[[str], None]
) -> Run:
    ports = [one.port for one in servers]
    run = people(asked, ports, code)

    def note(when: str, question: str = "gather") -> int:
        run.reports[when] = [one.report(question) for one in servers]
        return run.sessions(when)

    await asyncio.sleep(asked.stood)
    note("before")
    say(f"{asked.full} visitors and {asked.phones} phones arrive within {asked.window:.0f} s")
    await arrived(asked, run)
    note("on", "report")
    say(f"all are on after {run.last_on:.1f} s; they work for {asked.seconds:.0f} s")
    await worked(asked, run)
    note("worked", "report")
    note("gathered")
    say("all leave")
    await _left(run.visitors, note, "left", asked.linger)
    for turn in range(asked.again):
        say(f"as many come and go once more ({turn + 1} of {asked.again})")
        more = people(Asked(asked.full, 0, window=asked.window), ports, code)
        await arrived(Asked(asked.full, 0, window=asked.window), more)
        await asyncio.gather(*(one.drag() for one in more.visitors if one.on))
        await _left(more.visitors, note, f"again {turn + 1}", asked.linger)
    return run


async def _left(
    people: list[Visitor], note: Callable[[str], int], when: str, linger: float
) -> None:
    """Close all tabs, and wait until the servers have let go of the sessions."""
    for one in people:
        one.close()
    end = time.perf_counter() + linger
    while note(when) and time.perf_counter() < end:
        await asyncio.sleep(5)


def _turn(one: Visitor | Phone, run: Run) -> float:
    """Where among the others someone comes [0 to 1]."""
    return (one.number + 0.5) / len(run.visitors if isinstance(one, Visitor) else run.phones)
