"""A site while it is being drawn: marks that need not be right yet, with undo and redo.

Everything is an immutable snapshot; a step makes a new one.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from model.survey.feature import Feature
from model.survey.kinds import KINDS, FeatureKind
from model.survey.lists import SPOT_COLUMNS
from model.survey.measuring import Place, moved
from model.survey.site import Site

STEPS = 200
HUB = FeatureKind("hub", "Hub", ("Point",), (), "where one sets out from with tools; the house")
PEG = FeatureKind("spot", "Peg", ("Point",), (SPOT_COLUMNS[3],), "a place a tree could stand at")
MARKS: dict[str, FeatureKind] = {HUB.name: HUB, PEG.name: PEG, **KINDS}
FEWEST = {"Point": 1, "LineString": 2, "Polygon": 3}


@dataclass(frozen=True)
class Mark:
    """One thing on the sketch: corners [m, local; an outline is not closed], fields as typed."""

    id: int
    kind: str
    points: tuple[Place, ...]
    name: str = ""
    fields: Mapping[str, Any] = field(default_factory=dict)
    holes: tuple[tuple[Place, ...], ...] = ()

    @property
    def shape(self) -> str:
        """Point, LineString or Polygon."""
        return MARKS[self.kind].geometry[0]

    @property
    def label(self) -> str:
        """What people call it."""
        return self.name or MARKS[self.kind].label

    @property
    def geometry(self) -> BaseGeometry | None:
        """Its geometry, None while it has too few corners."""
        if len(self.points) < FEWEST[self.shape]:
            return None
        if self.shape == "Point":
            return Point(self.points[0])
        return LineString(self.points) if self.shape == "LineString" else self._area()

    def _area(self) -> Polygon:
        return Polygon(self.points, [hole for hole in self.holes if len(hole) >= 3])


@dataclass(frozen=True)
class Sketch:
    """Marks and, in `site`, all that is not drawn: place, soil, heights, weather and wind."""

    site: Site
    marks: tuple[Mark, ...] = ()

    def mark(self, number: int) -> Mark | None:
        """The mark of that number, None when there is none."""
        return next((mark for mark in self.marks if mark.id == number), None)

    def of_kind(self, kind: str) -> tuple[Mark, ...]:
        """The marks of a kind."""
        return tuple(mark for mark in self.marks if mark.kind == kind)

    @property
    def free(self) -> int:
        """A number that no mark has."""
        return max((mark.id for mark in self.marks), default=0) + 1

    def added(
        self,
        kind: str,
        points: tuple[Place, ...],
        name: str = "",
        fields: Mapping[str, Any] | None = None,
    ) -> "Sketch":
        """With one more mark; a hub takes the place of the hub there was."""
        if kind not in MARKS:
            raise ValueError(f"found {kind!r}, expected a kind of feature")
        if kind == PEG.name and not name:
            name = self._free_peg()
        kept = tuple(one for one in self.marks if kind != HUB.name or one.kind != HUB.name)
        return replace(self, marks=(*kept, Mark(self.free, kind, points, name, dict(fields or {}))))

    def shifted(self, number: int, east: float, north: float) -> "Sketch":
        """With a mark moved so many metres, holes and all."""
        mark = self._known(number)
        holes = tuple(moved(hole, east, north) for hole in mark.holes)
        return self._with(replace(mark, points=moved(mark.points, east, north), holes=holes))

    def reshaped(self, number: int, points: tuple[Place, ...]) -> "Sketch":
        """With a mark's corners put elsewhere; holes go along when the whole outline moved."""
        mark = self._known(number)
        steps = _steps(mark.points, points)
        if mark.holes and steps is not None:
            return self.shifted(number, *steps)
        return self._with(replace(mark, points=points))

    def changed(self, number: int, name: str, value: Any) -> "Sketch":
        """With a field of a mark, or its name, as typed; a blank takes the field away."""
        mark = self._known(number)
        if name == "name":
            return self._with(replace(mark, name=str(value).strip()))
        left = {key: old for key, old in mark.fields.items() if key != name}
        blank = value is None or (isinstance(value, str) and not value.strip())
        return self._with(replace(mark, fields=left if blank else {**left, name: value}))

    def removed(self, number: int) -> "Sketch":
        """Without a mark."""
        return replace(self, marks=tuple(mark for mark in self.marks if mark.id != number))

    def _known(self, number: int) -> Mark:
        mark = self.mark(number)
        if mark is None:
            raise ValueError(f"there is no feature {number} on the plan")
        return mark

    def _with(self, mark: Mark) -> "Sketch":
        marks = tuple(mark if one.id == mark.id else one for one in self.marks)
        return replace(self, marks=marks)

    def _free_peg(self) -> str:
        taken = {mark.name for mark in self.of_kind(PEG.name)}
        return next(name for n in range(1, len(taken) + 2) if (name := f"Peg {n}") not in taken)


def sketch_of(site: Site) -> Sketch:
    """The sketch of a site that was read."""
    marks = [Mark(0, HUB.name, (site.hub,))] if site.hub is not None else []
    marks += [
        Mark(0, PEG.name, ((spot.x, spot.y),), spot.name, {"note": spot.note} if spot.note else {})
        for spot in site.spots
    ]
    marks += [_mark(feature) for feature in site.features]
    numbered = tuple(replace(mark, id=number) for number, mark in enumerate(marks, start=1))
    return Sketch(site, numbered)


def _mark(feature: Feature) -> Mark:
    """A feature as a mark; what is not known is left blank."""
    fields = {
        name: value
        for name, value in feature.attributes.items()
        if value != "" and not (isinstance(value, float) and math.isnan(value))
    }
    shape = feature.geometry
    if not isinstance(shape, Polygon):
        return Mark(0, feature.kind, _places(shape, False), feature.name, fields)
    holes = tuple(_places(hole, True) for hole in shape.interiors)
    return Mark(0, feature.kind, _places(shape.exterior, True), feature.name, fields, holes)


def _places(line: BaseGeometry, closed: bool) -> tuple[Place, ...]:
    points = [(float(x), float(y)) for x, y in shapely.get_coordinates(line)]
    return tuple(points[:-1] if closed else points)


def _steps(before: tuple[Place, ...], after: tuple[Place, ...]) -> Place | None:
    """How far all corners moved alike, None when they did not."""
    if len(before) != len(after) or not before:
        return None
    east, north = after[0][0] - before[0][0], after[0][1] - before[0][1]
    alike = all(
        math.isclose(b[0] - a[0], east, abs_tol=1e-6)
        and math.isclose(b[1] - a[1], north, abs_tol=1e-6)
        for a, b in zip(before, after, strict=True)
    )
    return (east, north) if alike else None


@dataclass(frozen=True)
class History:
    """A sketch with the steps that led to it and those that were taken back."""

    present: Sketch
    past: tuple[Sketch, ...] = ()
    future: tuple[Sketch, ...] = ()

    def after(self, sketch: Sketch) -> "History":
        """One step on; what was taken back before is given up. The same sketch is no step."""
        if sketch == self.present:
            return self
        return History(sketch, (*self.past, self.present)[-STEPS:])

    def undone(self) -> "History":
        """One step back, where there is one."""
        if not self.past:
            return self
        return History(self.past[-1], self.past[:-1], (self.present, *self.future))

    def redone(self) -> "History":
        """One step taken back made again, where there is one."""
        if not self.future:
            return self
        return History(self.future[0], (*self.past, self.present), self.future[1:])
