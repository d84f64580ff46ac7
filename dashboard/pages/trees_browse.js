// Search, filters and one page of a table. Rows are only written anew; what is being typed stays.

function put(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words !== undefined) made.textContent = words
  parent.append(made)
  return made
}

export function render({model, el}) {
  const root = put("section", "browse", el)
  const search = put("div", "search", root)
  const fold = put("details", "filters", root)
  put("summary", "", fold, model.words.filters)
  const grid = put("div", "grid", fold)
  const line = put("p", "found", root)
  line.setAttribute("role", "status")
  const box = put("div", "rows", root)
  const foot = put("div", "foot", root)
  const tell = (name, value) => model.send_msg({name, value})
  const pending = new Map() // what is typed and not yet told is not overwritten
  const wide = matchMedia("(min-width: 1000px)")
  fold.open = wide.matches
  wide.addEventListener("change", () => { fold.open = wide.matches })

  function fields() {
    for (const field of model.fields) {
      const id = `trees-${field.name}`
      let made = root.querySelector(`#${id}`)
      if (!made) {
        const cell = put("div", "field", field.kind === "search" ? search : grid)
        const label = put("label", "", cell, field.label)
        label.htmlFor = id
        made = put(field.choices ? "select" : "input", "", cell)
        made.id = id
        made.dataset.name = field.name
        if (field.choices) {
          for (const [value, text] of field.choices) put("option", "", made, text).value = value
          made.addEventListener("change", () => tell(field.name, made.value))
        } else {
          made.type = field.kind === "search" ? "search" : "text"
          made.autocomplete = "off"
          if (field.kind === "number") made.inputMode = "decimal"
          made.addEventListener("input", () => {
            clearTimeout(pending.get(field.name))
            pending.set(field.name, setTimeout(() => {
              pending.delete(field.name)
              tell(field.name, made.value)
            }, 200))
          })
        }
        made.value = field.value
      } else if (made !== root.getRootNode().activeElement && !pending.has(field.name)) {
        made.value = field.value
      }
    }
  }

  function button(parent, id, label, long, act, more = {}) {
    const made = put("button", more.tone ?? "", parent, label)
    made.type = "button"
    made.id = id
    if (long) made.setAttribute("aria-label", long)
    if (more.pressed !== undefined) made.setAttribute("aria-pressed", String(more.pressed))
    made.disabled = Boolean(more.disabled)
    made.addEventListener("click", act)
    return made
  }

  function table() {
    const active = root.getRootNode().activeElement
    const held = active && root.contains(active) ? active.id : model.focus
    box.replaceChildren()
    line.textContent = model.caption
    if (!model.rows.length) {
      put("p", "empty", box, model.empty)
    } else {
      const made = put("table", "", box)
      put("caption", "hidden", made, model.caption)
      const head = put("tr", "", put("thead", "", made))
      for (const one of model.columns) {
        const cell = put("th", "", head)
        cell.scope = "col"
        if (!one.sort) { cell.textContent = one.label; continue }
        cell.setAttribute("aria-sort", one.sort)
        const arrow = {ascending: " \u25b2", descending: " \u25bc"}[one.sort] ?? ""
        const press = button(cell, `sort-${one.id}`, one.label, "", () => tell("sort", one.id), {tone: "sort"})
        if (arrow) put("span", "", press, arrow).setAttribute("aria-hidden", "true")
      }
      const body = put("tbody", "", made)
      for (const row of model.rows) draw(row, body)
    }
    pager()
    if (held) root.querySelector(`#${CSS.escape(held)}`)?.focus({preventScroll: true})
  }

  function draw(row, body) {
    const line = put("tr", row.current ? "current" : "", body)
    row.cells.forEach((cell, number) => {
      const made = put(number ? "td" : "th", cell.tone ?? "", line)
      if (number) made.dataset.label = model.columns[number].label
      else made.scope = "row"
      if (number) put("span", "", made, cell.text)
      else {
        const name = button(made, `open-${row.id}`, cell.text, "", () => tell("open", row.id), {tone: "name"})
        if (row.current) name.setAttribute("aria-current", "true")
      }
      if (cell.small) put("span", "small", made, cell.small)
    })
    const cell = put("td", "acts", line)
    const say = (words) => words.replace("{tree}", row.label)
    const {words} = model
    button(cell, `list-${row.id}`, row.listed ? words.remove : words.add,
      say(row.listed ? words.remove_long : words.add_long),
      () => tell(row.listed ? "remove" : "add", row.id), {tone: row.listed ? "" : "main"})
    button(cell, `compare-${row.id}`, words.compare, say(words.compare_long), () => tell("compare", row.id),
      {pressed: Boolean(row.compared)})
  }

  function pager() {
    foot.replaceChildren()
    const [page, pages] = model.pages
    if (pages > 1) {
      button(foot, "page-before", "\u2039", model.words.before, () => tell("page", page - 1), {disabled: page <= 0})
      put("span", "", foot, model.words.page.replace("{page}", page + 1).replace("{pages}", pages))
      button(foot, "page-after", "\u203a", model.words.after, () => tell("page", page + 1), {disabled: page >= pages - 1})
    }
    for (const one of model.acts) button(foot, `do-${one.id}`, one.label, "", () => tell("act", one.id), one)
  }

  model.on("fields", fields)
  for (const name of ["rows", "columns", "caption", "pages", "acts"]) model.on(name, () => queueMicrotask(table))
  fields()
  table()
}
