"""The Trees page without a browser: found, listed, ordered, compared, added, and taken back."""

import re

import numpy as np
import pytest

from dashboard.keeping.opened import Opened
from dashboard.pages.trees import Trees
from dashboard.pages.trees_card import traits_table
from dashboard.pages.trees_compare import comparison
from dashboard.pages.trees_drawing import size_drawing
from dashboard.pages.trees_order import OrderRow
from dashboard.pages.trees_work import LONGEST_LIST
from dashboard.session import Session
from model.opening import open_study
from model.planting.order_file import read_order
from model.trees import Option
from tests.model.demo import DEMO

PLUM = "european_plum|Aylesbury Prune|Pixy"
OWN = {
    "species": "european_plum",
    "name": "Made-up <b>Early</b>",
    "use": "dessert",
    "self_fertile": "yes",
    "source": "invented for a test",
    "status": "memory",
}


@pytest.fixture(scope="module")
def kept_open(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site")
    for file in DEMO.iterdir():
        (folder / file.name).write_bytes(file.read_bytes())
    return Opened(folder)


@pytest.fixture
def session(kept_open, tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path))
    return Session.begun(kept_open)


@pytest.fixture
def shown(session):
    """The page as it stands after each step, built anew where the shell would."""
    session.page = "trees"
    built = [Trees(session)]

    def page():
        if built[-1].work.study is not session.study:
            built.append(Trees(session))
        return built[-1]

    return page


def names(page):
    return [row["label"] for row in page.browse.rows]


def lines(page):
    return page.lines.blocks[0]["lines"]


def test_filters_meet_and_say_how_many_are_left(shown):
    page = shown()
    for name, value in {"text": "plum", "height": "3,5", "pollen": "yes"}.items():
        page._browsed(name, value)
    found = page.work.found()
    here = page.work.here
    assert found.size
    assert page.browse.caption.startswith(f"{found.size} of ")
    assert {here.traits.self_fertile[n] for n in found} == {"yes"}
    assert max(here.size.height[1, n, 0] for n in found) <= 3.5
    page._browsed("text", "no such tree")
    assert not page.browse.rows
    assert "clear" in page.browse.empty
    page._browsed("act", "clear")
    assert page.work.found().size == len(here.options)


def test_columns_sort_both_ways_and_pages_turn(shown):
    page = shown()
    page._browsed("sort", "height")
    low = page.browse.rows[0]["cells"][1]["text"]
    page._browsed("sort", "height")
    high = page.browse.rows[0]["cells"][1]["text"]
    assert float(low.split()[1]) < 2
    assert float(high.split()[1]) > 8
    first = names(page)
    page._browsed("page", 1)
    assert page.browse.pages[0] == 1
    assert names(page) != first
    page._browsed("page", 10_000)
    assert page.browse.pages[0] == page.browse.pages[1] - 1


def test_what_is_added_is_weighed_kept_found_again_and_taken_back(shown, session):
    before = session.study.options
    session.study.option = 3
    shown()._browsed("add", PLUM)
    added = Option(*PLUM.split("|"))
    assert session.study.options == (*before, added)
    assert session.study.option == 3
    assert open_study(session.copy.folder).options == session.study.options
    assert "Aylesbury Prune on Pixy" in session.said
    shown()._lined("up", PLUM)
    assert session.study.options[-2] == added
    shown()._lined("remove", PLUM)
    assert session.study.options == before
    for _step in range(3):
        shown()._lined("undo", "all")
    assert session.study.options == before
    shown()._lined("undo", "all")
    assert session.said == "Nothing to take back."


def test_the_short_list_is_neither_emptied_nor_endless(shown, session):
    page = shown()
    page.work._relist(page.work.study.options[:1], "{tree}", page.work.study.options[0])
    page = shown()
    page._lined("remove", page.lines.blocks[0]["lines"][0]["id"])
    assert len(session.study.options) == 1
    assert "at least one" in session.said
    many = page.work.here.options[:LONGEST_LIST]
    page.work._relist(many, "{tree}", many[0])
    shown()._browsed("add", PLUM)
    assert len(session.study.options) == LONGEST_LIST
    assert "full" in session.said


def test_an_order_is_made_by_steps_and_read_by_the_plan(shown, session):
    page = shown()
    page._headed("panel", "order")
    page._told("wish", "apple|||dessert")
    before = sum(row.count for row in page.work.order())
    page._told("order", "line")
    assert sum(row.count for row in page.work.order()) == before + 1
    page._told("wish", "quince|Vranja|Quince A|")
    page._told("order", "line")
    last = str(len(page.work.order()) - 1)
    page._lined("more", last)
    assert page.work.order()[-1] == OrderRow(2, "quince", "Vranja", "Quince A")
    order = read_order(session.study, session.copy.folder)
    assert order.count == before + 3
    page._lined("drop", last)
    page._lined("undo", "all")
    assert shown().work.order()[-1].count == 2


def test_a_line_that_the_short_list_no_longer_meets_is_said(shown, session):
    page = shown()
    quince = next(o for o in session.study.options if o.species == "quince")
    page.work.remove(quince)
    page = shown()
    page._headed("panel", "order")
    bad = [line for line in lines(page) if line["bad"]]
    assert [line["label"] for line in bad] == ["any quince"]
    assert "short list" in bad[0]["note"]


def test_an_order_of_nothing_says_what_to_do(shown, session):
    page = shown()
    page._headed("panel", "order")
    while page.work.order():
        page._lined("drop", "0")
    assert "add a line" in page.lines.blocks[0]["said"][0]
    assert not (session.copy.folder / "order.csv").exists()


def test_a_tree_of_ones_own_is_asked_for_added_with_its_source_and_removed(shown, session):
    page = shown()
    page._headed("panel", "own")
    page._told("own", "save")
    faults = [field for field in page.form.fields if field.get("fault")]
    assert {field["name"] for field in faults} >= {"species", "name", "use", "source", "status"}
    for name, value in OWN.items():
        page._told(name, value)
    page._told("own", "save")
    page = shown()
    value = session.study.catalogue.value("cultivars", ("european_plum", OWN["name"]), "use")
    assert (value.source, value.status) == (OWN["source"], "memory")
    assert any(OWN["name"] in name for name in names(page))
    assert all("your own" in row["cells"][0]["small"] for row in page.browse.rows)
    option = next(o for o in page.work.here.options if o.cultivar == OWN["name"])
    card = traits_table(page.work, option)
    assert "from memory" in card
    page._told("forget", f"cultivars|european_plum|{OWN['name']}")
    assert OWN["name"] not in session.study.catalogue.cultivars_of("european_plum")


def test_no_word_of_a_file_becomes_part_of_the_page(shown):
    page = shown()
    page._headed("panel", "own")
    for name, value in OWN.items():
        page._told(name, value)
    page._told("own", "save")
    page = shown()
    option = next(o for o in page.work.here.options if o.cultivar == OWN["name"])
    page._open(option)
    page.draw()
    made = page.card.object + page.traits.object + comparison(page.work, (option, option))
    assert "Made-up &lt;b&gt;Early" in made
    assert "<b>Early" not in made


def test_a_card_has_every_trait_with_its_source_and_says_how_sure_it_is(shown):
    page = shown()
    option = page.work.study.options[0]
    card = traits_table(page.work, option)
    lines_of_card = page.work.study.catalogue.card(option)
    assert card.count("<tr><th scope='row'>") == len(lines_of_card)
    for word in ("verified", "common practice", "from memory"):
        assert word in card


def test_three_are_compared_and_what_differs_is_said_in_words(shown):
    page = shown()
    assert "Press Compare" in comparison(page.work, ())
    ids = [line["id"] for line in lines(page)[:4]]
    for one in ids:
        page._browsed("compare", one)
    assert len(page.work.look.compared) == 3
    made = comparison(page.work, page.work.look.compared)
    assert ">differs<" in made
    assert ">the same<" in made
    assert made.index(">differs<") < made.index(">the same<")


def test_judging_what_was_found_fills_in_the_scores_until_the_weights_move(shown, session):
    page = shown()
    page._browsed("text", "medlar")
    assert {row["cells"][6]["small"] for row in page.browse.rows} == {"not judged"}
    page._browsed("act", "judge")
    assert all(row["cells"][6].get("small") != "not judged" for row in page.browse.rows)
    session.study.equal_weights()
    page.draw()
    assert {row["cells"][6]["small"] for row in page.browse.rows} == {"not judged"}


def test_a_drawing_is_to_scale():
    size = np.array([[2.0, 4.0, 8.0], [2.0, 4.0, 8.0]])
    made = size_drawing(size, size, ("small", "usual", "large"), str)
    across = [float(one) for one in re.findall(r"rx='([\d.]+)'", made)]
    assert across[1] / across[0] == pytest.approx(2, rel=0.02)
    assert across[2] / across[1] == pytest.approx(2, rel=0.02)
    assert "person of 1.7 m" in made


def test_feet_are_shown_to_who_asked_for_them(session):
    session.feet = True
    page = Trees(session)
    height = page.browse.rows[0]["cells"][1]
    assert " ft" in height["text"]
    assert height["small"].count(" ft") == 2  # from and to
    assert "[ft]" not in page.browse.caption


def test_a_link_finds_the_same_trees_again_and_says_what_it_cannot_find(shown, session):
    page = shown()
    page._browsed("text", "plum")
    page._browsed("open", PLUM)
    link = page.query()
    session.memory.clear()
    again = Trees(session)
    assert again.follow(link) == []
    assert again.browse.caption == page.browse.caption
    assert again.chosen == page.chosen
    assert again.work.look.panel == "card"
    assert "<b>" in again.follow({"tree": "<b>|x|y", "find.month": "99", "panel": "none"})[0]
