// The page of the season: marks this week, if the weeks have dates, and shows how far a team has come in each lesson.
// The team and its robot are chosen here for all lessons.
(async () => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  const { say } = trundle;
  const weeks = [...document.querySelectorAll(".week")];

  // Days since the calendar began, of the date that a clock on the wall shows: no summer time comes between.
  const dayOf = (year, month, day) => Date.UTC(year, month, day) / 864e5;
  const hang = () => {
    const now = new Date();
    const today = dayOf(now.getFullYear(), now.getMonth(), now.getDate());
    for (const week of weeks) {
      const [year, month, day] = (week.querySelector("time")?.dateTime ?? "").split("-");
      const since = today - dayOf(year, month - 1, day);
      const isNow = since >= 0 && since < 7 * (week.dataset.to - week.dataset.week + 1);
      if (week.classList.toggle("here", isNow) === !!week.querySelector(".today")) continue;
      const words = Object.assign(document.createElement("span"), { className: "today", textContent: say("now") });
      isNow ? week.querySelector(".num").append(" ", words) : week.querySelector(".today").remove();
    }
  };
  hang();
  addEventListener("focus", hang); // a page may stay open for weeks
  if (!at("_season") || !trundle.keep) return;

  const { pack, names } = JSON.parse(at("_season").textContent);
  const store = await trundle.keep(pack, "", names);
  const boxes = {}; // by entry: @kit, @kit_wheel
  for (const e of document.querySelectorAll("input[id^=kit_],#_kit")) boxes["@" + e.id.replace(/^_/, "")] = e;
  const calm = at("_kept").textContent;
  const fault = () => (at("_kept").textContent = store.fault ? say("blocked") : calm);

  // What a lesson's page has noted of it. It may come from a file, and be anything.
  const rightOf = (lesson, text) => {
    try {
      return JSON.parse(text).r.map((field) => store.names.now({ lesson, field }).field);
    } catch {
      return [];
    }
  };
  const show = async () => {
    const { lessons } = await store.whole();
    for (const rings of document.querySelectorAll("[data-of]")) {
      const right = rightOf(rings.dataset.of, lessons[rings.dataset.of]?.["#state"]);
      const all = [...rings.children];
      for (const ring of all) ring.classList.toggle("right", right.includes(ring.dataset.n));
      rings.ariaLabel = say("right", all.filter((ring) => ring.className).length, all.length);
    }
  };
  const face = () => at("_ours") && (at("_ours").hidden = boxes["@kit"].value !== "ours");
  let clock = 0;
  const times = {}; // of choices, by entry: what is chosen while the storage answers is newer than its answer
  const enter = async (team) => {
    const start = ++clock;
    const kept = await store.enter(team);
    for (const id in boxes) if (!(times[id] > start)) boxes[id].value = kept[id] ?? "";
    if (at("_name") !== document.activeElement) at("_name").value = store.team;
    face();
    fault();
    await show();
  };

  for (const id in boxes)
    boxes[id].addEventListener("change", async () => {
      times[id] = ++clock;
      face();
      await store.put(id, boxes[id].value.trim(), true);
      fault();
    });
  at("_name").addEventListener("focus", async () => {
    at("_teams").replaceChildren(...(await store.teams()).map((name) => new Option(name, name)));
  });
  at("_name").addEventListener("change", async () => {
    await enter(at("_name").value.trim().slice(0, 200));
    at("_name").value = store.team;
  });
  // What other tabs do is shown here: the team's name, its robot, what is right in its lessons.
  store.watch((id, text) => {
    if (!id) return text !== store.team && enter(text);
    if (boxes[id]) boxes[id].value = text;
    face();
    return true;
  });
  addEventListener("focus", show);
  try {
    new BroadcastChannel("trundle " + pack).onmessage = show;
  } catch {} // then it is seen when the page is turned to
  // A page that comes back as it was left may have the team of before.
  addEventListener("pageshow", (event) => event.persisted && location.reload());
  at("_team").hidden = false;
  await enter(store.team);
  document.body.dataset.ready = "";
})();
