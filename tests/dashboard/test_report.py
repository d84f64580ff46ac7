"""The report as an independent reader finds it: every figure the model's, nothing from outside."""

import re
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree as Xml

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dashboard.report import Brief, brief_text, document, findings, folder_plan, read_brief
from dashboard.report.brief import BRIEF_FILE, PARTS, changed
from dashboard.report.map_signs import AREAS, LINES, SIGNS
from dashboard.report.reasons import for_and_against, parts
from dashboard.report.site_map import sheet_of, site_map
from dashboard.units import spoken
from model.opening import open_study
from model.planting.buying.bill import bill
from model.planting.dates.service_cautions import BEFORE_DIGGING, UNDER_A_LINE
from model.trees import TYPICAL, full_size
from tests.dashboard.report_reader import read
from tests.model.demo import DEMO

DAY = date(2026, 11, 25)
EVIL = "</title></style><script>alert(1)</script><img src=x onerror=alert(1)>"
PLACEMENT, LEADERS = "The placement, signs as on the map", "What leads at each peg"


@pytest.fixture(scope="module", params=["sorrelhay", "sallowbend"])
def found(request):
    folder = DEMO.parent / request.param
    study = open_study(folder)
    return findings(study, folder_plan(study, folder), DAY)


@pytest.fixture(scope="module")
def north():
    study = open_study(DEMO)
    return findings(study, folder_plan(study, DEMO), DAY)


def test_the_document_asks_for_nothing_outside_itself(found):
    html = document(found, Brief())
    seen = read(html)
    for _tag, attributes in seen.tags:
        for name in ("src", "href", "xlink:href", "srcset", "action", "data"):
            assert attributes.get(name, "#").startswith(("#", "data:"))
    assert not {"script", "link", "iframe", "object", "form"} & {tag for tag, _ in seen.tags}
    style = html[html.index("<style>") : html.index("</style>")]
    assert "url(" not in style
    assert "@import" not in style


def test_it_says_that_the_demo_is_invented_whatever_the_demo_is_called(found):
    assert "Invented for teaching" in read(document(found, Brief())).text
    found.study.site, kept = replace(found.study.site, name="Renamed"), found.study.site
    try:
        assert "Invented for teaching" in read(document(found, Brief())).text
        found.study.site = replace(found.study.site, name="Renamed", latitude=51.0)
        assert "Invented for teaching" not in read(document(found, Brief())).text
    finally:
        found.study.site = kept


def test_every_figure_of_the_placement_is_the_models(found):
    rows = read(document(found, Brief())).records(PLACEMENT)
    trees = found.plan.placement.trees
    assert len(rows) == len(trees) > 3
    for row, tree in zip(rows, trees, strict=True):
        assert row["Place"].endswith(tree.name)
        assert row["Tree"] == found.study.options[tree.option].label
        assert float(row["East"].removesuffix(" m")) == pytest.approx(tree.x, abs=0.005)
        assert float(row["North"].removesuffix(" m")) == pytest.approx(tree.y, abs=0.005)
        assert float(row["Score of 100"]) == pytest.approx(100 * tree.score, abs=0.5)


def test_the_parts_named_for_and_against_add_up_to_the_score(found):
    """Contributions sum to the score: the promise of model.decision.contributions."""
    for spot in found.spots:
        brings = parts(found, spot)
        assert brings.sum() == pytest.approx(spot.tree.score, abs=1e-6)
        best, against = for_and_against(found, spot)
        assert len(best) == 3
        assert len(against) <= 2
        assert not set(best) & set(against)
        costs = found.study.weights - brings
        pollen = [factor.name for factor in found.study.factors].index("pollination")
        rest = [n for n in range(len(costs)) if n not in (*against, pollen)]
        assert all(costs[n] <= min(costs[against], default=1) + 1e-9 for n in rest)


def test_list_calendar_and_bill_are_whole(found):
    seen = read(document(found, Brief()))
    bought = seen.records("What to buy")
    assert [row["Item"] for row in bought] == found.needs["item"].tolist()
    prices = [row["Together"].split()[0] for row in bought]
    known = [float(price) for price in prices if price != "\N{EN DASH}"]
    assert sum(known) == pytest.approx(bill(found.needs).total, abs=0.005 * len(known))
    assert f"{bill(found.needs).total:.2f}" in seen.text
    tasks = [row for row in seen.tables["What to do when"][1:] if len(row) == 4]
    assert [row[1] for row in tasks] == found.calendar["what"].tolist()


def test_the_calendar_follows_the_hemisphere(found):
    """Bare-root trees are planted while they sleep: from November here, from June in the south."""
    rows = found.calendar[found.calendar["what"].str.startswith("Plant ")]
    months = {date.fromisoformat(one).month for one in rows["first"]}
    assert months <= ({10, 11, 12} if found.study.site.latitude > 0 else {5, 6, 7})
    south = found.study.site.latitude < 0
    assert ("35.20000° south" in read(document(found, Brief())).text) == south


def test_cautions_stand_before_everything_else_and_cannot_be_left_out(found):
    bare = read(document(found, Brief(left_out=tuple(PARTS))))
    titles = [title for _level, title in bare.headings]
    assert titles.index("Cautions, before any work") < titles.index("1. The job and the site")
    assert BEFORE_DIGGING in bare.text
    assert UNDER_A_LINE in bare.text
    for word in ("Ladders", "Slopes", "Buildings", "Water", "Lime", "Local codes", "licensed"):
        assert word in bare.text
    assert "Left out of this report:" in bare.text
    assert len(bare.headings) < len(read(document(found, Brief())).headings)


def test_headings_go_down_a_step_at_a_time_and_every_picture_has_words(found):
    seen = read(document(found, Brief()))
    levels = [level for level, _title in seen.headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert max(np.diff(levels)) <= 1
    assert seen.attributes("html") == [{"lang": "en"}]
    assert all(found.study.site.name in one["alt"] for one in seen.attributes("img"))
    anchors = {one["href"].removeprefix("#") for one in seen.attributes("a")}
    assert anchors <= {one["id"] for one in seen.attributes("section") if "id" in one}


def test_markup_in_what_is_typed_or_named_is_text(north):
    brief = Brief(title=EVIL, prepared_for=EVIL, prepared_by=EVIL, reference=EVIL, job=EVIL)
    study = north.study
    kept = study.site
    evil = tuple(replace(one, name=f"{EVIL}\x00&") for one in kept.features)
    study.site = replace(kept, name=EVIL, features=evil)
    try:
        html, drawn = document(north, brief), site_map(north)
    finally:
        study.site = kept
    seen = read(html)
    assert "script" not in {tag for tag, _ in seen.tags}
    assert len(seen.attributes("img")) == 1
    assert seen.text.count("<script>") >= 5
    assert {one.tag.split("}")[1] for one in Xml.fromstring(drawn).iter()} <= {  # noqa: S314 -- our own
        "svg", "rect", "path", "text", "circle",
    }  # fmt: skip


def test_the_map_is_to_scale(found):
    """A crown's outline on paper, in millimetres, is its width in metres at the scale it states."""
    svg = Xml.fromstring(site_map(found))  # noqa: S314 -- our own
    sheet = sheet_of(found.study, found.spots)
    assert float(svg.get("width").removesuffix("mm")) <= 172.1
    assert float(svg.get("height").removesuffix("mm")) <= 176.1
    assert f"1 : {sheet.scale}" in "".join(svg.itertext())
    widths = []
    for path in svg.iter("{http://www.w3.org/2000/svg}path"):
        if path.get("stroke-width") == "0.6":
            x = [float(one) for one in re.findall(r"[ML]([-\d.]+),", path.get("d"))]
            widths.append(max(x) - min(x))
    study = found.study
    crowns = [
        full_size(study.traits, study.ground.soils.fertility[[spot.place]]).spread[
            TYPICAL, spot.tree.option, 0
        ]
        for spot in found.spots
    ]
    assert widths == pytest.approx([1000 * one / sheet.scale for one in crowns], abs=0.03)


def grey(colour):
    """Lightness of a colour to the tenth: the luma of ITU-R BT.601."""
    if colour == "none":
        return None
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return round(0.299 * red + 0.587 * green + 0.114 * blue, 1)


def test_signs_are_told_apart_without_colour():
    for kinds in (AREAS, LINES):
        looks = [SIGNS[kind] for kind in kinds]
        told = {(grey(s.line), s.width, s.dash, grey(s.fill), s.hatch) for s in looks}
        assert len(told) == len(kinds)


def test_the_key_has_a_sign_for_every_kind_that_is_drawn(found):
    key = [one["class"] for one in read(document(found, Brief())).attributes("svg")]
    assert key.count("swatch") >= len({one.kind for one in found.study.site.features})


def test_without_a_plan_the_leader_of_every_peg_is_told():
    study = open_study(DEMO)
    found = findings(study, None, DAY)
    rows = read(document(found, Brief())).records(LEADERS)
    assert [row["Place"] for row in rows] == [
        f"{number} {spot.name}" for number, spot in enumerate(study.site.spots, start=1)
    ]
    for row, spot in zip(rows, found.spots, strict=True):
        here = study.here(spot.place)
        if not here.allowed.size:
            assert row["Tree"] == "nothing can stand here"
            continue
        first = int(here.allowed[0])
        assert row["Tree"] == study.options[first].label
        assert float(row["Score of 100"]) == pytest.approx(100 * here.score[first], abs=0.5)
        tied = [study.options[n].label for n in here.allowed[1:] if here.tied[n]]
        assert ("tie with" in row["Ties with, then next"]) == bool(tied)


def test_trees_that_lack_a_partner_are_named_at_once(found):
    text = read(document(found, Brief())).text
    short = text[text.index("In short") : text.index("Cautions, before any work")]
    own = {"Golden Delicious", "Egremont Russet", "Discovery"}  # none bears alone: RHS, Pollination
    lonely = [
        tree
        for tree in found.trees
        if found.study.options[tree.option].cultivar in own and not tree.partners
    ]
    assert lonely
    assert "Without a partner in flower" in short
    told = short[short.index("Without a partner") :]
    assert all(f"{found.study.options[one.option].label} at {one.name}" in told for one in lonely)


def test_lengths_are_in_feet_where_that_is_wanted(north):
    rows = read(document(north, Brief(feet=True))).records(PLACEMENT)
    for row, tree in zip(rows, north.plan.placement.trees, strict=True):
        assert row["East"] == spoken(f"{tree.x:.2f} m", feet=True)
        assert " ft" in row["Full crown"]


def test_the_weights_are_named_by_their_set_and_drawn_by_their_share(north):
    study = north.study
    kept = study.snapshot()
    study.use(study.weight_sets[1])
    try:
        seen = read(document(north, Brief()))
    finally:
        study.restore(kept)
    assert f"the set “{study.weight_sets[1].name}”" in seen.text
    shares = [
        float(row["Weight"].removesuffix(" %")) for row in seen.records("Weights, together 100 %")
    ]
    assert sum(shares) == pytest.approx(100, abs=0.05 * len(shares))


def test_a_setting_that_is_not_the_usual_is_told(north):
    study = north.study
    ladder = study.settings["slope"]
    usual = ladder.ladder
    ladder.ladder = 17.0
    try:
        text = read(document(north, Brief())).text
    finally:
        ladder.ladder = usual
    assert "17 (usual: 29)" in text
    assert "17 (usual: 29)" not in read(document(north, Brief())).text


def test_every_catalogue_value_has_its_standing_and_source(found):
    seen = read(document(found, Brief()))
    study = found.study
    signs = {"verified": "V", "common": "C", "memory": "M"}
    options = list(dict.fromkeys(study.options[tree.option] for tree in found.trees))
    caption = ", ".join(one.label for one in options)
    rows = {row["Figure"]: row for row in seen.records(caption)}
    for option in options:
        for line in study.catalogue.card(option):
            cell = rows[line.label][option.label]
            assert cell.startswith(line.value)
            assert re.search(rf"{signs[line.status]} \d+( s)?$", cell)
    for factor in study.factors:
        assert all(source in seen.text for source in factor.sources)


@given(st.text(max_size=80), st.text(max_size=200), st.sets(st.sampled_from(sorted(PARTS))))
@settings(max_examples=40, deadline=None)
def test_what_is_typed_comes_back(tmp_path_factory, name, job, gone):
    brief = changed(changed(Brief(), "prepared_for", name), "job", job)
    for part in gone:
        brief = changed(brief, part, value=False)
    folder = tmp_path_factory.mktemp("brief")
    (folder / BRIEF_FILE).write_text(brief_text(brief), encoding="utf-8", newline="")
    again = read_brief(folder)
    assert again.prepared_for == brief.prepared_for
    assert set(again.left_out) == gone
    assert again.job.split() == brief.job.split()


@pytest.mark.parametrize("text", ["paper = 'A9'\nleft_out = [3, 'cautions']", "x = ", "job = 5"])
def test_a_brief_that_cannot_be_read_is_an_empty_one(tmp_path, text):
    (tmp_path / BRIEF_FILE).write_text(text, encoding="utf-8")
    assert read_brief(tmp_path) == Brief()
