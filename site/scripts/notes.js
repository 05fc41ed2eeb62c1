// Notes of what is typed and not yet written for good. A database cannot finish when a page
// goes away; localStorage answers at once, so a note stays there until the database has the
// row. Where it is refused there are no notes, and all else works.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // trundle.notes gives the notes of a pack. A name, JSON of the row's key, starts with the pack.
  // Each page has its own note of a row.
  trundle.notes = (pack, nameOf) => {
    const head = "trundle ";
    const keyOf = (row) => head + nameOf(row) + row.stamp.split(" ")[0];
    const fields = ["team", "lesson", "field", "text", "stamp"];
    const read = (key) => {
      try {
        return JSON.parse(localStorage.getItem(key));
      } catch {}
    };
    const isNote = (note) => note && fields.every((name) => typeof note[name] === "string");
    const keys = () => {
      try {
        return Object.keys(localStorage);
      } catch {
        return [];
      }
    };
    return {
      // Gives whether it is noted.
      put(note) {
        try {
          localStorage.setItem(keyOf(note), JSON.stringify(note));
          return true;
        } catch {} // refused or full
      },
      // A later note of the same box stays.
      drop(row) {
        const key = keyOf(row);
        if (read(key)?.stamp === row.stamp) localStorage.removeItem(key);
      },
      all() {
        const start = head + JSON.stringify([pack]).slice(0, -1) + ",";
        return keys()
          .filter((key) => key.startsWith(start))
          .map(read)
          .filter(isNote);
      },
      // Gives notes under earlier names the present ones.
      move(names) {
        for (const key of keys()) {
          const note = key.startsWith(head + "[") && read(key);
          if (!isNote(note) || !names.isOfNow(String(note.pack))) continue;
          const moved = names.now(note);
          if (keyOf(moved) !== key && this.put(moved)) localStorage.removeItem(key);
        }
      },
    };
  };
})();
