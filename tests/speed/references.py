"""Each land layer against an independent library or routine that gives the same answers."""

import sys
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import pandas as pd
import pyflwdir
import refet
import shapely
import trimesh
import xarray
from pvlib import clearsky, irradiance
from pvlib.solarposition import get_solarposition
from scipy.ndimage import sobel
from skimage.graph import MCP_Geometric
from xclim import indices

from model.land import evapotranspiration, radiation_balance, shelter, terrain
from model.land.chill import chill_portions
from model.land.clear_sky import extraterrestrial
from model.land.horizon import Relief, ground_slopes
from model.land.levels import overflow_level
from model.land.shade import Standing
from model.land.slope_light import ALBEDO, JOULES, slope_light
from model.land.sun_position import sun_position
from model.land.walking import pace, walking_time
from model.land.wetness import contributing_area, without_pits
from tests.model.land.test_levels import queued
from tests.published.test_topographic_wetness import steepest_way

from .comparison import Comparison, times

SIDE, CELL, LATITUDE = 200, 2.0, 52.0
Values = np.ndarray


@dataclass(frozen=True)
class Pair:
    """A layer and its reference: how each is computed, and how far apart the two may be."""

    name: str
    against: str
    ours: Callable[[], Values]
    theirs: Callable[[], Values]
    most_apart: float


def comparisons() -> list[Comparison]:
    """A line a layer."""
    return [compared(pair) for pair in (*_ground(), *_ways(), *_sky(), *_weather())]


def compared(pair: Pair) -> Comparison:
    """The line of a pair; the run ends with a sentence where its answers are not equal."""
    worst = float(np.nanmax(np.abs(pair.ours() - pair.theirs())))
    if not worst <= pair.most_apart:
        sys.exit(f"{pair.name}: {worst:.3g} apart, expected {pair.most_apart:.3g} at most")
    took = times({"ours": pair.ours, "theirs": pair.theirs}, 3)
    return Comparison(pair.name, f"{pair.against}, {worst:.1g} apart", took["ours"], took["theirs"])


def hills(side: int = SIDE) -> Values:
    """Invented rolling ground with hollows, no two ways down equally steep (y, x) [m]."""
    y, x = np.mgrid[0:side, 0:side] * CELL
    rough = np.random.default_rng(1).normal(0, 0.05, x.shape)
    return 60 + 0.03 * y + 3 * np.sin(x / 40) * np.cos(y / 30) + rough


def _ground() -> list[Pair]:
    """Slope, hollows, flow and cold air."""
    z, inside = hills(), np.s_[1:-1, 1:-1]
    small = hills(60)
    falling = without_pits(z, 1e-4) + np.random.default_rng(2).uniform(0, 5e-5, z.shape)
    ways = steepest_way(falling)
    return [
        Pair(
            f"slope of {z.size:,} cells", "scipy's Sobel filters",
            lambda: terrain.slope(z, CELL)[inside],
            lambda: np.hypot(sobel(z, 0), sobel(z, 1))[inside] / (8 * CELL), 1e-9,
        ),
        Pair(
            f"aspect of {z.size:,} cells [degrees]", "scipy's Sobel filters",
            lambda: terrain.aspect(z, CELL)[inside],
            lambda: np.degrees(np.arctan2(-sobel(z, 1), -sobel(z, 0)) % (2 * np.pi))[inside], 1e-6,
        ),
        Pair(
            "hollows filled", "pyflwdir, compiled",
            lambda: without_pits(z),
            lambda: pyflwdir.dem.fill_depressions(z, nodata=-9999.0)[0], 1e-5,
        ),
        Pair(
            "land that drains through each cell", "pyflwdir, compiled, given the ways down",
            lambda: contributing_area(falling, 1.0, single=True),
            lambda: pyflwdir.from_array(ways, ftype="d8").upstream_area(unit="cell"), 1e-6,
        ),
        Pair(
            f"air held up, {small.size:,} cells", "a queue of single cells",
            lambda: overflow_level(small, 0.04, aslant=False),
            lambda: queued(small, 0.04, False), 1e-9,
        ),
    ]  # fmt: skip


def _ways() -> list[Pair]:
    """Walking and shelter."""
    factor = np.random.default_rng(3).uniform(1, 2, (SIDE, SIDE))
    level, every = np.zeros(factor.shape), np.ones(factor.shape, dtype=bool)
    places = np.random.default_rng(4).uniform(0, 300, (100, 2))
    return [
        Pair(
            "walk out and back, level, 8 directions", "scikit-image, one way",
            lambda: walking_time(level, 1.0, every, (0, 0), factor, 8)[0] / pace(0),
            lambda: MCP_Geometric(factor).find_costs([(0, 0)])[0], 1e-6,
        ),
        Pair(
            "shelter of a belt, 100 places × 36 bearings", "shapely's crossings of rays",
            lambda: shelter.sheltered_wind(*places.T, [BELT], [HIGH], [0.5], BEARINGS),
            lambda: _rays_across(places), 1e-9,
        ),
    ]  # fmt: skip


BELT, HIGH, BEARINGS = (20.0, 100.0, 280.0, 140.0), 8.0, np.arange(0.0, 360.0, 10.0)


def _rays_across(places: Values) -> Values:
    """Share of open wind left behind the belt (bearing, place), a ray at a time."""
    belt = shapely.LineString([BELT[:2], BELT[2:]])
    left = np.ones((len(BEARINGS), len(places)))
    for row, bearing in zip(left, np.radians(BEARINGS), strict=True):
        toward = np.array([np.sin(bearing), np.cos(bearing)])
        for number, place in enumerate(places):
            ends = (place - 40 * HIGH * toward, place + 40 * HIGH * toward)
            met = shapely.LineString(ends).intersection(belt)
            if not met.is_empty:
                heights = float((np.array([met.x, met.y]) - place) @ toward) / HIGH
                row[number] = shelter.felt_wind(heights, 0.5)
    return left


def _sky() -> list[Pair]:
    """The sun's place, its light on slopes, and the ground's horizon."""
    when = pd.date_range("2025-01-01", "2026-01-01", freq="30min", inclusive="left", tz="UTC")
    bare = when.tz_localize(None).to_numpy()
    slopes, aspects = np.linspace(0.05, 0.6, 12), np.arange(0.0, 360.0, 30.0)
    eyes = np.zeros((12, 3))
    return [
        Pair(
            f"sun's elevation, {len(when):,} times [degrees]", "pvlib (NREL's algorithm)",
            lambda: sun_position(bare, LATITUDE, 0.0, refracted=False)[0],
            lambda: np.array(get_solarposition(when, LATITUDE, 0.0).elevation), 0.02,
        ),
        Pair(
            "year's light on 12 slopes [MJ/m2 a day]", "pvlib, every half hour",
            lambda: slope_light(eyes, slopes, aspects, Standing(), LATITUDE).total,
            lambda: _pvlib_light(slopes, aspects, when), 0.05,
        ),
        _horizons(),
    ]  # fmt: skip


def _pvlib_light(slopes: Values, aspects: Values, when: pd.DatetimeIndex) -> Values:
    """Clear-sky light on slopes by month (month, place) [MJ/m2 a day]."""
    sun = get_solarposition(when, LATITUDE, 0)
    sun = sun[sun.apparent_elevation > 0]
    sky = clearsky.simplified_solis(
        sun.apparent_elevation, dni_extra=extraterrestrial(sun.index.day_of_year)
    )
    level = sky.dni * np.sin(np.radians(sun.apparent_elevation)) + sky.dhi
    light = []
    for slope, aspect in zip(slopes, aspects, strict=True):
        total = irradiance.get_total_irradiance(
            np.degrees(np.arctan(slope)), aspect, sun.apparent_zenith, sun.azimuth, sky.dni,
            level, sky.dhi, albedo=ALBEDO, model="isotropic",
        ).poa_global  # fmt: skip
        by_month = total.groupby(total.index.month)
        light.append(by_month.sum() / 2 * JOULES)
    days = when.to_series().groupby(when.month).size().to_numpy() / 48
    return np.array(light).T / days[:, None]


def _horizons() -> Pair:
    """The ground's horizon from some places, against rays cast at a mesh of it.

    What is compared is the share of rays, 1.5 degrees above and below our horizon, that meet
    the ground as ours says they do; the rest graze a ridge between two steps along a ray.
    """
    smooth = hills(60)
    smooth = 60 + 8 * np.sin(np.arange(60) / 6) * np.cos(np.arange(60)[:, None] / 8) + 0 * smooth
    axis = np.arange(60) * CELL
    eyes, bearings = _eyes(smooth, axis), np.arange(0.0, 360.0, 20.0)
    relief, mesh = Relief(smooth, axis, axis), _mesh(smooth, axis)

    def ours() -> Values:
        return np.degrees(np.arctan(ground_slopes(relief, eyes, bearings)))

    angles = ours()

    def rays() -> Values:
        met = np.stack([_meets(mesh, eyes, bearings, angles + off) for off in (-1.5, 1.5)])
        rising = angles > 0  # below the level a ray leaves the grid over its edge
        return np.array((met[0] & ~met[1])[rising].mean() - 1)

    return Pair(
        f"ground's horizon, {angles.size:,} rays", "trimesh, share of rays that differ",
        lambda: 0 * ours()[0, 0], rays, 0.03,
    )  # fmt: skip


def _eyes(z: Values, axis: Values) -> Values:
    """Eyes 1 m above the ground at some cells (place, 3) [m]."""
    row, column = np.random.default_rng(5).integers(15, 45, (2, 60))
    return np.column_stack([axis[column], axis[row], z[row, column] + 1.0])


def _mesh(z: Values, axis: Values) -> trimesh.Trimesh:
    """Ground as triangles."""
    x, y = np.meshgrid(axis, axis)
    number = np.arange(z.size).reshape(z.shape)
    one, right, up, far = number[:-1, :-1], number[:-1, 1:], number[1:, :-1], number[1:, 1:]
    faces = np.concatenate(
        [np.stack(corners, -1).reshape(-1, 3) for corners in ((one, right, far), (one, far, up))]
    )
    return trimesh.Trimesh(np.column_stack([x.ravel(), y.ravel(), z.ravel()]), faces)


def _meets(mesh: trimesh.Trimesh, eyes: Values, bearings: Values, angles: Values) -> Values:
    """Whether rays at the angles (place, bearing) [degrees] meet the ground."""
    toward, rise = np.radians(bearings), np.radians(angles)
    level = np.cos(rise)
    rays = np.stack([level * np.sin(toward), level * np.cos(toward), np.sin(rise)], -1)
    starts = np.broadcast_to(eyes[:, None], rays.shape)
    hit = mesh.ray.intersects_any(starts.reshape(-1, 3), rays.reshape(-1, 3))
    return hit.reshape(angles.shape)


def _weather() -> list[Pair]:
    """Chill and evapotranspiration."""
    hour = np.arange(8760)
    year = 7 + 5 * np.sin(2 * np.pi * (hour % 24 - 9) / 24) - 6 * np.cos(2 * np.pi * hour / 8760)
    known = {"time": pd.date_range("2001-01-01", periods=8760, freq="h")}
    theirs = xarray.DataArray(year - 0.15, known, ("time",), attrs={"units": "degC"})
    day = np.arange(1, 366)
    tmin, tmax = 8 - 6 * np.cos(day / 58), 17 - 8 * np.cos(day / 58)
    sun = 0.5 * radiation_balance.extraterrestrial(LATITUDE, day)
    return [
        Pair(
            "chill portions of a year", "xclim",
            lambda: np.array(chill_portions(year)),
            lambda: indices.chill_portions(theirs, freq="YS").to_numpy()[0], 1e-6,
        ),
        Pair(
            "a year's reference evapotranspiration [mm]", "refet",
            lambda: _use(tmin, tmax, sun, day),
            lambda: refet.Daily(
                tmin=tmin, tmax=tmax, ea=0 * tmin + 0.8, rs=sun, uz=0 * tmin + 2, zw=10, elev=50.0,
                lat=LATITUDE, doy=day, method="asce", rso_type="simple",
            ).eto(), 0.02,
        ),
    ]  # fmt: skip


def _use(tmin: Values, tmax: Values, sun: Values, day: Values) -> Values:
    """Reference evapotranspiration by day (day,) [mm]."""
    clear = radiation_balance.clear_sky(LATITUDE, day, 50.0)
    away = radiation_balance.net_longwave(tmin, tmax, 0.8, sun, clear)
    kept = radiation_balance.net(sun, away)
    wind = evapotranspiration.wind_at_two_metres(2.0, 10)
    return evapotranspiration.penman_monteith(tmin, tmax, 0.8, kept, wind, 50.0)
