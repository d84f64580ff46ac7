"""The language file holds every text a page says, and keeps what was translated."""

from io import BytesIO

import pytest
from babel.messages.pofile import read_po, write_po

import dashboard.app
from dashboard.__main__ import main
from dashboard.book import PAGES
from dashboard.language_file import language_file, texts
from model.factors import FACTORS
from model.factors.slope import SLOPE
from model.language import ENGLISH, ngettext, use
from model.translations import translations
from tests.model.demo import DEMO, demo_study


def test_labels_of_pages_and_factors_are_in_it():
    known = {text for text, _where in texts()}
    assert ("{number} point", "{number} points") in known
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


GERMAN = {
    "Up to {slope:.0f} % under the crown of a tree worked from the ground.": (
        "Bis zu {slope:.0f} % unter der Krone eines Baums, den man vom Boden aus pflegt."
    ),
    "Up to {slope:.0f} % under the crown of a tree that wants a ladder.": (
        "Bis zu {slope:.0f} % unter der Krone eines Baums, der eine Leiter braucht."
    ),
}


@pytest.fixture
def german(tmp_path, capsys):
    """A file as the command writes it, a few of its messages translated as a person would."""
    file = tmp_path / "de.po"
    assert main(["language", str(file)]) == 0
    catalog = read_po(BytesIO(file.read_bytes()), abort_invalid=True)
    for text, said in GERMAN.items():
        catalog.get(text).string = said
    catalog.get("{number} point").string = ("{number} Punkt", "{number} Punkte")
    with file.open("wb") as target:
        write_po(target, catalog)
    yield file
    use(ENGLISH)


def test_the_file_is_headed_with_the_language_it_is_named_for(german):
    head = german.read_text(encoding="utf-8")
    assert "Language: de" in head
    assert "nplurals=2" in head
    again = language_file(german.read_bytes())
    assert b"Language: de" in again
    assert b"{number} Punkte" in again


def test_serve_speaks_the_language_of_the_file(german, monkeypatch, capsys):
    monkeypatch.setattr(dashboard.app, "serve", lambda *_given, **_more: None)
    assert main(["serve", str(DEMO), "--language", str(german), "--no-browser"]) == 0
    study = demo_study()
    place = study.ground.places.cells
    told = SLOPE.explain(study.ground, study.traits, 0, place, ladder=29.0)
    assert told.startswith("Bis zu ")
    assert " % unter der Krone eines Baums, " in told
    assert ngettext("{number} point", "{number} points", 2).format(number=2) == "2 Punkte"
