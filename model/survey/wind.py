"""The wind as a survey describes it in site.toml, for sites without hourly weather."""

from dataclasses import dataclass

from model.survey.attribute import REQUIRED, Attribute

POINTS = ("north", "north_east", "east", "south_east", "south", "south_west", "west", "north_west")
WIND_ATTRIBUTES = (
    Attribute("speed_m_s", "m/s", REQUIRED, 0.1, 30, (), "yearly mean, 10 m above open ground"),
    *(
        Attribute(
            point,
            "share",
            REQUIRED,
            0,
            1000,
            (),
            f"of the wind, from the {point}, any scale",
        )
        for point in POINTS
    ),
)


@dataclass(frozen=True)
class Wind:
    """Mean speed [m/s] and the share of the wind from each of `POINTS`, in any scale."""

    speed: float
    shares: tuple[float, ...]
