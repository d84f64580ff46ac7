"""Soil is described by the classes of the trade."""

from model.survey.attribute import Wrong, checked_value
from model.survey.soil import SOIL_ATTRIBUTES, TEXTURES, Soil


def test_the_textures_are_the_twelve_classes_of_the_usda():
    # Soil Science Division Staff (2017), Soil survey manual, USDA Handbook 18, chapter 3: twelve
    # classes by sand, silt and clay
    assert len(set(TEXTURES)) == 12


def test_the_soil_that_is_assumed_passes_its_own_check():
    values = vars(Soil())
    assert list(values) == [attribute.name for attribute in SOIL_ATTRIBUTES]
    for attribute in SOIL_ATTRIBUTES:
        assert not isinstance(checked_value(attribute, values[attribute.name]), Wrong)
