"""Every quantity once: its name, unit, axes and meaning. Factors may read only what stands here."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Quantity:
    """One quantity of the model: what it is called, its unit, its axes and what it means."""

    name: str
    unit: str
    axes: tuple[str, ...]
    meaning: str


_ALL = (
    Quantity("places", "m", ("place",), "Grid cells of the site, then the pegged spots."),
    Quantity("altitude", "m", ("place",), "Height of the ground above sea level."),
    Quantity("slope", "m/m", ("place",), "Rise over run of the ground (Horn 1981)."),
    Quantity(
        "aspect", "deg", ("place",), "Bearing of the downhill direction, clockwise from north."
    ),
    Quantity("fertility", "1", ("place",), "Soil: -1 poor, 0 ordinary, 1 rich."),
    Quantity("climate", "", (), "Chill, heat, cold and rain of each year of weather."),
    Quantity("obstacles", "m", ("obstacle", "place"), "Distance to what limits a crown's room."),
    Quantity(
        "roots", "1", ("radius", "place"), "Share of a rooting circle under neighbours' roots."
    ),
    Quantity("walk", "s", ("place",), "Walking time from the hub and back."),
    Quantity("views", "1", ("view",), "Valued windows and what already stands in them."),
    Quantity(
        "margin", "% of need", ("option", "place"), "Smallest margin of the climate's four needs."
    ),
    Quantity("height", "m", ("option", "place"), "Full-grown height of the tree."),
    Quantity("clear_room", "m", ("option", "place"), "Clear room round the full-grown crown."),
    Quantity(
        "root_share", "%", ("option", "place"), "Rooting circle under neighbours' feeding roots."
    ),
    Quantity(
        "walking_time", "h/yr", ("option", "place"), "Walking for a year's visits to the tree."
    ),
    Quantity(
        "view_loss", "%", ("option", "place"), "Valued windows covered, less screening gained."
    ),
)

QUANTITIES: dict[str, Quantity] = {quantity.name: quantity for quantity in _ALL}
