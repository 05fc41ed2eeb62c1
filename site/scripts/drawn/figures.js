// Brings the figures of the page up to its boxes, and gives them what can be moved: a slider, buttons, a box.
(() => {
  "use strict";
  const { drawn } = trundle;
  const say = (...parts) => trundle.say(...parts);
  const add = (parent, name, properties) => parent.appendChild(Object.assign(document.createElement(name), properties));
  const draws = { ...drawn, tape: drawn.stops, path: drawn.above };
  let last; // sheet and values of the last update

  // Each figure's part of the page, what can be moved on it, and how it stands.
  const all = [...document.querySelectorAll("figure.show")].map((e) => {
    const f = { roll: 1, deals: [], ...e.dataset, e, line: e.querySelector("p"), svg: e.querySelector("svg") };
    for (const name of ["programs", "units", "texts", "names", "heaps"]) f[name] = f[name]?.split("|") ?? [];
    f.heaps = f.heaps.map((h) => h.split(" ").map(Number));
    f.parts = +f.parts;
    f.times = +f.times;
    f.high = f.svg.viewBox.baseVal.height;
    f.svg.removeAttribute("preserveAspectRatio");
    return f;
  });

  // What a value is by the team's own numbers: worked out exactly once all its finds are right.
  const value = (program, { own, exact }) => {
    const ours = program ? trundle.run(program, own) : NaN;
    return Number.isFinite(ours) ? trundle.run(program, exact) : NaN;
  };
  // The readings of a record as far as there are any.
  const readings = (f, { page, entries }) => {
    const field = page.fields.find(({ n }) => n === f.record);
    const typed = trundle.boxes(field).map((id) => trundle.amount(entries[id] ?? "", field.u).x);
    const scale = trundle.run(f.programs[0], { [f.record]: 1 });
    return typed.filter(Number.isFinite).map((x) => x * scale);
  };
  const right = (finds, own) => (finds ?? []).every((name) => own[name] === own[name]);

  const state = (f) => {
    const [sheet, values] = last;
    const v = f.programs.map((program, i) => (!i && f.record ? readings(f, sheet) : value(program, values)));
    if (!f.record && /^(tape|path)$/.test(f.kind)) v[0] = [v[0]].filter(Number.isFinite);
    const amount = (x) => trundle.written(trundle.plain(x), f.unit);
    const inOwn = (x, unit) => trundle.convert(x, trundle.unit(f.unit), trundle.unit(unit));
    const field = f.record && sheet.page.fields.find(({ n }) => n === f.record);
    return {
      ...f, v, amount, say,
      // Unseen, it has no size.
      width: (f.width ??= Math.max(260, f.svg.clientWidth * (f.high / f.svg.clientHeight) || 360)),
      open: !f.until || right([f.until], values.own),
      mean: right(field?.mid, values.own),
      spread: right(field?.spread, values.own),
      shown: (i) => f.texts[i] || trundle.written(trundle.plain(inOwn(v[i], f.units[i])), f.units[i]),
      near: (x) => trundle.written(trundle.step(x, f.parts === 16 ? "0.01" : "0.1"), f.unit),
    };
  };

  const show = (f, s = state(f)) => {
    const { svg, says } = draws[f.kind](s);
    const text = says ? says + (s.open ? "" : " " + say("shut", f.until)) : say("empty", f.names.join(", "));
    if (f.last !== (f.last = s.width + svg)) {
      f.svg.setAttribute("viewBox", `0 0 ${s.width} ${f.high}`);
      f.svg.innerHTML = svg; // numbers; pen.js makes text of all words, which may be the pack's
    }
    f.svg.setAttribute("aria-label", text);
    if (f.line.textContent !== text) f.line.textContent = text;
    if (f.control) f.control.hidden = !says;
  };
  // What somebody moves is read out; what follows a box is not, since the box itself answers.
  const moved = (f) => {
    f.line.role = "status";
    show(f);
  };

  const slider = (f, label, most, start, set) => {
    f.control = add(f.e, "label", { textContent: label + " " });
    const input = add(f.control, "input", { type: "range", min: 0, max: most, value: start });
    input.addEventListener("input", () => {
      set(+input.value);
      moved(f);
    });
    set(start);
  };
  const button = (f, label, act) => {
    add(f.control, "button", { type: "button", textContent: label }).addEventListener("click", () => {
      act();
      moved(f);
    });
  };

  const pick = (f) => {
    const { v: [most] } = state(f);
    const [top, bottom = 1] = f.to.split("/");
    const step = top / bottom;
    f.place = Math.max(1, Math.floor(Math.random() * (most / step))) * step;
    f.part = 0.25 + Math.random() / 2;
  };
  const reading = (f) => {
    f.control = add(f.e, "div", {});
    const label = add(f.control, "label", { textContent: say("read-ask") + " " });
    const input = add(label, "input", { autocomplete: "off", size: 8 });
    add(label, "span", { textContent: " " + f.unit });
    const told = add(f.control, "p", { role: "status" });
    const written = (x) => trundle.written(trundle.step(x, f.to), f.unit);
    input.addEventListener("change", () => {
      const a = trundle.amount(input.value, f.unit);
      const fits = Math.abs(a.x - f.place) < 1e-9;
      const wrong = a.fault ? trundle.complaint(a, f.unit) : say("read-wrong", `${Math.floor(f.place)}`);
      told.textContent = input.value.trim() && (fits ? say("read-right", written(f.place)) : wrong);
    });
    button(f, say("read-next"), () => {
      input.value = told.textContent = "";
      pick(f);
    });
    f.control.append(told);
    pick(f);
  };

  const controls = {
    unroll: (f) => slider(f, say("roll"), 100, 0, (x) => (f.roll = x / 100)),
    path: (f) => {
      const sizes = [...new Set([1, 2, 5, 10, 20, 50, f.times])].sort((a, b) => a - b);
      slider(f, say("larger"), sizes.length - 1, sizes.indexOf(f.times), (i) => (f.times = sizes[i]));
    },
    read: reading,
    shuffle: (f) => {
      f.control = add(f.e, "p", {});
      button(f, say("once"), () => f.deals.push(drawn.deal(f.heaps)));
      button(f, say("hundred"), () => {
        for (let i = 0; i < 100; i++) f.deals.push(drawn.deal(f.heaps));
      });
    },
  };

  const follow = (sheet, values) => {
    const isFirst = !last;
    last = [sheet, values];
    for (const f of all) {
      if (isFirst) controls[f.kind]?.(f);
      f.line.removeAttribute("role");
    }
    showAll();
  };
  // All are measured before the first is drawn, so that the page is laid out once.
  const showAll = () => all.map((f) => [f, state(f)]).forEach(([f, s]) => show(f, s));
  (trundle.followers ??= []).unshift(follow);
  // Also when a part of the page is opened, and its figures get a size. They keep it until then: to measure it at each
  // answer would have the page laid out once more.
  const anew = () => {
    for (const f of all) f.width = undefined;
    showAll();
  };
  const sized = new ResizeObserver(() => last && requestAnimationFrame(anew));
  all.forEach(({ svg }) => sized.observe(svg));
})();
