// The plan from above: full-grown crowns to scale, dragged by mouse, finger or keys. Where a tree is
// tried is asked of Python, which answers with what it costs before it is let go.
// Joined with survey_plan_view.js and plan_map_view.js into one module.

const PATIENCE = 2000 // ms after which an unanswered question no longer holds back the next
const STILL = 5 // px a finger may move in a tap
const STEP = 1.5 // m that an arrow key moves a tree, with Shift five times as far
const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]}

export function render({model, el}) {
  const words = model.words
  const root = node("div", "plan", el)
  const board = node("div", "board", root)
  const sheet = svg("svg", {tabindex: 0, role: "application", "aria-label": words.map,
    "aria-describedby": "plan-map-help"}, board)
  node("p", "hidden", root, words.help).id = "plan-map-help"
  const sight = node("div", "sight", board)
  const tip = node("div", "tip", board)
  const said = node("output", "", tip)
  said.setAttribute("aria-live", "polite")
  const acts = node("div", "acts", tip)
  const view = new View()
  const fingers = new Map()
  const state = {drag: null, at: null, asked: 0, waiting: null, own: false, pinch: null, was: 0}

  function button(label, act, parent, main) {
    const made = node("button", main ? "main" : "", parent, label)
    made.type = "button"
    made.addEventListener("click", act)
    return made
  }
  const keep = button(words.keep, () => model.send_msg({act: "keep"}), acts, true)
  keep.id = "plan-keep"
  button(words.back, back, acts).id = "plan-back"
  for (const [label, sign, act] of [
    [words.closer, "+", () => view.zoom(1.4)], [words.farther, "\u2212", () => view.zoom(1 / 1.4)],
    [words.whole, "\u2922", () => view.fit(model.home)],
  ]) button(sign, () => { state.own = sign !== "\u2922"; act(); draw() }, sight).setAttribute("aria-label", label)

  const chosen = () => model.trees.find((tree) => tree.id === model.chosen)

  // ---- questions and answers
  function ask(message) {
    if (state.asked && performance.now() - state.asked < PATIENCE) {
      state.waiting = message
      return
    }
    state.asked = performance.now()
    model.send_msg({act: "try", ...message})
  }

  function answered() {
    state.asked = 0
    const message = state.waiting
    state.waiting = null
    if (message) ask(message)
  }

  function back() {
    Object.assign(state, {drag: null, at: null, waiting: null})
    model.send_msg({act: "back"})
    draw()
  }

  // ---- fingers and mice
  function spot(event) {
    const box = sheet.getBoundingClientRect()
    return [event.clientX - box.x, event.clientY - box.y]
  }

  function treeAt(pixel) {
    const shown = (tree) => (model.trial.id === tree.id ? [model.trial.x, model.trial.y] : [tree.x, tree.y])
    const off = model.trees.map((tree) => [apart(pixel, view.pixel(shown(tree))), tree, shown(tree)])
    const reach = ([far, tree]) => far <= Math.max(FINGER + 3, tree.radii[1] * view.scale)
    return off.filter(reach).sort((a, b) => a[0] - b[0])[0]
  }

  sheet.addEventListener("pointerdown", (event) => {
    const pixel = spot(event)
    fingers.set(event.pointerId, {from: pixel, now: pixel, moved: false})
    if (fingers.size === 2) {
      const [a, b] = [...fingers.values()]
      Object.assign(state, {drag: null, pinch: apart(a.now, b.now)})
      return
    }
    const found = treeAt(pixel)
    state.drag = found ? {id: found[1].id, tree: found[1], start: found[2], from: view.ground(pixel)} : null
    if (found || event.pointerType === "mouse") sheet.setPointerCapture(event.pointerId)
  })

  sheet.addEventListener("pointermove", (event) => {
    const finger = fingers.get(event.pointerId)
    if (!finger) return
    const pixel = spot(event)
    const [dx, dy] = [pixel[0] - finger.now[0], pixel[1] - finger.now[1]]
    finger.now = pixel
    finger.moved ||= apart(finger.from, pixel) > STILL
    if (fingers.size === 2) pinched()
    else if (state.drag && finger.moved) dragged(view.ground(pixel))
    else if (!state.drag && finger.moved && event.pointerType === "mouse") {
      state.own = true
      view.x -= dx / view.scale
      view.y += dy / view.scale
    }
    draw()
  })

  function pinched() {
    const [a, b] = [...fingers.values()]
    const now = apart(a.now, b.now)
    state.own = true
    view.zoom(now / (state.pinch || now), [(a.now[0] + b.now[0]) / 2, (a.now[1] + b.now[1]) / 2])
    state.pinch = now
  }

  function dragged(ground) {
    const {id, start, from} = state.drag
    state.at = {id, x: start[0] + ground[0] - from[0], y: start[1] + ground[1] - from[1]}
    ask(state.at)
  }

  function released(event) {
    const finger = fingers.get(event.pointerId)
    fingers.delete(event.pointerId)
    if (fingers.size) return
    const {drag} = state
    const pinching = state.pinch
    Object.assign(state, {drag: null, pinch: null})
    if (!finger || pinching || event.type === "pointercancel") { state.at = null; draw(); return }
    if (!finger.moved) model.send_msg({act: "choose", id: drag ? drag.id : 0})
    else if (drag && state.at) { state.waiting = null; model.send_msg({act: "try", ...state.at, done: true}) }
    draw()
  }

  sheet.addEventListener("pointerup", released)
  sheet.addEventListener("pointercancel", released)
  sheet.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && document.activeElement !== el && !sheet.matches(":focus")) return
    event.preventDefault()
    state.own = true
    view.zoom(Math.exp(-event.deltaY / 400), spot(event))
    draw()
  }, {passive: false})

  // ---- keys
  function next(step) {
    const ids = model.trees.map((tree) => tree.id)
    if (!ids.length) return
    const at = ids.indexOf(model.chosen)
    model.send_msg({act: "choose", id: ids[at < 0 ? 0 : (at + step + ids.length) % ids.length]})
  }

  function arrow(event) {
    const tree = chosen()
    if (!tree) { next(1); return }
    const from = state.at ?? (model.trial.id === tree.id ? model.trial : tree)
    const [east, north] = ARROWS[event.key].map((one) => one * STEP * (event.shiftKey ? 5 : 1))
    state.at = {id: tree.id, x: from.x + east, y: from.y + north, keys: true}
    ask({...state.at, done: true})
    draw()
  }

  sheet.addEventListener("keydown", (event) => {
    const keys = {
      PageDown: () => next(1), PageUp: () => next(-1), n: () => next(1), p: () => next(-1),
      Escape: back, Enter: () => (model.trial.id ? model.send_msg({act: "keep"}) : next(1)),
      "+": () => { state.own = true; view.zoom(1.4); draw() },
      "-": () => { state.own = true; view.zoom(1 / 1.4); draw() },
    }
    const act = keys[event.key] ?? (ARROWS[event.key] && (() => arrow(event)))
    if (!act || event.ctrlKey || event.metaKey) return
    event.preventDefault()
    act()
  })

  // ---- drawing
  function draw() {
    sheet.replaceChildren()
    drawGrid(view, sheet)
    const {trial} = model
    const id = state.at?.id ?? trial.id
    for (const mark of model.marks) {
      drawMark(mark.style.marker === "peg" ? {...mark, named: false} : mark, view, sheet, false)
    }
    for (const [x, y, x2, y2] of model.ghosts) {
      const [from, to] = [view.pixel([x, y]), view.pixel([x2, y2])]
      svg("path", {d: `M ${from.join(" ")} L ${to.join(" ")}`, class: "went"}, sheet)
      svg("circle", {cx: from[0], cy: from[1], r: 10, class: "was"}, sheet)
    }
    for (const [x, y, x2, y2] of model.links) {
      svg("path", {d: `M ${view.pixel([x, y]).join(" ")} L ${view.pixel([x2, y2]).join(" ")}`, class: "link"}, sheet)
    }
    for (const tree of model.trees) {
      const look = [tree.id === model.chosen ? "chosen" : "", tree.id === id ? "left" : ""].join(" ")
      drawTree(tree, view, sheet, look)
    }
    for (const [x, y] of model.blocked) {
      const [px, py] = view.pixel([x, y])
      svg("path", {d: `M ${px - 8} ${py - 8} l 16 16 M ${px + 8} ${py - 8} l -16 16`, class: "blocked under"}, sheet)
      svg("path", {d: `M ${px - 8} ${py - 8} l 16 16 M ${px + 8} ${py - 8} l -16 16`, class: "blocked"}, sheet)
    }
    const taken = drawNames(model.trees, view, sheet)
    drawPegs(model.marks.filter((mark) => mark.style.marker === "peg"), view, sheet, taken)
    const moved = model.trees.find((tree) => tree.id === id)
    if (moved) {
      const at = state.at && state.drag ? state.at : trial.id ? trial : state.at
      const from = view.pixel([moved.x, moved.y]), to = view.pixel([at.x, at.y])
      svg("path", {d: `M ${from.join(" ")} L ${to.join(" ")}`, class: "pull"}, sheet)
      drawTree({...moved, x: at.x, y: at.y}, view, sheet, `tried ${trial.tone ?? ""}`)
      tip.classList.toggle("right", to[0] < 330 && to[1] < 200 && view.width > 660)
    }
    drawBar(view, sheet, model.feet, words.north)
  }

  function show() {
    const {trial} = model
    if (!trial.id && !state.drag) state.at = null
    if (trial.id && !state.drag) state.at = null
    tip.hidden = !trial.id
    tip.className = `tip ${trial.tone ?? ""} ${tip.classList.contains("right") ? "right" : ""}`
    said.replaceChildren()
    for (const [n, line] of (trial.words ?? []).entries()) node(n ? "span" : "strong", "", said, line)
    acts.hidden = !trial.done
    keep.disabled = Boolean(trial.off)
    draw()
  }

  new ResizeObserver(() => {
    const box = board.getBoundingClientRect()
    if (box.width < 60 || box.height < 60) return // not laid out yet
    Object.assign(view, {width: box.width, height: box.height})
    sheet.setAttribute("viewBox", `0 0 ${box.width} ${box.height}`)
    if (!state.own) view.fit(model.home) // else as the visitor has set it
    draw()
  }).observe(board)
  model.on("answer", answered)
  for (const name of ["trees", "chosen", "links", "ghosts", "blocked", "trial", "marks"]) model.on(name, show)
  show()
}
