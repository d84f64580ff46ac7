// How the plan turns metres into pixels, what is under a finger, and how marks are drawn.
// Joined with survey_plan.js into one module.

const SVG = "http://www.w3.org/2000/svg"
const FINGER = window.matchMedia("(pointer: coarse)").matches ? 20 : 11 // px
const FOOT = 0.3048 // m

function svg(tag, attributes, parent, words) {
  const made = document.createElementNS(SVG, tag)
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== undefined && value !== "") made.setAttribute(name, value)
  }
  if (words !== undefined) made.textContent = words
  parent?.append(made)
  return made
}

class View {
  constructor() { Object.assign(this, {x: 0, y: 0, scale: 8, width: 600, height: 400}) }
  pixel([x, y]) {
    return [this.width / 2 + (x - this.x) * this.scale, this.height / 2 - (y - this.y) * this.scale]
  }
  ground([x, y]) {
    return [this.x + (x - this.width / 2) / this.scale, this.y - (y - this.height / 2) / this.scale]
  }
  fit([west, south, east, north]) {
    const wide = Math.max(east - west, 4), high = Math.max(north - south, 4)
    this.x = (west + east) / 2
    this.y = (south + north) / 2
    this.scale = Math.min((this.width - 40) / wide, (this.height - 40) / high)
  }
  zoom(factor, pixel = [this.width / 2, this.height / 2]) {
    const kept = this.ground(pixel)
    this.scale = Math.min(Math.max(this.scale * factor, 0.2), 400)
    const now = this.ground(pixel)
    this.x += kept[0] - now[0]
    this.y += kept[1] - now[1]
  }
}

const apart = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1])

function fromSegment(p, a, b) {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const span = dx * dx + dy * dy
  const t = span ? Math.min(Math.max(((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / span, 0), 1) : 0
  return apart(p, [a[0] + t * dx, a[1] + t * dy])
}

function sides(points, closed) {
  const ends = closed ? [...points.slice(1), points[0]] : points.slice(1)
  return ends.map((end, n) => [points[n], end])
}

function isInside(p, ring) {
  let inside = false
  for (const [a, b] of sides(ring, true)) {
    const crosses = a[1] > p[1] !== b[1] > p[1]
    if (crosses && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside
  }
  return inside
}

// The mark under a pixel: points first, then lines and edges, then the smallest area.
function markAt(pixel, marks, view, chosen) {
  const found = []
  for (const mark of marks) {
    if (!mark.points.length) continue
    const points = mark.points.map((point) => view.pixel(point))
    const own = mark.id === chosen ? 0 : 0.5
    if (mark.shape === "Point") {
      const off = apart(pixel, points[0])
      if (off <= FINGER + 3) found.push([off / 100 + own, mark])
      else if (off <= (mark.style.radius ?? 0) * view.scale) found.push([30 + off / 100 + own, mark])
      continue
    }
    const closed = mark.shape === "Polygon"
    const off = Math.min(Infinity, ...sides(points, closed).map(([a, b]) => fromSegment(pixel, a, b)))
    if (off <= FINGER) found.push([10 + off / 100 + own, mark])
    else if (closed && mark.style.solid && isInside(pixel, points)) found.push([20 + own, mark])
  }
  return found.sort((a, b) => a[0] - b[0])[0]?.[1]
}

function path(points, closed, view) {
  const text = points.map((p) => view.pixel(p).map((c) => c.toFixed(1)).join(" ")).join(" L ")
  return text ? `M ${text}${closed ? " Z" : ""}` : ""
}

function drawGrid(view, parent) {
  const step = [1, 5, 10, 50, 100, 500].find((one) => one * view.scale > 36) ?? 1000
  const [west, north] = view.ground([0, 0])
  const [east, south] = view.ground([view.width, view.height])
  let way = ""
  for (let x = Math.ceil(west / step) * step; x <= east; x += step) {
    way += `M ${view.pixel([x, 0])[0].toFixed(1)} 0 V ${view.height} `
  }
  for (let y = Math.ceil(south / step) * step; y <= north; y += step) {
    way += `M 0 ${view.pixel([0, y])[1].toFixed(1)} H ${view.width} `
  }
  svg("path", {d: way, class: "grid"}, parent)
}

function drawBar(view, parent, feet, north) {
  const unit = feet ? FOOT : 1
  const long = [1, 2, 5, 10, 20, 50, 100, 200, 500].find((one) => one * unit * view.scale >= 60) ?? 1000
  const [x, y, wide] = [14, view.height - 14, long * unit * view.scale]
  svg("rect", {x: 6, y: view.height - 36, width: wide + 16, height: 32, class: "plate"}, parent)
  svg("path", {d: `M ${x} ${y - 5} V ${y} H ${x + wide} V ${y - 5}`, class: "bar"}, parent)
  svg("text", {x, y: y - 8, class: "word"}, parent, `${long} ${feet ? "ft" : "m"}`)
  const [nx, ny] = [view.width - 18, 16]
  svg("path", {d: `M ${nx} ${ny - 10} L ${nx + 6} ${ny + 8} L ${nx} ${ny + 4} L ${nx - 6} ${ny + 8} Z`,
    class: "north"}, parent)
  svg("text", {x: nx, y: ny + 20, class: "word middle"}, parent, north)
}

function drawMark(mark, view, parent, chosen) {
  const {style} = mark
  const group = svg("g", {class: chosen ? "mark chosen" : "mark", "data-id": mark.id}, parent)
  if (mark.shape === "Point") drawPoint(mark, view, group, chosen)
  else {
    const closed = mark.shape === "Polygon"
    const d = [mark.points, ...(mark.holes ?? [])].map((ring) => path(ring, closed, view)).join(" ")
    if (chosen) svg("path", {d, class: "halo", "stroke-width": style.width + 8}, group)
    if (style.casing) svg("path", {d, fill: "none", stroke: "#fff", "stroke-opacity": 0.75,
      "stroke-width": style.casing}, group)
    svg("path", {d, fill: style.fill ?? "none", "fill-opacity": style.opacity, "fill-rule": "evenodd",
      stroke: style.stroke, "stroke-width": style.width, "stroke-dasharray": style.dash}, group)
  }
  const at = mark.anchor ? view.pixel(mark.anchor) : null
  if (at && (mark.named || chosen)) {
    svg("text", {x: at[0] + (mark.shape === "Point" ? 9 : 0), y: at[1] + 4,
      class: mark.shape === "Point" ? "word" : "word middle"}, group, mark.label)
  }
  if (at && mark.fault) {
    svg("circle", {cx: at[0], cy: at[1] - 14, r: 8, class: "fault"}, group)
    svg("text", {x: at[0], y: at[1] - 10, class: "bang"}, group, "!")
  }
}

function drawPoint(mark, view, group, chosen) {
  const {style} = mark
  const [x, y] = view.pixel(mark.points[0])
  if (style.radius) {
    svg("circle", {cx: x, cy: y, r: Math.max(style.radius * view.scale, 3), fill: style.fill,
      "fill-opacity": 0.6, stroke: style.stroke, "stroke-width": 1.2}, group)
  }
  if (style.far) {
    svg("circle", {cx: x, cy: y, r: style.far * view.scale, fill: "none", stroke: style.stroke,
      "stroke-dasharray": "2 4"}, group)
  }
  for (const end of mark.rays ?? []) {
    svg("path", {d: path([mark.points[0], end], false, view), class: "ray",
      "stroke-dasharray": style.dash}, group)
  }
  if (chosen) svg("circle", {cx: x, cy: y, r: 14, class: "halo", "stroke-width": 5}, group)
  const s = style.size ?? 5
  const way = {
    circle: `M ${x - s} ${y} a ${s} ${s} 0 1 0 ${2 * s} 0 a ${s} ${s} 0 1 0 ${-2 * s} 0 Z`,
    square: `M ${x - s} ${y - s} h ${2 * s} v ${2 * s} h ${-2 * s} Z`,
    triangle: `M ${x} ${y - s} L ${x + s} ${y + s} H ${x - s} Z`,
    house: `M ${x - s} ${y + s} v ${-1.2 * s} L ${x} ${y - s} L ${x + s} ${y - 0.2 * s} v ${1.2 * s} Z`,
    peg: `M ${x - s} ${y} H ${x + s} M ${x} ${y - s} V ${y + s}`,
  }[style.marker ?? "circle"]
  if (style.marker === "peg") svg("circle", {cx: x, cy: y, r: s, fill: "#fff", "fill-opacity": 0.8}, group)
  svg("path", {d: way, fill: style.inner ?? "#fff", stroke: style.stroke, "stroke-width": 1.5}, group)
}

function drawHandles(mark, view, parent, corner) {
  mark.points.forEach((point, n) => {
    const [x, y] = view.pixel(point)
    svg("circle", {cx: x, cy: y, r: n === corner ? 8 : 6, class: n === corner ? "handle own" : "handle"}, parent)
  })
  for (const [a, b] of sides(mark.points, mark.shape === "Polygon")) {
    const [x, y] = view.pixel([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])
    svg("circle", {cx: x, cy: y, r: 4, class: "half"}, parent)
  }
}
