"""What the traits on a card mean, and how sure a value is, in words."""

from model.language import marked
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
    "verified": ("\N{CHECK MARK}", marked("verified"), marked("read in the source named")),
    "common": (
        "\N{ALMOST EQUAL TO}",
        marked("common practice"),
        marked("what growers say, no source"),
    ),
    "memory": (
        "?",
        marked("from memory"),
        marked("of the source named, not checked: check it before you rely on it"),
    ),
}
"""Sign, word and meaning of each status."""

MEANING = {
    "height_typical": marked(
        "how tall a usual tree stands full grown, little pruned, on ordinary soil"
    ),
    "spread_typical": marked("how wide its crown grows"),
    "vigour": marked("1 is the usual size on that rootstock; more is larger"),
    "growth_rate": marked("how fast it nears its full size; larger is sooner"),
    "growth_power": marked("how slowly it starts"),
    "years_to_crop": marked("from planting to the first fruit worth picking"),
    "flower_group": marked("trees of one fruit no more than one group apart flower together"),
    "self_fertile": marked("whether it sets fruit with its own pollen"),
    "ploidy": marked("a triploid needs two partners and serves none"),
    "s_alleles": marked("two trees with the same alleles do not pollinate each other"),
    "incompatible_with": marked("these do not serve it although they flower together"),
    "chill_need": marked("cold that ends the winter rest, in portions of the Dynamic Model"),
    "heat_need": marked("warmth of a season that ripens the fruit, degree hours"),
    "cold_limit": marked("below this the wood dies back"),
    "sun_need": marked("below this fruit neither colours nor ripens well"),
    "ph_borne_low": marked("more acid than this it sickens"),
    "ph_borne_high": marked("more limy than this its leaves yellow"),
    "waterlog": marked("1 bears no standing water, 5 bears months of it"),
    "drought": marked("5 suffers first in a dry spell"),
    "wind": marked("5 drops fruit and leans first"),
    "wet_disease": marked("5 is troubled most where summers are wet"),
    "browse": marked("5 is what deer and rabbits eat first"),
    "frost_10_bloom": marked("at this a tenth of the open blossom dies"),
    "frost_90_bloom": marked("at this nearly all of it dies"),
    "mycorrhiza": marked("the kind of root fungus it lives with"),
    "stake": marked("whether it must be held up, and how long"),
}
