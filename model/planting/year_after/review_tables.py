"""The review as two tables: one row a tree, and one row a thing seen at a peg."""

import os
from collections.abc import Sequence
from pathlib import Path

import pandas as pd

from model.csv_text import csv_text
from model.language import _
from model.planting.year_after.evidence import Evidence, evidence_at, place_of
from model.planting.year_after.keep_or_move import Judged
from model.planting.year_after.observations import KINDS, Observation
from model.planting.year_after.review_words import expected_words, meaning_words, reason, seen_words
from model.study import Study

# One row a tree. Scores 0 to 1, `score_mapped` before and `score_here` after what was seen; `gain`
# is score_there less score_here, `gain_mapped` what it was by the map alone; `in_10_draws` how
# often the other peg is better; `survival_needed` that from which a move pays; `worth_` columns are
# score-years over the years looked ahead; `with_the_move` what it means to the other trees.
REVIEW = [
    "spot", "species", "cultivar", "rootstock", "seasons", "expected", "seen", "meaning",
    "score_mapped", "score_here", "advice", "where_to", "score_there", "gain", "gain_mapped",
    "in_10_draws",
    "survival", "survival_needed", "years_lost", "worth_staying", "worth_moving", "worth_waiting",
    "window_from", "window_to", "reason", "with_the_move",
]  # fmt: skip
# One row a thing seen at a peg. `prior`, `seen`, `posterior` and their standard deviations in
# `unit`, chances 0 to 1 for yearly yes or no; `surprise` is a standard score.
EVIDENCE = [
    "spot", "species", "cultivar", "rootstock", "what", "unit", "prior", "prior_sd", "seen",
    "seen_sd", "posterior", "posterior_sd", "surprise", "count", "meaning", "prior_source",
]  # fmt: skip
FILES = "review.csv", "evidence.csv"


def review_table(
    study: Study, judged: Sequence[Judged], notes: Sequence[Sequence[str]]
) -> pd.DataFrame:
    """One row a tree, with the columns of REVIEW; `notes` on what a move brings with it."""
    rows = [_row(study, one, " ".join(said)) for one, said in zip(judged, notes, strict=True)]
    return pd.DataFrame(rows, columns=REVIEW)


def evidence_table(
    study: Study, judged: Sequence[Judged], observations: Sequence[Observation]
) -> pd.DataFrame:
    """One row a thing seen at a peg, with the columns of EVIDENCE."""
    rows = _evidence_rows(study, judged, observations)
    return pd.DataFrame(rows, columns=EVIDENCE)


def written_tables(table: pd.DataFrame, evidence: pd.DataFrame, folder: Path) -> tuple[Path, Path]:
    """Write review.csv and evidence.csv; the same tables give the same bytes."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = folder / FILES[0], folder / FILES[1]
    for path, rows in zip(paths, (table, evidence), strict=True):
        text = csv_text(rows, "%.4g")
        part = path.with_name(path.name + ".part")
        with part.open("w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    return paths


def _row(study: Study, judged: Judged, said: str) -> dict[str, object]:
    option, compared, there = study.options[judged.tree.option], judged.compared, judged.there
    goes = judged.advice != "keep" and there is not None
    moved = judged.advice == "move"
    return {
        "spot": judged.tree.spot,
        "species": option.species,
        "cultivar": option.cultivar,
        "rootstock": option.rootstock,
        "seasons": judged.seasons,
        "expected": expected_words(judged),
        "seen": seen_words(judged),
        "meaning": meaning_words(judged),
        "score_mapped": judged.here.mapped,
        "score_here": judged.here.score,
        "advice": judged.advice,
        "where_to": study.ground.places.name(there.place) if goes and there else "",
        "score_there": there.score if there else None,
        "gain": judged.gain,
        "gain_mapped": judged.gain_mapped,
        "in_10_draws": round(10 * judged.surer, 1),
        "survival": judged.chances.survival,
        "survival_needed": compared.needed if compared else None,
        "years_lost": judged.chances.lost,
        "worth_staying": compared.stay if compared else None,
        "worth_moving": compared.move if compared else None,
        "worth_waiting": compared.wait if compared else None,
        "window_from": judged.window.first.isoformat() if moved else "",
        "window_to": judged.window.last.isoformat() if moved else "",
        "reason": reason(study, judged),
        "with_the_move": said,
    }


def _evidence_rows(
    study: Study, judged: Sequence[Judged], observations: Sequence[Observation]
) -> list[dict[str, object]]:
    """Evidence of every tree, then of pegs that were watched without one, for who leads there."""
    rows = [_evidence_row(study, one) for tree in judged for one in tree.evidence]
    stands = {tree.tree.spot for tree in judged}
    for spot in dict.fromkeys(one.spot for one in observations):
        place = place_of(study, spot)
        if spot not in stands and place is not None:
            leader = study.here(place).order[0]
            rows += [
                _evidence_row(study, one) for one in evidence_at(study, place, leader, observations)
            ]
    return rows


def _evidence_row(study: Study, one: Evidence) -> dict[str, object]:
    option = study.options[one.option]
    return {
        "spot": one.spot,
        "species": option.species,
        "cultivar": option.cultivar,
        "rootstock": option.rootstock,
        "what": one.what,
        "unit": "chance a year"
        if one.prior.years or KINDS[one.what].yearly
        else KINDS[one.what].unit,
        "prior": one.prior.mean,
        "prior_sd": one.prior.sd,
        "seen": one.seen,
        "seen_sd": one.seen_sd,
        "posterior": one.mean,
        "posterior_sd": one.sd,
        "surprise": one.surprise,
        "count": one.count,
        "meaning": one.words,
        "prior_source": _(one.prior.source),
    }
