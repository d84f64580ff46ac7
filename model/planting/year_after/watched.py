"""What can be seen in a year on the land: each thing with its unit, limits and usual error."""

from dataclasses import dataclass

ASSUMED = "common practice, no source"


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
            "sun_hours", "sun", "h/day", 0, 24, 1.0,
            f"watched on some clear days and read to the half hour: {ASSUMED}", "sunlight",
            "direct sun of a clear day at crown height, mean over the growing season",
        ),
        Watched(
            "wet_days", "standing water", "days/yr", 0, 366, 20.0,
            f"looked at once a week: {ASSUMED}", "drainage",
            "days a year with water standing in the root zone, as in a hole a spade deep",
        ),
        Watched(
            "leader_growth", "growth of the leader", "cm", 0, 300, 5.0,
            f"measured with a tape: {ASSUMED}", "", "growth of the leader in the season",
        ),
        Watched(
            "browsed", "browsing", "visits/yr", 0, 366, 0.0, f"seen or not: {ASSUMED}", "browsing",
            "times that animals ate of the tree in the year, 0 for never", yearly=True,
        ),
        Watched(
            "blossom_frost", "frost in blossom", "0 or 1", 0, 1, 0.0,
            f"seen or not: {ASSUMED}", "late_frost",
            "1 where a night took a tenth of the blossom or more this year, 0 where none did",
            yearly=True,
        ),
        Watched(
            "drought_stress", "drought", "days/yr", 0, 366, 0.0, f"seen or not: {ASSUMED}", "",
            "days on which the leaves hung in the season, 0 for never",
        ),
        Watched(
            "ph", "pH", "pH", 3, 10, 0.5, f"by a garden kit, in a laboratory 0.2: {ASSUMED}",
            "soil_acidity", "acidity of the soil, measured in water",
        ),
        Watched(
            "soil_depth", "soil depth", "cm", 1, 500, 5.0, f"in a dug pit: {ASSUMED}",
            "soil_depth", "depth that roots can use, as dug",
        ),
    )
}  # fmt: skip
