"""A reader of HTML of its own, which knows nothing of how the report was written."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"meta", "img", "br", "link", "input", "hr", "path", "rect", "circle"}


@dataclass
class Read:
    """What a reader finds: elements with their attributes, headings, tables by caption, texts."""

    tags: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    headings: list[tuple[int, str]] = field(default_factory=list)
    tables: dict[str, list[list[str]]] = field(default_factory=dict)
    text: str = ""

    def attributes(self, name):
        """Attributes of every element of a name."""
        return [attributes for tag, attributes in self.tags if tag == name]

    def records(self, caption):
        """Rows of a table by the heads of its columns."""
        head, *rows = self.tables[caption]
        return [dict(zip(head, row, strict=True)) for row in rows]


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.read, self.stack, self.words, self.rows = Read(), [], "", []

    def handle_starttag(self, tag, attrs):
        self.read.tags.append((tag, dict(attrs)))
        if tag in VOID:
            return
        self.stack.append(tag)
        if tag == "table":
            self.rows = []
        elif tag == "tr":
            self.rows.append([])
        if tag in ("th", "td", "caption", "h1", "h2", "h3", "h4"):
            self.words = ""

    def handle_startendtag(self, tag, attrs):
        self.read.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.stack[-1:] == [tag], f"{tag} closed inside {self.stack[-3:]}"
        self.stack.pop()
        words = " ".join(self.words.split())
        if tag in ("th", "td"):
            self.rows[-1].append(words)
        elif tag == "caption":
            self.read.tables[words] = self.rows
        elif tag in ("h1", "h2", "h3", "h4"):
            self.read.headings.append((int(tag[1]), words))

    def handle_data(self, data):
        if "style" in self.stack:
            return
        self.words += data
        self.read.text += data


def read(html):
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert not reader.stack
    return reader.read
