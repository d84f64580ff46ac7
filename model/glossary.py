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
    Quantity("surface", "m", (), "Height of the ground at any point."),
    Quantity("relief", "m", ("y", "x"), "Height of the ground over the grid."),
    Quantity("years", "", ("year", "day"), "Whole years of weather."),
    Quantity("evapotranspiration", "mm", ("year", "day"), "Reference evapotranspiration."),
    Quantity("altitude", "m", ("place",), "Height of the ground above sea level."),
    Quantity("slope", "m/m", ("place",), "Rise over run of the ground (Horn 1981)."),
    Quantity(
        "aspect", "deg", ("place",), "Bearing of the downhill direction, clockwise from north."
    ),
    Quantity("soils", "", ("place",), "Fertility, depth, acidity and texture of the soil."),
    Quantity("steepness", "m/m", ("radius", "place"), "Steepest slope in a circle round a place."),
    Quantity("services", "m", ("service", "place"), "Distance to pipes, cables and lines."),
    Quantity("animal_runs", "m", ("run", "place"), "Distance to the lines that animals walk."),
    Quantity("wet_months", "months", ("place",), "Months a year that the root zone stands wet."),
    Quantity("wind", "1", ("place",), "Share of open wind left, over the wind rose."),
    Quantity("watering", "mm", ("summer", "case", "place"), "Water a young tree lacks, by soil."),
    Quantity("frost", "K", ("place",), "Nights of spring, and warmth against the station."),
    Quantity("sun", "h/day", ("month", "place"), "Direct sun at crown height, no day cloudy."),
    Quantity("sun_now", "h/day", ("month", "place"), "As sun, neighbours as they stand now."),
    Quantity("standing_now", "", (), "As standing, neighbours as they stand now."),
    Quantity("standing", "", (), "All that throws shade: ground, buildings, woods, trees."),
    Quantity("light", "MJ/m2", ("month", "place"), "Light on sloping ground, no day cloudy."),
    Quantity("sun_wanted", "", ("wanted",), "Beds, panels and windows that want their sun."),
    Quantity("partners", "m", ("partner", "place"), "Distance to fruit trees that stand there."),
    Quantity("fungi", "1", ("type", "place"), "Link to established hosts by kind of mycorrhiza."),
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
    Quantity("service_room", "m to spare", ("option", "place"), "Room beyond what services ask."),
    Quantity("browsing_exposure", "%", ("option", "place"), "Exposure to animals that browse."),
    Quantity("fungal_link", "of 1", ("option", "place"), "Link to hosts of the same mycorrhiza."),
    Quantity("working_slope", "%", ("option", "place"), "Steepest slope under the full crown."),
    Quantity("depth_to_spare", "cm", ("option", "place"), "Soil depth beyond the least needed."),
    Quantity("months_too_wet", "months", ("option", "place"), "Wet months beyond those borne."),
    Quantity("acidity_gap", "pH", ("option", "place"), "Acidity's distance from the best range."),
    Quantity("wind_felt", "% of open wind", ("option", "place"), "Wind as the tree suffers it."),
    Quantity(
        "watering_time", "h", ("option", "place"), "Bringing water for the first two summers."
    ),
    Quantity("frost_chance", "%", ("option", "place"), "Chance a year of frost in blossom."),
    Quantity("sun_to_spare", "h a day", ("option", "place"), "Sun beyond the least needed."),
    Quantity("sun_taken", "h a day", ("option", "place"), "Sun that the tree takes from others."),
    Quantity("pollen_at_hand", "of need met", ("option", "place"), "Pollen at hand."),
)

QUANTITIES: dict[str, Quantity] = {quantity.name: quantity for quantity in _ALL}
