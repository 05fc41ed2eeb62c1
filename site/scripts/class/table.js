// Files of runs as a team's page or a spreadsheet writes them: one row a run, the unit of a measured column in its
// name. Never throws: a file may come from anywhere.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const mostRows = 5000;
  const mostCells = 60;
  const about = ["team", "base", "run", "cycle", "swapped"];

  // RFC 4180, by any one mark between cells; undefined if a quote mark is never closed.
  const cells = (text, mark) => {
    const rows = [[]];
    let [cell, isQuoted] = ["", false];
    const end = () => rows.at(-1).push(cell.trim()) && (cell = "");
    for (let i = 0; i < text.length; i++) {
      const c = text[i];
      if (isQuoted) {
        if (c !== '"') cell += c;
        else if (text[i + 1] === '"') cell += text[++i];
        else isQuoted = false;
      } else if (c === '"' && !cell.trim()) [cell, isQuoted] = ["", true];
      else if (c === mark) end();
      else if (c === "\n") {
        end();
        if (rows.length > mostRows) return rows;
        rows.push([]);
      } else if (c !== "\r") cell += c;
    }
    if (isQuoted) return undefined;
    end();
    return rows.filter((row) => row.some(Boolean));
  };
  const unguarded = (text) => (/^'[=+\-@\t\r]/.test(text) ? text.slice(1) : text);

  // {columns: [{name, unit}], rows: [{line, team, base, texts}]}, or {fault}.
  trundle.table = (text) => {
    const clean = text.replace(/^\uFEFF/, "").replace(/^sep=(.)\r?\n/i, "");
    const [first] = clean.split("\n", 1);
    const count = (mark) => first.split(mark).length;
    const mark = ["\t", ";", ","].reduce((a, b) => (count(b) >= count(a) ? b : a));
    const all = cells(clean, mark);
    if (!all?.[1] || all[0].length > mostCells) return { fault: "no-table" };
    if (all.length > mostRows) return { fault: "too-large" };
    const columns = all[0].map((head) => {
      const [, name, unit = ""] = /^(.*?)(?:\s*\(([^()]*)\))?$/s.exec(head);
      return { name: name.trim(), unit: unit.trim() };
    });
    const at = (name) => columns.findIndex((c) => c.name.toLowerCase() === name);
    const hasCommas = mark !== ",";
    const rows = all.slice(1).map((row, i) => ({
      line: i + 2,
      team: unguarded(row[at("team")] ?? ""),
      base: unguarded(row[at("base")] ?? ""),
      texts: columns.map((_, i) => (hasCommas ? (row[i] ?? "").replace(",", ".") : (row[i] ?? ""))),
    }));
    const isMeasured = ({ name }) => name && !about.includes(name.toLowerCase());
    const measured = columns.map((c, i) => ({ ...c, i })).filter(isMeasured);
    return measured[0] ? { columns: measured, rows } : { fault: "no-table" };
  };

  // The decimals to which texts are written, as a step; 0 if a number was calculated, or is none.
  trundle.finest = (texts) => {
    const places = texts.filter(Boolean).map((text) => {
      const [, fraction] = /^[+−-]?\d*(?:\.(\d*))?$/.exec(text) ?? [0, "none, of which nothing is known"];
      return (fraction ?? "").length;
    });
    const most = Math.max(0, ...places);
    return most > 6 ? 0 : 10 ** -most;
  };
})();
