"""The recommendation at one place in plain words."""

from collections import Counter
from collections.abc import Mapping, Sequence

from model.decision.tipping import Tipping
from model.language import _, listed
from model.results import Here

NAMED = 3  # tied options named beside the first; the others are counted
NOTHING = 0.005  # a share that reads as 0 %


def verdict(here: Here, place: str, options: Sequence[str], tips: Mapping[str, Tipping]) -> str:
    """What leads here, by how much, what would overturn it, what rules out the rest.

    `place` and `options` are what people call them; `tips` tells, by the factor's label, how far
    its weight may go, and who takes over then by their number in the order of merit.
    """
    if not here.allowed.size:
        nothing = _("At {place}: nothing on the short list can stand here.").format(place=place)
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
        spare = len(tied) - 1 - NAMED
        more = [_("{count} more").format(count=spare)] if spare > 0 else []
        said = _("At {place}: {names} are a tie at {score:.0f} of 100; let taste choose.")
        names = listed([*tied[: 1 + NAMED], *more])
        return said.format(place=place, names=names, score=score[0])
    if len(standing) == 1:
        said = _("At {place}: {option}, {score:.0f} of 100, is all that can stand here.")
        return said.format(place=place, option=standing[0], score=score[0])
    said = _("At {place}: {option} leads with {score:.0f} of 100, {lead:.0f} ahead of {second}.")
    return said.format(
        place=place,
        option=standing[0],
        score=score[0],
        lead=score[0] - score[1],
        second=standing[1],
    )


def _overturns(here: Here, standing: Sequence[str], tips: Mapping[str, Tipping]) -> str:
    """The change of one factor's weight nearest to today's that gives another option the lead."""
    if len(standing) < 2:
        return ""
    changes = [change for label, tip in tips.items() for change in _changes(label, tip)]
    if not changes:
        return _("No single weight can overturn that.")
    news = [change for change in changes if not here.tied[here.allowed[change[-1]]]]
    if not news:
        return ""
    label, now, share, taker = min(news)[1:]
    said = _(
        "With {factor} below {share:.0f} % of the weight (now {now:.0f} %), {option} would lead."
    )
    if share > now:
        said = _(
            "With {factor} above {share:.0f} % of the weight (now {now:.0f} %), {option} would "
            "lead."
        )
    if share < NOTHING:
        said = _("With no weight on {factor}, {option} would lead.")
    return said.format(
        factor=_(label.lower()), share=100 * share, now=100 * now, option=standing[taker]
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
    if total > count:
        said = _("Ruled out: {total} ({count} of them, {reason}).")
        return said.format(total=total, count=count, reason=most)
    return _("Ruled out: {total} ({reason}).").format(total=total, reason=most)
