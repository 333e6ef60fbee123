// Draws the figures of a page from the report's own numbers; the table beside each has the same ones.
"use strict";

(() => {
  const row = 26;
  const shapes = [d3.symbolCircle, d3.symbolSquare, d3.symbolTriangle, d3.symbolDiamond];
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

  const finite = (value) => typeof value === "number" && Number.isFinite(value);
  const tick = (value) => value.toLocaleString(navigator.language, { maximumSignificantDigits: 4 });

  /** An estimate as text, with its interval where it has one. */
  const written = (item) => (item.interval && item.interval !== "–" ? `${item.text} (${item.interval})` : item.text);

  /** What a screen reader says of a point, and what the line under the figure shows. */
  const spoken = (item, words) =>
    [
      [item.label, item.series].filter(Boolean).join(", "),
      item.value === null ? words.none : written(item),
      item.counts,
      { HIGH: words.high, LOW: words.low, OWN: words.own }[item.mark],
    ]
      .filter(Boolean)
      .join(" · ");

  /** One point takes the tab key, the arrow keys move among them. */
  const reachable = (svg, points, readout) => {
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

  const frame = (place, width, height, label) =>
    d3
      .select(place)
      .append("svg")
      .attr("viewBox", `0 0 ${width} ${height}`)
      .attr("width", width)
      .attr("height", height)
      .attr("role", "group")
      .attr("aria-label", label);

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

  const title = (svg, text, x, y, anchor = "start") =>
    svg
      .append("text")
      .attr("class", "axis")
      .attr("aria-hidden", "true")
      .attr("x", x)
      .attr("y", y)
      .attr("text-anchor", anchor)
      .text(text);

  // -- a point with its interval for each item

  const logTicks = (low, high) => {
    const ticks = [];
    for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
      for (const digit of [1, 2, 5]) {
        const value = Number(`${digit}e${power}`);
        if (value >= low * 0.999 && value <= high * 1.001) ticks.push(value);
      }
    }
    return ticks.length > 8 ? ticks.filter((value) => /^1/.test(value.toExponential())) : ticks;
  };

  /** Ratios beyond these are drawn as open: the axis would say nothing else. */
  const leastRatio = 0.02;
  const mostRatio = 50;

  const scaleOf = (figure, from, to) => {
    const ends = figure.items.flatMap((item) => [item.value, item.lower, item.upper]).filter(finite);
    const levels = figure.lines.flatMap((line) => line.points.map((point) => point.y));
    if (figure.logarithmic) {
      const inside = [...ends, 1].filter((value) => value > 0).map((value) => Math.min(Math.max(value, leastRatio), mostRatio));
      const low = Math.min(0.5, d3.min(inside));
      const high = Math.max(2, d3.max(inside));
      return { x: d3.scaleLog([low / 1.15, high * 1.15], [from, to]).clamp(true), ticks: logTicks(low / 1.15, high * 1.15) };
    }
    const most = d3.max([...ends, ...levels]) || 1;
    const x = d3.scaleLinear([0, most], [from, to]).nice(5);
    if (figure.axis.includes("%") && x.domain()[1] > 100) x.domain([0, 100]);
    return { x, ticks: x.ticks(Math.max(3, Math.floor((to - from) / 80))) };
  };

  const intervals = (place, figure, words, readout, width) => {
    const series = [...new Set(figure.items.map((item) => item.series))];
    const groups = d3.groups(figure.items, (item) => item.label);
    const narrow = width < 620;
    const texts = narrow ? 0 : 190;
    const counts = width < 860 ? 0 : 120;
    const left = narrow ? 4 : Math.min(300, Math.max(140, d3.max(groups, ([label]) => label.length) * 7.2 + 14));
    const top = series.length > 1 ? 34 : 12;
    let y = top;
    const rows = [];
    for (const [label, items] of groups) {
      if (narrow) y += 20;
      rows.push({ label, y: y + (narrow ? -6 : row / 2), items: items.map((item, at) => ({ item, y: y + row * at + row / 2 })) });
      y += row * items.length + (items.length > 1 ? 8 : 0);
    }
    const bottom = y + 4;
    const right = width - texts - counts - 16;
    const { x, ticks } = scaleOf(figure, left + 8, right);
    const svg = frame(place, width, bottom + 44, figure.axis);
    axisBelow(svg, x, top, bottom, ticks);
    title(svg, figure.axis, left + 8, bottom + 38);
    for (const line of figure.lines) {
      const at = x(line.points[0].y);
      svg.append("line").attr("class", "level").attr("x1", at).attr("x2", at).attr("y1", top).attr("y2", bottom);
      title(svg, line.label, at + 4, top - 2);
    }
    if (series.length > 1) {
      let at = left + 8;
      series.forEach((name, index) => {
        mark(svg.append("g").attr("transform", `translate(${at + 6},14)`).attr("aria-hidden", "true"), index);
        title(svg, name, at + 18, 18);
        at += name.length * 7.4 + 44;
      });
    }
    const names = svg.append("g").attr("aria-hidden", "true");
    for (const { label, y: at } of rows) {
      const text = names
        .append("text")
        .attr("class", "label")
        .attr("x", narrow ? 4 : left - 6)
        .attr("y", at + 4)
        .attr("text-anchor", narrow ? "start" : "end")
        .text(fit(label, narrow ? width - 8 : left - 10));
      text.append("title").text(label);
    }
    const all = rows.flatMap((one) => one.items);
    const points = svg
      .append("g")
      .selectAll("g")
      .data(all)
      .join("g")
      .attr("class", "point")
      .attr("transform", ({ y: at }) => `translate(0,${at})`)
      .attr("aria-label", ({ item }) => spoken(item, words));
    const [least, most] = x.range();
    points.each(function ({ item }) {
      const point = d3.select(this);
      point.append("rect").attr("class", "reach").attr("x", left).attr("y", -row / 2).attr("width", width - left).attr("height", row);
      if (item.value === null) {
        point.append("text").attr("class", "value").attr("x", least + 4).attr("y", 4).text(words.none);
        return;
      }
      const openLeft = figure.logarithmic && (item.lower === 0 || (finite(item.lower) && item.lower < leastRatio));
      const openRight = item.upper === "Inf" || (figure.logarithmic && finite(item.upper) && item.upper > mostRatio);
      if (item.lower !== null && item.upper !== null) {
        const from = openLeft ? least : x(item.lower);
        const to = openRight ? most : x(item.upper);
        point.append("line").attr("class", "interval").attr("x1", from).attr("x2", to);
        end(point, from, openLeft, -1);
        end(point, to, openRight, 1);
      }
      const value = item.value === "Inf" ? most : figure.logarithmic && item.value === 0 ? least : x(item.value);
      mark(point.append("g").attr("transform", `translate(${value},0)`), series.indexOf(item.series), item.mark);
    });
    if (!narrow) {
      points
        .append("text")
        .attr("class", "value")
        .attr("x", width)
        .attr("y", 4)
        .attr("text-anchor", "end")
        .text(({ item }) => (item.value !== null ? fit(written(item), texts, 12) : counts ? "" : item.counts));
      if (counts) {
        points
          .append("text")
          .attr("class", "value counts")
          .attr("x", width - texts)
          .attr("y", 4)
          .attr("text-anchor", "end")
          .text(({ item }) => item.counts);
      }
    } else {
      points
        .append("text")
        .attr("class", "value")
        .attr("x", width - 2)
        .attr("y", -10)
        .attr("text-anchor", "end")
        .text(({ item }) => (rows.length < all.length ? "" : item.text));
    }
    reachable(svg, points, readout);
  };

  /** A bar across at an end that is known, an arrow where it is open. */
  const end = (point, at, open, side) =>
    open
      ? point.append("path").attr("class", "arrow").attr("d", `M${at + side * 2},0l${-side * 9},-5v10z`)
      : point.append("line").attr("class", "interval").attr("x1", at).attr("x2", at).attr("y1", -4).attr("y2", 4);

  const mark = (place, index, special = "NONE", size = 62) =>
    place
      .append("path")
      .attr("class", special === "NONE" ? `mark series-${index}` : `mark series-${index} special`)
      .attr("d", d3.symbol(special === "NONE" ? shapes[index % shapes.length] : d3.symbolDiamond, special === "NONE" ? size : 120)());

  // -- a value for each period or event, with limits and signals

  const control = (place, figure, words, readout, width) => {
    const height = 320;
    const box = { left: 56, right: width - (width < 620 ? 12 : 100), top: 28, bottom: height - 54 };
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
      axis.append("text").attr("class", "tick").attr("x", box.left - 6).attr("y", y(value) + 4).attr("text-anchor", "end").text(tick(value));
    }
    title(svg, figure.axis, 2, 11);
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
    title(svg, figure.across, (box.left + box.right) / 2, height - 8, "middle");
    const steps = (key) =>
      items
        .map((item, at) => (finite(item[key]) ? `M${x(at) - half},${y(item[key])}h${2 * half}` : ""))
        .join("");
    for (const key of ["lower", "upper"]) svg.append("path").attr("class", "limit").attr("aria-hidden", "true").attr("d", steps(key));
    const last = items.length - 1;
    if (last >= 0 && finite(items[last].upper) && width >= 620) {
      title(svg, words.limits, box.right + 4, y(items[last].upper) + 4);
    }
    for (const line of figure.lines) {
      const at = y(line.points[0].y);
      svg.append("line").attr("class", "level").attr("x1", box.left).attr("x2", box.right).attr("y1", at).attr("y2", at);
      if (width >= 620) title(svg, line.label, box.right + 4, at + 4);
    }
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
      .attr("aria-label", ({ item }) => spoken(item, words));
    points.append("circle").attr("class", "reach").attr("r", 12);
    const size = x.step() < 12 ? 12 : 62;
    const named = { HIGH: -Infinity, LOW: -Infinity };
    points.each(function ({ item, at }) {
      const special = item.mark === "HIGH" || item.mark === "LOW";
      mark(d3.select(this), 0, special ? item.mark : "NONE", size);
      // The shape says it too, so a word that would stand on the one before it is left out.
      if (special && x(at) - named[item.mark] > 48) {
        named[item.mark] = x(at);
        d3.select(this)
          .append("text")
          .attr("class", "value strong")
          .attr("y", item.mark === "HIGH" ? -12 : 22)
          .attr("text-anchor", "middle")
          .text(words[item.mark.toLowerCase()]);
      }
    });
    reachable(svg, points, readout);
  };

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

  // -- each centre by its uses, within curves of limits

  const funnel = (place, figure, words, readout, width) => {
    const height = 400;
    const box = { left: 56, right: width - (width < 620 ? 12 : 96), top: 30, bottom: height - 54 };
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
    for (const value of y.ticks(5)) {
      axis.append("text").attr("class", "tick").attr("x", box.left - 6).attr("y", y(value) + 4).attr("text-anchor", "end").text(tick(value));
    }
    title(svg, figure.axis, 2, 11);
    title(svg, figure.across, (box.left + box.right) / 2, height - 8, "middle");
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
      if (width >= 620) title(svg, line.label, box.right + 4, y(lastPoint.y) + 4);
    });
    for (const line of figure.lines.filter((one) => one.points.length === 1)) {
      const at = y(line.points[0].y);
      svg.append("line").attr("class", "level").attr("x1", box.left).attr("x2", box.right).attr("y1", at).attr("y2", at);
      if (width >= 620) title(svg, line.label, box.right + 4, at + 4);
    }
    const points = svg
      .append("g")
      .selectAll("g")
      .data(items)
      .join("g")
      .attr("class", "point")
      .attr("transform", (item) => `translate(${x(item.of)},${y(item.value)})`)
      .attr("aria-label", (item) => spoken(item, words));
    points.append("circle").attr("class", "reach").attr("r", 12);
    const names = room(
      items.map((item) => {
        const word = { HIGH: words.high, LOW: words.low, OWN: words.own }[item.mark];
        const text = fit(word ? `${item.label} (${word})` : item.label, 190);
        const atEnd = x(item.of) > box.right - 150;
        return { item, text, atEnd, left: x(item.of) + (atEnd ? -9 - 7.3 * text.length : 9), top: y(item.value) - 18, first: Boolean(word) };
      }),
    );
    points.each(function (item) {
      mark(d3.select(this), 0, item.mark);
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
    reachable(svg, points, readout);
  };

  // -- bars of 100 %, a share for each series

  const shares = (place, figure, words, readout, width) => {
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
    title(svg, figure.axis, 4, bottom + 38);
    legend.forEach(({ name, x: left, y }, index) => {
      svg.append("rect").attr("class", `share share-${index}`).attr("aria-hidden", "true").attr("x", left + 4).attr("y", y + 3).attr("width", 14).attr("height", 14);
      title(svg, name, left + 24, y + 15);
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
      title(svg, `${fit(label, width - 90)} (n = ${tick(total)})`, 4, top + index * bar + 14).attr("class", "label");
    });
    const points = svg
      .append("g")
      .selectAll("g")
      .data(parts.filter((part) => part.item.value > 0))
      .join("g")
      .attr("class", "point")
      .attr("aria-label", ({ item }) => spoken(item, words));
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
    reachable(svg, points, readout);
  };

  // -- what was tried after what: the ways that cases went, each under the step it came from

  const flow = (place, figure, words, readout, width) => {
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
    reachable(svg, points, readout);
  };

  const drawings = { INTERVALS: intervals, FOREST: intervals, CONTROL: control, FUNNEL: funnel, SHARES: shares, FLOW: flow };

  // -- keeping a figure

  const styles = ["fill", "stroke", "stroke-width", "stroke-dasharray", "opacity", "font-size", "font-family", "font-weight", "stroke-linecap"];

  /** Around a figure that is kept. */
  const margin = 16;

  /** Lines of text that fit a width. */
  const lines = (text, width, size) => {
    const most = Math.floor(width / (size * 0.56));
    const made = [""];
    for (const word of text.trim().split(/\s+/)) {
      const last = made.length - 1;
      if (made[last].length + word.length < most) made[last] = `${made[last]} ${word}`.trim();
      else made.push(word);
    }
    return made.filter(Boolean);
  };

  /** A copy that looks the same without this page's styles, on the page's ground, with what it must not be read without. */
  const alone = (svg, name, words) => {
    const copy = svg.cloneNode(true);
    const from = [svg, ...svg.querySelectorAll("*")];
    const to = [copy, ...copy.querySelectorAll("*")];
    from.forEach((node, at) => {
      const look = getComputedStyle(node);
      for (const style of styles) to[at].setAttribute(style, look.getPropertyValue(style));
      to[at].removeAttribute("class");
      to[at].removeAttribute("tabindex");
    });
    const { color, fontFamily } = getComputedStyle(document.body);
    const inner = svg.width.baseVal.value;
    const above = lines(name, inner, 16);
    const below = lines(`${[words.source.trim(), words.filters].filter(Boolean).join("; ")}. ${words.cautions}`, inner, 11);
    const write = (text, size, weight, y) => {
      const line = document.createElementNS("http://www.w3.org/2000/svg", "text");
      line.textContent = text;
      const look = { x: 0, y, "font-size": size, "font-weight": weight, "font-family": fontFamily, fill: color };
      for (const [key, value] of Object.entries(look)) line.setAttribute(key, value);
      copy.append(line);
    };
    const top = margin + above.length * 22;
    above.forEach((text, at) => write(text, 16, 700, margin + 16 - top + at * 22));
    below.forEach((text, at) => write(text, 11, 400, svg.height.baseVal.value + 18 + at * 15));
    const width = inner + 2 * margin;
    const height = svg.height.baseVal.value + top + 10 + below.length * 15 + margin;
    const ground = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    const place = { x: -margin, y: -top, width, height, fill: getComputedStyle(document.documentElement).backgroundColor };
    for (const [name, value] of Object.entries(place)) ground.setAttribute(name, value);
    copy.insertBefore(ground, copy.firstChild);
    copy.setAttribute("viewBox", `${-margin} ${-top} ${width} ${height}`);
    copy.setAttribute("width", width);
    copy.setAttribute("height", height);
    copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
    return new XMLSerializer().serializeToString(copy);
  };

  const save = (blob, name) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  };

  const asPng = (text, name) => {
    const picture = new Image();
    picture.onload = () => {
      const canvas = document.createElement("canvas");
      canvas.width = picture.naturalWidth * 2;
      canvas.height = picture.naturalHeight * 2;
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      canvas.toBlob((blob) => save(blob, name), "image/png");
    };
    picture.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(text);
  };

  const button = (text, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "quiet";
    made.textContent = text;
    made.addEventListener("click", act);
    return made;
  };

  // -- drawing

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
    const words = place.dataset;
    if (data === undefined || words.width === String(width)) return;
    words.width = String(width);
    place.replaceChildren();
    const readout = document.createElement("p");
    readout.className = "readout";
    readout.setAttribute("role", "status");
    readout.textContent = words.keys;
    drawings[data.kind](place, data, words, readout, width);
    place.append(readout);
    const svg = place.querySelector("svg");
    const kept = () => alone(svg, figure.getAttribute("aria-label"), words);
    const buttons = document.createElement("div");
    buttons.className = "buttons";
    buttons.append(
      button(words.svg, () => save(new Blob([kept()], { type: "image/svg+xml" }), figure.dataset.name + ".svg")),
      button(words.png, () => asPng(kept(), figure.dataset.name + ".png")),
    );
    place.append(buttons);
  };

  const figures = () => document.querySelectorAll("figure[data-figures]");
  const drawAll = () => figures().forEach(draw);
  document.addEventListener("htmx:afterSwap", drawAll);
  let waiting;
  addEventListener("resize", () => {
    clearTimeout(waiting);
    waiting = setTimeout(drawAll, 150);
  });
  // A page is laid out for paper at once, so there is no time to fetch; and a figure scaled down to it has letters too small.
  addEventListener("beforeprint", () => figures().forEach((figure) => redraw(figure, paper)));
  addEventListener("afterprint", drawAll);
  drawAll();
})();
