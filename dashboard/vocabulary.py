"""Words that records hold, for the language file: of pages, factors, kinds, traits and trees."""

from collections.abc import Iterator

from dashboard import theme
from dashboard.book import PAGES
from dashboard.pages import (
    panels,
    review_watch_list,
    survey,
    survey_feature,
    trees,
    trees_meanings,
    trees_own,
    trees_rows,
)
from dashboard.pages.survey_months import COLUMNS as NORMALS
from model.factors import FACTORS
from model.ground.obstacles import unnamed
from model.growth import GROWTHS
from model.planting.dates.pruning import pruning_table
from model.planting.order import USES
from model.robustness.doubts import word
from model.survey.editing import MARKS
from model.survey.kinds import KINDS
from model.survey.soil import SOIL_ATTRIBUTES
from model.trees.card import CARD
from model.trees.vocabulary import VOCABULARY

Words = Iterator[tuple[str, str]]


def vocabulary() -> Words:
    """Every word and sentence that a record holds, with where it stands."""
    yield from _of_pages()
    yield from _of_factors()
    yield from _of_the_survey()
    yield from _of_trees()


def _of_pages() -> Words:
    for page in PAGES:
        yield page.label, f"page {page.path}"
        yield page.about, f"page {page.path}"
    for label in (*trees.PANELS.values(), *panels.PANELS.values()):
        yield label, "panel"
    for _column, label, _sorted in trees_rows.COLUMNS:
        yield label, "table of trees"
    for caution in survey_feature.CAUTIONS.values():
        yield caution, "page survey"
    for panel in survey.PANELS:
        yield panel.label, "page survey"
    for group in (*survey.GROUPS.values(), *review_watch_list.COLUMNS):
        yield group, "page survey"
    for row in review_watch_list.WATCH:
        for said in row:
            yield said, "what to watch"


def _of_factors() -> Words:
    for family in theme.FAMILY_LABELS:
        yield theme.family_label(family), f"family {family}"
    for factor in FACTORS:
        for text in (factor.label, factor.label.lower(), factor.question, factor.unit):
            yield text, f"factor {factor.name}"
        for text in factor.sources:
            yield text, f"factor {factor.name}, source"
        settings = factor.settings()
        for name in settings.figures():
            yield str(settings.param[name].doc).rstrip("."), f"factor {factor.name}, {name}"


def _of_the_survey() -> Words:
    for mark in MARKS.values():
        yield mark.label, f"kind {mark.name}"
    for kind in KINDS.values():
        for text in (kind.label, kind.label.lower(), kind.meaning, unnamed(kind.name)):
            yield text, f"kind {kind.name}"
        for attribute in kind.attributes:
            for text in (attribute.meaning, attribute.unit, word(attribute.name)):
                yield text, f"kind {kind.name}, {attribute.name}"
            for choice in attribute.choices:
                yield choice, f"kind {kind.name}, {attribute.name}"
    for attribute in SOIL_ATTRIBUTES:
        for text in (attribute.meaning, word(attribute.name), *attribute.choices):
            yield text, f"soil, {attribute.name}"
    for column in NORMALS:
        yield column.meaning, f"normals, {column.name}"


def _of_trees() -> Words:
    for heading in (*trees_meanings.GROUPS, trees_meanings.REST, *GROWTHS, *USES):
        yield heading, "trees"
    for _word, label in (*trees_own.KINDS, *trees_own.STATUSES):
        yield label, "your own trees"
    for table, trait in CARD:
        label = VOCABULARY[table][trait].label
        yield label, f"trait {trait}"
        if table == "rootstocks":
            yield f"rootstock: {label}", f"trait {trait}"
        for choice in VOCABULARY[table][trait].choices:
            yield choice, f"trait {trait}"
    for species, work in pruning_table().items():
        yield work.how, f"pruning {species}"
        yield work.source, f"pruning {species}"
