"""The language file: every text of the app that can be translated, for a translator to fill in."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from dashboard import theme
from dashboard.book import PAGES
from model.factors import FACTORS
from model.ground.obstacles import unnamed
from model.survey.kinds import KINDS

PACKAGES = ("dashboard", "model")
ROOT = Path(__file__).parents[1]
# The functions that a text goes through; ngettext takes it for one and for many.
KEYWORDS: dict[str, tuple[int, ...] | None] = {"_": None, "marked": None, "ngettext": (1, 2)}
HEADER = """\
# The texts of Treestead: write the translation of each msgid into its msgstr, in
# UTF-8, and start the app with it. Words in {{braces}} stay as they are.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Language: {language}\\n"
"Plural-Forms: {plurals}\\n"

"""
Text = str | tuple[str, str]


def texts() -> Iterator[tuple[Text, str]]:
    """Every text that can be translated and where it stands, each once.

    A text that depends on a number is a pair: for one and for many.
    """
    seen: set[str] = set()
    for text, where in (*_in_the_code(), *_in_the_vocabulary()):
        key = text if isinstance(text, str) else text[0]
        if key and key not in seen:
            seen.add(key)
            yield text, where


def language_file(before: bytes = b"", locale: Locale | None = None) -> bytes:
    """A gettext .po file of all texts; translations and language of a file from before are kept.

    `locale` is the language to be translated into, whose rule of plurals is written into the head.
    Raises babel's PoFileError when the file from before cannot be read.
    """
    old = read_po(BytesIO(before), abort_invalid=True) if before else Catalog()
    catalog = Catalog(locale=locale)
    if old.locale is not None or locale is None:
        catalog.mime_headers = old.mime_headers
    for text, where in texts():
        known = old.get(text if isinstance(text, str) else text[0])
        fits = known is not None and known.pluralizable == isinstance(text, tuple)
        catalog.add(text, known.string if known and fits else "", auto_comments=[where])
    file = BytesIO()
    write_po(file, catalog, width=100, omit_header=True)
    head = HEADER.format(language=catalog.locale_identifier or "", plurals=catalog.plural_forms)
    return head.encode() + file.getvalue()


def _in_the_code() -> Iterator[tuple[Text, str]]:
    """Texts that the code passes through `_` and its like, with their file."""
    for package in PACKAGES:
        folder = ROOT / package
        found = extract_from_dir(str(folder), [("**.py", "python")], keywords=KEYWORDS)
        for name, _line, text, _comments, _context in found:
            said = text if isinstance(text, str) else (text[0], text[1])
            yield said, f"{package}/{name}"


def _in_the_vocabulary() -> Iterator[tuple[str, str]]:
    """Words that records hold: pages, families, factors, kinds of feature."""
    for page in PAGES:
        yield page.label, f"page {page.path}"
        yield page.about, f"page {page.path}"
    for family in theme.FAMILY_LABELS:
        yield theme.family_label(family), f"family {family}"
    for factor in FACTORS:
        for text in (factor.label, factor.label.lower(), factor.question, factor.unit):
            yield text, f"factor {factor.name}"
    for kind in KINDS.values():
        yield kind.label, f"kind {kind.name}"
        yield kind.meaning, f"kind {kind.name}"
        yield unnamed(kind.name), f"kind {kind.name}"
        for attribute in kind.attributes:
            yield attribute.meaning, f"kind {kind.name}, {attribute.name}"
