"""Soil as a survey describes it, of the whole site or of one patch."""

from dataclasses import dataclass

from model.survey.attribute import REQUIRED, Attribute

TEXTURES = (
    "sand",
    "loamy sand",
    "sandy loam",
    "loam",
    "silt loam",
    "silt",
    "sandy clay loam",
    "clay loam",
    "silty clay loam",
    "sandy clay",
    "silty clay",
    "clay",
)
FERTILITIES = ("poor", "ordinary", "rich")
SOIL_ATTRIBUTES = (
    Attribute(
        "texture", "", REQUIRED, choices=TEXTURES, meaning="texture class of the root zone (USDA)"
    ),
    Attribute(
        "fertility", "", "ordinary", choices=FERTILITIES, meaning="how well things grow there"
    ),
    Attribute(
        "depth_cm",
        "cm",
        REQUIRED,
        1,
        500,
        meaning="depth that roots can use, to rock, pan or standing water",
    ),
    Attribute("ph", "pH", REQUIRED, 3, 10, meaning="acidity, measured in water"),
)

# Where a laboratory measured both, they go before the texture found by hand.
LABORATORY = (
    Attribute("sand_percent", "%", float("nan"), 0, 100, (), "by weight; with clay"),
    Attribute("clay_percent", "%", float("nan"), 0, 100, (), "by weight; with sand"),
)


@dataclass(frozen=True)
class Soil:
    """The site's general soil; soil patches override it where they lie."""

    texture: str = "loam"
    fertility: str = "ordinary"
    depth_cm: float = 60.0
    ph: float = 6.5
