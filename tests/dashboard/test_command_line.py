"""The command line: what it writes, what it says, and how it ends."""

import subprocess
import sys

import pandas as pd
import pytest

from dashboard.__main__ import main
from tests.model.demo import DEMO

ASSESSMENT = (
    "spot,x_m,y_m,species,cultivar,rootstock,"
    "factor,measure,unit,desirability,weight,ruled_out,reason"
)
RANKING = "spot,species,cultivar,rootstock,score,rank_at_spot,rank_overall,ruled_out,reason"


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "site"
    copy.mkdir()
    for file in DEMO.iterdir():
        (copy / file.name).write_bytes(file.read_bytes())
    return copy


def test_a_clean_folder_ends_with_0(folder, capsys):
    assert main(["check", str(folder)]) == 0
    assert "no faults" in capsys.readouterr().out


def test_faults_end_with_1_and_are_all_said(folder, capsys):
    (folder / "spots.csv").write_text("spot,x_m,y_m,note\nA,ten,5,\nA,1,2,\n", encoding="utf-8")
    (folder / "study.toml").write_text("trade_off = 9\n", encoding="utf-8")
    assert main(["check", str(folder)]) == 1
    said = capsys.readouterr().err
    assert "spots.csv, row 2, x_m: found" in said
    assert "study.toml" in said
    assert "mend by" in said


def test_an_option_that_the_catalogue_does_not_have_is_a_fault(folder, capsys):
    (folder / "options.csv").write_text(
        "species,cultivar,rootstock\napple,Nobody's Seedling,M9\n", encoding="utf-8"
    )
    assert main(["check", str(folder)]) == 1
    assert "options.csv, row 2" in capsys.readouterr().err


def test_a_neighbour_that_nobody_knows_is_a_fault_with_the_names_there_are(folder, capsys):
    text = (folder / "features.geojson").read_text(encoding="utf-8")
    (folder / "features.geojson").write_text(
        text.replace('"poplar"', '"poplarr"'), encoding="utf-8"
    )
    assert main(["check", str(folder)]) == 1
    said = capsys.readouterr().err
    assert "features.geojson, feature" in said
    assert "poplarr" in said
    assert "willow" in said


def test_layers_are_written_for_a_gis(folder, tmp_path, capsys):
    assert main(["layers", str(folder), "--out", str(tmp_path / "out")]) == 0
    written = capsys.readouterr().out.splitlines()
    assert len([line for line in written if line.endswith(".tif")]) >= 20


@pytest.mark.parametrize("words", [[], ["prune"], ["check"], ["assess", "somewhere"]])
def test_wrong_usage_ends_with_2(words, capsys):
    assert main(words) == 2
    assert "usage" in capsys.readouterr().err


def test_a_starter_folder_is_clean_from_the_start(tmp_path, capsys):
    assert main(["new", str(tmp_path / "field")]) == 0
    assert main(["check", str(tmp_path / "field")]) == 0
    assert main(["new", str(tmp_path / "field")]) == 2


def test_assess_writes_the_columns_that_are_documented(folder, tmp_path):
    assert main(["assess", str(folder), "--out", str(tmp_path / "out")]) == 0
    for name, columns in (("assessment", ASSESSMENT), ("ranking", RANKING)):
        text = (tmp_path / "out" / f"{name}.csv").read_text(encoding="utf-8")
        assert text.splitlines()[0] == columns


def test_assess_judges_every_option_at_every_peg_by_every_factor(folder, tmp_path):
    main(["assess", str(folder), "--out", str(tmp_path / "out")])
    judged = pd.read_csv(tmp_path / "out" / "assessment.csv")
    pegs, trees = pd.read_csv(folder / "spots.csv"), pd.read_csv(folder / "options.csv")
    assert len(judged) == len(pegs) * len(trees) * judged["factor"].nunique()
    assert judged.groupby(["spot", "cultivar", "rootstock"])["weight"].sum().round(4).eq(1).all()


def test_the_best_overall_is_the_best_at_its_own_peg(folder, tmp_path):
    main(["assess", str(folder), "--out", str(tmp_path / "out")])
    ranked = pd.read_csv(tmp_path / "out" / "ranking.csv", keep_default_na=True)
    first = ranked[ranked["rank_overall"] == 1]
    assert (first["rank_at_spot"] == 1).all()
    out = ranked[ranked["ruled_out"]]
    assert out["rank_overall"].isna().all()
    assert out["reason"].str.len().gt(5).all()


def test_the_same_inputs_give_the_same_bytes(folder, tmp_path):
    for run in ("one", "two"):
        subprocess.run(  # noqa: S603 - our own program, in a process of its own
            [sys.executable, "-m", "dashboard", "assess", folder, "--out", tmp_path / run],
            check=True,
        )
    for name in ("assessment.csv", "ranking.csv"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_other_spots_options_and_study_stand_in_for_the_folders_own(folder, tmp_path):
    (tmp_path / "pegs.csv").write_text("spot,x_m,y_m,note\nonly,40,40,\n", encoding="utf-8")
    (tmp_path / "trees.csv").write_text(
        "species,cultivar,rootstock\napple,Discovery,M9\n", encoding="utf-8"
    )
    (tmp_path / "other.toml").write_text("[weights]\nspacing = 1.0\n", encoding="utf-8")
    others = ["--spots", tmp_path / "pegs.csv", "--options", tmp_path / "trees.csv"]
    others += ["--study", tmp_path / "other.toml", "--out", tmp_path / "out"]
    assert main(["assess", str(folder), *map(str, others)]) == 0
    judged = pd.read_csv(tmp_path / "out" / "assessment.csv")
    assert set(judged["spot"]) == {"only"}
    assert set(judged["cultivar"]) == {"Discovery"}
    assert judged.set_index("factor")["weight"]["spacing"] == 1


def test_a_file_that_is_not_there_is_wrong_usage(folder, tmp_path, capsys):
    words = ["assess", str(folder), "--spots", str(tmp_path / "none.csv"), "--out", str(tmp_path)]
    assert main(words) == 2
    assert "none.csv" in capsys.readouterr().err


ORDER = "count,species,cultivar,rootstock,use,note\n2,apple,,,dessert,\n1,sweet_cherry,,,,\n"
PLANNED = {
    "placement.csv", "alternatives.csv", "shopping_list.csv", "calendar.csv", "calendar.ics",
    "effort.csv", "spots.csv",
}  # fmt: skip


@pytest.fixture
def place(folder, tmp_path, capsys):
    """Runs `place` on a small order and says how it ended, what it wrote and what it said."""
    (folder / "placement.csv").unlink()
    (tmp_path / "small.csv").write_text(ORDER, encoding="utf-8")

    def run(*words, out="plan", order=tmp_path / "small.csv"):
        given = ["--order", order, "--out", tmp_path / out, "--winter", "2027", *words]
        ended = main(["place", str(folder), *map(str, given)])
        return ended, tmp_path / out, capsys.readouterr()

    return run


def test_place_writes_the_plan_its_list_its_calendar_and_its_effort(place):
    ended, out, said = place()
    assert ended == 0
    assert {path.name for path in out.iterdir()} == PLANNED
    text = (out / "placement.csv").read_text(encoding="utf-8")
    assert text.splitlines()[0] == "spot,x_m,y_m,species,cultivar,rootstock,wish,score,planted"
    plan = pd.read_csv(out / "placement.csv")
    assert plan["species"].tolist() == ["apple", "apple", "sweet_cherry"]
    assert set(plan["spot"]) <= set(pd.read_csv(out / "spots.csv")["spot"])
    for words in ("3 trees, ", "of 100 on average", "proven", "served by", "Together", "EUR"):
        assert words in said.out


def test_the_same_order_gives_the_same_bytes(place):
    _, first, _ = place(out="first")
    _, second, _ = place(out="second")
    for name in PLANNED:
        assert (first / name).read_bytes() == (second / name).read_bytes()


def test_a_blocked_spot_changes_a_plan_as_little_as_may_be(place):
    _, out, _ = place()
    before = pd.read_csv(out / "placement.csv")
    hit, kept = before["spot"].iloc[2], before["spot"].iloc[0]
    words = ("--placement", out / "placement.csv", "--block", hit, "--keep", kept)
    ended, again, said = place(*words, out="again")
    after = pd.read_csv(again / "placement.csv")
    assert ended == 0
    assert set(before["spot"]) - set(after["spot"]) == {hit}
    assert " moves " in said.out
    assert f"from {hit} to " in said.out


def test_pegs_only_places_at_pegs(place, folder):
    _, out, _ = place("--pegs-only")
    pegs = set(pd.read_csv(folder / "spots.csv")["spot"])
    assert set(pd.read_csv(out / "placement.csv")["spot"]) <= pegs


def test_an_order_that_cannot_be_met_says_what_to_give_up(place):
    ended, out, said = place("--budget", "40")
    assert ended == 0
    assert "Not met: Raise the budget for trees by " in said.out
    assert len(pd.read_csv(out / "placement.csv")) == 3


def test_faults_of_an_order_and_unknown_spots_end_with_1(place, tmp_path):
    wrong = tmp_path / "wrong.csv"
    wrong.write_text(ORDER + "1,appel,,,,\n", encoding="utf-8")
    ended, _, said = place(order=wrong)
    assert ended == 1
    assert "wrong.csv, row 4, species: found" in said.err
    ended, _, said = place("--block", "Top feild")
    assert ended == 1
    assert "writing 'Top field' instead" in said.err


@pytest.mark.parametrize("words", [["--budget", "-3"], ["--seconds", "0"], ["--order", "none.csv"]])
def test_wrong_words_of_place_end_with_2(place, words):
    assert place(*words)[0] == 2
