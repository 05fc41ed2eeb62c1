// The sheet: its boxes, and how the scripts behind them are loaded: what keeps the entries once the page is there
// (pen.js), what checks them when somebody begins. Until then what is typed is noted here.
(async () => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  if (!at("_sheet")) return;
  const page = JSON.parse(at("_sheet").textContent);
  const longest = 200; // characters of an entry; no number with its unit is longer, and words have a limit of their own
  const isLong = (id, text) => text.length > Math.max(longest, inputs[id].maxLength);
  const inputs = { __proto__: null }; // by entry: d, s-1, why, @kit, @kit_wheel
  for (const e of document.querySelectorAll("input[id^=in_],textarea")) inputs[e.id.slice(3)] = e;
  for (const e of document.querySelectorAll("input[id^=kit_],#_kit")) inputs["@" + e.id.replace(/^_/, "")] = e;
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
    const said = [...wrong.values()].pop() ?? calm;
    if (at("_kept").textContent === said) return; // nothing is laid out anew for nothing
    at("_kept").textContent = said;
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
      return (await run(address)) || (name === "assets/keep" && trundle.pen) || (await run(address + "&" + Date.now()));
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

  const sheet = (trundle.sheet = { page, inputs, tell, entries: Object.create(null) });

  // The page is shown before what keeps its entries is there. What is typed until then goes
  // into a note of its own if the page is left, and is back in its box on the next visit.
  const lesson = page.id ?? page.lesson; // what entries are kept under
  const early = "trundle early " + JSON.stringify([page.pack, lesson]);
  const boxes = { __proto__: null, ...inputs, "": at("_name") };
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
  while (!trundle.pen) await use(["assets/keep"], () => {}).then(() => trundle.pen || wait(2000));
  await trundle.pen({ lesson, say, use, checking, update, updateNow, isLong, longest });
  for (const away of ["visibilitychange", "pagehide"]) removeEventListener(away, noteEarly);
  try {
    localStorage.removeItem(early);
  } catch {}
  document.body.dataset.ready = "";
})();
