// What the browser tells about itself, and what the whole window is told.
// Light on dark is the light page with its brightness turned round; what must keep its own colours
// (maps, pictures) turns them back with the filter kept in --as-is.

const TURNED = "invert(0.93) hue-rotate(180deg)"
const STYLE = `
  html { background: #ffffff; }
  html.dark { filter: ${TURNED}; --as-is: hue-rotate(180deg) invert(1); }
  @media print { html.dark { filter: none; --as-is: none; } }
`

function remembered() {
  try {
    return window.localStorage.getItem("treestead-dark")
  } catch {
    return null
  }
}

export function render({model}) {
  if (!document.getElementById("treestead-screen")) {
    const style = document.createElement("style")
    style.id = "treestead-screen"
    style.textContent = STYLE
    document.head.append(style)
  }
  document.documentElement.lang = model.language
  const narrow = window.matchMedia(`(max-width: ${model.width - 1}px)`)
  const night = window.matchMedia("(prefers-color-scheme: dark)")
  let dark = remembered() === null ? night.matches : remembered() === "yes"

  function tell() {
    document.documentElement.classList.toggle("dark", dark)
    model.send_msg({narrow: narrow.matches, dark})
  }

  narrow.addEventListener("change", tell)
  model.on("dark", () => {
    dark = model.dark
    document.documentElement.classList.toggle("dark", dark)
    try {
      window.localStorage.setItem("treestead-dark", dark ? "yes" : "no")
    } catch {
      // a browser that keeps nothing shows the page as its system does
    }
  })
  tell()
}
