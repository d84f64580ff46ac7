// Rows in an order, one of them chosen: a list that is read and moved through by keyboard as well
// as by eye. Everything shown comes from the model; a tap or a key only asks.

const SVG = "http://www.w3.org/2000/svg"
const PITCH = 10, HEIGHT = 10 // of a column of parts, in the picture's own units
const LEFT = 0.28, RIGHT = 0.6 // of a column, either side of where its bars begin

function element(tag, name, parent) {
  const made = document.createElement(tag)
  made.className = name
  parent.append(made)
  return made
}

function text(node, words) {
  if (node.textContent !== words) node.textContent = words
}

function attribute(node, name, value) {
  if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value)
}

function box(start, length) {
  return `M${start.toFixed(2)} 1h${length.toFixed(2)}v${HEIGHT - 2}h${(-length).toFixed(2)}z`
}

function build(number, parent) {
  const root = element("div", "row", parent)
  root.id = `row-${number}`
  root.setAttribute("role", "option")
  const part = {root}
  for (const name of ["mark", "label", "rail", "figure", "note"]) part[name] = element("span", name, root)
  part.bar = element("span", "bar", part.rail)
  part.columns = document.createElementNS(SVG, "svg")
  part.columns.setAttribute("preserveAspectRatio", "none")
  part.columns.setAttribute("aria-hidden", "true")
  part.columns.setAttribute("class", "columns")
  root.append(part.columns)
  part.paths = new Map()
  return part
}

function path(part, tone) {
  if (!part.paths.has(tone)) {
    const made = document.createElementNS(SVG, "path")
    made.setAttribute("class", tone === "outline" ? "outline" : "part")
    if (tone !== "outline") made.setAttribute("fill", tone)
    part.columns.append(made)
    part.paths.set(tone, made)
  }
  return part.paths.get(tone)
}

// What a weak point costs can be more than its weight: then its bar runs, dark, to the left.
function drawColumns(part, row, model) {
  const {heads, weights, top} = model
  part.columns.style.display = row.parts.length ? "" : "none"
  if (!row.parts.length) return
  attribute(part.columns, "viewBox", `0 0 ${PITCH * heads.length} ${HEIGHT}`)
  const scale = RIGHT * PITCH / top
  const drawn = new Map([["outline", ""]])
  row.parts.forEach((value, number) => {
    const start = PITCH * (number + LEFT)
    const length = Math.max(scale * value, -LEFT * PITCH)
    const tone = value < 0 ? model.dark : heads[number].tone
    drawn.set("outline", drawn.get("outline") + box(start, scale * weights[number]))
    drawn.set(tone, (drawn.get(tone) ?? "") + box(Math.min(start, start + length), Math.abs(length)))
  })
  for (const tone of part.paths.keys()) if (!drawn.has(tone)) drawn.set(tone, "")
  for (const [tone, d] of drawn) attribute(path(part, tone), "d", d)
}

function show(part, row, model, before) {
  text(part.mark, row.mark)
  text(part.label, row.label)
  text(part.figure, row.figure)
  text(part.note, row.note)
  attribute(part.root, "data-id", row.id)
  attribute(part.root, "aria-selected", row.chosen)
  part.root.classList.toggle("leads", row.leads)
  part.root.classList.toggle("out", row.out)
  part.root.classList.toggle("unknown", row.share === null)
  attribute(part.root, "title", row.note || row.label)
  attribute(part.root, "data-line", row.out && !before?.out ? model.line : "")
  part.bar.style.width = `${100 * (row.share ?? 0)}%`
  if (part.tone !== row.tone) part.root.style.setProperty("--tone", part.tone = row.tone)
  drawColumns(part, row, model)
}

export function render({model, el}) {
  const heads = element("div", "heads", el)
  heads.setAttribute("aria-hidden", "true")
  const list = element("div", `rows ${model.kind}`, el)
  list.setAttribute("role", "listbox")
  list.tabIndex = 0
  let parts = []

  function drawHeads() {
    heads.replaceChildren()
    heads.hidden = model.heads.length === 0
    heads.dataset.unit = model.unit
    const row = element("div", "slanted", heads)
    model.heads.forEach((head, number) => {
      const first = model.heads[number - 1]?.family !== head.family
      const words = element("span", first ? "head first" : "head", row)
      words.style.left = `${100 * (number + LEFT) / model.heads.length}%`
      words.dataset.family = head.family
      words.dataset.label = head.label
    })
  }

  function update() {
    attribute(list, "aria-label", model.label)
    if (parts.length !== model.rows.length) {
      list.replaceChildren()
      parts = model.rows.map((_row, number) => build(number, list))
    }
    model.rows.forEach((row, number) => show(parts[number], row, model, model.rows[number - 1]))
    const chosen = model.rows.findIndex((row) => row.chosen)
    if (chosen >= 0) attribute(list, "aria-activedescendant", `row-${chosen}`)
    else list.removeAttribute("aria-activedescendant")
  }

  function ask(number) {
    const row = model.rows[Math.min(Math.max(number, 0), model.rows.length - 1)]
    if (row) model.send_msg({row: row.id})
  }

  list.addEventListener("click", (event) => {
    const columns = event.target.closest(".columns")
    const root = event.target.closest(".row")
    if (!root) return
    if (columns) {
      const {left, width} = columns.getBoundingClientRect()
      const column = Math.floor((event.clientX - left) / width * model.heads.length)
      model.send_msg({row: root.dataset.id, column})
    } else model.send_msg({row: root.dataset.id})
  })
  list.addEventListener("keydown", (event) => {
    const now = model.rows.findIndex((row) => row.chosen)
    const to = {ArrowDown: now + 1, ArrowUp: now - 1, Home: 0, End: model.rows.length - 1}[event.key]
    if (to === undefined) return
    event.preventDefault()
    ask(to)
  })

  // What changes together arrives piece by piece: it is drawn once, when all of it is there.
  let due = false
  function soon() {
    if (due) return
    due = true
    queueMicrotask(() => { due = false; update() })
  }

  for (const name of ["rows", "weights", "top"]) model.on(name, soon)
  model.on("heads", () => { drawHeads(); soon() })
  drawHeads()
  update()
}
