"""What can be seen in a year on the land: each thing with its unit, limits and usual error."""

from dataclasses import dataclass

from model.language import marked

SEEN = marked("seen or not: common practice, no source")


@dataclass(frozen=True)
class Watched:
    """One thing to watch. `plus_minus` [unit] holds 19 times in 20 where nobody says otherwise.

    `factor` is the factor that it corrects, an empty word for a sign that corrects none; `yearly`
    ones are yes or no, a count being taken as yes when it is above 0.
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    plus_minus: float
    source: str
    factor: str
    meaning: str
    yearly: bool = False


WATCHED = {
    one.name: one
    for one in (
        Watched(
            "sun_hours", marked("sun"), "h/day", 0, 24, 1.0,
            marked("watched on some clear days and read to the half hour: common practice, "
                   "no source"), "sunlight",
            marked("direct sun of a clear day at crown height, mean over the growing season"),
        ),
        Watched(
            "wet_days", marked("standing water"), "days/yr", 0, 366, 20.0,
            marked("looked at once a week: common practice, no source"), "drainage",
            marked("days a year with water standing in the root zone, as in a hole a spade deep"),
        ),
        Watched(
            "leader_growth", marked("growth of the leader"), "cm", 0, 300, 5.0,
            marked("measured with a tape: common practice, no source"), "",
            marked("growth of the leader in the season"),
        ),
        Watched(
            "browsed", marked("browsing"), "visits/yr", 0, 366, 0.0, SEEN, "browsing",
            marked("times that animals ate of the tree in the year, 0 for never"), yearly=True,
        ),
        Watched(
            "blossom_frost", marked("frost in blossom"), "0 or 1", 0, 1, 0.0, SEEN, "late_frost",
            marked("1 where a night took a tenth of the blossom or more this year, 0 where none "
                   "did"),
            yearly=True,
        ),
        Watched(
            "drought_stress", marked("drought"), "days/yr", 0, 366, 0.0, SEEN, "",
            marked("days on which the leaves hung in the season, 0 for never"),
        ),
        Watched(
            "ph", "pH", "pH", 3, 10, 0.5,
            marked("by a garden kit, in a laboratory 0.2: common practice, no source"),
            "soil_acidity", marked("acidity of the soil, measured in water"),
        ),
        Watched(
            "soil_depth", marked("soil depth"), "cm", 1, 500, 5.0,
            marked("in a dug pit: common practice, no source"),
            "soil_depth", marked("depth that roots can use, as dug"),
        ),
    )
}  # fmt: skip
