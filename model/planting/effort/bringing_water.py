"""Water for the trees of a plan: how much each needs, and how long it takes to bring."""

from dataclasses import dataclass

import numpy as np

from model.factors.watering import BAR, LEAST_FLOW
from model.ground import given
from model.land.watering import carrying_time, hose_flow
from model.planting.placement import Planted
from model.study import Study

# Litres a week where the survey gives no grounds to reckon them: Dun Laoghaire-Rathdown County
# Council, Water the trees (20 litres a week April to September, twice or more when hot).
USUAL_WEEK, HOT_WEEK = 20.0, 40.0
LONGEST_HOSE = 50.0  # [m] that one still drags and that keeps pressure (common practice, no source)
SLACK = 1.1  # a hose lies in bends (common practice, no source)
USUAL_SOURCE = "Dun Laoghaire-Rathdown County Council, Water the trees"


@dataclass(frozen=True)
class Thirst:
    """What one tree needs; arrays are (summer, 2): a median year and a dry one, one in ten.

    `litres` [l] and `minutes` [min] of a summer; `week` [l] the busiest week of the first dry one,
    `first` and `last` the dates between which a dry summer calls for water ("no day" for none).
    `source` is where it comes from, `away` [m] the straight distance to it, `holds` [l] what a tank
    holds (infinite for a tap), `by_hose` whether a hose bought for it is quicker than cans.
    """

    litres: np.ndarray
    minutes: np.ndarray
    week: float
    first: str
    last: str
    source: str
    away: float
    holds: float
    by_hose: bool


def thirst(study: Study, tree: Planted) -> Thirst | None:
    """The water of one tree; None where the survey has no tap, tank or weather to reckon by."""
    if study.ground.watering is None:
        return None
    watering, place = given(study.ground.watering), tree.place
    source = int(watering.source[place])
    circle = float(study.settings["watering"].figures()["circle"])
    litres = circle * watering.lacking[:, :, place]
    one_way = watering.fetch[place] / 2
    carried = carrying_time(litres, one_way, one_way) / 60
    flow = _flow(study, place)
    through_hose = litres / flow if flow else np.full_like(litres, np.inf)
    by_hose = bool(flow and not through_hose.sum() > carried.sum())
    return Thirst(
        litres=litres,
        minutes=through_hose if by_hose else carried,
        week=float(circle * watering.week[place]),
        first=str(watering.first[place]),
        last=str(watering.last[place]),
        source=watering.labels[source],
        away=float(watering.hose[place]),
        holds=float(watering.capacity[source]),
        by_hose=by_hose,
    )


def _flow(study: Study, place: int) -> float:
    """What a hose bought for the plan brings to a place [l/min], 0 where it does not reach."""
    watering = given(study.ground.watering)
    figures = study.settings["watering"].figures()
    away, owned = float(watering.hose[place]), float(figures["hose"])
    if away > max(owned, LONGEST_HOSE):
        return 0.0
    from_tap = np.isinf(watering.capacity[int(watering.source[place])])
    head = watering.head[place] + (float(figures["pressure"]) * BAR if from_tap else 0.0)
    flow = float(hose_flow(head, max(owned, SLACK * away), float(figures["bore"])))
    return flow if flow >= LEAST_FLOW else 0.0
