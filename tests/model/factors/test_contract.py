"""What every factor promises, without exemption."""

import inspect
from functools import cached_property

import numpy as np
import param
import pytest

from model.factors import FACTORS, GROUPS
from model.glossary import QUANTITIES
from model.ground import Ground
from tests.model.demo import demo_study

every_factor = pytest.mark.parametrize("factor", FACTORS, ids=lambda factor: factor.name)


@every_factor
def test_a_factor_says_what_it_asks_in_which_unit_and_whence(factor):
    assert factor.label
    assert factor.question.endswith("?")
    assert factor.unit
    assert factor.group in GROUPS
    assert factor.sources
    assert all(len(source) > 20 for source in factor.sources)


@every_factor
def test_a_factor_measures_a_quantity_of_the_glossary_in_its_unit(factor):
    quantity = QUANTITIES[factor.quantity]
    assert quantity.axes == ("option", "place")
    assert factor.unit.split()[0] == quantity.unit.split("/")[0].split()[0]


@every_factor
def test_a_factor_reads_only_fields_of_the_ground_that_the_glossary_names(factor):
    fields = {name for name, value in vars(Ground).items() if isinstance(value, cached_property)}
    assert set(factor.needs) <= fields <= set(QUANTITIES)


@every_factor
def test_a_factors_figures_have_bounds_and_say_what_they_mean(factor):
    for name, parameter in factor.settings.param.objects(instance=False).items():
        if name in {"name", "curve"}:
            continue
        assert parameter.doc, name
        assert isinstance(parameter, (param.Selector, param.Boolean)) or parameter.bounds, name


@every_factor
def test_a_factors_file_carries_its_name_and_is_small(factor):
    file = inspect.getsourcefile(factor.measure)
    assert file.endswith(f"/{factor.name}.py")
    assert len(inspect.getsource(inspect.getmodule(factor.measure)).splitlines()) <= 150


@every_factor
def test_a_factor_covers_the_demo_and_knows_nothing_outside_it(factor):
    study = demo_study()
    measure = study.measures[factor.name]
    places = study.ground.places
    assert measure.shape in ((1, places.x.size), (len(study.options), places.x.size))
    assert np.isnan(measure[:, ~places.inside]).all()
    allowed = places.inside & ~study.ruling.everywhere
    assert np.isfinite(measure[:, allowed]).all()


@every_factor
def test_a_factor_explains_a_place_in_a_sentence_with_a_figure(factor):
    study = demo_study()
    number = study.factors.index(factor)
    for option in range(len(study.options)):
        sentence = study.explain(number, option, study.ground.places.cells)
        assert sentence.endswith(".")
        assert any(letter.isdigit() for letter in sentence) or factor.name == "views"


@every_factor
def test_a_factors_reasons_hold_where_it_says_and_are_said_in_words(factor):
    study = demo_study()
    figures = study.settings[factor.name].figures()
    for rule in factor.rules_out(study.ground, study.traits, **figures):
        assert len(rule.reason) > 10
        assert rule.where.dtype == bool
        assert rule.where.shape[1] == study.ground.places.x.size
