"""The five lessons run as they are, answer to their sliders, and are stored clean."""

import re
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

import dashboard.lessons
from dashboard.lessons import lesson, lines

FOLDER = Path(dashboard.lessons.__file__).parent
ROOT = FOLDER.parents[1]
NAMES = (
    "1_sun_and_shade",
    "2_room_at_full_size",
    "3_roots_and_fungi",
    "4_weights_and_disagreement",
    "5_a_year_later",
)
# A board whose slider is moved, and what it is moved to.
MOVED = {
    "1_sun_and_shade": [("course", "day", 355), ("shadows", "hour", 9.0), ("wood", "away", 40.0)],
    "2_room_at_full_size": [
        ("stocks", "age", 20),
        ("room", "size", "high"),
        ("meeting", "apart", 8.0),
    ],
    "3_roots_and_fungi": [
        ("reach", "height", 8.0),
        ("circle", "circle", 3.0),
        ("fungi", "share", 40),
    ],
    "4_weights_and_disagreement": [
        ("tips", "share", 40.0),
        ("vote", "weight", 50.0),
        ("sure", "surety", 0),
    ],
    "5_a_year_later": [("belief", "seen", 4.0), ("what_if", "seen", 10.0), ("age", "there", 70)],
}
# What a teacher would stake a lesson on; common practice, no source.
TRUE = {
    "1_sun_and_shade": """
    assert season(oak["open"], months) - season(oak["north"], months) < 0.5
    assert season(oak["south"], months) < 0.6 * season(oak["open"], months)
    assert season(wall["west"], months) < season(wall["north"], months)
    assert season(pine["south"], dark) < season(oak["south"], dark)
    assert season_at(sallowbend, "Shed south", cold) < 1 < season_at(sallowbend, "Shed north", cold)
    """,
    "2_room_at_full_size": """
    assert list(plain) == sorted(plain) and plain[-1] > 2 * plain[0]
    assert poor < plain[middle] < rich and bramley > plain[middle]
    assert "Victoria on St Julien A" not in stand and "Discovery on M9" in stand
    near, far = edges(1, 6, 3.0)
    assert year_of(far - near, 1.0) < year_of(far - near, 0.0)
    assert under == ["Discovery on M9"]
    """,
    "3_roots_and_fungi": """
    assert least == "oak"
    assert one[0] > 3 * one[1] and three[0] > three[1]
    fungi_choice(PEGS["Top field"], 10)
    assert changed(before, leaders()) == 0 and first > 1
    """,
    "4_weights_and_disagreement": """
    assert turns and common and len(common) < len(PEGS)
    assert view.matters and 0 < view.concordance.w < 1
    assert near[first] > every[first]
    """,
    "5_a_year_later": """
    assert 7 < good.mean < 8 < careless.mean < 9.5 and abs(odd.surprise) > 2
    assert [tree.advice for tree in made.trees].count("keep") == 3
    assert advice[6.5] == "move" and advice[9.5] == "keep" and once == "wait" and loose == "keep"
    assert last_age(65, 90, 0.45) > last_age(65, 90, 0.2)
    """,
}
MOVE = """
def check_that_it_moves(board):
    import json
    written = lambda: json.dumps(board.drawing.layers, default=lambda array: array.tolist())
    columns, said, view = written(), board.said.object, board.drawing.view
    board.widgets[{widget!r}].value = {value!r}
    assert board.said.object != said, "nothing is said of {board}"
    assert written() != columns and board.drawing.view is view, "{board} did not move"

check_that_it_moves({board})
"""


def executed(name):
    """Cells of a lesson run from beginning to end, then its sliders moved and its truths asked."""
    book = nbformat.read(FOLDER / f"{name}.ipynb", as_version=4)
    shown = len(book.cells)
    asked = [MOVE.format(board=b, widget=w, value=v) for b, w, v in MOVED[name]]
    asked.append("\n".join(line.strip() for line in TRUE[name].splitlines()))
    book.cells += [nbformat.v4.new_code_cell(code) for code in asked]
    NotebookClient(book, timeout=120, resources={"metadata": {"path": str(ROOT)}}).execute()
    return book.cells[:shown]


def html(cell):
    """All that a cell shows, as markup."""
    shown = [output.data for output in cell.get("outputs", []) if "data" in output]
    return "".join(data.get("text/html", "") for data in shown)


# One test a lesson, since running it is what takes time: so that they can be spread.
@pytest.mark.parametrize("name", NAMES)
def test_a_lesson_runs_answers_to_its_sliders_and_hides_its_answers(name):
    cells = executed(name)
    assert sum('"name":"Figure"' in html(cell).replace(" ", "") for cell in cells) >= 3
    assert all(output.output_type != "stream" for c in cells for output in c.get("outputs", []))
    asked = [cell for cell in cells if cell.id.endswith("-questions")]
    answers = [html(cell) for cell in cells if cell.id.endswith("-answer")]
    assert len(answers) >= len(asked) >= 3
    for answer in answers:
        assert answer.count("<details>") == 1
        assert not re.search(r"\b(nan|inf|None)\b", answer)
    assert sum(bool(re.search(r"[0-9]", answer)) for answer in answers) == len(answers)


@pytest.mark.parametrize("name", NAMES)
def test_a_lesson_is_stored_without_outputs_and_with_lasting_names_of_its_cells(name):
    book = nbformat.read(FOLDER / f"{name}.ipynb", as_version=4)
    nbformat.validate(book)
    assert set(book.metadata) == {"kernelspec", "language_info"}
    for cell in book.cells:
        assert re.fullmatch(r"[a-z-]+", cell.id)
        if cell.cell_type == "code":
            assert cell.outputs == []
            assert cell.execution_count is None
            assert cell.metadata == {"jupyter": {"source_hidden": True}}


@pytest.mark.parametrize("name", NAMES)
def test_a_lesson_says_what_it_gives_how_long_it_takes_and_whence_it_comes(name):
    book = nbformat.read(FOLDER / f"{name}.ipynb", as_version=4)
    first, last = book.cells[0].source, book.cells[-1].source
    assert "you will know" in first
    assert "invented" in first
    minutes = [int(n) for n in re.findall(r"^\| (\d+) \|", first, re.MULTILINE)]
    assert sum(minutes) == 40
    headed = [
        int(n) for c in book.cells for n in re.findall(r"^## .*\((\d+) minutes", c.source, re.M)
    ]
    assert sorted(headed) == sorted(minutes)
    assert "**One task.**" in last
    assert "### Where this comes from" in last


def test_an_unknown_peg_or_option_is_answered_with_those_there_are():
    study = lesson.demo("sorrelhay")
    with pytest.raises(ValueError, match="Top field"):
        lesson.peg(study, "Nowhere")
    with pytest.raises(ValueError, match="Discovery on M9"):
        lesson.option(study, "Nothing")


def test_an_answer_is_shown_as_it_was_written():
    shown = lesson.Answer("5 < 6 & all")._repr_html_()
    assert "5 &lt; 6 &amp; all" in shown
    assert shown.startswith("<details><summary>")


def test_names_of_lines_that_end_together_stay_on_the_plot_and_apart():
    named = {name: [1.0, 0.0] for name in "abcd"}
    y = lines.layers([0, 1], named, (0.0, 10.0))["names"]["y"]
    assert min(y) >= -1e-9
    assert min(abs(a - b) for i, a in enumerate(y) for b in y[:i]) > 0.6
