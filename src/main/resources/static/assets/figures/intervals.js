// A point with its interval for each item, one under another.
"use strict";

{
  const { finite, written, word, spoken, reachable, fit, frame, axisBelow, note, mark, drawings } = figures;

  const row = 26;

  /** An even scale from 0, that takes in every number. */
  const evenScale = (figure, from, to) => {
    const ends = figure.items.flatMap((item) => [item.value, item.lower, item.upper]).filter(finite);
    const levels = figure.lines.flatMap((line) => line.points.map((point) => point.y));
    const x = d3.scaleLinear([0, d3.max([...ends, ...levels]) || 1], [from, to]).nice(5);
    if (figure.axis.includes("%") && x.domain()[1] > 100) x.domain([0, 100]);
    return { x, ticks: x.ticks(Math.max(3, Math.floor((to - from) / 80))) };
  };

  /** The items of each label below one another, and their name beside them, or above them where the figure is narrow. */
  const layOut = (figure, texts, top, narrow) => {
    let y = top;
    const rows = d3.groups(figure.items, (item) => item.label).map(([label, items]) => {
      if (narrow) y += 20;
      const special = word(items[0], texts);
      const made = {
        label,
        tail: special ? `, ${special}` : "",
        y: y + (narrow ? -6 : row / 2),
        items: items.map((item, at) => ({ item, y: y + row * at + row / 2 })),
      };
      y += row * items.length + (items.length > 1 ? 8 : 0);
      return made;
    });
    return { rows, bottom: y + 4 };
  };

  /** Series are told apart by shape, and then a mark by its word alone. */
  const looks = (series) => (item) => (item.mark === "NONE" || series.length > 1 ? `series-${series.indexOf(item.series)}` : "special");

  const writeLegend = (svg, figure, series, look, left) => {
    let at = left;
    for (const name of series) {
      const drawn = figure.items.find((item) => item.series === name && item.shape);
      if (drawn) mark(svg.append("g").attr("transform", `translate(${at + 6},14)`).attr("aria-hidden", "true"), drawn.shape, look(drawn));
      note(svg, name, at + 18, 18);
      at += name.length * 7.4 + 44;
    }
  };

  const writeNames = (svg, rows, x, room, anchor) => {
    const names = svg.append("g").attr("aria-hidden", "true");
    for (const { label, tail, y } of rows) {
      names
        .append("text")
        .attr("class", "label")
        .attr("x", x)
        .attr("y", y + 4)
        .attr("text-anchor", anchor)
        .text(fit(label, room - 7.3 * tail.length) + tail)
        .append("title")
        .text(label + tail);
    }
  };

  /** A bar across at an end that is on the axis, an arrow where the item goes on. */
  const end = (point, at, open, side) =>
    open
      ? point.append("path").attr("class", "arrow").attr("d", `M${at + side * 2},0l${-side * 9},-5v10z`)
      : point.append("line").attr("class", "interval").attr("x1", at).attr("x2", at).attr("y1", -4).attr("y2", 4);

  /** An item without an interval has no ends, but an arrow where its estimate is beyond the axis. */
  const drawItem = (point, item, x, look) => {
    const [least, most] = x.range();
    const interval = item.lower !== null && item.upper !== null;
    const from = item.openBelow ? least : x(item.lower);
    const to = item.openAbove ? most : x(item.upper);
    if (interval) point.append("line").attr("class", "interval").attr("x1", from).attr("x2", to);
    if (interval || item.openBelow) end(point, from, item.openBelow, -1);
    if (interval || item.openAbove) end(point, to, item.openAbove, 1);
    if (item.shape) mark(point.append("g").attr("transform", `translate(${x(item.value)},0)`), item.shape, look(item));
  };

  /** Where nothing is known of an item, that is said in its place. */
  const unknown = (item) => item.value === null && item.lower === null;

  /** Draws intervals on a scale: (figure, from, to) => the scale and its ticks. */
  figures.intervals = (scale) => (place, figure, texts, readout, width) => {
    const series = [...new Set(figure.items.map((item) => item.series))];
    const look = looks(series);
    const narrow = width < 620;
    const values = narrow ? 0 : 190;
    const counts = width < 860 ? 0 : 120;
    const top = series.length > 1 ? 34 : 12;
    const { rows, bottom } = layOut(figure, texts, top, narrow);
    const left = narrow ? 4 : Math.min(300, Math.max(140, d3.max(rows, ({ label, tail }) => label.length + tail.length) * 7.2 + 14));
    const { x, ticks } = scale(figure, left + 8, width - values - counts - 16);
    const svg = frame(place, width, bottom + 44, figure.axis);
    axisBelow(svg, x, top, bottom, ticks);
    note(svg, figure.axis, left + 8, bottom + 38);
    for (const line of figure.lines) {
      const at = x(line.points[0].y);
      svg.append("line").attr("class", "level").attr("x1", at).attr("x2", at).attr("y1", top).attr("y2", bottom);
      note(svg, line.label, at + 4, top - 2);
    }
    if (series.length > 1) writeLegend(svg, figure, series, look, left + 8);
    writeNames(svg, rows, narrow ? 4 : left - 6, narrow ? width - 8 : left - 10, narrow ? "start" : "end");
    const all = rows.flatMap((one) => one.items);
    const points = svg
      .append("g")
      .selectAll("g")
      .data(all)
      .join("g")
      .attr("class", "point")
      .attr("transform", ({ y }) => `translate(0,${y})`)
      .attr("aria-label", ({ item }) => spoken(item, texts));
    points.each(function ({ item }) {
      const point = d3.select(this);
      point.append("rect").attr("class", "reach").attr("x", left).attr("y", -row / 2).attr("width", width - left).attr("height", row);
      if (unknown(item)) point.append("text").attr("class", "value").attr("x", left + 12).attr("y", 4).text(texts.none);
      else drawItem(point, item, x, look);
    });
    const write = (look, at, y, text) =>
      points
        .append("text")
        .attr("class", look)
        .attr("x", at)
        .attr("y", y)
        .attr("text-anchor", "end")
        .text(({ item }) => text(item));
    const value = (item) => (item.value !== null ? fit(written(item), values, 12) : unknown(item) ? (counts ? "" : item.counts) : texts.none);
    if (narrow) write("value", width - 2, -10, (item) => (rows.length < all.length ? "" : item.text));
    else write("value", width, 4, value);
    if (counts) write("value counts", width - values, 4, (item) => item.counts);
    reachable(points, readout);
  };

  drawings.INTERVALS = figures.intervals(evenScale);
}
