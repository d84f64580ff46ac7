"""A folder gives text, or says why it cannot."""

import pytest

from model.survey.folder import Folder


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path):
    (tmp_path / "spots.csv").write_bytes(b"\xef\xbb\xbfspot\n")
    assert Folder(tmp_path).text("spots.csv") == "spot\n"


@pytest.mark.parametrize(
    ("data", "row", "word"),
    [
        (b"", None, "empty"),
        (b" \n ", None, "empty"),
        (b"spot\nCaf\xe9\n", 2, "0xe9"),
        (b"spot\nA\n\x00\n", 3, "zero byte"),
        ("spot\n".encode("utf-16"), 1, "byte"),
    ],
)
def test_what_is_no_text_is_noted_with_its_row(tmp_path, data, row, word):
    (tmp_path / "spots.csv").write_bytes(data)
    folder = Folder(tmp_path)
    assert folder.text("spots.csv") is None
    [fault] = folder.faults
    assert (fault.file, fault.row) == ("spots.csv", row)
    assert word in fault.found


def test_a_link_out_of_the_folder_is_not_followed(tmp_path):
    inside = tmp_path / "survey"
    inside.mkdir()
    (tmp_path / "secret.csv").write_text("spot\n")
    (inside / "spots.csv").symlink_to(tmp_path / "secret.csv")
    folder = Folder(inside)
    assert folder.present(["spots.csv"]) == []
    assert "link out of the folder" in folder.faults[0].found


def test_a_link_in_a_circle_or_a_folder_is_no_file(tmp_path):
    (tmp_path / "spots.csv").symlink_to(tmp_path / "spots.csv")
    (tmp_path / "options.csv").mkdir()
    folder = Folder(tmp_path)
    assert folder.present(["spots.csv", "options.csv"]) == []
    assert [fault.file for fault in folder.faults] == ["options.csv"]


def test_two_files_of_one_topic_are_a_fault(tmp_path):
    for name in ("a.csv", "b.csv"):
        (tmp_path / name).write_text("x")
    folder = Folder(tmp_path)
    folder.one_of(["a.csv", "b.csv"], "weather")
    assert folder.faults[0].found == "a.csv and b.csv"


@pytest.mark.parametrize("name", ["Spots.csv", "spot.csv", "spotss.csv"])
def test_a_file_that_is_nearly_called_right_is_pointed_out(tmp_path, name):
    (tmp_path / name).write_text("x")
    folder = Folder(tmp_path)
    folder.note_misspelt(["spots.csv", "options.csv"])
    assert "renaming it to spots.csv" in folder.faults[0].mend


@pytest.mark.parametrize("name", ["spots_old.csv", "cultivars.csv", "README.txt", "spots.csv"])
def test_other_files_are_left_alone(tmp_path, name):
    (tmp_path / name).write_text("x")
    folder = Folder(tmp_path)
    folder.note_misspelt(["spots.csv", "options.csv"])
    assert folder.faults == []
