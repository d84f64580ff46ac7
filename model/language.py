"""The language that people read: English as written in the code, or as a language file has it."""

import re
from io import BytesIO
from pathlib import Path
from string import Formatter

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

from model.survey.faults import Fault, SurveyFaults, shown, shown_name

LARGEST = 5_000_000  # bytes; all texts of the app come to a twentieth of it
MOST_PLURALS = 6  # Arabic has six

_said: dict[str, str] = {}


def _(text: str) -> str:
    """The text in the language in use; as it stands where the language file does not have it."""
    return _said.get(text, text)


def use_language(path: Path | None) -> None:
    """Read a language file (gettext's .po) and use it from now on; None goes back to English.

    Raises SurveyFaults when the file cannot be read as one.
    """
    _said.clear()
    if path is not None:
        _said.update(translations(path))


def translations(path: Path) -> dict[str, str]:
    """What a language file says for each English text; texts not yet translated are left out."""
    pairs: dict[str, str] = {}
    faults = []
    for message in _catalog(path):
        text, said = message.id, message.string
        if not (isinstance(text, str) and text and isinstance(said, str) and said):
            continue
        if _braces(said) - _braces(text):
            found = f"the braces of {shown(said)}"
            expected = f"only those of {shown(text)}"
            fault = Fault(path.name, message.lineno, "msgstr", found, expected, "copying them")
            faults.append(fault)
        pairs[text] = said
    if faults:
        raise SurveyFaults(faults)
    return pairs


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


def _braces(text: str) -> set[str]:
    """What stands in braces in a text, to be filled in; none where the braces are no pairs."""
    try:
        return {name or "" for _, name, _, _ in Formatter().parse(text) if name is not None}
    except ValueError:
        return {text}
