"""The survey as a surveyor would pencil it: dark lines in a light casing, areas by their edge."""

from collections.abc import Iterable, Sequence
from typing import Any

import holoviews as hv
import numpy as np
from shapely.geometry import LineString, MultiLineString, MultiPolygon, Point, Polygon

from dashboard import theme
from dashboard.plots import marks

CASING = "#ffffff"
WATER = "#1f4e79"
GREEN = "#35543a"
EYE_LINE = 14.0  # m of sight line drawn for a view

# kind: edge, width [px], dash, fill, fill opacity
AREAS = {
    "soil_patch": ("#7a6a55", 1.0, "1 4", None, 0.0),
    "grassland": ("#7d8f5a", 1.0, "1 3", "#c9d3a8", 0.3),
    "wet_ground": (WATER, 1.0, "3 3", "#9fbfd8", 0.35),
    "keep_clear": (theme.QUIET, 1.0, "6 3", "#ffffff", 0.35),
    "sun_wanted": ("#8a6d1f", 1.2, "solid", "#f3dfa0", 0.8),
    "woodland": (GREEN, 1.2, "solid", "#5d7a60", 0.75),
    "building": (theme.INK, 1.4, "solid", "#a7adb1", 1.0),
    "boundary": (theme.INK, 1.6, "10 3 2 3", None, 0.0),
}
# kind: colour, width [px], dash, casing width [px]
LINES = {
    "path": ("#b9b2a6", 3.0, "solid", 5.0),
    "watercourse": (WATER, 2.4, "solid", 4.5),
    "animal_run": (theme.INK, 1.6, "1 5", 0.0),
    "hedge": (GREEN, 4.5, "solid", 6.5),
    "fence": (theme.INK, 1.0, "7 2", 3.0),
    "wall": (theme.INK, 2.6, "solid", 4.6),
    "buried_service": (theme.INK, 1.3, "9 3 1 3", 3.3),
    "overhead_line": (theme.INK, 1.3, "2 2", 3.3),
}
# kind: marker, size [px]
POINTS = {"gate": ("square", 8), "tap": ("circle_dot", 9), "tank": ("square_cross", 10)}
NAMED = ("building", "woodland", "watercourse", "wet_ground", "buried_service", "overhead_line")


def elements(features: Iterable[Any]) -> list[hv.Element]:
    """Elements that draw the features, from the ground up."""
    kinds: dict[str, list[Any]] = {}
    for feature in features:
        kinds.setdefault(feature.kind, []).append(feature)
    drawn = [area(kinds[kind], kind) for kind in AREAS if kind in kinds]
    for kind in (kind for kind in LINES if kind in kinds):
        drawn += line(kinds[kind], kind)
    drawn += [point(kinds[kind], kind) for kind in POINTS if kind in kinds]
    if "neighbour_tree" in kinds:
        drawn += crowns(kinds["neighbour_tree"])
    if "view" in kinds:
        drawn += sight_lines(kinds["view"])
    return [*drawn, names(kinds)]


def area(features: Sequence[Any], kind: str) -> hv.Polygons:
    """Areas of one kind."""
    edge, width, dash, fill, opacity = AREAS[kind]
    rings = [ring for feature in features for ring in polygons(feature.geometry)]
    style = {"line_color": edge, "line_width": width, "line_dash": dash}
    return hv.Polygons(rings, ["x", "y"]).opts(
        fill_color=fill, fill_alpha=opacity, show_legend=False, **style
    )


def polygons(geometry: Any) -> list[dict[str, Any]]:
    """Rings of an area, holes kept."""
    parts = geometry.geoms if isinstance(geometry, MultiPolygon) else [geometry]
    return [
        {
            "x": np.asarray(part.exterior.coords)[:, 0],
            "y": np.asarray(part.exterior.coords)[:, 1],
            "holes": [[np.asarray(hole.coords)[:, :2] for hole in part.interiors]],
        }
        for part in parts
        if isinstance(part, Polygon)
    ]


def line(features: Sequence[Any], kind: str) -> list[hv.Path]:
    """Lines of one kind on their casing."""
    colour, width, dash, casing = LINES[kind]
    paths = [path for feature in features for path in courses(feature.geometry)]
    drawn = hv.Path(paths, ["x", "y"]).opts(
        color=colour, line_width=width, line_dash=dash, show_legend=False
    )
    if not casing:
        return [drawn]
    under = hv.Path(paths, ["x", "y"]).opts(
        color=CASING, line_width=casing, alpha=0.75, show_legend=False
    )
    return [under, drawn]


def courses(geometry: Any) -> list[np.ndarray]:
    """Vertices of a line or of each of its parts."""
    parts = geometry.geoms if isinstance(geometry, MultiLineString) else [geometry]
    return [np.asarray(part.coords)[:, :2] for part in parts if isinstance(part, LineString)]


def point(features: Sequence[Any], kind: str) -> hv.Points:
    """Small things of one kind."""
    marker, size = POINTS[kind]
    places = [feature.geometry.coords[0][:2] for feature in features]
    return hv.Points(places).opts(
        marker=marker, size=size, fill_color=CASING, line_color=theme.INK, show_legend=False
    )


def crowns(features: Sequence[Any]) -> list[hv.Element]:
    """Standing trees: the crown as it is to scale, a dot for the trunk."""
    circles = [feature.geometry.buffer(feature.attributes["crown_m"] / 2) for feature in features]
    rings = [ring for circle in circles for ring in polygons(circle)]
    trunks = [feature.geometry.coords[0][:2] for feature in features]
    shape = hv.Polygons(rings, ["x", "y"]).opts(
        fill_color="#5d7a60", fill_alpha=0.75, line_color=GREEN, show_legend=False
    )
    return [shape, hv.Points(trunks).opts(size=3, color=theme.INK, show_legend=False)]


def sight_lines(features: Sequence[Any]) -> list[hv.Element]:
    """Views: the eye and the two edges of what it sees, dashed where the wish is to screen."""
    drawn = []
    for wish, dash in (("keep", "solid"), ("screen", "4 3")):
        of_wish = [feature for feature in features if feature.attributes["wish"] == wish]
        edges = [edge for feature in of_wish for edge in sight_edges(feature)]
        if edges:
            drawn.append(
                hv.Path(edges, ["x", "y"]).opts(
                    color=theme.INK, line_width=1, line_dash=dash, show_legend=False
                )
            )
    eyes = [feature.geometry.coords[0][:2] for feature in features]
    eye = hv.Points(eyes).opts(
        marker="triangle", size=8, fill_color=CASING, line_color=theme.INK, show_legend=False
    )
    return [*drawn, eye]


def sight_edges(feature: Any) -> list[np.ndarray]:
    """Left and right edge of a view, drawn a little way out from the eye."""
    eye = np.asarray(feature.geometry.coords[0][:2])
    half = feature.attributes["width_deg"] / 2
    bearings = np.radians(feature.attributes["bearing_deg"] + np.array([-half, half]))
    reach = min(EYE_LINE, feature.attributes["range_m"])
    ends = eye + reach * np.column_stack([np.sin(bearings), np.cos(bearings)])
    return [np.array([eye, end]) for end in ends]


def names(kinds: dict[str, list[Any]]) -> hv.Labels:
    """Names of the things that matter most for a tree."""
    named = [feature for kind in NAMED for feature in kinds.get(kind, [])]
    anchors = [anchor(feature.geometry) for feature in named]
    x, y = [a.x for a in anchors], [a.y for a in anchors]
    texts = [feature.name or feature.kind.replace("_", " ") for feature in named]
    columns = {"x": x, "y": y, "text": texts}
    return marks.words(
        columns, "names", text_align="center", text_font_style="italic", text_color=theme.INK
    )


def anchor(geometry: Any) -> Point:
    """Where a name is written: inside an area, half way along a line."""
    if geometry.geom_type.endswith("LineString"):
        return geometry.interpolate(0.5, normalized=True)
    return geometry.representative_point()
