// How a team's runs change over the season: for each lesson with a target the error of the mean, and the scatter, in
// parts of the target, with limits by which to see what is more than chance.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const [width, height, left, gap] = [520, 132, 56, 34];
  const svg = (parent, name, attributes, text) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const a in attributes) e.setAttribute(a, attributes[a]);
    if (text) e.textContent = text;
    parent?.append(e);
    return e;
  };

  // trundle.control works the limits out: the spread of single runs is the mean of s ÷ c4 (NIST/SEMATECH e-Handbook
  // 6.3.2.1), the middle line of the means is the target. points are {n, bias, sd} in percent of it.
  trundle.control = (points) => {
    const spread = points.reduce((all, { n, sd }) => all + sd / trundle.c4(n), 0) / points.length;
    return points.map((p) => {
      const c4 = trundle.c4(p.n);
      const half = 3 * Math.sqrt(1 - c4 * c4);
      const [mean, low, high] = [(3 * spread) / Math.sqrt(p.n), Math.max(0, c4 - half) * spread, (c4 + half) * spread];
      return { ...p, limit: mean, low, high, middle: c4 * spread };
    });
  };

  const panel = (p, top, title, points, { y, low, high, middle }) => {
    const all = points.flatMap((q) => [y(q), low(q), high(q), middle(q)]);
    const [least, most] = [Math.min(...all), Math.max(...all)];
    const up = (x) => top + height - ((x - least) / (most - least || 1)) * height;
    const wide = (width - left - 10) / points.length;
    const across = (i) => left + (i + 0.5) * wide;
    svg(p, "text", { x: 2, y: top - 10 }, title).style.textAnchor = "start";
    for (const [of, kind] of [[low, "dashed"], [high, "dashed"], [middle, "faint"]]) {
      const d = points.map((q, i) => `M${left + i * wide} ${up(of(q)).toFixed(1)}h${wide.toFixed(1)}`).join("");
      svg(p, "path", { d, class: kind });
    }
    for (const x of new Set([least, most])) {
      const text = trundle.step(x, "0.1") + " %";
      svg(p, "text", { x: left - 6, y: up(x) + 5 }, text).style.textAnchor = "end";
    }
    svg(p, "path", { d: "M" + points.map((q, i) => `${across(i)} ${up(y(q)).toFixed(1)}`).join("L"), class: "line" });
    points.forEach((q, i) => {
      const isOut = y(q) > high(q) || y(q) < low(q);
      svg(p, isOut ? "rect" : "circle", isOut
        ? { x: across(i) - 7, y: up(y(q)) - 7, width: 14, height: 14 }
        : { cx: across(i), cy: up(y(q)), r: 6 });
    });
    return across;
  };

  // trundle.chart draws a team's season into a box.
  trundle.chart = (box, points, label) => {
    const q = trundle.control(points);
    const tall = 2 * (height + gap) + 24;
    const p = svg(box, "svg", { viewBox: `0 0 ${width} ${tall}`, role: "img", "aria-label": label });
    const across = panel(p, gap - 6, trundle.tell("class-error"), q, {
      y: (p) => p.bias, low: (p) => -p.limit, high: (p) => p.limit, middle: () => 0,
    });
    panel(p, height + 2 * gap - 6, trundle.tell("class-scatter"), q, {
      y: (p) => p.sd, low: (p) => p.low, high: (p) => p.high, middle: (p) => p.middle,
    });
    q.forEach((one, i) => svg(p, "text", { x: across(i), y: tall - 4 }, one.name));
    return q;
  };
})();
