"""Every land layer as a raster that any GIS reads."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import rasterio
from rasterio.io import DatasetWriter
from rasterio.transform import from_origin

from model.ground import Ground
from model.ground.places import extent_of
from model.land.sun_patches import summer_months, winter_months
from model.survey.site import Site


@dataclass(frozen=True)
class LandLayer:
    """One quantity of the land by place: file name, unit, meaning, and how to take it (place,).

    `whole` says that it hangs on all the land between, so that no part can be reckoned by itself.
    """

    name: str
    unit: str
    meaning: str
    values: Callable[[Ground], np.ndarray | None]
    whole: bool = False


def _climate(quantity: str) -> Callable[[Ground], np.ndarray | None]:
    """Median over the years of a quantity of the climate (place,)."""

    def values(ground: Ground) -> np.ndarray | None:
        if ground.climate is None:
            return None
        years = getattr(ground.climate, quantity)
        return ground.climate.at_places(np.nanmedian(years, axis=0))

    return values


def _sun(
    quantity: str, months: Callable[[float], tuple[int, ...]]
) -> Callable[[Ground], np.ndarray]:
    """Mean over some months of a quantity of the sun (place,)."""
    return lambda g: g.sun.a_day(getattr(g.sun, quantity), months(g.latitude))


def _first(table: np.ndarray | None) -> np.ndarray | None:
    """Nearest of several things (thing, place) to each place (place,)."""
    return None if table is None else table.min(axis=0)


LAYERS: tuple[LandLayer, ...] = (
    LandLayer("altitude", "m", "height of the ground above sea level", lambda g: g.altitude),
    LandLayer("slope", "%", "slope, rise over run (Horn 1981)", lambda g: 100 * g.slope),
    LandLayer(
        "aspect", "degrees", "bearing of the downhill direction (Horn 1981)", lambda g: g.aspect
    ),
    LandLayer(
        "summer_sun",
        "h/day",
        "direct sun, growing season, by strength",
        _sun("strong", summer_months),
    ),
    LandLayer(
        "winter_sun", "h/day", "direct sun in winter, cloudless", _sun("hours", winter_months)
    ),
    LandLayer(
        "morning_sun",
        "h/day",
        "direct sun before ten, growing season",
        _sun("morning", summer_months),
    ),
    LandLayer(
        "summer_light",
        "MJ/m2 day",
        "light on the sloping ground, growing season, cloudless",
        lambda g: g.light[list(summer_months(g.latitude))].mean(axis=0),
    ),
    LandLayer(
        "winter_light",
        "MJ/m2 day",
        "light on the sloping ground, winter, cloudless",
        lambda g: g.light[list(winter_months(g.latitude))].mean(axis=0),
    ),
    LandLayer("winter_chill", "portions", "median winter chill (Dynamic Model)", _climate("chill")),
    LandLayer("season_heat", "C h", "median growing degree hours of the season", _climate("heat")),
    LandLayer("coldest_night", "C", "median of the winters' coldest hours", _climate("coldest")),
    LandLayer(
        "clear_night_warmth",
        "K",
        "warmth against the station on calm clear nights",
        lambda g: g.frost.place_level if g.frost else None,
        whole=True,
    ),
    LandLayer(
        "cold_air_depth",
        "m",
        "depth of cold air that hollows and barriers hold",
        lambda g: g.frost.hollow if g.frost else None,
        whole=True,
    ),
    LandLayer(
        "wind_left",
        "%",
        "share of open wind left, over the wind rose",
        lambda g: None if g.wind is None else 100 * g.wind,
    ),
    LandLayer(
        "wet_months",
        "months/year",
        "months that the root zone stands wet",
        lambda g: g.wet_months,
        whole=True,
    ),
    LandLayer(
        "watering",
        "l/m2",
        "water lacking in the first summer of a dry year",
        lambda g: g.watering.lacking[0, 1] if g.watering else None,
        whole=True,
    ),
    LandLayer(
        "fertility", "class", "soil: -1 poor, 0 ordinary, 1 rich", lambda g: g.soils.fertility
    ),
    LandLayer("soil_depth", "cm", "depth that roots can use", lambda g: g.soils.depth),
    LandLayer("soil_ph", "pH", "acidity of the soil in water", lambda g: g.soils.ph),
    LandLayer(
        "clear_distance",
        "m",
        "distance to the nearest obstacle",
        lambda g: g.obstacles.nearest()[0],
    ),
    LandLayer(
        "root_competition", "1", "neighbours' root competition", lambda g: g.roots.share.table[0]
    ),
    LandLayer("fungal_link", "1", "link to established arbuscular hosts", lambda g: g.fungi[0]),
    LandLayer("walking_time", "s", "walk from the hub and back", lambda g: g.walk, whole=True),
    LandLayer(
        "service_distance",
        "m",
        "level distance to the nearest service",
        lambda g: _first(g.services.distance if g.services else None),
    ),
    LandLayer(
        "animal_run_distance",
        "m",
        "distance to the nearest animal run",
        lambda g: _first(g.animal_runs.distance if g.animal_runs else None),
    ),
)


def write_layers(
    site: Site, ground: Ground, folder: Path, layers: Sequence[LandLayer] = LAYERS
) -> list[Path]:
    """Write every layer that the survey gives grounds for as a GeoTIFF; their paths.

    One band a file, float32, NaN outside the site, north up, in the site's own local metres (a
    transverse Mercator frame about its origin), with unit and description.
    """
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for layer in layers:
        values = layer.values(ground)
        if values is not None:
            seen = np.where(ground.places.inside, values, np.nan)
            with opened_layer(folder, layer, site, ground.places.shape) as raster:
                raster.write(ground.places.grid(seen)[::-1].astype(np.float32), 1)
            written.append(folder / f"{layer.name}.tif")
    return written


def opened_layer(
    folder: Path, layer: LandLayer, site: Site, shape: tuple[int, ...]
) -> DatasetWriter:
    """A raster for a layer over a site's grid, `shape` (y, x), its unit and meaning written."""
    (rows, columns), (_, left, bottom) = shape, extent_of(site)
    raster = rasterio.open(
        folder / f"{layer.name}.tif", "w", driver="GTiff", height=rows, width=columns, count=1,
        dtype="float32", crs=site.frame.crs.to_wkt(), nodata=np.nan, compress="deflate",
        transform=from_origin(left, bottom + rows * site.cell, site.cell, site.cell),
    )  # fmt: skip
    raster.set_band_description(1, layer.meaning)
    raster.set_band_unit(1, layer.unit)
    raster.update_tags(site=site.name, quantity=layer.name)
    return raster
