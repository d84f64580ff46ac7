"""Files made to take a reader's time or memory; each is read in a process that has bounds.

The bounds stand here and nowhere else. A bomb is refused, in words that say where, within LONGEST
seconds of a core's time (measured: at most 0.8, and 1.2 for heights just below the largest that
are read); the process may hold MOST_MEMORY more than it did before.
"""

import io
import json
import os
import resource
import struct
import sys
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from time import process_time
from urllib.parse import quote

import numpy as np
import rasterio

from dashboard.pages.plan_kept import read_kept
from dashboard.report.brief import read_brief
from model.opening import folder_faults
from model.planting.buying.prices import read_prices
from model.planting.order_file import read_order
from model.planting.year_after.standing import standing_trees
from model.study_file import read_study_file
from model.survey import SurveyFaults, read_site
from model.survey.archive import zip_files
from model.survey.background import background_from
from model.survey.sketch_file import sketch_from
from model.translations import language
from model.trees import CatalogueFaults, read_catalogue
from tests.faults import samples, uploads

LONGEST = 1.0  # s of a core's time, on a quiet core of 2020 or later
STALLED = 30.0  # s by the clock, after which the process is ended: far beyond any busy machine
MOST_MEMORY = 600  # MB above what the process held before
ERRORS = (SurveyFaults, CatalogueFaults, ValueError)
FEATURE = '{"type":"Feature","properties":{"kind":"gate"},"geometry":%s}'
COLLECTION = '{"type":"FeatureCollection","features":[%s]}'


@dataclass(frozen=True)
class Bomb:
    """What is in a file, and how it is read; `refused` is false where leaving it out is right."""

    name: str
    file: str
    content: Callable[[], bytes]
    read: Callable[[Path], Iterable[str] | None]
    refused: bool = True


@dataclass(frozen=True)
class Burst:
    """What came of a bomb: core seconds, MB more than before, and what was said."""

    name: str
    seconds: float
    megabytes: float
    said: str
    wrong: str = ""


def read_as_survey(path: Path) -> None:
    """A file of a survey folder whose site is otherwise right."""
    if path.name != "site.toml":
        (path.parent / "site.toml").write_text(samples.SITE, encoding="utf-8")
    read_site(path.parent)


def _texts(name: str, file: str, content: str, *, refused: bool = True) -> Bomb:
    return Bomb(name, file, content.encode, read_as_survey, refused)


def _site_bombs() -> Iterator[Bomb]:
    site = "site.toml"
    yield _texts("nested lists", site, "a = " + "[" * 200_000)
    yield _texts("nested tables", site, "a" + ".a" * 100_000 + " = 1")
    yield _texts("a blank line of half a million", site, samples.SITE + " " * 490_000 + "\nx = 1")
    yield _texts("a figure of 400,000 digits", site, f"latitude = '{'1' * 400_000}x'")
    yield _texts("20,000 unknown keys", site, "".join(f"k{n} = 1\n" for n in range(20_000)))
    yield _texts("too large a file", site, "#" * 600_000)
    for value in ("nan", "inf", "-inf", "1e999", "0x" + "f" * 9000):
        yield _texts(f"latitude {value[:9]}", site, samples.SITE.replace("52.0", value, 1))
    yield _texts("the other hemisphere", site, samples.SITE.replace("52.0", "-52.0", 1))
    swapped = samples.SITE.replace("52.0", "-3.0", 1).replace("-3.0\nalt", "52.0\nalt", 1)
    yield _texts("latitude and longitude exchanged", site, swapped)
    yield _texts("latitude beyond the pole", site, samples.SITE.replace("52.0", "152.0", 1))


def _feature_bombs() -> Iterator[Bomb]:
    geojson = "features.geojson"
    point = FEATURE % '{"type":"Point","coordinates":%s}'
    yield _texts("nested lists", geojson, COLLECTION % ("[" * 1_000_000))
    deep = '{"type":"GeometryCollection","geometries":[' * 900 + "]}" * 900
    yield _texts("collections in collections", geojson, COLLECTION % (FEATURE % deep))
    line = FEATURE % '{"type":"LineString","coordinates":[%s]}'
    yield _texts("a million corners", geojson, COLLECTION % (line % ",".join(["[0,1]"] * 10**6)))
    yield _texts("a million features", geojson, COLLECTION % ",".join(["{}"] * 1_000_000))
    for value in ("[1e999,52]", "[NaN,NaN]", "[-Infinity,52]", f"[{'9' * 4000},1]", "[52,-3]"):
        yield _texts(f"a place at {value[:12]}", geojson, COLLECTION % (point % value))
    blank = ",".join(f'"a{n}":null' for n in range(500_000)) + ',"k"'
    yield _texts(
        "half a million blank fields", geojson, COLLECTION % FEATURE.replace('"kind"', blank)
        % "null",
    )  # fmt: skip
    crs = '{"crs":{"properties":{"name":"%s"}},"features":[]}' % ("+proj=pipeline " * 500_000)
    yield _texts("a system's name of seven million letters", geojson, crs)
    elsewhere = '{"crs":{"properties":{"name":"EPSG:32755"}},"features":[]}'
    yield _texts("a zone of the other hemisphere", geojson, elsewhere)
    names = FEATURE.replace('"gate"', '"hedge","species":"' + "x;" * 1_000_000 + '"')
    yield _texts("a million species", geojson, COLLECTION % names % "null")
    rows = "".join(f"{n},gate,,0,0\n" for n in range(60_000))
    yield _texts("60,000 features", "features.csv", "feature,kind,name,x_m,y_m\n" + rows)


def _table_bombs() -> Iterator[Bomb]:
    yield _texts("six million cells in a row", "spots.csv", "spot,x_m,y_m\n" + "," * 6_000_000)
    yield _texts("19 million rows of one sign", "spots.csv", "spot,x_m,y_m" + "\r" * 19_000_000)
    digits = "1" * 130_000 + "x"
    yield _texts("a figure of 130,000 digits", "spots.csv", f"spot,x_m,y_m\nA,{digits},1\n")
    yield _texts("a cell of a million letters", "spots.csv", f"spot,x_m,y_m\n{'x' * 10**6},1,1\n")
    rows = "".join(f"{n},1,1\n" for n in range(90_000))
    yield _texts("90,000 pegs", "spots.csv", "spot,x_m,y_m\n" + rows)
    yield _texts("places off the map", "spots.csv", "spot,x_m,y_m\nA,1e309,1\nB,1e9,-1e9\nC,nan,1")
    ways = np.linspace(0, 2 * np.pi, 8_000, endpoint=False)
    circle = "".join(
        f"{100 * float(np.cos(a))!r},{100 * float(np.sin(a))!r},60\n" for a in ways.tolist()
    )
    yield _texts("heights on one circle", "heights.csv", "x_m,y_m,z_m\n" + circle, refused=False)
    head = epw_head()
    yield _texts("a line of nineteen million commas", "weather.epw", head + "," * 19_000_000)
    yield _texts("nineteen million hours", "weather.epw", head + "\n" * 19_000_000)
    days = "date,tmin,tmax,rain\n" + "2023-01-01,1,2,3\n" * 99_000
    yield _texts("a day 99,000 times", "weather_daily.csv", days)
    months = samples.demo("weather_monthly.csv").decode().splitlines()
    south = [months[0]] + [f"{n},{months[(n + 5) % 12 + 1].split(',', 1)[1]}" for n in range(1, 13)]
    yield _texts("the other hemisphere's seasons", "weather_monthly.csv", "\n".join(south))
    wide = ",".join(f"c{n}" for n in range(300_000)) + "\n" + "x\n" * 300_000
    yield Bomb("a table as wide as long", "cultivars.csv", wide.encode, _catalogue)
    bad = "species,cultivar,trait,value,unit,source,status,note\n" + "a,b,c,d,e,f,g,h\n" * 200_000
    yield Bomb("200,000 wrong rows", "cultivars.csv", bad.encode, _catalogue)


def epw_head() -> str:
    """The eight lines that an EPW file begins with."""
    return "\n".join(samples.epw().decode().splitlines()[:8]) + "\n"


def _catalogue(path: Path) -> None:
    read_catalogue(path.parent)


def _folder(path: Path) -> list[str]:
    (path.parent / "site.toml").write_bytes(samples.demo("site.toml"))
    return folder_faults(path.parent)


def _planting_bombs() -> Iterator[Bomb]:
    options = "species,cultivar,rootstock\n" + "".join(
        f"apple,Discoverie {n},M{n}\n" for n in range(5_000)
    )
    yield Bomb("5,000 unknown trees", "options.csv", options.encode, _folder)
    many = "count,species,cultivar,rootstock,use,note\n" + "200,,,,,\n" * 90_000
    yield Bomb("18 million trees", "order.csv", many.encode, _order)
    lines = "count,species,cultivar,rootstock,use,note\n" + "200,,,,,\n" * 400
    yield Bomb("80,000 trees", "order.csv", lines.encode, _order)
    head = "spot,x_m,y_m,species,cultivar,rootstock,wish,score,planted\n"
    trees = head + "here,20,20,pear,Conference,Quince A,,,\n" * 4_900
    yield Bomb("4,900 trees on one place", "placement.csv", trees.encode,
               _trees)  # fmt: skip
    prices = "item,price,currency,note\n" + "".join(
        f"tree:Discoverie of the {n}th,1,EUR,\n" for n in range(50_000)
    )
    yield Bomb(
        "50,000 unknown trees", "prices.csv", prices.encode,
        _prices,
    )  # fmt: skip
    keys = "[weights]\n" + "".join(f"sunlicht{n} = 1\n" for n in range(20_000))
    yield Bomb("20,000 unknown factors", "study.toml", keys.encode, _study_file)
    sets = "[[weight_sets]]\nname = 'a'\n" * 15_000
    yield Bomb("15,000 weight sets", "study.toml", sets.encode, _study_file)
    yield Bomb("nested lists", "plan.json", lambda: b"[" * 1_900_000, _plan, refused=False)
    yield Bomb(
        "nested lists", "report.toml", lambda: b"a = " + b"[" * 90_000, _brief, refused=False
    )


def _order(path: Path) -> None:
    read_order(samples.study(), path)


def _trees(path: Path) -> None:
    standing_trees(samples.study(), path)


def _prices(path: Path) -> None:
    read_prices(path.parent, samples.study().catalogue)


def _study_file(path: Path) -> None:
    read_study_file(path)


def _plan(path: Path) -> None:
    (path.parent / "placement.csv").write_text(samples.PLACEMENT, encoding="utf-8")
    read_kept(samples.study(), path.parent)


def _brief(path: Path) -> None:
    read_brief(path.parent)


def _other_bombs() -> Iterator[Bomb]:
    yield Bomb("nested lists", "sketch.json", lambda: b'{"marks":' + b"[" * 5_000_000, _sketch)
    yield Bomb("nested lists", "background.toml", lambda: b"a = " + b"[" * 9_000, _background)
    po = b'msgid ""\nmsgstr ""\n"Plural-Forms: nplurals=999999999; plural=0;\\n"\n'
    yield Bomb("a thousand million plurals", "de.po", lambda: po, _language)
    link = "curve.spacing=" + quote("~".join(f"{n}:0.5" for n in range(100_000)))
    yield Bomb("a curve of 100,000 knots", "link", link.encode, uploads.link)
    weights = "weights=" + "~".join(f"s{n}:1" for n in range(100_000))
    yield Bomb("100,000 weights", "link", weights.encode, uploads.link)


def _sketch(path: Path) -> None:
    sketch_from(uploads.words(path), samples.demo_site())


def _background(path: Path) -> None:
    background_from(uploads.words(path))


def _language(path: Path) -> None:
    language(path)


def _zip(path: Path) -> None:
    zip_files(path.read_bytes(), path.name)


def _packed_bombs() -> Iterator[Bomb]:
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


def bombs() -> tuple[Bomb, ...]:
    """All of them."""
    return (
        *_site_bombs(),
        *_feature_bombs(),
        *_table_bombs(),
        *_planting_bombs(),
        *_other_bombs(),
        *_packed_bombs(),
    )


def burst(bomb: Bomb, folder: Path) -> Burst:
    """What comes of a bomb, read by a copy of this process that has bounds and then ends."""
    path, told = folder / bomb.file, folder / "told.json"
    path.write_bytes(bomb.content())
    child = os.fork()
    if not child:
        _in_bounds()
        before, began = _peak(), process_time()
        said, wrong = _said(bomb, path)
        spent = process_time() - began
        name = f"{bomb.file}: {bomb.name}"
        result = Burst(name, round(spent, 2), round(_peak() - before, 1), said[:300], wrong)
        told.write_text(json.dumps(asdict(result)), encoding="utf-8")
        os._exit(0)
    _, status = os.waitpid(child, 0)
    if not told.is_file():
        return Burst(
            f"{bomb.file}: {bomb.name}", STALLED, 0, "", f"the process died of it: {status}"
        )
    return Burst(**json.loads(told.read_text(encoding="utf-8")))


def _in_bounds() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (int(STALLED), int(STALLED)))
    held = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    most = held * resource.getpagesize() + 2 * MOST_MEMORY * 2**20
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _said(bomb: Bomb, path: Path) -> tuple[str, str]:
    """What was said of a bomb, and what is wrong with that."""
    try:
        said = "\n".join(bomb.read(path) or ())
    except ERRORS as error:
        said = str(error)
    except BaseException as error:  # noqa: BLE001 - also MemoryError, which is told as what it is
        return "", f"undocumented: {type(error).__name__}: {str(error)[:300]}"
    if not said and bomb.refused:
        return "", "it was taken"
    names = (bomb.file, "site.toml", "The link's")
    is_placed = not said or any(name in said for name in names)
    return said, "" if is_placed else "no word of where"


def _peak() -> float:
    """The most memory this process has held [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def bursts(folder: Path) -> Iterator[Burst]:
    """What comes of every bomb, read one after another in a folder."""
    warm(folder)
    for number, bomb in enumerate(bombs()):
        place = folder / str(number)
        place.mkdir()
        yield burst(bomb, place)
        (place / bomb.file).unlink()


def warm(folder: Path) -> None:
    """What the first reading of anything costs is no bomb's doing."""
    first = folder / "first"
    first.mkdir()
    for name, content in {"site.toml": samples.SITE.encode(), **samples.extra()}.items():
        (first / name).write_bytes(content)
    read_site(first)
    (folder / "first" / "placement.csv").write_text(samples.PLACEMENT, encoding="utf-8")
    standing_trees(samples.study(), first / "placement.csv")
    uploads.session()
    samples.demo_site()


if __name__ == "__main__":
    for one in bursts(Path(sys.argv[1])):
        sys.stdout.write(json.dumps(asdict(one)) + "\n")
        sys.stdout.flush()
