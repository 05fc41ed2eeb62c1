// The team's log at the end of a lesson: its own numbers, what is still open, and what its students say that they can.
// What it comes to is kept, for the page of the season and the last lesson, which has the logs of all.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  const log = at("_log");
  if (!log) return;
  const [title, empty] = log.children;
  const ours = title.textContent;
  const element = (name, text, ...inside) => {
    const e = document.createElement(name);
    e.append(text, ...inside);
    return e;
  };

  // A prompt's first words, up to where it goes into detail.
  const detail = /^(?:([^¿¡].{7,}?)(?:[,;:(]|\. |([?!]) )|([¿¡].{7,}?[?!]) ).*$/s;
  const short = (prompt) => prompt.replace(detail, "$1$2$3").trim();
  // The rows of a page stay; what is looked for in them, once.
  const rows = {};
  const rowOf = ({ n }) => {
    const row = (at("in_" + n) ?? at(`in_${n}-1`))?.closest(".row");
    return row && { symbol: row.querySelector(".sym")?.textContent, ask: askOf(row) };
  };
  const askOf = (row) => row.querySelector(".ask label, .ask > span:not(.kind)");
  const words = [...document.querySelectorAll(".row textarea")].map((e) => [e.id.slice(3), askOf(e.closest(".row"))]);
  const number = (f, x, text) => trundle.written(text ?? trundle.parts(x, f.to, f.v), f.u);

  const choices = [...document.querySelectorAll(".row.choose")].map((row) => [row, askOf(row)]);
  const runs = (n) => n && trundle.say("log-runs", n);

  // What the log says of a field: a find once it is right, anything else once it is there.
  const said = (f, { own, verdicts, texts }) => {
    if (f.k === "find") return verdicts[f.n].right && number(f, own[f.n]);
    if (f.c) return runs(texts[f.n].length);
    return Number.isFinite(own[f.n]) && number(f, own[f.n], texts[f.n]);
  };

  // The items of the log: symbol, label, text. Words, which have no symbol, come last.
  const mostWords = 400; // characters of them
  const items = ({ page, entries }, values) => {
    const all = [];
    // A prompt may have numbers of the team in it.
    const add = (symbol, ask, text) => text && all.push([symbol, short(ask?.textContent ?? ""), text]);
    for (const f of page.fields) {
      if (f.k === "given" || !(rows[f.n] ??= rowOf(f))) continue;
      add(rows[f.n].symbol, rows[f.n].ask, said(f, values));
    }
    // A wrong choice is as open as a find.
    for (const [row, ask] of choices) if (row.matches(".ok")) add("", ask, row.querySelector(":checked")?.value);
    for (const [id, ask] of words) add("", ask, entries[id]?.slice(0, mostWords));
    return all;
  };
  const list = (all) => {
    const box = document.createElement("dl");
    for (const [symbol, label, text] of all) {
      const name = element("dt", symbol && element("i", symbol), " ", label);
      const item = element("div", name, element("dd", text.replaceAll("\u00a0", " "))); // a unit may go on a line below
      if (!symbol) item.className = "words";
      box.append(item);
    }
    return box;
  };

  // Unfolds what a box is in. The link itself leads there.
  const reveal = (box) => {
    for (let e = box; (e = e?.parentElement.closest("details")); ) e.open = true;
  };

  // Links to the boxes of the finds that are not right yet.
  const open = (finds, verdicts) => {
    const { say } = trundle;
    const left = finds.filter(({ n }) => !verdicts[n].right);
    const line = element("p", left[0] ? say("log-open", left.length, finds.length) : say("log-all", finds.length));
    line.className = "open";
    for (const f of left) {
      const link = element("a", rows[f.n]?.symbol || f.n);
      link.href = "#in_" + f.n;
      link.onclick = () => reveal(at("in_" + f.n));
      line.append(" ", link);
    }
    return line;
  };

  const heading = (team) =>
    team ? trundle.say(/s$/i.test(team) ? "log-of-s" : "log-of", team, log.dataset.week) : ours;

  // It is written when it comes to something new here, and not when another tab has written something else: two
  // tabs would answer each other for ever.
  const last = {}; // by team
  const note = ({ store, team, entries }, text) => {
    if (team !== store.team || last[team] === text) return;
    last[team] = text;
    if ((entries["#state"] ?? "") === text) return;
    entries["#state"] = text;
    store.put("#state", text, true);
  };

  const ticks = [...log.querySelectorAll("[type=checkbox]")];
  const goal = (i) => "#goal-" + (i + 1);
  const tick = ({ entries, store }, i) => {
    entries[goal(i)] = ticks[i].checked ? "1" : "";
    store.put(goal(i), entries[goal(i)], true);
  };
  const face = (sheet) =>
    ticks.forEach((box, i) => {
      if ("ticked" in box.dataset) tick(sheet, i); // by a person, perhaps before this script was there
      delete box.dataset.ticked;
      box.checked = sheet.entries[goal(i)] === "1";
    });

  // The logs of the earlier lessons. A state may come from a file, and be anything.
  const read = (state) => {
    try {
      const all = JSON.parse(state).l.map((item) => [0, 1, 2].map((i) => String(item[i] ?? "")));
      return all.filter(([, , text]) => text);
    } catch {
      return [];
    }
  };
  let shown;
  const season = async ({ store }) => {
    const { team, lessons } = await store.whole();
    shown = team;
    let some = false;
    for (const part of document.querySelectorAll("#_logs [data-of]")) {
      const all = read(lessons[part.dataset.of]?.["#state"]);
      part.querySelector("dl")?.remove();
      part.hidden = !all[0];
      if (all[0]) part.querySelector("summary").after(list(all));
      some ||= all[0];
    }
    at("_logs").querySelector("p").hidden = some;
  };
  if (at("_logs")) addEventListener("focus", () => season(trundle.sheet));

  let before = "";
  (trundle.followers ??= []).push((sheet, values) => {
    const { page, store } = sheet;
    const finds = page.fields.filter(({ k }) => k === "find");
    const all = items(sheet, values);
    const right = finds.map(({ n }) => n).filter((n) => values.verdicts[n].right);
    note(sheet, all[0] ? JSON.stringify({ r: right, l: all }) : "");
    face(sheet);
    if (at("_logs") && shown !== store.team) season(sheet);
    const now = JSON.stringify([store.team, right, all]);
    if (now === before) return;
    before = now;
    title.textContent = heading(store.team);
    empty.hidden = Boolean(all[0]);
    log.querySelector("dl")?.remove();
    log.querySelector(".open")?.remove();
    if (all[0]) empty.after(list(all));
    if (finds[0]) log.append(open(finds, values.verdicts));
  });
})();
