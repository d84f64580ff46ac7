"""The recommendation at one place in plain words."""

from collections import Counter
from collections.abc import Mapping, Sequence

from model.decision.tipping import Tipping
from model.results import Here

NAMED = 3  # tied options named beside the first; the others are counted
NOTHING = 0.005  # a share that reads as 0 %


def verdict(here: Here, place: str, options: Sequence[str], tips: Mapping[str, Tipping]) -> str:
    """What leads here, by how much, what would overturn it, what rules out the rest.

    `place` and `options` are what people call them; `tips` tells, by the factor's label, how far
    its weight may go, and who takes over then by their number in the order of merit.
    """
    if not here.allowed.size:
        nothing = f"At {place}: nothing on the short list can stand here."
        return f"{nothing} {_ruled_out(here)}".strip()
    standing = [options[option] for option in here.allowed]
    parts = [_leads(here, place, standing), _overturns(here, standing, tips), _ruled_out(here)]
    return " ".join(part for part in parts if part)


def _leads(here: Here, place: str, standing: Sequence[str]) -> str:
    """Who leads and by how much, ties said as ties."""
    score = [100 * here.score[option] for option in here.allowed]
    tied = [
        label for label, option in zip(standing, here.allowed, strict=True) if here.tied[option]
    ]
    if tied:
        more = [f"{len(tied) - 1 - NAMED} more"] if len(tied) - 1 > NAMED else []
        names = _and([*tied[: 1 + NAMED], *more])
        return f"At {place}: {names} are a tie at {score[0]:.0f} of 100; let taste choose."
    if len(standing) == 1:
        return f"At {place}: {standing[0]}, {score[0]:.0f} of 100, is all that can stand here."
    lead = score[0] - score[1]
    return (
        f"At {place}: {standing[0]} leads with {score[0]:.0f} of 100, "
        f"{lead:.0f} ahead of {standing[1]}."
    )


def _overturns(here: Here, standing: Sequence[str], tips: Mapping[str, Tipping]) -> str:
    """The change of one factor's weight nearest to today's that gives another option the lead."""
    if len(standing) < 2:
        return ""
    changes = [change for label, tip in tips.items() for change in _changes(label, tip)]
    if not changes:
        return "No single weight can overturn that."
    news = [change for change in changes if not here.tied[here.allowed[change[-1]]]]
    if not news:
        return ""
    _, label, now, share, taker = min(news)
    if share < NOTHING:
        return f"With no weight on {label.lower()}, {standing[taker]} would lead."
    direction = "above" if share > now else "below"
    return (
        f"With {label.lower()} {direction} {100 * share:.0f} % of the weight "
        f"(now {100 * now:.0f} %), {standing[taker]} would lead."
    )


def _changes(label: str, tip: Tipping) -> list[tuple[float, str, float, float, int]]:
    """Tipping points of one factor: how far off, its label, today's share, the share, who leads."""
    ends = ((tip.low, tip.below), (tip.high, tip.above))
    return [(abs(end - tip.now), label, tip.now, end, taker) for end, taker in ends if taker >= 0]


def _ruled_out(here: Here) -> str:
    """How many options are ruled out, by the reason that stops most of them."""
    reasons = Counter(here.reason[option] for option in here.order if here.rank[option] == 0)
    del reasons[""]
    if not reasons:
        return ""
    most, count = reasons.most_common(1)[0]
    total = sum(reasons.values())
    share = f"{count} of them, " if total > count else ""
    return f"Ruled out: {total} ({share}{most})."


def _and(names: list[str]) -> str:
    """Names in a sentence.

    >>> _and(["a", "b", "c"])
    'a, b and c'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
