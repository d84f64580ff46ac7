"""Visitors share the ground and nothing else."""

import pytest

from dashboard.keeping.opened import Opened
from tests.model.demo import DEMO


@pytest.fixture
def folder(tmp_path):
    for file in DEMO.iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    return tmp_path


def test_two_visitors_share_the_ground_but_not_their_weights(folder):
    opened = Opened(folder)
    one, other = opened.study(), opened.study()
    assert one.ground is other.ground
    one.move_weight("views", 0.9)
    assert other.weights[-2] != pytest.approx(0.9)


def test_a_changed_survey_is_seen_by_the_next_visitor(folder):
    opened = Opened(folder)
    before = opened.study()
    spots = (folder / "spots.csv").read_text(encoding="utf-8")
    (folder / "spots.csv").write_text(spots + "One more,40,40,\n", encoding="utf-8")
    after = opened.study()
    assert len(after.ground.places.spots) == len(before.ground.places.spots) + 1


def test_saved_choices_do_not_compute_the_ground_again(folder):
    opened = Opened(folder)
    before = opened.study()
    (folder / "study.toml").write_text("trade_off = 0.5\n", encoding="utf-8")
    after = opened.study()
    assert after.ground is before.ground
    assert after.trade_off == 0.5


def test_what_is_being_computed_is_said(folder):
    said = []
    Opened(folder).prepare(said.append)
    assert any("sunlight" in line for line in said)
    assert said[-2].endswith(f"({len(said) - 1} of {len(said) - 1})")
