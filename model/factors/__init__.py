"""The factors, one file each. This tuple is the list and the order of display."""

from model.factors.access import ACCESS
from model.factors.browsing import BROWSING
from model.factors.climate_fit import CLIMATE_FIT
from model.factors.drainage import DRAINAGE
from model.factors.factor import GROUPS, Factor, RuleOut, Settings
from model.factors.fungal_network import FUNGAL_NETWORK
from model.factors.late_frost import LATE_FROST
from model.factors.own_shade import OWN_SHADE
from model.factors.pollination import POLLINATION
from model.factors.root_competition import ROOT_COMPETITION
from model.factors.services import SERVICES
from model.factors.slope import SLOPE
from model.factors.soil_acidity import SOIL_ACIDITY
from model.factors.soil_depth import SOIL_DEPTH
from model.factors.spacing import SPACING
from model.factors.sunlight import SUNLIGHT
from model.factors.views import VIEWS
from model.factors.vigour import VIGOUR
from model.factors.watering import WATERING
from model.factors.wind_exposure import WIND_EXPOSURE

FACTORS: tuple[Factor, ...] = (
    CLIMATE_FIT,
    SUNLIGHT,
    LATE_FROST,
    WIND_EXPOSURE,
    VIGOUR,
    SPACING,
    ROOT_COMPETITION,
    SERVICES,
    POLLINATION,
    DRAINAGE,
    SOIL_DEPTH,
    SOIL_ACIDITY,
    WATERING,
    FUNGAL_NETWORK,
    ACCESS,
    SLOPE,
    BROWSING,
    VIEWS,
    OWN_SHADE,
)

__all__ = ["FACTORS", "GROUPS", "Factor", "RuleOut", "Settings"]
