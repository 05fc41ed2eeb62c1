// The rows of a record: fewer runs than were asked for, if the team says that these must do, and more.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const most = 3; // times as many runs as the lesson asks for

  // The boxes of a record or of another field.
  trundle.boxes = (f) =>
    f.c ? Array.from({ length: f.c + (f.more ?? 0) }, (_, i) => `${f.n}-${i + 1}`) : [f.n];

  // Run 0 is no run: what is kept under it says that the team makes do with fewer than were asked for.
  const makesDo = (f) => f.n + "-0";
  // What begins with # is no entry at all: what the lesson has come to, and ticked goals.
  trundle.isRow = (id) => id[0] !== "#" && !id.endsWith("-0");

  // The readings that count, undefined as long as some are still to come.
  trundle.counted = (f, entries, readings) => {
    const all = readings.slice(0, f.c).every(Number.isFinite);
    const some = readings.filter(Number.isFinite);
    // Reading 3 stays reading 3, and goes with the third of another record.
    some.rows = readings.map((x) => (Number.isFinite(x) ? x : undefined));
    if (all || (entries[makesDo(f)] && enough(f, some.length))) return some;
  };
  const enough = (f, n) => n >= Math.max(2, f.c / 2);

  // Whether a find is worked out from as many runs as its steps were made for.
  trundle.isUsual = (f, fields, exact) => {
    const words = f.p.split(" ");
    return fields.every(({ n, c }) => !c || !words.includes(n) || exact[n].length === c);
  };

  // A wrong answer that was right before the team added runs: the mean of five is not that of six.
  trundle.regrown = (verdict, f, fields, exact) => {
    const words = f.p.split(" ");
    const grown = fields.filter(({ n, c }) => c && words.includes(n) && exact[n].length > c);
    if (!verdict.wrong || !grown[0]) return verdict;
    const before = Object.create(exact);
    for (const { n, c } of grown) before[n] = exact[n].slice(0, c);
    if (!trundle.near(f, verdict.x, trundle.run(f.p, before))) return verdict;
    const hint = trundle.say("more-runs", exact[grown[0].n].length);
    return { ...verdict, hint, text: hint };
  };

  // A box like the one before it.
  const add = ({ inputs, entries, listen }, f) => {
    const k = f.c + (f.more = (f.more ?? 0) + 1);
    const above = inputs[`${f.n}-${k - 1}`];
    const row = above.parentNode.cloneNode(true);
    const input = row.querySelector("input");
    row.firstChild.textContent = k;
    input.id = `in_${f.n}-${k}`;
    input.setAttribute("aria-label", above.getAttribute("aria-label").replace(/\d+(?=,[^,]*$)/, k));
    input.removeAttribute("aria-invalid");
    delete input.dataset.kept;
    input.value = entries[`${f.n}-${k}`] ?? "";
    above.parentNode.after(row);
    inputs[`${f.n}-${k}`] = input;
    listen(`${f.n}-${k}`);
    return input;
  };

  const place = (f) => {
    const id = "rows_" + f.n;
    const old = document.getElementById(id);
    if (old) return old;
    const box = Object.assign(document.createElement("p"), { id });
    document.getElementById("sum_" + f.n).after(box);
    return box;
  };

  // trundle.grow gives a record as many rows as its entries take.
  trundle.grow = (sheet, f) => {
    for (let k = most * f.c; k > f.c + (f.more ?? 0); k--) {
      if (sheet.entries[`${f.n}-${k}`]) while (f.c + (f.more ?? 0) < k) add(sheet, f);
    }
  };

  // trundle.rows brings the buttons below them up to the entries.
  trundle.rows = (sheet, f) => {
    const { entries, write } = sheet;
    const { say } = trundle;
    const isFull = (k) => trundle.amount(entries[`${f.n}-${k}`] ?? "", f.u).x !== undefined;
    const boxes = trundle.boxes(f).map((_, i) => isFull(i + 1));
    const full = boxes.filter(Boolean).length;
    const [some, all] = [full < f.c && enough(f, full), boxes.every(Boolean)];
    const parts = [];
    const offer = (text, onclick) => {
      parts.push(Object.assign(document.createElement("button"), { textContent: text, onclick }), " ");
    };
    if (some && entries[makesDo(f)]) {
      parts.push(say("used", full) + " ");
      offer(say("wait", f.c), () => write(makesDo(f), ""));
    } else if (some) offer(say("use", full), () => write(makesDo(f), `${full}`));
    if (all && boxes.length < most * f.c)
      offer(say("add-run", boxes.length + 1), () => {
        add(sheet, f).focus();
        trundle.rows(sheet, f);
      });
    // What has not changed stays, with the focus that is on it.
    const box = place(f);
    const text = parts.map((part) => part.textContent ?? part).join("");
    if (box.textContent !== text) box.replaceChildren(...parts);
  };
})();
