"""Why not there, and two choices side by side: one tap away, and the same as the study says."""

import html
import re

import numpy as np
import pytest

from dashboard.pages.compare_words import difference_table
from dashboard.pages.weigh import Weigh
from dashboard.session import Session
from model.comparison import Choice, best_place, comparison, why_not


def peg(study, number):
    return study.ground.places.cells + number


def test_why_not_says_what_the_model_says(weigh, study):
    study.place = peg(study, 9)
    weigh.panels.tabs.open = "why"
    for sentence in why_not(study, study.option, study.place):
        assert sentence in html.unescape(weigh.panels.why.said.object)


def test_its_best_place_is_one_tap_from_there(weigh, study):
    weigh.panels.tabs.open = "why"
    weigh.panels.why.elsewhere.clicks += 1
    assert weigh.panels.tabs.open == "beside"
    assert weigh.other == Choice(study.option, best_place(study, study.option))
    drawn = weigh.ground.drawing.layers["beside"]["x"]
    assert drawn.tolist() == [study.ground.places.x[weigh.other.place]]


def test_the_next_tap_on_the_map_says_what_to_compare_with(weigh, study):
    place, places = study.place, study.ground.places
    weigh.ground.beside.value = True
    weigh._tapped(float(places.x[-1]), float(places.y[-1]))
    assert study.place == place
    assert weigh.other == Choice(study.option, places.x.size - 1)
    assert not weigh.ground.beside.value
    weigh._tapped(float(places.x[-2]), float(places.y[-2]))
    assert study.place == places.x.size - 2


def test_a_tree_of_the_ranking_can_be_compared_with(weigh, study):
    option = study.option
    weigh.ground.beside.value = True
    weigh.here.merit._handle_msg({"row": weigh.here.merit.rows[1]["id"]})
    assert study.option == option
    assert weigh.other == Choice(int(weigh.here.merit.rows[1]["id"]), study.place)


def test_the_bars_and_the_rest_add_up_to_the_difference(study):
    found = comparison(study, Choice(0, peg(study, 9)), Choice(4, peg(study, 11)))
    table = difference_table(study, found, str)
    main = table.partition("<details>")[0]
    shown = [
        int(figure.replace("\N{MINUS SIGN}", "-"))
        for figure in re.findall(r"<span style=[^>]*>([^<]*)</span>", main)
    ]
    assert sum(shown) == pytest.approx(100 * found.lead, abs=len(shown) / 2)
    assert table.count('<tr><th scope="row">') >= len(study.factors)


def test_the_longest_bar_stands_first_and_to_the_side_of_who_gains(study):
    found = comparison(study, Choice(0, peg(study, 9)), Choice(0, peg(study, 11)))
    table = difference_table(study, found, str)
    first = re.search(r'<th scope="row">([^<]*)</th>', table)[1]
    most = int(np.abs(found.parts).argmax())
    assert first == study.factors[most].label
    assert re.search(r'<i style="(left|right)', table)[1] == (
        "left" if found.parts[most] > 0 else "right"
    )


def test_swapping_turns_the_comparison_round(weigh, study):
    weigh._set_beside(Choice(4, peg(study, 11)))
    now = Choice(study.option, study.place)
    weigh.panels.compared.swap.clicks += 1
    assert (study.option, study.place) == (4, peg(study, 11))
    assert weigh.other == now


def test_a_comparison_can_be_taken_back_and_linked_to(weigh, study):
    weigh._set_beside(Choice(4, peg(study, 11)))
    words = weigh.query()
    other = Weigh(Session(study))
    other.follow(words)
    assert other.other == Choice(4, peg(study, 11))
    weigh.take_back()
    assert "beside" not in weigh.query()


def test_a_link_to_what_this_site_has_not_compares_nothing(weigh, study):
    weigh.follow({"beside": "Nothing on Earth @ nowhere"})
    assert weigh.other == Choice(study.option, study.place)
    weigh.follow({"beside": f"{study.options[1].label} @ nan,1"})
    assert weigh.other == Choice(study.option, study.place)


def test_names_of_pegs_and_trees_are_text_and_nothing_else(weigh, study, monkeypatch):
    evil = "<img src=x onerror=alert(1)>"
    monkeypatch.setattr(type(study.ground.places), "name", lambda *_: evil)
    weigh._set_beside(Choice(4, peg(study, 11)))
    weigh.panels.tabs.open = "why"
    weigh.draw()
    shown = (weigh.panels.compared.table, weigh.panels.compared.said, weigh.panels.why.said)
    assert all("<img" not in pane.object for pane in shown)
