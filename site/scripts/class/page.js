// The class on one page: files are dropped, and what they come to is shown. What is dropped stays on this page; closing
// it forgets, unless the class was saved as a file.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  const page = JSON.parse(at("_class").textContent);
  const tell = trundle.tell;
  trundle.say ??= (name, ...parts) => trundle.words[name].replace(/{}/g, () => parts.shift());
  const roster = trundle.roster(page.pack, trundle.renames(page.pack, page.names));
  const mostFiles = 200;
  const element = (name, text = "", className = "") => {
    const e = document.createElement(name);
    e.textContent = text;
    if (className) e.className = className;
    return e;
  };

  const shortened = (text, most) => (text.length > most ? text.slice(0, most - 1) + "…" : text);
  const seen = (text) => text.replace(/[\p{Cc}\p{Cf}]/gu, "");

  const loads = {};
  const load = (address) =>
    (loads[address] ??= new Promise((done, fail) => {
      const script = element("script");
      script.src = `${address}?v=${document.documentElement.dataset.version}`;
      script.onload = done;
      script.onerror = () => fail((loads[address] = undefined));
      document.head.append(script);
    }));
  const lessonOf = (name) => page.lessons.find(({ slug, key }) => name === slug || name === key);

  const order = new Intl.Collator(document.documentElement.lang, { numeric: true }); // Team 10 after Team 9
  const inOrder = (names) => [...names].sort(order.compare);

  // What a team has entered in a lesson, undefined if that is nothing.
  const entered = (team, lesson) => {
    const own = trundle.entriesOf(roster.teams[team].lessons, lesson.key, lesson.fields);
    if (!own) return;
    return { team, base: trundle.files.baseOf(lesson.kits, own.entries["@kit"], page.ours), ...own };
  };

  // What a lesson asks of a team, judged as its own page judges it.
  const judged = (lesson, { entries, fields, other }) => {
    trundle.other = other;
    const facts = trundle.facts(lesson, entries);
    const { verdicts } = trundle.values(fields, entries, facts, trundle.factTexts(lesson, entries));
    return lesson.asks.map(({ n, answers }) => {
      const text = (entries[n] ?? "").trim();
      if (!text) return { text };
      const answer = answers?.find((one) => one.text === text);
      if (answers) return { text, right: Boolean(answer?.right), hint: answer?.hint };
      const { right, wrong, hint } = verdicts[n] ?? {};
      return { text, right: Boolean(right), hint: wrong ? hint : undefined };
    });
  };

  // The lesson that a table is of: all its columns with a unit are records there, and if that is so of several, the
  // one that the file's name names, else the first.
  const lessonOfTable = (table) => {
    if (table.lesson === undefined) {
      const names = table.columns.filter((c) => c.unit).map((c) => c.name.toLowerCase());
      const fit = page.lessons.filter((l) => names[0] && names.every((one) => l.records.includes(one)));
      const named = fit.find(({ slug }) => table.name.includes(slug));
      table.lesson = named ?? fit[0] ?? null;
      table.isGuessed = !named && Boolean(fit[1]);
    }
    return table.lesson;
  };

  // What a lesson comes to, whose script is there: {lesson, all, rows, left}.
  const workedOut = (known) => {
    const lesson = { ...known, ...trundle.classLessons[known.slug] };
    const all = inOrder(Object.keys(roster.teams)).map((team) => entered(team, lesson)).filter(Boolean);
    const tables = [...roster.tables.values()].filter((table) => lessonOfTable(table)?.slug === lesson.slug);
    return { lesson, all, ...trundle.runsOf(lesson.fields, all, tables, tell) };
  };

  const table = (caption, heads, rows) => {
    const box = element("div", "", "scroll");
    const t = element("table");
    box.tabIndex = 0;
    box.setAttribute("role", "region");
    box.setAttribute("aria-label", caption);
    t.append(element("caption", caption));
    const head = t.createTHead().insertRow();
    for (const text of heads) head.append(Object.assign(element("th", text), { scope: "col" }));
    const body = t.createTBody();
    for (const row of rows) {
      const line = body.insertRow();
      row.forEach((cell, i) => {
        const e = Object.assign(element(i ? "td" : "th", cell.text ?? cell), i ? {} : { scope: "row" });
        if (cell.title) e.title = cell.title;
        if (cell.state) e.dataset.cell = cell.state;
        line.append(e);
      });
    }
    box.append(t);
    return box;
  };

  // Teams and questions: right, open, or the letter of the slip.
  const questions = (lesson, teams, box) => {
    if (!lesson.asks[0] || !teams[0]) return;
    const all = teams.map((one) => ({ team: one.team, asked: judged(lesson, one) }));
    const slips = new Map();
    all.forEach(({ team, asked }) => asked.forEach(({ text, right, hint }, i) => {
      if (!text || right) return;
      const { n, ask } = lesson.asks[i];
      if (!hint) return;
      const key = n + " " + hint;
      if (!slips.has(key)) slips.set(key, { ask: ask || n, hint, teams: [] });
      slips.get(key).teams.push(team);
    }));
    const most = [...slips.entries()].sort(([, a], [, b]) => b.teams.length - a.teams.length);
    const name = (i) => (i < 26 ? String.fromCharCode(97 + i) : `${i + 1}`);
    const letters = new Map(most.map(([key], i) => [key, name(i)]));
    const cell = ({ text, right, hint }, { n }) => {
      if (!text) return { text: "·", title: tell("class-open"), state: "open" };
      if (right) return { text: "✓", title: text, state: "right" };
      return { text: letters.get(n + " " + hint) ?? "✗", title: text, state: "wrong" };
    };
    const named = (team) => team || tell("class-no-team");
    const rows = all.map(({ team, asked }) => [named(team), ...asked.map((a, i) => cell(a, lesson.asks[i]))]);
    const right = lesson.asks.map((_, i) => `${all.filter(({ asked }) => asked[i].right).length}/${all.length}`);
    box.append(table(tell("class-questions"), [tell("class-team"), ...lesson.asks.map(({ n }) => n)],
      [...rows, [tell("class-right"), ...right]]));
    box.append(element("p", tell("class-key"), "small"));
    if (!most[0]) return;
    const [, first] = most[0];
    const talk = tell("class-talk", first.ask, first.teams.length, all.length, first.hint);
    if (first.teams.length > 1) box.append(element("p", talk, "talk"));
    const list = element("ul", "", "slips");
    for (const [key, { ask, hint, teams }] of most) {
      list.append(element("li", `${letters.get(key)} · ${ask} · ${hint} (${teams.map(named).join(", ")})`));
    }
    box.append(list);
  };

  // Each team's runs as dots above one tape, with the target.
  const dots = (box, f, series, label) => {
    const all = series.flatMap(({ numbers }) => numbers.filter((x) => x === x));
    if (!all[0] && all[0] !== 0) return;
    const [width, left, high] = [560, 104, 26];
    const s = trundle.scale(f.aim === undefined ? all : [...all, f.aim], width - left);
    const top = series.length * high + 8;
    const p = trundle.svg(box, "svg", { viewBox: `0 0 ${width} ${top + 44}`, role: "img", "aria-label": label });
    series.forEach(({ name, numbers }, i) => {
      const y = i * high + 14;
      const short = name.length > 14 ? name.slice(0, 13) + "…" : name;
      trundle.svg(p, "text", { x: 0, y: y + 5 }, short).style.textAnchor = "start";
      trundle.svg(p, "path", { d: `M${left} ${y}H${width}`, class: "faint" });
      for (const x of numbers) if (x === x) trundle.svg(p, "circle", { cx: left + s.at(x), cy: y, r: 6 });
    });
    const tape = trundle.svg(p, "g", { transform: `translate(${left} 0)` });
    trundle.svg(tape, "path", { d: `M1 ${top}H${width - left - 1}v42H1z`, class: "strip" });
    trundle.ticks(tape, s, top, width - left, f.u);
    if (f.aim !== undefined) trundle.svg(tape, "path", { d: `M${s.at(f.aim)} 0V${top + 44}`, class: "goal" });
  };

  const split = (rows, f, by) => {
    const names = [...new Set(rows.map((row) => row[by] || tell("class-no-team")))];
    return names.map((name) => {
      const own = rows.filter((row) => (row[by] || tell("class-no-team")) === name);
      return { name, numbers: own.map((row) => row.numbers[f.n] ?? NaN), rows: own.map((row) => row.at) };
    });
  };

  const record = (f, rows, by, box) => {
    const own = rows.filter((row) => row.texts[f.n] !== undefined);
    if (!own[0]) return false;
    const target = f.aim ?? NaN;
    const isAimed = target === target;
    const aim = isAimed ? ", " + tell("runs-target", trundle.written(trundle.plain(target), f.u)) : "";
    const title = `${f.ask || f.n} (${f.u})${aim}`;
    const picture = element("div", "", "sum");
    box = box.appendChild(element("section"));
    box.append(element("h3", title), picture);
    const teams = split(own, f, "team");
    const place = inOrder(teams.map(({ name }) => name));
    dots(picture, f, place.map((name) => teams.find((team) => team.name === name)), title);
    if (f.ord) return true; // readings that follow each other have no mean
    const steps = own.map((row) => trundle.finest([row.texts[f.n]]) * (row.per ?? 1));
    const places = trundle.finest(own.filter((row) => !row.isTable).map((row) => row.texts[f.n]));
    const isKnown = !steps.includes(0) && places > 0;
    const column = trundle.column(split(rows, f, by), target, isKnown ? Math.min(...steps) : 0);
    const isLength = /^1(,0)+$/.test(trundle.unit(f.u)?.dim ?? "");
    const found = trundle.findings(column, { by: tell("class-" + by), unit: f.u, isLength });
    box.append(table(title, found.heads, found.rows));
    box.querySelector("caption").className = "unseen"; // it is what the heading says
    for (const text of found.says) box.append(element("p", text));
    return true;
  };

  const grouping = (rows) => {
    const byHand = at("_by").value;
    return byHand || (rows.every(({ base }) => base) ? "base" : "team");
  };
  const warnings = (rows, by, box) => {
    if (by !== "base") return;
    const teams = {};
    for (const { base, team } of rows) (teams[base] ??= new Set()).add(team);
    const sizes = Object.values(teams).map(({ size }) => size);
    const isNamed = rows.every(({ team }) => team);
    const isAlone = isNamed && sizes.length > 1 && sizes.every((n) => n === 1);
    if (isAlone) box.append(element("p", tell("tally-confounded"), "talk"));
    if (sizes.some((n) => n > 1)) box.append(element("p", tell("tally-pooled")));
  };

  // What of the files does not count. Paper says only how much that is.
  const leftOut = (left, box) => {
    if (!left[0]) return;
    box.append(element("p", tell("class-left", left.length)));
    const list = box.appendChild(element("ul", "", "slips unprinted"));
    const most = 20;
    for (const text of left.slice(0, most)) list.append(element("li", seen(shortened(text, 600))));
    if (left.length > most) list.append(element("li", tell("class-left-more", left.length - most)));
  };

  // One chart a team, over all lessons with a target other than 0.
  const season = (worked, box) => {
    const charts = element("div", "", "records");
    for (const team of inOrder(new Set(worked.flatMap(({ rows }) => rows.map((row) => row.team))))) {
      const points = [];
      for (const { lesson, rows } of worked) {
        const own = rows.filter((row) => row.team === team);
        for (const f of lesson.fields.filter((f) => f.k === "record" && f.aim && !f.ord)) {
          const numbers = own.map((row) => row.numbers[f.n] ?? NaN);
          const [g] = trundle.column([{ name: team, numbers }], f.aim, 0).groups;
          const part = 100 / Math.abs(f.aim);
          if (g.n > 1) points.push({ name: `${lesson.week}`, n: g.n, bias: g.bias * part, sd: g.sd * part });
        }
      }
      if (points.length < 2 || points.every(({ sd }) => sd === 0)) continue;
      const picture = element("div", "", "sum");
      const title = tell("class-season-of", team || tell("class-no-team"));
      charts.appendChild(element("section")).append(element("h3", title), picture);
      trundle.chart(picture, points, title);
    }
    if (!charts.firstChild) return;
    box.append(element("h2", tell("class-season")), charts, element("p", tell("class-limits"), "small"));
  };

  const scriptOf = ({ slug }) => `class/${encodeURIComponent(slug)}.js`;
  const onceSeen = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

  let turns = 0; // each showing makes those before it old
  const show = async () => {
    const turn = ++turns;
    const named = Object.values(roster.teams).flatMap(({ lessons }) => Object.keys(lessons));
    const tables = [...roster.tables.values()];
    const theirs = new Set([...new Set(named)].map(lessonOf).concat(tables.map(lessonOfTable)));
    const touched = page.lessons.filter((l) => theirs.has(l));
    await Promise.all(["assets/check.js", ...touched.map(scriptOf)].map(load));
    if (turn !== turns) return;
    const chosen = at("_lesson");
    const before = chosen.value;
    const option = ({ slug, title }) => Object.assign(element("option", title), { value: slug });
    chosen.replaceChildren(...touched.map(option));
    if (touched.some(({ slug }) => slug === before)) chosen.value = before;
    else if (touched[0]) chosen.value = touched.at(-1).slug;
    at("_chosen").hidden = !touched[0];
    at("_save").disabled = !named[0] && !tables[0];
    const out = element("div");
    const known = touched.find(({ slug }) => slug === chosen.value);
    const now = known && workedOut(known);
    if (now) {
      const { lesson, all, rows, left } = now;
      out.append(element("h2", lesson.title));
      questions(lesson, all, out);
      leftOut(left, out);
      const by = rows[0] && grouping(rows);
      if (rows[0]) warnings(rows, by, out);
      const records = out.appendChild(element("div", "", "records"));
      for (const f of lesson.fields.filter((f) => f.k === "record")) record(f, rows, by, records);
    }
    at("_shown").replaceChildren(out);
    // The season is below the lesson, which nobody should wait for.
    onceSeen().then(() => {
      if (turn !== turns) return;
      const box = element("div");
      season(touched.map((l) => (l === known ? now : workedOut(l))), box);
      at("_season").replaceChildren(box);
      document.body.dataset.shown = turn;
    });
  };

  const report = (name, text, isWrong) => {
    const item = element("li", `${name}${tell("colon")} ${text}`);
    if (isWrong) item.dataset.state = "look";
    at("_taken").append(item);
  };
  // Several files are read at a time; what they hold is taken in their order.
  const atOnce = 40;
  const isTooLarge = (file) => file.size > trundle.files.limit;
  const textOf = (file) => (isTooLarge(file) ? "" : file.text().catch(() => undefined)); // a folder has none
  const read = (file, text) => {
    const name = seen(shortened(file.name, 80));
    if (isTooLarge(file)) return report(name, tell("class-too-large"), true);
    const told = text === undefined ? { fault: "not-ours" } : roster.add(name, text);
    if (told.fault) return report(name, tell("class-" + told.fault), true);
    if (told.kind === "work") {
      const whose = tell("class-is-work", told.team || tell("class-unnamed"));
      const notes = told.lost ? [tell("class-lost", told.lost)] : [];
      if (told.isOlder) notes.push(tell(told.team ? "class-older" : "class-nameless"));
      return report(name, notes[0] ? `${whose}. ${notes.join(" ")}` : whose, notes[0]);
    }
    if (told.kind === "class") return report(name, tell("class-is-class", told.count));
    const of = lessonOfTable(told.table);
    if (!of) return report(name, tell("class-no-lesson"), true);
    const { rows, isGuessed } = told.table;
    const what = tell("class-is-table", rows.length, of.title);
    report(name, isGuessed ? `${what} ${tell("class-may-be", of.slug)}` : what, isGuessed);
  };
  const take = async (list) => {
    const files = [...list];
    for (let i = 0; i < Math.min(files.length, mostFiles); i += atOnce) {
      const some = files.slice(i, Math.min(i + atOnce, mostFiles));
      const texts = await Promise.all(some.map(textOf));
      some.forEach((file, k) => read(file, texts[k]));
    }
    if (files.length > mostFiles) report("…", tell("class-too-many"), true);
    try {
      await show();
    } catch (fault) {
      report("…", tell("class-no-script"), true);
      if (fault) throw fault; // what could not be loaded has none
    }
    at("_told").textContent = tell("class-read", files.length);
  };

  const drop = at("_drop");
  for (const name of ["dragover", "drop"]) addEventListener(name, (event) => {
    event.preventDefault(); // else the browser would leave the page for the file
    if (name === "drop") take(event.dataTransfer.files);
    drop.classList.toggle("over", name === "dragover");
  });
  addEventListener("dragleave", () => drop.classList.remove("over"));
  const picker = at("_picker");
  at("_choose").onclick = () => picker.click();
  picker.onchange = async () => {
    await take(picker.files);
    picker.value = "";
  };
  at("_lesson").onchange = at("_by").onchange = show;
  at("_save").onclick = () => {
    const blob = new Blob([roster.file(page)], { type: "application/json" });
    trundle.files.give(blob, `${page.pack}-class.json`);
  };
  at("_print").onclick = () => print();
  // What judges, and what lessons ask: nobody should wait for it, and show says if it is missing.
  for (const address of ["assets/check.js", ...page.lessons.map(scriptOf)]) load(address).catch(() => {});
  drop.hidden = false;
  document.body.dataset.ready = "";
})();
