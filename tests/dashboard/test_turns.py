"""A newcomer's page waits for those who are there, but not for ever."""

import asyncio
import time

from dashboard.visits.turns import BREATH, LONGEST, Turns


async def busy(until: float) -> None:
    """A loop with no breath to spare."""
    while time.monotonic() < until:
        time.sleep(2 * BREATH)  # it is the loop that shall be held up
        await asyncio.sleep(0)


def waited(seconds_busy: float) -> float:
    """How long a turn takes on a loop that is busy for some time [s]."""

    async def run() -> float:
        turns, start = Turns(), time.monotonic()
        work = asyncio.create_task(busy(start + seconds_busy))
        await turns.mine()
        took = time.monotonic() - start
        work.cancel()
        return took

    return asyncio.run(run())


def test_a_page_waits_while_the_loop_is_busy_with_others():
    assert waited(1.0) >= 1.0


def test_a_page_does_not_wait_for_ever():
    assert waited(3 * LONGEST) < 2 * LONGEST


def test_who_came_first_is_let_in_first():
    async def run() -> list[int]:
        turns, let_in = Turns(), []

        async def come(number: int) -> None:
            await turns.mine()
            let_in.append(number)

        await asyncio.gather(*(come(number) for number in range(4)))
        return let_in

    assert asyncio.run(run()) == [0, 1, 2, 3]
