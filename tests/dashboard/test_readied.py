"""Apps made ahead: each for one visitor, never of a folder as it no longer is."""

import shutil

import pytest

from dashboard.app import app_of
from dashboard.keeping.opened import Opened
from dashboard.keeping.working_copy import WorkingCopy, new_visitor
from dashboard.session import Session
from dashboard.visits.readied import Readied
from tests.model.demo import DEMO


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    return shutil.copytree(DEMO, tmp_path / "site")


@pytest.fixture
def readied(folder):
    opened = Opened(folder)
    made = Readied(folder, lambda: app_of(Session(opened.study(), opened), opened))
    made.more()
    return made


def copy_of(folder):
    return WorkingCopy(folder, new_visitor())


def test_an_app_made_ahead_is_given_once_with_the_copy_of_its_visitor(folder, readied):
    copy = copy_of(folder)
    shell = readied.taken(copy)
    assert shell.session.copy is copy
    assert shell.page.query()["weights"]
    assert readied.taken(copy_of(folder)) is None


def test_who_has_changed_something_is_not_given_the_folder_as_it_was_saved(folder, readied):
    copy = copy_of(folder)
    copy.begun()
    assert readied.taken(copy) is None
    assert len(readied) == 1


def test_a_folder_that_was_changed_since_is_made_anew(folder, readied):
    text = (folder / "site.toml").read_text(encoding="utf-8")
    (folder / "site.toml").write_text(text.replace('name = "', 'name = "New '), encoding="utf-8")
    assert readied.taken(copy_of(folder)) is None
    readied.more()
    assert readied.taken(copy_of(folder)).session.study.site.name.startswith("New ")


def test_nothing_is_made_ahead_while_somebody_is_there(folder, readied):
    shell = readied.taken(copy_of(folder))
    readied.given(shell)
    readied.more()
    assert len(readied) == 0
    assert shell.session.study


def test_of_a_folder_with_faults_nothing_is_made_ahead(folder):
    (folder / "site.toml").write_text("latitude = 'here'", encoding="utf-8")
    opened = Opened(folder)
    made = Readied(folder, lambda: app_of(Session(opened.study(), opened), opened))
    made.more()
    assert len(made) == 0
