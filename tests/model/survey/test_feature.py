"""Two features are the same when they say the same."""

from dataclasses import replace

import shapely

from model.survey.feature import same_feature
from tests.model.survey.examples import features


def test_half_a_millimetre_is_no_difference_and_two_are():
    tree = features()[3]
    near = replace(tree, geometry=shapely.affinity.translate(tree.geometry, 0.0005))
    far = replace(tree, geometry=shapely.affinity.translate(tree.geometry, 0.002))
    assert same_feature(tree, near)
    assert not same_feature(tree, far)


def test_not_known_equals_not_known():
    tree = features()[3]
    assert same_feature(tree, replace(tree, attributes=dict(tree.attributes)))


def test_another_kind_name_or_attribute_is_a_difference():
    hedge = features()[2]
    assert not same_feature(hedge, replace(hedge, name="other"))
    assert not same_feature(hedge, replace(hedge, attributes={**hedge.attributes, "height_m": 3.0}))
    assert not same_feature(hedge, features()[0])


def test_a_number_can_be_had_as_such():
    assert features()[2].number("height_m") == 2.0
