"""What the land is like at every place: the survey run through the physics when asked for."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cached_property, partial
from typing import TypeVar

import numpy as np

from model.ground.absent import absent_of
from model.ground.animal_runs import AnimalRuns, animal_runs_of
from model.ground.circles import RADII, Circles
from model.ground.climate import Climate, climate_of
from model.ground.drainage import Drainage, drainage_of, evapotranspiration_of, wet_ground_seen
from model.ground.frost import HOLDS, Frost, frost_of
from model.ground.fungi import fungal_links
from model.ground.obstacles import Obstacles, obstacles_of
from model.ground.partners import Partners, partners_of
from model.ground.places import Places, places_of
from model.ground.root_zones import RootZones, root_zones_of
from model.ground.services import Services, services_of
from model.ground.soil import Soils, soils_of
from model.ground.store import Store, usual_store
from model.ground.sun import Sun, SunnyPlace, standing_of, sun_of, sunny_places
from model.ground.views import Views, views_of
from model.ground.walk import BARRIERS, walk_of
from model.ground.watering import SOURCES, Watering, sources_named, watering_of
from model.ground.weather_years import WeatherYears, weather_years
from model.ground.wind import rose_of, wind_of
from model.land import terrain
from model.land.shade import Standing
from model.land.slope_light import slope_light
from model.survey.site import Site
from model.trees import Catalogue

__all__ = ["Ground", "given"]

Known = TypeVar("Known")


def given(field: Known | None) -> Known:
    """A field of the ground that a factor needs; ValueError where the survey did not give it."""
    if field is None:
        raise ValueError(
            "this part of the ground is absent: ask Ground.absent before judging by it"
        )
    return field


class Ground:
    """The land at every place, each field as the glossary says, computed when first asked for.

    A field that the survey gives no grounds for is None, and `absent` says why in words.
    """

    def __init__(self, site: Site, catalogue: Catalogue, store: Store | None = None) -> None:
        self.site, self.catalogue = site, catalogue
        self.store = store or usual_store()
        self.latitude = site.latitude
        self.absent: Mapping[str, str] = absent_of(site)

    @cached_property
    def places(self) -> Places:
        """Grid cells and pegs."""
        return places_of(self.site)

    @cached_property
    def altitude(self) -> np.ndarray:
        """Height of the ground (place,) [m]."""
        return self.surface(self.places.x, self.places.y)

    @cached_property
    def surface(self) -> Callable[[np.ndarray, np.ndarray], np.ndarray]:
        """Height of the ground at any points [m]; level at the site's altitude when unsurveyed."""
        if self.site.heights is None:
            return lambda x, _: np.full(np.shape(x), self.site.altitude)
        return self.site.heights.surface

    @cached_property
    def relief(self) -> np.ndarray:
        """Height of the ground over the grid (y, x) [m]."""
        return self.places.grid(self.altitude)

    @cached_property
    def slope(self) -> np.ndarray:
        """Rise over run (place,)."""
        return self.places.at_places(terrain.slope(self.relief, self.places.cell))

    @cached_property
    def aspect(self) -> np.ndarray:
        """Bearing downhill (place,) [degrees]."""
        return self.places.at_places(terrain.aspect(self.relief, self.places.cell))

    @cached_property
    def steepness(self) -> Circles:
        """Steepest slope in circles."""
        slope = terrain.slope(self.relief, self.places.cell)
        return Circles(self.places.at_places(terrain.steepest(slope, self.places.cell, RADII)))

    @cached_property
    def soils(self) -> Soils:
        """Fertility, depth, acidity and texture."""
        return soils_of(self.site, self.places.x, self.places.y)

    @cached_property
    def obstacles(self) -> Obstacles:
        """What limits a crown's room."""
        return obstacles_of(self.site, self.catalogue, self.places.x, self.places.y)

    @cached_property
    def roots(self) -> RootZones:
        """Neighbours' feeding roots."""
        return root_zones_of(self.site, self.catalogue, self.places)

    @cached_property
    def partners(self) -> Partners:
        """Fruit trees that already stand there."""
        return partners_of(self.site, self.places.x, self.places.y)

    @cached_property
    def fungi(self) -> np.ndarray:
        """Link to established hosts (type, place)."""
        return fungal_links(self.site, self.catalogue, self.places.x, self.places.y)

    @cached_property
    def sun(self) -> Sun:
        """Direct sun by month, neighbours full grown."""
        return self._sun_with(self.standing)

    @cached_property
    def sun_now(self) -> Sun:
        """Direct sun by month, neighbours as they stand now."""
        return self._sun_with(self.standing_now)

    def _sun_with(self, standing: Standing) -> Sun:
        inputs = (self.latitude, self.places, self.altitude, standing)
        compute = partial(sun_of, self.places, self.altitude, standing, self.latitude)
        return self.store.kept(Sun, inputs, compute)

    @cached_property
    def standing(self) -> Standing:
        """All that throws shade, neighbours at their full size."""
        return standing_of(self.site, self.catalogue, self.places, self.relief, self.surface)

    @cached_property
    def standing_now(self) -> Standing:
        """All that throws shade, neighbours as they stand now."""
        where = (self.places, self.relief, self.surface)
        return standing_of(self.site, self.catalogue, *where, grown=False)

    @cached_property
    def light(self) -> np.ndarray:
        """Light on the sloping ground of a cloudless day by month (month, place) [MJ/m2]."""
        inside = np.flatnonzero(self.places.inside)
        eyes = np.column_stack([self.places.x, self.places.y, self.altitude])[inside]
        facing = self.slope[inside], self.aspect[inside]
        light = np.full((12, self.places.x.size), np.nan)
        light[:, inside] = slope_light(eyes, *facing, self.standing, self.latitude).total
        return light

    @cached_property
    def sun_wanted(self) -> tuple[SunnyPlace, ...] | None:
        """Beds, panels and windows that want their sun."""
        if "sun_wanted" in self.absent:
            return None
        return sunny_places(self.site, self.surface, self.standing)

    @cached_property
    def years(self) -> WeatherYears | None:
        """Whole years of weather."""
        if self.site.weather is None:
            return None
        return weather_years(self.site.weather, self.latitude)

    @cached_property
    def evapotranspiration(self) -> np.ndarray | None:
        """Reference evapotranspiration (year, day) [mm]."""
        return evapotranspiration_of(self.years, self.site) if self.years else None

    @cached_property
    def climate(self) -> Climate | None:
        """Chill, heat, cold and rain of every year."""
        if self.site.weather is None:
            return None
        station = self.site.weather.station_altitude
        inputs = (self.site.weather, self.latitude, self.altitude)
        return self.store.kept(
            Climate,
            inputs,
            lambda: climate_of(given(self.years), station, self.latitude, self.altitude),
        )

    @cached_property
    def frost(self) -> Frost | None:
        """Nights of every spring."""
        if self.climate is None:
            return None
        offset = self.climate.place_offset
        barriers = self.site.of_kind(*HOLDS, "gate", "watercourse")
        inputs = (self.site.weather, self.latitude, self.places, self.altitude, barriers)
        return self.store.kept(
            Frost,
            inputs,
            lambda: frost_of(self.site, self.places, self.relief, given(self.years), offset),
        )

    @cached_property
    def wet_months(self) -> np.ndarray:
        """Months a year that the root zone stands wet, as seen or as reckoned (place,)."""
        seen = wet_ground_seen(self.site, self.places.x, self.places.y)
        if self.years is None or self.evapotranspiration is None:
            return seen
        rain, use = self.years.rain, self.evapotranspiration
        inputs = (self.places, self.altitude, self.soils, rain, use)
        compute = partial(drainage_of, self.places, self.relief, self.soils, rain, use)
        return np.fmax(seen, self.store.kept(Drainage, inputs, compute).months)

    @cached_property
    def watering(self) -> Watering | None:
        """Water that a young tree lacks, and where it comes from."""
        if "watering" in self.absent:
            return None
        years, use = given(self.years), given(self.evapotranspiration)
        walked = self.site.of_kind(*SOURCES, *BARRIERS, "gate", "path", "boundary")
        inputs = (self.latitude, self.places, self.altitude, self.soils, walked, years.rain, use)
        kept = self.store.kept(
            Watering,
            inputs,
            lambda: watering_of(self.site, self.places, self.relief, self.soils, years, use),
        )
        # What has no name is called by its kind, in the language of today.
        return replace(kept, labels=sources_named(self.site))

    @cached_property
    def walk(self) -> np.ndarray | None:
        """Walking time from the hub and back (place,) [s]."""
        hub = self.site.hub
        return walk_of(self.site, hub, self.places, self.relief) if hub else None

    @cached_property
    def wind(self) -> np.ndarray | None:
        """Share of open wind left (place,)."""
        rose = rose_of(self.site)
        if rose is None:
            return None
        return wind_of(self.site, self.catalogue, self.places, self.relief, rose)

    @cached_property
    def views(self) -> Views | None:
        """Valued windows and what already stands in them."""
        if "views" in self.absent:
            return None
        return views_of(self.site, self.catalogue, self.places, self.relief, self.surface)

    @cached_property
    def services(self) -> Services | None:
        """Pipes, cables and lines."""
        return services_of(self.site, self.places.x, self.places.y)

    @cached_property
    def animal_runs(self) -> AnimalRuns | None:
        """The lines that animals walk."""
        return animal_runs_of(self.site, self.places.x, self.places.y)
