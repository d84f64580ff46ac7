// The ballot's page: says at once what the sliders come to, sends without loading anew, keeps what
// is not sent yet, and follows the vote. Written for old phones; the page works without it too.
(function () {
  "use strict"
  var form = document.getElementById("ballot")
  if (!form) return
  var isForm = form.tagName === "FORM"
  var fields = isForm ? form.elements : null
  var address = new RegExp("[?&]code=([A-Za-z0-9]+)").exec(window.location.search)
  var code = isForm ? fields.code.value : address ? address[1] : ""
  var round = isForm ? fields.round.value : form.getAttribute("data-round")
  var key = "treestead " + code + " " + round
  var state = form.getAttribute("data-state")
  var waiting = null

  function say(id, text) {
    var place = document.getElementById(id)
    if (place && place.textContent !== text) place.textContent = text
  }

  function ask(method, path, body, then, lost) {
    var request = new XMLHttpRequest()
    request.open(method, path)
    request.timeout = 20000
    request.setRequestHeader("X-Requested-With", "script")
    if (body !== null) {
      request.setRequestHeader("Content-Type", "application/x-www-form-urlencoded")
    }
    request.onload = function () {
      var answer = null
      try { answer = JSON.parse(request.responseText) } catch (error) { answer = null }
      if (answer) then(answer, request.status)
      else lost()
    }
    request.onerror = request.ontimeout = lost
    request.send(body)
  }

  function filled() {
    var parts = []
    for (var i = 0; i < fields.length; i++) {
      var one = fields[i]
      if (!one.name || ((one.type === "radio" || one.type === "checkbox") && !one.checked)) continue
      parts.push(encodeURIComponent(one.name) + "=" + encodeURIComponent(one.value))
    }
    return parts.join("&")
  }

  function shares(sliders, whole) {
    var total = 0
    for (var i = 0; i < sliders.length; i++) total += Number(sliders[i].value)
    for (i = 0; i < sliders.length; i++) {
      var share = total ? Math.round(whole * Number(sliders[i].value) / total) : 0
      var shown = form.querySelector("[data-of='" + sliders[i].id + "']")
      shown.textContent = share + " %"
      sliders[i].setAttribute("aria-valuetext", share + " %")
    }
    return total
  }

  function show() {
    var families = form.querySelectorAll(".family > .slider > input")
    var total = shares(families, 100)
    for (var i = 0; i < families.length; i++) {
      var members = families[i].parentNode.parentNode.querySelectorAll("details input")
      shares(members, total ? 100 * Number(families[i].value) / total : 0)
    }
  }

  function keep() {
    var kept = {}
    for (var i = 0; i < fields.length; i++) {
      var one = fields[i]
      if (one.type === "range") kept[one.name] = one.value
      else if (one.type === "radio" || one.type === "checkbox") {
        kept[one.name + " " + one.value] = one.checked
      }
    }
    try { window.sessionStorage.setItem(key, JSON.stringify(kept)) } catch (error) { return }
  }

  function restore() {
    var kept = null
    try { kept = JSON.parse(window.sessionStorage.getItem(key)) } catch (error) { kept = null }
    if (!kept) return false
    for (var i = 0; i < fields.length; i++) {
      var one = fields[i]
      if (one.type === "range" && one.name in kept) one.value = kept[one.name]
      if (one.name + " " + one.value in kept) one.checked = kept[one.name + " " + one.value]
    }
    return true
  }

  function result() {
    waiting = null
    ask("POST", "/join/result", filled(), function (answer, status) {
      if (status === 429) waiting = waiting || window.setTimeout(result, 2000)
      else say("result", answer.said || answer.fault)
    }, function () { say("result", form.getAttribute("data-lost")) })
  }

  function moved(event) {
    if (event.target.name === "group") return
    show()
    keep()
    if (waiting) window.clearTimeout(waiting)
    waiting = window.setTimeout(result, 300)
  }

  function send(event) {
    event.preventDefault()
    var button = document.getElementById("send")
    button.setAttribute("aria-disabled", "true")
    say("sent", form.getAttribute("data-sending"))
    function done(text) {
      button.removeAttribute("aria-disabled")
      say("sent", text)
    }
    ask("POST", "/join/vote", filled(), function (answer) {
      done(answer.said || answer.fault)
    }, function () { done(form.getAttribute("data-lost")) })
  }

  function follow() {
    ask("GET", "/join/state?code=" + code, null, function (answer) {
      if (answer.state && (answer.state !== state || String(answer.round) !== round)) {
        window.location.reload()
      } else again()
    }, again)
  }

  function again() { window.setTimeout(follow, 2500 + 1500 * Math.random()) }

  if (isForm) {
    if (restore()) result()
    show()
    form.addEventListener("input", moved)
    form.addEventListener("change", moved)
    form.addEventListener("submit", send)
  }
  again()
})()
