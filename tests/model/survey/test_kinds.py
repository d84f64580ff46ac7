"""The kinds are complete and their defaults lie within their own limits."""

import pytest

from model.survey.attribute import Required, Wrong, checked_value
from model.survey.kinds import KINDS

ATTRIBUTES = [(kind.name, one) for kind in KINDS.values() for one in kind.attributes]


@pytest.mark.parametrize(("kind", "attribute"), ATTRIBUTES, ids=lambda value: str(value)[:30])
def test_every_attribute_says_what_it_is_and_its_default_passes_its_check(kind, attribute):
    assert attribute.meaning
    default = attribute.default
    if not isinstance(default, Required) and repr(default) != "nan":
        assert not isinstance(checked_value(attribute, default), Wrong)


@pytest.mark.parametrize(("kind", "attribute"), ATTRIBUTES, ids=lambda value: str(value)[:30])
def test_lengths_are_above_nothing_and_bounded(kind, attribute):
    if attribute.unit == "m" and attribute.name != "eye_height_m":
        assert 0 < attribute.low < attribute.high <= 5000


def test_a_kind_knows_its_attributes_by_name():
    assert KINDS["hedge"].attribute("width_m").default == 1.5
    assert KINDS["hedge"].attribute("depth") is None
