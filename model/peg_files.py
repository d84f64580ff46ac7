"""Pegs for other tools: CSV, GeoJSON and GeoPackage for a map, GPX to find them on the land."""

import json
import tempfile
from pathlib import Path
from xml.etree import ElementTree as Xml

import geopandas
import pandas as pd
import shapely

from model.csv_text import csv_text
from model.planting.placement import Placement
from model.study import Study

COLUMNS = ["peg", "x_m", "y_m", "longitude", "latitude", "tree", "note"]
GPX = "http://www.topografix.com/GPX/1/1"
# What a hand-held receiver is off by under trees and near buildings (common practice, no source).
RECEIVER = "A receiver finds a peg within 3 to 10 m; set the place itself out with a tape."


def peg_table(study: Study, placement: Placement | None = None) -> pd.DataFrame:
    """One row a peg: name, metres east and north of the origin, degrees (WGS 84), tree and note.

    With a placement the pegs of its trees, else the survey's.
    """
    if placement is None:
        rows = [(spot.name, spot.x, spot.y, "", spot.note) for spot in study.site.spots]
    else:
        notes = {spot.name: spot.note for spot in study.site.spots}
        rows = [
            (tree.name, tree.x, tree.y, study.options[tree.option].label, notes.get(tree.name, ""))
            for tree in placement.trees
        ]
    frame = study.site.frame
    places = shapely.MultiPoint([(x, y) for _, x, y, _, _ in rows])
    degrees = shapely.get_coordinates(frame.geographic(places))
    found = [
        (name, x, y, longitude, latitude, tree, note)
        for (name, x, y, tree, note), (longitude, latitude) in zip(rows, degrees, strict=True)
    ]
    return pd.DataFrame(found, columns=COLUMNS)


def pegs_csv(table: pd.DataFrame) -> str:
    """The pegs as CSV text, metres to the centimetre and degrees to about one."""
    rounded = table.assign(
        x_m=table["x_m"].map("{:.2f}".format),
        y_m=table["y_m"].map("{:.2f}".format),
        longitude=table["longitude"].map("{:.7f}".format),
        latitude=table["latitude"].map("{:.7f}".format),
    )
    return csv_text(rounded)


def pegs_geojson(table: pd.DataFrame) -> str:
    """The pegs as GeoJSON (RFC 7946): points in degrees, longitude first."""
    features = [
        {
            "type": "Feature",
            "geometry": {
                "type": "Point",
                "coordinates": [round(row["longitude"], 7), round(row["latitude"], 7)],
            },
            "properties": {
                "peg": row["peg"],
                "tree": row["tree"],
                "note": row["note"],
                "x_m": round(row["x_m"], 2),
                "y_m": round(row["y_m"], 2),
            },
        }
        for row in table.to_dict("records")
    ]
    collection = {"type": "FeatureCollection", "features": features}
    return json.dumps(collection, ensure_ascii=False, indent=1) + "\n"


def pegs_geopackage(study: Study, table: pd.DataFrame) -> bytes:
    """The pegs and the survey's features as a GeoPackage in the site's own frame [m]."""
    frame = study.site.frame.crs
    pegs = geopandas.GeoDataFrame(
        table[["peg", "tree", "note"]],
        geometry=geopandas.points_from_xy(table["x_m"], table["y_m"]),
        crs=frame,
    )
    features = geopandas.GeoDataFrame(
        {
            "kind": [feature.kind for feature in study.site.features],
            "name": [feature.name for feature in study.site.features],
        },
        geometry=[feature.geometry for feature in study.site.features],
        crs=frame,
    )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "pegs.gpkg"
        pegs.to_file(path, layer="pegs", driver="GPKG", engine="pyogrio")
        if len(features):
            features.to_file(path, layer="survey", driver="GPKG", engine="pyogrio")
        return path.read_bytes()


def pegs_gpx(study: Study, table: pd.DataFrame) -> str:
    """The pegs as waypoints of GPX 1.1, for a receiver or a telephone."""
    Xml.register_namespace("", GPX)
    root = Xml.Element(f"{{{GPX}}}gpx", version="1.1", creator="Treestead")
    about = Xml.SubElement(root, f"{{{GPX}}}metadata")
    Xml.SubElement(about, f"{{{GPX}}}name").text = study.site.name
    Xml.SubElement(about, f"{{{GPX}}}desc").text = RECEIVER
    for row in table.to_dict("records"):
        where = {"lat": f"{row['latitude']:.7f}", "lon": f"{row['longitude']:.7f}"}
        point = Xml.SubElement(root, f"{{{GPX}}}wpt", where)
        Xml.SubElement(point, f"{{{GPX}}}name").text = row["peg"]
        said = ": ".join(text for text in (row["tree"], row["note"]) if text)
        if said:
            Xml.SubElement(point, f"{{{GPX}}}desc").text = said
    Xml.indent(root)
    return Xml.tostring(root, encoding="unicode", xml_declaration=True) + "\n"
