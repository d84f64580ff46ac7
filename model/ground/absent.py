"""Why parts of the ground are not known, in words: nothing is left out silently."""

from model.ground.watering import SOURCES
from model.ground.wind import rose_of
from model.language import _
from model.survey.site import Site


def absent_of(site: Site) -> dict[str, str]:
    """Sentence by field of the ground for each that the survey gives no grounds for."""
    absent = {}
    if site.weather is None:
        absent["climate"] = absent["frost"] = absent["watering"] = site.absent["weather"]
    elif not site.of_kind(*SOURCES):
        absent["watering"] = _("No tap or tank is drawn: watering is not judged.")
    if site.hub is None:
        absent["walk"] = site.absent["hub"]
    if rose_of(site) is None:
        absent["wind"] = site.absent.get("wind", _("No wind record: wind is not judged."))
    if not site.of_kind("sun_wanted"):
        absent["sun_wanted"] = _("No bed, panel or window that wants its sun is drawn.")
    if not site.of_kind("view"):
        absent["views"] = _("No view is drawn: nothing can stand in one.")
    if not site.of_kind("buried_service", "overhead_line"):
        absent["services"] = _(
            "No buried or overhead service is drawn, so none is judged: that is not to say that "
            "there is none. Ask every network operator before you dig."
        )
    if not site.of_kind("animal_run"):
        absent["animal_runs"] = _("No animal run is drawn: browsing is not judged.")
    return absent
