// How the plan's trees, their names, and the survey's pegs are drawn.
// Joined with plan_map.js into one module.

function node(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words) made.textContent = words
  parent.append(made)
  return made
}

function drawTree(tree, view, parent, look) {
  const [x, y] = view.pixel([tree.x, tree.y])
  const [low, typical, high] = tree.radii.map((one) => one * view.scale)
  const group = svg("g", {class: `tree ${look}`, "data-tree": tree.id}, parent)
  svg("title", {}, group, `${tree.id} ${tree.name}`)
  svg("circle", {cx: x, cy: y, r: Math.max(typical, FINGER), class: "grip"}, group)
  svg("circle", {cx: x, cy: y, r: high, class: "range"}, group)
  svg("circle", {cx: x, cy: y, r: typical, class: "crown"}, group)
  svg("circle", {cx: x, cy: y, r: low, class: "range"}, group)
  if (tree.set) svg("rect", {x: x - 4, y: y - 4, width: 8, height: 8, class: "peg"}, group)
  else svg("circle", {cx: x, cy: y, r: 2.5, class: "peg"}, group)
}

// Number, letter and name beside each crown, where no other crown or name is; else the number alone.
function drawNames(trees, view, parent) {
  const taken = trees.map((tree) => {
    const [x, y] = view.pixel([tree.x, tree.y])
    const r = Math.max(tree.radii[1] * view.scale, 4)
    return [x - r, y - r, x + r, y + r]
  })
  const covers = (a, b) => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
  trees.forEach((tree, own) => {
    const [x, y] = view.pixel([tree.x, tree.y])
    const r = Math.max(tree.radii[1] * view.scale, 4) + 2
    const full = `${tree.id} ${tree.letter} ${tree.name}`
    for (const text of [full, `${tree.id} ${tree.letter}`, String(tree.id)]) {
      const wide = 7.8 * text.length, at = [[x + r, y + 5, 0], [x - r - wide, y + 5, 0], [x - wide / 2, y - r - 2, 0],
        [x - wide / 2, y + r + 12, 0]].find(([left, base]) => {
        const box = [left, base - 12, left + wide, base + 3]
        return box[0] > 0 && box[2] < view.width && !taken.some((one, n) => n !== own && covers(box, one))
      }) ?? (text === String(tree.id) ? [x + r, y + 5, 0] : null)
      if (!at) continue
      taken.push([at[0], at[1] - 12, at[0] + wide, at[1] + 3])
      svg("text", {x: at[0], y: at[1], class: "name"}, parent, text)
      return
    }
  })
  return taken
}

// The survey's pegs by name, where that covers no tree.
function drawPegs(pegs, view, parent, taken) {
  for (const {points, label} of pegs) {
    const [x, y] = view.pixel(points[0])
    const box = [x + 8, y - 7, x + 8 + 6.2 * label.length, y + 6]
    if (taken.some((one) => box[0] < one[2] && one[0] < box[2] && box[1] < one[3] && one[1] < box[3])) continue
    taken.push(box)
    svg("text", {x: x + 8, y: y + 4, class: "word spot"}, parent, label)
  }
}
