"""Every option at every peg as two tables: factor by factor, and in order of merit."""

from pathlib import Path

import numpy as np
import pandas as pd

from model.csv_text import csv_text
from model.decision import merit
from model.results import TIE
from model.study import Study

NOTHING = ""


def assessment(study: Study) -> pd.DataFrame:
    """One row a peg, option and factor: measure, desirability, weight, rule-out and reason."""
    rows = []
    for place, name in _pegs(study):
        here = study.here(place)
        for option in range(len(study.options)):
            for number, factor in enumerate(study.factors):
                rows.append(
                    _placed(study, place, name, option)
                    | {
                        "factor": factor.name,
                        "measure": here.measures[number, option],
                        "unit": factor.unit,
                        "desirability": here.desirabilities[number, option],
                        "weight": study.weights[number],
                        "ruled_out": bool(here.ruled_out[option]),
                        "reason": here.reason[option],
                    }
                )
    return pd.DataFrame(rows, columns=ASSESSMENT)


ASSESSMENT = [
    "spot", "x_m", "y_m", "species", "cultivar", "rootstock", "factor", "measure", "unit",
    "desirability", "weight", "ruled_out", "reason",
]  # fmt: skip
RANKING = [
    "spot", "species", "cultivar", "rootstock", "score", "rank_at_spot", "rank_overall",
    "ruled_out", "reason",
]  # fmt: skip


def ranking(study: Study) -> pd.DataFrame:
    """One row a peg and option: score, rank at the peg and among all pairs, rule-out and reason.

    Ranks are empty where an option is ruled out; ties share a rank.
    """
    pegs = _pegs(study)
    judged = [study.here(place) for place, _ in pegs]
    score = np.array([here.score for here in judged]).T.reshape(len(study.options), len(pegs))
    ruled = np.array([here.ruled_out for here in judged]).T.reshape(score.shape)
    allowed = np.where(ruled, np.nan, score)
    at_spot, overall = (merit.order(allowed, TIE, axis=axis) for axis in (0, None))
    rows = []
    for number, ((place, name), here) in enumerate(zip(pegs, judged, strict=True)):
        for option in here.order:
            out = bool(ruled[option, number])
            rows.append(
                _placed(study, place, name, option)
                | {
                    "score": np.nan if out else score[option, number],
                    "rank_at_spot": None if out else at_spot[option, number],
                    "rank_overall": None if out else overall[option, number],
                    "ruled_out": out,
                    "reason": here.reason[option],
                }
            )
    table = pd.DataFrame(rows, columns=RANKING)
    return table.astype({"rank_at_spot": "Int64", "rank_overall": "Int64"})


def write_tables(study: Study, folder: Path) -> tuple[Path, Path]:
    """Write assessment.csv and ranking.csv; the same study gives the same bytes."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = folder / "assessment.csv", folder / "ranking.csv"
    for path, table in zip(paths, (assessment(study), ranking(study)), strict=True):
        part = path.with_name(f"{path.name}.part")  # what stands there is whole, new or old
        try:
            part.write_text(csv_text(table), encoding="utf-8", newline="\n")
            part.replace(path)
        finally:
            part.unlink(missing_ok=True)
    return paths


def _pegs(study: Study) -> list[tuple[int, str]]:
    """Place and name of every peg."""
    places = study.ground.places
    return [(places.cells + number, name) for number, name in enumerate(places.spots)]


def _placed(study: Study, place: int, name: str, option: int) -> dict[str, object]:
    """The columns that say which option stands where."""
    tree = study.options[option]
    return {
        "spot": name,
        "x_m": study.ground.places.x[place],
        "y_m": study.ground.places.y[place],
        "species": tree.species,
        "cultivar": tree.cultivar,
        "rootstock": tree.rootstock,
    }
