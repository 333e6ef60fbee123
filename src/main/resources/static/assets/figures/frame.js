// What every figure is made of; a script each draws one kind. They share this one object and import nothing: a page names each
// script by its content, so that a browser may keep it for ever, and an import would not be named so.
"use strict";

const figures = (() => {
  const shapes = { CIRCLE: d3.symbolCircle, SQUARE: d3.symbolSquare, DIAMOND: d3.symbolDiamond, TRIANGLE: d3.symbolTriangle };

  const finite = (value) => typeof value === "number" && Number.isFinite(value);
  const tick = (value) => value.toLocaleString(navigator.language, { maximumSignificantDigits: 4 });

  /** An estimate as text, with its interval where it has one. */
  const written = (item) => (item.interval && item.interval !== "–" ? `${item.text} (${item.interval})` : item.text);

  /** What a mark is called, nothing for none. */
  const word = (item, texts) => ({ HIGH: texts.high, LOW: texts.low, OWN: texts.own })[item.mark];

  /** What a screen reader says of a point, and what the line under the figure shows. */
  const spoken = (item, texts) =>
    [
      [item.label, item.series].filter(Boolean).join(", "),
      item.value === null ? texts.none : written(item),
      item.counts,
      word(item, texts),
    ]
      .filter(Boolean)
      .join(" · ");

  /** One point takes the tab key, the arrow keys move among them. */
  const reachable = (points, readout) => {
    const nodes = points.nodes();
    nodes.forEach((node, at) => {
      node.setAttribute("tabindex", at === 0 ? "0" : "-1");
      node.setAttribute("role", "img");
      node.setAttribute("focusable", "true");
    });
    const show = (node) => {
      readout.textContent = node.getAttribute("aria-label");
      readout.classList.add("shown");
    };
    points
      .on("focus", (event) => show(event.currentTarget))
      .on("pointerenter", (event) => show(event.currentTarget))
      .on("keydown", (event) => {
        const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
        const home = { Home: 0, End: nodes.length - 1 }[event.key];
        if (step === undefined && home === undefined) return;
        event.preventDefault();
        const here = nodes.indexOf(event.currentTarget);
        const to = home ?? Math.min(Math.max(here + step, 0), nodes.length - 1);
        nodes[here].setAttribute("tabindex", "-1");
        nodes[to].setAttribute("tabindex", "0");
        nodes[to].focus();
      });
  };

  /** Cuts a label to a width, and says all of it in a title. */
  const fit = (text, width, size = 13) => {
    const most = Math.max(4, Math.floor(width / (size * 0.56)));
    return text.length <= most ? text : text.slice(0, most - 1).trimEnd() + "…";
  };

  /** The picture, with what it shows for those who do not see it. */
  const frame = (place, width, height, label) =>
    d3
      .select(place)
      .append("svg")
      .attr("viewBox", `0 0 ${width} ${height}`)
      .attr("width", width)
      .attr("height", height)
      .attr("role", "group")
      .attr("aria-label", label);

  /** Numbers below the plot, and lines up from them. */
  const axisBelow = (svg, x, top, bottom, ticks, format = tick) => {
    const axis = svg.append("g").attr("aria-hidden", "true");
    for (const value of ticks) {
      axis
        .append("line")
        .attr("class", "grid")
        .attr("x1", x(value))
        .attr("x2", x(value))
        .attr("y1", top)
        .attr("y2", bottom);
      axis
        .append("text")
        .attr("class", "tick")
        .attr("x", x(value))
        .attr("y", bottom + 16)
        .attr("text-anchor", "middle")
        .text(format(value));
    }
    return axis;
  };

  /** Numbers at the left of the plot. */
  const axisLeft = (axis, y, box) => {
    for (const value of y.ticks(5)) {
      axis
        .append("text")
        .attr("class", "tick")
        .attr("x", box.left - 6)
        .attr("y", y(value) + 4)
        .attr("text-anchor", "end")
        .text(tick(value));
    }
  };

  /** Text that a screen reader finds elsewhere: at an axis, a line or a series. */
  const note = (svg, text, x, y, anchor = "start") =>
    svg
      .append("text")
      .attr("class", "axis")
      .attr("aria-hidden", "true")
      .attr("x", x)
      .attr("y", y)
      .attr("text-anchor", anchor)
      .text(text);

  /** A level line across the plot, with its name at the right where there is room. */
  const level = (svg, line, y, box, named) => {
    const at = y(line.points[0].y);
    svg.append("line").attr("class", "level").attr("x1", box.left).attr("x2", box.right).attr("y1", at).attr("y2", at);
    if (named) note(svg, line.label, box.right + 4, at + 4);
  };

  /** A point in the shape that the figure says; a special one is larger and has a colour of its own. */
  const mark = (place, shape, look, size = 62) =>
    place
      .append("path")
      .attr("class", `mark ${look}`)
      .attr("d", d3.symbol(shapes[shape], look === "special" ? 120 : size)());

  /** By kind of figure what draws it: into a place, with the page's texts, a line that says what a point is, and a width in pixels. */
  const drawings = {};

  return { finite, tick, written, word, spoken, reachable, fit, frame, axisBelow, axisLeft, note, level, mark, drawings };
})();
