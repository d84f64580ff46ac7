"""A person at the page: what is moved, tapped and undone shows everywhere, and stays at home."""

import numpy as np
import pytest
from playwright.sync_api import expect

from dashboard import theme
from model.comparison import why_not
from tests.browser.page import (
    SLOW,
    columns,
    opened,
    opened_families,
    picture,
    ranking,
    sentence,
    slider,
    tap,
)

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1440, "height": 900}


def letters(study):
    return [theme.letter(option) for option in study.here().order]


def expected_picture(study):
    return 100 * study.ground.places.grid(study.map_layer().values).ravel()


def test_a_moved_slider_changes_map_ranking_and_sentence_alike(page, address, study, errors):
    page.set_viewport_size(DESK)
    opened(page, address)
    opened_families(page)
    expect(sentence(page)).to_have_text(study.verdict())
    before = picture(page)
    slider(page, "spacing").fill("60")
    study.move_weight("spacing", 0.6)
    expect(sentence(page)).to_have_text(study.verdict(), timeout=SLOW)
    assert ranking(page) == letters(study)
    np.testing.assert_allclose(picture(page), expected_picture(study), rtol=1e-4)
    assert not np.allclose(picture(page), before, equal_nan=True)
    assert not errors


def test_the_shares_beside_the_sliders_follow(page, address, study):
    page.set_viewport_size(DESK)
    opened(page, address)
    opened_families(page)
    slider(page, "spacing").fill("60")
    study.move_weight("spacing", 0.6)
    expect(sentence(page)).to_have_text(study.verdict(), timeout=SLOW)
    for factor, share in zip(study.factors, study.weights, strict=True):
        shown = float(slider(page, factor.name).input_value())
        assert shown == pytest.approx(100 * share, abs=0.5)


def test_a_slider_dragged_by_mouse_ends_where_it_was_let_go(page, address):
    page.set_viewport_size(DESK)
    opened(page, address)
    handle = slider(page, "family-place")
    box = handle.bounding_box()
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + 0.3 * box["width"], middle)
    page.mouse.down()
    for step in range(12):
        page.mouse.move(box["x"] + (0.3 + 0.03 * step) * box["width"], middle)
    page.mouse.up()
    value = handle.input_value()
    share = page.locator(".row.family", has=handle).locator(".share")
    expect(share).to_have_text(f"{float(value):.0f} %", timeout=SLOW)
    assert 55 < float(value) < 75


def test_a_tap_on_the_map_judges_that_place(page, address, study):
    page.set_viewport_size(DESK)
    opened(page, address)
    places = study.ground.places
    for peg in (places.cells + 5, places.cells + 11):
        tap(page, float(places.x[peg]), float(places.y[peg]))
        study.place = peg
        expect(sentence(page)).to_have_text(study.verdict(), timeout=SLOW)
        assert ranking(page) == letters(study)


def test_undo_returns_to_what_was(page, address):
    page.set_viewport_size(DESK)
    opened(page, address)
    before = sentence(page).inner_text()
    seen = picture(page)
    slider(page, "family-people").fill("90")
    expect(sentence(page)).not_to_have_text(before, timeout=SLOW)
    page.get_by_role("button", name="Undo").click()
    expect(sentence(page)).to_have_text(before, timeout=SLOW)
    np.testing.assert_allclose(picture(page), seen, rtol=1e-6)
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()


def test_the_address_leads_another_visitor_to_the_same_page(page, address, context):
    page.set_viewport_size(DESK)
    opened(page, address)
    before = sentence(page).inner_text()
    slider(page, "family-people").fill("70")
    expect(sentence(page)).not_to_have_text(before, timeout=SLOW)
    page.wait_for_function("window.location.search.includes('weights=')", timeout=SLOW)
    other = opened(context.new_page(), page.url)
    expect(sentence(other)).to_have_text(sentence(page).inner_text(), timeout=SLOW)
    assert ranking(other) == ranking(page)
    np.testing.assert_allclose(picture(other), picture(page), rtol=1e-3)


def test_no_request_leaves_the_machine(page, address, outside):
    page.set_viewport_size(DESK)
    opened(page, address)
    slider(page, "family-people").fill("70")
    page.get_by_role("button", name="Undo").click()
    page.wait_for_load_state("networkidle")
    assert outside() == []


def test_nothing_is_below_the_fold_on_a_desk(page, address):
    page.set_viewport_size(DESK)
    opened(page, address)
    size = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert size[0] <= size[1]
    for part in (
        ".map",
        ".verdict",
        ".merit",
        ".bars",
        ".tabs",
        ".panel",
        ".tipping",
        ".curve",
        ".cautions",
    ):
        box = page.locator(part).first.bounding_box()
        assert box["y"] >= 0, part
        assert box["y"] + box["height"] <= DESK["height"], part
        assert box["x"] + box["width"] <= DESK["width"], part


def test_on_a_phone_nothing_is_wider_than_the_screen(page, address):
    page.set_viewport_size(PHONE)
    opened(page, address)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    for part in (".map", ".verdict", ".merit", ".bars", ".tipping", ".curve", ".cautions"):
        box = page.locator(part).first.bounding_box()
        assert box["width"] > 200, part
        assert box["x"] + box["width"] <= PHONE["width"], part


def test_on_a_phone_the_weights_wait_in_a_drawer(page, address):
    page.set_viewport_size(PHONE)
    opened(page, address)
    expect(slider(page, "trade-off")).to_be_hidden(timeout=SLOW)
    page.get_by_role("button", name="Open drawer").click()
    expect(slider(page, "trade-off")).to_be_visible(timeout=SLOW)


def test_cautions_stand_on_the_page(page, address):
    opened(page, address)
    expect(page.locator(".cautions")).to_contain_text("ask every network operator")


def test_the_ranking_is_moved_through_by_keyboard_alone(page, address, study):
    page.set_viewport_size(DESK)
    opened(page, address)
    ranked = page.locator(".rows.merit")
    ranked.focus()
    page.keyboard.press("ArrowDown")
    second = letters(study)[1]
    chosen = page.locator(".rows.merit .row[aria-selected=true] .mark")
    expect(chosen).to_have_text(second, timeout=SLOW)
    page.locator(".rows.bars").focus()
    page.keyboard.press("Home")
    worst = page.locator(".rows.bars .row").first
    expect(worst).to_have_attribute("aria-selected", "true", timeout=SLOW)


def test_why_not_and_side_by_side_are_one_tap_away(page, address, study):
    page.set_viewport_size(DESK)
    opened(page, address)
    page.get_by_role("tab", name="Why not there?").click()
    expect(page.locator(".why .large")).to_contain_text(
        why_not(study, study.option, study.place)[0], timeout=SLOW
    )
    page.get_by_role("button", name="its best place").click()
    table = page.locator(".side-by-side .table table").first
    expect(table).to_contain_text("Together", timeout=SLOW)
    assert columns(page, "map beside")["x"]
    expect(page.locator(".why .large")).to_be_hidden()


def test_the_page_is_drawn_in_feet_for_those_who_want_feet(page, address, errors):
    page.set_viewport_size(DESK)
    opened(page, address)
    page.get_by_role("button", name="Settings").click()
    page.get_by_label("Lengths in feet and inches").click()
    expect(page.locator(".rows.bars")).to_contain_text("ft", timeout=SLOW)
    page.wait_for_function("window.Bokeh.documents[0].is_idle === true", timeout=SLOW)
    assert not errors
