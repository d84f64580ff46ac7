"""The years of weather as fruit trees feel them: chill, heat, cold and rain."""

from dataclasses import dataclass

import numpy as np

from model.ground.weather_years import WeatherYears
from model.land import chill, heat, seasons, temperature

# Warmth beyond the optimum neither speeds nor slows ripening here: the falling side of the curve
# was fitted to spring buds (model choice: common practice, no source).
RIPENING = 25.0  # [C]


@dataclass(frozen=True)
class Climate:
    """What each year of weather gave, at a few temperature offsets from the station.

    `offsets` (offset,) [C] span the site's range of altitude. `chill` [portions], `utah` [units]
    and `chill_hours` [h] are (winter, offset), `heat` [GDH] (season, offset), `coldest` [C]
    (winter, offset), `rain` (year,) [mm]. `place_offset` (place,) [C] says how much warmer than
    the station each place is.
    """

    offsets: np.ndarray
    chill: np.ndarray
    utah: np.ndarray
    chill_hours: np.ndarray
    heat: np.ndarray
    coldest: np.ndarray
    rain: np.ndarray
    place_offset: np.ndarray

    def at_places(self, by_offset: np.ndarray) -> np.ndarray:
        """Values known by offset (offset,) read at every place (place,)."""
        return np.interp(self.place_offset, self.offsets, by_offset)


def climate_of(
    years: WeatherYears, station_altitude: float, latitude: float, altitude: np.ndarray
) -> Climate:
    """Chill, heat, cold and rain of every year, over the places' altitudes (place,)."""
    place_offset = temperature.station_to_place(altitude - station_altitude)
    offsets = np.linspace(np.nanmin(place_offset) - 0.01, np.nanmax(place_offset) + 0.01, 3)
    winter = _hours_first(
        seasons.by_season(years.hourly, seasons.dormant_season(latitude)), offsets
    )
    summer = _hours_first(
        seasons.by_season(years.hourly, seasons.growing_season(latitude)), offsets
    )
    return Climate(
        offsets=offsets,
        chill=chill.chill_portions(winter),
        utah=chill.utah_units(winter),
        chill_hours=chill.chill_hours(winter),
        heat=heat.growing_degree_hours(np.minimum(summer, RIPENING)),
        coldest=winter.min(axis=0),
        rain=years.rain.sum(axis=1),
        place_offset=place_offset,
    )


def _hours_first(of_seasons: np.ndarray, offsets: np.ndarray) -> np.ndarray:
    """Hours of each season (season, day, 24) shifted by each offset: (hour, season, offset)."""
    return of_seasons.reshape(len(of_seasons), -1).T[..., None] + offsets
