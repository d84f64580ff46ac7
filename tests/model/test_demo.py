"""The demo site has every part that its README promises, and reads without a fault.

Its figures are invented; what a part must look like is common practice, no source.
"""

import json
import tomllib
from collections import Counter
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
import shapely
from scipy import ndimage
from scipy.interpolate import griddata

import demo_data
from model.factors import FACTORS, GROUPS
from model.survey import Site, read_site, site_faults

DEMO = Path(demo_data.__file__).parent
SORRELHAY = DEMO / "sorrelhay"
README = (DEMO / "README.md").read_text(encoding="utf-8")
STEP = 1.0  # m, of the lattice on which the ground is looked at
NAMES = {factor.name for factor in FACTORS}
GROUP = {factor.name: factor.group for factor in FACTORS}
AT_LEAST = {
    "boundary": 1,
    "building": 4,
    "wall": 1,
    "fence": 3,
    "hedge": 2,
    "path": 3,
    "gate": 5,
    "tap": 1,
    "tank": 1,
    "watercourse": 1,
    "wet_ground": 1,
    "soil_patch": 3,
    "grassland": 1,
    "sun_wanted": 2,
    "neighbour_tree": 3,
    "woodland": 2,
    "buried_service": 2,
    "overhead_line": 1,
    "animal_run": 1,
    "view": 3,
    "keep_clear": 1,
}


@pytest.fixture(scope="module")
def site() -> Site:
    return read_site(SORRELHAY)


@pytest.fixture(scope="module")
def study() -> dict:
    return tomllib.loads((SORRELHAY / "study.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def ground(site: Site) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Lattice x, y and heights z (row, column), by an interpolation that is not the project's."""
    west, south, east, north = site.boundary.bounds
    x, y = np.meshgrid(np.arange(west, east, STEP), np.arange(south, north, STEP))
    levels = pd.read_csv(SORRELHAY / "heights.csv")
    z = griddata(levels[["x_m", "y_m"]].to_numpy(), levels["z_m"].to_numpy(), (x, y), "linear")
    return x, y, z


def ponded(z: np.ndarray) -> np.ndarray:
    """Depth of water that could not run off (row, column) [m]: filled from the edge inwards."""
    level = np.full(z.shape, z.max())
    level[[0, -1], :], level[:, [0, -1]] = z[[0, -1], :], z[:, [0, -1]]
    for _ in range(z.size):
        lower = np.maximum(z, np.minimum(level, ndimage.minimum_filter(level, 3)))
        if np.array_equal(lower, level):
            break
        level = lower
    return level - z


def named(site: Site, kind: str, word: str) -> shapely.Geometry:
    """The outline of the one feature of a kind whose name has the word."""
    (found,) = [one for one in site.of_kind(kind) if word in one.name.lower()]
    return found.geometry


def peg(site: Site, name: str) -> shapely.Point:
    """Where a peg stands."""
    (spot,) = [one for one in site.spots if one.name == name]
    return shapely.Point(spot.x, spot.y)


def test_the_readme_says_that_all_is_invented():
    assert "Everything here is invented" in README
    assert "invented" in (SORRELHAY / "site.toml").read_text(encoding="utf-8")


def test_the_demo_reads_without_a_fault():
    assert site_faults(SORRELHAY) == []


def test_no_topic_is_absent(site):
    assert dict(site.absent) == {}


def test_every_kind_of_part_that_the_readme_lists_is_there(site):
    count = Counter(feature.kind for feature in site.features)
    short = {kind: count[kind] for kind, least in AT_LEAST.items() if count[kind] < least}
    assert not short


def test_every_feature_has_a_name_of_its_own(site):
    names = [feature.name for feature in site.features]
    assert all(names)
    assert len(set(names)) == len(names)


def test_the_land_is_about_one_hectare_and_its_grid_is_small(site):
    west, south, east, north = site.boundary.bounds
    assert 9_000 <= site.boundary.area <= 12_000
    assert (east - west) * (north - south) / site.cell**2 < 7_000


def test_the_ground_falls_south_west_at_6_to_12_percent_in_the_main(site, ground):
    x, y, z = ground
    within = shapely.contains_xy(site.boundary, x, y)
    design = np.column_stack([x[within], y[within], np.ones(within.sum())])
    (east, north, _), *_ = np.linalg.lstsq(design, z[within], rcond=None)
    assert 6 <= 100 * np.hypot(east, north) <= 12
    assert 200 <= np.degrees(np.arctan2(-east, -north)) % 360 <= 240
    slope = 100 * np.hypot(*np.gradient(z, STEP))[within]
    assert np.quantile(slope, 0.25) > 5
    assert np.quantile(slope, 0.75) < 13
    assert 8 <= np.ptp(z[within]) <= 12


def test_one_hollow_cannot_drain_and_its_peg_stands_in_it(site, ground):
    x, y, z = ground
    hollows, count = ndimage.label(ponded(z) > 0.3)
    spot = peg(site, "Hollow")
    row, column = np.abs(y[:, 0] - spot.y).argmin(), np.abs(x[0] - spot.x).argmin()
    assert count == 1
    assert hollows[row, column] == 1
    assert 0.4 < ponded(z).max() < 1.0


def test_loam_lies_above_clay_and_the_patches_do_not_overlap(site):
    patches = {patch.attributes["texture"]: patch for patch in site.of_kind("soil_patch")}
    loam, clay, thin = (patches[name] for name in ("loam", "clay", "sandy loam"))
    height = {
        name: site.heights.surface(*np.array(patch.geometry.centroid.coords[0]))
        for name, patch in patches.items()
    }
    assert height["clay"] < height["loam"] < height["sandy loam"]
    assert len({patch.attributes["fertility"] for patch in (loam, clay, thin)}) == 3
    assert thin.attributes["depth_cm"] < 30
    total = sum(patch.geometry.area for patch in patches.values())
    assert total == pytest.approx(site.boundary.area, rel=0.01)


def test_poplars_stand_west_the_mixed_copse_north_and_the_hedge_holds_ash(site):
    middle = site.boundary.centroid
    assert named(site, "woodland", "poplar").centroid.x < middle.x - 30
    assert named(site, "woodland", "copse").centroid.y > middle.y + 30
    assert any("ash" in hedge.attributes["species"].split(";") for hedge in site.of_kind("hedge"))


def test_each_gate_and_bridge_stands_on_what_it_opens(site):
    barriers = [one.geometry for one in site.of_kind("wall", "fence", "hedge", "watercourse")]
    for gate in site.of_kind("gate"):
        assert min(gate.geometry.distance(one) for one in barriers) < 0.1, gate.name


def test_the_garden_and_the_far_bank_are_left_by_gates_and_bridge_only(site):
    barriers = [one.geometry.buffer(0.1) for one in site.of_kind("wall", "fence", "hedge")]
    barriers += [one.geometry.buffer(0.1) for one in site.of_kind("watercourse")]
    parts = shapely.difference(site.boundary.buffer(-0.1), shapely.union_all(barriers)).geoms
    pegs = ("Kitchen view", "Far bank", "Middle field", "Screen")
    home = [number for number, part in enumerate(parts) if part.contains(shapely.Point(site.hub))]
    where = [
        [number for number, part in enumerate(parts) if part.contains(peg(site, name))]
        for name in pegs
    ]
    assert where[0] == home
    assert len({tuple(one) for one in where}) == len(pegs)


def test_there_are_8_to_15_pegs_all_on_open_ground_within_the_boundary(site):
    taken = shapely.union_all(
        [one.geometry for one in site.of_kind("building", "woodland", "keep_clear", "watercourse")]
    )
    assert 8 <= len(site.spots) <= 15
    for spot in site.spots:
        assert site.boundary.contains(peg(site, spot.name)), spot.name
        assert taken.distance(peg(site, spot.name)) > 1, spot.name


def test_the_readme_tells_of_every_peg(site):
    missing = [spot.name for spot in site.spots if f"| {spot.name} |" not in README]
    assert not missing


def test_the_pegs_stand_where_the_readme_says(site):
    main, wire = named(site, "buried_service", "main"), named(site, "overhead_line", "line")
    poplars, copse = named(site, "woodland", "poplar"), named(site, "woodland", "copse")
    assert peg(site, "Main").distance(main) < 3
    assert peg(site, "Cable").distance(wire) < 1
    assert peg(site, "Poplars").distance(poplars) == pytest.approx(9, abs=0.2)
    assert peg(site, "Copse edge").distance(copse) == pytest.approx(9, abs=0.2)
    assert named(site, "soil_patch", "thin").contains(peg(site, "Thin soil"))
    others = [spot.name for spot in site.spots if spot.name not in ("Main", "Cable")]
    assert all(peg(site, name).distance(main) > 3 for name in others)
    assert all(peg(site, name).distance(wire) > 4 for name in others)


def test_two_views_are_to_keep_one_to_screen_and_the_pegs_stand_in_them(site):
    views = {view.name: view for view in site.of_kind("view")}
    assert sorted(view.attributes["wish"] for view in views.values()) == ["keep", "keep", "screen"]
    for view, name in (
        ("Kitchen window", "Kitchen view"),
        ("Silage shed from the terrace", "Screen"),
    ):
        eye, attributes, spot = views[view].geometry, views[view].attributes, peg(site, name)
        bearing = np.degrees(np.arctan2(spot.x - eye.x, spot.y - eye.y))
        aside = (bearing - attributes["bearing_deg"] + 180) % 360 - 180
        assert abs(aside) < attributes["width_deg"] / 2


def test_no_eye_stands_inside_a_building(site):
    buildings = shapely.union_all([one.geometry for one in site.of_kind("building")])
    assert all(view.geometry.distance(buildings) > 0.3 for view in site.of_kind("view"))
    assert shapely.Point(site.hub).distance(buildings) > 0.3


def test_the_weather_is_that_of_a_wet_mild_western_lowland(site):
    normals = site.weather.table
    mean = (normals["tmin"] + normals["tmax"]) / 2
    assert 1_000 <= normals["rain"].sum() <= 1_200
    assert mean[7] == pytest.approx(16, abs=0.5)
    assert normals.loc[[12, 1, 2], "tmin"].between(1, 4).all()
    assert normals.loc[[12, 1, 2], "tmax"].between(7, 9).all()
    assert site.weather.seed is not None


def test_the_short_list_has_12_options_or_more_of_several_fruits_and_stocks(site):
    stocks = {rootstock for species, _, rootstock in site.options if species == "apple"}
    assert len(site.options) >= 12
    assert len({species for species, _, _ in site.options}) >= 7
    assert {"M9", "MM106", "M25"} <= stocks


def share(weights: dict[str, float], *names: str) -> float:
    """What some factors, or those of a family, weigh together."""
    return sum(weight for name, weight in weights.items() if {name, GROUP[name]} & set(names))


def test_the_weights_and_every_weight_set_share_out_the_whole(study):
    sets = study["weight_sets"]
    assert [one["name"] for one in sets] == ["Household", "School", "Market grower"]
    for one in (study, *sets):
        assert set(one["weights"]) == NAMES
        assert sum(one["weights"].values()) == pytest.approx(1)
        assert one["weights"]["fungal_network"] <= 0.01
        assert -10 <= one["trade_off"] <= 1
    assert all(one["about"].endswith(".") for one in sets)


def test_to_begin_with_every_family_of_factors_counts(study):
    assert all(share(study["weights"], family) > 0.15 for family in GROUPS)


def test_the_weight_sets_differ_as_their_sentences_say(study):
    home, school, grower = (one["weights"] for one in study["weight_sets"])
    assert share(home, "views", "access") > share(home, "place")
    assert share(school, "vigour", "spacing", "access") > 0.4
    assert share(grower, "place", "ground") > 0.6
    assert share(grower, "views") < 0.02 < share(home, "views")
    assert share(home, "place") < share(study["weights"], "place") < share(grower, "place")


def test_the_plan_is_in_longitude_and_latitude_at_the_sites_origin(site):
    plan = json.loads((SORRELHAY / "features.geojson").read_text(encoding="utf-8"))
    outline = shapely.geometry.shape(plan["features"][0]["geometry"])
    degree = 111_200  # m on a meridian, by the metre's old definition (10 000 km a quarter)
    east = (outline.centroid.x - site.longitude) * degree * np.cos(np.radians(site.latitude))
    north = (outline.centroid.y - site.latitude) * degree
    assert east == pytest.approx(site.boundary.centroid.x, abs=0.5)
    assert north == pytest.approx(site.boundary.centroid.y, abs=0.5)
