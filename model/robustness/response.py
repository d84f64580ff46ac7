"""How the measures at some places answer to every figure in doubt."""

from dataclasses import dataclass

import numpy as np

from model.robustness.doubt import WIDEST

NODES = np.array([-2.0, -1.0, 0.0, 1.0, 2.0])  # standard scores at which the land is judged anew
# Factors whose rule-out is the measure itself falling below nothing: no room, too near a service.
RULED_BELOW_ZERO = ("spacing", "services")


@dataclass(frozen=True)
class Response:
    """Measures at places, and how each doubt moves them.

    `base` (factor, option, place) are the measures as surveyed, in each factor's unit; `change`
    (doubt, node, factor, option, place) what they differ by with one figure at each of `NODES`,
    all others as surveyed. `ruled` (option, place) is what is ruled out as surveyed and `flips`
    (doubt, node, option, place) where a figure changes that, both but for the factors that rule
    out by their own measure: `by_measure` (factor,).
    """

    base: np.ndarray
    change: np.ndarray
    ruled: np.ndarray
    flips: np.ndarray
    by_measure: np.ndarray

    def moving(self, place: int) -> np.ndarray:
        """Numbers of the doubts that move anything at a place (doubt,)."""
        at = self.change[..., place] != 0
        return np.flatnonzero(at.any(axis=(1, 2, 3)) | self.flips[..., place].any(axis=(1, 2)))

    def at(self, place: int, scores: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Measures (draw, factor, option) and rule-outs (draw, option) at a place.

        `scores` (draw, doubt) are standard scores. Each figure's effect is straight between the
        nodes, and the effects of several add up: on the invented demo the scores of all options
        at all pegs come within 0.1 point of 100 of judging the land anew (root mean square; 0.4
        in 99 of 100 cases). Edges of one view that are off together do not add up so well.
        """
        base = self.base[..., place]
        measures = np.repeat(base[None], len(scores), axis=0)
        flipped = np.zeros((len(scores), base.shape[1]), dtype=bool)
        for doubt in self.moving(place):
            z = np.clip(scores[:, doubt], -WIDEST, WIDEST)
            low = np.minimum((z - NODES[0]).astype(int), NODES.size - 2)
            part = (z - NODES[low])[:, None, None]
            change = self.change[doubt, ..., place]
            measures += change[low] * (1 - part) + change[low + 1] * part
            nearest = np.rint(z - NODES[0]).astype(int)
            flipped |= self.flips[doubt, nearest, :, place]
        below = (measures[:, self.by_measure] < 0).any(axis=1)
        return measures, below | (self.ruled[:, place] ^ flipped)
