"""The catalogue's blossom frosts against the growers' chart that extension services hand out.

Sources: Washington State University bulletins EB0913, EB0978, EB1128, EB0914 and EB1240, as charted
by Michigan State University Extension (Longstroth), in degrees Fahrenheit after 30 minutes. The
chart's European plum differs from the catalogue's source by a degree Fahrenheit or two at some
stages: the tolerance there is 2 F, elsewhere the rounding of a tenth of a degree Celsius.
"""

import pytest

from model.trees import read_catalogue

CATALOGUE = read_catalogue()
CHART = (
    ("apple", "buds", 28, 25, 0.0),
    ("apple", "bloom", 28, 25, 0.0),
    ("apple", "fruitlets", 28, 25, 0.0),
    ("pear", "buds", 26, 22, 0.0),
    ("pear", "bloom", 28, 24, 0.0),
    ("pear", "fruitlets", 28, 24, 0.0),
    ("sweet_cherry", "buds", 27, 24, 0.0),
    ("sweet_cherry", "bloom", 28, 25, 0.0),
    ("sweet_cherry", "fruitlets", 28, 25, 0.0),
    ("european_plum", "buds", 26, 22, 2.0),
    ("european_plum", "bloom", 28, 23, 2.0),
    ("european_plum", "fruitlets", 28, 23, 2.0),
    ("sour_cherry", "bloom", 28, 25, 0.0),
    ("peach", "buds", 25, 15, 0.0),
    ("peach", "bloom", 27, 24, 0.0),
    ("peach", "fruitlets", 28, 25, 0.0),
)


@pytest.mark.parametrize(("species", "stage", "tenth", "most", "allowed"), CHART)
def test_frost_that_kills_a_tenth_and_nine_tenths_wsu_msu_chart(
    species, stage, tenth, most, allowed
):
    for share, fahrenheit in ((10, tenth), (90, most)):
        value = CATALOGUE.value("species", species, f"frost_{share}_{stage}").number
        assert value == pytest.approx((fahrenheit - 32) / 1.8, abs=0.06 + allowed / 1.8)


@pytest.mark.parametrize("species", CATALOGUE.species())
def test_more_is_killed_by_harder_frost_and_open_blossom_bears_no_more_than_buds(species):
    for share in (10, 90):
        buds, bloom, set_fruit = (
            CATALOGUE.value("species", species, f"frost_{share}_{stage}").number
            for stage in ("buds", "bloom", "fruitlets")
        )
        assert buds <= bloom <= set_fruit
    for stage in ("buds", "bloom", "fruitlets"):
        tenth, most = (
            CATALOGUE.value("species", species, f"frost_{share}_{stage}").number
            for share in (10, 90)
        )
        assert most < tenth
