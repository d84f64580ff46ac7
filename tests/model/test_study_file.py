"""study.toml: what is saved is what is read, and every fault is said at once."""

import tomllib

import pytest

from model.decision.desirability import Curve
from model.opening import open_study, save_choices
from model.study_file import StudyFile, WeightSet, read_study_file, write_study_file
from model.survey.faults import SurveyFaults
from tests.model.demo import DEMO

KEPT = StudyFile(
    weights={"spacing": 0.4, "views": 0.6},
    trade_off=-2.5,
    settings={"spacing": {"curve": Curve((0.0, 2.0), (0.1, 1.0)), "size": "high"}},
    weight_sets=(WeightSet("Ours", "for the lane side", {"spacing": 1.0}, 0.0),),
)


def test_what_is_written_is_read_back(tmp_path):
    write_study_file(tmp_path / "study.toml", KEPT)
    assert read_study_file(tmp_path / "study.toml") == KEPT


def test_another_reader_reads_what_we_write(tmp_path):
    write_study_file(tmp_path / "study.toml", KEPT)
    table = tomllib.loads((tmp_path / "study.toml").read_text(encoding="utf-8"))
    assert table["weight_sets"][0]["name"] == "Ours"
    assert table["curves"]["spacing"]["y"] == [0.1, 1.0]


def test_no_file_leaves_the_defaults(tmp_path):
    assert read_study_file(tmp_path / "study.toml") == StudyFile()


def test_every_fault_is_said_at_once_with_its_mend(tmp_path):
    (tmp_path / "study.toml").write_text(
        'trade_off = 7\ncolour = "red"\n[weights]\nspacin = 0.5\nviews = -1\n'
        "[curves.vigour]\nx = [2, 1]\ny = [0, 1]\n[settings.spacing]\nsize = 'huge'\n"
        "[[weight_sets]]\nabout = 'no name'\n",
        encoding="utf-8",
    )
    with pytest.raises(SurveyFaults) as raised:
        read_study_file(tmp_path / "study.toml")
    said = str(raised.value)
    for piece in (
        "trade_off",
        "colour",
        "spacin",
        "spacing",
        "views",
        "curves.vigour",
        "size",
        "name",
    ):
        assert piece in said
    assert all("study.toml" in line and "mend by" in line for line in said.splitlines())


@pytest.mark.parametrize(
    "text", ["weights = [", "\x00", "weights = 3", "weight_sets = 1", "[curves]\nvigour = 1"]
)
def test_a_broken_file_is_a_fault_and_nothing_else(tmp_path, text):
    (tmp_path / "study.toml").write_text(text, encoding="utf-8")
    with pytest.raises(SurveyFaults):
        read_study_file(tmp_path / "study.toml")


def test_choices_saved_by_the_app_come_back_on_the_next_start(tmp_path):
    folder = tmp_path / "site"
    folder.mkdir()
    for file in DEMO.iterdir():
        (folder / file.name).write_bytes(file.read_bytes())
    study = open_study(folder)
    study.move_weight("views", 0.5)
    study.trade_off = 0.5
    study.settings["vigour"].curve = Curve((1.0, 3.0), (1.0, 0.2))
    study.save_weight_set("Lane side", "what the lane wants")
    save_choices(study)
    again = open_study(folder)
    assert again.weights == pytest.approx(study.weights)
    assert again.trade_off == 0.5
    assert again.settings["vigour"].curve == Curve((1.0, 3.0), (1.0, 0.2))
    assert "Lane side" in [kept.name for kept in again.weight_sets]
    assert len(again.weight_sets) == len(study.weight_sets)
