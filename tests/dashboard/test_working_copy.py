"""A visitor's working copy: the original is untouched until saved, and nothing is half written."""

import pytest

from dashboard.keeping.working_copy import WorkingCopy, new_visitor


@pytest.fixture
def copy(tmp_path, monkeypatch):
    monkeypatch.setenv("TREESTEAD_DATA", str(tmp_path / "data"))
    folder = tmp_path / "field"
    folder.mkdir()
    (folder / "site.toml").write_text("name = 'Field'\n", encoding="utf-8")
    (folder / "spots.csv").write_text("spot,x_m,y_m,note\n", encoding="utf-8")
    return WorkingCopy(folder, new_visitor())


def test_nothing_is_copied_before_the_first_change(copy):
    assert not copy.changed
    assert copy.folder == copy.original


def test_a_change_is_the_visitor_s_own(copy):
    copy.write("order.csv", "count\n1\n")
    assert copy.folder == copy.own
    assert (copy.own / "site.toml").read_text(encoding="utf-8") == "name = 'Field'\n"
    assert not (copy.original / "order.csv").exists()
    other = WorkingCopy(copy.original, new_visitor())
    assert not other.changed


def test_a_change_is_found_again_by_the_visitor_s_name(copy):
    copy.write("order.csv", "count\n1\n")
    assert WorkingCopy(copy.original, copy.visitor).changed


def test_saved_changes_go_into_the_folder_and_the_copy_is_gone(copy):
    copy.write("order.csv", "count\n1\n")
    copy.remove("spots.csv")
    assert [path.name for path in copy.save().files] == ["order.csv"]
    assert (copy.original / "order.csv").read_text(encoding="utf-8") == "count\n1\n"
    assert not (copy.original / "spots.csv").exists()
    assert not copy.changed


def test_a_copy_given_up_leaves_the_folder_as_it_was(copy):
    copy.write("site.toml", "name = 'Other'\n")
    copy.discard()
    assert (copy.folder / "site.toml").read_text(encoding="utf-8") == "name = 'Field'\n"
    assert not list(copy.own.parent.iterdir())


@pytest.mark.parametrize("name", ["../spots.csv", "a/b.csv", "/etc/passwd", ""])
def test_a_file_cannot_be_written_outside_the_copy(copy, name):
    with pytest.raises(ValueError, match="expected the name of a file"):
        copy.write(name, "x")


@pytest.mark.parametrize(
    "visitor", ["", "../../etc", "short", "a" * 65, "with space and more letters"]
)
def test_a_visitor_s_name_that_is_not_ours_is_replaced(tmp_path, visitor):
    assert WorkingCopy(tmp_path, visitor).visitor != visitor
