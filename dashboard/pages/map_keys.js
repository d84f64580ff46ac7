// The place on the map moved by the arrow keys, for those who do not point.

const STEPS = {ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0]}

export function render({model, el}) {
  const button = document.createElement("button")
  button.type = "button"
  button.textContent = "\u2725"
  el.append(button)

  function update() {
    button.setAttribute("aria-label", model.label)
    button.title = model.label
  }

  button.addEventListener("keydown", (event) => {
    const step = STEPS[event.key]
    if (!step) return
    event.preventDefault()
    const far = event.shiftKey ? 5 : 1
    model.send_msg({east: far * step[0], north: far * step[1]})
  })
  model.on("label", update)
  update()
}
