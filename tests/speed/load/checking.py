"""Whether all that was answered and kept is right, by the model alone and plain arithmetic."""

import math

import pandas as pd

from model.factors import FACTORS
from model.study import Study

from .phone import Phone
from .visitor import Visitor


def strange_answers(visitors: list[Visitor], study: Study) -> list[str]:
    """Faults of slider answers, as sentences: of another slider, or another order of merit.

    `study` is as a visitor finds it. Each visitor's moves are made in it in turn: weights and
    order of merit at the end must be those that the visitor was shown.
    """
    faults, before = [], study.snapshot()
    for one in visitors:
        astray = sum(not move.answered for move in one.moves)
        if astray:
            faults.append(f"session {one.number}: {astray} answers were not of the slider moved")
        study.restore(before)
        for move in one.moves:
            study.move_weight(move.block, move.value / 100)
        here = study.here()
        expected = [study.options[k].label for k in here.order if not here.ruled_out[k]]
        if one.ranking != expected:
            faults.append(
                f"session {one.number}: found the order {one.ranking[:3]}..., "
                f"expected {expected[:3]}... by its own moves"
            )
    study.restore(before)
    return faults


def lost_ballots(phones: list[Phone], kept: pd.DataFrame, standing: pd.DataFrame) -> list[str]:
    """Faults of the store, as sentences: each acknowledged ballot is in the log, the last stands.

    `kept` is every vote in the order it came, `standing` the ballots that count.
    """
    faults = []
    for one in phones:
        sent = [ballot.fields for ballot in one.sent if ballot.acknowledged]
        rows = kept[kept["group"] == one.group]
        if len(rows) < len(sent):
            faults.append(f"{one.group}: {len(rows)} ballots kept of {len(sent)} acknowledged")
            continue
        log = rows.to_dict("records")
        if not all(_holds(row, fields) for row, fields in zip(log, sent, strict=False)):
            faults.append(f"{one.group}: ballots were kept otherwise than they were sent")
        last = standing[standing["group"] == one.group].to_dict("records")
        if sent and (len(last) != 1 or not _holds(last[0], sent[-1])):
            faults.append(f"{one.group}: what stands is not the last ballot acknowledged")
    return faults


def _holds(row: dict, fields: dict[str, str]) -> bool:
    """Whether a kept ballot has the weights that a form asks for."""
    wanted = asked(fields)
    return all(math.isclose(row[name], share, abs_tol=1e-6) for name, share in wanted.items())


def asked(fields: dict[str, str]) -> dict[str, float]:
    """Weights that a form asks for: each family's height, shared among its factors."""
    groups: dict[str, dict[str, float]] = {}
    for factor in FACTORS:
        if f"factor-{factor.name}" in fields:
            own = float(fields[f"factor-{factor.name}"])
            groups.setdefault(factor.group, {})[factor.name] = own
    return {
        name: float(fields[f"family-{group}"]) * own / sum(members.values())
        for group, members in groups.items()
        for name, own in members.items()
        if sum(members.values())
    }
