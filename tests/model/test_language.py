"""Texts in another language, from a plain gettext file."""

from datetime import date

import pytest

from model.factors import FACTORS
from model.language import (
    DAY_AND_YEAR,
    SHORT_DAY,
    _,
    dated,
    figure,
    language_code,
    month_name,
    ngettext,
)
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


FRENCH = """
msgid ""
msgstr "Content-Type: text/plain; charset=UTF-8\\n"
"Language: fr\\n"
"Plural-Forms: nplurals=2; plural=(n > 1);\\n"

msgid "{number} tree"
msgid_plural "{number} trees"
msgstr[0] "{number} arbre"
msgstr[1] "{number} arbres"

msgid "{count} group"
msgid_plural "{count} groups"
msgstr[0] "{count} groupe"
msgstr[1] ""
"""


def french(tmp_path, text=FRENCH):
    file = tmp_path / "words.po"
    file.write_text(text, encoding="utf-8")
    return file


def trees(number):
    return ngettext("{number} tree", "{number} trees", number).format(number=number)


def test_a_number_takes_the_form_that_the_language_gives_it(tmp_path):
    assert [trees(number) for number in (0, 1, 2)] == ["0 trees", "1 tree", "2 trees"]
    use_language(french(tmp_path))
    # French counts nought in the singular (CLDR, plural rules).
    assert [trees(number) for number in (0, 1, 2)] == ["0 arbre", "1 arbre", "2 arbres"]


def test_a_plural_that_is_half_translated_stays_as_it_is(tmp_path):
    use_language(french(tmp_path))
    assert ngettext("{count} group", "{count} groups", 1) == "{count} group"


@pytest.mark.parametrize("rule", ["n/0", "n+1", "n > 1 ? 2 : 0", "__import__", "n ** 9"])
def test_a_rule_of_plurals_that_cannot_be_followed_is_said(tmp_path, rule):
    with pytest.raises(SurveyFaults, match="Plural-Forms"):
        use_language(french(tmp_path, FRENCH.replace("(n > 1)", f"({rule})")))
    assert _("Weigh") == "Weigh"


def test_a_translation_may_not_fill_in_what_the_text_does_not(tmp_path):
    for wrong in (
        "{nombre} arbre",
        "{number.real} arbre",
        "{number:99999d} arbre",
        "{number arbre",
    ):
        with pytest.raises(SurveyFaults, match="braces"):
            use_language(french(tmp_path, FRENCH.replace('{number} arbre"', f'{wrong}"', 1)))


def test_dates_are_those_of_the_language(tmp_path):
    day = date(2027, 3, 1)
    assert (dated(day), dated(day, SHORT_DAY), month_name(3)) == ("1 March", "1 Mar", "March")
    use_language(french(tmp_path))
    # As printed in CLDR's French calendar: the first of a month is "1er" only in long use.
    assert dated(day, DAY_AND_YEAR) == "1 mars 2027"
    assert month_name(3) == "mars"


def test_the_language_is_that_of_the_head_else_of_the_name(tmp_path):
    use_language(french(tmp_path))
    assert language_code() == "fr"
    for name, code in (("pt_BR.po", "pt-BR"), ("de.po", "de"), ("our words.po", "en")):
        file = tmp_path / name
        file.write_text(PO, encoding="utf-8")
        use_language(file)
        assert language_code() == code


def test_a_minus_is_a_minus_sign_and_no_hyphen():
    assert figure(-2.25, ".2f") == "\N{MINUS SIGN}2.25"
    assert FACTORS[0].shown(-3.0) == "\N{MINUS SIGN}3 % of need"
