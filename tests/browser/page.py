"""What a person sees and does on the page, for the tests that follow."""

import numpy as np
from playwright.sync_api import Page, expect

SOURCE = """
(name) => {
  for (const model of Bokeh.documents[0]._all_models.values()) {
    if (model.name !== name) continue
    const columns = {}
    for (const [key, column] of Object.entries(model.data)) {
      columns[key] = [...column].map((one) => one?.shape ? [...one] : one)
    }
    return columns
  }
}
"""
SPOT = """
([x, y]) => {
  for (const view of Bokeh.index.query((view) => view.model.type === "Figure")) {
    const named = view.model.renderers.some((one) => one.data_source.name === "map score")
    if (!named) continue
    const box = view.canvas_view.el.getBoundingClientRect()
    const frame = view.frame
    return [box.x + frame.x_scale.compute(x), box.y + frame.y_scale.compute(y)]
  }
}
"""
SLOW = 30_000  # ms; a promise is waited for, however busy the machine


def settled(page: Page) -> Page:
    """The page once nothing is on its way to it."""
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    return page


def opened(page: Page, address: str) -> Page:
    """The page once it is drawn and listening."""
    page.goto(address)
    settled(page)
    expect(sentence(page)).not_to_be_empty(timeout=SLOW)
    return page


def sentence(page: Page):
    """The verdict."""
    return page.locator(".verdict p.said")


def slider(page: Page, name: str):
    """The slider of a factor or family."""
    return page.locator(f"#slider-{name}")


def opened_families(page: Page) -> None:
    """Unfold every family of sliders."""
    folded = page.locator("button.fold[aria-expanded=false]")
    while folded.count():
        folded.first.click()


def columns(page: Page, name: str) -> dict:
    """What a layer of a plot is drawn from."""
    return page.evaluate(SOURCE, name)


def ranking(page: Page) -> list[str]:
    """Letters of the options, best first."""
    return page.locator(".rows.merit .mark").all_inner_texts()


def picture(page: Page) -> np.ndarray:
    """Scores on the map, cell by cell."""
    return np.array(columns(page, "map score")["image"][0], dtype=float)


def tap(page: Page, x: float, y: float) -> None:
    """Tap the map at metres east and north, once it has come to rest as a person would see it."""
    before, spot = None, page.evaluate(SPOT, [x, y])
    while spot != before:
        page.wait_for_timeout(400)
        before, spot = spot, page.evaluate(SPOT, [x, y])
    page.mouse.click(*spot)
