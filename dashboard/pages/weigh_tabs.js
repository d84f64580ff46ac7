// A row of tabs, one of them open; arrow keys move along the row.

export function render({model, el}) {
  const list = document.createElement("div")
  list.className = "tabs"
  list.setAttribute("role", "tablist")
  el.append(list)

  function update() {
    list.setAttribute("aria-label", model.label)
    list.replaceChildren(...model.tabs.map(([name, words]) => {
      const tab = document.createElement("button")
      tab.type = "button"
      tab.id = `tab-${name}`
      tab.textContent = words
      tab.setAttribute("role", "tab")
      tab.addEventListener("click", () => model.open = name)
      return tab
    }))
    mark()
  }

  function mark() {
    for (const tab of list.children) {
      const open = tab.id === `tab-${model.open}`
      tab.setAttribute("aria-selected", open)
      tab.tabIndex = open ? 0 : -1
    }
  }

  list.addEventListener("keydown", (event) => {
    const step = {ArrowRight: 1, ArrowLeft: -1}[event.key]
    if (!step) return
    const names = model.tabs.map(([name]) => name)
    const next = (names.indexOf(model.open) + step + names.length) % names.length
    model.open = names[next]
    list.children[next].focus()
  })

  model.on("tabs", update)
  model.on("open", mark)
  update()
}
