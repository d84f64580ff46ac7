"""A folder as a zip and back; a zip can neither leave its folder nor fill the disk."""

import io
import zipfile

import pytest

from model.survey import SurveyFaults, archive
from model.survey.archive import folder_zip, zip_files
from tests.model.demo import DEMO


def packed(files, **how):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in files.items():
            made.writestr(name, content, **how)
    return out.getvalue()


def test_a_folder_comes_back_byte_for_byte_and_the_zip_is_the_same_each_time():
    files = zip_files(folder_zip(DEMO))
    assert files == {file.name: file.read_bytes() for file in DEMO.iterdir() if file.is_file()}
    assert folder_zip(DEMO) == folder_zip(DEMO)


def test_an_independent_reader_finds_the_zip_whole(tmp_path):
    (tmp_path / "a.zip").write_bytes(folder_zip(DEMO))
    with zipfile.ZipFile(tmp_path / "a.zip") as made:
        assert made.testzip() is None


def test_one_folder_round_the_files_and_what_computers_add_are_taken_off():
    data = packed({"land/site.toml": "x", "land/.DS_Store": "y", "__MACOSX/land/._site.toml": "z"})
    assert zip_files(data) == {"site.toml": b"x"}


@pytest.mark.parametrize(
    ("files", "found"),
    [
        ({"../site.toml": "x"}, "name"),
        ({"/etc/site.toml": "x"}, "name"),
        ({"C:site.toml": "x"}, "name"),
        ({"a\\..\\site.toml": "x"}, "name"),
        ({"site.toml": "x", "deep/er.csv": "y"}, "folders within"),
        ({"a/b/site.toml": "x"}, "folders within"),
        ({"site.toml": "x", "run.exe": "y"}, "run.exe"),
        ({"spots.csv": "x"}, "no site.toml"),
        ({"site.toml": "x", "SITE.TOML": "y"}, "twice"),
    ],
)
def test_what_is_no_survey_folder_is_said(files, found):
    with pytest.raises(SurveyFaults, match=found):
        zip_files(packed(files))


def test_a_zip_that_swells_is_stopped_while_it_is_unpacked(monkeypatch):
    monkeypatch.setattr(archive, "LARGEST_TOTAL", 100_000)
    with pytest.raises(SurveyFaults, match="unpacked"):
        zip_files(packed({"site.toml": b"0" * 5_000_000}))


def test_too_many_files_too_large_a_zip_a_link_and_rubbish_are_said(monkeypatch):
    many = {f"a{number}.csv": "" for number in range(99)} | {"site.toml": "x"}
    with pytest.raises(SurveyFaults, match="100 files"):
        zip_files(packed(many))
    link = zipfile.ZipInfo("site.toml")
    link.external_attr = 0o120777 << 16
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(link, "/etc/passwd")
    with pytest.raises(SurveyFaults, match="link"):
        zip_files(out.getvalue())
    for rubbish in (b"", b"no zip", folder_zip(DEMO)[:-30]):
        with pytest.raises(SurveyFaults, match="zip"):
            zip_files(rubbish)
    monkeypatch.setattr(archive, "LARGEST_ZIP", 100)
    with pytest.raises(SurveyFaults, match="MB"):
        zip_files(folder_zip(DEMO))
