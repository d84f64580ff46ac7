"""What the choice stands beside, as a word of the page's address."""

import math
from collections.abc import Mapping

from model.comparison import Choice
from model.study import Study

NOTHING = Choice(-1, -1)
WORD = "beside"


def words_of(study: Study, other: Choice) -> dict[str, str]:
    """The choice as a word of a link: 'Discovery on M9 @ Top field', nothing for none."""
    if not 0 <= other.option < len(study.options):
        return {}
    places = study.ground.places
    where = f"{places.x[other.place]:.2f},{places.y[other.place]:.2f}"
    if other.place >= places.cells:
        where = places.spots[other.place - places.cells]
    return {WORD: f"{study.options[other.option].label} @ {where}"}


def followed(study: Study, words: Mapping[str, str]) -> Choice:
    """The choice a link speaks of; none where this site has it not."""
    label, _at, where = str(words.get(WORD, "")).partition(" @ ")
    labels, places = [option.label for option in study.options], study.ground.places
    if label not in labels:
        return NOTHING
    if where in places.spots:
        return Choice(labels.index(label), places.cells + places.spots.index(where))
    try:
        east, north = (float(part) for part in where.split(","))
    except ValueError:
        return NOTHING
    if not (math.isfinite(east) and math.isfinite(north)):
        return NOTHING
    return Choice(labels.index(label), places.nearest(east, north, reach=0.0))


def stepped(study: Study, east: int, north: int) -> int:
    """The place so many cells east and north of the chosen one, kept to the grid."""
    places = study.ground.places
    x = places.x[study.place] + east * places.cell
    y = places.y[study.place] + north * places.cell
    return places.nearest(float(x), float(y), reach=0.0)
