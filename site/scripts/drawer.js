// The drawer of what is seldom wanted: work as a file, runs as a table, print, clear, and
// the way back from that.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const element = (name, text, ...inside) => {
    const e = document.createElement(name);
    e.append(text, ...inside);
    return e;
  };

  // trundle.drawer fills the drawer of a sheet, once.
  trundle.drawer = (sheet) => {
    const { page, store, enter, fault } = sheet;
    const { say, files } = trundle;
    const box = document.getElementById("_files");
    if (box.dataset.full) return;
    box.dataset.full = "1";
    const said = element("p", "");
    said.setAttribute("role", "status");
    const tell = (text) => (said.textContent = text);
    const fileName = (end) => [page.pack, store.team, page.lesson, end].filter(Boolean).join("-");
    const done = (result, text) => (result.fault ? fault(result.fault) : tell(text));

    // ask puts a question; it resolves to true if the answer is yes. What was said before
    // must not look like its answer.
    const ask = (question, yes, no) =>
      new Promise((answer) => {
        tell("");
        const dialog = element("dialog", element("p", question));
        const buttons = [yes, no].map((text, i) => {
          const button = element("button", text);
          button.onclick = () => dialog.close(i ? "" : "yes");
          return button;
        });
        const acts = element("p", "", ...buttons);
        acts.className = "apart";
        dialog.append(acts);
        dialog.setAttribute("aria-label", question);
        dialog.onclose = () => {
          dialog.remove();
          answer(dialog.returnValue === "yes");
        };
        box.append(dialog);
        dialog.showModal();
        buttons[1].focus();
      });

    // How often a team's work was saved: by that, and by no clock, a mentor's page tells the newer of two files.
    const counter = (team) => "trundle saves " + JSON.stringify([page.pack, team]);
    const savesOf = (team) => {
      try {
        return +localStorage[counter(team)] || 0;
      } catch {
        return 0;
      }
    };
    const noteSaves = (team, saves) => {
      try {
        if (saves > savesOf(team)) localStorage[counter(team)] = saves;
      } catch {} // then the file that a mentor opens last counts
    };
    const save = async () => {
      const whole = await store.whole();
      const saves = savesOf(whole.team) + 1;
      noteSaves(whole.team, saves);
      files.give(files.work({ ...whole, saves }, page), fileName("work.json"));
    };

    const open = async (file) => {
      const isLarge = file.size > files.limit;
      const work = isLarge ? { fault: "too-large" } : files.open(await file.text(), page.pack, store.names);
      if (work.fault) return tell(say(work.fault));
      const { season } = work;
      const question = say("other-season", season || say("no-season"));
      if (season !== undefined && !(await ask(question, say("take"), say("leave")))) return tell(say("left"));
      const before = store.team;
      await enter(work.team, false);
      let result = await store.take(work.lessons);
      if (result.clash) {
        if (!(await ask(say("clash", result.clash), say("take"), say("leave")))) {
          await enter(before, false);
          return tell(say("left"));
        }
        result = await store.take(work.lessons, true);
      }
      await enter(work.team);
      noteSaves(work.team, work.saves);
      done(result, work.lost ? say("opened-in-part", work.lost) : say("opened"));
    };

    // One row a run, one column a record, in the form of a pack's own data.
    const csv = () => {
      const written = sheet.entries;
      const records = page.fields.filter((f) => f.k === "record");
      const ours = document.querySelector('#_kit [value="ours"]')?.text;
      const base = files.baseOf(page.kits, written["@kit"], ours);
      const cell = (f, run) => {
        const { x } = trundle.amount(written[`${f.n}-${run}`] ?? "", f.u);
        return x === undefined ? "" : trundle.snap(x); // 1.214 m is 121.4 cm, without binary dust
      };
      const unit = (f) => (f.u ? ` (${f.csv ?? f.u})` : "");
      const most = Math.max(...records.map((f) => (f.c ?? 0) + (f.more ?? 0)));
      const rows = Array.from({ length: most }, (_, i) => [
        store.team, base, i + 1, ...records.map((f) => cell(f, i + 1)),
      ]);
      const full = rows.filter((row) => row.slice(3).some((x) => x !== ""));
      if (!full.length) return tell(say("no-runs"));
      files.give(files.csv(["team", "base", "run", ...records.map((f) => f.n + unit(f))], full), fileName("runs.csv"));
    };

    // act clears, and next is the team after that.
    const clear = async (question, act, next = store.team, yes = say("clear-yes")) => {
      if (!(await ask(question, yes, say("keep")))) return;
      const { team } = store;
      done(await act(), say("cleared"));
      await enter(next);
      besides();
      const undo = element("button", say("undo"));
      undo.onclick = async () => {
        done(await store.restore(), say("restored"));
        await enter(team, false);
        besides();
      };
      said.append(" ", undo);
      // Later it might bring back what has been written in another way since.
      document.addEventListener("input", () => undo.remove(), { once: true, capture: true });
    };

    // What is kept besides: of lessons that the pack no longer has, and of other seasons.
    const elsewhere = element("section", "");
    const entry = (title, work, ...more) => {
      const all = Object.entries(work.lessons).sort();
      const give = element("button", say("save-this"));
      give.onclick = () =>
        files.give(files.work(work, page), [work.pack, work.team, title, "work.json"].filter(Boolean).join("-"));
      const typed = (texts) => Object.entries(texts).filter(([id]) => id[0] !== "#");
      const colon = say("colon") + " ";
      const written = (texts) => typed(texts).map((pair) => pair.join(colon)).join(" · ");
      const lines = all.map(([lesson, texts]) => element("li", (lesson && lesson + colon) + written(texts)));
      return element("details", element("summary", title), element("ul", "", ...lines), give, " ", ...more);
    };
    const besides = async () => {
      const own = await store.whole();
      own.lessons = Object.fromEntries(store.lost.map((lesson) => [lesson, own.lessons[lesson] ?? {}]));
      const title = ({ season, team }) => [season || say("no-season"), team].filter(Boolean).join(" · ");
      const season = (work) => {
        const drop = element("button", say("clear-yes"));
        drop.onclick = () => clear(say("sure-season", title(work)), () => store.forget(work));
        return entry(title(work), work, drop);
      };
      const seasons = (await store.seasons()).map(season);
      elsewhere.replaceChildren();
      if (store.lost[0]) elsewhere.append(element("p", say("besides-lessons")), entry(store.lost.join(", "), own));
      if (seasons[0]) elsewhere.append(element("p", say("besides-seasons")), ...seasons);
    };
    besides();
    box.addEventListener("toggle", besides);

    const picker = element("input", "");
    picker.type = "file";
    picker.accept = ".json,application/json";
    picker.hidden = true;
    picker.onchange = async () => {
      if (picker.files[0]) await open(picker.files[0]);
      picker.value = "";
    };

    const acts = {
      save,
      open: () => picker.click(),
      csv,
      print: () => print(),
      clear: () => clear(say("sure", store.team || "–"), () => store.clear(false)),
      "clear-all": () => clear(say("sure-all"), () => store.clear(true), "", say("clear-all-yes")),
    };
    if (!page.fields.some((f) => f.k === "record")) delete acts.csv;
    box.append(element("p", say("kept")));
    for (const name in acts) {
      const button = element("button", say(name));
      button.dataset.act = name;
      button.onclick = acts[name];
      if (name === "clear") box.append(element("hr", "")); // what is kept, and what is thrown away
      box.append(button, " ");
    }
    box.append(picker, said, elsewhere);
  };
})();
