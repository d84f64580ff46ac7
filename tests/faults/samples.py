"""One real file for every reader: the demo's own where it has one, else written by the app."""

import io
import warnings
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import geopandas
import numpy as np
from PIL import Image

from model.study import Study
from model.survey.archive import folder_zip
from model.survey.background import Background, background_text
from model.survey.editing import sketch_of
from model.survey.features_csv import csv_text
from model.survey.frame import Frame
from model.survey.heights import RasterHeights
from model.survey.heights_tif import geotiff_bytes
from model.survey.reading import read_site
from model.survey.site import Site
from model.survey.sketch_file import sketch_text
from tests.model import small_site
from tests.model.demo import DEMO
from tests.model.survey import epw_example

SITE = """\
name = "Invented Corner"
latitude = 52.0
longitude = -3.0
altitude_m = 60.0
timezone = "Europe/London"
grid_m = 2.0

[hub]
x_m = 10.0
y_m = -20.5

[soil]
texture = "clay loam"
fertility = "rich"
depth_cm = 45.0
ph = 5.8
ph_plus_minus = 0.3

[wind]
speed_m_s = 3.4
north = 1.0
north_east = 0.5
east = 0.5
south_east = 1.0
south = 1.5
south_west = 3.0
west = 2.0
north_west = 1.0
"""
CULTIVARS = """\
species,cultivar,trait,value,unit,source,status,note
apple,Café Russet,use,dessert,,a label,memory,
apple,Café Russet,bloom_day,126,day of year,a label,memory,=1+1
apple,Café Russet,self_fertile,no,,a label,memory,
"""
ORDER = """\
count,species,cultivar,rootstock,use,note
2,apple,,,dessert,"for the wall, south"
1,pear,Conference,Quince A,,
3,,,,,any
"""
PLACEMENT = """\
spot,x_m,y_m,species,cultivar,rootstock,wish,score,planted
A,12,14,apple,Egremont Russet,MM106,dessert apple,0.61,2026-11-30
B,40,41,pear,Conference,Quince A,pear,0.58,
by the oak,21,33,european_plum,Victoria,St Julien A,plum,,2027-02-13
"""
OBSERVATIONS = """\
spot,date,what,value,plus_minus,unit,note
A,2027-06-21,sun_hours,6.5,1,h/day,a bright day
B,2027-10-31,ph,6.1,,,
B,2027-10-31,soil_depth,70,10,cm,dug
"""
PRICES = """\
item,price,currency,note
tree,24.5,EUR,
tree:M9,19,EUR,from the list
tree:Conference,31,EUR,
stake,6,EUR,
guard:roe deer,5.5,EUR,
hose,,EUR,asked
"""
LANGUAGE = """\
# An invented translation.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"

#: model/here.py
msgid "Weigh"
msgstr "Wägen"

msgid "{count} to mend before it can be added."
msgstr ""
"Noch {count} "
"zu verbessern."

#, fuzzy
msgid "Picture"
msgstr "Bild"
"""
REPORT = """\
title = "The orchard at the corner"
prepared_for = "The Invented family"
job = \"\"\"Ten trees,
and a hedge.\"\"\"
paper = "A4"
left_out = ["weights", "effort"]
"""
PLAN = """\
{"settings": {"budget": 300.0, "bee_range": 18.0, "parts": 2, "at_once": 3, "pegs_only": false,
 "planted_stay": true}, "blocked": [[12.0, 14.0, "a drain"]], "stays": [[40.0, 41.0]],
 "made_by": {"weights": "ab", "survey": "cd", "order": "ef"}, "proven": true, "bound": 1.9,
 "offered": [[21.0, 33.0]], "unmet": ["one pear"], "notes": ["a note"]}
"""
TAPES = """\
name, from, metres, and from, metres again, side
oak, A, 12.5 m, B, 30.25, left
gate, oak, 4, A, 13, right
"""
LINK = (
    "weights=sunlight:20~spacing:30.5~slope:1e-3&trade_off=-1.5&place=12.50,30.00&layer=shade"
    "&moment=172@15.5&curve.spacing=0:0.1~1:0.5~2:1&option=Conference%20on%20Quince%20A&place=A"
)
BALLOT = "family-place=70&factor-sunlight=30&factor-slope=12.5&trade_off=-3&option=one&round=2"
CORNERS = "12.5, 30\n0; 0\n-4 5.25\n"
POINTS = "[[0.0, 1.5], [20, 30], [-7.25, 1e1]]"


IN_ZIP = tuple(file.name for file in sorted(DEMO.iterdir()))


def months() -> bytes:
    """Twelve monthly normals as pasted from a spreadsheet."""
    lines = demo("weather_monthly.csv").decode().splitlines()[1:]
    return "\n".join(line.replace(",", "\t") for line in lines).encode()


def demo(name: str) -> bytes:
    """A file of the demo."""
    return (DEMO / name).read_bytes()


@cache
def study() -> Study:
    """A small made-up land with two pegs and three trees on its short list."""
    spots = (small_site.spot("A", 12, 14), small_site.spot("B", 40, 41))
    return small_site.study(spots=spots, weather=small_site.monthly_weather(years=10))


@cache
def demo_site() -> Site:
    """The demo's survey."""
    return read_site(DEMO)


def features_csv() -> bytes:
    """The demo's features without holes as rows of corners."""
    whole = [one for one in demo_site().features if not getattr(one.geometry, "interiors", ())]
    return csv_text(whole).encode()


@cache
def layer_files() -> dict[str, bytes]:
    """The demo's trees as a GeoPackage and as a shapefile with the files beside it."""
    trees = [one for one in demo_site().features if one.geometry.geom_type == "Point"]
    table = geopandas.GeoDataFrame(
        [{"kind": one.kind, "name": one.name, **one.attributes} for one in trees],
        geometry=[demo_site().frame.geographic(one.geometry) for one in trees],
        crs="EPSG:4326",
    )
    with TemporaryDirectory() as folder, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a shapefile's short names
        table.to_file(Path(folder) / "features.gpkg", driver="GPKG", layer="trees")
        table.to_crs(32630).to_file(Path(folder) / "features.shp")
        return {file.name: file.read_bytes() for file in Path(folder).iterdir()}


def heights_tif() -> bytes:
    """A slope of 60 by 50 cells of 2 m about the origin of SITE."""
    x, y = np.arange(60) * 2.0 - 60, np.arange(50) * 2.0 - 50
    z = 60 + 0.05 * x[None, :] + 0.1 * y[:, None]
    return geotiff_bytes(RasterHeights(x, y, z), Frame(52.0, -3.0))


@cache
def epw() -> bytes:
    """A year by the hour."""
    return epw_example.text().encode()


@cache
def daily() -> bytes:
    """A year by the day."""
    days = np.arange("2023-01-01", "2024-01-01", dtype="datetime64[D]")
    warmth = 10 - 8 * np.cos(np.arange(len(days)) / 365 * 2 * np.pi)
    rows = [
        f"{day},{low - 4:.1f},{low + 4:.1f},{number % 7},80"
        for number, (day, low) in enumerate(zip(days, warmth, strict=True))
    ]
    return ("date,tmin,tmax,rain,humidity\n" + "\n".join(rows) + "\n").encode()


def sketch() -> bytes:
    """The demo as a sketch."""
    return sketch_text(sketch_of(demo_site())).encode()


def background() -> bytes:
    """A picture that lies somewhere."""
    return background_text(Background((-10.0, 40.0), 0.05, 12.0)).encode()


@cache
def picture(kind: str) -> bytes:
    """A small picture with what a camera writes beside it."""
    across, down = np.meshgrid(np.arange(60), np.arange(40))
    pixels = np.stack([across * 4, down * 6, (across + down) * 2], axis=-1).astype(np.uint8)
    out, exif = io.BytesIO(), Image.Exif()
    exif[274], exif[271] = 6, "Invented"
    Image.fromarray(pixels).save(out, kind, exif=exif)
    return out.getvalue()


@cache
def survey_zip() -> bytes:
    """The demo as a zip."""
    return folder_zip(DEMO)


def extra() -> dict[str, bytes]:
    """Files that may stand beside SITE, of every kind that a survey may have at once."""
    return {"heights.tif": heights_tif(), "weather.epw": epw()}
