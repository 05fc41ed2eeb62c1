// What a team gets that tries in vain: after the second wrong answer the formula in words, after the third
// the first line of the steps and one like it with other numbers. They were made when the pack was built.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  const tries = {}; // of each team and find: how many wrong answers, and the last of them

  // trundle.count is told every verdict, also one that is not shown for long.
  const of = (name) => (tries[trundle.sheet.store.team + " " + name] ??= { n: 0 });
  trundle.count = (name, { right, wrong, x }) => {
    const tried = of(name);
    if (right) tried.n = 0;
    else if (wrong && tried.x !== x) tried.n++;
    if (right || wrong) tried.x = x;
    tried.help = wrong ? Math.min(tried.n, 3) : 0; // what is no answer yet gets no help
  };

  const add = (box, name, text = "") => {
    const e = box.appendChild(document.createElement(name));
    e.textContent = text;
    return e;
  };
  const lines = (box, all) => {
    const list = add(box, "ol");
    list.className = "steps";
    list.tabIndex = 0; // it may have to be scrolled
    for (const [math, aside] of all) {
      const line = add(list, "li");
      line.innerHTML = math; // made when the pack was built
      if (aside) line.className = "aside";
    }
  };

  const fill = (box, name, n, steps) => {
    const { w: way, a: another } = trundle.more[name];
    const { say } = trundle;
    box.replaceChildren();
    const [sentence, ...meanings] = way;
    add(box, "p", say("words", sentence));
    if (meanings[0]) add(box, "p", meanings.join(" · "));
    const [first] = trundle.steps[name] ?? [];
    if (n > 2 && steps && first && !first[0].includes("data-p")) {
      add(box, "p", say("first"));
      lines(box, [first]);
    }
    if (n < 3 || !another) return;
    const details = add(box, "details");
    add(details, "summary", say("another"));
    lines(details, another);
  };

  // trundle.again shows below an answer what it has come to; steps tells whether those of the page fit.
  trundle.again = (name, steps) => {
    const n = of(name).help;
    let box = at("more_" + name);
    if (n < 2) return box?.replaceChildren();
    if (!box) {
      box = document.createElement("div");
      box.id = "more_" + name;
      box.className = "own";
      box.setAttribute("role", "status");
      at("told_" + name).after(box);
    }
    if (box.dataset.n !== `${n}` || !box.firstChild) fill(box, name, n, steps);
    box.dataset.n = n;
  };
})();
