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
    trundle.put(told, text);
    if (told.dataset.state !== (text && state)) told.dataset.state = text && state;
  };
  const mark = (input, wrong) => {
    if (!wrong) input.removeAttribute("aria-invalid");
    else if (!input.hasAttribute("aria-invalid")) input.setAttribute("aria-invalid", "true");
  };

  const verdict = ({ inputs }, f, values) => {
    const { right, text, wait, odd } = values.verdicts[f.n];
    mark(inputs[f.n], text && !right && !wait);
    tell(f.n, text, right && !odd ? "right" : "look");
    at("told_" + f.n).closest(".row").classList.toggle("ok", Boolean(right && !odd));
  };
  const find = (sheet, f, values) => {
    verdict(sheet, f, values);
    const { right, odd } = values.verdicts[f.n];
    // Steps, and their first line, were made for as many runs as the lesson asks for.
    const steps = trundle.isUsual(f, sheet.page.fields, values.exact);
    trundle.again(f.n, steps);
    trundle.worked(f, right && steps, values, odd);
  };

  const doubt = ({ inputs, entries }, f) => {
    const boxes = trundle.boxes(f);
    const doubts = boxes.map((id) => trundle.doubt(f, entries[id] ?? ""));
    boxes.forEach((id, i) => mark(inputs[id], doubts[i]));
    const first = doubts.findIndex(Boolean);
    tell(f.n, first < 0 ? "" : f.c ? trundle.say("run", first + 1, doubts[first]) : doubts[0]);
  };
  const measure = (sheet, f, { own }) => {
    if (f.c) trundle.rows(sheet, f);
    doubt(sheet, f);
    if (!f.c) return;
    const readings = trundle.boxes(f).map((id) => trundle.amount(sheet.entries[id] ?? "", f.u).x);
    trundle.below(at("sum_" + f.n), f, readings.filter(Number.isFinite), own);
  };

  const blanks = [...document.querySelectorAll("span[data-p]")];
  // A number of a figure opens when the finds that ask for it are right.
  const live = (e, { own, texts }) => {
    const { p, to, v, open, sign } = e.dataset;
    const free = !open || open.split(" ").every((name) => own[name] === own[name]);
    const x = free ? trundle.run(p, own) : NaN;
    const full = Number.isFinite(x);
    let text = full ? ((!to && !v && texts[p]) || trundle.parts(x, to, v)) : open ? "?" : "";
    if (sign === "" && /^[^−]*[1-9]/.test(text)) text = "+" + text;
    e.classList.toggle("full", full);
    trundle.fill(e, e.closest("pre") ? text.replace("−", "-").replace(",", ".") : text);
  };

  const last = {}; // the facts of the kit, as far as there ever were any
  const note = (facts) => {
    for (const name in facts) if (facts[name] === facts[name]) last[name] = facts[name];
  };

  // Entries whose box is no longer there, since the lesson is a newer one, are shown in words.
  const gone = ({ inputs, entries, tell }) => {
    const names = Object.keys(entries).filter((id) => entries[id] && id[0] !== "@" && trundle.isRow(id) && !inputs[id]);
    const written = names.map((id) => `${id}${trundle.say("colon")} ${entries[id]}`);
    tell("gone", names[0] && trundle.say("gone", written.join(" · ")));
  };

  // What a team's entries come to, and before that what they change in each other: a record grows by the runs that are
  // kept of it, a measure may follow another kit.
  const workOut = (sheet, id, before) => {
    const { page, inputs } = sheet;
    trundle.other = trundle.writesOther(sheet.entries);
    for (const f of page.fields) {
      if (f.k !== "record") continue;
      f.c ??= Object.keys(inputs).filter((id) => id.startsWith(f.n + "-")).length;
      trundle.grow(sheet, f);
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
    return { facts, values };
  };

  const show = (sheet, f, values) => {
    if (f.k === "find") find(sheet, f, values);
    else if (f.k !== "given") measure(sheet, f, values);
  };

  let newest; // the field that was changed last: what belongs to it comes first

  // All that the page shows of its entries, in pieces that do not need each other; only the log takes prompts with
  // the numbers in them. Figures come before it, as they are looked at.
  const pieces = (sheet, facts, values) => {
    const { page, entries } = sheet;
    const all = newest ? [() => show(sheet, newest, values)] : [];
    all.push(() => blanks.forEach((e) => live(e, values)));
    for (const follow of trundle.followers ?? []) all.push(() => follow(sheet, values));
    for (const f of page.fields) if (f !== newest) all.push(() => show(sheet, f, values));
    all.push(() => page.kits && trundle.facing(sheet, facts), () => gone(sheet));
    // The entries of another team bring an update of their own, and these values are not theirs.
    return all.map((piece) => () => entries === sheet.entries && piece());
  };

  // update is told which entry has changed, if any, and the entries before that: between a
  // change and its update there may have been another update. What is said of that entry is there at once;
  // the promise is kept when the rest is, too.
  trundle.update = (sheet, id = "", before = {}) => {
    const { facts, values } = workOut(sheet, id, before);
    const { fields } = sheet.page;
    for (const f of fields) if (f.k === "find") trundle.count(f.n, values.verdicts[f.n]);
    const changed = id && fields.find((f) => f.k !== "given" && trundle.boxes(f).includes(id));
    if (changed) {
      newest = changed;
      if (changed.k === "find") verdict(sheet, changed, values);
      else doubt(sheet, changed);
    }
    return trundle.pieces(pieces(sheet, facts, values));
  };

  // What is drawn for one width is drawn anew for another. A phone's keyboard changes the height only.
  trundle.width = innerWidth;
  addEventListener("resize", () => {
    if (trundle.width === innerWidth || !trundle.sheet) return; // mentors' pages have none
    trundle.width = innerWidth;
    trundle.update(trundle.sheet);
  });
})();
