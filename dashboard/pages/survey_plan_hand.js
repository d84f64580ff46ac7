// The toolbar over the plan, where a finger snaps to, and what it takes hold of.
// Joined with survey_plan.js into one module.

const STEP = 0.5 // m: what an arrow key moves, and what points snap to
const STILL = 5 // px a finger may move in a tap

function node(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words) made.textContent = words
  parent.append(made)
  return made
}

// The tools: `acts` says what each button does.
function toolbar(bar, board, words, groups, acts) {
  function button(id, label, parent = bar) {
    const made = node("button", "", parent, label)
    made.type = "button"
    made.id = `plan-${id}`
    made.addEventListener("click", () => acts[id]())
    return made
  }
  const label = node("label", "hidden", bar, words.draw)
  label.htmlFor = "plan-tool"
  const select = node("select", "", bar)
  select.id = "plan-tool"
  for (const [title, tools] of groups) {
    const group = title ? node("optgroup", "", select) : select
    if (title) group.label = title
    for (const [value, words_] of tools) node("option", "", group, words_).value = value
  }
  select.addEventListener("change", () => acts.tool(select.value))
  // Over the plan, so that it keeps its size while one draws on it.
  const over = node("div", "over", board)
  const sight = node("div", "over sight", board)
  const made = {
    select,
    finish: button("finish", words.finish, over), cancel: button("cancel", words.cancel, over),
    undo: button("undo", words.undo), redo: button("redo", words.redo), remove: button("delete", words.remove),
    closer: button("closer", "+", sight), farther: button("farther", "\u2212", sight),
    whole: button("whole", words.whole, sight),
  }
  made.closer.setAttribute("aria-label", words.closer)
  made.farther.setAttribute("aria-label", words.farther)
  const snap = node("label", "snap", bar)
  made.snap = node("input", "", snap)
  made.snap.type = "checkbox"
  made.snap.checked = true
  snap.append(words.snap)
  return made
}

// The nearest corner under the finger, else the place itself to `grain` metres. `skip` is the mark
// (or the one corner of it) that is being moved.
function snappedPlace(ground, view, {marks, drawn, skip, corners, grain}) {
  const at = view.pixel(ground)
  if (corners) {
    const all = [...drawn]
    for (const mark of marks) {
      mark.points.forEach((point, n) => {
        const own = skip && mark.id === skip.id && (skip.corner === undefined || skip.corner === n)
        if (!own) all.push(point)
      })
    }
    const close = all.map((one) => [apart(view.pixel(one), at), one])
      .filter(([off]) => off <= FINGER).sort((a, b) => a[0] - b[0])[0]
    if (close) return [...close[1]]
  }
  return ground.map((one) => Number((Math.round(one / grain) * grain).toFixed(3)))
}

// What of a mark lies under a finger: a corner, the middle of a side (a corner to be), or itself.
function grip(pixel, mark, view) {
  const points = mark.points.map((one) => [...one])
  const corner = points.findIndex((point) => apart(view.pixel(point), pixel) <= FINGER + 3)
  if (corner >= 0) return {id: mark.id, corner, points}
  const halves = sides(points, mark.shape === "Polygon").map(([a, b]) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])
  const half = halves.findIndex((point) => apart(view.pixel(point), pixel) <= FINGER)
  if (half >= 0) {
    points.splice(half + 1, 0, halves[half])
    return {id: mark.id, corner: half + 1, points}
  }
  return markAt(pixel, [mark], view, mark.id) ? {id: mark.id, from: view.ground(pixel), points} : null
}

function drawPicture(url, lie, view, parent) {
  if (!url || !lie.length) return
  const [east, north, scale, turn, opacity, width, height] = lie
  const [x, y] = view.pixel([east, north])
  const transform = `translate(${x} ${y}) rotate(${turn}) scale(${scale * view.scale})`
  svg("image", {href: url, width, height, transform, opacity}, parent)
}

// What is being drawn: its corners so far, and the line on to where the mouse is.
function drawPencil(points, line, closed, view, parent) {
  if (!points.length) return
  svg("path", {d: path(line, closed, view), class: "pencil"}, parent)
  for (const point of points) {
    const [cx, cy] = view.pixel(point)
    svg("circle", {cx, cy, r: 5, class: "handle"}, parent)
  }
}

function drawCross(place, view, parent) {
  const [x, y] = view.pixel(place)
  svg("path", {d: `M ${x - 14} ${y} H ${x + 14} M ${x} ${y - 14} V ${y + 14}`, class: "cross"}, parent)
}
