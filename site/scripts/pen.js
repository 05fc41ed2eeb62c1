// What is typed into the sheet goes to the store: noted with every key, written when the keys rest, checked when the
// box is left. What another tab or another team's name brings goes into the boxes.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);

  // trundle.pen makes the sheet ready to be written on. Any version of a page may call that of any other, as it may use
  // its storage: what it is given may grow, and must not change.
  trundle.pen = async ({ lesson, say, use, checking, update, updateNow, isLong, longest }) => {
    const { sheet } = trundle;
    const { page, inputs, tell } = sheet;
    // Answers to choose from are one box with the text of the chosen one; a text that the lesson no longer has stays.
    for (const e of document.querySelectorAll("[role=radiogroup]")) {
      const all = [...e.querySelectorAll("input")];
      const chosen = () => all.find((one) => one.checked);
      let text = "";
      const set = (to) => all.forEach((one) => (one.checked = one.value === (text = to)));
      inputs[e.id.slice(3)] = Object.defineProperty(e, "value", { get: () => chosen()?.value ?? text, set });
      e.focus = () => (chosen() ?? all[0]).focus();
    }
    const store = await trundle.keep(page.pack, lesson, page.names);
    const fault = (name) => {
      tell("storage", say(name));
      at("_files").open = true;
    };

    let saved = {}; // texts as they were given to the store, which may be ahead of the entries
    let clock = 0;
    const times = {}; // of that, by entry
    const timers = {};

    const set = (id, text) => {
      sheet.entries[id] = saved[id] = text;
      if (inputs[id] && inputs[id].value !== text) inputs[id].value = text;
      if (text) inputs[id]?.closest(".part")?.setAttribute("open", ""); // where the team has been
    };

    const ask = (id, other) => use(["assets/check"], () => trundle.offer(sheet, id, other));

    const save = async (id, text, over, isTyping) => {
      saved[id] = text;
      times[id] = ++clock;
      const done = await store.put(id, text, over);
      if (done.fault) fault(done.fault);
      if (done.kept) {
        if (inputs[id]) inputs[id].dataset.kept = text; // tests look at it
        tell("team");
        if (!store.fault) tell("storage");
      }
      if (done.other === undefined) return;
      // Another tab was here first: neither text is thrown away unasked. Nobody is asked while
      // typing: the box is saved once more when it is left.
      if (isTyping) delete saved[id];
      else ask(id, done.other);
    };

    const write = (id, text, over) => {
      const before = { ...sheet.entries };
      set(id, text);
      update(id, before);
      save(id, text, over);
    };

    const keep = (id, isTyping) => {
      const isNoted = timers[id]; // then it is put even if it is the old text again, or the note stays
      clearTimeout(isNoted);
      delete timers[id];
      const text = inputs[id].value.trim();
      if (!isLong(id, text) && (isNoted || text !== (saved[id] ?? ""))) save(id, text, false, isTyping);
    };

    const typed = (id) => {
      clearTimeout(timers[id]);
      const text = inputs[id].value.trim();
      if (isLong(id, text)) return;
      store.note(id, text);
      timers[id] = setTimeout(() => keep(id, true), 300);
    };

    // Too long a text is judged as well, beside its box, but not saved.
    const changed = (id) => {
      const text = inputs[id].value.trim();
      tell(id, isLong(id, text) && say("too-long"));
      const before = { ...sheet.entries };
      sheet.entries[id] = text;
      // The verdict comes before the database is asked: what was typed is noted with every key.
      if (text !== (before[id] ?? "")) (updateNow ?? update)(id, before);
      keep(id);
    };

    let turns = 0;
    const enter = async (team, bring) => {
      const turn = ++turns;
      const start = clock;
      const kept = await store.enter(team, bring);
      if (turn !== turns) return; // another name came meanwhile
      // What was written meanwhile is this team's and newer; what is in a box and was not
      // saved was typed while the storage had not answered.
      const isOurs = (id) => times[id] > start || (inputs[id].value.trim() || "") !== (saved[id] ?? "");
      const ours = Object.keys(inputs).filter(isOurs);
      const last = sheet.entries;
      sheet.team = store.team; // whose entries these are; the store may be ahead of them
      sheet.entries = Object.create(null);
      saved = {};
      for (const id in inputs) if (!ours.includes(id)) inputs[id].value = "";
      for (const id in kept) if (!ours.includes(id)) set(id, kept[id]);
      for (const id of ours) {
        const isTyping = inputs[id] === document.activeElement && inputs[id].value.trim() !== last[id];
        isTyping ? typed(id) : changed(id);
      }
      if (at("_name") !== document.activeElement || at("_name").value.trim() === team) at("_name").value = store.team;
      for (const { team, lesson: of, field, text } of store.clashes)
        if (team === store.team && (!of || of === lesson) && inputs[field] && !ours.includes(field)) ask(field, text);
      // An empty sheet may be that of a lesson that had another name.
      tell("lost", store.lost[0] && !Object.values(saved).some(Boolean) && say("lost", store.lost.join(", ")));
      if (trundle.update || Object.keys(kept).length) await update();
    };

    const named = async () => {
      const name = at("_name").value.trim().slice(0, longest);
      if (name === store.team) return;
      tell("team");
      await enter(name);
      tell("team", store.fresh && store.team && !Object.values(saved).some(Boolean) && say("new-team"));
    };

    const listen = (id) => {
      inputs[id].addEventListener("input", () => typed(id));
      inputs[id].addEventListener("change", () => changed(id));
      inputs[id].addEventListener("focus", () => update());
    };
    Object.assign(sheet, { store, write, enter, fault, listen });
    for (const id in inputs) listen(id);
    at("_name").addEventListener("focus", async () => {
      at("_teams").replaceChildren(...(await store.teams()).map((name) => new Option(name, name)));
    });
    at("_name").addEventListener("change", named);
    at("_name").addEventListener("keydown", ({ key }) => key === "Enter" && at("_name").blur());
    // What is to be predicted first stays shut until its finds are right.
    for (const later of document.querySelectorAll("[data-after]"))
      later.querySelector("button").addEventListener("click", () => use(checking, () => trundle.press(later)));
    // A page that is put away takes what is still being typed with it, as a note at least.
    for (const away of ["visibilitychange", "pagehide"])
      addEventListener(away, () => {
        for (const id in inputs) if (inputs[id] === document.activeElement) keep(id, true);
      });
    addEventListener("pagehide", () => at("_name") === document.activeElement && named());
    store.watch((id, text) => {
      if (!id) return text !== store.team && enter(text);
      const input = inputs[id];
      if (input && input === document.activeElement && input.value.trim() !== (saved[id] ?? "")) return false;
      const before = { ...sheet.entries };
      set(id, text);
      update(id, before);
      return true;
    });
    at("_log")?.addEventListener("change", ({ target }) => update((target.dataset.ticked = ""))); // a goal
    at("_files").addEventListener("toggle", () => use([...checking, "assets/files"], () => trundle.drawer(sheet)));

    if (store.fault) fault(store.fault);
    const name = at("_name").value; // typed before the storage had answered
    await enter(store.team);
    if (name) await named((at("_name").value = name));
    // Figures that follow the boxes are drawn when the first of them is near.
    const near = new IntersectionObserver(
      (all) => {
        if (!all.some((e) => e.isIntersecting)) return;
        near.disconnect();
        use([...checking, "assets/drawings"], () => trundle.update(sheet));
      },
      { rootMargin: "50%" },
    );
    document.querySelectorAll(".show").forEach((e) => near.observe(e));
  };
})();
