"""Harm files at random and read them: python -m tests.faults --tries 20000."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context

from tests.faults.readers import readers
from tests.faults.rounds import Round, round_of

Job = tuple[str, int, int, int]
HEADINGS = ("reader", "tries", "refused", "read", "worst s")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the tries; 1 when an error was undocumented, a place unnamed or a file changed."""
    parser = argparse.ArgumentParser("tests.faults", description=__doc__)
    parser.add_argument("--tries", type=int, default=20_000, help="of all readers together (20000)")
    parser.add_argument("--seed", type=int, default=1, help="(1)")
    parser.add_argument("--first", type=int, default=0, help="number of the first try (0)")
    parser.add_argument("--reader", action="append", default=[], help="only those with this name")
    parser.add_argument("--processes", type=int, default=1, help="(1)")
    given = parser.parse_args(arguments)
    chosen = [one for one in readers() if not given.reader or one.name in given.reader]
    if not chosen:
        print("expected one of: " + ", ".join(one.name for one in readers()))
        return 2
    whole = sum(one.share for one in chosen)
    counts = [round(0.5 + given.tries * one.share / whole) for one in chosen]
    jobs = [
        (one.name, given.seed, given.first, count)
        for one, count in zip(chosen, counts, strict=True)
    ]
    rounds = []
    print("{:<28}{:>8}{:>9}{:>8}{:>9}".format(*HEADINGS))
    for made in _rounds(jobs, given.processes):
        rounds.append(made)
        print(_line(made), flush=True)
        for failure in made.failures:
            print(f"  {failure}", flush=True)
    print(_line(_sum(rounds)))
    return 1 if any(made.failures for made in rounds) else 0


def _rounds(jobs: list[Job], processes: int) -> Iterator[Round]:
    """The rounds in the order of the jobs, so many at a time."""
    with ThreadPoolExecutor(processes) as pool:
        yield from pool.map(_alone, jobs)


def _alone(job: Job) -> Round:
    """A round in a process of its own, so that one that dies of a file is told as a failure."""
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        try:
            return pool.submit(round_of, *job).result()
        except BrokenProcessPool:
            return Round(job[0], 0, 0, 0.0, (f"the process died; seed {job[1]}",))


def _line(made: Round) -> str:
    read = made.tries - made.refused
    return f"{made.name:<28}{made.tries:>8}{made.refused:>9}{read:>8}{made.worst:>9.2f}"


def _sum(rounds: list[Round]) -> Round:
    tries, refused = sum(one.tries for one in rounds), sum(one.refused for one in rounds)
    return Round("all", tries, refused, max((one.worst for one in rounds), default=0.0), ())


if __name__ == "__main__":
    sys.exit(main())
