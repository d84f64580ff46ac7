// One card a tree: what was expected and seen, what it means, what to do; more on demand. Texts are
// only ever set as text. What is unfolded and the focus outlive new cards.

function put(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words !== undefined) made.textContent = words
  parent.append(made)
  return made
}

function table(card, parent, words) {
  const made = put("table", "", parent)
  put("caption", "quiet-only", made, card.title)
  const head = put("tr", "", put("thead", "", made))
  for (const one of words.columns) put("th", "", head, one).scope = "col"
  const body = put("tbody", "", made)
  for (const row of card.rows) {
    const line = put("tr", row.bad ? "bad" : "", body)
    put("th", "", line, row.cells[0]).scope = "row"
    row.cells.slice(1).forEach((cell, n) => { put("td", "", line, cell).dataset.label = words.columns[n + 1] })
  }
}

function picture(one, parent) {
  const figure = put("div", "picture", parent)
  figure.setAttribute("role", "img")
  figure.setAttribute("aria-label", one.said)
  put("p", "thing", figure, one.label)
  one.rows.forEach((row, n) => {
    const line = put("div", `bar bar-${n}`, figure)
    put("span", "who", line, row.label)
    const track = put("span", "track", line)
    const bar = put("span", "span", track)
    bar.style.left = `${row.from}%`
    bar.style.width = `${Math.max(row.to - row.from, 0)}%`
    put("span", "dot", track).style.left = `${row.at}%`
    put("span", "told", line, row.told)
  })
  const ends = put("div", "bar ends", figure)
  put("span", "who", ends)
  const track = put("span", "scale", ends)
  put("span", "", track, one.low)
  put("span", "", track, one.high)
  put("span", "told", ends)
}

export function render({model, el}) {
  const root = put("div", "cards", el)

  function card(one) {
    const made = put("article", `card ${one.advice}`, root)
    made.setAttribute("aria-labelledby", `tree-${one.key}`)
    const head = put("div", "head", made)
    put("h2", "", head, one.title).id = `tree-${one.key}`
    put("p", "where", head, one.where)
    const advice = put("p", "advice", head)
    put("span", "sign", advice, one.sign).setAttribute("aria-hidden", "true")
    put("strong", "", advice, one.told)
    for (const line of one.lines) put("p", "line", head, line)
    const middle = put("div", "seen", made)
    if (one.rows.length) table(one, middle, model.words)
    else put("p", "where", middle, model.words.nothing)
    put("p", "reason", made, one.reason)
    const more = put("div", "more", made)
    const fold = put("details", "", more)
    fold.dataset.key = one.key
    put("summary", "", fold, model.words.more).id = `more-${one.key}`
    if (one.pictures.length) {
      const box = put("div", "pictures", fold)
      for (const each of one.pictures) picture(each, box)
      put("p", "where", fold, model.words.bars)
    }
    if (one.notes.length) {
      put("h3", "", fold, model.words.notes)
      const list = put("ul", "", fold)
      for (const each of one.notes) put("li", "", list, each)
    }
    const row = put("div", "buttons", more)
    for (const each of one.buttons) {
      const button = put("button", "", row, each.label)
      button.type = "button"
      button.id = `${each.id}-${one.key}`
      button.addEventListener("click", () => model.send_msg({id: each.id, key: one.key}))
    }
  }

  function update() {
    const open = [...root.querySelectorAll("details[open]")].map((one) => one.dataset.key)
    const active = root.getRootNode().activeElement
    const at = active && root.contains(active) ? active.id : ""
    root.replaceChildren()
    model.cards.forEach(card)
    for (const one of root.querySelectorAll("details")) one.open = open.includes(one.dataset.key)
    if (at) root.querySelector(`#${CSS.escape(at)}`)?.focus()
  }

  model.on("cards", update)
  update()
}
