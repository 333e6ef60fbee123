// Intervals of ratios, on a logarithmic scale around 1.
"use strict";

{
  const { finite, drawings, intervals } = figures;

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

  /** Takes in half and double at least, and goes no further than slides do. */
  const ratioScale = (figure, from, to) => {
    const { farthestRatio } = figure;
    const ends = figure.items.flatMap((item) => [item.value, item.lower, item.upper]).filter((value) => finite(value) && value > 0);
    const low = Math.max(Math.min(0.5, d3.min(ends) ?? 1) / 1.15, 1 / farthestRatio);
    const high = Math.min(Math.max(2, d3.max(ends) ?? 1) * 1.15, farthestRatio);
    return { x: d3.scaleLog([low, high], [from, to]).clamp(true), ticks: logTicks(low, high) };
  };

  drawings.FOREST = intervals(ratioScale);
}
