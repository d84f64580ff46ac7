"""An agreement in plain words."""

from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from model.group.agreement import Agreement, Voice

# Mean rank correlation of the groups, which unlike W does not rise with fewer groups (common
# practice, no source).
CLOSELY, SOMEWHAT = 0.7, 0.3
NAMED = 3  # of several, so many are named and the others counted


def sentences(found: "Agreement") -> tuple[str, ...]:
    """What the groups agree on, first the choice, then where they part and whether it matters."""
    if not found.allowed.size:
        nothing = f"At {found.place_name}: nothing that the groups want considered can stand here."
        return (nothing, *found.notes)
    several = len(found.voices) > 1
    said = (
        _common_choice(found),
        *((_own_choices(found), _order(found), _matters(found)) if several else ()),
        *((_least_minded(found), _parts(found), _turns(found)) if several else ()),
        _pegs(found),
        *_without_choice(found),
        *found.notes,
    )
    return tuple(sentence for sentence in said if sentence)


def points(found: "Agreement") -> tuple[str, ...]:
    """What a table of the choices does not show: order, whether it matters, what it rests on."""
    if not found.allowed.size or len(found.voices) < 2:
        return sentences(found)
    choices = (_order(found), _matters(found), _least_minded(found))
    said = (*choices, _parts(found), _turns(found))
    return tuple(sentence for sentence in said if sentence)


def closeness(correlation: float) -> str:
    """Agreement on an order in a word, from the mean rank correlation of those who ordered.

    >>> closeness(0.75), closeness(0.3), closeness(-0.2)
    ('closely', 'somewhat', 'hardly')
    """
    if correlation >= CLOSELY:
        return "closely"
    return "somewhat" if correlation >= SOMEWHAT else "hardly"


def listed(names: Iterable[str]) -> str:
    """Names in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    *head, last = names
    return f"{', '.join(head)} and {last}" if head else last


def shortened(names: Iterable[str]) -> str:
    """Names in a sentence, the last of many only counted.

    >>> shortened("abcd"), shortened("abcdef")
    ('a, b, c and d', 'a, b, c and 3 more')
    """
    several = list(names)
    spare = len(several) - NAMED
    return listed(several if spare < 2 else [*several[:NAMED], f"{spare} more"])


def choice(found: "Agreement", voice: "Voice") -> str:
    """What a ballot chooses, ties together; 'nothing' where it has no choice."""
    return shortened(found.options[one] for one in voice.winners) if voice.winners else "nothing"


def groups(count: int) -> str:
    """So many groups.

    >>> groups(1), groups(3)
    ('1 group', '3 groups')
    """
    return f"{count} group{'' if count == 1 else 's'}"


def _common_choice(found: "Agreement") -> str:
    common = found.consensus
    score = 100 * common.scores[common.winners[0]]
    leads = f"{choice(found, common)} leads with {score:.0f} of 100"
    if len(common.winners) > 1:
        leads = f"{choice(found, common)} are a tie at {score:.0f} of 100"
    if len(found.voices) == 1:
        return f"At {found.place_name}, by the one ballot so far: {leads}."
    return (
        f"At {found.place_name}, by the weights that {groups(len(found.voices))} have in common "
        f"(their geometric mean; trade-off {common.trade_off:.1f}, the median): {leads}."
    )


def _own_choices(found: "Agreement") -> str:
    order = [one for one in np.argsort(-found.chosen, kind="stable") if found.chosen[one]]
    chosen = [f"{_choose(found.chosen[one])} {found.options[one]}" for one in order]
    spare = len(order) - NAMED
    if spare > 1:
        most = _choose(found.chosen[order[NAMED]])
        chosen = [*chosen[:NAMED], f"at most {most} each of {spare} others"]
    tied = any(len(voice.winners) > 1 for voice in found.voices)
    ties = " (a tie counts for each of its options)" if tied else ""
    return f"By their own weights {listed(chosen)}{ties}."


def _choose(count: int) -> str:
    return f"{groups(count)} {'chooses' if count == 1 else 'choose'}"


def _order(found: "Agreement") -> str:
    count = found.allowed.size
    if count < 2:
        return f"Only {found.options[found.allowed[0]]} can stand here, so there is no order."
    measured = found.concordance
    if np.isnan(measured.w):
        return f"To every group the {count} options are level."
    return (
        f"The groups agree {closeness(measured.correlation)} on the order of the {count} options "
        f"(Kendall's W {measured.w:.2f}, from 0 to 1)."
    )


def _matters(found: "Agreement") -> str:
    if found.matters:
        return "No option is every group's choice: here the disagreement decides what is planted."
    names = " or ".join(found.options[one] for one in found.settled)
    return f"The disagreement does not matter here: {names} suits every group, alone or in a tie."


def _parts(found: "Agreement") -> str:
    factor = found.rests_on
    if factor is None:
        return "All groups give the same weights."
    shares = 100 * found.shares[:, factor]
    low, high = int(np.nanargmin(shares)), int(np.nanargmax(shares))
    return (
        f"They part furthest over {found.factors[factor].lower()}, which carries "
        f"{100 * found.disagreement[factor]:.0f} % of the disagreement: its weight runs from "
        f"{shares[low]:.0f} % ({found.voices[low].group}) to {shares[high]:.0f} % "
        f"({found.voices[high].group})."
    )


def _turns(found: "Agreement") -> str:
    if not found.matters:
        return ""
    factor = found.turns_on
    if factor is None:
        return "No single factor, weighed alike by all, would bring more groups to one choice."
    return (
        f"If all gave {found.factors[factor].lower()} its common weight, "
        f"{found.levelled[factor]} of {found.choosing} groups would choose alike "
        f"(now {found.most_chosen})."
    )


def _least_minded(found: "Agreement") -> str:
    option = found.least_minded
    if option is None:
        return ""
    lost = 100 * found.regret[option]
    most = f"no group loses more than {lost:.0f} of 100 by it" if lost >= 0.5 else "none loses"
    return f"The least pleased group would mind {found.options[option]} least: {most}."


def _pegs(found: "Agreement") -> str:
    pairs = Counter(voice.best for voice in found.voices if voice.best)
    if not pairs:
        return ""
    (place, option), count = min(pairs.items(), key=lambda pair: (-pair[1], pair[0]))
    where = found.peg_names[place]
    return (
        f"Over all pegs, {count} of {groups(len(found.voices))} would plant "
        f"{found.options[option]} at {where} first."
    )


def _without_choice(found: "Agreement") -> list[str]:
    return [
        f"Nothing that {voice.group} wants considered can stand here."
        for voice in found.voices
        if not voice.winners
    ]
