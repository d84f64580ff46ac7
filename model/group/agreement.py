"""What several groups agree on: common weights, each group's own choice, where they part.

Each ballot is judged by its own weights and trade-off over the same land, so that a disagreement
about weights can be told from a disagreement about trees.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from model.decision import group, merit, power_mean, weights
from model.decision.group import Concordance
from model.group.ballot import Ballot
from model.language import _
from model.results import TIE
from model.study import Study


@dataclass(frozen=True)
class Voice:
    """What one ballot says at the place judged; the consensus speaks as one too.

    `shares` (factor,) together 1, NaN where left out; `scores` (option,) [0 to 1], NaN where ruled
    out; `wanted` (option,) those it would have there; `winners` its best of these, ties together,
    in the order of the short list; `best` its best (place, option) over the pegs; `distance` how
    far its weights are from the common ones (Aitchison).
    """

    group: str
    shares: np.ndarray
    trade_off: float
    scores: np.ndarray
    wanted: np.ndarray
    winners: tuple[int, ...]
    best: tuple[int, int] | None
    distance: float


@dataclass(frozen=True)
class Agreement:
    """What the groups agree on at a place; arrays are (factor,) or (option,).

    `consensus` weighs by the geometric mean of the weights and the median of the trade-offs;
    `chosen` counts the groups whose own winners hold an option; `regret` is the most that a group
    loses by it in its own score, NaN where it may not stand or a group does not want it (unless
    no option is wanted by all); `disagreement` is the share of all disagreement that rests on each
    factor; `levelled` the most groups that would choose alike if all gave that factor its common
    weight; `peg_names` what the pegs are called, by place; `notes` what was left aside.
    """

    place: int
    place_name: str
    factors: tuple[str, ...]
    options: tuple[str, ...]
    voices: tuple[Voice, ...]
    consensus: Voice
    concordance: Concordance
    chosen: np.ndarray
    regret: np.ndarray
    disagreement: np.ndarray
    levelled: np.ndarray
    peg_names: Mapping[int, str]
    notes: tuple[str, ...]

    @cached_property
    def shares(self) -> np.ndarray:
        """Weights of the groups (ballot, factor), NaN where left out."""
        return np.stack([voice.shares for voice in self.voices])

    @property
    def allowed(self) -> np.ndarray:
        """Options that may stand here and that some group wants considered."""
        return np.flatnonzero(self.consensus.wanted)

    @property
    def choosing(self) -> int:
        """How many groups have a choice here: something they want considered may stand."""
        return sum(bool(voice.winners) for voice in self.voices)

    @property
    def settled(self) -> tuple[int, ...]:
        """Options that every group with a choice here chooses, alone or in a tie."""
        chosen_by_all = (self.chosen == self.choosing) & (self.chosen > 0)
        return tuple(np.flatnonzero(chosen_by_all).tolist())

    @property
    def matters(self) -> bool:
        """Whether the disagreement changes what is chosen here at all."""
        return bool(self.allowed.size) and not self.settled

    @property
    def most_chosen(self) -> int:
        """How many groups the option that most of them choose has."""
        return int(self.chosen.max(initial=0))

    @property
    def rests_on(self) -> int | None:
        """The factor over which the groups part furthest, None where they do not part."""
        return int(self.disagreement.argmax()) if self.disagreement.any() else None

    @property
    def turns_on(self) -> int | None:
        """The factor whose common weight, given by all, would bring most groups to one choice.

        Of several the one they part furthest over; None where no factor alone brings any.
        """
        if not self.matters or self.levelled.max() <= self.most_chosen:
            return None
        return int(np.lexsort((self.disagreement, self.levelled))[-1])

    @property
    def least_minded(self) -> int | None:
        """The option by which the group that loses most loses least."""
        return None if np.isnan(self.regret).all() else int(np.nanargmin(self.regret))


def agreement(study: Study, ballots: Iterable[Ballot], place: int | None = None) -> Agreement:
    """What the ballots agree on at a place (the chosen one). Their order changes nothing.

    Raises ValueError, in a sentence, when there is no ballot to judge.
    """
    judged, notes = _judged(study, ballots)
    where = study.place if place is None else place
    shares = np.stack([_shares(study, ballot) for ballot in judged])
    land = _Land(study, where)
    apart = np.sqrt(np.nansum(group.departures(shares) ** 2, axis=1))
    wishes = [_wishes(study, ballot) for ballot in judged]
    voices = tuple(
        land.voice(ballot.group, weighed, ballot.trade_off, wish, float(distance))
        for ballot, weighed, wish, distance in zip(judged, shares, wishes, apart, strict=True)
    )
    common = group.consensus(shares)
    middle = float(np.median([ballot.trade_off for ballot in judged]))
    consensus = land.voice("", common, middle, np.any(wishes, axis=0), 0.0)
    scores = np.stack([voice.scores for voice in voices])
    return Agreement(
        place=where,
        place_name=study.ground.places.name(where),
        factors=tuple(factor.label for factor in study.factors),
        options=tuple(option.label for option in study.options),
        voices=voices,
        consensus=consensus,
        concordance=_concordance(scores[:, consensus.wanted]),
        chosen=_chosen([voice.winners for voice in voices], len(study.options)),
        regret=_regret(voices, consensus.wanted),
        disagreement=group.disagreement(shares),
        levelled=land.levelled(voices, common),
        peg_names={int(peg): study.ground.places.name(int(peg)) for peg in land.pegs},
        notes=notes,
    )


class _Land:
    """The land as ballots judge it: desirabilities and rule-outs at one place and at all pegs."""

    def __init__(self, study: Study, place: int) -> None:
        self.pegs = np.arange(study.ground.places.cells, study.ground.places.x.size)
        looked_at = np.append(self.pegs, place)
        self.worth = study.desirabilities[:, :, looked_at].astype(float)
        self.ruled_out = study.ruling.ruled_out[:, looked_at]

    def voice(
        self, name: str, shares: np.ndarray, trade_off: float, wish: np.ndarray, distance: float
    ) -> Voice:
        """A ballot judged."""
        scores = power_mean.power_mean(self.worth, np.nan_to_num(shares), trade_off)
        scores[self.ruled_out] = np.nan
        pegs, here = scores[:, :-1], scores[:, -1]
        wanted = wish & ~np.isnan(here)
        best = self._best_peg(np.where(wish[:, None], pegs, np.nan))
        return Voice(name, shares, trade_off, here, wanted, _winners(here, wanted), best, distance)

    def levelled(self, voices: tuple[Voice, ...], common: np.ndarray) -> np.ndarray:
        """The most groups that choose one option once all give a factor its common weight.

        For each factor in turn (factor,).
        """
        here, factors = self.worth[:, None, :, -1], range(common.size)
        chosen = np.zeros((here.shape[-1], common.size), dtype=int)
        for voice in voices:
            own = np.nan_to_num(voice.shares)
            level = [weights.moved(own, factor, float(common[factor])) for factor in factors]
            scores = power_mean.power_mean(here, np.transpose(level), voice.trade_off)
            wanted = np.where(voice.wanted, scores, np.nan)
            chosen += merit.order(wanted, TIE, axis=1).T == 1
        return chosen.max(axis=0, initial=0)

    def _best_peg(self, scores: np.ndarray) -> tuple[int, int] | None:
        """The (place, option) of the highest score (option, peg), None where there is none."""
        if not self.pegs.size or np.isnan(scores).all():
            return None
        option, peg = np.unravel_index(np.nanargmax(scores), scores.shape)
        return int(self.pegs[peg]), int(option)


def _judged(study: Study, ballots: Iterable[Ballot]) -> tuple[list[Ballot], tuple[str, ...]]:
    """The ballots that weigh anything judged here, in one order, and notes on the others."""
    known = {factor.name for factor in study.factors}
    labels = {option.label for option in study.options}
    judged, notes = [], []
    for ballot in sorted(ballots, key=_key):
        if any(ballot.weights.get(name, 0) > 0 for name in known):
            judged.append(ballot)
        else:
            aside = _("{group} weighs nothing that is judged on this land: left aside.")
            notes.append(aside.format(group=ballot.group))
        if ballot.options and not labels & set(ballot.options):
            unknown = _("No option that {group} names is on the short list: all are considered.")
            notes.append(unknown.format(group=ballot.group))
    if not judged:
        raise ValueError(_("No ballot to judge yet: send at least one with some weight."))
    return judged, tuple(notes)


def _key(ballot: Ballot) -> tuple[object, ...]:
    """What orders ballots, whatever order they came in."""
    name, shares = ballot.group, tuple(ballot.weights.items())
    return name.casefold(), name, ballot.trade_off, shares, ballot.options, ballot.at


def _shares(study: Study, ballot: Ballot) -> np.ndarray:
    """Share of each factor judged on this land (factor,), NaN where the ballot left it out."""
    given = np.array([ballot.weights.get(factor.name, np.nan) for factor in study.factors])
    return given / np.nansum(given)


def _wishes(study: Study, ballot: Ballot) -> np.ndarray:
    """Options the ballot wants considered (option,) bool; all where it names none we know."""
    wish = np.array([option.label in ballot.options for option in study.options])
    return wish if wish.any() else np.ones_like(wish)


def _winners(scores: np.ndarray, wanted: np.ndarray) -> tuple[int, ...]:
    """Options wanted whose score is within a tie of the best."""
    ranks = merit.order(np.where(wanted, scores, np.nan)[:, None], TIE)[:, 0]
    return tuple(np.flatnonzero(ranks == 1).tolist())


def _concordance(scores: np.ndarray) -> Concordance:
    """How alike the ballots order the options (ballot, option), scores within a tie level."""
    return group.kendall_w(merit.order(scores, TIE, axis=1) if scores.size else scores)


def _regret(voices: tuple[Voice, ...], wanted: np.ndarray) -> np.ndarray:
    """The most a ballot loses by each option against its own best (option,)."""
    common = np.all([voice.wanted for voice in voices], axis=0)
    best = [np.fmax.reduce(voice.scores[voice.wanted], initial=np.nan) for voice in voices]
    lost = group.regrets([voice.scores for voice in voices], best)
    return np.where(common if common.any() else wanted, lost, np.nan)


def _chosen(winners: list[tuple[int, ...]], options: int) -> np.ndarray:
    """How many ballots choose each option (option,)."""
    return np.bincount([one for several in winners for one in several], minlength=options)
