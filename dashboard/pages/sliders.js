// Sliders that wait for their answer: while one move is being computed the latest one is kept,
// so that a drag never queues work. Everything shown comes from `rows`; nothing is computed here.

const PATIENCE = 3000 // ms after which an unanswered move no longer holds back the next

function element(tag, name, parent) {
  const made = document.createElement(tag)
  made.className = name
  parent.append(made)
  return made
}

function build(row, parent, send) {
  const root = element("div", `row ${row.kind}`, parent)
  const head = element("div", "head", root)
  const fold = row.kind === "family" ? element("button", "fold", head) : null
  const label = element("label", "label", head)
  const share = element("output", "share", head)
  const question = element("div", "question", root)
  const rail = element("div", "rail", root)
  const input = element("input", "input", rail)
  const stay = element("div", "stay", rail)
  const ends = element("div", "ends", root)
  const left = element("span", "", ends)
  const right = element("span", "", ends)
  const note = element("div", "note", root)
  input.type = "range"
  input.id = `slider-${row.id.replaceAll(/[^\w-]/g, "-")}`
  label.htmlFor = input.id
  const part = {root, fold, label, share, question, input, stay, left, right, note, held: false, released: false}
  input.addEventListener("input", () => {
    part.held = true
    part.released = false
    send({id: row.id, value: Number(input.value), settled: false})
  })
  input.addEventListener("change", () => {
    part.released = true
    send({id: row.id, value: Number(input.value), settled: true})
  })
  return part
}

function text(node, words) {
  if (node.textContent !== words) node.textContent = words
  node.hidden = words === ""
}

function attribute(node, name, value) {
  if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value)
}

function show(part, row) {
  const {input, stay} = part
  const span = row.high - row.low
  // An attribute written anew, even to what it was, makes the browser drop a drag.
  attribute(input, "min", row.low)
  attribute(input, "max", row.high)
  attribute(input, "step", row.step)
  if (!part.held && Number(input.value) !== row.value) input.value = row.value
  attribute(input, "aria-label", row.label)
  attribute(input, "aria-valuetext", row.share)
  text(part.label, row.label)
  text(part.share, row.share)
  text(part.question, row.question)
  text(part.left, row.ends[0])
  text(part.right, row.ends[1])
  text(part.note, row.note)
  part.root.style.setProperty("--tone", row.tone)
  part.root.classList.toggle("touched", row.touched)
  part.root.classList.toggle("quiet", row.quiet)
  part.root.title = row.hint
  stay.hidden = row.stay.length === 0
  if (row.stay.length) {
    stay.style.setProperty("--from", (row.stay[0] - row.low) / span)
    stay.style.setProperty("--to", (row.stay[1] - row.low) / span)
  }
}

export function render({model, el}) {
  const root = element("div", "rows", el)
  let parts = {}
  let waiting = null
  let since = 0

  function send(message) {
    const busy = since > 0 && performance.now() - since < PATIENCE
    if (busy) {
      waiting = message
      return
    }
    since = performance.now()
    model.send_msg(message)
  }

  function answered() {
    since = 0
    if (waiting) {
      const message = waiting
      waiting = null
      send(message)
      return
    }
    // Answers to earlier moves must not pull back a slider that has just been let go.
    for (const part of Object.values(parts).filter((one) => one.released)) {
      part.held = part.released = false
    }
    update()
  }

  function toggle(id) {
    const open = new Set(model.opened)
    open.has(id) ? open.delete(id) : open.add(id)
    model.opened = [...open]
  }

  function folds() {
    for (const row of model.rows) {
      const part = parts[row.id]
      if (!part) continue
      if (row.within) part.root.hidden = !model.opened.includes(row.within)
      if (part.fold) {
        const open = model.opened.includes(row.id)
        part.fold.textContent = open ? "\u25be" : "\u25b8"
        part.fold.setAttribute("aria-expanded", open)
        part.fold.setAttribute("aria-label", `${open ? "Fold" : "Open"} ${row.label}`)
      }
    }
  }

  function update() {
    const ids = model.rows.map((row) => row.id)
    if (ids.join() !== Object.keys(parts).join()) {
      root.replaceChildren()
      parts = {}
      for (const row of model.rows) {
        parts[row.id] = build(row, root, send)
        parts[row.id].fold?.addEventListener("click", () => toggle(row.id))
      }
    }
    for (const row of model.rows) show(parts[row.id], row)
    folds()
  }

  model.on("rows", update)
  model.on("opened", folds)
  model.on("answer", answered)
  update()
}
