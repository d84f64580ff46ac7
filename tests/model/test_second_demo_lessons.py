"""The southern demo's seasons are turned, and each of its pegs teaches what its README says.

The lessons are common practice, no source; the demo's figures are invented. The climate is held
against normal distributions worked out here from the monthly figures.
"""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from scipy.stats import norm

import demo_data
from model.ground import Ground, given
from model.land.seasons import dormant_season, growing_season
from model.land.sun_position import sun_position
from model.opening import open_study
from model.study import Study
from tests.model.lessons import counting, factor, here, leader, measure, option, place

SALLOWBEND = Path(demo_data.__file__).parent / "sallowbend"
QUINCE, APPLE = "Meech's Prolific on Quince A", "Golden Delicious on MM106"
CHERRY, PLUM = "Lapins on Colt", "Marjorie's Seedling on Myrobalan B"
PEAR, WALNUT = "Winter Nelis on Pear seedling", "Chandler on Walnut seedling"
WINTER, SUMMER = (4, 5, 6, 7, 8, 9), (10, 11, 12, 1, 2, 3, 4)
NORTHERN_WINTER, NORTHERN_SUMMER = (10, 11, 12, 1, 2, 3), (4, 5, 6, 7, 8, 9, 10)
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
Worth = Callable[[np.ndarray], np.ndarray]


@pytest.fixture(scope="module")
def study() -> Study:
    return open_study(SALLOWBEND)


@pytest.fixture(scope="module")
def normals() -> pd.DataFrame:
    return pd.read_csv(SALLOWBEND / "weather_monthly.csv", index_col="month")


@pytest.fixture
def weighed(study: Study):
    """The study, its weights put back afterwards."""
    weights, trade_off = study.weights, study.trade_off
    yield study
    study.param.update(weights=weights, trade_off=trade_off)


def months_of(days: np.ndarray) -> list[int]:
    """The months that days of the year fall in, in their order."""
    months = np.searchsorted(np.cumsum(DAYS), days) + 1
    return list(dict.fromkeys(months.tolist()))


def expected(normals: pd.DataFrame, months: tuple[int, ...], worth: Worth) -> float:
    """Hours in the months times the mean worth of their temperatures.

    The day is a sine between the month's means and each hour is normal with the mean of the
    day-to-day deviations: no series, no daylength, nothing of the project's.
    """
    hour = np.sin(np.linspace(0, 2 * np.pi, 24, endpoint=False))
    z = np.linspace(-4, 4, 161)
    share = norm.pdf(z) / norm.pdf(z).sum()
    total = 0.0
    for month in months:
        row = normals.loc[month]
        middle, half = (row["tmax"] + row["tmin"]) / 2, (row["tmax"] - row["tmin"]) / 2
        deviation = (row["tmax_sd"] + row["tmin_sd"]) / 2
        temperature = middle + half * hour[:, None] + deviation * z
        total += DAYS[month - 1] * (worth(temperature) * share).sum()
    return total


def chilly(temperature: np.ndarray) -> np.ndarray:
    """Chill hours after Weinberger (1950), 0 to 7.2 C."""
    return (temperature >= 0) & (temperature <= 7.2)


def degree_hours(temperature: np.ndarray) -> np.ndarray:
    """Growing degree hours after Anderson, Richardson & Kesner (1986) to 25 C, level beyond."""
    warmth = np.clip(temperature, 4, 25)
    return 21 / 2 * (1 + np.cos(np.pi + np.pi * (warmth - 4) / 21))


def test_chill_is_taken_from_april_to_september(study, normals):
    climate = given(study.ground.climate)
    winter, northern = (expected(normals, months, chilly) for months in (WINTER, NORTHERN_WINTER))
    assert np.nanmean(climate.chill_hours) == pytest.approx(winter, rel=0.15)
    assert winter > 5 * northern


def test_fruit_ripens_from_october_to_april(study, normals):
    climate = given(study.ground.climate)
    summer, northern = (
        expected(normals, months, degree_hours) for months in (SUMMER, NORTHERN_SUMMER)
    )
    assert np.nanmean(climate.heat) == pytest.approx(summer, rel=0.1)
    assert summer > 1.2 * northern


def test_the_seasons_are_turned_by_half_a_year(study):
    assert months_of(dormant_season(study.site.latitude)) == list(WINTER)
    assert months_of(growing_season(study.site.latitude)) == list(SUMMER)


@pytest.mark.parametrize(("day", "declination"), [("2025-06-21", 23.4), ("2025-12-21", -23.4)])
def test_the_midday_sun_stands_in_the_north(study, day, declination):
    """Height of the midday sun: 90 degrees less latitude less declination (any textbook)."""
    site = study.site
    noon = np.datetime64(f"{day}T12:00") - np.timedelta64(round(site.longitude * 4), "m")
    elevation, bearing = sun_position(noon, site.latitude, site.longitude)
    assert min(bearing, 360 - bearing) < 5
    assert elevation == pytest.approx(90 - abs(site.latitude - declination), abs=0.3)


def test_every_option_is_in_the_catalogue_and_the_study_ranks_them(study):
    listed = [(one.species, one.cultivar, one.rootstock) for one in study.options]
    assert tuple(listed) == study.site.options
    assert 14 <= len(listed) <= 16
    assert all(study.catalogue.option(*one) for one in listed)
    assert study.unjudged == ()
    for peg in study.ground.places.spots:
        judged = here(study, peg)
        if peg == "Main":  # a tree 1 m from a main is in the pipe's clearance, whichever it is
            assert {reason.split(" for ")[0] for reason in judged.reason} == {
                "too near Irrigation main"
            }
            continue
        assert len(judged.allowed) >= 14
        assert np.isfinite(judged.score[list(judged.allowed)]).all()


def test_some_trees_want_little_of_the_chill_here_and_some_nearly_all(study):
    chill = np.nanmedian(given(study.ground.climate).chill)
    need = study.traits.chill_need
    assert need[option(study, "Canino on Apricot seedling")] < 0.5 * chill
    assert 0.8 * chill < need[option(study, "Redhaven on St Julien A")] < chill


def test_without_the_dam_apricots_and_peaches_come_last(study):
    watered = [study.options[number].species for number in here(study, "Bench").order]
    assert set(watered[-4:]) != {"apricot", "peach"}
    dry = open_study(SALLOWBEND)
    dry.settings["climate_fit"].watered = False
    species = [dry.options[number].species for number in here(dry, "Bench").order]
    assert set(species[-4:]) == {"apricot", "peach"}


def test_in_front_of_the_verandah_a_larger_tree_is_a_worse_one(study):
    covered = [measure(study, "views", "Verandah", label) for label in (QUINCE, CHERRY, PEAR)]
    assert covered == sorted(covered)
    assert covered[-1] > 1.5 * covered[0] > 0
    assert leader(study, "Verandah").endswith("on Quince A")
    assert here(study, "Verandah").allowed[-1] == option(study, PEAR)
    walks = study.ground.walk[study.ground.places.cells :]
    assert walks.argmin() == study.ground.places.spots.index("Verandah")


def test_before_the_cool_store_a_larger_crown_screens_more(study):
    screened = [-measure(study, "views", "Screen", label) for label in (QUINCE, CHERRY, PEAR)]
    assert screened == sorted(screened)
    assert screened[-1] > screened[0] > 0


def test_the_same_distance_off_willows_trouble_more_than_pines(study):
    willows, pines = (measure(study, "root_competition", p, APPLE) for p in ("Willows", "Pines"))
    assert willows > 40
    assert 5 < pines < willows / 2


@pytest.mark.parametrize("label", [QUINCE, APPLE, CHERRY, PLUM])
def test_the_ridge_shrinks_and_the_flat_swells_the_same_tree(study, label):
    ridge, bench, flat = (measure(study, "vigour", p, label) for p in ("Ridge", "Bench", "Flat"))
    assert ridge < 0.9 * bench < bench < flat


def test_the_ridge_brings_the_strong_plum_to_size_and_is_still_no_place_for_a_tree(study):
    size = factor(study, "vigour")
    ridge, bench = here(study, "Ridge"), here(study, "Bench")
    plum = option(study, PLUM)
    assert ridge.desirabilities[size, plum] == ridge.desirabilities[size].max()
    assert bench.desirabilities[size, plum] < ridge.desirabilities[size, plum]
    assert ridge.score[ridge.order[0]] < bench.score[bench.order[0]] / 2


def test_the_bench_is_a_plainly_good_place(study):
    judged = here(study, "Bench")
    assert not judged.ruled_out.any()
    assert judged.desirabilities[counting(study), judged.order[0]].min() > 0.65
    first, second = judged.score[list(judged.order[:2])]
    assert first - second < 0.05


def test_the_far_corner_is_reached_by_the_bridge_only(study):
    assert np.isfinite(study.ground.walk[place(study, "Far corner")])
    kept = tuple(one for one in study.site.features if one.name != "Bridge")
    without = Ground(replace(study.site, features=kept), study.catalogue)
    assert np.isnan(without.walk[place(study, "Far corner")])


def test_on_four_hectares_the_walk_counts(study):
    pegs = study.desirabilities[
        factor(study, "access"), option(study, CHERRY), study.ground.places.cells :
    ]
    assert np.ptp(pegs) > 0.15  # 0.1 at most on the first demo's single hectare
    assert pegs.argmin() == study.ground.places.spots.index("Far corner")


def test_the_roadside_stall_chooses_otherwise_than_the_family(weighed):
    chosen = []
    for kept in weighed.weight_sets:
        weighed.use(kept)
        chosen.append([leader(weighed, peg) for peg in weighed.ground.places.spots])
    assert [one.name for one in weighed.weight_sets] == ["Family", "Roadside stall"]
    assert chosen[0] != chosen[1]


def test_the_walnut_leads_nowhere(study):
    walnut = option(study, WALNUT)
    for peg in study.ground.places.spots:
        judged = here(study, peg)
        # On the frosty flat an apricot, which flowers first, may do worse still.
        assert judged.ruled_out[walnut] or walnut in judged.allowed[-2:], peg
