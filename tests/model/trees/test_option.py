"""An option is named as a grower names it."""

from model.trees import Option


def test_an_option_is_written_as_cultivar_on_rootstock():
    assert Option("plum", "Opal", "Pixy").label == "Opal on Pixy"


def test_options_sort_by_species_then_cultivar_then_rootstock():
    options = [Option("pear", "Beth", "a"), Option("apple", "Z", "b"), Option("apple", "Z", "a")]

    assert sorted(options) == [options[2], options[1], options[0]]
