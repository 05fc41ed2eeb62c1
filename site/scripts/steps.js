// The worked steps of a right answer, with the team's own numbers.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // A number that the team measured is shown as they wrote it: 4.990.
  const number = (e, values, texts) => {
    const { p, i, to, b } = e.dataset;
    const at = (all) => (i ? all?.[i - 1] : all);
    const x = at(trundle.run(p, values));
    const [, record] = /^(\S+) (?:max|min):1$/.exec(p) ?? [];
    const written = record ? texts[record]?.[values[record].indexOf(x)] : at(texts[p]);
    const text = to ? trundle.step(x, to) : (written ?? trundle.digits(x));
    if (b === undefined) return text;
    const brackets = text[0] === "−" || (b && text.includes(b));
    e.parentNode.lastChild.textContent = brackets ? ")" : "";
    return (brackets ? "(" : "") + text;
  };

  const build = (f) => {
    const details = document.createElement("details");
    details.id = "own_" + f.n;
    details.className = "own";
    const list = details.appendChild(document.createElement("ol"));
    list.className = "steps";
    list.tabIndex = 0; // it may have to be scrolled
    details.prepend(Object.assign(document.createElement("summary"), { textContent: trundle.say("steps") }));
    for (const [math, aside] of trundle.steps[f.n] ?? []) {
      const line = list.appendChild(document.createElement("li"));
      line.innerHTML = math; // made when the pack was built
      if (aside) line.className = "aside";
    }
    document.getElementById("told_" + f.n).after(details);
    return details;
  };

  // trundle.worked shows the steps of a find if its answer is right, and opens them when
  // it has just become so.
  trundle.worked = (f, right, { exact, texts }) => {
    const details = document.getElementById("own_" + f.n) ?? (right && build(f));
    if (!details) return;
    if (right && details.dataset.right !== "1") details.open = true;
    details.dataset.right = right ? "1" : "";
    details.hidden = !right;
    if (!right) return;
    for (const e of details.querySelectorAll("[data-p]")) trundle.fill(e, number(e, exact, texts));
    // Rounding may only change how the number is written, as in 12 and 12.0.
    for (const e of details.querySelectorAll("[data-to]")) {
      const x = trundle.run(e.dataset.p, exact);
      const rounded = trundle.read(trundle.step(x, e.dataset.to)).x;
      const same = trundle.snap(rounded) === trundle.snap(x) && !trundle.digits(x).includes("…");
      const relation = [...e.closest("math").querySelectorAll("mo")].find((mo) => /[=≈]/.test(mo.textContent));
      relation.textContent = relation.textContent.replace(/[=≈]/, same ? "=" : "≈");
    }
    // Two lines that come to the same digits are one.
    let before;
    for (const line of details.querySelectorAll("li")) {
      const text = line.textContent.replace(/^.*?[=≈]/, "");
      line.hidden = text === before;
      before = text;
    }
  };
})();
