// Brings the page up to its entries: what is said beside the boxes, and where a team's
// numbers appear.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);

  // A text is written only if it is new, so that nothing is read out twice.
  const tell = (name, text = "", state = "look") => {
    const told = at("told_" + name);
    if ("asks" in told.dataset) return;
    if (told.textContent !== text) told.textContent = text;
    told.dataset.state = text && state;
  };
  const mark = (input, wrong) =>
    wrong ? input.setAttribute("aria-invalid", "true") : input.removeAttribute("aria-invalid");

  const find = ({ inputs, page }, f, values) => {
    const { right, text, wait, odd } = values.verdicts[f.n];
    mark(inputs[f.n], text && !right && !wait);
    tell(f.n, text, right && !odd ? "right" : "look");
    // Steps, and their first line, were made for as many runs as the lesson asks for.
    const steps = trundle.isUsual(f, page.fields, values.exact);
    trundle.again(f.n, values.verdicts[f.n], steps);
    trundle.worked(f, right && steps, values, odd);
    at("told_" + f.n).closest(".row").classList.toggle("ok", Boolean(right && !odd));
  };

  const measure = ({ inputs, entries }, f, { own }) => {
    const boxes = trundle.boxes(f);
    const doubts = boxes.map((id) => trundle.doubt(f, entries[id] ?? ""));
    boxes.forEach((id, i) => mark(inputs[id], doubts[i]));
    const first = doubts.findIndex(Boolean);
    tell(f.n, first < 0 ? "" : f.c ? trundle.say("run", first + 1, doubts[first]) : doubts[0]);
    if (!f.c) return;
    const readings = boxes.map((id) => trundle.amount(entries[id] ?? "", f.u).x);
    trundle.below(at("sum_" + f.n), f, readings.filter(Number.isFinite), own);
  };

  // A number of a figure opens when the finds that ask for it are right.
  const live = (e, own) => {
    const { p, to, open, sign } = e.dataset;
    const free = !open || open.split(" ").every((name) => own[name] === own[name]);
    const x = free ? trundle.run(p, own) : NaN;
    const full = Number.isFinite(x);
    let text = full ? (to ? trundle.step(x, to) : trundle.plain(x)) : open ? "?" : "";
    if (sign === "" && /^[^−]*[1-9]/.test(text)) text = "+" + text;
    e.classList.toggle("full", full);
    trundle.fill(e, e.closest("pre") ? text.replace("−", "-") : text);
  };

  const last = {}; // the facts of the kit, as far as there ever were any
  const note = (facts) => {
    for (const name in facts) if (facts[name] === facts[name]) last[name] = facts[name];
  };

  // Entries whose box is no longer there, since the lesson is a newer one, are shown in words.
  const gone = ({ inputs, entries, tell }) => {
    const names = Object.keys(entries).filter((id) => entries[id] && id[0] !== "@" && trundle.isRow(id) && !inputs[id]);
    tell("gone", names[0] && trundle.say("gone", names.map((id) => `${id}: ${entries[id]}`).join(" · ")));
  };

  // update is told which entry has changed, if any, and the entries before that: between a
  // change and its update there may have been another update.
  trundle.update = (sheet, id = "", before = {}) => {
    const { page, inputs } = sheet;
    trundle.commas = trundle.writesCommas(sheet.entries);
    for (const f of page.fields) {
      if (f.k !== "record") continue;
      f.c ??= Object.keys(inputs).filter((id) => id.startsWith(f.n + "-")).length;
      trundle.rows(sheet, f);
    }
    const facts = trundle.facts(page, sheet.entries);
    if (id[0] === "@") {
      note(trundle.facts(page, before));
      for (const f of page.fields) {
        const text = f.kit && trundle.follow(sheet, f, facts, last, before["@kit"]);
        if (text !== undefined) sheet.write(f.n, text);
      }
    }
    note(facts);
    const values = trundle.values(page.fields, sheet.entries, facts, trundle.factTexts(page, sheet.entries));
    for (const f of page.fields) {
      if (f.k === "find") find(sheet, f, values);
      else if (f.k !== "given") measure(sheet, f, values);
    }
    for (const e of document.querySelectorAll("span[data-p]")) live(e, values.own);
    if (page.kits) trundle.facing(sheet, facts);
    gone(sheet);
    for (const follow of trundle.followers ?? []) follow(sheet, values);
  };

  // What is drawn for one width is drawn anew for another. A phone's keyboard changes the height only.
  trundle.width = innerWidth;
  addEventListener("resize", () => {
    if (trundle.width === innerWidth) return;
    trundle.width = innerWidth;
    trundle.update(trundle.sheet);
  });
})();
