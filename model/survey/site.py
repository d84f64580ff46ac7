"""A site: one piece of land as surveyed."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

import shapely
from shapely.geometry import Point, Polygon

from model.survey.feature import SAME_PLACE, Feature, same_feature
from model.survey.frame import Frame
from model.survey.heights import Heights, Plane, same_heights
from model.survey.soil import Soil
from model.survey.weather import Weather, same_weather
from model.survey.wind import Wind

__all__ = ["Site", "Soil", "Spot", "same_features", "same_site", "same_spots"]

MARGIN = 20.0  # m round everything drawn, when no boundary is


@dataclass(frozen=True)
class Spot:
    """A pegged position a tree could stand at, x east and y north of the origin [m]."""

    name: str
    x: float
    y: float
    note: str = ""


@dataclass(frozen=True, eq=False)
class Site:
    """One piece of land as surveyed, in local metres about its latitude and longitude.

    `soil_plus_minus` says by the soil's figure how far it may be off, where that is known.
    Two sites are equal only when they are the same object; `same_site` compares what they say.
    """

    name: str
    latitude: float
    longitude: float
    altitude: float
    timezone: str
    cell: float = 2.0
    hub: tuple[float, float] | None = None
    soil: Soil = field(default_factory=Soil)
    soil_plus_minus: Mapping[str, float] = field(default_factory=dict)
    wind: Wind | None = None
    features: tuple[Feature, ...] = ()
    heights: Heights | None = None
    weather: Weather | None = None
    spots: tuple[Spot, ...] = ()
    options: tuple[tuple[str, str, str], ...] = ()
    absent: Mapping[str, str] = field(default_factory=dict)
    folder: Path | None = None

    def __post_init__(self) -> None:
        if isinstance(self.heights, Plane):
            # a plane has no height of its own: it passes through the origin at the site's altitude
            object.__setattr__(self, "heights", replace(self.heights, altitude=self.altitude))

    @property
    def frame(self) -> Frame:
        """The local frame, to project to and from other coordinate systems."""
        return Frame(self.latitude, self.longitude)

    def of_kind(self, *kinds: str) -> tuple[Feature, ...]:
        """The features of these kinds, in the order surveyed."""
        return tuple(feature for feature in self.features if feature.kind in kinds)

    @cached_property
    def boundary(self) -> Polygon:
        """The land to be judged: the boundary drawn, or else all within 20 m of what is drawn."""
        drawn = self.of_kind("boundary")
        return shapely.get_parts(drawn[0].geometry)[0] if drawn else _surroundings(self)


def same_site(one: Site, other: Site) -> bool:
    """Whether two sites say the same: places within 1 mm, all else to the last digit that counts.

    The folder, the file a feature came from and the sentences on absent files are no part of it.
    """
    figures = [
        (site.name, site.latitude, site.longitude, site.altitude, site.timezone, site.cell)
        for site in (one, other)
    ]
    return (
        figures[0] == figures[1]
        and one.soil == other.soil
        and one.soil_plus_minus == other.soil_plus_minus
        and one.wind == other.wind
        and one.options == other.options
        and _same_hub(one.hub, other.hub)
        and same_features(one.features, other.features)
        and same_spots(one.spots, other.spots)
        and same_heights(one.heights, other.heights)
        and same_weather(one.weather, other.weather)
    )


def same_features(one: tuple[Feature, ...], other: tuple[Feature, ...]) -> bool:
    """Whether two lists of features say the same in the same order."""
    return len(one) == len(other) and all(map(same_feature, one, other))


def same_spots(one: tuple[Spot, ...], other: tuple[Spot, ...]) -> bool:
    """Whether two lists of spots have the same names and notes, places within 1 mm."""
    return len(one) == len(other) and all(
        (a.name, a.note) == (b.name, b.note) and _near((a.x, a.y), (b.x, b.y))
        for a, b in zip(one, other, strict=True)
    )


def _same_hub(one: tuple[float, float] | None, other: tuple[float, float] | None) -> bool:
    if one is None or other is None:
        return one is other
    return _near(one, other)


def _near(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return Point(one).distance(Point(other)) <= SAME_PLACE


def _surroundings(site: Site) -> Polygon:
    drawn = [feature.geometry for feature in site.features]
    drawn += [Point(spot.x, spot.y) for spot in site.spots]
    if site.hub is not None:
        drawn.append(Point(site.hub))
    if not drawn:
        drawn.append(Point(0, 0))
    hull = shapely.GeometryCollection(drawn).convex_hull.buffer(MARGIN)
    return Polygon(shapely.get_coordinates(hull))
