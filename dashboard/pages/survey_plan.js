// The plan to pencil on: pan, zoom, tap, drag and keys. It shows what it is told and tells what was
// done; Python holds the truth. Lengths, bearings and areas come back in `said`.

const PATIENCE = 2000 // ms after which an unanswered question no longer holds back the next
const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]}

export function render({model, el}) {
  const words = model.words
  const root = node("div", "plan", el)
  const bar = node("div", "bar", root)
  bar.setAttribute("role", "group")
  bar.setAttribute("aria-label", words.tools)
  const board = node("div", "board", root)
  const sheet = svg("svg", {tabindex: 0, role: "application", "aria-label": words.plan,
    "aria-describedby": "plan-help"}, board)
  const help = node("p", "hidden", root, words.help)
  help.id = "plan-help"
  const said = node("output", "said", root)
  said.setAttribute("aria-live", "polite")
  const view = new View()
  const fingers = new Map()
  const state = {points: [], hover: null, drag: null, cursor: null, corner: -1, nudged: null,
    asked: 0, waiting: null, fitted: false, pinch: null}

  const tool = toolbar(bar, board, words, model.tools, {
    tool: (value) => model.send_msg({act: "tool", tool: value}),
    finish: () => finish(), cancel: () => cancel(), delete: () => remove(),
    undo: () => model.send_msg({act: "undo"}), redo: () => model.send_msg({act: "redo"}),
    closer: () => { view.zoom(1.4); draw() }, farther: () => { view.zoom(1 / 1.4); draw() },
    whole: () => { view.fit(model.home); draw() },
  })
  const marks = () => model.marks
  const chosen = () => marks().find((mark) => mark.id === model.chosen)
  const shape = () => (model.tool === "measure" ? "LineString" : model.shape)

  // ---- questions and answers
  function ask(message) {
    if (state.asked && performance.now() - state.asked < PATIENCE) {
      state.waiting = message
      return
    }
    state.asked = performance.now()
    model.send_msg({act: "measure", ...message})
  }

  function answered() {
    state.asked = 0
    const message = state.waiting
    state.waiting = null
    if (message) ask(message)
  }

  // ---- places
  function snapped(ground, skip = null) {
    const corners = tool.snap.checked
    const grain = corners && model.tool !== "pick" ? STEP : 0.01
    return snappedPlace(ground, view, {marks: marks(), drawn: state.points, skip, corners, grain})
  }

  function add(point) {
    const last = state.points[state.points.length - 1]
    if (last && apart(view.pixel(last), view.pixel(point)) < 3) return finish()
    if (state.points.length > 2 && shape() === "Polygon" && apart(point, state.points[0]) < 1e-6) return finish()
    state.points.push(point)
    if (shape() === "Point") return finish()
    ask({points: state.points, closed: shape() === "Polygon"})
    return show()
  }

  function finish() {
    const least = {Point: 1, LineString: 2, Polygon: 3}[shape()]
    if (model.tool === "measure") return cancel()
    if (state.points.length < least) return undefined
    model.send_msg({act: "place", tool: model.tool, points: state.points})
    state.points = []
    return show()
  }

  function cancel() {
    const drawing = state.points.length > 0
    Object.assign(state, {points: [], hover: null, drag: null, corner: -1})
    if (!drawing) model.send_msg({act: "tool", tool: ""})
    show()
  }

  function remove() {
    const mark = chosen()
    if (!mark) return
    const least = {Point: 1, LineString: 2, Polygon: 3}[mark.shape]
    if (state.corner >= 0 && mark.points.length > least) {
      const points = mark.points.filter((_, n) => n !== state.corner)
      state.corner = -1
      model.send_msg({act: "reshape", id: mark.id, points})
    } else model.send_msg({act: "remove", id: mark.id})
  }

  // ---- fingers and mice
  function spot(event) {
    const box = sheet.getBoundingClientRect()
    return [event.clientX - box.x, event.clientY - box.y]
  }

  function dragged(drag, pixel) {
    const ground = view.ground(pixel)
    if (drag.corner !== undefined) {
      const points = drag.points.map((one) => [...one])
      points[drag.corner] = snapped(ground, {id: drag.id, corner: drag.corner})
      return points
    }
    const grain = tool.snap.checked ? STEP : 0.01
    const move = [0, 1].map((n) => Math.round((ground[n] - drag.from[n]) / grain) * grain)
    return drag.points.map((one) => one.map((c, n) => Number((c + move[n]).toFixed(4))))
  }

  sheet.addEventListener("pointerdown", (event) => {
    sheet.setPointerCapture(event.pointerId)
    const pixel = spot(event)
    fingers.set(event.pointerId, {from: pixel, now: pixel, moved: false})
    if (fingers.size === 2) {
      const [a, b] = [...fingers.values()]
      Object.assign(state, {drag: null, pinch: apart(a.now, b.now)})
    } else if (fingers.size === 1) state.drag = model.tool || !chosen() ? null : grip(pixel, chosen(), view)
  })

  sheet.addEventListener("pointermove", (event) => {
    const pixel = spot(event), finger = fingers.get(event.pointerId)
    if (!finger) {
      if (model.tool && event.pointerType === "mouse") hovered(pixel)
      return
    }
    const [dx, dy] = [pixel[0] - finger.now[0], pixel[1] - finger.now[1]]
    finger.now = pixel
    finger.moved ||= apart(finger.from, pixel) > STILL
    if (fingers.size === 2) pinched()
    else if (state.drag && finger.moved) {
      state.drag.now = dragged(state.drag, pixel)
      ask({points: state.drag.now, closed: chosen()?.shape === "Polygon", id: state.drag.id})
    } else if (!state.drag && finger.moved) {
      view.x -= dx / view.scale
      view.y += dy / view.scale
    }
    draw()
  })

  function pinched() {
    const [a, b] = [...fingers.values()]
    const now = apart(a.now, b.now)
    view.zoom(now / (state.pinch || now), [(a.now[0] + b.now[0]) / 2, (a.now[1] + b.now[1]) / 2])
    state.pinch = now
  }

  function hovered(pixel) {
    state.hover = snapped(view.ground(pixel))
    if (state.points.length) ask({points: [...state.points, state.hover], closed: shape() === "Polygon"})
    draw()
  }

  function released(event) {
    const finger = fingers.get(event.pointerId)
    fingers.delete(event.pointerId)
    if (!finger || fingers.size || event.type === "pointercancel" || state.pinch) {
      if (!fingers.size) Object.assign(state, {pinch: null, drag: null})
      return draw()
    }
    const drag = state.drag
    state.drag = null
    if (finger.moved) {
      if (drag?.now) send(drag.id, drag.now)
      return draw()
    }
    return tapped(finger.now, drag)
  }

  // Shown where it was let go until the answer comes, so that it does not jump back.
  function send(id, points) {
    state.drag = {id, now: points, sent: true}
    model.send_msg({act: "reshape", id, points})
  }

  function tapped(pixel, drag) {
    if (model.tool) return add(snapped(view.ground(pixel)))
    const corner = drag?.corner ?? -1
    if (drag && corner >= 0 && chosen().shape !== "Point" && drag.points.length === chosen().points.length) {
      state.corner = state.corner === corner ? -1 : corner
      return show()
    }
    state.corner = -1
    return model.send_msg({act: "choose", id: markAt(pixel, marks(), view, 0)?.id ?? 0})
  }

  sheet.addEventListener("pointerup", released)
  sheet.addEventListener("pointercancel", released)
  sheet.addEventListener("wheel", (event) => {
    event.preventDefault()
    view.zoom(Math.exp(-event.deltaY / 400), spot(event))
    draw()
  }, {passive: false})

  // ---- keys
  sheet.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey) {
      const step = {z: event.shiftKey ? "redo" : "undo", y: "redo"}[event.key.toLowerCase()]
      if (step) { event.preventDefault(); model.send_msg({act: step}) }
      return
    }
    const act = KEYS[event.key] ?? (ARROWS[event.key] && (() => arrow(event)))
    if (!act) return
    event.preventDefault()
    act()
  })
  const KEYS = {
    Escape: cancel, Delete: remove,
    Backspace: () => { model.tool ? state.points.pop() : remove(); show() },
    "+": () => { view.zoom(1.4); draw() }, "-": () => { view.zoom(1 / 1.4); draw() },
    Enter: () => {
      state.cursor ??= snapped([view.x, view.y])
      if (model.tool) add([...state.cursor])
      else model.send_msg({act: "choose", id: markAt(view.pixel(state.cursor), marks(), view, 0)?.id ?? 0})
    },
  }

  function arrow(event) {
    const step = ARROWS[event.key].map((one) => one * STEP * (event.shiftKey ? 10 : 1))
    const mark = chosen()
    if (!model.tool && mark) {
      const points = state.nudged?.points ?? mark.points
      const shifted = points.map((one, n) => state.corner >= 0 && n !== state.corner ? one
        : one.map((c, axis) => Number((c + step[axis]).toFixed(4))))
      state.nudged = {id: mark.id, points: shifted}
      state.drag = {id: mark.id, now: shifted}
      ask({points: shifted, closed: mark.shape === "Polygon", id: mark.id})
    } else {
      const from = state.cursor ?? snapped([view.x, view.y])
      state.cursor = from.map((one, axis) => Number((one + step[axis]).toFixed(3)))
      ask({points: [...state.points, state.cursor], closed: shape() === "Polygon", at: state.cursor})
      const [px, py] = view.pixel(state.cursor)
      if (px < 20 || py < 20 || px > view.width - 20 || py > view.height - 20) [view.x, view.y] = state.cursor
    }
    draw()
  }

  sheet.addEventListener("keyup", (event) => {
    if (!ARROWS[event.key] || !state.nudged) return
    const {id, points} = state.nudged
    state.nudged = null
    send(id, points)
  })
  sheet.addEventListener("blur", () => { state.cursor = null; draw() })

  // ---- drawing
  function draw() {
    sheet.replaceChildren()
    drawGrid(view, sheet)
    drawPicture(model.url, model.lie, view, sheet)
    for (const mark of marks()) {
      const now = state.drag?.now && mark.id === state.drag.id ? {...mark, points: state.drag.now, anchor: state.drag.now[0]} : mark
      drawMark(now, view, sheet, mark.id === model.chosen)
      if (mark.id === model.chosen && mark.shape !== "Point" && !model.tool) drawHandles(now, view, sheet, state.corner)
    }
    const line = model.tool && shape() !== "Point" && state.hover ? [...state.points, state.hover] : state.points
    drawPencil(state.points, line, shape() === "Polygon", view, sheet)
    if (state.cursor) drawCross(state.cursor, view, sheet)
    drawBar(view, sheet, model.feet, words.north)
  }

  function show() {
    const {select} = tool
    if (select.value !== model.tool) select.value = model.tool
    const drawing = Boolean(model.tool)
    tool.finish.hidden = !drawing || shape() === "Point"
    tool.cancel.hidden = !drawing
    tool.finish.disabled = state.points.length < (shape() === "Polygon" ? 3 : 2)
    tool.undo.disabled = !model.steps[0]
    tool.redo.disabled = !model.steps[1]
    tool.remove.disabled = !chosen() || drawing
    tool.remove.textContent = state.corner >= 0 ? words.corner : words.remove
    said.textContent = model.said
    sheet.classList.toggle("drawing", drawing)
    draw()
  }

  new ResizeObserver(() => {
    const box = board.getBoundingClientRect()
    if (!box.width || !box.height) return
    Object.assign(view, {width: box.width, height: box.height})
    sheet.setAttribute("viewBox", `0 0 ${box.width} ${box.height}`)
    if (!state.fitted) view.fit(model.home)
    state.fitted = true
    draw()
  }).observe(board)
  model.on("refit", () => { view.fit(model.home); draw() })
  model.on("answer", answered)
  model.on("tool", () => { Object.assign(state, {points: [], hover: null, corner: -1}); show() })
  model.on("chosen", () => { state.corner = -1; show() })
  model.on("marks", () => { if (state.drag?.sent) state.drag = null; show() })
  for (const name of ["said", "steps", "url", "lie", "shape"]) model.on(name, show)
  show()
}
