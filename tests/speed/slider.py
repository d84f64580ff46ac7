"""From a slider's event to every linked plot drawn, in a real browser, against one bare image."""

import subprocess
import sys
from statistics import median, quantiles

from tests.ports import free_port, wait_for
from tests.system_browser import FLAGS, chromium

from .comparison import Comparison

ROUNDS, EVENTS = 4, 15
PATIENCE = 60.0  # s until the server must listen
TARGET = 1.6
LIMIT = 400.0  # ms, 95th percentile

PAGES = ("bare", "ready-made", "weigh")

# A plot is dirty from the change of one of its sources until it has painted. All changes of a
# move arrive together with the answer to it, so the page is drawn once that has come and no
# plot is dirty; what is taken is the time of the frame after that.
WATCH = """
() => {
  const plots = [...Bokeh.index.query((view) => view.model.type === "Figure")]
  const models = [...Bokeh.documents[0]._all_models.values()]
  const watch = {dirty: new Set(), answered: false, done: null}
  const check = () => {
    if (watch.done && watch.answered && watch.dirty.size === 0) {
      const done = watch.done
      watch.done = null
      requestAnimationFrame(() => done(performance.now()))
    }
  }
  for (const plot of plots) {
    for (const renderer of plot.model.renderers) {
      renderer.data_source.properties.data.change.connect(() => watch.dirty.add(plot))
    }
    const paint = plot.paint.bind(plot)
    plot.paint = (...given) => { paint(...given); watch.dirty.delete(plot); check() }
  }
  const ours = models.filter((one) => one.class_name === "Sliders")
  for (const model of ours) {
    model.data.properties.answer.change.connect(() => { watch.answered = true; setTimeout(check) })
  }
  watch.slider = models.find((one) => one.type.endsWith("Slider"))
  if (!ours.length) {
    for (const plot of plots) {
      plot.model.renderers[0].data_source.properties.data.change.connect(() => {
        watch.answered = true
      })
    }
  }
  window.watch = watch
  return plots.length
}
"""
MOVE = """
([id, value]) => new Promise((done, fail) => {
  const find = (root) => {
    for (const node of root.querySelectorAll("*")) {
      if (node.id === id) return node
      const below = node.shadowRoot && find(node.shadowRoot)
      if (below) return below
    }
  }
  const input = watch.slider ?? find(document)
  watch.answered = false
  setTimeout(() => fail(new Error("nothing was drawn within 5 s")), 5000)
  requestAnimationFrame(() => {
    const start = performance.now()
    watch.done = (end) => done(end - start)
    input.value = value
    input.dispatchEvent?.(new Event("input"))
  })
})
"""


def laps(browser: object, port: int) -> dict[str, list[float]]:
    """Time of every move [ms] on both pages, in turns."""
    pages = {}
    for name in PAGES:
        pages[name] = browser.new_page(viewport={"width": 1440, "height": 900})
        pages[name].goto(f"http://localhost:{port}/{name}")
        pages[name].wait_for_function("window.Bokeh?.documents[0]?.is_idle")
        pages[name].evaluate(WATCH)
    taken: dict[str, list[float]] = {name: [] for name in pages}
    for turn in range(ROUNDS + 1):
        for name, page in pages.items():
            page.bring_to_front()
            for event in range(EVENTS):
                share = 10 + (7 * event + turn) % 50
                lap = page.evaluate(MOVE, ["slider-spacing", share])
                page.wait_for_timeout(30)
                if turn:
                    taken[name].append(lap)
    return taken


def comparisons() -> list[Comparison]:
    """Median and 95th percentile of the Weigh page against the bare image."""
    path = chromium()
    if path is None:
        sys.stderr.write("slider: no Chromium here, so it was not timed\n")
        return []
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - absent where no browser is

    port = free_port()
    command = [sys.executable, "-m", "tests.speed.slider_page", str(port)]
    server = subprocess.Popen(command)  # noqa: S603 - our own command
    try:
        wait_for(port, PATIENCE)
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=path, args=list(FLAGS))
            taken = laps(browser, port)
            browser.close()
    finally:
        server.terminate()
        server.wait(10)
    late = {name: quantiles(times, n=20)[-1] for name, times in taken.items()}
    return [
        Comparison(
            "slider moved, all plots drawn", "one bare image",
            median(taken["weigh"]), median(taken["bare"]), TARGET,
        ),
        Comparison(
            "the same", "one bare image on Panel's slider",
            median(taken["weigh"]), median(taken["ready-made"]), TARGET,
        ),
        Comparison(
            "the same, 95th percentile", f"limit of {LIMIT:.0f} ms", late["weigh"], LIMIT, 1.0
        ),
    ]  # fmt: skip
