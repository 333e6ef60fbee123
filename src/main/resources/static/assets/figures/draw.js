// Draws the figures of a page from the report's own numbers; the table beside each has the same ones.
"use strict";

{
  const { drawings, keepers } = figures;

  const answers = new Map();

  const fetched = (url) => {
    if (!answers.has(url)) {
      answers.set(
        url,
        fetch(url, { headers: { Accept: "application/json" } }).then((answer) => {
          if (!answer.ok) throw new Error(answer.status);
          return answer.json();
        }),
      );
    }
    return answers.get(url);
  };

  /** The width of A4 within the margins of a printed page, in CSS pixels. */
  const paper = 700;

  const drawn = new WeakMap();

  const draw = async (figure) => {
    const place = figure.querySelector(".drawing");
    try {
      drawn.set(figure, (await fetched(figure.dataset.figures))[Number(figure.dataset.index)]);
      redraw(figure, Math.max(280, Math.floor(figure.clientWidth)));
      figure.dataset.drawn = "true";
    } catch (failure) {
      place.textContent = place.dataset.failed;
      figure.dataset.drawn = "failed";
    }
  };

  const redraw = (figure, width) => {
    const data = drawn.get(figure);
    const place = figure.querySelector(".drawing");
    const texts = place.dataset;
    if (data === undefined || texts.width === String(width)) return;
    texts.width = String(width);
    place.replaceChildren();
    const readout = document.createElement("p");
    readout.className = "readout";
    readout.setAttribute("role", "status");
    readout.textContent = texts.keys;
    drawings[data.kind](place, data, texts, readout, width);
    place.append(readout, keepers(figure, place.querySelector("svg"), texts));
  };

  const all = () => document.querySelectorAll("figure[data-figures]");
  const drawAll = () => all().forEach(draw);
  document.addEventListener("htmx:afterSwap", drawAll);
  let waiting;
  addEventListener("resize", () => {
    clearTimeout(waiting);
    waiting = setTimeout(drawAll, 150);
  });
  // A page is laid out for paper at once, so there is no time to fetch; and a figure scaled down to it has letters too small.
  addEventListener("beforeprint", () => all().forEach((figure) => redraw(figure, paper)));
  addEventListener("afterprint", drawAll);
  drawAll();
}
