// Lines with buttons. Texts are only ever set as text; the focus stays on the button pressed.

function put(tag, name, parent, words) {
  const made = document.createElement(tag)
  if (name) made.className = name
  if (words !== undefined) made.textContent = words
  parent.append(made)
  return made
}

export function render({model, el}) {
  const root = put("div", "lists", el)
  const tell = (name, value) => model.send_msg({name, value})

  function press(parent, one, id) {
    const made = put("button", "", parent, one.sign)
    made.type = "button"
    made.id = `line-${one.act}-${id}`
    if (one.label !== one.sign) made.setAttribute("aria-label", one.label)
    made.title = one.label
    made.disabled = Boolean(one.disabled)
    made.addEventListener("click", () => tell(one.act, id))
  }

  function update() {
    const active = root.getRootNode().activeElement
    const held = active && root.contains(active) ? active.id : model.focus
    root.replaceChildren()
    for (const block of model.blocks) {
      const top = put("div", "top", root)
      put("h2", "", top, block.heading)
      for (const one of block.acts) press(top, one, "all")
      for (const words of block.said) put("p", "", root, words)
      if (block.lines.length) {
        const list = put("ol", "", root)
        list.setAttribute("aria-label", block.heading)
        for (const line of block.lines) {
          const item = put("li", "", list)
          const text = put("div", "text", item)
          if (line.opens) {
            const name = put("button", "name", text, line.label)
            name.type = "button"
            name.id = `line-open-${line.id}`
            name.addEventListener("click", () => tell("open", line.id))
          } else put("span", "name", text, line.label)
          if (line.note) put("span", line.bad ? "bad" : "small", text, line.note)
          const acts = put("div", "acts", item)
          line.buttons.forEach((one, number) => {
            press(acts, one, line.id)
            if (!number && line.count !== undefined) put("output", "", acts, String(line.count))
          })
        }
      }
    }
    if (held) root.querySelector(`#${CSS.escape(held)}`)?.focus({preventScroll: true})
  }

  model.on("blocks", update)
  update()
}
