"""The southern demo has every part that its README promises, and reads without a fault.

Its figures are invented; what a part must look like is common practice, no source.
"""

import tomllib
from collections import Counter
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
import shapely
from scipy.interpolate import griddata
from scipy.ndimage import minimum_filter
from scipy.stats import norm

import demo_data
from model.factors import FACTORS, GROUPS
from model.ground import given
from model.opening import folder_faults
from model.survey import Site, read_site

DEMO = Path(demo_data.__file__).parent
SALLOWBEND = DEMO / "sallowbend"
README = (DEMO / "README.md").read_text(encoding="utf-8").split("## Sallowbend")[1]
AT_LEAST = {
    "boundary": 1,
    "building": 5,
    "fence": 4,
    "path": 3,
    "gate": 6,
    "tap": 1,
    "tank": 1,
    "watercourse": 1,
    "wet_ground": 1,
    "soil_patch": 3,
    "grassland": 1,
    "sun_wanted": 2,
    "neighbour_tree": 9,
    "woodland": 1,
    "buried_service": 1,
    "overhead_line": 1,
    "animal_run": 1,
    "view": 2,
    "keep_clear": 2,
}
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


@pytest.fixture(scope="module")
def site() -> Site:
    return read_site(SALLOWBEND)


@pytest.fixture(scope="module")
def normals() -> pd.DataFrame:
    return pd.read_csv(SALLOWBEND / "weather_monthly.csv", index_col="month")


def named(site: Site, name: str) -> shapely.Geometry:
    """The outline of the feature of that name."""
    (found,) = [one for one in site.features if one.name == name]
    return found.geometry


def peg(site: Site, name: str) -> shapely.Point:
    """Where a peg stands."""
    (spot,) = [one for one in site.spots if one.name == name]
    return shapely.Point(spot.x, spot.y)


def level(site: Site, name: str) -> float:
    """Height of the ground at a peg [m]."""
    spot = peg(site, name)
    return float(given(site.heights).surface(np.array([spot.x]), np.array([spot.y]))[0])


def test_the_whole_folder_reads_without_a_fault_or_a_gap(site):
    assert folder_faults(SALLOWBEND) == []
    assert dict(site.absent) == {}


def test_it_says_that_it_is_invented_and_lies_at_sea(site):
    assert "invented" in site.name
    assert "open ocean" in README
    assert -36 < site.latitude < -34
    assert site.longitude == 112  # Cape Leeuwin, the nearest land, lies at 115.1 E (any atlas)


def test_the_wind_blows_as_often_hot_from_the_north_as_cold_from_the_south_west():
    wind = tomllib.loads((SALLOWBEND / "site.toml").read_text(encoding="utf-8"))["wind"]
    shares = {point: share for point, share in wind.items() if point != "speed_m_s"}
    assert sum(shares.values()) == pytest.approx(1)
    assert shares["north"] == shares["south_west"] == max(shares.values())


def test_the_weights_and_both_sets_share_out_the_whole_and_differ_as_they_say():
    study = tomllib.loads((SALLOWBEND / "study.toml").read_text(encoding="utf-8"))
    family, stall = (one["weights"] for one in study["weight_sets"])
    for weights in (study["weights"], family, stall):
        assert set(weights) == {factor.name for factor in FACTORS}
        assert sum(weights.values()) == pytest.approx(1)
        assert weights["fungal_network"] <= 0.01
    for group in GROUPS:
        assert sum(study["weights"][one.name] for one in FACTORS if one.group == group) > 0.15
    assert family["access"] + family["views"] + family["vigour"] > 0.35
    assert stall["vigour"] + stall["views"] < 0.05
    assert stall["climate_fit"] + stall["late_frost"] > 0.25 > stall["access"] > stall["vigour"]


def test_every_kind_of_part_that_the_readme_lists_is_there_under_a_name_of_its_own(site):
    count = Counter(feature.kind for feature in site.features)
    assert not {kind for kind, least in AT_LEAST.items() if count[kind] < least}
    names = [feature.name for feature in site.features]
    assert all(names)
    assert len(set(names)) == len(names)


def test_the_land_is_about_four_hectares_on_a_grid_of_three_metres(site):
    assert 38_000 < site.boundary.area < 46_000
    assert site.cell == 3


def test_the_ground_falls_north_to_a_flat_with_one_hollow_in_it(site):
    west, south, east, north = site.boundary.bounds
    x, y = np.meshgrid(np.arange(west, east), np.arange(south, north))
    levels = pd.read_csv(SALLOWBEND / "heights.csv")
    z = griddata(levels[["x_m", "y_m"]].to_numpy(), levels["z_m"].to_numpy(), (x, y), "linear")
    within = shapely.contains_xy(site.boundary, x, y)
    design = np.column_stack([x[within], y[within], np.ones(within.sum())])
    (eastward, northward, _), *_ = np.linalg.lstsq(design, z[within], rcond=None)
    downhill = np.degrees(np.arctan2(-eastward, -northward)) % 360
    assert min(downhill, 360 - downhill) < 15
    filled = np.full(z.shape, z.max())
    filled[[0, -1], :], filled[:, [0, -1]] = z[[0, -1], :], z[:, [0, -1]]
    for _ in range(z.size):
        lower = np.maximum(z, np.minimum(filled, minimum_filter(filled, 3)))
        if np.array_equal(lower, filled):
            break
        filled = lower
    spot = peg(site, "Flat")
    ponded = (filled - z)[np.abs(y[:, 0] - spot.y).argmin(), np.abs(x[0] - spot.x).argmin()]
    assert 0.4 < ponded < 0.9
    assert level(site, "Bench") - level(site, "Flat") > 4
    assert abs(peg(site, "Bench").x - spot.x) < 3
    assert level(site, "Ridge") == max(level(site, one.name) for one in site.spots)


def test_the_soils_are_sandy_loam_clay_loam_and_a_thin_stony_ridge(site):
    patches = {one.name: one for one in site.of_kind("soil_patch")}
    assert {name: one.attributes["texture"] for name, one in patches.items()} == {
        "Rise and bench": "sandy loam",
        "Creek flat": "clay loam",
        "Stony ridge": "sandy loam",
    }
    assert patches["Stony ridge"].attributes["depth_cm"] < 30
    assert sum(one.geometry.area for one in patches.values()) == pytest.approx(
        site.boundary.area, rel=0.01
    )
    for name, patch in (("Flat", "Creek flat"), ("Ridge", "Stony ridge")):
        assert patches[patch].geometry.contains(peg(site, name))


def test_belt_and_pines_and_the_two_sides_of_the_shed_mirror_each_other(site):
    belt, shed = named(site, "Willow belt"), named(site, "Packing shed")
    pines = shapely.MultiPoint([named(site, f"Pine {number}") for number in range(1, 7)])
    assert belt.centroid.y > site.boundary.centroid.y + 60
    assert pines.centroid.y < site.boundary.centroid.y - 60
    assert peg(site, "Willows").distance(belt) == pytest.approx(11, abs=0.5)
    assert peg(site, "Pines").distance(pines) == pytest.approx(11, abs=0.5)
    assert peg(site, "Willows").y < belt.bounds[1]
    assert peg(site, "Pines").y > pines.bounds[3]
    assert peg(site, "Shed north").y - shed.bounds[3] == pytest.approx(4.2, abs=0.3)
    assert shed.bounds[1] - peg(site, "Shed south").y == pytest.approx(4.2, abs=0.3)


def test_each_gate_and_bridge_stands_on_what_it_opens(site):
    barriers = [one.geometry for one in site.of_kind("fence", "watercourse")]
    for gate in site.of_kind("gate"):
        assert min(gate.geometry.distance(one) for one in barriers) < 0.1, gate.name


def test_the_pegs_stand_on_open_ground_and_the_readme_tells_of_each(site):
    taken = shapely.union_all(
        [one.geometry for one in site.of_kind("building", "woodland", "keep_clear", "watercourse")]
    )
    assert 10 <= len(site.spots) <= 12
    for spot in site.spots:
        assert f"| {spot.name} |" in README
        assert site.boundary.contains(peg(site, spot.name)), spot.name
        assert taken.distance(peg(site, spot.name)) > 1, spot.name
    main = named(site, "Irrigation main")
    near = [one.name for one in site.spots if peg(site, one.name).distance(main) < 3]
    assert near == ["Main"]
    to_dam = {one.name: peg(site, one.name).distance(named(site, "Dam")) for one in site.spots}
    assert min(to_dam, key=to_dam.__getitem__) == "Dam side"


def test_the_weather_is_that_of_a_warm_dry_summer_with_winter_frost(site, normals):
    assert normals["rain"].sum() == pytest.approx(480, abs=10)
    assert normals.loc[5:9, "rain"].sum() > 0.6 * normals["rain"].sum()
    assert normals["tmax"].idxmax() == 1
    assert normals["tmin"].idxmin() == 7
    frosts = DAYS * norm.cdf(0, normals["tmin"], normals["tmin_sd"])
    assert 2 < frosts[6] < 8
    assert given(site.weather).kind == "monthly"
