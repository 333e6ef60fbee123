// The form of a case: says what the chosen code means, and checks each field as one leaves it.
"use strict";

(() => {
  const form = document.getElementById("case-form");
  const said = document.getElementById("check-said");
  const left = new Set();
  let waiting = 0;
  let asked = 0;

  // A page without scripts lets the browser do this; after a part was fetched it is done here.
  const first = document.querySelector("main [autofocus]");
  if (first) first.focus();

  function means(select) {
    const place = document.getElementById(select.id + "-means");
    if (place) place.textContent = select.value === "unknown" ? "" : (select.selectedOptions[0]?.dataset.means ?? "");
  }

  function show(name, text) {
    const place = document.getElementById(name + "-error");
    if (!place || place.textContent === text) return;
    place.textContent = text;
    const field = document.getElementById(name);
    if (field && text) field.setAttribute("aria-invalid", "true");
    else if (field) field.removeAttribute("aria-invalid");
    const label = form.querySelector(`label[for="${name}"] span`);
    if (text) said.textContent = (label ? label.textContent + ": " : "") + text;
  }

  // Its buttons are called action, so form.action is not its address.
  async function check() {
    const number = ++asked;
    const body = new URLSearchParams(new FormData(form));
    body.set("action", "check");
    const answer = await fetch(form.getAttribute("action"), { method: "POST", body });
    if (!answer.ok || number !== asked) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const wrong = new Map();
    for (const item of page.querySelectorAll("[data-field]")) {
      const field = form.querySelector("#" + CSS.escape(item.dataset.field));
      if (field) wrong.set(field.name, item.textContent);
    }
    said.textContent = "";
    for (const name of left) show(name, wrong.get(name) ?? "");
  }

  function later(field) {
    if (!field.name || field.type === "hidden" || field.tagName === "BUTTON") return;
    left.add(field.name);
    clearTimeout(waiting);
    waiting = setTimeout(() => check().catch(() => {}), 250);
  }

  form.addEventListener("change", (event) => {
    if (event.target.tagName === "SELECT") means(event.target);
    later(event.target);
  });
  form.addEventListener("focusout", (event) => {
    // An attempt that is moved or removed leaves with its fields.
    if (event.target.isConnected && event.relatedTarget?.tagName !== "BUTTON") later(event.target);
  });
  // Fields of attempts have other names after one was moved.
  document.addEventListener("htmx:afterSwap", () => {
    for (const name of left) if (name.startsWith("attempt")) left.delete(name);
  });
})();
