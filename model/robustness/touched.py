"""Which fields of the ground follow from which figure of the survey."""

from model.ground.frost import HOLDS, LOW
from model.robustness.doubt import Doubt
from model.survey.site import Site

SHADE = frozenset({"standing", "standing_now", "sun", "sun_now", "light", "sun_wanted"})
SEEN = SHADE | {"wind", "views"}
TREES = SEEN | {"roots", "fungi"}
IN_THE_WAY = frozenset({"obstacles", "walk", "watering"})
SOIL = frozenset({"soils", "wet_months", "watering"})
BY_KIND: dict[str, frozenset[str]] = {
    "neighbour_tree": TREES | {"obstacles"},
    "woodland": TREES,
    "hedge": TREES,
    "building": SEEN,
    "wall": SEEN,
    "fence": frozenset({"wind"}),
    "tank": frozenset({"watering"}),
    "wet_ground": frozenset({"wet_months"}),
    "soil_patch": SOIL,
    "grassland": frozenset({"fungi"}),
    "sun_wanted": frozenset({"sun_wanted"}),
    "buried_service": frozenset({"services"}),
    "overhead_line": frozenset({"services"}),
    "animal_run": frozenset({"animal_runs"}),
    "view": frozenset({"views"}),
}
BY_WIDTH: dict[str, frozenset[str]] = {
    "hedge": IN_THE_WAY | {"roots"},
    "wall": IN_THE_WAY,
    "fence": IN_THE_WAY,
    "path": IN_THE_WAY,
    "gate": IN_THE_WAY | {"frost"},
    "watercourse": IN_THE_WAY | {"frost"},
}


def fields_touched(site: Site, doubt: Doubt, moved: Site) -> frozenset[str]:
    """The fields of the ground that a moved figure changes, or may change."""
    subject = doubt.subject
    if subject.rootstock:
        return frozenset()
    if subject.attribute == "ph":
        return frozenset({"soils"})
    if subject.feature < 0:
        return SOIL
    kind = site.features[subject.feature].kind
    if subject.attribute == "width_m":
        return BY_WIDTH[kind]
    held = _held(site, subject.feature) != _held(moved, subject.feature)
    return BY_KIND[kind] | ({"frost"} if held else set())


def _held(site: Site, number: int) -> float:
    """Height that holds cold air back [m]; above a low one nothing more is held."""
    feature = site.features[number]
    return min(feature.number("height_m"), LOW) if feature.kind in HOLDS else 0.0
