"""What the land is like at every place: the survey run through the physics."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from model.ground.absent import absent_of
from model.ground.animal_runs import AnimalRuns, animal_runs_of
from model.ground.circles import RADII, Circles
from model.ground.climate import Climate, climate_of
from model.ground.drainage import evapotranspiration_of, wet_ground_seen, wet_months_of
from model.ground.frost import Frost, frost_of
from model.ground.fungi import fungal_links
from model.ground.obstacles import Obstacles, obstacles_of
from model.ground.places import Places, places_of
from model.ground.root_zones import RootZones, root_zones_of
from model.ground.services import Services, services_of
from model.ground.soil import Soils, soils_of
from model.ground.sun import Sun, sun_of
from model.ground.views import Views, views_of
from model.ground.walk import walk_of
from model.ground.watering import SOURCES, Watering, watering_of
from model.ground.weather_years import weather_years
from model.ground.wind import rose_of, wind_of
from model.land import terrain
from model.survey.site import Site
from model.trees import Catalogue

__all__ = ["Ground", "given", "ground_of"]

Known = TypeVar("Known")


@dataclass(frozen=True)
class Ground:
    """The land at every place, each field as the glossary says.

    A field that the survey gives no grounds for is None, and `absent` says why in words.
    """

    latitude: float
    places: Places
    altitude: np.ndarray
    slope: np.ndarray
    aspect: np.ndarray
    soils: Soils
    steepness: Circles
    obstacles: Obstacles
    roots: RootZones
    fungi: np.ndarray
    wet_months: np.ndarray
    climate: Climate | None
    walk: np.ndarray | None
    views: Views | None
    services: Services | None
    animal_runs: AnimalRuns | None
    wind: np.ndarray | None
    watering: Watering | None
    frost: Frost | None
    sun: Sun
    shaded: Sun | None
    absent: Mapping[str, str]


@dataclass(frozen=True)
class Weathered:
    """The parts of the ground that need a weather record; nothing without one."""

    wet_months: np.ndarray | float = 0.0
    climate: Climate | None = None
    frost: Frost | None = None
    watering: Watering | None = None


def given(field: Known | None) -> Known:
    """A field of the ground that a factor needs; ValueError where the survey did not give it."""
    if field is None:
        raise ValueError(
            "this part of the ground is absent: ask Ground.absent before judging by it"
        )
    return field


def ground_of(site: Site, catalogue: Catalogue) -> Ground:
    """The land of a site at every place; whatever the survey lacks is absent in words."""
    places = places_of(site)
    surface = _surface(site)
    altitude = surface(places.x, places.y)
    z = places.grid(altitude)
    slope = terrain.slope(z, places.cell)
    rose = rose_of(site)
    sun = sun_of(site, catalogue, places, z, surface)
    soils = soils_of(site, places.x, places.y)
    weathered = _weathered(site, places, z, soils) if site.weather else Weathered()
    return Ground(
        latitude=site.latitude,
        places=places,
        altitude=altitude,
        slope=places.at_places(slope),
        aspect=places.at_places(terrain.aspect(z, places.cell)),
        soils=soils,
        steepness=Circles(places.at_places(terrain.steepest(slope, places.cell, RADII))),
        obstacles=obstacles_of(site, catalogue, places.x, places.y),
        roots=root_zones_of(site, catalogue, places),
        fungi=fungal_links(site, catalogue, places.x, places.y),
        wet_months=np.fmax(wet_ground_seen(site, places.x, places.y), weathered.wet_months),
        sun=sun,
        climate=weathered.climate,
        frost=weathered.frost,
        watering=weathered.watering,
        walk=walk_of(site, site.hub, places, z) if site.hub else None,
        wind=wind_of(site, catalogue, places, z, rose) if rose is not None else None,
        views=views_of(site, catalogue, places, z, surface) if site.of_kind("view") else None,
        shaded=sun if sun.wanted else None,
        services=services_of(site, places.x, places.y),
        animal_runs=animal_runs_of(site, places.x, places.y),
        absent=absent_of(site),
    )


def _weathered(site: Site, places: Places, z: np.ndarray, soils: Soils) -> Weathered:
    """What the years of weather make of the land; `z` (y, x) [m]."""
    weather = given(site.weather)
    years = weather_years(weather, site.latitude)
    altitude = places.at_places(z)
    climate = climate_of(years, weather.station_altitude, site.latitude, altitude)
    use = evapotranspiration_of(years, site, weather.station_altitude)
    from_source = bool(site.of_kind(*SOURCES))
    return Weathered(
        wet_months=wet_months_of(places, z, soils, years.rain, use),
        climate=climate,
        frost=frost_of(site, places, z, years, climate.place_offset),
        watering=watering_of(site, places, z, soils, years, use) if from_source else None,
    )


def _surface(site: Site) -> Callable[[np.ndarray, np.ndarray], np.ndarray]:
    """Height of the ground at any points [m]; level at the site's altitude when unsurveyed."""
    if site.heights is None:
        return lambda x, _: np.full(np.shape(x), site.altitude)
    return site.heights.surface
