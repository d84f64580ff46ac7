"""Where a point lies by tape and compass: two tapes, a bearing, or an offset from a base line."""

import math
from dataclasses import dataclass

from model.survey.measuring import Place, bearing, distance, towards

SIDES = ("left", "right")
WELL_CROSSED = (30.0, 150.0)  # degrees between two tapes within which a fix is sound
TAPE = 0.001  # m by which two tapes may fail to meet and still be taken to touch


@dataclass(frozen=True)
class Fix:
    """Where two tapes meet, and the angle [degrees] at which they cross there."""

    place: Place
    crossing: float

    @property
    def is_weak(self) -> bool:
        """Whether a small error of a tape moves the point far, as the tapes hardly cross."""
        return not WELL_CROSSED[0] <= self.crossing <= WELL_CROSSED[1]


def taped_fix(first: Place, reach: float, second: Place, other_reach: float, side: str) -> Fix:
    """The point `reach` [m] from the first and `other_reach` [m] from the second known point.

    It lies left or right as one looks from the first point to the second. ValueError in words
    when the tapes do not meet. The foot of the point on the base follows from the law of cosines
    (Euclid, Elements II.12 and II.13; Heron, Metrica I.5).
    """
    base = distance(first, second)
    if base <= TAPE:
        raise ValueError("the two known points are one and the same")
    tapes = f"tapes of {reach:g} m and {other_reach:g} m"
    if reach + other_reach < base - TAPE:
        raise ValueError(f"{tapes} do not meet: the known points are {base:.2f} m apart")
    if abs(reach - other_reach) > base + TAPE:
        raise ValueError(
            f"{tapes} do not meet: one is longer than the other by more than the {base:.2f} m "
            "between the known points"
        )
    along = (base**2 + reach**2 - other_reach**2) / (2 * base)
    across = math.sqrt(max(reach**2 - along**2, 0.0))
    return Fix(
        offset_place(first, second, along, across, side), _crossing(base, reach, other_reach)
    )


def offset_place(start: Place, end: Place, chainage: float, offset: float, side: str) -> Place:
    """The point `offset` [m] square off the line from start to end, `chainage` [m] along it.

    A chainage below nought or beyond the end lies on the line produced.
    """
    if distance(start, end) <= TAPE:
        raise ValueError("the two known points are one and the same")
    way = bearing(start, end)
    turn = -90 if side == "left" else 90
    return towards(towards(start, way, chainage), way + turn, offset)


def _crossing(base: float, reach: float, other_reach: float) -> float:
    """The angle [degrees] between two tapes where they meet, by the law of cosines."""
    if reach <= 0 or other_reach <= 0:
        return 90.0  # the point stands on a known one: nothing can shift it
    cosine = (reach**2 + other_reach**2 - base**2) / (2 * reach * other_reach)
    return math.degrees(math.acos(min(max(cosine, -1.0), 1.0)))
