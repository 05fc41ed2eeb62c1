// Files of runs as a team's page or a spreadsheet writes them: one row a run, the unit of a measured column in its
// name. Never throws: a file may come from anywhere. Package table reads them by the same rules.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const mostRows = 5000;
  const mostCells = 60;
  const about = ["team", "base", "run", "cycle", "swapped"];
  const withComma = /^[-+−]?\d*,\d+$/;
  const withPoint = /^[-+−]?\d*\.\d+$/;
  const thousands = /^[-+−]?[1-9]\d{0,2}\.\d{3}$/;

  // RFC 4180, by any one mark between cells, with the line that each row starts on; undefined if a quote mark is never
  // closed, or is within a text.
  const cells = (text, mark, start) => {
    const rows = [];
    let [cell, row, isQuoted, isClosed, line] = ["", [], false, false, start];
    const endCell = () => {
      row.push(trundle.seen(cell));
      [cell, isClosed] = ["", false];
    };
    const endRow = () => {
      endCell();
      if (row.some(Boolean)) rows.push({ line, texts: row });
      row = [];
    };
    let next = start;
    for (let i = 0; i < text.length && rows.length <= mostRows; i++) {
      const c = text[i];
      if (c === "\n") next++;
      if (isQuoted) {
        if (c !== '"') cell += c;
        else if (text[i + 1] === '"') cell += text[++i];
        else [isQuoted, isClosed] = [false, true];
      } else if (c === mark) endCell();
      else if (c === "\n") {
        endRow();
        line = next;
      } else if (isClosed ? c !== "\r" : c === '"' && cell) return undefined;
      else if (c === '"') isQuoted = true;
      else cell += c;
    }
    if (isQuoted) return undefined;
    endRow();
    return rows;
  };
  const unguarded = (text) => (/^'[=+\-@＝＋－＠]/.test(text) ? text.slice(1) : text);

  // Whether a file writes decimal commas. One with commas between its cells does not; in others a number tells, and if
  // none does, it is not known.
  const writesCommas = (mark, rows) => {
    if (mark === ",") return false;
    const all = rows.flatMap(({ texts }) => texts.map(trundle.ungrouped));
    if (all.some((text) => withComma.test(text))) return true;
    return all.some((text) => withPoint.test(text) && !thousands.test(text)) ? false : undefined;
  };

  // {columns: [{name, unit, i}], rows: [{line, team, base, texts}], commas(), ragged: [{line, count}], width}, or
  // {fault}. commas needs check.js. Rows of another length than the first are ragged: a comma in a number may have
  // parted it.
  trundle.table = (text) => {
    const whole = text.replace(/^\uFEFF/, "");
    const clean = whole.replace(/^sep=.\r?\n/i, "");
    const [first] = clean.split("\n", 1);
    const count = (mark) => first.split(mark).length;
    const mark = ["\t", ";", ","].reduce((a, b) => (count(b) >= count(a) ? b : a));
    const all = cells(clean, mark, clean === whole ? 1 : 2);
    if (!all?.[1] || all[0].texts.length > mostCells) return { fault: "no-table" };
    if (all.length > mostRows) return { fault: "too-large" };
    const [{ texts: heads }, ...body] = all;
    const columns = heads.map((head, i) => {
      const [, name, unit = ""] = /^(.*?)(?:\s*\(([^()]*)\))?$/s.exec(head);
      return { name: name.trim(), unit: unit.trim(), i };
    });
    const names = columns.map(({ name }) => name);
    const isUnnamed = ({ name, i }) => !name && (names.slice(i).some(Boolean) || all.some(({ texts }) => texts[i]));
    const isTwice = (name, i) => name && names.indexOf(name) < i;
    if (columns.some(isUnnamed) || names.some(isTwice)) return { fault: "no-table" };
    const at = (name) => columns.findIndex((c) => c.name.toLowerCase() === name);
    const isRagged = ({ texts }) => texts.length < heads.length || texts.slice(heads.length).some(Boolean);
    const isMeasured = ({ name }, i) => name && !about.includes(name.toLowerCase()) && at(name.toLowerCase()) === i;
    const measured = columns.filter(isMeasured);
    if (!measured[0]) return { fault: "no-table" };
    const rows = body.filter((row) => !isRagged(row)).map(({ line, texts }) => {
      const own = texts.map(unguarded);
      return { line, team: own[at("team")] ?? "", base: own[at("base")] ?? "", texts: own };
    });
    const ragged = body.filter(isRagged).map(({ line, texts }) => ({ line, count: texts.length }));
    return { columns: measured, rows, commas: () => writesCommas(mark, body), ragged, width: heads.length };
  };

  // Whether a number may mean two things: one with a point among decimal commas, or before three digits where nothing
  // tells.
  trundle.isDoubtful = (text, commas) =>
    (commas === true && withPoint.test(text)) || (commas !== false && thousands.test(text));

  // The decimals to which texts are written, as a step; 0 if a number was calculated, or is none.
  trundle.finest = (texts) => {
    const plain = /^[+−-]?\d*(?:[.,](\d*))?$/;
    const places = texts.filter(Boolean).map((text) => {
      const [, fraction] = plain.exec(trundle.ungrouped(text)) ?? [0, "none, of which nothing is known"];
      return (fraction ?? "").length;
    });
    const most = Math.max(0, ...places);
    return most > 6 ? 0 : 10 ** -most;
  };
})();
