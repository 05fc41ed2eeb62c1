// Entries as files: a team's work to keep or to carry to another device, and tables for a
// spreadsheet. Fetched when somebody asks for a file.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const form = 1; // of the files written here
  const limit = 5 * 1024 * 1024; // bytes
  const most = 20000; // entries
  const longestName = 100;
  const longestTeam = 200;
  const longestText = 2000; // words; a number is shorter

  const isTable = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  const isName = (value) => typeof value === "string" && value.length <= longestName;
  const isText = (value) => typeof value === "string" && value !== "" && value.length <= longestText;
  const isTeam = (value) => isText(value) && value.length <= longestTeam;
  const isOurs = (name) => isName(name) && name !== "__proto__";
  // What concerns the kit stands with the pack, under no lesson; all else under a lesson.
  const isField = (lesson, name) => isOurs(name) && name !== "" && name.startsWith("@") === (lesson === "");
  // What a lesson has come to is as long as its log.
  const isState = (name, value) => name === "#state" && typeof value === "string" && value.length < 50000;

  // A text without what nobody sees.
  trundle.seen = (text) => text.replace(/[\r\n\t]/g, " ").replace(/(?![\u200c\u200d])[\p{Cc}\p{Cf}]/gu, "").trim();

  // What a team's runs say of its robot; ours is the word for one that it measured itself. A text that no kit is called
  // came with a file, from anywhere.
  const baseOf = (kits, kit = "", ours) =>
    kits?.[kit]?.title ?? (kit === "ours" && ours ? ours : isTeam(kit) ? trundle.seen(kit) : "");

  const work = (whole, about) => {
    const { title, version } = about;
    const { pack, team, saves, lessons } = whole;
    const text = JSON.stringify({ trundle: "work", form, pack, title, version, team, saves, lessons }, null, 2);
    return new Blob([text + "\n"], { type: "application/json" });
  };

  const parse = (text) => {
    try {
      return JSON.parse(text.replace(/^\uFEFF/, ""));
    } catch {
      // A file of ours that was cut short is reported as damaged, and not as somebody else's.
      return /"trundle"\s*:\s*"work"/.test(text) ? { trundle: "work" } : undefined;
    }
  };

  // Never throws: a file may come from anywhere. Earlier names become the present ones; a file of
  // another season says of which.
  const open = (text, pack, names = trundle.renames(pack)) => {
    if (typeof text !== "string") return { fault: "not-ours" };
    if (text.length > limit / 3 && new Blob([text]).size > limit) return { fault: "too-large" };
    const file = parse(text);
    if (!isTable(file) || file.trundle !== "work") return { fault: "not-ours" };
    if (!Number.isInteger(file.form) || file.form < 1) return { fault: "damaged" };
    if (file.form > form) return { fault: "newer-form" };
    if (typeof file.pack !== "string" || !isTable(file.lessons)) return { fault: "damaged" };
    const season = names.season(file.pack);
    if (season === undefined) return { fault: "other-pack" };
    const lessons = sift(file.lessons);
    if (!lessons) return { fault: "damaged" };
    const lost = count(file.lessons) - count(lessons);
    if (lost > 0 && !count(lessons)) return { fault: "nothing-usable" };
    const work = { team: isTeam(file.team) ? file.team : "", lessons: renamed(lessons, names) };
    if (Number.isSafeInteger(file.saves)) work.saves = file.saves;
    if (lost > 0) work.lost = lost;
    return names.isOfNow(file.pack) ? work : { ...work, season };
  };

  // What stands under a present name goes before what stands under an earlier one.
  const renamed = (lessons, names) => {
    const all = {};
    const put = (lesson, field, text) => {
      if (!Object.hasOwn(all, lesson)) all[lesson] = {};
      if (!Object.hasOwn(all[lesson], field)) all[lesson][field] = text;
    };
    const rest = [];
    for (const [lesson, fields] of Object.entries(lessons))
      for (const [field, text] of Object.entries(fields)) {
        const now = names.now({ lesson, field });
        if (now.lesson !== lesson || now.field !== field) rest.push([now, text]);
        else put(lesson, field, text);
      }
    for (const [{ lesson, field }, text] of rest) put(lesson, field, text);
    return all;
  };

  // How many entries there are; what should hold some and does not counts as one.
  const count = (all) => {
    const sizes = Object.values(all).map((fields) => (isTable(fields) ? Object.keys(fields).length : 1));
    return sizes.reduce((a, b) => a + b, 0);
  };

  // The entries that a page could have written; none at all if they are absurdly many.
  const sift = (lessons) => {
    const kept = {};
    let count = 0;
    for (const [lesson, fields] of Object.entries(lessons)) {
      if (!isTable(fields)) continue;
      const entries = Object.entries(fields);
      count += entries.length;
      if (count > most) return undefined;
      const good = entries.filter(([field, text]) => isField(lesson, field) && (isText(text) || isState(field, text)));
      if (isOurs(lesson) && good.length > 0) kept[lesson] = Object.fromEntries(good);
    }
    return kept;
  };

  // RFC 4180. A spreadsheet takes some texts for formulas; these get a ' in front. Where decimals have a comma, it
  // expects semicolons between cells.
  const cell = (value) => {
    const isOurs = typeof value === "number";
    let text = isOurs ? String(value).replace(".", trundle.comma ? "," : ".") : String(value ?? "");
    const isNumber = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i.test(text);
    if (/^[=+\-@＝＋－＠\t\r\n]/.test(text) && !isNumber) text = "'" + text;
    // A semicolon parts cells in some countries' spreadsheets, and what is after it could be a formula.
    return !isOurs && /[",;\t\r\n]|^\s|\s$/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text;
  };

  const csv = (columns, rows) => {
    const between = trundle.comma ? ";" : ",";
    const lines = [columns, ...rows].map((row) => Array.from(row, cell).join(between) + "\r\n");
    return new Blob(lines, { type: "text/csv;charset=utf-8" });
  };

  // A name that every disk and stick takes: its end is kept, for there is the kind of file.
  const safe = (name) => {
    const plain = name.normalize("NFC").replace(/[^\p{L}\p{N}.-]+/gu, "-").replace(/\.{2,}/g, ".");
    const short = [...plain].slice(-longestName).join("").replace(/^[-.]+|[-.]+$/g, "");
    return short || "trundle";
  };

  const give = (blob, name) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = safe(name);
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000); // some browsers read it only after the click
  };

  trundle.files = { limit, work, open, baseOf, csv, give };
})();
