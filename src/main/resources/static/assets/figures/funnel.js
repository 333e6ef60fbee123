// Each centre by its uses, within curves of limits.
"use strict";

{
  const { finite, word, spoken, reachable, fit, frame, axisBelow, axisLeft, note, level, mark, drawings } = figures;

  /** The names that can be read: what stands out keeps its own, and no other stands on a name before it. */
  const room = (names) => {
    const placed = new Map();
    for (const name of [...names].sort((one, other) => other.first - one.first)) {
      const right = name.left + 7.3 * name.text.length;
      const free = [...placed.values()].every((other) => name.left > other.right || right < other.left || Math.abs(name.top - other.top) > 14);
      if (free || name.first) placed.set(name.item, { ...name, right });
    }
    return placed;
  };

  drawings.FUNNEL = (place, figure, texts, readout, width) => {
    const height = 400;
    const wide = width >= 620;
    const box = { left: 56, right: width - (wide ? 96 : 12), top: 30, bottom: height - 54 };
    const items = figure.items.filter((item) => finite(item.value));
    const curves = figure.lines.filter((line) => line.points.length > 1);
    const most = (d3.max(figure.items, (item) => item.of) || 1) * 1.08;
    const x = d3.scaleLinear([0, most], [box.left, box.right]);
    const highest = d3.max([
      ...items.map((item) => item.value * 1.25),
      ...figure.lines.flatMap((line) => line.points.map((point) => (point.x > most * 0.1 || line.points.length === 1 ? point.y : 0))),
    ]);
    const y = d3.scaleLinear([0, highest || 1], [box.bottom, box.top]).nice(5).clamp(true);
    const svg = frame(place, width, height, figure.axis);
    const axis = axisBelow(svg, x, box.top, box.bottom, x.ticks(Math.max(3, Math.floor((box.right - box.left) / 90))));
    axisLeft(axis, y, box);
    note(svg, figure.axis, 2, 11);
    note(svg, figure.across, (box.left + box.right) / 2, height - 8, "middle");
    const path = d3
      .line()
      .defined((point) => point.y <= y.domain()[1])
      .x((point) => x(point.x))
      .y((point) => y(point.y));
    curves.forEach((line) => {
      svg
        .append("path")
        .attr("class", line.label.startsWith("95") ? "limit" : "limit outer")
        .attr("aria-hidden", "true")
        .attr("d", path(line.points));
      const lastPoint = line.points[line.points.length - 1];
      if (wide) note(svg, line.label, box.right + 4, y(lastPoint.y) + 4);
    });
    for (const line of figure.lines.filter((one) => one.points.length === 1)) level(svg, line, y, box, wide);
    const points = svg
      .append("g")
      .selectAll("g")
      .data(items)
      .join("g")
      .attr("class", "point")
      .attr("transform", (item) => `translate(${x(item.of)},${y(item.value)})`)
      .attr("aria-label", (item) => spoken(item, texts));
    points.append("circle").attr("class", "reach").attr("r", 12);
    const names = room(
      items.map((item) => {
        const special = word(item, texts);
        const text = fit(special ? `${item.label} (${special})` : item.label, 190);
        const atEnd = x(item.of) > box.right - 150;
        return { item, text, atEnd, left: x(item.of) + (atEnd ? -9 - 7.3 * text.length : 9), top: y(item.value) - 18, first: Boolean(special) };
      }),
    );
    points.each(function (item) {
      mark(d3.select(this), item.shape, word(item, texts) ? "special" : "series-0");
      const name = names.get(item);
      if (!name) return;
      d3.select(this)
        .append("text")
        .attr("class", "label")
        .attr("x", name.atEnd ? -9 : 9)
        .attr("y", -7)
        .attr("text-anchor", name.atEnd ? "end" : "start")
        .text(name.text);
    });
    reachable(points, readout);
  };
}
