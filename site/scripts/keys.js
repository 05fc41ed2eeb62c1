// All keys of the page for another robot, or for what a team has measured, by the same programs as the students' page.
// Those are loaded when somebody asks.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  const own = at("_own");
  if (!own) return;
  const { say } = trundle;
  const { fields, samples, kits = {}, kit: usual } = JSON.parse(at("_work").textContent);
  const robot = at("_robot");
  const link = document.querySelector("#_bar [href='#_keys']");
  if (link) link.dataset.plain = link.textContent;
  const boxes = [...own.querySelectorAll("input")];
  const robotNow = () => robot?.value ?? usual;
  const typed = (box) => box.value.trim();

  const load = () =>
    (load.done ??= new Promise((done, fail) => {
      if (trundle.values) return done();
      const script = document.createElement("script");
      script.src = `assets/check.js?v=${document.documentElement.dataset.version}`;
      script.onload = done;
      script.onerror = () => {
        load.done = undefined; // to be asked for again
        fail();
      };
      document.head.append(script);
    }));

  // What each number of the page is in the example. What only mentors are asked stays as it is.
  const byName = Object.fromEntries(fields.map((f) => [f.n, f]));
  for (const e of document.querySelectorAll("[data-value]")) {
    if (e.firstChild === e.lastChild) e.prepend(""); // no number yet: there is a guess in it
  }
  const places = [...document.querySelectorAll("[data-value], [data-slip], [data-runs], .counts")]
    .map((e) => [e, [...e.childNodes].map((n) => n.textContent), e.closest("tr")?.id.slice(4)])
    .filter(([e, , name]) => byName[name] || !e.matches(".counts"));
  const restore = () => {
    for (const [e, texts] of places) {
      [...e.childNodes].forEach((n, i) => (n.textContent = texts[i]));
      e.classList.remove("other");
    }
  };

  // Entries as a team would have them on its page: what is typed, else the robot's own fact, else the example.
  const entriesOf = (facts, texts) => {
    const entries = {};
    for (const f of fields) {
      const written = samples[f.n] ?? (f.k === "predict" && [""]); // nobody guesses for a team
      if (!written) continue;
      if (f.k !== "record") {
        const fact = f.kit && (texts[f.kit] ?? trundle.plain(facts[f.kit]));
        entries[f.n] = typed(at("own_" + f.n) ?? { value: "" }) || fact || written[0];
        continue;
      }
      f.c = written.length;
      const runs = boxes.filter((box) => box.dataset.of === f.n);
      const isOwn = runs.some(typed);
      written.forEach((text, i) => (entries[`${f.n}-${i + 1}`] = isOwn ? typed(runs[i]) : text));
      if (isOwn) entries[f.n + "-0"] = "1"; // half of the runs will do
    }
    return entries;
  };

  // As countsBetween in Go.
  const counts = (f, y) => {
    const off = f.t[0] + f.t[1] * Math.abs(y);
    const places = off > 0 ? Math.max(0, Math.ceil(-Math.log10(off) - 1e-9)) : 0;
    const scale = 10 ** places;
    const last = 1e-9 * Math.abs(y);
    const write = (x) => (x / scale).toFixed(places).replace(/^-(?=[0.]*$)/, "").replace("-", "−");
    const inParts = (text) => (f.v ? trundle.parts(+text.replace("−", "-"), undefined, f.v) : text);
    const bounds = [Math.ceil((y - off - last) * scale), Math.floor((y + off + last) * scale)];
    const [low, high] = bounds.map((x) => trundle.numeral(inParts(write(x))));
    return low === high ? say("counts-only", low) : say("counts", low, high);
  };
  const amount = (f, x) => {
    const number = trundle.parts(x, f.to, f.v);
    return number ? [number, trundle.written(number, f.u).slice(number.length)] : ["–", ""];
  };

  const work = () => {
    const { facts: usualFacts = {}, texts = {} } = kits[robotNow()] ?? {};
    const facts = { ...usualFacts };
    for (const box of boxes) {
      const name = box.dataset.of.startsWith("kit_") && box.dataset.fact;
      if (name && typed(box)) facts[name] = trundle.amount(typed(box), box.dataset.unit ?? "").x ?? NaN;
    }
    const entries = entriesOf(facts, texts);
    trundle.other = trundle.writesOther(Object.fromEntries(boxes.map((box) => [box.id, typed(box)])));
    const { exact } = trundle.values(fields, entries, facts, texts);
    for (const [e, written, name] of places) {
      const { value, slip, runs } = e.dataset;
      const texts = runs && boxes.filter((box) => box.dataset.of === runs && typed(box)).map(typed);
      if (runs) e.textContent = texts.join(trundle.comma ? "; " : ", ") || written[0];
      else if (slip) {
        const x = trundle.run(slip, exact);
        e.textContent = x === x || /^[−\d]/.test(written[0]) ? amount(byName[name], x).join("") : written[0];
      }
      else if (!value) e.textContent = exact[name] === exact[name] ? counts(byName[name], exact[name]) : "";
      else {
        const f = byName[value];
        const isWritten = !f.p && entries[value] === samples[value]?.[0]; // a sample stays as its author wrote it
        const isOpen = !written[0] && exact[value] !== exact[value]; // a guess that nobody has made
        const [number, unit] = isWritten || isOpen ? written : amount(f, exact[value]);
        [e.firstChild.textContent, e.lastChild.textContent] = [number, unit];
      }
      e.classList.toggle("other", e.textContent !== written.join(""));
    }
    return { entries, exact };
  };

  // What is wrong with what was typed, or whose keys these are.
  const about = ({ entries, exact }) => {
    for (const box of boxes) {
      const f = fields.find((f) => f.n === box.dataset.of);
      const isBad = typed(box) && trundle.amount(typed(box), f?.u ?? box.dataset.unit ?? "").x === undefined;
      isBad ? box.setAttribute("aria-invalid", "true") : box.removeAttribute("aria-invalid");
      if (isBad) return say("no-number", typed(box));
    }
    const few = fields.find((f) => f.k === "record" && exact[f.n] !== exact[f.n] && entries[f.n + "-0"]);
    if (few) return say("few-runs", few.n);
    const names = [...new Set(boxes.filter(typed).map((box) => box.dataset.of))].map((of) => {
      const [box, more] = boxes.filter((box) => box.dataset.of === of);
      const name = of.replace("kit_", "");
      return more ? name : `${name} = ${typed(box)}`;
    });
    const title = robot?.selectedOptions[0].text;
    return say("keys-for", [title, ...names].filter(Boolean).join(", "));
  };

  const follow = async () => {
    const isOther = robotNow() !== usual || boxes.some(typed);
    document.body.classList.toggle("theirs", isOther);
    at("_back").hidden = !isOther;
    if (link) link.textContent = isOther ? say("theirs") : link.dataset.plain;
    for (const e of document.querySelectorAll(".keys details")) {
      const sets = [...e.querySelectorAll("[data-kit]")];
      const shown = sets.find((set) => set.dataset.kit === robotNow()) ?? sets[0];
      for (const set of sets) set.hidden = set !== shown;
    }
    const told = own.querySelector("[role=status]");
    if (!isOther) {
      restore();
      for (const box of boxes) box.removeAttribute("aria-invalid");
      told.textContent = "";
      return;
    }
    try {
      await load();
    } catch {
      restore();
      told.textContent = say("no-keys");
      return;
    }
    if (!document.body.classList.contains("theirs")) return; // taken back meanwhile
    const text = about(work());
    if (told.textContent !== text) told.textContent = text;
  };

  if (robot) robot.value = usual;
  own.hidden = false;
  own.addEventListener("input", follow);
  at("_back").addEventListener("click", () => {
    for (const box of boxes) box.value = "";
    if (robot) robot.value = usual;
    follow();
    (robot ?? boxes[0]).focus();
  });
  follow();
})();
