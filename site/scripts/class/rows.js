// The runs of a lesson, from teams' saved work and from tables, in the lesson's units; and what of them was left out.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const largest = 1e12; // beyond it a number is a slip of the keyboard

  const ofWork = (all, tell, leave) => {
    const rows = [];
    for (const { team, base, entries, fields, other } of all) {
      trundle.other = other;
      const records = fields.filter((f) => f.k === "record");
      const most = Math.max(0, ...records.map((f) => f.c + f.more));
      for (let k = 1; k <= most; k++) {
        const row = { team, base, at: tell("class-run", team, k), texts: {}, numbers: {} };
        for (const f of records) {
          const text = k <= f.c + f.more ? (entries[`${f.n}-${k}`] ?? "").trim() : "";
          const { x } = trundle.amount(text, f.u);
          if (Math.abs(x) <= largest) row.texts[f.n] = `${(row.numbers[f.n] = trundle.snap(x))}`;
          else if (text) leave("class-left-entry", team || tell("class-no-team"), k, f.n, text);
        }
        if (Object.keys(row.texts)[0]) rows.push(row);
      }
    }
    return rows;
  };

  // The columns of a table that are records, each with what its unit comes to in the record's.
  const recordsOf = (table, fields, say) => {
    const all = [];
    for (const c of table.columns) {
      const f = fields.find((f) => f.k === "record" && f.n.toLowerCase() === c.name.toLowerCase());
      if (!f) continue;
      const unit = c.unit || f.u;
      const [from, to] = [trundle.unit(unit), trundle.unit(f.u)];
      const per = from && to ? trundle.convert(1, from, to) : NaN;
      if (per === per) all.push({ c, f, unit, from, to, per });
      else say("class-left-unit", table.name, c.unit, c.name);
    }
    return all;
  };

  // A table counts as a whole or not at all: runs that can be read are no fair sample of those that were made. With a
  // decimal comma a run may have been parted, and one that ended on a whole centimetre not.
  const ofTable = (table, fields, tell, leave) => {
    const wrong = [];
    const say = (...said) => wrong.push(tell(...said));
    const commas = table.commas();
    trundle.other = commas === !trundle.comma;
    for (const { line, count } of table.ragged) say("class-left-row", table.name, line, count, table.width);
    const columns = recordsOf(table, fields, say);
    const rows = table.rows.map(({ team, base, line, texts }) => {
      const row = { team, base, at: `${table.name}:${line}`, texts: {}, numbers: {}, isTable: true };
      for (const { c, f, unit, from, to, per } of columns) {
        const text = texts[c.i];
        if (text === "") continue; // a run that was not made is not a mistake
        const { x } = trundle.amount(text, unit);
        const y = x === undefined || Math.abs(x) > largest ? NaN : trundle.convert(x, from, to);
        const isDoubtful = trundle.isDoubtful(text, commas);
        if (!isDoubtful && Number.isFinite(y)) [row.texts[f.n], row.numbers[f.n], row.per] = [text, y, per];
        else say(isDoubtful ? "class-left-doubt" : "class-left-cell", table.name, line, text, c.name);
      }
      return row;
    });
    if (!wrong[0]) return rows;
    leave("class-left-table", table.name, wrong.join(" "));
    return [];
  };

  // trundle.entriesOf gives what a team has entered in a lesson: {entries, fields, other}, fields with the runs that it
  // has added, and other as in read.js; undefined if it has entered nothing.
  trundle.entriesOf = (kept, key, fields) => {
    if (!kept[key]) return;
    const entries = { ...kept[""]?.entries, ...kept[key].entries };
    const grown = fields.map((f) => {
      const added = Array.from({ length: 2 * (f.c ?? 0) }, (_, i) => i + 1);
      const runs = added.filter((k) => entries[`${f.n}-${f.c + k}`]);
      return { ...f, more: Math.max(0, ...runs) };
    });
    return { entries, fields: grown, other: trundle.writesOther(entries) };
  };

  // trundle.runsOf gives {rows, left}: left are sentences. all is teams' work, as it was judged; tables are of this
  // lesson. Runs of a team that are in its work and in a table would count twice: the work counts.
  trundle.runsOf = (fields, all, tables, tell) => {
    const left = [];
    const leave = (...said) => void left.push(tell(...said));
    const rows = ofWork(all, tell, leave);
    const inWork = new Set(rows.map(({ team }) => team));
    for (const table of tables) {
      const twice = new Set();
      for (const row of ofTable(table, fields, tell, leave)) {
        if (inWork.has(row.team)) twice.add(row.team);
        else rows.push(row);
      }
      for (const team of twice) leave("class-left-twice", table.name, team || tell("class-unnamed"));
    }
    return { rows, left };
  };
})();
