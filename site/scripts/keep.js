// Keeps a team's entries on this device: in IndexedDB, or where that is refused in memory,
// for as long as the page is open. A row is one entry: its key (path), its text, and a
// stamp, new with each write, by which a tab knows what it has seen: the writing page and a
// number that grows. What is on its way is noted besides (notes).
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const path = ["pack", "team", "lesson", "field"];
  const keyOf = (row) => path.map((part) => row[part]);
  const nameOf = (row) => JSON.stringify(keyOf(row));
  const isTeam = (row) => !row.team && !row.lesson && row.field === "team"; // names the current team
  const isFull = (row) => row.text && !isTeam(row);
  const isNoted = (row) => row.field[0] === "#"; // not typed: what a lesson has come to. The last one counts, unasked
  const gone = (row) => ({ ...row, text: null });
  const fold = (name) => name.normalize("NFKC").toLowerCase().replace(/\s+/g, " ").trim();

  // A team's name as it was first written, whatever its case and blanks are now.
  const called = (rows, name) => {
    const names = rows.filter((row) => row.text).map((row) => row.team);
    return names.includes(name) ? name : (names.find((other) => fold(other) === fold(name)) ?? name);
  };

  const pageOf = (row) => row.stamp.split(" ")[0];
  const countOf = (row) => +row.stamp.split(" ")[1];
  // Whether a note was made after the row that is there: over it, or later by the same page.
  const isNewer = (note, there) =>
    pageOf(note) === pageOf(there) ? countOf(note) > countOf(there) : there.stamp === note.base;

  // The team of this tab; another tab may have another one.
  const tabTeam = (pack, team) => {
    const key = "trundle team " + pack;
    try {
      if (team) sessionStorage.setItem(key, team);
      else if (team === "") sessionStorage.removeItem(key);
      return sessionStorage.getItem(key);
    } catch {}
  };

  let opening;
  // A new database starts with rows.
  const open = (place, rows) =>
    new Promise((done, fail) => {
      const request = place.open("trundle", 1);
      request.onupgradeneeded = () => {
        const entries = request.result.createObjectStore("entries", { keyPath: path });
        for (const row of rows) entries.put(row);
      };
      // A lost connection is opened again for the next transaction.
      request.onsuccess = () => {
        const database = request.result;
        database.onclose = database.onversionchange = () => (opening = database.close());
        done(database);
      };
      request.onerror = fail;
    });

  // One transaction: change gets the rows below a key and gives the rows to write. One
  // without a text is deleted. Resolves to the rows that were there.
  const run = (database, key, change) =>
    new Promise((done, fail) => {
      const transaction = database.transaction("entries", "readwrite", { durability: "strict" });
      transaction.oncomplete = () => done(reading.result);
      transaction.onabort = () => fail(transaction.error);
      const entries = transaction.objectStore("entries");
      const reading = entries.getAll(IDBKeyRange.bound(key, [...key, []])); // a list sorts behind all text
      reading.onsuccess = () => {
        // A row that no page of ours wrote must not stop those that read it.
        for (const row of reading.result) if (typeof row.text !== "string") row.text = null;
        for (const row of change(reading.result)) row.text == null ? entries.delete(keyOf(row)) : entries.put(row);
      };
    });

  // Gives run for the database and its copy. Chromium drops a whole database if it was killed
  // at the wrong moment of a write; but it has a second place for one (a bucket).
  const openBoth = async () => {
    let spare, copies;
    const none = () => [];
    try {
      const bucket = await navigator.storageBuckets.open("trundle", { durability: "strict" });
      spare = await open(bucket.indexedDB, []);
      copies = await run(spare, [], none);
    } catch {} // then there is one only
    const copy = (key, change) => copies && run(spare, key, change).catch(none);
    const database = await open(indexedDB, copies ?? []);
    const rows = await run(database, [], none);
    if (JSON.stringify(rows) !== JSON.stringify(copies)) await copy([], (all) => [...all.map(gone), ...rows]);
    return async (key, change) => {
      let changes;
      await run(database, key, (rows) => (changes = change(rows)));
      if (changes[0]) await copy(key, () => changes);
    };
  };

  // trundle.keep resolves to the store of a lesson; it never rejects. sum is that of its names.
  trundle.keep = async (pack, lesson, sum) => {
    const known = new Map(); // rows as last read or written, by name
    const unsaved = new Map(); // those of them that could not be written
    const seen = new Set(); // stamps
    const writing = new Set(); // rows on their way
    const notes = trundle.notes(pack, nameOf);
    const names = trundle.renames(pack, sum);
    let isMoved = false; // what was kept under earlier names
    const here = Math.random().toString(36); // this page, in stamps
    let count = 0;
    let naming = ""; // comes to the name of the team, as it was first written
    let cleared = []; // rows, as they were
    let bringing; // nameless entries are still to be brought along to a name
    let channel;
    try {
      channel = new BroadcastChannel("trundle " + pack);
    } catch {} // then watch looks when the page is turned to

    const home = (field) => (field[0] === "@" ? "" : lesson); // @kit: a kit is chosen for the whole pack
    const make = (team, lesson, field, text) => ({
      pack, team, lesson, field, text, stamp: `${here} ${++count}`,
    });
    const told = (fault) => (fault ? { fault } : { kept: true });

    // Moves what was kept under earlier names. Where there is something else under the name of
    // now, what is older goes, by the rule for notes; and if that cannot be told, it becomes a
    // note, and somebody is asked.
    const move = async (runBoth) => {
      await runBoth([], (all) => {
        const rows = new Map(all.map((row) => [nameOf(row), row]));
        const changes = [];
        for (const row of all) {
          const moved = names.isOfNow(row.pack) ? names.now(row) : row;
          const name = nameOf(moved);
          if (name === nameOf(row)) continue;
          const there = rows.get(name);
          if (!there || isNewer(row, there)) {
            rows.set(name, moved);
            changes.push(moved);
          } else if (isFull(row) && there.text !== row.text && pageOf(there) !== pageOf(row) && !notes.put(moved)) {
            continue; // it stays where it is until it can be noted
          }
          changes.push(gone(row));
        }
        return changes;
      });
      notes.move(names);
      isMoved = true;
    };

    // Reads the rows below a key and writes what change gives. change gets the rows as this
    // page has them, then as they are stored. It may run twice: after a fault its answer
    // holds in memory. Resolves to the fault.
    const transact = async (key, change) => {
      const below = (rows) => [...rows.values()].filter((row) => key.every((part, i) => part === row[path[i]]));
      let changes, fault;
      const decide = (stored) => {
        for (const row of stored) known.set(nameOf(row), row);
        const rows = new Map([...stored, ...below(unsaved)].map((row) => [nameOf(row), row]));
        return (changes = change([...rows.values()], stored) ?? []);
      };
      try {
        // Some browsers never answer. One that refuses is asked again the next time.
        opening ??= Promise.race([openBoth(), new Promise((_, fail) => setTimeout(fail, 3000))]);
        const runBoth = await opening.catch((error) => {
          store.fault = "blocked";
          if (error) opening = null;
        });
        if (!isMoved) await move(runBoth).catch(() => {}); // nor are they in the way
        await runBoth(key, decide);
        store.fault = "";
      } catch (error) {
        fault = /Quota|NO_SPACE/.test(error) ? "full" : "blocked"; // the latter is Chromium's full disk
        decide(below(known));
      }
      for (const row of changes) {
        const name = nameOf(row);
        known.delete(name);
        unsaved.delete(name);
        if (row.text == null) continue;
        known.set(name, row);
        if (fault) unsaved.set(name, row);
      }
      if (changes[0]) channel?.postMessage(0);
      return fault;
    };

    // Adds to rows, and to the changes, what was noted and did not come into the database. taken
    // are the notes that are done with then. One of a row that another page has written since
    // stays: somebody has to choose.
    const takeUp = (all, changes) => {
      const rows = new Map(all.map((row) => [nameOf(row), row]));
      const taken = [];
      store.clashes = [];
      for (const note of notes.all()) {
        const { base, ...row } = { ...note, team: called(all, note.team) };
        const there = rows.get(nameOf(row));
        if (!isTeam(note) && (!there || isNewer(note, there))) {
          rows.set(nameOf(row), row);
          changes.push(row);
        } else if (!isTeam(note) && !isNoted(note) && there.text !== row.text && pageOf(there) !== pageOf(row)) {
          store.clashes.push(row);
          continue;
        }
        taken.push(note);
      }
      return { rows, taken };
    };

    // Gives a team what was entered without a name.
    const bring = (rows, team, changes) => {
      for (const row of [...rows.values()]) {
        if (row.team || !isFull(row)) continue;
        const moved = { ...row, team };
        rows.delete(nameOf(row));
        rows.set(nameOf(moved), moved);
        changes.push(gone(row), moved);
      }
    };

    const store = {
      team: "",
      fault: "", // "blocked" if there is only memory

      fresh: false, // nothing is written by this team
      clashes: [], // rows that were noted and that another page has written since
      lost: [], // lessons of this team that the pack no longer has
      names,

      // The texts of a team, by field. A name given for the first time takes along what was
      // entered without one, unless brings is false. Notes of earlier pages are written now.
      async enter(team, brings = true) {
        const nameless = brings && (!store.team || bringing);
        const wanted = called([...known.values()], team);
        const named = make("", "", "team", wanted);
        const earlier = naming;
        let name, rows, taken;
        const entering = (naming = new Promise((done) => (name = done)));
        store.team = tabTeam(pack, wanted) ?? wanted;
        bringing = nameless && wanted;
        notes.put({ ...named, bring: nameless });
        await earlier; // as put does: what was put before is moved with the rest
        const fault = await transact([pack], (all) => {
          const changes = [];
          team = called(all, wanted);
          name(team);
          if (naming === entering) store.team = tabTeam(pack, team) ?? team;
          ({ rows, taken } = takeUp(all, changes));
          if (nameless && team && !all.some((row) => row.team === team && row.text)) bring(rows, team, changes);
          if ((all.find(isTeam)?.text ?? "") !== team) changes.push({ ...named, text: team });
          return changes;
        });
        if (!fault) {
          [named, ...taken].forEach(notes.drop);
          if (naming === entering) bringing = "";
        }
        const texts = {};
        store.fresh = true;
        const lost = new Set();
        for (const row of rows.values()) {
          if (row.team !== team) continue;
          if (isFull(row)) store.fresh = false;
          if (isFull(row) && names.isLost(row.lesson)) lost.add(row.lesson);
          if (row.lesson !== home(row.field)) continue;
          seen.add(row.stamp);
          texts[row.field] = row.text;
        }
        store.lost = [...lost];
        return texts;
      },

      async teams() {
        const names = new Set();
        await transact([pack], (rows) => {
          for (const row of rows) if (row.team && row.text) names.add(row.team);
        });
        const order = new Intl.Collator(document.documentElement.lang || undefined, { numeric: true });
        return [...names].sort(order.compare);
      },

      // Notes at once what is typed, and gives its row.
      note(field, text, over) {
        const row = make(store.team, home(field), field, text);
        const there = known.get(nameOf(row))?.stamp;
        notes.put({ ...row, base: over || seen.has(there) ? there : "" });
        seen.add(row.stamp);
        return row;
      },

      // {kept}, or {other}: the text of another tab that this one has not seen, or {fault}.
      // To take over the other text is to put it.
      async put(field, text, over) {
        const row = store.note(field, text, over);
        const noted = { ...row };
        let other;
        writing.add(row);
        row.team = await naming;
        const fault = await transact(keyOf(row), (_, [there]) => {
          other = undefined;
          if (there?.text === text) row.stamp = there.stamp; // two tabs that agree
          else if (there && !over && !seen.has(there.stamp)) {
            other = there.text;
            return;
          }
          seen.add(row.stamp);
          return [row];
        });
        writing.delete(row);
        if (other != null) return { other };
        // Where one could be written there may be room again for those that could not.
        if (!fault) {
          notes.drop(noted);
          // What was asked about is answered; what this page has written since is not.
          const isLater = (note) => pageOf(note) === here && countOf(note) > countOf(noted);
          const isAnswered = (note) => nameOf(note) === nameOf(row) && !isLater(note);
          if (over) notes.all().filter(isAnswered).forEach(notes.drop);
          for (const row of unsaved.values())
            transact(keyOf(row), (_, [there]) => {
              if (unsaved.get(nameOf(row)) === row && (!there || seen.has(there.stamp))) return [row];
            }).then((fault) => fault || unsaved.has(nameOf(row)) || notes.drop(row));
        }
        return told(fault);
      },

      // heard(field, text) tells what another tab did, and what it returns whether it counts as
      // seen; heard("", name) that there the nameless team was named, and took all along.
      watch(heard) {
        const look = async () => {
          const { team } = store;
          let rows;
          await transact([pack, team], (_, stored) => {
            rows = stored;
          });
          // heard may enter another team; what was read is then of no use. A put on its way
          // reports the other tab itself.
          const hear = ({ lesson, field }, text) =>
            store.team === team && lesson === home(field) &&
            ![...writing].some((row) => row.field === field) && heard(field, text);
          for (const row of rows) {
            if (isTeam(row)) row.text && !writing.size && !rows.some(isFull) && heard("", row.text);
            else if (!seen.has(row.stamp) && hear(row, row.text)) {
              seen.add(row.stamp);
              unsaved.delete(nameOf(row));
            }
          }
          for (const [name, row] of known) {
            const isGone = row.pack === pack && row.team === team && !rows.includes(row) && !unsaved.has(name);
            if (isGone && hear(row, "")) known.delete(name);
          }
        };
        if (channel) channel.onmessage = look;
        for (const turned of ["focus", "visibilitychange"]) addEventListener(turned, look);
      },

      async whole() {
        const { team } = store;
        const lessons = {};
        await transact([pack, team], (rows) => {
          for (const row of rows) if (isFull(row)) (lessons[row.lesson] ??= {})[row.field] = row.text;
        });
        return { team, pack, lessons };
      },

      // The work of other seasons, one for each team and season, in the form of whole.
      async seasons() {
        const found = new Map();
        const look = (rows) => {
          for (const { pack, team, lesson, field, text } of rows.filter(isFull)) {
            const season = names.season(pack);
            if (season === undefined || names.isOfNow(pack)) continue;
            const name = JSON.stringify([season, team]);
            if (!found.has(name)) found.set(name, { team, pack, season, lessons: {} });
            (found.get(name).lessons[lesson] ??= {})[field] = text;
          }
          return [];
        };
        await opening?.then((runBoth) => runBoth([], look)).catch(() => {});
        return [...found.values()];
      },

      // {kept}, or {clash}: how many entries here have another text, or {fault}.
      async take(lessons, over) {
        let clash;
        const fault = await transact([pack, store.team], (rows) => {
          const texts = new Map(rows.map((row) => [nameOf(row), row.text]));
          const changes = [];
          clash = 0;
          for (const lesson in lessons)
            for (const field in lessons[lesson]) {
              const row = make(store.team, lesson, field, lessons[lesson][field]);
              const there = texts.get(nameOf(row));
              if (there && there !== row.text && !over && !isNoted(row)) clash++;
              changes.push(row);
            }
          if (!clash) return changes;
        });
        return clash ? { clash } : told(fault);
      },

      // This lesson's entries of this team, or all of the pack. restore undoes it, save what
      // has been written again.
      async clear(all) {
        const key = all ? [pack] : [pack, store.team, lesson];
        for (const note of notes.all()) if (key.every((part, i) => part === note[path[i]])) notes.drop(note);
        const fault = await transact(key, (rows) => (cleared = rows).map(gone));
        if (all) store.team = naming = tabTeam(pack, "") ?? "";
        return told(fault);
      },

      // The same for a team's work of another season.
      async forget({ season, team }) {
        const isMeant = ({ pack, team: of }) => of === team && !names.isOfNow(pack) && names.season(pack) === season;
        const drop = (rows) => (cleared = rows.filter(isMeant)).map(gone);
        return opening.then((runBoth) => runBoth([], drop)).then(() => told(), () => told("blocked"));
      },

      async restore() {
        return told(
          await transact([pack], (rows) => {
            const full = new Set(rows.map(nameOf));
            return cleared
              .filter((row) => isFull(row) && !full.has(nameOf(row)))
              .map((row) => ({ ...make(row.team, row.lesson, row.field, row.text), pack: row.pack }));
          }),
        );
      },
    };
    await transact([pack, "", "", "team"], ([row]) => {
      const named = notes.all().filter(isTeam);
      const ofTab = [pack, ...names.earlier].map((key) => tabTeam(key)).find((name) => name != null);
      naming = store.team = ofTab ?? (named[0] ?? row)?.text ?? "";
      bringing = named.some((note) => note.bring && note.text === store.team);
    });
    return store;
  };
})();
