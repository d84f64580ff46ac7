"""Whether a file's coordinate system is one for the part of the world in which the site lies."""

from pyproj import CRS

from model.survey.attribute import Wrong
from model.survey.folder import Folder
from model.survey.frame import Frame

MARGIN = 6.0  # degrees: a zone is used for the whole of a country that reaches into the next


def note_outside(folder: Folder, name: str, crs: CRS, frame: Frame) -> bool:
    """Note a system that is for elsewhere, such as the zone of another country or hemisphere."""
    wrong = outside(crs, frame)
    if wrong is not None:
        folder.fault(name, None, "crs", wrong)
    return wrong is not None


def outside(crs: CRS, frame: Frame) -> Wrong | None:
    """What is wrong with a system whose area of use does not come near the site."""
    area = crs.area_of_use
    if area is None:
        return None
    west, east = area.west, area.east + (360 if area.east < area.west else 0)
    longitude = west + (frame.longitude - west) % 360
    off = min(max(0.0, longitude - east), max(0.0, west + 360 - longitude))
    north = max(area.south - frame.latitude, frame.latitude - area.north, 0.0)
    if max(off, north) <= MARGIN:
        return None
    return Wrong(
        f"{crs.name}, which is for longitudes {area.west:g} to {area.east:g} and latitudes "
        f"{area.south:g} to {area.north:g}",
        f"a system for {frame.latitude:g}, {frame.longitude:g} as site.toml has them",
        "assigning the system that the file was drawn in, or checking latitude and longitude in "
        "site.toml, their order and their signs (south and west are negative)",
    )
