// Keeping a figure as a file: a picture that says by itself what it shows, of what, and with which cautions.
"use strict";

{
  const styles = ["fill", "stroke", "stroke-width", "stroke-dasharray", "opacity", "font-size", "font-family", "font-weight", "stroke-linecap"];

  /** Around a figure that is kept. */
  const margin = 16;

  /** Lines of text that fit a width. */
  const lines = (text, width, size) => {
    const most = Math.floor(width / (size * 0.56));
    const made = [""];
    for (const next of text.trim().split(/\s+/)) {
      const last = made.length - 1;
      if (made[last].length + next.length < most) made[last] = `${made[last]} ${next}`.trim();
      else made.push(next);
    }
    return made.filter(Boolean);
  };

  /** A copy that looks the same without this page's styles, on the page's ground, with what it must not be read without. */
  const alone = (svg, name, key, texts) => {
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
    const source = [texts.source.trim(), texts.filters].filter(Boolean).join("; ");
    const below = lines([key, `${source}.`, texts.cautions].filter(Boolean).join(" "), inner, 11);
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

  /** The buttons that keep a drawn figure. */
  figures.keepers = (figure, svg, texts) => {
    const key = figure.querySelector(".key")?.textContent.trim();
    const kept = () => alone(svg, figure.getAttribute("aria-label"), key, texts);
    const buttons = document.createElement("div");
    buttons.className = "buttons";
    buttons.append(
      button(texts.svg, () => save(new Blob([kept()], { type: "image/svg+xml" }), figure.dataset.name + ".svg")),
      button(texts.png, () => asPng(kept(), figure.dataset.name + ".png")),
    );
    return buttons;
  };
}
