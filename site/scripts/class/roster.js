// The class: whose work and whose runs were dropped on the page. Of a team's lesson the work that was saved last wins,
// by the number that saved work carries; of work without one, what was dropped last.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const mostTeams = 100;
  const isTable = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  const parse = (text) => {
    try {
      return JSON.parse(text.replace(/^\uFEFF/, ""));
    } catch {
      return undefined;
    }
  };
  const savesOf = (file) => (Number.isSafeInteger(file?.saves) && file.saves > 0 ? file.saves : 0);

  // merge tells whether some of the work does not count. Of works without a team's name those before may be another
  // team's, and are lost.
  const merge = (teams, { team, lessons, saves }) => {
    const own = (teams[team] ??= { lessons: {} });
    let isOlder = false;
    for (const [lesson, entries] of Object.entries(lessons)) {
      const before = own.lessons[lesson];
      const isLater = (before?.saves ?? 0) <= saves;
      if (isLater) own.lessons[lesson] = { saves, entries };
      const differs = before && JSON.stringify(before.entries) !== JSON.stringify(entries);
      if (differs && lesson && !(isLater && team)) isOlder = true;
    }
    return isOlder;
  };

  trundle.roster = (pack, names) => {
    const teams = Object.create(null);
    const tables = new Map(); // by content: the same runs twice would count twice
    const take = (file, text) => {
      const work = trundle.files.open(text, pack, names);
      if (work.fault) return work;
      if (work.season !== undefined) return { fault: "other-season" };
      const saves = savesOf(file);
      work.team = trundle.seen(work.team); // or a team could be there twice, told apart by nothing that is seen
      if (!(work.team in teams) && Object.keys(teams).length >= mostTeams) return { fault: "too-many" };
      const isOlder = merge(teams, { ...work, saves });
      return { kind: "work", team: work.team, lost: work.lost, isOlder };
    };
    // A class file holds works as they came, and texts of tables.
    const takeClass = (file) => {
      if (file.form !== 1 || !Array.isArray(file.works) || !Array.isArray(file.tables)) return { fault: "damaged" };
      const works = file.works.map((work) => take(work, JSON.stringify(work)));
      const bad = works.find((work) => work.fault);
      if (bad && !works.some((work) => work.kind)) return bad;
      for (const t of file.tables) {
        const isWhole = isTable(t) && typeof t.name === "string" && typeof t.text === "string";
        if (isWhole) takeTable(t.name.slice(0, 200), t.text);
      }
      return { kind: "class", count: works.filter((work) => work.kind).length };
    };
    const takeTable = (name, text) => {
      const table = trundle.table(text);
      if (table.fault) return table;
      if (tables.has(text)) return { fault: "same" };
      table.name = name;
      tables.set(text, table);
      return { kind: "table", table };
    };
    return {
      teams,
      tables,
      // add takes the text of a file: {kind, …} or {fault}.
      add(name, text) {
        const file = /^\s*[[{]/.test(text.replace(/^\uFEFF/, "")) ? parse(text) : undefined;
        if (isTable(file) && file.trundle === "class") return takeClass(file);
        if (isTable(file) || /^\uFEFF?\s*[[{]/.test(text)) return take(file, text);
        if (text.includes("\0")) return { fault: "no-table" };
        return takeTable(name, text);
      },
      // file gives all of it as one file's text.
      file({ title, version }) {
        const works = Object.entries(teams).flatMap(([team, { lessons }]) => {
          const bySaves = {};
          for (const [lesson, { saves, entries }] of Object.entries(lessons)) (bySaves[saves] ??= {})[lesson] = entries;
          return Object.entries(bySaves).map(([saves, lessons]) => ({
            trundle: "work", form: 1, pack, team, saves: +saves, lessons,
          }));
        });
        const all = { trundle: "class", form: 1, pack, title, version, works };
        all.tables = [...tables].map(([text, { name }]) => ({ name, text }));
        return JSON.stringify(all, null, 1) + "\n";
      },
    };
  };
})();
