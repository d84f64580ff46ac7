"""A year on: every tree's expected and seen, and whether to keep it, move it or watch it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import pandas as pd

from model.opening import open_study
from model.planting.placement_file import PLACEMENT_FILE
from model.planting.year_after.company import notes_on_moving
from model.planting.year_after.correcting import updated_site
from model.planting.year_after.evidence import Evidence, evidence_at, place_of, spot_name
from model.planting.year_after.keep_or_move import Judged, judged_tree
from model.planting.year_after.moving import Terms
from model.planting.year_after.observations import OBSERVATIONS_FILE, Observation, read_observations
from model.planting.year_after.review_tables import evidence_table, review_table, written_tables
from model.planting.year_after.review_words import CAUTION, sentence
from model.planting.year_after.standing import StandingTree, standing_trees
from model.planting.year_after.worths import Worths
from model.study import Study
from model.survey.faults import Fault, SurveyFaults
from model.survey.site import Site


@dataclass(frozen=True, eq=False)
class Review:
    """The review of a plan.

    `table` has the columns of REVIEW and `evidence` those of EVIDENCE; `sentences` one a tree;
    `site` is the survey corrected by what was seen, `corrections` says how. `notes` say what a
    move brings with it, a tuple a tree; `taken` are spot and thing of what corrected the survey.
    """

    on: date
    trees: tuple[Judged, ...]
    table: pd.DataFrame
    evidence: pd.DataFrame
    sentences: tuple[str, ...]
    site: Site
    corrections: tuple[str, ...]
    notes: tuple[tuple[str, ...], ...]
    taken: tuple[tuple[str, str], ...]
    caution: str = CAUTION


def review(
    study: Study,
    trees: Sequence[StandingTree],
    observations: Sequence[Observation],
    on: date,
    terms: Terms | None = None,
) -> Review:
    """Every tree of a plan judged on a day; two trees are never sent to the same peg.

    Trees to be moved choose one after another, those with most to gain first; each that goes leaves
    its peg to the others, who are then judged anew.
    """
    worths = Worths(study, observations)
    judged, standing = _settled(study, trees, worths, on, terms)
    notes = tuple(notes_on_moving(study, one, standing, worths) for one in judged)
    corrected = updated_site(study, _own_evidence(study, trees, observations, on))
    return Review(
        on=on,
        trees=judged,
        table=review_table(study, judged, notes),
        evidence=evidence_table(study, judged, observations),
        sentences=tuple(sentence(study, one) for one in judged),
        site=corrected.site,
        corrections=corrected.said,
        notes=notes,
        taken=corrected.taken,
    )


def _settled(
    study: Study,
    trees: Sequence[StandingTree],
    worths: Worths,
    on: date,
    terms: Terms | None,
) -> tuple[tuple[Judged, ...], list[StandingTree]]:
    """Every tree judged, and where all of them stand once those to be moved were moved."""
    standing, settled = list(trees), dict[int, Judged]()
    while True:
        judged = {
            number: judged_tree(study, tree, standing, worths.observations, on, terms, worths)
            for number, tree in enumerate(standing)
            if number not in settled
        }
        movers = [number for number, one in judged.items() if one.advice == "move"]
        first = max(movers, key=lambda number: (_pull(judged[number]), -number), default=-1)
        there = judged[first].there if first >= 0 else None
        if there is None:
            settled |= judged
            return tuple(settled[number] for number in range(len(trees))), standing
        settled[first] = judged[first]
        spot = spot_name(study, there.place)
        standing[first] = replace(standing[first], spot=spot, place=there.place)


def folder_review(
    folder: str | Path,
    placement: Path | None = None,
    observations: Path | None = None,
    on: date | None = None,
) -> Review:
    """The review of a survey folder; other files may stand in for its plan and observations.

    The day is that of the last observation unless said, so that the same files give the same
    review. Raises SurveyFaults, a ValueError, with every fault of a file.
    """
    study = open_study(folder)
    trees = standing_trees(study, placement or folder)
    if not trees:
        raise SurveyFaults([_missing(PLACEMENT_FILE, "a plan of what stands where")])
    seen = read_observations(observations or folder, watched_spots(study, trees))
    if not seen and on is None:
        raise SurveyFaults([_missing(OBSERVATIONS_FILE, "something seen, or a day to judge by")])
    return review(study, trees, seen, on or max(one.date for one in seen))


def watched_spots(study: Study, trees: Sequence[StandingTree]) -> tuple[str, ...]:
    """Where something may be watched: the pegs, and the places of trees that have none."""
    return tuple(dict.fromkeys((*study.ground.places.spots, *(tree.spot for tree in trees))))


def _missing(file: str, expected: str) -> Fault:
    return Fault(file, None, "", "no rows or no such file", expected, f"writing {file}")


def write_review(made: Review, folder: Path) -> tuple[Path, Path]:
    """Write review.csv and evidence.csv; the same review gives the same bytes."""
    return written_tables(made.table, made.evidence, folder)


def _pull(judged: Judged) -> float:
    """How much a tree has to gain by moving [score-years], for whose turn it is."""
    if judged.compared is None:
        return float("inf") if judged.advice == "move" else float("-inf")
    return judged.compared.move - judged.compared.stay


def _own_evidence(
    study: Study, trees: Sequence[StandingTree], observations: Sequence[Observation], on: date
) -> list[Evidence]:
    """What each peg's own observations say, once a peg, for correcting the survey."""
    standing = {tree.spot: tree for tree in trees}
    found: list[Evidence] = []
    for spot in dict.fromkeys(one.spot for one in observations):
        tree = standing.get(spot)
        place = tree.place if tree else place_of(study, spot)
        if place is not None:
            option, seasons = (tree.option, tree.seasons(on)) if tree else (0, 1)
            found += evidence_at(study, place, option, observations, seasons, near=False)
    return found
