"""An order is read with care: what each line asks for, and every fault at once."""

import pytest

from model.opening import open_study
from model.planting.order import matching, use_of, wish_label
from model.planting.order_file import read_order
from model.survey.faults import SurveyFaults
from tests.model.demo import DEMO
from tests.model.planting.orders import BRAMLEY, COX, STELLA, VICTORIA, field

HEADER = "count,species,cultivar,rootstock,use,note\n"


@pytest.fixture(scope="module")
def made():
    return field([COX, BRAMLEY, STELLA, VICTORIA])


def written(folder, *lines):
    (folder / "order.csv").write_text(HEADER + "\n".join(lines) + "\n", encoding="utf-8")
    return folder


def faults_of(made, folder, *lines):
    with pytest.raises(SurveyFaults) as caught:
        read_order(made, written(folder, *lines))
    return [(fault.row, fault.field) for fault in caught.value.faults]


def test_a_blank_cell_is_any(made, tmp_path):
    order = read_order(made, written(tmp_path, "2,apple,,,,", "1,,,,,"))
    assert [wish.options for wish in order.wishes] == [(0, 1), (0, 1, 2, 3)]
    assert [wish.count for wish in order.wishes] == [2, 1]
    assert order.count == 3


def test_a_use_asks_for_fruit_of_that_use_and_dual_serves_both(made):
    # Common practice, no source: Victoria is eaten from the tree and cooked.
    assert use_of(made, 3) == "dual"
    assert matching(made, use="dessert") == (0, 2, 3)
    assert matching(made, use="cooking") == (1, 3)
    assert matching(made, species="apple", use="cooking") == (1,)
    assert matching(made, use="nut") == ()


def test_a_wish_is_called_as_a_grower_would(made, tmp_path):
    order = read_order(made, written(tmp_path, "1,apple,,,dessert,", "1,,Stella,Gisela 5,,"))
    assert [wish.label for wish in order.wishes] == ["dessert apple", "Stella on Gisela 5"]
    assert wish_label() == "tree"


def test_every_fault_of_an_order_is_said_at_once(made, tmp_path):
    lines = ("x,apple,,,,", "1,appel,,,,", "1,apple,,,jam,", "0,,,,,", "1,apple,Nobody,,,")
    assert faults_of(made, tmp_path, *lines) == [
        (2, "count"), (4, "use"), (5, "count"), (3, "species"), (6, "cultivar"),
    ]  # fmt: skip


def test_what_no_tree_of_the_short_list_meets_is_a_fault(made, tmp_path):
    assert faults_of(made, tmp_path, "1,sweet_cherry,,,cooking,") == [(2, "use")]
    assert faults_of(made, tmp_path, "1,apple,,Gisela 5,,") == [(2, "cultivar")]


def test_a_missing_or_empty_order_says_what_to_write(made, tmp_path):
    with pytest.raises(SurveyFaults, match=r"writing order\.csv"):
        read_order(made, tmp_path)
    assert faults_of(made, tmp_path) == [(None, "")]


@pytest.mark.parametrize("name", ["sorrelhay", "sallowbend"])
def test_a_demos_order_is_read(name):
    made = open_study(DEMO.parent / name)
    order = read_order(made, DEMO.parent / name)
    assert 8 <= order.count <= 10
    fertile = [made.traits.self_fertile[option] for option in order.options]
    assert "no" in fertile, "an order without a lesson in pollination"
