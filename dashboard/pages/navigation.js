// The pages of the app as one row of buttons: in the header, or at the foot of a narrow screen.

export function render({model, el}) {
  const nav = document.createElement("nav")
  el.append(nav)

  function update() {
    nav.setAttribute("aria-label", model.label)
    nav.replaceChildren(...model.pages.map(([path, label]) => {
      const button = document.createElement("button")
      button.type = "button"
      button.id = `page-${path}`
      button.textContent = label
      if (path === model.current) button.setAttribute("aria-current", "page")
      button.addEventListener("click", () => model.send_msg({page: path}))
      return button
    }))
  }

  model.on("pages", update)
  model.on("current", () => {
    for (const button of nav.children) {
      const here = button.id === `page-${model.current}`
      here ? button.setAttribute("aria-current", "page") : button.removeAttribute("aria-current")
    }
  })
  update()
}
