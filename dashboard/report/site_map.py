"""The map of the report: to scale, north up, features named, pegs numbered, crowns as they grow."""

import re
from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import shapely
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from dashboard.report import map_signs as signs
from dashboard.report.findings import Findings, Spot
from dashboard.report.map_names import Names, cased
from dashboard.report.tags import words
from model.language import _
from model.study import Study
from model.survey.kinds import KINDS
from model.trees import HIGH, TYPICAL, full_size

WIDE, HIGH_PAGE = 172.0, 176.0  # mm that a map may fill on A4 and on US Letter
SCALES = (50, 100, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1250, 1500, 2000, 2500, 3000, 4000,
          5000, 7500, 10000, 15000, 20000, 25000, 50000)  # fmt: skip
EDGE = 2.0  # mm round the land
FOOT = 11.0  # mm below it, for the scale bar
FEET = 3.28084  # in a metre
SIGN_WITHIN = 3.4  # mm, radius of a crown that holds its own sign
SMALL = ("gate", "tap", "tank", "view")
BOLD = ' font-weight="bold"'


@dataclass(frozen=True)
class Sheet:
    """A piece of paper: metres become millimetres, north up."""

    west: float
    north: float
    scale: int
    width: float
    height: float

    def on(self, geometry: BaseGeometry) -> Any:
        """A geometry in millimetres from the upper left corner."""
        k = 1000 / self.scale
        return affine_transform(
            geometry, [k, 0, 0, -k, EDGE - self.west * k, EDGE + self.north * k]
        )


def sheet_of(study: Study, spots: Iterable[Spot]) -> Sheet:
    """The sheet that shows the land and every tree as large as paper allows, at a round scale."""
    shown = [study.site.boundary.buffer(3), *(shapely.Point(s.x, s.y).buffer(5) for s in spots)]
    west, south, east, north = shapely.union_all(shown).bounds
    wide, high = WIDE - 2 * EDGE, HIGH_PAGE - 2 * EDGE - FOOT
    need = max((east - west) / wide, (north - south) / high) * 1000
    scale = next((one for one in SCALES if one >= need), int(need) + 1)
    k = 1000 / scale
    return Sheet(
        west, north, scale, (east - west) * k + 2 * EDGE, (north - south) * k + 2 * EDGE + FOOT
    )


def site_map(found: Findings, *, feet: bool = False) -> str:
    """The map as an SVG picture of its own, in millimetres."""
    study, sheet = found.study, sheet_of(found.study, found.spots)
    frame = shapely.box(0, 0, sheet.width, sheet.height - FOOT)
    names = Names(frame)
    drawn = [*_ground(study, sheet, frame), *_boundary(study, sheet), *_small(study, sheet)]
    marks = [*_crowns(found, sheet, names), *_pegs(found, sheet, names)]
    texts = names.written(_named(study, sheet, frame))
    outer = f'width="{sheet.width:.1f}mm" height="{sheet.height:.1f}mm"'
    box = f'viewBox="0 0 {sheet.width:.2f} {sheet.height:.2f}"'
    edge = shapely.box(0.2, 0.2, sheet.width - 0.2, sheet.height - FOOT)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {outer} {box} '
        f"font-family=\"'Liberation Sans', Arial, 'DejaVu Sans', sans-serif\">"
        f'<rect width="100%" height="100%" fill="#ffffff"/>{"".join(drawn)}{"".join(marks)}{texts}'
        f"{signs.stroke(signs.outline(edge), signs.Sign(width=0.3))}{_scale_bar(sheet, feet)}</svg>"
    )


def map_picture(found: Findings, *, feet: bool = False) -> str:
    """The map as an element of the page, with words for whoever cannot see it."""
    data = b64encode(site_map(found, feet=feet).encode()).decode()
    sheet = sheet_of(found.study, found.spots)
    return (
        f'<img class="map" src="data:image/svg+xml;base64,{data}" alt="{words(told(found))}" '
        f'style="width:{sheet.width:.1f}mm">'
    )


def told(found: Findings) -> str:
    """The map in a sentence or two."""
    kinds = dict.fromkeys(_(KINDS[one.kind].label.lower()) for one in found.study.site.features)
    planted = _("{number} {tree} at {place}, {x:.1f} m east and {y:.1f} m north of the origin")
    trees = ", ".join(
        planted.format(
            number=spot.label,
            tree=found.study.options[spot.tree.option].label,
            place=spot.name,
            x=spot.x,
            y=spot.y,
        )
        for spot in found.spots
        if spot.tree is not None and found.plan is not None
    )
    said = _("Map of {site}, north up, with {kinds}.").format(
        site=found.study.site.name, kinds=", ".join(kinds) or _("nothing drawn")
    )
    return f"{said} {trees}." if trees else said


def key(found: Findings) -> str:
    """What the signs mean, for the kinds that are drawn."""
    drawn = {feature.kind for feature in found.study.site.features}
    items = [
        (signs.swatch(kind), _(KINDS[kind].label))
        for kind in (*signs.AREAS, "boundary", *signs.LINES, "neighbour_tree", *SMALL)
        if kind in drawn
    ]  # fmt: skip
    if found.plan:
        items.insert(0, (signs.swatch("planned"), _("Planned tree, its usual crown full grown")))
        items.insert(1, (signs.swatch("may grow"), _("as wide as it may grow")))
    peg = '<svg class="swatch" aria-hidden="true" viewBox="0 0 9 5" width="9mm" height="5mm">'
    peg += f"{_peg(4.5, 2.5, '1')}</svg>"
    if found.study.site.spots:
        items.append((peg, _("Peg, numbered")))
    return "<ul class='key'>" + "".join(f"<li>{s}{words(said)}</li>" for s, said in items) + "</ul>"


def _ground(study: Study, sheet: Sheet, frame: BaseGeometry) -> list[str]:
    """Areas, then lines, then standing crowns, from the ground up and cut at the map's edge."""
    inside, drawn = frame.buffer(-0.3), []
    of_kind = lambda kind: (sheet.on(one.geometry) for one in study.site.of_kind(kind))  # noqa: E731 -- one line
    for kind in signs.AREAS:
        drawn += [signs.area(inside & shape, signs.SIGNS[kind]) for shape in of_kind(kind)]
    for kind in signs.LINES:
        drawn += [signs.line(inside & shape, signs.SIGNS[kind]) for shape in of_kind(kind)]
    for tree in study.site.of_kind("neighbour_tree"):
        crown = sheet.on(tree.geometry.buffer(float(tree.attributes["crown_m"]) / 2)) & inside
        drawn.append(signs.area(crown, signs.SIGNS["neighbour_tree"]))
    return drawn


def _boundary(study: Study, sheet: Sheet) -> list[str]:
    shapes = [sheet.on(one.geometry) for one in study.site.of_kind("boundary")]
    return [signs.stroke(signs.outline(one), signs.SIGNS["boundary"]) for one in shapes]


def _small(study: Study, sheet: Sheet) -> list[str]:
    drawn = []
    for feature in study.site.of_kind(*SMALL):
        at = sheet.on(feature.geometry).representative_point()
        if 0 < at.x < sheet.width and 0 < at.y < sheet.height - FOOT:
            bearing = float(feature.attributes.get("bearing_deg", 0.0))
            drawn.append(signs.small(feature.kind, at.x, at.y, bearing))
    return drawn


def _crowns(found: Findings, sheet: Sheet, names: Names) -> list[str]:
    """Planned trees: the crown to scale, dashed as wide as it may grow, the number in it."""
    if found.plan is None:
        return []
    study, drawn, texts = found.study, [], []
    for spot in found.spots:
        if spot.tree is None:
            continue
        spread = full_size(study.traits, study.ground.soils.fertility[[spot.place]]).spread
        usual, most = (float(spread[end, spot.tree.option, -1]) for end in (TYPICAL, HIGH))
        at = shapely.Point(spot.x, spot.y)
        drawn.append(signs.area(sheet.on(at.buffer(most / 2)), signs.SIGNS["may grow"]))
        drawn.append(signs.area(sheet.on(at.buffer(usual / 2)), signs.SIGNS["planned"]))
        point = sheet.on(at)
        radius = usual / 2 * 1000 / sheet.scale
        aside = 0.0 if radius > SIGN_WITHIN else radius + 2.8
        names.taken(
            shapely.box(
                point.x - radius,
                point.y - max(radius, 1.8),
                point.x + max(radius, aside + 2.6),
                point.y + max(radius, 1.8),
            )
        )
        texts.append(cased(spot.label, point.x + aside, point.y + 1.2, 3.4, BOLD))
    return [*drawn, *texts]


def _pegs(found: Findings, sheet: Sheet, names: Names) -> list[str]:
    """Pegs, numbered in the order of the survey; where a tree is planned stands its sign."""
    taken = {(round(s.x, 2), round(s.y, 2)) for s in found.spots} if found.plan else set()
    drawn = []
    for number, spot in enumerate(found.study.site.spots, start=1):
        at = sheet.on(shapely.Point(spot.x, spot.y))
        if (round(spot.x, 2), round(spot.y, 2)) not in taken:
            names.taken(at.buffer(2.0))
            drawn.append(_peg(at.x, at.y, str(number)))
    return drawn


def _peg(x: float, y: float, number: str) -> str:
    wide = 1.7 + 1.3 * len(number)
    return (
        f'<rect x="{x - wide / 2:.2f}" y="{y - 1.6:.2f}" width="{wide:.2f}" height="3.2" '
        f'fill="#ffffff" stroke="{signs.INK}" stroke-width="0.3"/>'
        f'<text x="{x:.2f}" y="{y + 0.95:.2f}" font-size="2.6" text-anchor="middle" '
        f'fill="{signs.INK}">{number}</text>'
    )


def _named(study: Study, sheet: Sheet, frame: BaseGeometry) -> list[tuple[str, BaseGeometry]]:
    """Names with what they belong to; a row of trees 'Poplar 1' to 'Poplar 8' has one name."""
    rows: dict[tuple[str, str], list[Any]] = {}
    for feature in study.site.features:
        if feature.kind in ("boundary", "soil_patch") and not feature.name:
            continue
        name = feature.name or _(KINDS[feature.kind].label)
        base = re.sub(r"[\s_-]*\d+$", "", name) or name
        rows.setdefault((feature.kind, base), []).append((name, sheet.on(feature.geometry)))
    found = []
    for (kind, base), members in rows.items():
        shape = shapely.union_all([one for _name, one in members]) & frame
        name = members[0][0] if len(members) == 1 else base
        if not shape.is_empty and kind != "boundary":
            found.append((name, shape))
    return found


def _scale_bar(sheet: Sheet, feet: bool) -> str:
    """North arrow, bar and scale, below the map."""
    unit, per = ("ft", 1000 / FEET) if feet else ("m", 1000.0)
    steps = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
    most = 0.3 * sheet.width
    length = max((one for one in steps if one * per / sheet.scale <= most), default=1)
    wide, y = length * per / sheet.scale, sheet.height - 5.2
    half = wide / 2
    x = 12.0
    text = f'font-size="2.8" fill="{signs.INK}"'
    bar = (
        f'<rect x="{x}" y="{y}" width="{half:.2f}" height="1.4" fill="{signs.INK}"/>'
        f'<rect x="{x}" y="{y}" width="{wide:.2f}" height="1.4" fill="none" '
        f'stroke="{signs.INK}" stroke-width="0.25"/>'
        f'<text x="{x}" y="{y + 4.4:.2f}" {text} text-anchor="middle">0</text>'
        f'<text x="{x + half:.2f}" y="{y + 4.4:.2f}" {text} text-anchor="middle">'
        f"{length / 2:g}</text>"
        f'<text x="{x + wide:.2f}" y="{y + 4.4:.2f}" {text} text-anchor="middle">'
        f"{length:g} {unit}</text>"
    )
    north = (
        f'<path d="M4,{y - 3.6:.2f}l1.6,5l-1.6,-1.2l-1.6,1.2z" fill="{signs.INK}"/>'
        f'<text x="4" y="{y + 4.4:.2f}" {text} text-anchor="middle" font-weight="bold">N</text>'
    )
    return (
        f'{north}{bar}<text x="{sheet.width - 1:.2f}" y="{y + 4.4:.2f}" {text} text-anchor="end">'
        f"1 : {sheet.scale}</text>"
    )
