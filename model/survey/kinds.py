"""The kinds of feature a survey may hold, with every attribute, unit, default and limit."""

import math
from dataclasses import dataclass

from model.survey.attribute import REQUIRED, Attribute, Required
from model.survey.soil import LABORATORY, SOIL_ATTRIBUTES


@dataclass(frozen=True)
class FeatureKind:
    """What a kind of feature is drawn as and what must be known of it."""

    name: str
    label: str
    geometry: tuple[str, ...]
    attributes: tuple[Attribute, ...]
    meaning: str

    def attribute(self, name: str) -> Attribute | None:
        """The attribute of that name, None when the kind has none."""
        return next((one for one in self.attributes if one.name == name), None)


def _length(
    name: str,
    meaning: str,
    default: float | Required = REQUIRED,
    low: float = 0.01,
    high: float = 100.0,
) -> Attribute:
    return Attribute(name, "m", default, low, high, meaning=meaning)


def _number(name: str, unit: str, span: tuple[float, float], meaning: str) -> Attribute:
    return Attribute(name, unit, REQUIRED, *span, meaning=meaning)


def _choice(name: str, choices: tuple[str, ...], meaning: str) -> Attribute:
    return Attribute(name, "", REQUIRED, choices=choices, meaning=meaning)


SPECIES_LIST = Attribute(
    "species", "", REQUIRED, meaning="what grows there, several separated by ; as in oak;birch"
)
_ALL = (
    FeatureKind(
        "neighbour_tree",
        "Neighbour tree",
        ("Point",),
        (
            Attribute("species", "", REQUIRED, meaning="what tree it is"),
            Attribute("cultivar", "", "", meaning="of a fruit tree, if known; it may pollinate"),
            _length("height_m", "height now", low=0.1),
            _length("crown_m", "spread of the crown now, edge to edge", low=0.1),
            _length(
                "full_height_m", "height full-grown; blank takes the species' own", math.nan, 0.1
            ),
            _length(
                "full_crown_m", "spread full-grown; blank takes the species' own", math.nan, 0.1
            ),
        ),
        "a single tree that already stands, drawn at its stem",
    ),
    FeatureKind(
        "woodland",
        "Woodland",
        ("Polygon",),
        (SPECIES_LIST, _length("height_m", "height of the canopy", low=0.1)),
        "a wood, copse or belt of trees, drawn round the stems",
    ),
    FeatureKind(
        "hedge",
        "Hedge",
        ("LineString",),
        (
            SPECIES_LIST,
            _length("height_m", "height as kept", high=30),
            _length("width_m", "width as kept", 1.5, high=30),
        ),
        "a hedge, drawn along its middle",
    ),
    FeatureKind(
        "building",
        "Building",
        ("Polygon",),
        (
            _length("height_m", "height of the ridge or parapet"),
            Attribute("use", "", "", meaning="what it is used for"),
        ),
        "a house, barn, shed or glasshouse, drawn round its walls",
    ),
    FeatureKind(
        "wall",
        "Wall",
        ("LineString",),
        (
            _length("height_m", "height", high=30),
            _length("width_m", "thickness", 0.3, high=10),
        ),
        "a solid wall, drawn along its middle",
    ),
    FeatureKind(
        "fence",
        "Fence",
        ("LineString",),
        (
            _length("height_m", "height", high=30),
            _length("width_m", "thickness", 0.1, high=10),
        ),
        "a fence that one cannot walk through, drawn along its middle",
    ),
    FeatureKind(
        "path",
        "Path",
        ("LineString",),
        (
            _length("width_m", "width", high=50),
            Attribute(
                "surface",
                "",
                "grass",
                choices=("grass", "gravel", "paved", "earth"),
                meaning="what one walks on",
            ),
        ),
        "a path, track or lane, drawn along its middle",
    ),
    FeatureKind(
        "gate",
        "Gate",
        ("Point",),
        (_length("width_m", "clear width", 1.2, 0.3, 20),),
        "opens the wall, fence, hedge or watercourse it stands on; on a watercourse it is a bridge",
    ),
    FeatureKind("tap", "Tap", ("Point",), (), "a water tap"),
    FeatureKind(
        "tank",
        "Tank",
        ("Point",),
        (_number("capacity_l", "litres", (1, 10_000_000), "what it holds when full"),),
        "a water tank, butt or pond one can draw from",
    ),
    FeatureKind(
        "watercourse",
        "Watercourse",
        ("LineString",),
        (_length("width_m", "width between the banks"),),
        "a brook, ditch or river, drawn along its middle",
    ),
    FeatureKind(
        "wet_ground",
        "Wet ground",
        ("Polygon",),
        (_number("wet_months", "months a year", (0, 12), "how long the root zone stands wet"),),
        "ground seen to lie wet",
    ),
    FeatureKind(
        "soil_patch",
        "Soil patch",
        ("Polygon",),
        (*SOIL_ATTRIBUTES, *LABORATORY),
        "ground whose soil differs from that of the rest, which [soil] in site.toml describes",
    ),
    FeatureKind(
        "grassland",
        "Grassland",
        ("Polygon",),
        (_number("age_years", "years", (0, 1000), "how long it has been grass without ploughing"),),
        "permanent grass or meadow, whose age tells how well its soil life is established",
    ),
    FeatureKind(
        "sun_wanted",
        "Sun wanted",
        ("Polygon",),
        (
            _length(
                "height_m", "height above the ground at which it wants its sun", 0.5, 0.01, 20.0
            ),
        ),
        "a bed, panel or window that should keep its sun",
    ),
    FeatureKind(
        "buried_service",
        "Buried service",
        ("LineString",),
        (
            _choice("service", ("water", "gas", "electricity", "drain", "telecoms"), "what it is"),
            _length("clearance_m", "no tree nearer than this; ask the operator", high=50),
        ),
        "a pipe or cable in the ground as far as known; have it located before anyone digs",
    ),
    FeatureKind(
        "overhead_line",
        "Overhead line",
        ("LineString",),
        (
            _length("height_m", "height of the lowest wire above the ground"),
            _choice("service", ("electricity", "telecoms"), "what it carries"),
        ),
        "wires overhead; their operator says how near a tree, a ladder or a person may come",
    ),
    FeatureKind(
        "animal_run",
        "Animal run",
        ("LineString",),
        (Attribute("animal", "", REQUIRED, meaning="what walks there, such as deer"),),
        "a line that browsing animals keep to",
    ),
    FeatureKind(
        "view",
        "View",
        ("Point",),
        (
            _number("bearing_deg", "degrees", (0, 360), "middle of the view, clockwise from north"),
            _number("width_deg", "degrees", (1, 360), "from its left to its right edge"),
            Attribute("low_deg", "degrees", -5.0, -90, 90, (), "lower edge above the level"),
            Attribute("high_deg", "degrees", 10.0, -90, 90, (), "upper edge above the level"),
            Attribute("eye_height_m", "m", 1.6, 0, 100, (), "the eye above the ground"),
            _length("range_m", "how far off a tree still matters", 150.0, 1, 5000),
            _choice("wish", ("keep", "screen"), "keep the view open, or screen it"),
            Attribute("importance", "", 1.0, 0, 1, (), "1 matters fully, 0 not at all"),
        ),
        "what is seen from a place: a view to keep or one to screen, drawn where the eye is",
    ),
    FeatureKind(
        "boundary",
        "Boundary",
        ("Polygon",),
        (Attribute("ownership", "", "", meaning="whose land it is"),),
        "the edge of the land to be judged; one at most",
    ),
    FeatureKind(
        "keep_clear",
        "Keep-clear area",
        ("Polygon",),
        (Attribute("reason", "", REQUIRED, meaning="why no tree may stand there"),),
        "ground to be kept free of trees",
    ),
)

KINDS: dict[str, FeatureKind] = {kind.name: kind for kind in _ALL}
