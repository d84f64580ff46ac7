"""The ground on disk: read when nothing that goes into it changed, computed when anything did."""

from dataclasses import replace

import numpy as np
import pytest

from model.ground import Ground, frost, sun
from model.ground.store import Store, usual_store
from model.survey.heights import Plane
from tests.model.small_site import CATALOGUE, box, feature, monthly_weather, site, tree

BARN = feature("building", box(10, 10, 20, 20), "the barn", height_m=5.0)


@pytest.fixture
def store(tmp_path):
    return Store(tmp_path)


def ground(store, features=(BARN,), **given):
    return Ground(site(features, **given), CATALOGUE, store)


@pytest.fixture
def sun_runs(monkeypatch):
    runs = []
    computed = sun.sun_of

    def counting(*args):
        runs.append(args)
        return computed(*args)

    monkeypatch.setattr("model.ground.sun_of", counting)
    return runs


def test_the_same_ground_is_computed_once(store, sun_runs):
    first, second = ground(store).sun, ground(store).sun
    assert len(sun_runs) == 1
    assert np.array_equal(first.strong, second.strong, equal_nan=True)
    assert np.array_equal(first.morning, second.morning, equal_nan=True)


@pytest.mark.parametrize(
    "change",
    [
        {"features": (replace(BARN, geometry=box(11, 10, 21, 20)),)},
        {"features": (BARN, tree("oak", 40, 40, 12.0))},
        {"latitude": 52.5},
        {"heights": Plane(5.0, 180.0, 50.0)},
        {"cell": 3.0},
    ],
    ids=["moved barn", "new tree", "latitude", "heights", "grid"],
)
def test_whatever_touches_the_sun_computes_it_again(store, sun_runs, change):
    _ = ground(store).sun
    _ = ground(store, **change).sun
    assert len(sun_runs) == 2


def test_what_does_not_touch_the_sun_leaves_it(store, sun_runs):
    _ = ground(store).sun
    wet = feature("wet_ground", box(30, 30, 50, 50), wet_months=3.0)
    _ = ground(store, features=(BARN, wet), weather=monthly_weather(rain=120.0)).sun
    assert len(sun_runs) == 1


def test_frost_and_climate_come_back_as_they_were(store, monkeypatch):
    first = ground(store)
    chance, chill = first.frost, first.climate
    monkeypatch.setattr("model.ground.frost_of", None)
    monkeypatch.setattr("model.ground.climate_of", None)
    again = ground(store)
    assert np.array_equal(again.frost.minimum, chance.minimum)
    assert np.array_equal(again.climate.chill, chill.chill)
    assert isinstance(again.frost, frost.Frost)


@pytest.mark.parametrize("damage", [b"", b"PK\x03\x04 not a zip", b"\x00" * 200])
def test_a_damaged_file_is_computed_again(store, sun_runs, damage):
    _ = ground(store).sun
    for path in store.folder.glob("sun-*.npz"):
        path.write_bytes(damage)
    assert np.isfinite(ground(store).sun.strong).any()
    assert len(sun_runs) == 2


def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("in the way", encoding="utf-8")
    assert np.isfinite(ground(Store(blocked)).sun.strong).any()


def test_the_store_lies_where_the_environment_says(monkeypatch, tmp_path):
    monkeypatch.setenv("TREESTEAD_CACHE", str(tmp_path))
    assert usual_store().folder == tmp_path


def test_the_longest_unused_go_first_when_the_store_is_full(store, monkeypatch):
    monkeypatch.setattr("model.ground.store.MOST", 1)
    _ = ground(store).sun
    assert not list(store.folder.glob("*.npz"))
