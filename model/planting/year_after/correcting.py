"""A survey corrected by what a year on the land showed: soil and wet ground."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Point

from model.decision.updating import normal_update
from model.language import _, marked
from model.planting.year_after.evidence import WITHIN, Evidence, place_of
from model.planting.year_after.expected import MONTH, patch_at
from model.study import Study
from model.survey.feature import Feature
from model.survey.plus_minus import DEVIATIONS, SUFFIX
from model.survey.site import Site
from model.survey.soil import Soil

FIELDS = {"ph": ("ph", "pH", 1), "soil_depth": ("depth_cm", marked("soil depth in cm"), 0)}
ROUND_A_PEG = 3.0  # [m] of ground that one peg's wet speaks for (common practice, no source)
WORTH_DRAWING = 0.5  # [months] wetter than the map before it is drawn (common practice)


@dataclass(frozen=True)
class CorrectedSite:
    """The site with the survey values that evidence corrects, and each correction in words.

    `taken` are spot and thing of what it was corrected by.
    """

    site: Site
    said: tuple[str, ...]
    taken: tuple[tuple[str, str], ...] = ()


def updated_site(study: Study, evidence: Sequence[Evidence]) -> CorrectedSite:
    """The study's site, corrected: pH and depth of soil by precision, ground seen to stand wet.

    A peg speaks for the whole of its soil less surely than for itself: soil differs within a patch.
    What was drier than the weather and the slope say is not drawn, since nothing drawn can say so.
    """
    site, said, taken = study.site, list[str](), list[tuple[str, str]]()
    for one in evidence:
        place = place_of(study, one.spot)
        if place is None:
            continue
        if one.what in FIELDS and one.count:
            site, sentence = _soil(study, site, one, place)
        elif one.what == "wet_days":
            site, sentence = _wet(study, site, one, place)
        else:
            continue
        if sentence:
            said.append(sentence)
            taken.append((one.spot, one.what))
    return CorrectedSite(site, tuple(said), tuple(taken))


def _soil(study: Study, site: Site, one: Evidence, place: int) -> tuple[Site, str]:
    field, label, digits = FIELDS[one.what]
    number = patch_at(study, place)
    patches = site.of_kind("soil_patch")
    patch = patches[number] if number >= 0 else None
    before = patch.number(field) if patch else float(getattr(site.soil, field))
    said = patch.plus_minus(field) if patch else site.soil_plus_minus.get(field, math.nan)
    sd = said / DEVIATIONS if said > 0 else one.prior.sd
    off = math.hypot(one.seen_sd, WITHIN[one.what])
    belief = normal_update(before, sd, one.seen, off)
    value, spread = round(float(belief.mean), 2), round(DEVIATIONS * float(belief.sd), 2)
    if patch is None:
        site = replace(
            site,
            soil=_corrected_soil(site.soil, field, value),
            soil_plus_minus={**site.soil_plus_minus, field: spread},
        )
    else:
        changed = {field: value, field + SUFFIX: spread}
        new = replace(patch, attributes={**patch.attributes, **changed})
        site = _with(site, patch, new)
    name = (patch.name or _("the soil patch")) if patch else _("the soil in general")
    sentence = _("{figure} of {soil}: {before} to {after}, since {found} was found at {place}.")
    return site, sentence.format(
        figure=_(label),
        soil=name,
        before=f"{before:.{digits}f}",
        after=f"{value:.{digits}f}",
        found=f"{one.seen:.{digits}f}",
        place=one.spot,
    )


def _wet(study: Study, site: Site, one: Evidence, place: int) -> tuple[Site, str]:
    months = round(one.mean / MONTH, 1)
    point = Point(study.ground.places.x[place], study.ground.places.y[place])
    for patch in site.of_kind("wet_ground"):
        if patch.geometry.contains(point):
            before = patch.number("wet_months")
            spread = round(DEVIATIONS * one.sd / MONTH, 1)
            changed = {"wet_months": months, "wet_months" + SUFFIX: spread}
            new = replace(patch, attributes={**patch.attributes, **changed})
            sentence = _("wet months of {ground}: {before:g} to {after:g}, as seen at {place}.")
            name = patch.name or _("the wet ground")
            told = sentence.format(ground=name, before=before, after=months, place=one.spot)
            return _with(site, patch, new), told
    if months - one.prior.mean / MONTH < WORTH_DRAWING:
        return site, ""
    drawn = Feature(
        "wet_ground",
        _("wet ground seen at {place}").format(place=one.spot),
        point.buffer(ROUND_A_PEG),
        {"wet_months": months},
        _("a year's observations"),
    )
    sentence = _("wet ground of {months:g} months a year drawn round {place}, as seen there.")
    told = sentence.format(months=months, place=one.spot)
    return replace(site, features=(*site.features, drawn)), told


def _corrected_soil(soil: Soil, field: str, value: float) -> Soil:
    return replace(soil, ph=value) if field == "ph" else replace(soil, depth_cm=value)


def _with(site: Site, old: Feature, new: Feature) -> Site:
    features = tuple(new if feature is old else feature for feature in site.features)
    return replace(site, features=features)
