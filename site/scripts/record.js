// What stands below a record: mean, spread and a dot for each run. Readings that follow each other have their dots in
// that order, rising and falling, and neither mean nor spread.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const svg = (name, attributes) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const a in attributes) e.setAttribute(a, attributes[a]);
    return e;
  };
  const answered = (finds, own) => (finds ?? []).every((name) => own[name] === own[name]);

  const follow = (box, f, xs) => {
    const { say, plain } = trundle;
    const write = (x) => trundle.written(plain(x), f.u);
    const [least, most] = [Math.min(...xs), Math.max(...xs)];
    const up = (x) => (most > least ? 50 - (44 * (x - least)) / (most - least) : 28);
    const label = say("follow", xs.length, write(xs[0]), write(xs[xs.length - 1]));
    const picture = svg("svg", { viewBox: "0 0 240 56", role: "img", "aria-label": label });
    const at = xs.map((x, i) => [10 + (220 * i) / (xs.length - 1), up(x)]);
    picture.append(svg("path", { d: "M" + at.map((p) => p.join(" ")).join("L") }));
    for (const [x, y] of at) picture.append(svg("circle", { cx: x, cy: y, r: 5 }));
    const legend = document.createElement("p");
    legend.textContent = label;
    box.append(picture, legend);
  };

  // below shows them in a box, from two runs on. What the lesson asks for comes only
  // when it has been answered.
  trundle.below = (box, f, xs, own) => {
    const { say, run, plain } = trundle;
    const write = (x) => trundle.written(plain(x), f.u);
    box.textContent = "";
    if (xs.length < 2) return;
    if (f.ord) return follow(box, f, xs);
    const value = (what) => run(`x ${what}:1`, { x: xs });
    const parts = [];
    if (answered(f.mid, own)) parts.push(say("mean", write(value("mean"))));
    if (answered(f.spread, own)) parts.push(say("spread", write(value("range"))));
    const goal = f.goal ? run(f.goal, own) : NaN;
    const all = goal === goal ? [...xs, goal] : xs;
    const least = Math.min(...all);
    const most = Math.max(...all);
    const at = (x) => 10 + (most > least ? (220 * (x - least)) / (most - least) : 110);
    const label =
      say("plot", xs.length, write(Math.min(...xs)), write(Math.max(...xs))) +
      (all === xs ? "" : ", " + say("goal", write(goal)));
    const picture = svg("svg", { viewBox: "0 0 240 28", role: "img", "aria-label": label });
    picture.append(svg("path", { d: "M4 20h232" }));
    if (all !== xs) picture.append(svg("path", { d: `M${at(goal)} 2v24`, class: "goal" }));
    for (const x of xs) picture.append(svg("circle", { cx: at(x), cy: 14, r: 5 }));
    const legend = document.createElement("p");
    if (all !== xs) parts.push("▏" + say("goal", write(goal)));
    legend.textContent = parts.join(" · ");
    box.append(picture, legend);
  };
})();
