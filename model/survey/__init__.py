"""What was measured: the site, its features, and the reading and writing of them."""

from model.survey.faults import Fault, SurveyFaults
from model.survey.feature import KINDS, Attribute, Feature, FeatureKind
from model.survey.heights import Plane, RasterHeights, SpotHeights
from model.survey.reading import read_site, site_faults
from model.survey.site import Site, Soil, Spot, same_site
from model.survey.starter import new_folder
from model.survey.weather import Weather
from model.survey.writing import write_site

__all__ = [
    "KINDS",
    "Attribute",
    "Fault",
    "Feature",
    "FeatureKind",
    "Plane",
    "RasterHeights",
    "Site",
    "Soil",
    "Spot",
    "SpotHeights",
    "SurveyFaults",
    "Weather",
    "new_folder",
    "read_site",
    "same_site",
    "site_faults",
    "write_site",
]
