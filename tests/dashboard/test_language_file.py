"""The language file holds every text a page says, and keeps what was translated."""

from dashboard.book import PAGES
from dashboard.language_file import language_file, texts
from model.factors import FACTORS
from model.language import translations


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
