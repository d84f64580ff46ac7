"""The site in a few lines: how large, how it lies, soil, weather, and what was not surveyed."""

import numpy as np

from dashboard.report.findings import Findings
from dashboard.report.tags import pairs
from dashboard.units import spoken
from model.language import _
from model.planting.candidates import POINTS
from model.study import Study
from model.survey.heights import Plane, RasterHeights, SpotHeights

ACRE = 4046.8564224  # m2
OF_ALL = (5, 50, 95)  # percentiles between which most of the ground lies


def the_site(found: Findings, *, feet: bool) -> str:
    """What was surveyed, a line each."""
    study = found.study
    lines = [
        (_("Where"), where(study)),
        (_("Land"), land(study, feet=feet)),
        (_("Heights"), heights(study)),
        (_("Soil"), soil(study)),
        (_("Weather"), weather(study)),
        (_("Wind"), wind(study)),
        (_("Drawn"), drawn(study)),
        (_("Not surveyed"), " ".join(not_surveyed(study))),
    ]
    return pairs([(name, spoken(said, feet)) for name, said in lines], "lines")


def where(study: Study) -> str:
    """Latitude, longitude and altitude of the origin from which everything is measured."""
    site = study.site
    north = _("north") if site.latitude >= 0 else _("south")
    east = _("east") if site.longitude >= 0 else _("west")
    said = _(
        "Origin of all metres at {latitude}° {north}, {longitude}° {east}, {altitude} m above the "
        "sea; x runs east, y true north."
    )
    return said.format(
        latitude=f"{abs(site.latitude):.5f}", north=north, longitude=f"{abs(site.longitude):.5f}",
        east=east, altitude=f"{site.altitude:.0f}",
    )  # fmt: skip


def land(study: Study, *, feet: bool) -> str:
    """The area, and how much ground is judged at what spacing."""
    area = float(study.site.boundary.area)
    size = _("{area:.2f} acres").format(area=area / ACRE) if feet else f"{area / 1e4:.2f} ha"
    edge = _("No boundary is drawn: all within 20 m of what is drawn counts as the land.")
    if study.site.of_kind("boundary"):
        edge = ""
    said = _("{size}, judged every {cell} m and at {pegs} pegs.").format(
        size=size, cell=f"{study.ground.places.cell:g}", pegs=len(study.site.spots)
    )
    return f"{said} {edge}".strip()


def heights(study: Study) -> str:
    """From how many heights, how high from lowest to highest, how steep, which way it falls."""
    ground, inside = study.ground, study.ground.places.inside
    surveyed = study.site.heights
    if surveyed is None:
        return ""
    if isinstance(surveyed, Plane):
        source = _("One slope for the whole site.")
    elif isinstance(surveyed, SpotHeights):
        source = _("From {count} levelled points.").format(count=surveyed.x.size)
    elif isinstance(surveyed, RasterHeights):
        source = _("From a grid of {count} heights.").format(count=surveyed.z.size)
    low, high = np.nanmin(ground.altitude[inside]), np.nanmax(ground.altitude[inside])
    middle, steep = np.nanpercentile(100 * ground.slope[inside], OF_ALL[1:])
    said = _("{rise} m from the lowest to the highest ground; slope {middle} % in the middle, "
             "{steep} % where it is steepest.")  # fmt: skip
    said = said.format(rise=f"{high - low:.1f}", middle=f"{middle:.0f}", steep=f"{steep:.0f}")
    bearing = np.radians(ground.aspect[inside])
    weight = np.nan_to_num(ground.slope[inside])
    east, north = (float(np.nansum(weight * turned(bearing))) for turned in (np.sin, np.cos))
    if np.hypot(east, north) > 0.3 * weight.sum() > 0:
        point = POINTS[round(float(np.degrees(np.arctan2(east, north))) / 45) % 8]
        said += " " + _("Most of it falls to the {point}.").format(point=_(point))
    return f"{source} {said}"


def soil(study: Study) -> str:
    """The soil in general, and the patches that differ."""
    soil = study.site.soil
    said = _("{texture}, {fertility} fertility, {depth} cm deep, pH {ph}.").format(
        texture=_(soil.texture).capitalize(), fertility=_(soil.fertility),
        depth=f"{soil.depth_cm:.0f}",
        ph=f"{soil.ph:.1f}",
    )  # fmt: skip
    patches = [
        _("{name}: {texture}, {fertility}, {depth} cm, pH {ph}").format(
            name=one.name or _("a patch"), texture=_(one.words("texture")),
            fertility=_(one.words("fertility")), depth=f"{one.number('depth_cm'):.0f}",
            ph=f"{one.number('ph'):.1f}",
        )
        for one in study.site.of_kind("soil_patch")
    ]  # fmt: skip
    return f"{said} {'; '.join(patches)}." if patches else said


def weather(study: Study) -> str:
    """What record there is, and what it says of cold, rain and chill at the site."""
    record, climate = study.site.weather, study.ground.climate
    if record is None or climate is None:
        return ""
    kinds = {
        "hourly": _("Hours of a station"),
        "daily": _("Days of a station"),
        "monthly": _("Monthly normals, from which {years} years of days are drawn").format(
            years=record.years
        ),
    }
    middle = len(climate.offsets) // 2
    said = _("{kind}, station {altitude} m above the sea. Rain {rain} mm a year; coldest night of "
             "a usual winter {cold} °C; {chill} chill portions.")  # fmt: skip
    return said.format(
        kind=kinds[record.kind], altitude=f"{record.station_altitude:.0f}",
        rain=f"{np.nanmedian(climate.rain):.0f}",
        cold=f"{np.nanmedian(climate.coldest[:, middle]):.0f}".replace("-", "\N{MINUS SIGN}"),
        chill=f"{np.nanmedian(climate.chill[:, middle]):.0f}",
    )  # fmt: skip


def wind(study: Study) -> str:
    """How strong, and where most of it comes from."""
    wind = study.site.wind
    if wind is None:
        return ""
    most = POINTS[int(np.argmax(wind.shares))]
    said = _("{speed} m/s on average 10 m above open ground, most often from the {point}.")
    return said.format(speed=f"{wind.speed:.1f}", point=_(most))


def drawn(study: Study) -> str:
    """How many things are drawn, and how many trees are on the short list."""
    said = _("{count} features, {pegs} pegs. On the short list: {options}.")
    return said.format(
        count=len(study.site.features), pegs=len(study.site.spots),
        options=", ".join(option.label for option in study.options),
    )  # fmt: skip


def not_surveyed(study: Study) -> list[str]:
    """What the survey does not tell, each in a sentence, none twice."""
    said = [*study.site.absent.values(), *study.ground.absent.values()]
    return list(dict.fromkeys(said)) or [_("Nothing that the factors ask for is missing.")]
