"""Trees once bought are wished for by name, and what the order asks beyond them is kept."""

from model.planting.as_bought import as_bought
from model.planting.order import Order, Wish
from model.planting.placement import Planted

ORDER = Order(
    (Wish("dessert apple", 2, (0, 1)), Wish("apple", 1, (0, 1, 2)), Wish("pear", 1, (3,)))
)


def planted(option, wish=""):
    return Planted(option, f"P{option}", 0.0, 0.0, option, wish, 0.5, ())


def wishes(*trees):
    return {(w.label, w.options): w.count for w in as_bought(ORDER, trees).wishes}


def test_a_plan_of_the_whole_order_asks_for_its_very_trees():
    found = wishes(
        planted(0, "dessert apple"),
        planted(1, "dessert apple"),
        planted(2, "apple"),
        planted(3, "pear"),
    )
    assert found == {
        ("dessert apple", (0,)): 1, ("dessert apple", (1,)): 1, ("apple", (2,)): 1,
        ("pear", (3,)): 1,
    }  # fmt: skip


def test_what_is_not_planted_yet_is_still_asked_for():
    assert wishes(planted(0, "dessert apple")) == {
        ("dessert apple", (0,)): 1, ("dessert apple", (0, 1)): 1, ("apple", (0, 1, 2)): 1,
        ("pear", (3,)): 1,
    }  # fmt: skip


def test_trees_that_do_not_say_their_wish_meet_as_many_as_they_can():
    """The cooker can only be 'apple', so that the two dessert apples take the other line."""
    found = wishes(planted(0), planted(1), planted(2))
    assert found[("apple", (2,))] == 1
    assert ("pear", (3,)) in found
    assert sum(found.values()) == ORDER.count


def test_a_tree_that_no_line_asks_for_stays_in_the_plan():
    assert wishes(planted(4))[("stands already", (4,))] == 1
