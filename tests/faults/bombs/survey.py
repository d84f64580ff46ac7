"""Bombs among the files of a survey."""

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from model.trees import read_catalogue
from tests.faults import samples

from .bomb import Bomb, texts

FEATURE = '{"type":"Feature","properties":{"kind":"gate"},"geometry":%s}'
COLLECTION = '{"type":"FeatureCollection","features":[%s]}'


def survey_bombs() -> Iterator[Bomb]:
    """All of them."""
    yield from _site_bombs()
    yield from _feature_bombs()
    yield from _table_bombs()


def _site_bombs() -> Iterator[Bomb]:
    site = "site.toml"
    yield texts("nested lists", site, "a = " + "[" * 200_000)
    yield texts("nested tables", site, "a" + ".a" * 100_000 + " = 1")
    yield texts("a blank line of half a million", site, samples.SITE + " " * 490_000 + "\nx = 1")
    yield texts("a figure of 400,000 digits", site, f"latitude = '{'1' * 400_000}x'")
    yield texts("20,000 unknown keys", site, "".join(f"k{n} = 1\n" for n in range(20_000)))
    yield texts("too large a file", site, "#" * 600_000)
    for value in ("nan", "inf", "-inf", "1e999", "0x" + "f" * 9000):
        yield texts(f"latitude {value[:9]}", site, samples.SITE.replace("52.0", value, 1))
    yield texts("the other hemisphere", site, samples.SITE.replace("52.0", "-52.0", 1))
    swapped = samples.SITE.replace("52.0", "-3.0", 1).replace("-3.0\nalt", "52.0\nalt", 1)
    yield texts("latitude and longitude exchanged", site, swapped)
    yield texts("latitude beyond the pole", site, samples.SITE.replace("52.0", "152.0", 1))


def _feature_bombs() -> Iterator[Bomb]:
    geojson = "features.geojson"
    point = FEATURE % '{"type":"Point","coordinates":%s}'
    yield texts("nested lists", geojson, COLLECTION % ("[" * 1_000_000))
    deep = '{"type":"GeometryCollection","geometries":[' * 900 + "]}" * 900
    yield texts("collections in collections", geojson, COLLECTION % (FEATURE % deep))
    line = FEATURE % '{"type":"LineString","coordinates":[%s]}'
    yield texts("a million corners", geojson, COLLECTION % (line % ",".join(["[0,1]"] * 10**6)))
    yield texts("a million features", geojson, COLLECTION % ",".join(["{}"] * 1_000_000))
    for value in ("[1e999,52]", "[NaN,NaN]", "[-Infinity,52]", f"[{'9' * 4000},1]", "[52,-3]"):
        yield texts(f"a place at {value[:12]}", geojson, COLLECTION % (point % value))
    blank = ",".join(f'"a{n}":null' for n in range(500_000)) + ',"k"'
    yield texts(
        "half a million blank fields", geojson, COLLECTION % FEATURE.replace('"kind"', blank)
        % "null",
    )  # fmt: skip
    crs = '{"crs":{"properties":{"name":"%s"}},"features":[]}' % ("+proj=pipeline " * 500_000)
    yield texts("a system's name of seven million letters", geojson, crs)
    elsewhere = '{"crs":{"properties":{"name":"EPSG:32755"}},"features":[]}'
    yield texts("a zone of the other hemisphere", geojson, elsewhere)
    names = FEATURE.replace('"gate"', '"hedge","species":"' + "x;" * 1_000_000 + '"')
    yield texts("a million species", geojson, COLLECTION % names % "null")
    rows = "".join(f"{n},gate,,0,0\n" for n in range(60_000))
    yield texts("60,000 features", "features.csv", "feature,kind,name,x_m,y_m\n" + rows)


def _table_bombs() -> Iterator[Bomb]:
    yield texts("six million cells in a row", "spots.csv", "spot,x_m,y_m\n" + "," * 6_000_000)
    yield texts("19 million rows of one sign", "spots.csv", "spot,x_m,y_m" + "\r" * 19_000_000)
    digits = "1" * 130_000 + "x"
    yield texts("a figure of 130,000 digits", "spots.csv", f"spot,x_m,y_m\nA,{digits},1\n")
    yield texts("a cell of a million letters", "spots.csv", f"spot,x_m,y_m\n{'x' * 10**6},1,1\n")
    rows = "".join(f"{n},1,1\n" for n in range(90_000))
    yield texts("90,000 pegs", "spots.csv", "spot,x_m,y_m\n" + rows)
    yield texts("places off the map", "spots.csv", "spot,x_m,y_m\nA,1e309,1\nB,1e9,-1e9\nC,nan,1")
    ways = np.linspace(0, 2 * np.pi, 8_000, endpoint=False)
    circle = "".join(
        f"{100 * float(np.cos(a))!r},{100 * float(np.sin(a))!r},60\n" for a in ways.tolist()
    )
    yield texts("heights on one circle", "heights.csv", "x_m,y_m,z_m\n" + circle, refused=False)
    head = epw_head()
    yield texts("a line of nineteen million commas", "weather.epw", head + "," * 19_000_000)
    yield texts("nineteen million hours", "weather.epw", head + "\n" * 19_000_000)
    days = "date,tmin,tmax,rain\n" + "2023-01-01,1,2,3\n" * 99_000
    yield texts("a day 99,000 times", "weather_daily.csv", days)
    months = samples.demo("weather_monthly.csv").decode().splitlines()
    south = [months[0]] + [f"{n},{months[(n + 5) % 12 + 1].split(',', 1)[1]}" for n in range(1, 13)]
    yield texts("the other hemisphere's seasons", "weather_monthly.csv", "\n".join(south))
    wide = ",".join(f"c{n}" for n in range(300_000)) + "\n" + "x\n" * 300_000
    yield Bomb("a table as wide as long", "cultivars.csv", wide.encode, _catalogue)
    bad = "species,cultivar,trait,value,unit,source,status,note\n" + "a,b,c,d,e,f,g,h\n" * 200_000
    yield Bomb("200,000 wrong rows", "cultivars.csv", bad.encode, _catalogue)


def epw_head() -> str:
    """The eight lines that an EPW file begins with."""
    return "\n".join(samples.epw().decode().splitlines()[:8]) + "\n"


def _catalogue(path: Path) -> None:
    read_catalogue(path.parent)
