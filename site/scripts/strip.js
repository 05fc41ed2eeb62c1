// Draws runs on a piece of tape, and readings that follow each other as a line that rises and falls.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const svg = (parent, name, attributes, text) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const a in attributes) e.setAttribute(a, attributes[a]);
    if (text) e.textContent = text;
    parent?.append(e);
    return e;
  };
  const picture = (box, width, height, label) =>
    svg(box, "svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": label });
  const widthOf = (box) => Math.max(240, box.clientWidth || 480);

  // The distances between ticks that a tape may have: sixteenths and their doubles in inches, else 1, 2 and 5.
  const powers = Array.from({ length: 16 }, (_, i) => i - 8);
  const tens = powers.flatMap((p) => [1, 2, 5].map((n) => +`${n}e${p}`));
  const rungs = (unit) => (unit === "in" ? [1 / 16, 1 / 8, 1 / 4, 1 / 2, ...tens.filter((n) => n >= 1)] : tens);
  const isMultiple = (a, b) => Math.abs(a / b - Math.round(a / b)) < 1e-6;
  const name = (x, unit) => (unit === "in" ? trundle.step(x, "1/16") : trundle.plain(trundle.snap(x)));

  // From where to where a scale goes, so that nothing is at its very ends.
  const scale = (all, width) => {
    const [least, most] = [Math.min(...all), Math.max(...all)];
    const room = (most - least) * 0.12 || Math.abs(most) * 0.02 || 1;
    const [from, to] = [least - room, most + room];
    return { from, to, per: width / (to - from), at: (x) => ((x - from) * width) / (to - from) };
  };

  // A text about x that keeps inside the picture.
  const letter = 9; // as wide as one is at most, on average
  const write = (parent, x, y, width, text, className = "") => {
    const half = (text.length * letter) / 2;
    const inside = Math.max(half, Math.min(width - half, x));
    svg(parent, "text", { x: inside, y, class: className }, text);
  };

  const ticks = (parent, { from, to, per, at }, top, width, unit) => {
    const all = rungs(unit);
    const fine = all.find((n) => n * per >= 5);
    if (!fine || Math.max(to, -from) / fine > 2 ** 53) return; // a slip of the keys: no tape has such marks
    const longest = (n) => Math.max(...[from, to].map((x) => name(Math.round(x / n) * n, unit).length));
    const named = all.find((n) => n * per >= letter * longest(n) + 14 && isMultiple(n, fine)) ?? fine;
    let path = "";
    let said = false;
    for (let i = Math.ceil(from / fine); i * fine <= to; i++) {
      const x = i * fine;
      const on = (n) => isMultiple(x, n);
      const height = on(named) ? 20 : on(named / 2) ? 14 : unit === "in" && on(named / 4) ? 11 : 7;
      path += `M${at(x).toFixed(1)} ${top}v${height}`;
      const text = on(named) && name(x, unit) + (said || unit.length > 3 ? "" : " " + unit);
      if (!text || Math.min(at(x), width - at(x)) < (text.length * letter) / 2) continue;
      said = true;
      svg(parent, "text", { x: at(x), y: top + 36, class: "named" }, text);
    }
    svg(parent, "path", { d: path, class: "ticks" });
  };

  Object.assign(trundle, { svg, scale, ticks });

  // Dots that would cover each other are stacked.
  const stack = (places) => {
    const levels = [];
    return places.map((x) => {
      let level = 0;
      while (levels[level]?.some((other) => Math.abs(other - x) < 13)) level++;
      (levels[level] ??= []).push(x);
      return level;
    });
  };

  // trundle.strip draws runs xs; goal, mean and spread are texts with their values, and only there if they may be
  // seen. room tells whether space is kept for the last two, so that the page does not move when they come.
  trundle.strip = (box, { xs, unit, label, goal, mean, spread, room }) => {
    const width = widthOf(box);
    const s = scale(goal ? [...xs, goal.x] : xs, width);
    const levels = stack(xs.map(s.at));
    const lift = Math.min(14, 90 / Math.max(...levels, 1));
    const head = room ? 46 : 4;
    const top = head + Math.max(...levels) * lift + 18;
    const p = picture(box, width, top + (goal ? 66 : 44), label);
    svg(p, "path", { d: `M1 ${top}H${width - 1}v42H1z`, class: "strip" });
    ticks(p, s, top, width, unit);
    if (goal) {
      const x = s.at(goal.x);
      svg(p, "path", { d: `M${x} ${top - 14}V${top + 48}h7`, class: "goal" });
      write(p, x, top + 62, width, goal.text, "goal");
    }
    xs.forEach((x, i) => svg(p, "circle", { cx: s.at(x), cy: top - 8 - levels[i] * lift, r: 7 }));
    if (spread) {
      const [a, b] = [s.at(Math.min(...xs)), s.at(Math.max(...xs))];
      svg(p, "path", { d: `M${a} 29v-9H${b}v9`, class: "line" });
      write(p, (a + b) / 2, 14, width, spread);
    }
    if (mean) {
      const x = s.at(mean.x);
      svg(p, "path", { d: `M${x} 46V${top}`, class: "faint" });
      svg(p, "path", { d: `M${x} 46l-6-11h12z`, class: "line" });
      const aside = (mean.text.length * letter) / 2 + 6;
      write(p, x < width / 2 ? x + aside : x - aside, 46, width, mean.text);
    }
  };

  // trundle.inOrder draws readings as a line over their numbers, with an axis at the left.
  trundle.inOrder = (box, { xs, unit, label }) => {
    const [width, height, left, top] = [widthOf(box), 150, 56, 18];
    const s = scale(xs, height - top - 24);
    const p = picture(box, width, height, label);
    const up = (x) => height - 24 - s.at(x);
    const across = (i) => left + 18 + ((width - left - 36) * i) / (xs.length - 1);
    const step = rungs(unit).find((n) => n * s.per >= 30);
    for (let i = Math.ceil(s.from / step); i * step <= s.to && Math.abs(i) < 2 ** 53; i++) {
      const x = i * step;
      svg(p, "path", { d: `M${left} ${up(x)}H${width}`, class: "faint" });
      svg(p, "text", { x: left - 6, y: up(x) + 5 }, name(x, unit)).style.textAnchor = "end";
    }
    svg(p, "text", { x: 2, y: 12 }, unit).style.textAnchor = "start";
    svg(p, "path", { d: `M${left} ${top - 8}V${height - 24}H${width}`, class: "line" });
    svg(p, "path", { d: "M" + xs.map((x, i) => `${across(i)} ${up(x)}`).join("L"), class: "line" });
    xs.forEach((x, i) => {
      svg(p, "circle", { cx: across(i), cy: up(x), r: 7 });
      svg(p, "text", { x: across(i), y: height - 6 }, `${i + 1}`);
    });
  };
})();
