"""What stands round the pages: the head, the row of pages, the drawer, what is done and said."""

from dataclasses import replace

import panel as pn
import pytest
from panel.io.resources import Resources

from dashboard.book import PAGES
from dashboard.keeping.opened import Opened
from dashboard.session import Session
from dashboard.shell import Shell
from model.opening import open_study
from tests.model.demo import DEMO

EVIL = '"><script>alert(1)</script>'


@pytest.fixture
def shell(study):
    return Shell(Session(study))


def test_a_site_s_name_is_text_in_the_page_s_head(study, monkeypatch, tmp_path):
    monkeypatch.setattr(study, "site", replace(study.site, name=EVIL))
    file = tmp_path / "page.html"
    Shell(Session(study)).view.save(str(file), resources=Resources(mode="cdn"))
    head, _, _ = file.read_text(encoding="utf-8").partition("<body")
    assert "Treestead" in head
    assert EVIL not in head


def test_weights_stand_in_the_drawer_of_the_weigh_page(shell):
    shell.open("weigh")
    assert list(shell.side) == [shell.built["weigh"].weights.view]


def test_every_page_can_be_opened_and_only_one_is_in_view(shell):
    for page in PAGES:
        shell.open(page.path)
        assert [path for path, one in shell.frames.items() if one.visible] == [page.path]
    assert shell.navigation.current == shell.session.page == PAGES[-1].path


def test_a_page_that_there_is_not_changes_nothing(shell):
    before = shell.navigation.current
    shell.open("nowhere")
    assert shell.navigation.current == before


def test_the_link_says_which_page_is_open(shell):
    shell.open("weigh")
    assert shell.query()["page"] == "weigh"


@pytest.fixture
def folder(tmp_path):
    for file in DEMO.iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    return tmp_path


@pytest.fixture
def own(folder, tmp_path_factory, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path_factory.mktemp("data")))
    return Session.begun(Opened(folder))


def test_what_a_visitor_changes_is_found_again_and_can_be_given_up(own):
    own.study.move_weight("views", 0.7)
    own.study.settings["spacing"].size = "high"
    own.keep("options.csv", "species,cultivar,rootstock\napple,Discovery,M9\n")
    own.reopen()
    assert [option.label for option in own.study.options] == ["Discovery on M9"]
    assert own.study.weights[-2] == pytest.approx(0.7, abs=1e-6)
    assert own.study.settings["spacing"].size == "high"
    again = Session.begun(own.opened, own.copy.visitor)
    assert len(again.study.options) == 1
    assert again.study.ground is own.study.ground
    again.copy.discard()
    again.reopen()
    assert len(again.study.options) == len(open_study(own.opened.folder).options)


def test_a_copy_with_faults_is_left_aside_and_said(own):
    own.keep("options.csv", "species,cultivar,rootstock\napple,Nobody's Seedling,M9\n")
    again = Session.begun(own.opened, own.copy.visitor)
    assert "options.csv" in again.said
    assert len(again.study.options) > 1


def test_long_work_hands_over_its_result_or_says_its_fault(study):
    session, got = Session(study), []

    def wrong(_progress):
        raise ValueError("no place is left for a walnut")

    session.run("placing the order", lambda _progress: 42, got.append)
    session.run("placing the order", wrong, got.append)
    assert got == [42]
    assert session.said == "no place is left for a walnut"
    assert not session.doing


def test_long_work_has_a_study_of_its_own(study):
    session = Session(study)
    twin = session.twin()
    twin.move_weight("views", 0.9)
    assert study.weights[-2] != pytest.approx(0.9)
    assert twin.ground is study.ground


def test_what_was_said_on_a_page_is_left_behind_with_it(shell):
    shell.session.said = "Judged."
    shell.navigation._handle_msg({"page": "trees"})
    assert (shell.session.page, shell.session.said) == ("trees", "")


def test_the_way_back_leads_to_the_folder_s_own_name_and_weights(own):
    shell = Shell(own)
    name, weights = own.study.site.name, list(own.study.weights)
    own.study.move_weight("views", 0.7)
    site = (own.folder / "site.toml").read_text(encoding="utf-8")
    own.keep("site.toml", site.replace(name, "Elsewhere"))
    own.reopen()
    assert shell.view.title.endswith("Elsewhere")
    assert own.study.weights[-2] == pytest.approx(0.7, abs=1e-6)
    own.give_up()
    assert shell.view.title.endswith(name)
    assert list(own.study.weights) == weights


def test_nothing_that_outlives_a_visitor_listens_for_them(study):
    def listening():
        return {name: len(one.get("value", ())) for name, one in pn.state.param.watchers.items()}

    before = listening()
    shell = Shell(Session(study))
    assert listening() == before
    assert not shell.view.busy
