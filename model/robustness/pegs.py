"""Which peg suits one option best when the survey may be off."""

from dataclasses import dataclass

import numpy as np

from model.decision.acceptability import rank_acceptability
from model.results import TIE
from model.robustness.doubts import doubts
from model.robustness.outcome import judgement, standard_scores
from model.robustness.responding import Progress, response
from model.study import Study
from model.survey.plus_minus import DEVIATIONS

SURE = 0.95  # of draws in which a tree must be able to stand at a peg for the peg to count as tied


@dataclass(frozen=True, eq=False)
class PegRobustness:
    """One option over the pegs, in the survey's doubt with the study's own weights.

    `rank_shares` (peg, rank), `scores` (draw, peg) NaN where ruled out, `tied` (peg,): whether a
    peg is within the survey's error of the best.
    """

    option: str
    pegs: tuple[str, ...]
    rank_shares: np.ndarray
    scores: np.ndarray
    tied: np.ndarray
    sentence: str


def peg_robustness(
    study: Study, option: int, count: int = 2000, seed: int = 1, progress: Progress | None = None
) -> PegRobustness:
    """How an option's pegs rank in the survey's doubt; figures are drawn once for all pegs.

    Raises ValueError where the survey has no pegs.
    """
    places = study.ground.places
    if not places.spots:
        raise ValueError("pegs: found none, expected one or more, mend by adding spots.csv")
    found, judged = doubts(study), judgement(study)
    pegs = list(range(places.cells, places.x.size))
    answer = response(study, found, pegs, progress)
    z = standard_scores(count, len(found), seed)
    drawn = [judged.space(*answer.at(at, z)) for at in range(len(pegs))]
    scores = np.stack([judged.scores(space)[:, option] for space in drawn], axis=1)
    best, tied = _best_and_tied(scores)
    shares = rank_acceptability(scores)
    label = study.options[option].label
    said = _sentence(label, places.spots, best, tied, shares)
    return PegRobustness(label, places.spots, shares, scores, tied, said)


def _best_and_tied(scores: np.ndarray) -> tuple[int, np.ndarray]:
    """The peg best on average (-1 none), and which differ from it by less than the error (peg,)."""
    known = np.nan_to_num(scores)
    tied = np.zeros(scores.shape[1], dtype=bool)
    if not known.any():
        return -1, tied
    best = int(known.mean(axis=0).argmax())
    sure = np.isfinite(scores).mean(axis=0) >= SURE
    for peg in np.flatnonzero(sure & (np.arange(tied.size) != best)):
        behind = scores[:, best] - scores[:, peg]
        behind = behind[np.isfinite(behind)]
        off = DEVIATIONS * behind.std() if behind.size else 0.0
        tied[peg] = bool(behind.size) and behind.mean() <= max(TIE, off)
    return best, tied


def _sentence(
    label: str, pegs: tuple[str, ...], best: int, tied: np.ndarray, shares: np.ndarray
) -> str:
    if best < 0:
        return f"{label} can stand at no peg."
    others = [name for name, is_tied in zip(pegs, tied, strict=True) if is_tied]
    first = f"{label}: peg {pegs[best]} is best in {100 * shares[best, 0]:.0f} of 100 surveys"
    if not others:
        return f"{first} that might be true, and no other peg is within the survey's error."
    named = ", ".join(others[:3]) + (f" and {len(others) - 3} more" if len(others) > 3 else "")
    return f"{first} that might be true; within the survey's error it ties with {named}."
