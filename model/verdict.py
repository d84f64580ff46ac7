"""The recommendation at one place in plain words."""

from collections import Counter
from typing import TYPE_CHECKING

from model.decision.tipping import Tipping

if TYPE_CHECKING:
    from model.results import Here
    from model.study import Study


NAMED = 3  # tied options named beside the first; the others are counted
NOTHING = 0.005  # a share that reads as 0 %


def verdict(study: "Study") -> str:
    """What leads here, by how much, what would overturn it, what rules out the rest."""
    here = study.here()
    name = study.ground.places.name(study.place)
    if not study.ground.places.inside[study.place]:
        return f"At {name}: outside the boundary, so nothing is judged here."
    if not here.allowed.size:
        return f"At {name}: nothing on the short list can stand here. {_ruled_out(here)}".strip()
    parts = [_leads(study, here, name), _overturns(study, here), _ruled_out(here)]
    return " ".join(part for part in parts if part)


def _leads(study: "Study", here: "Here", name: str) -> str:
    """Who leads and by how much, ties said as ties."""
    first = here.allowed[0]
    label, score = study.options[first].label, 100 * here.score[first]
    tied = [study.options[o].label for o in here.allowed[1:] if here.tied[o]]
    if tied:
        more = [f"{len(tied) - NAMED} more"] if len(tied) > NAMED else []
        names = _and([label, *tied[:NAMED], *more])
        return f"At {name}: {names} are a tie at {score:.0f} of 100; let taste choose."
    if here.allowed.size == 1:
        return f"At {name}: {label}, {score:.0f} of 100, is the only one that can stand here."
    second = here.allowed[1]
    lead = score - 100 * here.score[second]
    behind = study.options[second].label
    return f"At {name}: {label} leads with {score:.0f} of 100, {lead:.0f} ahead of {behind}."


def _overturns(study: "Study", here: "Here") -> str:
    """The change of one factor's weight nearest to today's that gives another option the lead."""
    if here.allowed.size < 2:
        return ""
    changes = [c for f in study.factors for c in _changes(f.label, study.tipping(f.name))]
    if not changes:
        return "No single weight can overturn that."
    news = [change for change in changes if not here.tied[here.allowed[change[-1]]]]
    if not news:
        return ""
    _, label, now, share, taker = min(news)
    takes = study.options[here.allowed[taker]].label
    if share < NOTHING:
        return f"With no weight on {label.lower()}, {takes} would lead."
    direction = "above" if share > now else "below"
    return (
        f"With {label.lower()} {direction} {100 * share:.0f} % of the weight "
        f"(now {100 * now:.0f} %), {takes} would lead."
    )


def _changes(label: str, tip: Tipping) -> list[tuple[float, str, float, float, int]]:
    """Tipping points of one factor: how far off, its label, today's share, the share, who leads."""
    ends = ((tip.low, tip.below), (tip.high, tip.above))
    return [(abs(end - tip.now), label, tip.now, end, taker) for end, taker in ends if taker >= 0]


def _ruled_out(here: "Here") -> str:
    """How many options are ruled out, by the reason that stops most of them."""
    reasons = Counter(here.reason[option] for option in here.order if here.rank[option] == 0)
    del reasons[""]
    if not reasons:
        return ""
    most, count = reasons.most_common(1)[0]
    total = sum(reasons.values())
    others = f"; {total - count} more for other reasons" if total > count else ""
    return f"Ruled out: {count} ({most}{others})."


def _and(names: list[str]) -> str:
    """Names in a sentence.

    >>> _and(["a", "b", "c"])
    'a, b and c'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
