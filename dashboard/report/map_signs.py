"""How each kind of feature is drawn: told apart by line and hatching, so that grey paper does."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

INK, MIDDLE, LIGHT, WATER = "#1f2428", "#6b757c", "#d9dde0", "#1f4e79"


@dataclass(frozen=True)
class Sign:
    """Colours, widths and gaps in millimetres of paper.

    `hatch` are (angle [degrees], gap, width) of parallel strokes; `casing` is a white edge beside
    a line; `ends` whether a line has round ends.
    """

    line: str = INK
    width: float = 0.25
    dash: str = ""
    fill: str = "none"
    hatch: tuple[tuple[float, float, float], ...] = ()
    casing: float = 0.0


SIGNS: dict[str, Sign] = {
    "soil_patch": Sign(MIDDLE, 0.2, "0.3 1.2"),
    "grassland": Sign(MIDDLE, 0.2, "0.2 0.8", hatch=((90, 3.2, 0.08),)),
    "wet_ground": Sign(WATER, 0.25, "1 0.8", hatch=((0, 1.3, 0.18),)),
    "keep_clear": Sign(INK, 0.25, "2 1", hatch=((45, 2.2, 0.14),)),
    "sun_wanted": Sign(INK, 0.25, "", hatch=((90, 0.9, 0.12),)),
    "woodland": Sign(INK, 0.25, "", "#e4e8e4", hatch=((45, 1.6, 0.14), (135, 1.6, 0.14))),
    "building": Sign(INK, 0.35, "", "#a9afb3"),
    "boundary": Sign(INK, 0.5, "4 1 0.6 1"),
    "path": Sign("#c4c8cb", 1.0, ""),
    "watercourse": Sign(WATER, 0.9, "", casing=1.3),
    "animal_run": Sign(INK, 0.4, "0.1 1.2"),
    "hedge": Sign("#59665b", 1.3, "", casing=1.7),
    "fence": Sign(INK, 0.25, "1.8 0.6", casing=0.8),
    "wall": Sign(INK, 0.8, "", casing=1.2),
    "buried_service": Sign(INK, 0.35, "3 0.7 0.4 0.7 0.4 0.7", casing=0.9),
    "overhead_line": Sign(INK, 0.35, "0.7 0.7", casing=0.9),
    "neighbour_tree": Sign(MIDDLE, 0.25, "", "#eef0ee", hatch=((135, 1.0, 0.12),)),
    "gate": Sign(INK, 0.3, "", "#ffffff"),
    "tap": Sign(WATER, 0.3, "", "#ffffff"),
    "tank": Sign(WATER, 0.3, "", "#ffffff"),
    "view": Sign(INK, 0.2, "1.4 1.4"),
    "planned": Sign(INK, 0.6, "", "#ffffff"),
    "may grow": Sign(INK, 0.2, "0.9 0.7"),
}
# From the ground up.
AREAS = (
    "soil_patch",
    "grassland",
    "wet_ground",
    "keep_clear",
    "sun_wanted",
    "woodland",
    "building",
)
LINES = (
    *("path", "watercourse", "animal_run", "hedge", "fence", "wall"),
    *("buried_service", "overhead_line"),
)


def area(geometry: BaseGeometry, sign: Sign) -> str:
    """An area in millimetres: filled, hatched, and its edge drawn."""
    fill = f'<path d="{outline(geometry)}" fill="{sign.fill}" fill-rule="evenodd"/>'
    strokes = "".join(
        f'<path d="{" ".join(hatching(geometry, angle, gap))}" stroke="{sign.line}" '
        f'stroke-width="{width}" fill="none"/>'
        for angle, gap, width in sign.hatch
    )
    filled = fill if sign.fill != "none" else ""
    return f"{filled}{strokes}{stroke(outline(geometry), sign)}"


def line(geometry: BaseGeometry, sign: Sign) -> str:
    """A line in millimetres, on a white casing that keeps it apart from what it crosses."""
    path = outline(geometry)
    under = (
        f'<path d="{path}" fill="none" stroke="#ffffff" stroke-width="{sign.casing}"/>'
        if sign.casing
        else ""
    )
    return under + stroke(path, sign)


def stroke(path: str, sign: Sign) -> str:
    """A path drawn by its line alone."""
    dash = f' stroke-dasharray="{sign.dash}"' if sign.dash else ""
    return (
        f'<path d="{path}" fill="none" stroke="{sign.line}" stroke-width="{sign.width}"{dash} '
        'stroke-linejoin="round"/>'
    )


def outline(geometry: BaseGeometry) -> str:
    """A geometry as the data of a path; points are left out."""
    return " ".join(_courses(geometry))


def _courses(geometry: BaseGeometry) -> Iterator[str]:
    for part in shapely.get_parts(geometry):
        if part.geom_type == "Polygon":
            for ring in (part.exterior, *part.interiors):
                yield f"M{_points(ring)}Z"
        elif part.geom_type in ("LineString", "LinearRing"):
            yield f"M{_points(part)}"


def _points(line: BaseGeometry) -> str:
    return "L".join(f"{x:.2f},{y:.2f}" for x, y in shapely.get_coordinates(line))


def hatching(geometry: BaseGeometry, angle: float, gap: float) -> list[str]:
    """Parallel strokes over an area, as data of paths; not all printers know patterns."""
    if geometry.is_empty:
        return []
    centre = shapely.Point(0, 0)
    turned = shapely.affinity.rotate(geometry, -angle, origin=centre)
    west, south, east, north = turned.bounds
    rows = np.arange(np.ceil(south / gap) * gap, north, gap)
    lines = shapely.linestrings([[(west - 1, y), (east + 1, y)] for y in rows]) if rows.size else []
    cut = shapely.intersection(lines, turned)
    return [
        piece
        for one in cut
        for piece in _courses(shapely.affinity.rotate(one, angle, origin=centre))
    ]


def swatch(kind: str) -> str:
    """A kind's sign for the key, a small picture of its own."""
    sign = SIGNS[kind]
    if kind in LINES or kind == "boundary":
        drawn = line(shapely.LineString([(0.5, 2.5), (8.5, 2.5)]), sign)
    elif kind in ("gate", "tap", "tank", "view"):
        drawn = small(kind, 4.5, 2.5, 90)
    elif kind in ("planned", "may grow", "neighbour_tree"):
        drawn = area(shapely.Point(4.5, 2.5).buffer(2.1), sign)
    else:
        drawn = area(shapely.box(0.7, 0.5, 8.3, 4.5), sign)
    return (
        '<svg class="swatch" aria-hidden="true" viewBox="0 0 9 5" width="9mm" height="5mm">'
        f"{drawn}</svg>"
    )


def small(kind: str, x: float, y: float, bearing: float = 0.0) -> str:
    """A small thing at a point of the paper."""
    sign = SIGNS[kind]
    look = f'fill="{sign.fill}" stroke="{sign.line}" stroke-width="{sign.width}"'
    if kind == "gate":
        return f'<rect x="{x - 0.7:.2f}" y="{y - 0.7:.2f}" width="1.4" height="1.4" {look}/>'
    if kind == "tap":
        dot = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="0.35" fill="{sign.line}"/>'
        return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="1" {look}/>{dot}'
    if kind == "tank":
        cross = f"M{x - 1:.2f},{y - 1:.2f}l2,2M{x + 1:.2f},{y - 1:.2f}l-2,2"
        box = f'<rect x="{x - 1:.2f}" y="{y - 1:.2f}" width="2" height="2" {look}/>'
        return f'{box}<path d="{cross}" fill="none" {look.partition(" ")[2]}/>'
    side = np.radians([bearing - 25, bearing + 25])
    ends = [(x + 3.6 * np.sin(one), y - 3.6 * np.cos(one)) for one in side]
    rays = "".join(f"M{x:.2f},{y:.2f}L{a:.2f},{b:.2f}" for a, b in ends)
    eye = f'<circle cx="{x:.2f}" cy="{y:.2f}" r="0.6" fill="{INK}"/>'
    return eye + stroke(rays, sign)
