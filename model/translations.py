"""A language file (gettext's .po), read and checked, and its language taken into use."""

import gettext
import re
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from string import Formatter

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

from model.language import ENGLISH, Language, use
from model.survey.faults import Fault, SurveyFaults, shown, shown_name

LARGEST = 5_000_000  # bytes; all texts of the app come to a twentieth of it
MOST_PLURALS = 6  # Arabic has six
TRIED = 1000  # counts up to which a rule of plurals is tried before it is trusted


def use_language(path: Path | None) -> None:
    """Read a language file and speak its language from now on; None goes back to English.

    Raises SurveyFaults when the file cannot be read as one.
    """
    use(ENGLISH)
    if path is not None:
        use(language(path))


def translations(path: Path) -> dict[str, str]:
    """What a language file says for each English text; texts not yet translated are left out."""
    return dict(language(path).texts)


def language(path: Path) -> Language:
    """The language of a file, by its header `Language:` or, where that is empty, by its name.

    Raises SurveyFaults when the file cannot be read, or a translation has braces of its own.
    """
    catalog = _catalog(path)
    faults = [fault for message in catalog for fault in _faults(path.name, message)]
    if faults:
        raise SurveyFaults(faults)
    said = {message.id: _said(message) for message in catalog if message.id}
    known = {text: forms for text, forms in said.items() if forms and all(forms)}
    return Language(
        code=_code(path, catalog),
        texts={text: forms[0] for text, forms in known.items() if isinstance(text, str)},
        plurals={
            text[0]: forms
            for text, forms in known.items()
            if not isinstance(text, str) and len(forms) >= catalog.num_plurals
        },
        form=_form(path, catalog),
    )


def _said(message: Message) -> tuple[str, ...]:
    """The translation in all its forms; one form where the text depends on no number."""
    said = message.string or ()
    return (said,) if isinstance(said, str) else tuple(said)


def _faults(name: str, message: Message) -> list[Fault]:
    """Braces in a translation that its English text does not have."""
    texts = (message.id,) if isinstance(message.id, str) else tuple(message.id)
    known = {brace for text in texts for brace in _braces(text)}
    return [
        Fault(
            name,
            message.lineno,
            "msgstr",
            f"the braces of {shown(one)}",
            f"only those of {shown(texts[0])}",
            "copying them",
        )
        for one in _said(message)
        if message.id and one and _braces(one) - known
    ]


def _catalog(path: Path) -> Catalog:
    """The messages of a language file."""
    try:
        return read_po(BytesIO(_bounded(path.read_bytes())), abort_invalid=True)
    except Exception as error:  # the reader raises whatever its parts raise
        found = shown_name(str(error)) or "no text"
        fault = Fault(path.name, None, "", found, "a gettext .po file", "correcting that line")
        raise SurveyFaults([fault]) from error


def _bounded(data: bytes) -> bytes:
    """The bytes of a file no larger than any language needs."""
    if len(data) > LARGEST:
        raise ValueError(f"{len(data):,} bytes, more than {LARGEST:,}")
    plurals = re.search(rb"nplurals\s*=\s*(\d+)", data)
    if plurals and int(plurals[1][:9]) > MOST_PLURALS:
        raise ValueError("more forms of the plural than any language has")
    return data


def _code(path: Path, catalog: Catalog) -> str:
    """The code of a file's language; English where neither its header nor its name says one."""
    found = catalog.locale or locale_of(path)
    return str(found) if found else ENGLISH.code


def locale_of(path: Path) -> Locale | None:
    """The language that a file is named for, such as de.po; None where its name is no language."""
    try:
        return Locale.parse(path.stem, sep="-" if "-" in path.stem else "_")
    except (ValueError, UnknownLocaleError):
        return None


def _form(path: Path, catalog: Catalog) -> Callable[[int], int]:
    """The file's own rule of plurals, tried first: a rule that fails must not fail on a page."""
    try:
        form = gettext.c2py(catalog.plural_expr)
        if all(0 <= form(count) < catalog.num_plurals for count in range(TRIED)):
            return form
        found = "a form beyond nplurals"
    except (ValueError, ArithmeticError, RecursionError) as error:
        found = shown_name(str(error)) or "a rule that cannot be reckoned"
    expected = "a rule such as nplurals=2; plural=(n != 1)"
    raise SurveyFaults(
        [Fault(path.name, None, "Plural-Forms", found, expected, "copying your language's")]
    )


def _braces(text: str) -> set[tuple[str, str, str]]:
    """What stands in braces in a text, to be filled in, and how; none where there are no pairs."""
    try:
        parts = list(Formatter().parse(text))
    except ValueError:
        return {(text, "", "")}
    return {(name, form or "", turn or "") for _, name, form, turn in parts if name is not None}
