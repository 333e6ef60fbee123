// What was tried after what: the ways that cases went, each under the step it came from.
"use strict";

{
  const { reachable, fit, frame, drawings } = figures;

  drawings.FLOW = (place, figure, texts, readout, width) => {
    const root = { name: "", cases: 0, next: new Map(), ends: [] };
    for (const path of figure.paths) {
      let here = root;
      here.cases += path.cases;
      for (const step of path.steps) {
        if (!here.next.has(step)) here.next.set(step, { name: step, cases: 0, next: new Map(), ends: [] });
        here = here.next.get(step);
        here.cases += path.cases;
      }
      here.ends.push({ result: path.result, cases: path.cases });
    }
    const lines = [];
    const walk = (node, depth, parent) => {
      const line = { node, depth, parent, at: lines.length };
      lines.push(line);
      [...node.next.values()].sort((one, other) => other.cases - one.cases).forEach((next) => walk(next, depth + 1, line));
    };
    [...root.next.values()].sort((one, other) => other.cases - one.cases).forEach((next) => walk(next, 0, null));
    const indent = width < 620 ? 14 : 34;
    const height = lines.length * 30 + 12;
    const svg = frame(place, width, height, figure.axis);
    const thick = d3.scaleLinear([0, root.cases || 1], [1.5, width < 620 ? 12 : 22]);
    const x = (line) => 14 + line.depth * indent;
    const y = (line) => 22 + line.at * 30;
    const ways = svg.append("g").attr("aria-hidden", "true");
    for (const line of lines.filter((one) => one.parent).sort((one, other) => other.node.cases - one.node.cases)) {
      ways
        .append("path")
        .attr("class", "way")
        .attr("stroke-width", thick(line.node.cases))
        .attr("d", `M${x(line.parent)},${y(line.parent)}V${y(line) - 8}Q${x(line.parent)},${y(line)} ${x(line)},${y(line)}`);
    }
    const say = (line) => {
      const before = [];
      for (let up = line.parent; up; up = up.parent) before.unshift(up.node.name);
      const ends = line.node.ends.map((one) => `${one.result} ${one.cases}`).join(", ");
      return { before, text: `${line.node.name}: ${line.node.cases}`, ends };
    };
    const points = svg
      .append("g")
      .selectAll("g")
      .data(lines)
      .join("g")
      .attr("class", "point")
      .attr("transform", (line) => `translate(${x(line)},${y(line)})`)
      .attr("aria-label", (line) => {
        const { before, text, ends } = say(line);
        return [...before, text].join(" → ") + (ends ? ` (${ends})` : "");
      });
    points.append("rect").attr("class", "reach").attr("x", -10).attr("y", -14).attr("width", (line) => width - x(line)).attr("height", 28);
    points.append("circle").attr("class", "mark series-0").attr("r", (line) => Math.max(4, thick(line.node.cases) / 2));
    points
      .append("text")
      .attr("class", "label")
      .attr("x", 16)
      .attr("y", 5)
      .text((line) => {
        const { text, ends } = say(line);
        return fit(ends ? `${text} — ${ends}` : text, width - x(line) - 24);
      });
    reachable(points, readout);
  };
}
