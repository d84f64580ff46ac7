"""The language file: every text of the app that can be translated, for a translator to fill in."""

import ast
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from dashboard.vocabulary import vocabulary

PACKAGES = ("dashboard", "model")
ROOT = Path(__file__).parents[1]
ONE = ("_", "marked")  # functions that a text goes through; ngettext takes it for one and many
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
    for text, where in (*_in_the_code(), *vocabulary()):
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
    """Texts that the code passes through `_` and its like, with their file.

    By Python's own parser, which also sees what stands within the braces of an f-string.
    """
    for path in sorted(path for package in PACKAGES for path in (ROOT / package).rglob("*.py")):
        where = path.relative_to(ROOT).as_posix()
        calls = (
            node for node in ast.walk(ast.parse(path.read_bytes())) if isinstance(node, ast.Call)
        )
        for call in sorted(calls, key=lambda call: (call.lineno, call.col_offset)):
            name = call.func.id if isinstance(call.func, ast.Name) else ""
            said = [str(one.value) for one in call.args if isinstance(one, ast.Constant)]
            if name in ONE and said:
                yield said[0], where
            elif name == "ngettext" and len(said) >= 2:
                yield (said[0], said[1]), where
