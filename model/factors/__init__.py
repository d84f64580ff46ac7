"""The factors, one file each. This tuple is the list and the order of display."""

from model.factors.access import ACCESS
from model.factors.climate_fit import CLIMATE_FIT
from model.factors.factor import GROUPS, Factor, RuleOut, Settings
from model.factors.root_competition import ROOT_COMPETITION
from model.factors.spacing import SPACING
from model.factors.views import VIEWS
from model.factors.vigour import VIGOUR

FACTORS: tuple[Factor, ...] = (CLIMATE_FIT, VIGOUR, SPACING, ROOT_COMPETITION, ACCESS, VIEWS)

__all__ = ["FACTORS", "GROUPS", "Factor", "RuleOut", "Settings"]
