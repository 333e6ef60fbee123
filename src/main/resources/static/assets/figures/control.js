// A value for each period or event, with limits and signals.
"use strict";

{
  const { finite, word, spoken, reachable, frame, axisLeft, note, level, mark, drawings } = figures;

  drawings.CONTROL = (place, figure, texts, readout, width) => {
    const height = 320;
    const wide = width >= 620;
    const box = { left: 56, right: width - (wide ? 100 : 12), top: 28, bottom: height - 54 };
    const items = figure.items;
    const levels = figure.lines.map((line) => line.points[0].y);
    const most = d3.max([...items.flatMap((item) => [item.value, item.upper]), ...levels].filter(finite)) || 1;
    const y = d3.scaleLinear([0, most * 1.08], [box.bottom, box.top]).nice(5);
    const x = d3.scalePoint(d3.range(items.length), [box.left, box.right]).padding(0.6);
    const half = x.step() / 2;
    const svg = frame(place, width, height, figure.axis);
    const axis = svg.append("g").attr("aria-hidden", "true");
    for (const value of y.ticks(5)) {
      axis.append("line").attr("class", "grid").attr("x1", box.left).attr("x2", box.right).attr("y1", y(value)).attr("y2", y(value));
    }
    axisLeft(axis, y, box);
    note(svg, figure.axis, 2, 11);
    const every = Math.ceil(items.length / Math.max(2, (box.right - box.left) / 72));
    const short = (label) => label.split(", ").pop();
    items.forEach((item, at) => {
      if (at % every === 0) {
        axis
          .append("text")
          .attr("class", "tick")
          .attr("x", x(at))
          .attr("y", box.bottom + 18)
          .attr("text-anchor", "middle")
          .text(short(item.label));
      }
    });
    note(svg, figure.across, (box.left + box.right) / 2, height - 8, "middle");
    const steps = (key) =>
      items
        .map((item, at) => (finite(item[key]) ? `M${x(at) - half},${y(item[key])}h${2 * half}` : ""))
        .join("");
    for (const key of ["lower", "upper"]) svg.append("path").attr("class", "limit").attr("aria-hidden", "true").attr("d", steps(key));
    const last = items.length - 1;
    if (last >= 0 && finite(items[last].upper) && wide) {
      note(svg, texts.limits, box.right + 4, y(items[last].upper) + 4);
    }
    for (const line of figure.lines) level(svg, line, y, box, wide);
    svg
      .append("path")
      .attr("class", "run")
      .attr("aria-hidden", "true")
      .attr(
        "d",
        d3
          .line()
          .defined((item) => finite(item.value))
          .x((item, at) => x(at))
          .y((item) => y(item.value))(items),
      );
    const points = svg
      .append("g")
      .selectAll("g")
      .data(items.map((item, at) => ({ item, at })).filter(({ item }) => finite(item.value)))
      .join("g")
      .attr("class", "point")
      .attr("transform", ({ item, at }) => `translate(${x(at)},${y(item.value)})`)
      .attr("aria-label", ({ item }) => spoken(item, texts));
    points.append("circle").attr("class", "reach").attr("r", 12);
    const size = x.step() < 12 ? 12 : 62;
    const named = {};
    points.each(function ({ item, at }) {
      const special = word(item, texts);
      mark(d3.select(this), item.shape, special ? "special" : "series-0", size);
      // The shape says it too, so a word that would stand on the one before it is left out.
      if (special && !(x(at) - named[item.mark] <= 48)) {
        named[item.mark] = x(at);
        d3.select(this)
          .append("text")
          .attr("class", "value strong")
          .attr("y", item.mark === "LOW" ? 22 : -12)
          .attr("text-anchor", "middle")
          .text(special);
      }
    });
    reachable(points, readout);
  };
}
