"""The survey as a surveyor would pencil it: dark lines in a light casing, areas by their edge."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import holoviews as hv
import numpy as np
from bokeh.core.property.vectorization import Field
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
DASHES = {"keep": "solid", "screen": "4 3"}  # of a view, by what is wished of it
CALLED = {"tools": ["hover"], "hover_tooltips": [("", "@called")]}
LETTER, LINE = 6.4, 15.0  # px, width and height of a name's letters on the map
WIDE, SLIM = 480.0, 290.0  # px, the site's longer side on a desk's screen and on a phone's
NAMED = ("building", "woodland", "watercourse", "wet_ground", "buried_service", "overhead_line")


def elements(features: Iterable[Any], extent: float = 100.0) -> list[hv.Element]:
    """Elements that draw the features, from the ground up, on a map of some extent [m].

    All areas are one layer, all lines another: each layer is time that every visitor waits.
    """
    kinds: dict[str, list[Any]] = {}
    for feature in features:
        kinds.setdefault(feature.kind, []).append(feature)
    drawn = [*areas(kinds), *lines(kinds)]
    drawn += [point(kinds[kind], kind) for kind in POINTS if kind in kinds]
    if "neighbour_tree" in kinds:
        drawn += crowns(kinds["neighbour_tree"])
    if "view" in kinds:
        drawn += sight_lines(kinds["view"])
    return [*drawn, names(kinds, extent)]


def areas(kinds: Mapping[str, Sequence[Any]]) -> list[hv.Polygons]:
    """Areas in the order of AREAS, those that are filled below those that are only edged."""
    drawn = []
    for filled in (True, False):
        rows = [
            (AREAS[kind], ring | {"called": called(feature)})
            for kind in AREAS
            if (AREAS[kind][3] is not None) is filled
            for feature in kinds.get(kind, ())
            for ring in polygons(feature.geometry)
        ]
        if not rows:
            continue
        edge, width, dash, fill, opacity = zip(*(style for style, _ring in rows), strict=True)
        style = {"line_color": edge, "line_width": width, "line_dash": dash}
        rings = [ring for _style, ring in rows]
        if filled:
            style |= {"fill_color": fill, "fill_alpha": opacity}
            drawn.append(marks.styled(hv.Polygons(rings, ["x", "y"], "called"), style, **CALLED))
        else:
            drawn.append(marks.styled(hv.Polygons(rings, ["x", "y"]), style, fill_color=None))
    return drawn


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


def lines(kinds: Mapping[str, Sequence[Any]]) -> list[hv.Path]:
    """Lines in the order of LINES, on their casings."""
    rows = [
        (*LINES[kind], path, called(feature))
        for kind in LINES
        for feature in kinds.get(kind, ())
        for path in courses(feature.geometry)
    ]
    if not rows:
        return []
    colour, width, dash, casing, paths, names_of = zip(*rows, strict=True)
    cased = [path for path, wide in zip(paths, casing, strict=True) if wide]
    under = {"line_width": [wide for wide in casing if wide]}
    over = {"line_color": colour, "line_width": width, "line_dash": dash, "called": names_of}
    # HoloViews would cut a line that has a tooltip into its stretches.
    over |= {"xs": [path[:, 0] for path in paths], "ys": [path[:, 1] for path in paths]}
    return [
        marks.styled(hv.Path(cased, ["x", "y"]), under, color=CASING, alpha=0.75),
        marks.styled(hv.Path(list(paths), ["x", "y"]), over, **CALLED),
    ]


def courses(geometry: Any) -> list[np.ndarray]:
    """Vertices of a line or of each of its parts."""
    parts = geometry.geoms if isinstance(geometry, MultiLineString) else [geometry]
    return [np.asarray(part.coords)[:, :2] for part in parts if isinstance(part, LineString)]


def point(features: Sequence[Any], kind: str) -> hv.Points:
    """Small things of one kind."""
    marker, size = POINTS[kind]
    places = [(*feature.geometry.coords[0][:2], called(feature)) for feature in features]
    return hv.Points(places, vdims="called").opts(
        marker=marker, size=size, fill_color=CASING, line_color=theme.INK, show_legend=False,
        **CALLED,
    )  # fmt: skip


def crowns(features: Sequence[Any]) -> list[hv.Element]:
    """Standing trees: the crown as it is to scale, a dot for the trunk."""
    rings = [
        ring | {"called": called(feature)}
        for feature in features
        for ring in polygons(feature.geometry.buffer(feature.attributes["crown_m"] / 2))
    ]
    trunks = [feature.geometry.coords[0][:2] for feature in features]
    shape = hv.Polygons(rings, ["x", "y"], "called").opts(
        color="#5d7a60", fill_alpha=0.75, line_color=GREEN, show_legend=False, **CALLED
    )
    return [shape, hv.Points(trunks).opts(size=3, color=theme.INK, show_legend=False)]


def sight_lines(features: Sequence[Any]) -> list[hv.Element]:
    """Views: the eye and the two edges of what it sees, dashed where the wish is to screen."""
    edges = [
        (DASHES[one.attributes["wish"]], edge) for one in features for edge in sight_edges(one)
    ]
    dashes, paths = zip(*edges, strict=True)
    sight = hv.Path(list(paths), ["x", "y"])
    drawn = [marks.styled(sight, {"line_dash": dashes}, color=theme.INK, line_width=1)]
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


def called(feature: Any) -> str:
    """What people call a feature: its name and what it is."""
    kind = feature.kind.replace("_", " ")
    return f"{feature.name} ({kind})" if feature.name else kind


def names_near(features: Iterable[Any], at: tuple[float, float], reach: float) -> list[str]:
    """What lies within reach [m] of a point, nearest first; a tree as far as its crown."""
    found = []
    for feature in features:
        if feature.kind not in ("boundary", "view"):
            crown = feature.attributes["crown_m"] / 2 if feature.kind == "neighbour_tree" else 0.0
            distance = feature.geometry.distance(Point(at)) - crown
            found += [(distance, called(feature))] if distance <= reach else []
    return [name for _distance, name in sorted(found)]


def names(kinds: dict[str, list[Any]], extent: float) -> hv.Labels:
    """Names of the things that matter most for a tree, as many as do not cover one another."""
    named = [feature for kind in NAMED for feature in kinds.get(kind, [])]
    anchors = [anchor(feature.geometry) for feature in named]
    x, y = np.array([a.x for a in anchors]), np.array([a.y for a in anchors])
    texts = [feature.name or feature.kind.replace("_", " ") for feature in named]
    columns = {
        "x": x,
        "y": y,
        "text": thinned(texts, x, y, extent / WIDE),
        "short": thinned(texts, x, y, extent / SLIM),
    }
    words = marks.words(
        columns, "names", text_align="center", text_font_style="italic", text_color=theme.INK
    )

    def fill(plot: Any, _element: Any) -> None:
        plot.handles["source"].data = columns
        plot.handles["glyph"].update(**{field: Field(field) for field in ("x", "y", "text")})

    return marks.fitted(words.opts(hooks=[*marks.hooks(words), fill]))


def thinned(texts: Sequence[str], x: np.ndarray, y: np.ndarray, pixel: float) -> list[str]:
    """Names at `x`, `y` [m], empty where one would run into one before it; `pixel` in metres."""
    half = np.array([LETTER * len(text) / 2 for text in texts]) * pixel
    kept: list[int] = []
    for number in range(len(texts)):
        clash = (
            abs(x[number] - x[other]) < half[number] + half[other]
            and abs(y[number] - y[other]) < LINE * pixel
            for other in kept
        )
        if not any(clash):
            kept.append(number)
    return [text if number in kept else "" for number, text in enumerate(texts)]


def anchor(geometry: Any) -> Point:
    """Where a name is written: inside an area, half way along a line."""
    if geometry.geom_type.endswith("LineString"):
        return geometry.interpolate(0.5, normalized=True)
    return geometry.representative_point()
