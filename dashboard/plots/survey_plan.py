"""Marks of a sketch as the plan draws them: plain figures and the survey's own pencil strokes."""

from collections.abc import Iterable, Mapping
from typing import Any

from shapely.geometry import LineString, Polygon

from dashboard import theme
from dashboard.plots.survey_marks import AREAS, EYE_LINE, GREEN, LINES, NAMED
from model.survey.editing import MARKS, Mark
from model.survey.measuring import Place, towards

ORDER = (*AREAS, *LINES, "neighbour_tree", "view", "gate", "tap", "tank", "spot", "hub")
ALWAYS_NAMED = (*NAMED, "spot", "hub")
MARKER = {"gate": "square", "view": "triangle", "hub": "house", "spot": "peg"}
SOLID = ("building", "woodland", "wet_ground", "sun_wanted", "keep_clear")  # a tap inside chooses
SIGN = {"Point": "●", "LineString": "━", "Polygon": "▱"}


def drawn_marks(marks: Iterable[Mark], faulty: Iterable[int] = ()) -> list[dict[str, Any]]:
    """What the plan draws, from the ground up; `faulty` are the numbers of marks with faults."""
    faults = set(faulty)
    ordered = sorted(marks, key=lambda mark: ORDER.index(mark.kind))
    return [_drawn(mark, mark.id in faults) for mark in ordered]


def tone(kind: str) -> str:
    """The colour a kind is pencilled in."""
    if kind in AREAS:
        return AREAS[kind][0]
    return LINES[kind][0] if kind in LINES and kind != "path" else _point_colour(kind)


def sign(kind: str) -> str:
    """A sign for the shape of a kind."""
    return SIGN[MARKS[kind].geometry[0]]


def extent(marks: Iterable[Mark], least: float = 20.0) -> list[float]:
    """West, south, east and north of all that is drawn [m]."""
    points = [point for mark in marks for point in mark.points]
    if not points:
        return [-least, -least, least, least]
    east, north = zip(*points, strict=True)
    return [min(east), min(north), max(east), max(north)]


def _drawn(mark: Mark, faulty: bool) -> dict[str, Any]:
    return {
        "id": mark.id,
        "shape": mark.shape,
        "points": [list(point) for point in mark.points],
        "holes": [[list(point) for point in hole] for hole in mark.holes],
        "style": _style(mark),
        "rays": _rays(mark),
        "label": mark.label,
        "named": mark.kind in ALWAYS_NAMED,
        "anchor": _anchor(mark),
        "fault": faulty,
    }


def _style(mark: Mark) -> dict[str, Any]:
    if mark.kind in AREAS:
        edge, width, dash, fill, opacity = AREAS[mark.kind]
        look = {"fill": fill or "none", "opacity": opacity, "solid": mark.kind in SOLID}
        return {"stroke": edge, "width": width, "dash": _dash(dash), **look}
    if mark.kind in LINES:
        colour, width, dash, casing = LINES[mark.kind]
        return {"stroke": colour, "width": width, "dash": _dash(dash), "casing": casing}
    style: dict[str, Any] = {"stroke": _point_colour(mark.kind), "size": 5}
    style["marker"] = MARKER.get(mark.kind, "circle")
    if mark.kind == "hub":
        style["size"] = 8
    if mark.kind == "neighbour_tree":
        crown, full = _number(mark.fields, "crown_m"), _number(mark.fields, "full_crown_m")
        style |= {
            "radius": crown / 2,
            "far": full / 2,
            "fill": "#5d7a60",
            "size": 2,
            "inner": GREEN,
        }
    if mark.kind == "view":
        style["dash"] = "4 3" if mark.fields.get("wish") == "screen" else ""
    return style


def _rays(mark: Mark) -> list[list[float]]:
    """The ends of a view's two edges."""
    if mark.kind != "view" or not mark.points or not _number(mark.fields, "width_deg"):
        return []
    middle, width = _number(mark.fields, "bearing_deg"), _number(mark.fields, "width_deg")
    reach = min(EYE_LINE, _number(mark.fields, "range_m") or EYE_LINE)
    return [list(towards(mark.points[0], middle + half, reach)) for half in (-width / 2, width / 2)]


def _anchor(mark: Mark) -> list[float] | None:
    """Where its name is written."""
    if not mark.points:
        return None
    if mark.shape == "Polygon" and len(mark.points) > 2:
        outline = Polygon(mark.points)
        if outline.is_valid:
            return list(_place(outline.representative_point()))
    if mark.shape == "LineString" and len(mark.points) > 1:
        return list(_place(LineString(mark.points).interpolate(0.5, normalized=True)))
    return list(mark.points[0])


def _place(point: Any) -> Place:
    return float(point.x), float(point.y)


def _number(fields: Mapping[str, Any], name: str) -> float:
    """A figure as typed, nought while it is none."""
    try:
        return min(max(float(fields.get(name, 0.0)), 0.0), 1000.0)
    except (TypeError, ValueError):
        return 0.0


def _dash(dash: str) -> str:
    return "" if dash == "solid" else dash


def _point_colour(kind: str) -> str:
    return {"neighbour_tree": GREEN, "spot": theme.ACCENT, "path": "#7d7568"}.get(kind, theme.INK)
