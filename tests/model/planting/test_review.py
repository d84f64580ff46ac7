"""The review of a plan after a year. Source of the statements: common practice, no source.

What comes of the demo's trees is a lesson of its invented observations. It shows that the page
says what the rules make of them, and is no evidence that the rules are right.
"""

from datetime import date
from functools import cache
from pathlib import Path

import pandas as pd
import pytest

from dashboard.__main__ import main
from model.planting.year_after.review import Review, folder_review, write_review
from model.planting.year_after.review_tables import EVIDENCE, REVIEW
from model.planting.year_after.standing import standing_trees
from model.survey.faults import SurveyFaults
from tests.model.demo import DEMO, demo_study

SALLOWBEND = DEMO.parent / "sallowbend"


@cache
def demo_review() -> Review:
    return folder_review(DEMO)


@cache
def southern_review() -> Review:
    return folder_review(SALLOWBEND)


def row(spot: str) -> pd.Series:
    table = demo_review().table
    return table[table["spot"] == spot].iloc[0]


def test_every_tree_has_one_row_and_one_sentence():
    made = demo_review()
    assert list(made.table.columns) == REVIEW
    assert list(made.evidence.columns) == EVIDENCE
    assert len(made.table) == len(made.sentences) == len(standing_trees(demo_study(), DEMO))
    assert set(made.table["advice"]) <= {"keep", "move", "wait"}


def test_the_tree_with_less_sun_than_the_map_said_is_moved_in_the_dormant_season():
    tree = row("Lane corner")
    assert tree["advice"] == "move"
    assert tree["score_here"] < tree["score_mapped"] < tree["score_there"]
    assert (tree["window_from"], tree["window_to"]) == ("2027-10-25", "2028-03-15")
    assert "sun was 6.4 h where the map said" in tree["reason"].lower()
    assert "seen again: the map was wrong" in tree["meaning"]


def test_the_sentence_parts_what_was_seen_from_what_the_map_said_before():
    tree = row("Lane corner")
    assert tree["gain"] - tree["gain_mapped"] > 0.05
    assert "the map already put it 1 point higher, what was seen adds 8" in tree["reason"]
    flat = southern_review().table.set_index("spot").loc["Flat"]
    assert flat["gain_mapped"] > flat["gain"] / 2
    assert "the map already put it 7 points higher, what was seen adds 2" in flat["reason"]
    assert ", so peg Screen" not in flat["reason"]


def test_a_move_that_the_mostly_mapped_would_have_made_is_not_put_down_to_what_was_seen():
    flat = next(one for one in southern_review().trees if one.tree.spot == "Flat")
    assert flat.mostly_mapped
    assert "ask first why the plan left that place" in southern_review().sentences[1]
    assert not next(
        one for one in demo_review().trees if one.tree.spot == "Lane corner"
    ).mostly_mapped


def test_a_peg_that_falls_free_is_open_to_the_others():
    assert "the next best is peg Lane corner" in row("Top field")["reason"]


def test_room_partners_and_the_peg_left_behind_are_said_with_a_move():
    said = row("Lane corner")["with_the_move"]
    assert "its crown ends 33 m from that of Discovery on M9 at Kitchen view" in said
    assert "nearest partner in flower there: Discovery on M9 at Kitchen view, 36 m away" in said
    assert "Lane corner falls free" in said
    assert row("Copse edge")["with_the_move"] == ""


def test_poor_growth_that_nothing_explains_is_said_and_does_not_move_the_tree():
    tree = row("Copse edge")
    assert tree["advice"] == "keep"
    assert "nothing seen of the place says why" in tree["reason"]


def test_a_reading_that_cannot_be_right_is_to_be_looked_at_again():
    tree = row("Kitchen view")
    assert tree["advice"] == "wait"
    assert "look again" in tree["reason"]


def test_no_two_trees_are_sent_to_one_peg_nor_to_one_that_is_taken():
    for table in (demo_review().table, southern_review().table):
        goes = table.loc[table["advice"] == "move", "where_to"]
        assert goes.is_unique
        assert not set(goes.str.removeprefix("peg ")) & set(table["spot"])


def test_the_southern_review_has_southern_dates_and_keeps_what_is_too_old_to_move():
    table = southern_review().table.set_index("spot")
    assert table.loc["Flat", "advice"] == "move"
    assert table.loc["Flat", "window_from"] == "2028-04-25"
    assert table.loc["Pines", "gain"] > 0.05
    assert table.loc["Pines", "advice"] == "keep"


def test_the_survey_is_corrected_in_words():
    made = demo_review()
    assert any("since 6.1 was found at Hollow" in said for said in made.corrections)
    assert made.site is not demo_study().site


def test_the_same_files_give_the_same_bytes(tmp_path):
    paths = [write_review(folder_review(DEMO), tmp_path / name) for name in "ab"]
    for one, other in zip(*paths, strict=True):
        assert one.read_bytes() == other.read_bytes()
    assert not list((tmp_path / "a").glob("*.part"))


def test_the_command_writes_both_tables_and_says_a_sentence_a_tree(tmp_path, capsys):
    assert main(["review", str(DEMO), "--out", str(tmp_path), "--on", "2027-11-10"]) == 0
    said = capsys.readouterr().out
    assert "move it to peg Screen between 10 November 2027 and 15 March 2028" in said
    assert "have buried services located" in said
    assert len(pd.read_csv(tmp_path / "review.csv")) == len(demo_review().table)
    assert list(pd.read_csv(tmp_path / "evidence.csv").columns) == EVIDENCE


def test_faults_of_plan_and_observations_stop_the_command(tmp_path, capsys):
    plan = tmp_path / "plan.csv"
    head = (DEMO / "placement.csv").read_text(encoding="utf-8").splitlines()[0]
    plan.write_text(
        f"{head}\nTop feild,-900,1,apple,Discovery,M9,,,2027-02-13\n"
        "Hollow,1,1,apple,Discovery,M27,,,2027-02-01\n",
        encoding="utf-8",
    )
    command = ["review", str(DEMO), "--out", str(tmp_path / "out"), "--placement", str(plan)]
    assert main(command) == 1
    said = capsys.readouterr().err
    assert "plan.csv, row 2, spot" in said
    assert "plan.csv, row 3, species" in said
    assert not (tmp_path / "out").exists()
    assert main([*command[:-1], str(tmp_path / "none.csv")]) == 2


def test_a_day_that_is_none_is_said_with_its_peg(tmp_path):
    plan = tmp_path / "plan.csv"
    head = (DEMO / "placement.csv").read_text(encoding="utf-8").splitlines()[0]
    plan.write_text(f"{head}\nHollow,1,1,apple,Discovery,M9,,,2027-02-31\n", encoding="utf-8")
    with pytest.raises(SurveyFaults, match=r"planted: found '2027-02-31' at 'Hollow'"):
        standing_trees(demo_study(), plan)


def test_a_plan_without_observations_needs_a_day(tmp_path):
    empty = tmp_path / "observations.csv"
    empty.write_text("spot,date,what,value\n", encoding="utf-8")
    with pytest.raises(SurveyFaults, match=r"observations\.csv"):
        folder_review(DEMO, observations=Path(empty))
    made = folder_review(DEMO, observations=Path(empty), on=date(2027, 11, 10))
    assert made.evidence.empty
    assert all("the map stands" in said for said in made.sentences)
