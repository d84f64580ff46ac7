"""One study of the demo for all tests of the dashboard, set back after each."""

import pytest

from dashboard.pages.weigh import Weigh
from dashboard.session import Session
from model.opening import open_study
from tests.model.demo import DEMO


@pytest.fixture(scope="session")
def opened():
    return open_study(DEMO)


@pytest.fixture
def study(opened):
    kept, sets = opened.snapshot(), opened.weight_sets
    yield opened
    opened.restore(kept)
    opened.weight_sets = sets


@pytest.fixture
def weigh(study):
    return Weigh(Session(study))
