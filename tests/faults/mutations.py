"""Ways in which a file comes to harm: a bad disk, another program, a slip of the hand, malice."""

import io
import re
import sqlite3
import tempfile
import zipfile
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from random import Random

Bytes = Callable[[bytes, Random], bytes]
Text = Callable[[str, Random], str]

NASTY = (
    *("", " ", "nan", "NaN", "inf", "-inf", "Infinity", "-Infinity", "null", "None", "true"),
    *("0", "-0", "-1", "1e308", "1e309", "-1e309", "1e-320", "9" * 400, "0x" + "f" * 5000, "1_0"),
    *("1,5", "12 m", "٣", "½", "1e5e5", "--1", "+", ".", "1.2.3", "2024-02-30", "0000-01-01"),
    *("9999-12-31", "10000-01-01", "24:00", "-122.4", "181", "91", "1000000000", "2147483648"),
    *("=1+1", "@SUM(A1)", "'=1", "<b>x</b>", "../../x", "C:\\x", "{x}", "%s", "%00", "\\", "'"),
    *('"', '""', ",", ";", "\t", "[]", "{}", "[[]]", "\ud7ff", "\u202e", "\u0000", "\u2028"),
    *("\ufeff", "e\u0301", "x" * 3000, "🌳", "\r", "\n", "[" * 300, '{"a":' * 300),
)
WORD = re.compile(r'"[^"\n]*"|[\w.+-]+')
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
ENCODINGS = ("utf-16", "utf-16-le", "utf-32", "latin-1", "cp1252", "utf-8-sig", "shift-jis")
LINE_ENDS = ("\r", "\r\n", "\n\n", "\x0b", "\x85", "\u2028", "\n\r", "")
LARGEST = 4_000_000  # bytes; beyond it nothing is doubled any more


def flipped(data: bytes, chance: Random) -> bytes:
    """Some bits turned over."""
    out = bytearray(data)
    for _ in range(chance.randint(1, 8)):
        if out:
            out[chance.randrange(len(out))] ^= 1 << chance.randrange(8)
    return bytes(out)


def flipped_in_head(data: bytes, chance: Random) -> bytes:
    """Some bytes of the first 600 written over, where formats keep their lists and counts."""
    out = bytearray(data)
    for _ in range(chance.randint(1, 4)):
        if out:
            out[chance.randrange(min(len(out), 600))] = chance.choice((0, 1, 127, 128, 254, 255))
    return bytes(out)


def cut(data: bytes, chance: Random) -> bytes:
    """The end, or a piece from within, gone."""
    start, stop = _span(data, chance)
    return data[:start] if chance.random() < 0.5 else data[:start] + data[stop:]


def doubled(data: bytes, chance: Random) -> bytes:
    """A piece twice."""
    start, stop = _span(data, chance)
    return data[:stop] + data[start:] if len(data) < LARGEST else data


def spliced(data: bytes, chance: Random) -> bytes:
    """A piece written over another."""
    start, stop = _span(data, chance)
    place = chance.randrange(len(data) + 1)
    return data[:place] + data[start:stop] + data[place + stop - start :]


def blanked(data: bytes, chance: Random) -> bytes:
    """A piece that the disk lost, given back as zeros or as 0xff."""
    start, stop = _span(data, chance)
    return data[:start] + chance.choice((b"\0", b"\xff")) * (stop - start) + data[stop:]


def emptied(data: bytes, chance: Random) -> bytes:
    """Nothing, or next to nothing."""
    return chance.choice((b"", b"\n", b" ", b"\0", b"\xef\xbb\xbf", data[:1]))


def recoded(data: bytes, chance: Random) -> bytes:
    """The same letters in another encoding, letters that are no English ones among them."""
    text = data.decode("utf-8", "replace").replace("o", "ö", 1)
    return text.encode(chance.choice(ENCODINGS), "replace")


def value_replaced(text: str, chance: Random) -> str:
    """One word or figure, now something nasty; now and then in quotation marks."""
    nasty = chance.choice(NASTY)
    return _replaced(text, WORD, f'"{nasty}"' if chance.random() < 0.2 else nasty, chance)


def number_moved(text: str, chance: Random) -> str:
    """One figure with another sign, a hundred times too large, or a hair beside itself."""
    found = _chosen(NUMBER, text, chance)
    if found is None:
        return text
    other = chance.choice(("-{}", "{}00", "0.000001", "{}e9", "{}.5", "{}{}", "1e{}"))
    new = other.replace("{}", found[0]).replace("--", "")
    return text[: found.start()] + new + text[found.end() :]


def numbers_exchanged(text: str, chance: Random) -> str:
    """Two figures that follow one another, such as latitude and longitude, the wrong way round."""
    found = list(NUMBER.finditer(text))
    if len(found) < 2:
        return text
    number = chance.randrange(len(found) - 1)
    one, two = found[number], found[number + 1]
    return text[: one.start()] + two[0] + text[one.end() : two.start()] + one[0] + text[two.end() :]


def word_misspelt(text: str, chance: Random) -> str:
    """One word with two letters the wrong way round, in capitals, or with a letter more."""
    found = _chosen(WORD, text, chance)
    if found is None:
        return text
    word = found[0]
    new = chance.choice((word[::-1], word.upper(), word + "s", word[1:], f" {word} "))
    return text[: found.start()] + new + text[found.end() :]


def lines_moved(text: str, chance: Random) -> str:
    """A line gone, twice, elsewhere, or joined to the next."""
    lines = text.split("\n")
    number = chance.randrange(len(lines))
    line = lines.pop(number)
    act = chance.randrange(4)
    if act == 1:
        lines[number:number] = [line, line]
    elif act == 2:
        lines.insert(chance.randrange(len(lines) + 1), line)
    elif act == 3 and number < len(lines):
        lines[number] = line + lines[number]
    return "\n".join(lines)


def column_moved(text: str, chance: Random) -> str:
    """A column of a table gone, twice, or in another's place."""
    rows = [line.split(",") for line in text.split("\n")]
    number, act = chance.randrange(max(1, len(rows[0]))), chance.randrange(3)
    for row in rows:
        if number < len(row):
            cell = row.pop(number)
            row[number:number] = [cell, cell] if act == 1 else []
            row.extend([cell] if act == 2 else [])
    return "\n".join(",".join(row) for row in rows)


def other_signs(text: str, chance: Random) -> str:
    """The signs of another country's spreadsheet, or of a word processor."""
    old, new = chance.choice(
        ((",", ";"), (",", "\t"), (".", ","), ('"', "\u201d"), ('"', "'"), ("-", "\u2013"))
    )
    return text.replace(old, new, chance.choice((1, 5, -1)))


def other_line_ends(text: str, chance: Random) -> str:
    """Other line ends, all of them or some."""
    return text.replace("\n", chance.choice(LINE_ENDS), chance.choice((1, 3, -1)))


def nested(text: str, chance: Random) -> str:
    """One value within brackets within brackets."""
    depth = chance.choice((1, 2, 5, 90, 2000))
    before, after = chance.choice((("[", "]"), ('{"a":', "}"), ("(", ")"), ("a.", ""), ('"', '"')))
    found = _chosen(WORD, text, chance)
    if found is None:
        return before * depth + text + after * depth
    deep = before * depth + found[0] + after * depth
    return text[: found.start()] + deep + text[found.end() :]


BYTES: tuple[Bytes, ...] = (flipped, flipped_in_head, cut, doubled, spliced, blanked)
TEXTS: tuple[Text, ...] = (
    *(value_replaced, value_replaced, value_replaced, number_moved, number_moved),
    *(numbers_exchanged, word_misspelt, lines_moved, column_moved, other_signs),
    *(other_line_ends, nested),
)


def harmed_text(data: bytes, chance: Random) -> bytes:
    """A text file harmed once to three times."""
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        if chance.random() < 0.15:
            data = chance.choice((*BYTES, recoded, recoded, emptied))(data, chance)
        else:
            text = chance.choice(TEXTS)(data.decode("utf-8", "surrogateescape"), chance)
            data = text.encode("utf-8", "surrogateescape")
    return data


def harmed_bytes(data: bytes, chance: Random) -> bytes:
    """A file of another kind harmed once to three times."""
    for _ in range(chance.choice((1, 1, 2, 3))):
        data = chance.choice((*BYTES, *BYTES, emptied))(data, chance)
    return data


def harmed_geopackage(data: bytes, chance: Random) -> bytes:
    """A GeoPackage with one cell of one of its tables changed by some program, or its bytes."""
    if chance.random() < 0.4:
        return harmed_bytes(data, chance)
    with tempfile.TemporaryDirectory() as aside:
        path = Path(aside) / "harmed.gpkg"
        path.write_bytes(data)
        with closing(sqlite3.connect(path)) as file:
            _harm_cell(file, chance)
            file.commit()
        return path.read_bytes()


def harmed_zip(data: bytes, chance: Random) -> bytes:
    """A zip with a file of it harmed, renamed, left out or twice, or its own bytes harmed."""
    if chance.random() < 0.4:
        return harmed_bytes(data, chance)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        files = [(entry.filename, archive.read(entry)) for entry in archive.infolist()]
    number, act = chance.randrange(len(files)), chance.randrange(6)
    name, content = files[number]
    if act < 3:
        files[number] = name, harmed_text(content, chance)
    elif act == 3:
        files[number] = (
            chance.choice(("../" + name, "x/" + name, name.upper(), "a\nb.csv")),
            content,
        )
    elif act == 4:
        del files[number]
    else:
        files.append((chance.choice((name, "x.exe", "CON.csv", "x" * 300 + ".csv")), content))
    return zipped(files)


def zipped(files: Sequence[tuple[str, bytes]]) -> bytes:
    """Files as a zip."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files:
            archive.writestr(zipfile.ZipInfo(name), content)
    return out.getvalue()


def _harm_cell(file: sqlite3.Connection, chance: Random) -> None:
    made = dict(file.execute("SELECT name, type FROM sqlite_master").fetchall())
    for name in (name for name, kind in made.items() if kind == "trigger"):
        file.execute(f'DROP TRIGGER "{name}"')  # they call functions that only a GIS has
    table = chance.choice([name for name, kind in made.items() if kind == "table"])
    columns = [row[1] for row in file.execute(f'PRAGMA table_info("{table}")')]
    rows = file.execute(f'SELECT rowid, * FROM "{table}"').fetchall()  # noqa: S608 -- of our own
    if not rows or not columns:
        return
    row, number = chance.choice(rows), chance.randrange(len(columns))
    old = row[number + 1]
    is_blob = isinstance(old, bytes) and chance.random() < 0.8
    new = harmed_bytes(old, chance) if is_blob else chance.choice((*NASTY, None, 2**40, 1e300, b""))
    act = f'UPDATE "{table}" SET "{columns[number]}" = ? WHERE rowid = ?'  # noqa: S608 -- of our own
    try:
        file.execute("PRAGMA ignore_check_constraints = ON")
        file.execute(act, (new, row[0]))
    except sqlite3.Error:
        file.execute(f'DELETE FROM "{table}" WHERE rowid = ?', (row[0],))  # noqa: S608 -- of our own


def _span(data: bytes, chance: Random) -> tuple[int, int]:
    start = chance.randrange(len(data) + 1)
    length = chance.choice((1, 4, 30, 500, len(data)))
    return start, min(len(data), start + chance.randint(1, max(1, length)))


def _chosen(pattern: re.Pattern[str], text: str, chance: Random) -> re.Match[str] | None:
    """One match, found near a place taken by lot, so that long files take no longer."""
    start = chance.randrange(len(text) + 1)
    return pattern.search(text, start) or pattern.search(text)


def _replaced(text: str, pattern: re.Pattern[str], new: str, chance: Random) -> str:
    found = _chosen(pattern, text, chance)
    return text[: found.start()] + new + text[found.end() :] if found else text + new
