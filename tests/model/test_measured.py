"""Studies over one ground share what they measure, and nothing else."""

from dataclasses import replace

import numpy as np
import pytest

from model.factors import FACTORS
from model.opening import open_study
from model.study import Study
from tests.model.demo import DEMO, demo_study

QUICK = ("climate_fit", "spacing", "slope")


def test_a_second_visitor_measures_nothing_again():
    first = demo_study()
    second = open_study(DEMO, ground=first.ground)
    for name in QUICK:
        assert second.measure(name) is first.measure(name)


def test_another_short_list_is_measured_for_itself():
    first = demo_study()
    fewer = Study(first.site, first.catalogue, first.options[::2], ground=first.ground)
    for name in QUICK[:2]:
        np.testing.assert_array_equal(fewer.measure(name), first.measure(name)[::2])


def test_other_figures_of_a_factor_are_measured_for_themselves():
    first = demo_study()
    second = open_study(DEMO, ground=first.ground)
    factor = next(one for one in FACTORS if second.settings[one.name].figures())
    name, value = next(iter(second.settings[factor.name].figures().items()))
    low, high = second.settings[factor.name].param[name].bounds
    before = second.measure(factor.name)
    second.settings[factor.name].param.update(**{name: low if value != low else high})
    assert second.measure(factor.name) is not before
    assert first.measure(factor.name) is before


def test_a_study_with_a_catalogue_of_its_own_shares_nothing():
    first = demo_study()
    own = Study(
        first.site,
        replace(first.catalogue),
        first.options,
        ground=first.ground,
    )
    assert own.measure("spacing") is not first.measure("spacing")
    np.testing.assert_array_equal(own.measure("spacing"), first.measure("spacing"))


def test_what_is_shared_cannot_be_written():
    with pytest.raises(ValueError, match="read-only"):
        demo_study().measure("slope")[...] = 0
