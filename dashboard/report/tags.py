"""HTML from words: everything that people or files say is escaped here, once."""

from collections.abc import Iterable, Sequence
from html import escape


def clean(text: str) -> str:
    """A text without characters that no document may hold, such as a NUL."""
    return "".join(one if one.isprintable() or one in "\n\t" else " " for one in text)


def words(text: str) -> str:
    """A text as it may stand between tags.

    >>> words("Ann & <b>Bob</b>")
    'Ann &amp; &lt;b&gt;Bob&lt;/b&gt;'
    """
    return escape(clean(text))


def tag(name: str, text: str, kind: str = "") -> str:
    """An element around a text."""
    return f"<{name}{_class(kind)}>{words(text)}</{name}>"


def paragraphs(sentences: Iterable[str], kind: str = "") -> str:
    """A paragraph for each sentence that says anything."""
    return "".join(tag("p", one, kind) for one in sentences if one)


def bullets(sentences: Iterable[str], kind: str = "") -> str:
    """A list, nothing where there is nothing to list."""
    items = "".join(tag("li", one) for one in sentences if one)
    return f"<ul{_class(kind)}>{items}</ul>" if items else ""


def pairs(lines: Iterable[tuple[str, str]], kind: str = "") -> str:
    """Names with what is said of each; those of which nothing is said are left out."""
    items = "".join(
        f"<div><dt>{words(name)}</dt><dd>{words(said)}</dd></div>" for name, said in lines if said
    )
    return f"<dl{_class(kind)}>{items}</dl>" if items else ""


def table(
    caption: str,
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    kind: str = "",
    *,
    raw: Sequence[int] = (),
) -> str:
    """A table whose head is repeated on every page; the first cell of a row heads it.

    `raw` are columns whose cells are HTML that was made here already.
    """
    head = "".join(f'<th scope="col">{words(one)}</th>' for one in columns)
    body = "".join(row(columns, cells, raw) for cells in rows)
    return (
        f"<table{_class(kind)}><caption>{words(caption)}</caption>"
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )


def row(columns: Sequence[str], cells: Sequence[str], raw: Sequence[int] = ()) -> str:
    """A row; each cell tells the head of its column where a narrow screen shows none."""
    said = [cell if number in raw else words(cell) for number, cell in enumerate(cells)]
    rest = "".join(
        f'<td data-label="{words(name)}">{cell}</td>'
        for name, cell in zip(columns[1:], said[1:], strict=True)
    )
    return f'<tr><th scope="row">{said[0]}</th>{rest}</tr>'


def _class(kind: str) -> str:
    return f' class="{kind}"' if kind else ""
