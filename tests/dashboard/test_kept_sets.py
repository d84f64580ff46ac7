"""Weights kept under a name go into the visitor's own copy, and change nothing else."""

import numpy as np
import pytest

from dashboard.keeping.opened import Opened
from dashboard.pages.weigh import Weigh
from dashboard.session import Session
from model.opening import open_study
from tests.model.demo import DEMO


def move(weigh, slider, value):
    weigh.weights.sliders._handle_msg({"id": slider, "value": value, "settled": True})


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A page of a visitor with a working copy, on a folder of its own."""
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    folder = tmp_path / "site"
    folder.mkdir()
    for file in DEMO.iterdir():
        (folder / file.name).write_bytes(file.read_bytes())
    return Weigh(Session.begun(Opened(folder)))


def keep(weigh, name, about=""):
    weigh.weights.name.value_input, weigh.weights.about.value_input = name, about
    weigh.weights.save.clicks += 1


def test_a_weight_set_is_kept_in_the_visitor_s_own_copy(own):
    original = own.session.copy.original / "study.toml"
    before = original.read_bytes()
    move(own, "spacing", 44)
    keep(own, "Ours", "what we agreed on")
    ours = next(s for s in open_study(own.session.folder).weight_sets if s.name == "Ours")
    assert ours.weights["spacing"] == pytest.approx(0.44)
    assert ours.about == "what we agreed on"
    assert "Kept as Ours" in own.weights.said.object
    assert original.read_bytes() == before


def test_keeping_a_set_does_not_change_what_the_folder_begins_with(own):
    begun = own.study.weights.copy()
    move(own, "spacing", 80)
    keep(own, "Ours")
    np.testing.assert_allclose(open_study(own.session.folder).weights, begun)


def test_without_a_copy_a_set_is_kept_for_the_visit(weigh, study):
    keep(weigh, "Ours")
    assert "for this visit only" in weigh.weights.said.object
    assert any(one.name == "Ours" for one in study.weight_sets)


def test_a_set_without_a_name_is_not_kept(weigh, study):
    before = study.weight_sets
    keep(weigh, "  ")
    assert study.weight_sets == before
    assert "name first" in weigh.weights.said.object
