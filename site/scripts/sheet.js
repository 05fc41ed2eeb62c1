// The sheet: its boxes, and what is typed into them kept on the device: noted with every key,
// written when the keys rest, checked when the box is left. Checking is loaded when somebody
// begins.
(async () => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  if (!at("_sheet")) return;
  const page = JSON.parse(at("_sheet").textContent);
  const longest = 200; // characters of an entry; no number with its unit is longer, and words have a limit of their own
  const isLong = (id, text) => text.length > Math.max(longest, inputs[id].maxLength);
  const inputs = {}; // by entry: d, s-1, why, @kit, @kit_wheel
  for (const e of document.querySelectorAll("input[id^=in_],textarea")) inputs[e.id.slice(3)] = e;
  for (const e of document.querySelectorAll("input[id^=kit_],#_kit")) inputs["@" + e.id.replace("_kit", "kit")] = e;
  const say = (trundle.say = (name, ...parts) => trundle.words[name].replace(/{}/g, () => parts.shift()));

  // What moves the page waits while a button or finger is down: the click that leaves a box
  // would miss its link. A finger's pointer is up before the mouse events of its tap.
  let press, release;
  for (const down of ["pointerdown", "mousedown"])
    addEventListener(down, () => (press ??= new Promise((done) => (release = done))), true);
  for (const up of ["pointerup", "pointercancel", "mouseup"])
    addEventListener(up, () => setTimeout(() => (press = release?.())), true);
  trundle.still = () => press;

  const calm = at("_kept").textContent;
  const wrong = new Map(); // by what it is about: a box, the team, the storage, a script
  const tell = async (about, text) => {
    wrong.delete(about);
    if (text) wrong.set(about, text);
    await press;
    at("_kept").textContent = [...wrong.values()].pop() ?? calm;
    at("_kept").dataset.state = wrong.size ? "look" : "";
  };

  // Each script begins with its version. One of another version would judge by other keys than
  // this page's, and is not used; a cache on the way is passed by once. The storage is the same
  // in all versions.
  const { version } = document.documentElement.dataset;
  const run = (address) =>
    new Promise((done, fail) => {
      const script = document.createElement("script");
      script.src = address;
      script.onload = () => done(trundle.stamp === version);
      script.onerror = fail;
      document.head.append(script);
    });
  const loads = {};
  const fetchScript = async (name) => {
    const address = `${name}.js?v=${version}`;
    try {
      return (await run(address)) || name === "assets/keep" || (await run(address + "&" + Date.now()));
    } catch (error) {
      delete loads[name]; // to be asked for again
      throw error;
    }
  };
  const load = (name) => (loads[name] ??= fetchScript(name));
  const use = (names, act) =>
    Promise.all(names.map(load)).then(
      (ours) => {
        const isOther = ours.includes(false);
        tell("script", isOther && say("other-version"));
        return isOther ? trundle.renew?.() : act();
      },
      () => tell("script", say("no-script")),
    );
  const checking = ["assets/check", "steps/" + page.lesson];
  // before has the entries as they were before that of id.
  let isReady; // what checks is there
  const check = (id, before) => {
    isReady = true;
    return trundle.update(sheet, id, before);
  };
  const update = async (id, before) => {
    await press;
    return use(checking, () => check(id, before));
  };
  const updateNow = async (id, before) => (isReady && !press ? check(id, before) : update(id, before));

  // The page is shown before what keeps its entries is there. What is typed until then goes
  // into a note of its own if the page is left, and is back in its box on the next visit.
  const lesson = page.id ?? page.lesson; // what entries are kept under
  const early = "trundle early " + JSON.stringify([page.pack, lesson]);
  const boxes = { ...inputs, "": at("_name") };
  const noteEarly = () => {
    const texts = Object.entries(boxes).map(([id, { value }]) => [id, value.trim()]);
    try {
      localStorage[early] = JSON.stringify(Object.fromEntries(texts.filter(([, text]) => text)));
    } catch {}
  };
  try {
    const texts = JSON.parse(localStorage[early] ?? "{}");
    for (const id in texts) if (boxes[id]) boxes[id].value ||= texts[id];
  } catch {}
  for (const away of ["visibilitychange", "pagehide"]) addEventListener(away, noteEarly);
  const wait = (time) => new Promise((done) => setTimeout(done, time));
  while (!trundle.keep) await use(["assets/keep"], () => {}).then(() => trundle.keep || wait(2000));
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
    if (text !== (before[id] ?? "")) updateNow(id, before);
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
  const entries = Object.create(null);
  const sheet = (trundle.sheet = { page, store, inputs, write, enter, fault, tell, listen, entries });
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
  for (const away of ["visibilitychange", "pagehide"]) removeEventListener(away, noteEarly);
  try {
    localStorage.removeItem(early);
  } catch {}
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
  document.body.dataset.ready = "";
})();
