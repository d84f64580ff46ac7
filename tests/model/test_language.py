"""Texts in another language, from a plain gettext file."""

import pytest

from model.language import _
from model.survey.faults import SurveyFaults
from model.translations import use_language

PO = """
msgid ""
msgstr "Content-Type: text/plain; charset=UTF-8\\n"

msgid "Weigh"
msgstr "Abwägen"

msgid "Plan"
msgstr ""
"""


@pytest.fixture(autouse=True)
def _english_after():
    yield
    use_language(None)


def test_a_text_is_said_in_the_language_in_use(tmp_path):
    file = tmp_path / "de.po"
    file.write_text(PO, encoding="utf-8")
    use_language(file)
    assert _("Weigh") == "Abwägen"
    use_language(None)
    assert _("Weigh") == "Weigh"


def test_a_text_not_translated_stays_as_it_stands(tmp_path):
    file = tmp_path / "de.po"
    file.write_text(PO, encoding="utf-8")
    use_language(file)
    assert _("Plan") == "Plan"
    assert _("Review") == "Review"


def test_a_file_that_is_no_language_file_is_said(tmp_path):
    file = tmp_path / "de.po"
    file.write_bytes(b"msgid \xff\xfe 'nonsense\nmsgst")
    with pytest.raises(SurveyFaults, match=r"de\.po"):
        use_language(file)
