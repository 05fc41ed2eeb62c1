// The worked steps of a right answer, with the team's own numbers: one line, and all of them in a fold.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // A number that the team measured is shown as they wrote it: 4.990.
  const number = (e, values, texts) => {
    const { p, i, to, v, b } = e.dataset;
    const at = (all) => (i ? all?.[i - 1] : all);
    const x = at(trundle.run(p, values));
    const [, record] = /^(\S+) (?:max|min):1$/.exec(p) ?? [];
    const written = record ? texts[record]?.[values[record].indexOf(x)] : at(texts[p]);
    const text = to || v ? trundle.parts(x, to, v) : (written ?? trundle.digits(x));
    if (b === undefined) return text;
    const brackets = text[0] === "−" || (b && text.includes(b));
    trundle.put(e.parentNode.lastChild, brackets ? ")" : "");
    return (brackets ? "(" : "") + text;
  };

  // What depends on the team or its robot is theirs, and looks so; and so is what they have worked out,
  // which stands alone.
  const isOurs = (program) => /(^| )[^-+*/^~=#.\d\s][^\s:]*( |$)/.test(program);

  const element = (parent, name, className = "") =>
    parent.appendChild(Object.assign(document.createElement(name), { className }));
  const formula = (box, math) => {
    box.innerHTML = math; // made when the pack was built
    const isAlone = box.querySelectorAll("mn").length === 1;
    for (const e of box.querySelectorAll("[data-p]")) e.classList.toggle("ours", isAlone || isOurs(e.dataset.p));
    return box;
  };

  // A line that is too long for the screen shows that it goes on. All are looked at together, once the page is
  // laid out.
  const asked = new Set();
  const goesOn = (e) => {
    if (!asked.size) requestAnimationFrame(look);
    asked.add(e);
  };
  const look = () => {
    const long = [...asked].map((e) => [e, e.scrollWidth > e.clientWidth + 1]);
    for (const [e, isLong] of long) {
      e.classList.toggle("more", isLong);
      if (e.localName === "ol") continue;
      if (isLong) e.tabIndex = 0; // so that keys can scroll it
      else e.removeAttribute("tabindex");
    }
    asked.clear();
  };

  const build = (f) => {
    const box = Object.assign(document.createElement("div"), { id: "own_" + f.n, className: "own" });
    const one = element(box, "span", "one");
    for (const math of trundle.lines[f.n] ?? []) formula(element(one, "span", "piece"), math);
    const details = element(box, "details");
    element(details, "summary").textContent = trundle.say("steps");
    const list = element(details, "ol", "steps");
    list.tabIndex = 0; // it may have to be scrolled
    for (const [math, aside] of trundle.steps[f.n] ?? []) {
      formula(element(list, "li", aside ? "aside" : ""), math);
    }
    details.addEventListener("toggle", () => goesOn(list));
    document.getElementById("told_" + f.n).after(box);
    return box;
  };

  // Two lines that come to the same digits are one.
  const once = (lines) => {
    let before;
    for (const line of lines) {
      const text = line.textContent.replace(/^.*?[=≈]/, "");
      if (line.hidden !== (text === before)) line.hidden = !line.hidden;
      before = text;
    }
  };

  // trundle.worked shows one line of the steps of a find if its answer is right, and all of them in a fold. The line
  // waits where a measurement looks odd: that comes first.
  trundle.worked = (f, right, { exact, texts }, odd) => {
    const box = document.getElementById("own_" + f.n) ?? (right && build(f));
    if (!box) return;
    box.hidden = !right;
    if (!right) return;
    const of = JSON.stringify([trundle.width, Boolean(odd), f.p.split(" ").map((name) => [exact[name], texts[name]])]);
    if (box.dataset.of === of) return; // most entries are of other boxes
    box.dataset.of = of;
    const [one] = box.children;
    one.hidden = Boolean(odd);
    for (const piece of one.children) goesOn(piece);
    for (const e of box.querySelectorAll("[data-p]")) trundle.fill(e, number(e, exact, texts));
    // Rounding may only change how the number is written, as in 12 and 12.0.
    for (const e of box.querySelectorAll("[data-to]")) {
      if (e.dataset.to === trundle.truth) continue;
      const x = trundle.run(e.dataset.p, exact);
      const rounded = trundle.read(trundle.step(x, e.dataset.to)).x;
      const same = trundle.snap(rounded) === trundle.snap(x) && !trundle.digits(x).includes("…");
      const relation = [...e.closest("math").querySelectorAll("mo")].find((mo) => /[=≈]/.test(mo.textContent));
      trundle.put(relation, relation.textContent.replace(/[=≈]/, same ? "=" : "≈"));
    }
    once(one.children);
    once(box.querySelectorAll("li"));
  };
})();
