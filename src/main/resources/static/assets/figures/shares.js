// Bars of 100 %, a share for each series.
"use strict";

{
  const { finite, tick, spoken, reachable, fit, frame, axisBelow, note, drawings } = figures;

  drawings.SHARES = (place, figure, texts, readout, width) => {
    const groups = d3.groups(figure.items, (item) => item.label);
    const series = [...new Set(figure.items.map((item) => item.series))];
    const legend = [];
    let at = 0;
    let line = 0;
    for (const name of series) {
      const need = name.length * 7.4 + 34;
      if (at + need > width && at > 0) {
        at = 0;
        line++;
      }
      legend.push({ name, x: at, y: line * 22 });
      at += need;
    }
    const top = (line + 1) * 22 + 10;
    const bar = 52;
    const bottom = top + groups.length * bar;
    const svg = frame(place, width, bottom + 44, figure.axis);
    const x = d3.scaleLinear([0, 100], [4, width - 18]);
    axisBelow(svg, x, top, bottom, [0, 25, 50, 75, 100]);
    note(svg, figure.axis, 4, bottom + 38);
    legend.forEach(({ name, x: left, y }, index) => {
      svg.append("rect").attr("class", `share share-${index}`).attr("aria-hidden", "true").attr("x", left + 4).attr("y", y + 3).attr("width", 14).attr("height", 14);
      note(svg, name, left + 24, y + 15);
    });
    const parts = [];
    groups.forEach(([label, items], index) => {
      let from = 0;
      for (const item of items) {
        if (!finite(item.value)) continue;
        parts.push({ item, from, y: top + index * bar + 20, step: series.indexOf(item.series) });
        from += item.value;
      }
      const total = items.length ? items[0].of : 0;
      note(svg, `${fit(label, width - 90)} (n = ${tick(total)})`, 4, top + index * bar + 14).attr("class", "label");
    });
    const points = svg
      .append("g")
      .selectAll("g")
      .data(parts.filter((part) => part.item.value > 0))
      .join("g")
      .attr("class", "point")
      .attr("aria-label", ({ item }) => spoken(item, texts));
    points
      .append("rect")
      .attr("class", ({ step }) => `share share-${step}`)
      .attr("x", ({ from }) => x(from))
      .attr("y", ({ y }) => y)
      .attr("width", ({ item, from }) => Math.max(1, x(from + item.value) - x(from)))
      .attr("height", bar - 26);
    points
      .append("text")
      .attr("class", ({ step }) => `inside inside-${step}`)
      .attr("aria-hidden", "true")
      .attr("x", ({ item, from }) => (x(from) + x(from + item.value)) / 2)
      .attr("y", ({ y }) => y + 18)
      .attr("text-anchor", "middle")
      .text(({ item, from }) => (x(from + item.value) - x(from) > 44 ? item.text : ""));
    reachable(points, readout);
  };
}
