"""The language file: every text of the app that can be translated, for a translator to fill in."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from dashboard import theme
from dashboard.book import PAGES
from model.factors import FACTORS
from model.survey.kinds import KINDS

PACKAGES = ("dashboard", "model")
ROOT = Path(__file__).parents[1]
HEADER = (
    "# The texts of Treestead: write the translation of each msgid into its msgstr, in\n"
    "# UTF-8, and start the app with it. Words in {braces} stay as they are.\n"
    'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n\n'
)


def texts() -> Iterator[tuple[str, str]]:
    """Every text that can be translated and where it stands, each once."""
    seen: set[str] = set()
    for text, where in (*_in_the_code(), *_in_the_vocabulary()):
        if text and text not in seen:
            seen.add(text)
            yield text, where


def language_file(before: bytes = b"") -> bytes:
    """A gettext .po file of all texts; translations of a file from before are kept.

    Raises babel's PoFileError when that file cannot be read.
    """
    catalog = Catalog()
    old = read_po(BytesIO(before), abort_invalid=True) if before else Catalog()
    for text, where in texts():
        known = old.get(text)
        catalog.add(text, known.string if known else "", auto_comments=[where])
    file = BytesIO()
    write_po(file, catalog, width=100, omit_header=True)
    return HEADER.encode() + file.getvalue()


def _in_the_code() -> Iterator[tuple[str, str]]:
    """Texts that the code passes through `_`, with their file."""
    for package in PACKAGES:
        folder = ROOT / package
        found = extract_from_dir(str(folder), [("**.py", "python")], keywords={"_": None})
        for name, _line, text, _comments, _context in found:
            yield str(text), f"{package}/{name}"


def _in_the_vocabulary() -> Iterator[tuple[str, str]]:
    """Words that records hold: pages, families, factors, kinds of feature."""
    for page in PAGES:
        yield page.label, f"page {page.path}"
        yield page.about, f"page {page.path}"
    for family in theme.FAMILY_LABELS:
        yield theme.family_label(family), f"family {family}"
    for factor in FACTORS:
        for text in (factor.label, factor.question, factor.unit):
            yield text, f"factor {factor.name}"
    for kind in KINDS.values():
        yield kind.label, f"kind {kind.name}"
        yield kind.meaning, f"kind {kind.name}"
        for attribute in kind.attributes:
            yield attribute.meaning, f"kind {kind.name}, {attribute.name}"
