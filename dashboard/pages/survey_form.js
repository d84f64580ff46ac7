// A form from a list of fields, each a plain description. Texts are only ever set as text. What is
// being typed, the focus and what is unfolded outlive a new list of fields of the same form.

function put(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words !== undefined) made.textContent = words
  parent.append(made)
  return made
}

export function render({model, el}) {
  const root = put("div", "form", el)
  let shown = ""
  const tell = (name, value) => model.send_msg({name, value})

  function ids(field) {
    return `field-${model.key}-${field.name}`.replaceAll(/[^\w-]/g, "-")
  }

  function labelled(field, parent, control) {
    const label = put("label", "label", parent, field.label)
    label.htmlFor = control.id
    if (field.required) put("span", "required", label, ` (${model.words.required})`)
    const about = []
    parent.append(control)
    for (const [kind, text] of [["fault", field.fault], ["help", field.help]]) {
      if (!text) continue
      const line = put("p", kind, parent, text)
      line.id = `${control.id}-${kind}`
      about.push(line.id)
    }
    if (about.length) control.setAttribute("aria-describedby", about.join(" "))
    if (field.fault) control.setAttribute("aria-invalid", "true")
    if (field.required) control.setAttribute("aria-required", "true")
  }

  function control(tag, field, type) {
    const made = document.createElement(tag)
    if (type) made.type = type
    made.id = ids(field)
    made.dataset.name = field.name
    made.value = field.value ?? ""
    return made
  }

  const build = {
    title: (field, parent) => put("h1", "hidden", parent, field.label),
    heading: (field, parent) => put("h2", "", parent, field.label),
    subheading: (field, parent) => put("h3", "", parent, field.label),
    note: (field, parent) => put("p", field.tone ?? "note", parent, field.label),
    text: (field, parent) => input(field, parent, "text"),
    number: (field, parent) => input(field, parent, "text", "decimal"),
    choice(field, parent) {
      const made = control("select", field)
      for (const [value, label] of field.choices) put("option", "", made, label).value = value
      made.value = field.value ?? ""
      made.addEventListener("change", () => tell(field.name, made.value))
      labelled(field, parent, made)
    },
    check(field, parent) {
      const label = put("label", "check", parent)
      const made = control("input", field, "checkbox")
      made.checked = Boolean(field.value)
      label.append(made, field.label)
      made.addEventListener("change", () => tell(field.name, made.checked))
    },
    range(field, parent) {
      const made = control("input", field, "range")
      Object.assign(made, {min: field.low, max: field.high, step: field.step, value: field.value})
      made.addEventListener("change", () => tell(field.name, made.value))
      labelled(field, parent, made)
    },
    area(field, parent) {
      const made = control("textarea", field)
      made.rows = field.rows ?? 4
      made.spellcheck = false
      if (field.example) made.placeholder = field.example
      made.addEventListener("change", () => tell(field.name, made.value))
      labelled(field, parent, made)
    },
    file(field, parent) {
      const made = control("input", field, "file")
      made.value = ""
      made.accept = field.accept
      made.addEventListener("change", () => sent(field, made))
      labelled(field, parent, made)
    },
    buttons(field, parent) {
      const row = put("div", "buttons", parent)
      for (const one of field.items) {
        const made = put("button", one.tone ?? "", row, one.label)
        made.type = "button"
        made.id = `press-${model.key}-${one.id}`
        made.disabled = Boolean(one.disabled)
        if (one.pressed !== undefined) made.setAttribute("aria-pressed", one.pressed)
        made.addEventListener("click", () => tell(field.name, one.id))
      }
    },
    list(field, parent) {
      const list = put("ul", "list", parent)
      list.setAttribute("aria-label", field.label)
      for (const one of field.items) {
        const made = put("button", one.current ? "current" : "", put("li", "", list))
        made.type = "button"
        made.id = `pick-${model.key}-${one.id}`
        if (one.current) made.setAttribute("aria-current", "true")
        if (one.sign) put("span", "sign", made, one.sign).style.color = one.tone
        put("span", "name", made, one.label)
        if (one.note) put("span", one.fault ? "fault" : "small", made, one.note)
        if (one.title) made.title = one.title
        made.addEventListener("click", () => tell(field.name, one.id))
      }
    },
    table(field, parent) {
      const box = put("div", "scroll", parent)
      box.tabIndex = 0
      box.setAttribute("role", "region")
      box.setAttribute("aria-label", field.label)
      const table = put("table", "", box)
      put("caption", "", table, field.label)
      const head = put("tr", "", put("thead", "", table))
      for (const one of field.columns) put("th", "", head, one).scope = "col"
      const body = put("tbody", "", table)
      field.items.forEach((cells, row) => {
        const line = put("tr", "", body)
        cells.forEach((cell, column) => {
          if (!column) put("th", "", line, cell).scope = "row"
          else if (field.name) grid(field, put("td", "", line), [row, column], cell)
          else put("td", "", line, cell)
        })
      })
    },
    fold(field, parent) {
      const made = put("details", "", parent)
      made.dataset.fold = field.label
      made.open = Boolean(field.open)
      put("summary", "", made, field.label)
      for (const one of field.fields) build[one.kind](one, made)
    },
  }

  function grid(field, parent, [row, column], cell) {
    const made = control("input", {name: `${field.name}-${row}-${column}`, value: cell}, "text")
    made.inputMode = "decimal"
    made.setAttribute("aria-label", `${field.items[row][0]} ${field.columns[column]}`)
    made.addEventListener("change", () => tell(field.name, [row, column, made.value]))
    parent.append(made)
  }

  function input(field, parent, type, mode) {
    const made = control("input", field, type)
    made.autocomplete = "off"
    if (mode) made.inputMode = mode
    if (field.suggestions?.length) {
      const list = put("datalist", "", parent)
      list.id = `${made.id}-list`
      for (const one of field.suggestions) put("option", "", list).value = one
      made.setAttribute("list", list.id)
    }
    made.addEventListener("change", () => tell(field.name, made.value))
    labelled(field, parent, made)
  }

  function sent(field, made) {
    const file = made.files[0]
    if (!file) return
    if (file.size > field.limit) {
      tell(field.name, {name: file.name, size: file.size})
      return
    }
    const reader = new FileReader()
    reader.onload = () => tell(field.name, {name: file.name, size: file.size, data: reader.result.split(",")[1] ?? ""})
    reader.readAsDataURL(file)
  }

  function update() {
    const same = shown === model.key
    const active = root.getRootNode().activeElement
    const at = same && active && root.contains(active) ? active : null
    const kept = at ? {id: at.id, value: at.value, start: at.selectionStart, end: at.selectionEnd} : null
    const open = [...root.querySelectorAll("details[open]")].map((one) => one.dataset.fold)
    const before = kept && root.querySelector(`#${CSS.escape(kept.id)}`)?.dataset
    root.replaceChildren()
    for (const field of model.fields) build[field.kind](field, root)
    if (same) for (const one of root.querySelectorAll("details")) one.open ||= open.includes(one.dataset.fold)
    shown = model.key
    const again = kept?.id && root.querySelector(`#${CSS.escape(kept.id)}`)
    if (!again) return
    const types = before?.name && again.type !== "checkbox" && again.type !== "file"
    if (types && typing.id === kept.id) again.value = kept.value
    again.focus({preventScroll: true})
    if (types && again.type === "text" && kept.start !== null) again.setSelectionRange(kept.start, kept.end)
  }

  const typing = {id: ""}
  root.addEventListener("input", (event) => { typing.id = event.target.id })
  root.addEventListener("change", () => { typing.id = "" })
  root.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.tagName === "INPUT") event.target.blur()
  })

  model.on("fields", update)
  model.on("msg:custom", (event) => {
    const {name, data} = event.data?.name ? event.data : event
    const bytes = Uint8Array.from(atob(data), (one) => one.charCodeAt(0))
    const link = document.createElement("a")
    link.href = URL.createObjectURL(new Blob([bytes]))
    link.download = name
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
  })
  update()
}
