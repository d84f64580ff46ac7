"""Every figure of a study that may be off: the survey's, and the catalogue's sizes."""

import math
from collections.abc import Iterator

from model.ground.obstacles import described, full_crown, full_height
from model.language import _, marked
from model.robustness.doubt import Doubt, Subject
from model.robustness.usual_errors import usual_error
from model.study import Study
from model.survey.attribute import Attribute
from model.survey.feature import KINDS, Feature
from model.survey.plus_minus import DEVIATIONS, POSITION
from model.survey.settings import REACH
from model.survey.soil import SOIL_ATTRIBUTES
from model.trees import HIGH, LOW, TYPICAL

POSITION_NAME = "position"
TENTH = 1.2816  # standard scores from the middle to the 10th and the 90th percentile
NEVER_SEEN = 2.0  # soil that nobody looked at is taken to be off by this much more
WORDS = {
    "ph": "pH",
    "depth_cm": marked("soil depth"),
    "height_m": marked("height"),
    "width_m": marked("width"),
    "crown_m": marked("spread"),
    "full_height_m": marked("full-grown height"),
    "full_crown_m": marked("full-grown spread"),
    "wet_months": marked("wet months"),
    "age_years": marked("age"),
    POSITION_NAME: marked("course"),
}
RANGE = marked("low and high sizes of the catalogue, read as the 10th and 90th percentile")
SURVEYED = marked("as the survey says")


def doubts(study: Study) -> tuple[Doubt, ...]:
    """Every figure in doubt; one whose plus-minus is given as 0 is in none.

    The size of full-grown trees is one doubt a rootstock, shared by all the options on it: low and
    high are read as the 10th and 90th percentile of two half normals about the typical size.
    """
    found = [*_of_soil(study), *_of_features(study), *_of_rootstocks(study)]
    return tuple(doubt for doubt in found if doubt.sd > 0)


def _of_soil(study: Study) -> Iterator[Doubt]:
    site = study.site
    unseen = "soil" in site.absent
    for figure in SOIL_ATTRIBUTES:
        if figure.is_number:
            value = float(getattr(site.soil, figure.name))
            said = site.soil_plus_minus.get(figure.name, math.nan)
            label = _("{figure} of the soil in general").format(figure=_(word(figure.name)))
            subject = Subject(attribute=figure.name)
            widened = NEVER_SEEN if unseen else 1.0
            yield from _doubt("soil", figure, value, said, subject, label, widened)


def _of_features(study: Study) -> Iterator[Doubt]:
    for number, feature in enumerate(study.site.features):
        for figure in KINDS[feature.kind].attributes:
            if figure.is_number and not follows(feature, figure.name):
                value = _figure(study, feature, figure.name)
                label = _labelled(figure.name, feature)
                subject = Subject(number, figure.name)
                said = feature.plus_minus(figure.name)
                yield from _doubt(feature.kind, figure, value, said, subject, label)
        said = float(feature.attributes.get(POSITION.name, math.nan))
        label = _labelled(POSITION_NAME, feature)
        subject = Subject(number, POSITION_NAME)
        course = Attribute(POSITION_NAME, "m", 0.0, -REACH, REACH)
        yield from _doubt(feature.kind, course, 0.0, said, subject, label)


def follows(feature: Feature, figure: str) -> bool:
    """Whether a figure is no doubt of its own: the full size of a tree that is full grown."""
    now = figure.removeprefix("full_")
    return now != figure and feature.number(figure) <= feature.number(now)


def _figure(study: Study, feature: Feature, name: str) -> float:
    """A feature's figure; a tree's full-grown height is the catalogue's where none is drawn.

    Its full-grown spread then follows from the height, and is no doubt of its own.
    """
    value = feature.number(name)
    if name == "full_height_m" and math.isnan(value):
        return full_height(feature, study.catalogue)
    if name == "full_crown_m" and math.isfinite(value):
        return full_crown(feature, study.catalogue)
    return value


def _doubt(
    kind: str,
    figure: Attribute,
    value: float,
    said: float,
    subject: Subject,
    label: str,
    widened: float = 1.0,
) -> Iterator[Doubt]:
    """The doubt about a figure, if there is any."""
    usual = usual_error(kind, figure.name)
    given = math.isfinite(said)
    if not math.isfinite(value) or (usual is None and not given):
        return
    off = said if given else widened * usual.surveyed.of(value) if usual else 0.0
    better = usual.measured.of(value) if usual and usual.by else math.nan
    yield Doubt(
        name=f"{subject.feature}:{subject.attribute}",
        label=label,
        value=value,
        below=off / DEVIATIONS,
        above=off / DEVIATIONS,
        unit="" if figure.unit == "pH" else figure.unit,
        given=given,
        source=SURVEYED if given else usual.source if usual else "",
        subject=subject,
        low=-math.inf if figure.low is None else figure.low,
        high=math.inf if figure.high is None else figure.high,
        better=better / DEVIATIONS,
        by=usual.by if usual else "",
    )


def _of_rootstocks(study: Study) -> Iterator[Doubt]:
    heights = study.traits.height
    first = {option.rootstock: n for n, option in reversed([*enumerate(study.options)])}
    for rootstock, option in first.items():
        low, typical, high = (float(heights[size, option]) for size in (LOW, TYPICAL, HIGH))
        if not all(map(math.isfinite, (low, typical, high))):
            continue
        yield Doubt(
            name=f"rootstock:{rootstock}",
            label=_("full-grown size on {rootstock}").format(rootstock=rootstock),
            value=typical,
            below=max(typical - low, 0.0) / TENTH,
            above=max(high - typical, 0.0) / TENTH,
            unit=marked("m high"),
            given=True,
            source=RANGE,
            subject=Subject(rootstock=rootstock),
            low=0.1,
        )


def _labelled(figure: str, feature: Feature) -> str:
    return _("{figure} of {feature}").format(figure=_(word(figure)), feature=_named(feature))


def word(figure: str) -> str:
    """What a figure of the survey is called in a sentence, in English."""
    return WORDS.get(figure, figure.rpartition("_")[0].replace("_", " ") or figure)


def _named(feature: Feature) -> str:
    """What people call it, with the article that a sentence wants."""
    called = described(feature)
    if not feature.name or called.startswith("the "):
        return called
    return _("the {name}").format(name=f"{called[0].lower()}{called[1:]}")
