"""A second vote beside the first: whose choice moved, and which weights."""

from dataclasses import dataclass

import numpy as np

from model.group.agreement import Agreement, Voice
from model.group.agreement_words import choice, groups, shortened
from model.language import _, listed

MOVED = 0.005  # a share that moved by less reads the same


@dataclass(frozen=True)
class Movement:
    """What moved between two rounds over the same land and short list.

    `common` is the common weights' change (factor,); `moved` the mean change either way of the
    groups that voted in both (factor,), NaN where none weighed it twice; `distance` the mean
    distance from the common weights, before and after; `changed` the groups whose choice is
    another, with what they chose before and after.
    """

    first: Agreement
    second: Agreement
    common: np.ndarray
    moved: np.ndarray
    distance: tuple[float, float]
    changed: tuple[tuple[str, str, str], ...]
    stayed: int
    came: tuple[str, ...]
    left: tuple[str, ...]

    def sentences(self) -> tuple[str, ...]:
        """What moved, in plain words."""
        said = (self._choices(), self._together(), self._factor(), self._came_and_left())
        return tuple(sentence for sentence in said if sentence)

    def _choices(self) -> str:
        before, after = self.first.most_chosen, self.second.most_chosen
        alike = {"after": after, "before": before}
        if not self.changed:
            return _(
                "No group changed its choice; the most that choose alike are {after} (before "
                "{before})."
            ).format(**alike)
        turn = _("{group} (from {before} to {after})")
        named = shortened(
            turn.format(group=who, before=was, after=now) for who, was, now in self.changed
        )
        changed = len(self.changed)
        return _(
            "{count} of {groups} changed: {changes}; the most that choose alike are {after} "
            "(before {before})."
        ).format(count=changed, groups=groups(changed + self.stayed), changes=named, **alike)

    def _together(self) -> str:
        before, after = self.distance
        if np.isclose(before, after):
            return _("Their weights stand as far apart as before.")
        if np.isclose(before, 0):
            return _("Their weights, alike before, now differ.")
        said = _("Their weights stand further apart by {share:.0f} %.")
        if after < before:
            said = _("Their weights stand nearer together by {share:.0f} %.")
        return said.format(share=100 * abs(after / before - 1))

    def _factor(self) -> str:
        if np.isnan(self.moved).all() or np.nanmax(self.moved) < MOVED:
            return ""
        factor = int(np.nanargmax(self.moved))
        was, now = (100 * each.consensus.shares[factor] for each in (self.first, self.second))
        return _(
            "The weight of {factor} moved most, by {points:.0f} points on average; in common it "
            "went from {before:.0f} % to {after:.0f} %."
        ).format(
            factor=_(self.first.factors[factor].lower()),
            points=100 * self.moved[factor],
            before=was,
            after=now,
        )

    def _came_and_left(self) -> str:
        said = []
        if self.came:
            said.append(_("New in this round: {groups}.").format(groups=listed(self.came)))
        if self.left:
            said.append(_("Not heard again: {groups}.").format(groups=listed(self.left)))
        return " ".join(said)


def movement(first: Agreement, second: Agreement) -> Movement:
    """What moved between two rounds; groups are the same where their names are.

    Raises ValueError where the rounds judge another place, other factors or other options.
    """
    for what in ("place", "factors", "options"):
        if getattr(first, what) != getattr(second, what):
            raise ValueError(f"Two rounds can be compared over one {what} only: judge both alike.")
    before, after = _by_name(first), _by_name(second)
    both = [name for name in before if name in after]
    steps = [np.abs(after[name].shares - before[name].shares) for name in both]
    changed = [name for name in both if before[name].winners != after[name].winners]
    return Movement(
        first=first,
        second=second,
        common=second.consensus.shares - first.consensus.shares,
        moved=_mean(steps, len(first.factors)),
        distance=(_distance(first), _distance(second)),
        changed=tuple(
            (name, choice(first, before[name]), choice(second, after[name])) for name in changed
        ),
        stayed=len(both) - len(changed),
        came=tuple(name for name in after if name not in before),
        left=tuple(name for name in before if name not in after),
    )


def _by_name(found: Agreement) -> dict[str, Voice]:
    return {voice.group: voice for voice in found.voices}


def _mean(steps: list[np.ndarray], factors: int) -> np.ndarray:
    """Mean over the groups (factor,), NaN where nobody weighed it in both rounds."""
    known = np.array(steps).reshape(-1, factors)
    count = (~np.isnan(known)).sum(axis=0)
    return np.where(count, np.nansum(known, axis=0) / np.maximum(count, 1), np.nan)


def _distance(found: Agreement) -> float:
    return float(np.mean([voice.distance for voice in found.voices]))
