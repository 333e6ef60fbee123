// Sends a file as it is: first to be checked, then, as its sender decides, to be stored.
"use strict";

(() => {
  const form = document.getElementById("send-form");
  if (!form) return;
  const file = document.getElementById("file");
  const drop = document.getElementById("drop");
  const said = document.getElementById("progress-said");
  const bar = document.getElementById("bar");
  const progress = document.getElementById("progress");
  const result = document.getElementById("result");
  document.getElementById("send-file").hidden = false;
  document.getElementById("paste").open = document.getElementById("pasted-result") !== null;

  const kind = () => form.elements.kind.value;
  const words = (text, number) => text.replace("{0}", number.toLocaleString());

  function address(mode) {
    const query = new URLSearchParams({ centre: form.elements.centre.value, mode });
    if (kind() === "activity") query.set("period", form.elements.period.value);
    return `${form.action}/${kind()}?${query}`;
  }

  function type(name) {
    return kind() === "cases" && /\.(ndjson|jsonl)$/i.test(name) ? "application/x-ndjson" : "text/csv";
  }

  function send(mode) {
    const chosen = file.files[0];
    if (!chosen) {
      file.focus();
      return;
    }
    const request = new XMLHttpRequest();
    request.open("POST", address(mode));
    request.setRequestHeader("Content-Type", type(chosen.name));
    request.setRequestHeader("Accept", "text/html");
    request.setRequestHeader("X-CSRF-TOKEN", form.elements._csrf.value);
    result.replaceChildren();
    progress.hidden = false;
    bar.value = 0;
    request.upload.onprogress = (event) => {
      if (!event.lengthComputable) return;
      bar.value = Math.round((100 * event.loaded) / event.total);
      said.textContent = words(form.dataset.uploading, bar.value);
    };
    // What is being read has no known end: the bar shows that it goes on, the text how far it is.
    request.upload.onload = () => bar.removeAttribute("value");
    request.onprogress = () => {
      const numbers = request.responseText.split("<", 1)[0].trim().split(/\s+/);
      const last = Number(numbers[numbers.length - 1]);
      if (last > 0) said.textContent = words(form.dataset.reading, last);
    };
    request.onload = () => show(request);
    request.onerror = () => broke();
    request.send(chosen);
  }

  function show(request) {
    progress.hidden = true;
    said.textContent = "";
    const page = new DOMParser().parseFromString(request.responseText.replace(/^[\d\s]*/, ""), "text/html");
    const part = page.querySelector("section.result") ?? page.querySelector("main");
    if (!part) return broke();
    result.replaceChildren(...part.childNodes);
    result.focus();
  }

  function broke() {
    progress.hidden = true;
    said.textContent = form.dataset.broken;
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    send("check");
  });
  form.addEventListener("change", () => {
    document.getElementById("which-period").hidden = kind() !== "activity";
  });
  result.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-send]");
    if (!button) return;
    const needed = button.dataset.needs && document.getElementById(button.dataset.needs);
    if (needed && !needed.checked) needed.focus();
    else send(button.dataset.send);
  });
  drop.addEventListener("dragover", (event) => {
    event.preventDefault();
    drop.classList.add("over");
  });
  drop.addEventListener("dragleave", () => drop.classList.remove("over"));
  drop.addEventListener("drop", (event) => {
    event.preventDefault();
    drop.classList.remove("over");
    if (event.dataTransfer.files.length > 0) {
      file.files = event.dataTransfer.files;
      send("check");
    }
  });
})();
