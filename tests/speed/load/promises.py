"""What was measured as a table, and which promises it breaks."""

from collections.abc import Sequence

import numpy as np

from .workshop import Asked, Run

ON = 10.0  # s from opening the page until it is there, for everyone
ANSWER = 0.4  # s, 95th percentile of slider answers
STALL = 0.25  # s for which the loop answers nobody: reported


def broken(run: Run, faults: Sequence[str]) -> list[str]:
    """The promises that were not held, each in a sentence."""
    said = list(faults)
    late = [one for one in (*run.visitors, *run.phones) if not 0 < one.arrival <= ON]
    if late:
        said.append(
            f"{len(late)} of {len(run.visitors) + len(run.phones)} were not on within {ON:.0f} s"
        )
    taken = answers(run)
    if taken and _at(taken, 95) > ANSWER:
        said.append(
            f"slider answers took {1000 * _at(taken, 95):.0f} ms at the 95th percentile, "
            f"expected {1000 * ANSWER:.0f} at most"
        )
    refused = sum(not ballot.acknowledged for one in run.phones for ballot in one.sent)
    if refused:
        said.append(f"{refused} ballots were not acknowledged")
    if run.sessions("left"):
        said.append(f"{run.sessions('left')} sessions are still held after everyone left")
    return said + [fault for one in (*run.visitors, *run.phones) for fault in one.faults[:3]]


def answers(run: Run) -> list[float]:
    """Times of all slider answers [s]."""
    return [move.seconds for one in run.visitors for move in one.moves]


def table(asked: Asked, run: Run) -> str:
    """What was measured, a line each."""
    reports = run.reports
    lines = [
        ("on, full sessions", _times([one.arrival for one in run.visitors], "s")),
        ("on, phones", _times([one.arrival for one in run.phones], "s")),
        ("last on since the first click", f"{run.last_on:.1f} s"),
        ("slider answers", _times([1000 * one for one in answers(run)], "ms")),
        (
            "  of them",
            f"{len(answers(run))}, {len(answers(run)) / max(run.worked, 1):.1f} a second",
        ),
        ("phones' answers", _times([1000 * t for one in run.phones for t in one.seconds], "ms")),
        ("ballots", _ballots(run)),
        *_memory(asked, run),
        ("the loop late, on arrival", _late(reports["on"])),
        ("the loop late, at work", _late(reports["worked"])),
        ("processor while arriving", _processor(reports["before"], reports["on"])),
        ("processor at work", _processor(reports["on"], reports["worked"])),
    ]
    width = max(len(name) for name, _said in lines)
    return "\n".join(f"{name.ljust(width)}  {said}" for name, said in lines)


def _memory(asked: Asked, run: Run) -> list[tuple[str, str]]:
    before, work, left = (run.memory(when) for when in ("before", "gathered", "left"))
    each = (work - before) / max(asked.full, 1)
    lines = [
        ("memory before", f"{before:.0f} MB"),
        ("memory at work", f"{work:.0f} MB, {each:.1f} MB for each full session"),
        ("memory after all left", f"{left:.0f} MB, {run.sessions('left')} sessions held"),
    ]
    again = [when for when in run.reports if when.startswith("again")]
    return lines + [(f"memory, {when}", f"{run.memory(when):.0f} MB") for when in again]


def _ballots(run: Run) -> str:
    sent = [ballot for one in run.phones for ballot in one.sent]
    return f"{len(sent)} sent, {sum(one.acknowledged for one in sent)} acknowledged"


def _at(values: Sequence[float], share: float) -> float:
    return float(np.percentile(values, share))


def _times(values: Sequence[float], unit: str) -> str:
    if not values:
        return "none"
    digits = 2 if unit == "s" else 0
    middle, late, last = (f"{_at(values, share):.{digits}f}" for share in (50, 95, 100))
    return f"median {middle}, 95th percentile {late}, longest {last} {unit}"


def _late(reports: list[dict]) -> str:
    late = [one for report in reports for one in report["late"]]
    stalls = [one for one in late if one > STALL]
    said = f"{len(stalls)} stalls over {1000 * STALL:.0f} ms, {sum(stalls):.1f} s in all"
    return f"{_times([1000 * one for one in late], 'ms')}; {said}"


def _processor(before: list[dict], after: list[dict]) -> str:
    return (
        " + ".join(f"{b['seconds'] - a['seconds']:.1f}" for a, b in zip(before, after, strict=True))
        + " s"
    )
