"""A site and its trees year by year: crowns, roots, room, shade and views as they grow."""

from model.growth.shown import Shown, chosen, leaders, placed
from model.growth.stand import GROWTHS, Crowns, Stand, stand_of

__all__ = ["GROWTHS", "Crowns", "Shown", "Stand", "chosen", "leaders", "placed", "stand_of"]
