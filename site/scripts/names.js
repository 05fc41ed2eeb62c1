// Under which names entries are kept, and under which they were kept before: a pack under an
// earlier title, a lesson under its file's name, a box before it was renamed. The pack's own
// table stands above this.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const own = (table, name) => (Object.hasOwn(table, name) ? table[name] : undefined);
  const split = (key) => {
    const [pack] = key.split(" ", 1);
    return [pack, key.slice(pack.length)]; // the season with a blank before it
  };
  const none = { earlier: [], lessons: {}, boxes: {} };

  // trundle.renames gives the names of a pack, by the key and the sum that a page has. A table of
  // another sum is that of another version, and counts for nothing.
  trundle.renames = (key, sum) => {
    const [pack, season] = split(key);
    const table = { ...none, ...trundle.names };
    const fits = table.pack === pack && table.sum === sum;
    const { earlier, lessons, boxes } = fits ? table : none;
    const known = Object.values(lessons);
    const isOurs = (other) => other === pack || earlier.includes(other);
    const lessonNow = (name) => own(lessons, name) ?? name;
    // The boxes of a record are numbered, and are renamed together.
    const fieldNow = (name, of) => {
      const [, box, run = ""] = name.match(/^(.*?)(-\d+)?$/s);
      const now = own(own(boxes, of) ?? {}, box);
      return now ? now + run : name;
    };
    return {
      earlier: earlier.map((other) => other + season),
      // The season of a key, "" for none; undefined if it is another pack's.
      season: (other) => (isOurs(split(other)[0]) ? split(other)[1].trim() : undefined),
      isOfNow: (other) => isOurs(split(other)[0]) && split(other)[1] === season,
      isLost: (name) => Boolean(name && known[0]) && !known.includes(name),
      // A row of this season under its present names.
      now(row) {
        const of = lessonNow(row.lesson);
        return { ...row, pack: key, lesson: of, field: fieldNow(row.field, of) };
      },
    };
  };
})();
