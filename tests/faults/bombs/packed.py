"""Bombs that are packed: zips, pictures and heights."""

import io
import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

import rasterio

from model.survey.archive import zip_files
from tests.faults import samples, uploads

from .bomb import Bomb, read_as_survey


def _zip(path: Path) -> None:
    zip_files(path.read_bytes(), path.name)


def packed_bombs() -> Iterator[Bomb]:
    """All of them."""
    zeros, site = bytes(9_000_000), samples.SITE.encode()
    yield Bomb(
        "80 MB of zeros", "survey.zip",
        lambda: _packed({"site.toml": site} | {f"{n}.csv": zeros for n in range(9)}), _zip,
    )  # fmt: skip
    yield Bomb("a hundred thousand files", "survey.zip", lambda: _list_of(100_000), _zip)
    yield Bomb("one file within itself", "survey.zip", _overlapping, _zip)
    yield Bomb("a gigapixel picture", "sketch.png", lambda: _png(40_000, 40_000), uploads.picture)
    yield Bomb(
        "a picture longer than any", "sketch.png", lambda: _png(2**31 - 1, 1), uploads.picture
    )
    yield Bomb("a picture's note of 60 MB", "sketch.png", _png_with_note, uploads.picture)
    yield Bomb(
        "heights of ten gigapixels", "heights.tif", lambda: _tif(100_000, 256), read_as_survey
    )
    many = lambda: _tif(10_000, 0)  # noqa: E731 -- one line
    yield Bomb("heights of a hundred million cells", "heights.tif", many, read_as_survey)


def _packed(files: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return out.getvalue()


def _list_of(count: int) -> bytes:
    """A zip whose list has many entries, all of one empty file."""
    whole = _packed({"site.toml": b""})
    start = whole.index(b"PK\x01\x02")
    end = whole.index(b"PK\x05\x06")
    entries = whole[start:end] * count
    tail = struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, 65535, 65535, len(entries), start, 0)
    return whole[:start] + entries + tail


def _overlapping() -> bytes:
    """A zip whose 59 entries are all one and the same 9 MB."""
    whole = _packed({"00.csv": bytes(9_000_000)})
    start, end = whole.index(b"PK\x01\x02"), whole.index(b"PK\x05\x06")
    entry = whole[start:end]
    names = [f"{n:02}.csv".encode() for n in range(57)]
    entries = entry.replace(b"00.csv", b"s.toml") + b"".join(
        entry.replace(b"00.csv", name) for name in names
    )
    tail = struct.pack("<4s4H2LH", b"PK\x05\x06", 0, 0, 58, 58, len(entries), start, 0)
    return whole[:start] + entries + tail


def _png(width: int, height: int) -> bytes:
    """A picture that says how large it is, and of which little is there."""
    head = struct.pack(">2L5B", width, height, 8, 0, 0, 0, 0)
    pixels = zlib.compress(bytes(min(width + 1, 10**7)))
    return _png_of((b"IHDR", head), (b"IDAT", pixels))


def _png_with_note() -> bytes:
    note = b"note\0\0" + zlib.compress(bytes(60_000_000))
    head = struct.pack(">2L5B", 1, 1, 8, 0, 0, 0, 0)
    return _png_of((b"IHDR", head), (b"zTXt", note), (b"IDAT", zlib.compress(b"\0\0")))


def _png_of(*chunks: tuple[bytes, bytes]) -> bytes:
    whole = b"\x89PNG\r\n\x1a\n"
    for name, content in (*chunks, (b"IEND", b"")):
        check = struct.pack(">L", zlib.crc32(name + content))
        whole += struct.pack(">L", len(content)) + name + content + check
    return whole


def _tif(edge: int, tile: int) -> bytes:
    """Heights of which no cell was written: a small file."""
    tiles = (
        {"tiled": True, "blockxsize": tile, "blockysize": tile} if tile else {"blockysize": edge}
    )
    place = rasterio.transform.from_origin(-3.0, 52.0, 1e-5, 1e-5)
    with rasterio.MemoryFile() as memory:
        with memory.open(
            driver="GTiff", width=edge, height=edge, count=1, dtype="float32", crs="EPSG:4326",
            transform=place, SPARSE_OK=True, **tiles,
        ):  # fmt: skip
            pass
        return bytes(memory.read())
