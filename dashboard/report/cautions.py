"""The cautions of a report, all of them, with what the survey shows near these very trees."""

import re

import shapely

from dashboard.report.findings import Findings
from dashboard.report.tags import pairs, tag
from dashboard.units import spoken
from model.language import _, marked
from model.planting.dates.service_cautions import BEFORE_DIGGING, UNDER_A_LINE, services_near

NEAR_A_BUILDING = 15.0  # [m] within which one is named; not a safe distance (common practice)
STEEP = 10.0  # percent from which the ground is named as a slope (common practice, no source)
# In round brackets; a place's name may have some of its own: "(12.5 m north (4°) of Gate)".
ASIDE = re.compile(r" \((?:[^()]|\([^()]*\))*\)")
FIRST = marked(
    "Local codes, the operators of services and licensed practice come before everything said "
    "here. This report judges where trees would do well; it is no survey of services, structures "
    "or slopes, and no permission."
)
FOUND = marked(
    "A pipe or cable found: stop digging, do not touch it, keep people away and call its operator. "
    "Smell of gas: no flame, no switch, leave and call the emergency number."
)
LADDERS = marked(
    "Gloves, and goggles under branches. Only a sound ladder on firm, level ground, a second "
    "person at its foot, never leaning into the crown; work at height and "
    "with powered saws is for trained people."
)
SLOPES = marked(
    "Ladders and ride-on mowers tip on slopes: follow their makers' limits and local safety rules. "
    "Banks and steps of earth are for whoever can say that they hold."
)
BUILDINGS = marked(
    "Roots and shrinking clay can harm foundations, drains and walls. Ask a structural engineer or "
    "the building authority before planting near a building, above all on clay."
)
WATER = marked(
    "Open tanks, ponds and brooks drown children: cover or fence them. Water from a tank or brook "
    "is not for drinking; taking it, and planting on a bank, may need leave."
)
LIME = marked(
    "Lime, sulphur and sprays: only by a soil test and the label, with gloves, goggles and mask, "
    "on a windless day, away from water, children and animals."
)
RULES = marked(
    "Distances from boundaries, protected trees and habitats, and felling are matters of local "
    "law; large trees are for licensed arborists."
)


def cautions(found: Findings, *, feet: bool) -> str:
    """The section near the front that cannot be left out."""
    lines = [
        (_("Before anyone digs"), f"{_(BEFORE_DIGGING)} {_(FOUND)}{_near(found, overhead=False)}"),
        (_("Overhead lines"), f"{_(UNDER_A_LINE)}{_near(found, overhead=True)}"),
        (_("Ladders and tools"), _(LADDERS)),
        (_("Slopes"), f"{_(SLOPES)}{_steep(found)}"),
        (_("Buildings, walls and drains"), f"{_(BUILDINGS)}{_buildings(found)}"),
        (_("Water"), _(WATER)),
        (_("Lime, sulphur and sprays"), _(LIME)),
        (_("Boundaries and protected trees"), _(RULES)),
    ]
    lines.append((_("Also"), " ".join(_told(found))))
    shown = [(name, spoken(said, feet)) for name, said in lines]
    return (
        f'<section class="cautions" id="cautions">{tag("h2", _("Cautions, before any work"))}'
        f"{tag('p', _(FIRST), 'first')}{pairs(shown)}</section>"
    )


def _told(found: Findings) -> list[str]:
    """Sentences of the calendar's own cautions that are not said above, each once."""
    first = _("Look for services first: see the task of marking the holes.")
    texts = (*map(_, (BEFORE_DIGGING, UNDER_A_LINE, SLOPES, LADDERS)), first)
    plain = (ASIDE.sub("", one) for one in found.calendar["caution"] if one)
    said = dict.fromkeys(one for text in plain for one in re.split(r"(?<=\.) ", text))
    return [one for one in said if not any(one in text or one.startswith(text) for text in texts)]


def _near(found: Findings, *, overhead: bool) -> str:
    """What the survey shows near these trees; that it shows nothing is no promise."""
    if found.study.ground.services is None:
        return " " + _("The survey draws no service at all: that is not to say that there is none.")
    near = services_near(found.study, found.trees, overhead=overhead)
    if not near:
        return " " + _("The survey shows none within 15 m of these trees.")
    return " " + _("On this survey: {near}.").format(near="; ".join(near))


def _buildings(found: Findings) -> str:
    near = []
    for building in found.study.site.of_kind("building"):
        for tree in found.trees:
            away = building.geometry.distance(shapely.Point(tree.x, tree.y))
            if away <= NEAR_A_BUILDING:
                said = _("{building} {away:.1f} m from {place}")
                name = building.name or _("building")
                near.append(said.format(building=name, away=away, place=tree.name))
    return " " + _("On this survey: {near}.").format(near="; ".join(near)) if near else ""


def _steep(found: Findings) -> str:
    names = [factor.name for factor in found.study.factors]
    if "slope" not in names:
        return ""
    measure = found.study.measure("slope")
    steep = []
    for tree in found.trees:
        percent = float(measure[min(tree.option, len(measure) - 1), tree.place])
        if percent >= STEEP:
            steep.append(f"{tree.name} {percent:.0f} %")
    return " " + _("Steep here: {near}.").format(near="; ".join(steep)) if steep else ""
