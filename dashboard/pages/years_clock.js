// The slider of years: while one move is being drawn the latest one is kept, so that neither a
// drag nor the playing queues work. With reduced motion the years change one by one, not gliding.

const PATIENCE = 3000 // ms after which an unanswered move no longer holds back the next
const STILL = window.matchMedia("(prefers-reduced-motion: reduce)")
const GLIDE = {step: 0.25, pause: 130} // years, ms
const STEPS = {step: 1, pause: 1500}

function node(tag, name, parent, words) {
  const made = document.createElement(tag)
  made.className = name
  if (words) made.textContent = words
  parent.append(made)
  return made
}

export function render({model, el}) {
  const words = model.words
  el.style.width = "100%"
  const root = node("div", "clock", el)
  const play = node("button", "play", root)
  play.type = "button"
  const big = node("div", "big", root)
  const rail = node("div", "rail", root)
  const input = node("input", "input", rail)
  const ends = node("div", "ends", rail)
  node("span", "", ends, words.planting)
  const end = node("span", "", ends)
  const said = node("p", "hidden", root)
  said.setAttribute("role", "status")
  big.setAttribute("aria-hidden", "true")
  input.type = "range"
  input.id = "years-slider"
  input.min = 0
  input.step = 1
  input.setAttribute("aria-label", words.label)
  let year = model.year
  let since = 0
  let waiting = null
  let timer = null

  const named = (at) => words.year.replace("{year}", String(Math.floor(at + 1e-6)))

  function show() {
    input.max = model.last
    end.textContent = words.grown.replace("{year}", String(model.last))
    if (big.textContent !== named(year)) big.textContent = named(year)
    if (Number(input.value) !== Math.round(year)) input.value = Math.round(year)
    input.setAttribute("aria-valuetext", named(year))
    play.textContent = timer ? `\u275a\u275a ${words.pause}` : `\u25b6 ${words.play}`
    play.setAttribute("aria-label", timer ? words.pause : words.play)
  }

  function send(message) {
    if (since > 0 && performance.now() - since < PATIENCE) {
      waiting = message
      return
    }
    since = performance.now()
    model.send_msg(message)
  }

  function answered() {
    since = 0
    const message = waiting
    waiting = null
    if (message) send(message)
  }

  function stop() {
    if (timer) clearTimeout(timer)
    timer = null
  }

  function tick() {
    if (!el.isConnected) return stop()
    const pace = STILL.matches ? STEPS : GLIDE
    // A page that is not in view, or a move that is not drawn yet, waits.
    if (el.offsetParent === null && el.getClientRects().length === 0) return pause()
    if (since === 0) {
      year = Math.min(year + pace.step, model.last)
      send({year, settled: year >= model.last || Number.isInteger(year)}) // words once a year
    }
    if (year >= model.last) stop()
    else timer = setTimeout(tick, pace.pause)
    show()
  }

  function pause() {
    stop()
    year = Math.round(year)
    send({year, settled: true})
    show()
  }

  play.addEventListener("click", () => {
    if (timer) return pause()
    if (year >= model.last) year = 0
    timer = setTimeout(tick, 0)
    show()
  })
  input.addEventListener("input", () => {
    stop()
    year = Number(input.value)
    send({year, settled: false})
    show()
  })
  input.addEventListener("change", () => {
    year = Number(input.value)
    send({year, settled: true})
    show()
  })
  model.on("answer", answered)
  model.on("last", show)
  model.on("year", () => {
    if (timer || since > 0) return
    year = model.year
    show()
  })
  model.on("said", () => { if (!timer) said.textContent = model.said })
  said.textContent = model.said
  show()
  return stop
}
