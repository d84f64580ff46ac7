"""What the model says, in another language: every sentence of it, through a file like any other.

The language here is made up: every letter of the English text is written as wide as a Chinese sign,
so that a word which no translator was asked for is seen at once by its plain letters.
"""

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from html.parser import HTMLParser

import numpy as np
import pytest

from dashboard.join.html import entry
from dashboard.language_file import texts
from dashboard.pages.navigation import Screen
from dashboard.report import Brief, Findings, document, findings, folder_plan
from model.comparison import why_not
from model.group.agreement import agreement
from model.group.agreement_words import all_points
from model.group.ballot import Ballot
from model.group.own_ballot import own_differences
from model.group.second_round import movement
from model.language import ENGLISH, Language, use
from model.opening import open_study
from model.planting.buying.bill import bill
from model.planting.buying.soil_mending import LIME_SOURCE, SULPHUR_SOURCE
from model.planting.buying.staking import staking
from model.planting.buying.tree_names import species_name
from model.planting.candidates import candidate_places
from model.planting.changes import what_changed
from model.planting.effort.bringing_water import USUAL_SOURCE
from model.planting.layout import layout
from model.planting.order import Order, Wish
from model.planting.picking import PickingSpread
from model.planting.plan_words import plan_words
from model.planting.solver.programme import Relaxation
from model.planting.unmet import unmet_sentences
from model.planting.year_after.observations import read_observations
from model.planting.year_after.review import review, watched_spots
from model.planting.year_after.standing import standing_trees
from model.robustness.doubts import doubts
from model.study import Study
from tests.model.demo import DEMO

DAY = date(2026, 11, 25)
WIDE = {ord(one): ord(one) + 0xFEE0 for one in map(chr, range(33, 127)) if one.isalpha()}
BRACES = re.compile(r"(\{[^}]*\})")
PLAIN = re.compile(r"[A-Za-z]{3,}")
# What no language changes: names of files, columns and currencies, and the software's own.
SAME = {"placement", "prices", "study", "csv", "toml", "Treestead", "EUR", "AUD", "min"}


def widened(text: str) -> str:
    """A text in the made-up language; what stands in braces is left alone."""
    parts = BRACES.split(text)
    return "".join(part if part.startswith("{") else part.translate(WIDE) for part in parts)


def made_up() -> Language:
    """The made-up language, of the very texts that a language file asks for; dates Japanese."""
    asked = [text for text, _where in texts()]
    return Language(
        code="ja",
        texts={one: widened(one) for one in asked if isinstance(one, str)},
        plurals={one[0]: [*map(widened, one)] for one in asked if isinstance(one, tuple)},
    )


@pytest.fixture(scope="module")
def study():
    """The demo opened while the made-up language is spoken."""
    use(made_up())
    try:
        yield open_study(DEMO)
    finally:
        use(ENGLISH)


@pytest.fixture(scope="module")
def found(study) -> Findings:
    return findings(study, folder_plan(study, study.site.folder), DAY)


def names(study: Study) -> re.Pattern[str]:
    """What the survey and the catalogue call things, and citations."""
    site, catalogue, places = study.site, study.catalogue, study.ground.places
    found = {site.name, *places.spots, LIME_SOURCE, SULPHUR_SOURCE, USUAL_SOURCE}
    for feature in site.features:
        found |= {feature.name, *map(str, feature.attributes.values())}
        found |= {feature.name[:1].lower() + feature.name[1:]}  # as a sentence has it
    for option in catalogue.options():
        found |= {option.label, option.cultivar, option.rootstock, option.species}
        found |= {option.species.replace("_", " "), species_name(study, option.species)}
    for number in range(len(study.options)):
        stake = staking(study, number)
        found |= {stake.words, stake.source}
    found |= {wish for one in study.weight_sets for wish in (one.name, one.about)}
    priced = widened("priced as") + " [a-z: ]+"  # as prices.csv has it
    longest_first = map(re.escape, sorted(filter(None, found), key=len, reverse=True))
    return re.compile("|".join([priced, *longest_first]))


def untranslated(study: Study, sentences: Iterable[str]) -> set[str]:
    """Words in plain letters that are no names, each with its sentence."""
    known, found = names(study), set()
    for sentence in sentences:
        left = PLAIN.findall(known.sub(" ", sentence))
        found |= {f"{one!r} in {sentence!r}" for one in left if one not in SAME}
    return found


def test_each_factor_explains_itself_in_the_language(study):
    pegs = range(study.ground.places.cells, study.ground.places.x.size)
    said = [
        study.explain(number, place % len(study.options), place)
        for number in range(len(study.factors))
        for place in pegs[::4]
    ]
    assert not untranslated(study, said)


def test_verdicts_reasons_and_comparisons_are_said_in_the_language(study):
    said = [*study.ground.absent.values(), *study.ruling.reasons]
    said += [label for one in doubts(study) for label in (one.label,)]
    for place in range(study.ground.places.cells, study.ground.places.x.size):
        study.place = place
        said.append(study.verdict())
        said += why_not(study, place % len(study.options), place)
    study.place = 0
    said += [study.verdict(), *why_not(study, 0, 0)]
    for layer, hour in (("best", 9.0), ("shade", 9.0), ("shade", 1.0)):
        study.param.update(layer=layer, hour=hour)
        said.append(study.map_layer().label)
    assert not untranslated(study, said)


def test_what_groups_agree_on_is_said_in_the_language(study):
    rng, factors = np.random.default_rng(1), [factor.name for factor in study.factors]
    study.place = study.ground.places.cells
    for count in (1, 2, 6):
        drawn = study.weights * rng.gamma(0.5, 2.0, (2, count, len(factors)))
        first, second = (
            agreement(study, [
                Ballot(str(number + late), dict(zip(factors, row, strict=True)), -1.0)
                for number, row in enumerate(rows)
            ])
            for late, rows in enumerate(drawn)
        )  # fmt: skip
        said = [*all_points(first), *movement(first, second).sentences()]
        said += [one for voice in first.voices for one in own_differences(first, voice.group)]
        assert not untranslated(study, said)


def test_a_plan_its_list_its_calendar_and_its_effort_are_said_in_the_language(study, found):
    plan = found.plan
    fewer = replace(plan.placement, trees=plan.placement.trees[:-1])
    first = plan.placement.trees[0]
    place = next(one for one in range(study.ground.places.cells) if study.ground.places.inside[one])
    moved = replace(
        plan.placement, trees=(replace(first, place=place, name="there"), *plan.placement.trees[1:])
    )
    said = plan_words(study, plan.order, plan.placement, [moved])
    said += [
        *what_changed(study, plan.placement, fewer),
        *what_changed(study, moved, plan.placement),
    ]
    said += [bill(found.needs).words, *found.effort["says"]]
    said += [one for column in ("item", "unit", "trees", "why") for one in found.needs[column]]
    said += [
        one for column in ("what", "trees", "how", "caution") for one in found.calendar[column]
    ]
    assert not untranslated(study, [one.replace("there", "") for one in said])


def test_what_of_an_order_cannot_be_met_is_said_in_the_language(study):
    everything = tuple(range(len(study.options)))
    spread = PickingSpread(most_at_once=1, parts=2)
    order = Order((Wish("A1", 9, everything),), budget=1.0, prices=(2.0,) * len(everything),
                  picking=spread)  # fmt: skip
    pegs = candidate_places(study, order, between=False)
    made = layout(study, order, pegs, [(pegs[0].place, 0)])
    lacking = [Relaxation("partners", option, 1.0) for option in everything[::4]]
    seasons = [Relaxation("season", window, 1.0) for window in range(len(made.windows))]
    others = [Relaxation(kind, 0, 1.0) for kind in ("wish", "budget", "fixed")]
    assert not untranslated(study, unmet_sentences(made, [*lacking, *seasons, *others], 0.0))


def test_a_review_is_said_in_the_language(study):
    folder = study.site.folder
    trees = standing_trees(study, folder)
    seen = read_observations(folder, watched_spots(study, trees))
    made = review(study, trees, seen, max(one.date for one in seen))
    said = [*made.sentences, *made.corrections, *(note for notes in made.notes for note in notes)]
    said += [*made.table["expected"], *made.table["seen"], *made.table["meaning"]]
    said += [*made.evidence["meaning"], *made.evidence["prior_source"]]
    assert not untranslated(study, said)


class Text(HTMLParser):
    """The language of a document and every text that a person may read in it."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.language, self.read, self._inside = "", list[str](), ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Read what stands in the attributes that people hear or see."""
        self._inside, given = tag, dict(attrs)
        self.language = given.get("lang") or self.language if tag == "html" else self.language
        self.read += [given.get(name) or "" for name in ("alt", "aria-label", "data-label")]

    def handle_data(self, data: str) -> None:
        """Read what stands between tags, but for the style sheet."""
        self.read += [data] if self._inside != "style" else []


def test_a_report_is_written_in_the_language_and_names_it(study, found):
    text = Text(document(found, Brief(left_out=("sources",))))
    assert text.language == "ja"
    assert "2026年11月25日" in text.read  # the day of the report, as a Japanese reader has it
    assert not untranslated(study, text.read)


def test_pages_say_which_language_they_are_in(study):
    assert Screen().language == "ja"
    assert '<html lang="ja">' in entry("", "")
