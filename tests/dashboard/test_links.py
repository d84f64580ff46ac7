"""A link carries the settings, and says what it asks in vain."""

import numpy as np
import pytest

from dashboard import links
from dashboard.app import address
from model.decision.desirability import Curve


def test_a_link_brings_back_what_it_was_made_from(study):
    study.move_weight("spacing", 0.4)
    study.trade_off = -3.5
    study.place, study.option, study.layer = 1234, 3, "views"
    study.settings["spacing"].curve = Curve((0.0, 2.0), (0.1, 0.9))
    made, scores = links.query(study), study.scores.copy()
    study.equal_weights()
    study.param.update(trade_off=1.0, place=0, option=0, layer="best")
    study.settings["spacing"].curve = Curve((0.0, 1.0), (0.0, 1.0))
    assert links.follow(study, made) == []
    assert (study.place, study.option, study.layer, study.trade_off) == (1234, 3, "views", -3.5)
    assert study.settings["spacing"].curve == Curve((0.0, 2.0), (0.1, 0.9))
    np.testing.assert_allclose(study.scores, scores, rtol=1e-4)


def test_a_peg_is_named_in_the_link(study):
    places = study.ground.places
    study.place = places.cells + 5
    assert links.query(study)["place"] == places.spots[5]
    assert links.follow(study, {"place": places.spots[2]}) == []
    assert study.place == places.cells + 2


@pytest.mark.parametrize(
    ("key", "word"),
    [
        ("weights", "spacing:x"),
        ("weights", "moonlight:20"),
        ("weights", "spacing:-20"),
        ("weights", "spacing:nan"),
        ("trade_off", "7"),
        ("trade_off", "much"),
        ("place", "Nowhere"),
        ("option", "Nothing on nothing"),
        ("layer", "moonlight"),
        ("curve.spacing", "0:0.5"),
        ("curve.spacing", "0:0.5~0:0.7"),
        ("curve.moonlight", "0:0~1:1"),
    ],
)
def test_what_a_link_asks_in_vain_is_said_and_changes_nothing(study, key, word):
    before = links.query(study)
    (note,) = links.follow(study, {key: word})
    assert note.startswith("The link's")
    assert links.query(study) == before


def test_words_of_other_programs_are_passed_over(study):
    assert links.follow(study, {"utm_source": "letter"}) == []


def test_an_address_is_readable(study):
    words = address(links.query(study))
    assert "place=Shed%20nook" in words
    assert "weights=climate_fit:" in words
