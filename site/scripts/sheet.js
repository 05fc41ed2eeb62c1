// The sheet: its boxes, and what is typed into them kept on the device. Checking is loaded
// when somebody begins.
(async () => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  if (!at("_sheet")) return;
  const page = JSON.parse(at("_sheet").textContent);
  const longest = 200; // characters of an entry; no number with its unit is longer
  const inputs = {}; // by entry: d, s-1, @kit, @kit_wheel
  for (const e of document.querySelectorAll("input[id^=in_]")) inputs[e.id.slice(3)] = e;
  for (const e of document.querySelectorAll("input[id^=kit_],#_kit")) inputs["@" + e.id.replace("_kit", "kit")] = e;
  const say = (trundle.say = (name, ...parts) => trundle.words[name].replace(/{}/g, () => parts.shift()));
  const calm = at("_kept").textContent;
  const wrong = new Map(); // by what it is about: a box, the storage, a script
  const tell = (about, text) => {
    wrong.delete(about);
    if (text) wrong.set(about, text);
    at("_kept").textContent = [...wrong.values()].pop() ?? calm;
    at("_kept").dataset.state = wrong.size ? "look" : "";
  };

  const loads = {};
  const load = (name) =>
    (loads[name] ??= new Promise((done, fail) => {
      const script = document.createElement("script");
      script.src = name + ".js";
      script.onload = done;
      script.onerror = () => fail(delete loads[name]); // to be asked for again
      document.head.append(script);
    }));
  const use = (names, act) =>
    Promise.all(names.map(load)).then(
      () => {
        tell("script");
        return act();
      },
      () => tell("script", say("no-script")),
    );
  const checking = ["assets/check", "steps/" + page.lesson];
  const update = (id) => use(checking, () => trundle.update(sheet, id));

  const store = await trundle.keep(page.pack, page.lesson);
  const fault = (name) => {
    tell("storage", say(name));
    at("_files").open = true;
  };

  const set = (id, text) => {
    sheet.entries[id] = text;
    if (inputs[id] && inputs[id].value !== text) inputs[id].value = text;
  };

  const save = async (id, over) => {
    const text = sheet.entries[id];
    const done = await store.put(id, text, over);
    if (done.fault) fault(done.fault);
    if (done.kept) {
      inputs[id].dataset.kept = text; // tests look at it
      if (!store.fault) tell("storage");
    }
    // Another tab was here first: neither text is thrown away unasked.
    if (done.other !== undefined) use(["assets/check"], () => trundle.offer(sheet, id, done.other));
  };

  const write = (id, text, over) => {
    set(id, text);
    update(id);
    save(id, over);
  };

  const changed = (id) => {
    const text = inputs[id].value.trim();
    if (text.length > longest) return tell(id, say("too-long"));
    tell(id);
    if (text !== (sheet.entries[id] ?? "")) write(id, text);
  };

  const enter = async (team, bring) => {
    const kept = await store.enter(team, bring);
    if (store.team !== team) return; // another name came meanwhile
    // What is in a box and not in its entry was typed while the storage had not answered.
    const typed = Object.keys(inputs).map((id) => [id, inputs[id].value.trim()]);
    const early = typed.filter(([id, text]) => text && text !== (sheet.entries[id] ?? ""));
    sheet.entries = Object.create(null);
    for (const id in inputs) inputs[id].value = "";
    for (const id in kept) set(id, kept[id]);
    at("_name").value = team;
    for (const [id, text] of early) {
      inputs[id].value = text;
      changed(id);
    }
    if (trundle.update || Object.keys(kept).length) await update();
  };

  const sheet = (trundle.sheet = { page, store, inputs, write, enter, fault, entries: Object.create(null) });
  for (const id in inputs) {
    inputs[id].addEventListener("change", () => changed(id));
    inputs[id].addEventListener("focus", () => update());
  }
  at("_name").addEventListener("focus", async () => {
    at("_teams").replaceChildren(...(await store.teams()).map((name) => new Option(name, name)));
  });
  at("_name").addEventListener("change", () => enter(at("_name").value.trim().slice(0, longest)));
  // What is to be predicted first stays shut until its finds are right.
  for (const later of document.querySelectorAll("[data-after]")) {
    later.firstElementChild.addEventListener("click", (event) => "free" in later.dataset || event.preventDefault());
  }
  // A page that is put away takes what is still being typed with it.
  addEventListener("visibilitychange", () => {
    for (const id in inputs) if (document.hidden && inputs[id] === document.activeElement) changed(id);
  });
  store.watch((id, text) => {
    if (!id) return text !== store.team && enter(text);
    const input = inputs[id];
    if (input && input === document.activeElement && input.value.trim() !== (sheet.entries[id] ?? "")) return false;
    set(id, text);
    update(id);
    return true;
  });
  at("_files").addEventListener("toggle", () => use([...checking, "assets/files"], () => trundle.drawer(sheet)));

  at("_team").hidden = false;
  if (store.fault) fault(store.fault);
  await enter(store.team);
  document.body.dataset.ready = "";
})();
