"""A second vote beside the first: whose choice moved, and which weights."""

from dataclasses import dataclass

import numpy as np

from model.group.agreement import Agreement, Voice
from model.group.agreement_words import choice, groups, listed, shortened

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
        alike = f"the most that choose alike are {after} (before {before})"
        if not self.changed:
            return f"No group changed its choice; {alike}."
        named = shortened(f"{who} (from {was} to {now})" for who, was, now in self.changed)
        changed = len(self.changed)
        return f"{changed} of {groups(changed + self.stayed)} changed: {named}; {alike}."

    def _together(self) -> str:
        before, after = self.distance
        word = "nearer together" if after < before else "further apart"
        if np.isclose(before, after):
            return "Their weights stand as far apart as before."
        if np.isclose(before, 0):
            return "Their weights, alike before, now differ."
        by = abs(after / before - 1)
        return f"Their weights stand {word} by {100 * by:.0f} %."

    def _factor(self) -> str:
        if np.isnan(self.moved).all() or np.nanmax(self.moved) < MOVED:
            return ""
        factor = int(np.nanargmax(self.moved))
        was, now = (100 * each.consensus.shares[factor] for each in (self.first, self.second))
        return (
            f"The weight of {self.first.factors[factor].lower()} moved most, "
            f"by {100 * self.moved[factor]:.0f} points on average; in common it went from "
            f"{was:.0f} % to {now:.0f} %."
        )

    def _came_and_left(self) -> str:
        came = f"New in this round: {listed(self.came)}. " if self.came else ""
        left = f"Not heard again: {listed(self.left)}." if self.left else ""
        return (came + left).strip()


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
