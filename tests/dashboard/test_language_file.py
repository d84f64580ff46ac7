"""The language file holds every text a page says, and keeps what was translated."""

from dashboard.__main__ import main
from dashboard.book import PAGES
from dashboard.language_file import language_file, texts
from model.factors import FACTORS
from model.translations import translations


def test_labels_of_pages_and_factors_are_in_it():
    known = {text for text, _where in texts()}
    assert {factor.label for factor in FACTORS} <= known
    assert {factor.question for factor in FACTORS} <= known
    assert {page.label for page in PAGES} | {page.about for page in PAGES} <= known


def test_a_text_stands_in_it_once():
    found = [text for text, _where in texts()]
    assert len(found) == len(set(found))


def test_a_translation_is_kept_when_the_file_is_written_again(tmp_path):
    first = language_file().decode()
    begun = first.replace('msgid "Settings"\nmsgstr ""', 'msgid "Settings"\nmsgstr "Einstellungen"')
    assert begun != first
    again = language_file(begun.encode())
    file = tmp_path / "de.po"
    file.write_bytes(again)
    assert translations(file) == {"Settings": "Einstellungen"}
    assert language_file(again) == again


def test_the_command_writes_a_file_and_brings_it_up_to_date(tmp_path, capsys):
    file = tmp_path / "de.po"
    assert main(["language", str(file)]) == 0
    text = file.read_text(encoding="utf-8")
    file.write_text(
        text.replace('msgid "Settings"\nmsgstr ""', 'msgid "Settings"\nmsgstr "Einstellungen"'),
        encoding="utf-8",
    )
    assert main(["language", str(file)]) == 0
    assert translations(file) == {"Settings": "Einstellungen"}


def test_a_file_that_cannot_be_read_is_said_and_left_alone(tmp_path, capsys):
    file = tmp_path / "de.po"
    file.write_bytes(b"msgid 'nonsense")
    assert main(["language", str(file)]) == 1
    assert "de.po" in capsys.readouterr().err
    assert file.read_bytes() == b"msgid 'nonsense"
