"""The language that people read: English as written in the code, or as a language file has it."""

from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import PoFileError, read_po

from model.survey.faults import Fault, SurveyFaults

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
    try:
        with path.open("rb") as file:
            catalog: Catalog = read_po(file, abort_invalid=True)
    except (OSError, PoFileError, UnicodeDecodeError, ValueError) as error:
        raise SurveyFaults(
            [Fault(path.name, None, "", str(error), "a gettext .po file", "correcting that line")]
        ) from error
    pairs = ((message.id, message.string) for message in catalog if message.id)
    return {str(text): str(said) for text, said in pairs if isinstance(text, str) and said}
