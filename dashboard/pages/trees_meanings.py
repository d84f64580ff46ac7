"""What the traits on a card mean, and how sure a value is, in words."""

from model.trees.card import CARD

GROUPS: dict[str, tuple[str, ...]] = {
    "Size and growth": (
        *("height_low", "height_typical", "height_high", "spread_low", "spread_typical"),
        *("spread_high", "vigour", "vigour_class", "growth_rate", "growth_power", "poor_soil"),
        *("rich_soil", "years_to_crop", "stake"),
    ),
    "Fruit": ("use", "pick_first", "pick_last"),
    "Flower and pollen": (
        *("flower_group", "flower_group_note", "self_fertile", "pollination", "ploidy"),
        *("incompatible_with", "s_alleles"),
    ),
    "Climate": (
        *("sun_need", "sun_good", "chill_need", "heat_need", "july_temperature", "cold_limit"),
        *("hardiness", "rain_low", "rain_high", "rain_best_low", "rain_best_high", "wind"),
        *(f"frost_{n}_{stage}" for stage in ("buds", "bloom", "fruitlets") for n in (10, 90)),
    ),
    "Soil and water": (
        *("ph_low", "ph_high", "ph_borne_low", "ph_borne_high", "moisture", "texture"),
        *("soil_depth_min", "soil_depth_good", "waterlog", "drought", "soil", "lime"),
        *("mycorrhiza",),
    ),
    "Troubles and work": (
        *("wet_disease", "scab", "canker", "browse"),
        *(trait for _, trait in CARD if trait.startswith("visits_")),
    ),
}
"""Headings of a card and the traits under each; all others stand under `REST`."""
REST = "Names and remarks"

STATUS = {
    "verified": ("\N{CHECK MARK}", "verified", "read in the source named"),
    "common": ("\N{ALMOST EQUAL TO}", "common practice", "what growers say, no source"),
    "memory": (
        "?",
        "from memory",
        "of the source named, not checked: check it before you rely on it",
    ),
}
"""Sign, word and meaning of each status."""

MEANING = {
    "height_typical": "how tall a usual tree stands full grown, little pruned, on ordinary soil",
    "spread_typical": "how wide its crown grows",
    "vigour": "1 is the usual size on that rootstock; more is larger",
    "growth_rate": "how fast it nears its full size; larger is sooner",
    "growth_power": "how slowly it starts",
    "years_to_crop": "from planting to the first fruit worth picking",
    "flower_group": "trees of one fruit no more than one group apart flower together",
    "self_fertile": "whether it sets fruit with its own pollen",
    "ploidy": "a triploid needs two partners and serves none",
    "s_alleles": "two trees with the same alleles do not pollinate each other",
    "incompatible_with": "these do not serve it although they flower together",
    "chill_need": "cold that ends the winter rest, in portions of the Dynamic Model",
    "heat_need": "warmth of a season that ripens the fruit, degree hours",
    "cold_limit": "below this the wood dies back",
    "sun_need": "below this fruit neither colours nor ripens well",
    "ph_borne_low": "more acid than this it sickens",
    "ph_borne_high": "more limy than this its leaves yellow",
    "waterlog": "1 bears no standing water, 5 bears months of it",
    "drought": "5 suffers first in a dry spell",
    "wind": "5 drops fruit and leans first",
    "wet_disease": "5 is troubled most where summers are wet",
    "browse": "5 is what deer and rabbits eat first",
    "frost_10_bloom": "at this a tenth of the open blossom dies",
    "frost_90_bloom": "at this nearly all of it dies",
    "mycorrhiza": "the kind of root fungus it lives with",
    "stake": "whether it must be held up, and how long",
}
