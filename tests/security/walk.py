"""A visitor who opens everything, and what stood there."""

from playwright.sync_api import Page, expect

from tests.browser.page import SLOW, settled

# What stands in the page and in all that is drawn into it: elements that our texts would have made
# and attributes that would run, then all words, and whether any script ran.
SEEN = """
() => {
  const struck = [], words = []
  const walk = (root) => {
    for (const one of root.querySelectorAll("*")) {
      const odd = [...one.attributes].some(({name, value}) => {
        const runs = name.startsWith("on") && /struck/.test(value)
        return runs || (/^(href|src|action)$/.test(name) && /^\\s*javascript:|evil/.test(value))
      })
      const script = one.tagName === "SCRIPT" && /^\\s*window\\.struck/.test(one.textContent)
      if (odd || script || one.tagName === "STRUCK-BY") struck.push(one.outerHTML.slice(0, 200))
      if (one.shadowRoot) walk(one.shadowRoot)
      for (const child of one.childNodes) {
        if (child.nodeType === 3 && !/^(SCRIPT|STYLE)$/.test(one.tagName)) words.push(child.data)
      }
    }
  }
  walk(document)
  return [struck, words.join("\\n"), window.struck ?? 0]
}
"""
FIGURES = """
() => [...Bokeh.index.query((view) => view.model.type === "Figure")].map((view) => {
  const box = view.canvas_view.el.getBoundingClientRect()
  return [box.x, box.y, box.width, box.height]
}).filter(([x, y, width, height]) => width > 0 && height > 0)
"""
POINTERS = 4  # along each edge of a plot
UNFOLD = "[role=tab], summary, button.fold[aria-expanded=false]"


def seen(page: Page) -> tuple[list[str], str]:
    """What of a page was made or run by words that are none of ours, and all words that stand."""
    struck, words, ran = page.evaluate(SEEN)
    return [*struck, *["a script ran"] * bool(ran)], words


class Walk:
    """A visitor who opens everything, and what stood there."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.words: dict[str, str] = {}
        self.struck: list[str] = []
        self.dialogs: list[str] = []
        page.on("dialog", lambda dialog: (self.dialogs.append(dialog.message), dialog.dismiss()))
        page.goto(address)
        self._settled()

    def open(self, path: str) -> None:
        """Open a page, all that is folded in it, and point at its plots."""
        self.page.locator(f"#page-{path}").click(timeout=SLOW)
        expect(self.page.locator(f"#page-{path}")).to_have_attribute(
            "aria-current", "page", timeout=SLOW
        )
        self._settled()
        self.look(path)
        self.point(path)
        folded = self.page.locator(UNFOLD)
        for number in range(folded.count()):
            one = folded.nth(number)
            if one.is_visible() and one.is_enabled():
                one.click(timeout=SLOW, force=True)
                self._settled()
                self.look(path)

    def point(self, path: str) -> None:
        """Move the pointer over every plot in view."""
        for x, y, width, height in self.page.evaluate(FIGURES):
            for row in range(1, POINTERS):
                for column in range(1, POINTERS):
                    across, down = width * column / POINTERS, height * row / POINTERS
                    self.page.mouse.move(x + across, y + down)
            self.look(path)

    def look(self, path: str) -> None:
        """Note what stands there."""
        struck, words = seen(self.page)
        self.struck += [f"{path}: {one}" for one in struck]
        self.words[path] = self.words.get(path, "") + words

    def _settled(self) -> None:
        settled(self.page)
        self.page.wait_for_timeout(150)
