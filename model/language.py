"""The language that people read: English as written in the code, or as a language file has it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from babel import Locale
from babel.dates import format_skeleton, get_month_names

MINUS = "\N{MINUS SIGN}"
# What a date shows, as Unicode's skeletons name it, and how plain English has it.
DAY, SHORT_DAY = "MMMMd", "MMMd"
DAY_AND_YEAR, SHORT_DAY_AND_YEAR, MONTH_AND_YEAR = "yMMMMd", "yMMMd", "yMMMM"
ENGLISH_DATES = {
    DAY: "%-d %B",
    SHORT_DAY: "%-d %b",
    DAY_AND_YEAR: "%-d %B %Y",
    SHORT_DAY_AND_YEAR: "%-d %b %Y",
    MONTH_AND_YEAR: "%B %Y",
}


def english_form(count: int) -> int:
    """Which of the two English forms a number takes: 0 for one, 1 for many."""
    return int(count != 1)


@dataclass(frozen=True)
class Language:
    """A language: its code, its text for each English one, and its forms for one and many.

    `plurals` are known by the English text for one; `form` numbers the form that a count takes.
    """

    code: str = "en"
    texts: Mapping[str, str] = field(default_factory=dict)
    plurals: Mapping[str, Sequence[str]] = field(default_factory=dict)
    form: Callable[[int], int] = english_form


ENGLISH = Language()


@dataclass
class _Speaking:
    """What this process speaks."""

    language: Language


_speaking = _Speaking(ENGLISH)


def use(language: Language) -> None:
    """Speak a language from now on, everywhere in this process."""
    _speaking.language = language


def language_code() -> str:
    """The language in use as web pages name it, such as 'en' or 'pt-BR'."""
    return _speaking.language.code.replace("_", "-")


def _(text: str) -> str:
    """The text in the language in use; as it stands where the language file does not have it."""
    return _speaking.language.texts.get(text, text)


def ngettext(one: str, many: str, count: int) -> str:
    """The text for a number of things, in the form that the language in use has for it.

    >>> ngettext("{n} tree", "{n} trees", 3).format(n=3)
    '3 trees'
    """
    forms = _speaking.language.plurals.get(one)
    return forms[_speaking.language.form(count)] if forms else (one, many)[english_form(count)]


def marked(text: str) -> str:
    """The text as it stands: marked for the language file, put through `_` where it is shown."""
    return text


def listed(names: Sequence[str]) -> str:
    """Names in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    *head, last = names
    return _("{several} and {last}").format(several=", ".join(head), last=last) if head else last


def each(names: Sequence[str]) -> str:
    """Names or clauses one after another, each joined by a word.

    >>> each(["a", "b", "c"])
    'a and b and c'
    """
    *head, last = names
    return _("{several} and {last}").format(several=each(head), last=last) if head else last


def any_of(names: Sequence[str]) -> str:
    """Names of which any will do, in a sentence.

    >>> any_of(["a", "b", "c"])
    'a or b or c'
    """
    *head, last = names
    return _("{several} or {last}").format(several=any_of(head), last=last) if head else last


def either(names: Sequence[str]) -> str:
    """Names to choose from, in a sentence.

    >>> either(["a", "b", "c"])
    'a, b or c'
    """
    *head, last = names
    return _("{several} or {last}").format(several=", ".join(head), last=last) if head else last


def figure(value: float, form: str) -> str:
    """A number as people read it, with a minus sign and not a hyphen.

    >>> figure(-2.25, ".1f")
    '−2.2'
    """
    return format(value, form).replace("-", MINUS)


def dated(day: date, shows: str = DAY) -> str:
    """A date in the language in use; `shows` is one of the skeletons above.

    >>> dated(date(2027, 3, 5)), dated(date(2027, 3, 5), SHORT_DAY_AND_YEAR)
    ('5 March', '5 Mar 2027')
    """
    if _speaking.language.code == "en":
        return day.strftime(ENGLISH_DATES[shows])
    return format_skeleton(shows, day, locale=Locale.parse(_speaking.language.code))


def month_name(number: int, width: Literal["wide", "abbreviated"] = "wide") -> str:
    """A month (1 to 12) by its name, `width` 'wide' or 'abbreviated'.

    >>> month_name(3), month_name(3, "abbreviated")
    ('March', 'Mar')
    """
    if _speaking.language.code == "en":
        return date(2001, number, 1).strftime("%B" if width == "wide" else "%b")
    return get_month_names(width, "stand-alone", Locale.parse(_speaking.language.code))[number]
