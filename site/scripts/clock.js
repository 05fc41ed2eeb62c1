// The time plan as a clock: from the start that a mentor sets, when each part begins, on the tape and at each part. It
// is kept for the evening, and so are ticks.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const start = document.getElementById("_start");
  if (!start) return;
  const key = "start " + location.pathname;
  const read = (name) => {
    try {
      return sessionStorage.getItem(name) ?? "";
    } catch {
      return ""; // a browser that keeps nothing shows the clock all the same
    }
  };
  const keep = (name, value) => {
    try {
      sessionStorage.setItem(name, value);
    } catch {}
  };
  const two = (n) => String(n).padStart(2, "0");
  const begins = () => {
    const [hours, minutes] = start.value.split(":").map(Number);
    return start.value ? hours * 60 + minutes : NaN;
  };
  const write = (at) => two(Math.floor(at / 60) % 24) + ":" + two(at % 60);
  const tell = () => {
    for (const e of document.querySelectorAll("[data-from]")) {
      e.dataset.plain ??= e.textContent;
      e.textContent = start.value ? write(begins() + Number(e.dataset.from)) : e.dataset.plain;
    }
    keep(key, start.value);
    trundle.clock.changed?.();
  };
  // begins is the start as minutes of the day, NaN as long as none is set.
  trundle.clock = {
    begins,
    write,
    set: (value) => {
      start.value = value;
      tell();
    },
  };
  start.value = read(key);
  start.closest("p").hidden = false;
  start.addEventListener("input", tell);
  tell();

  const ticks = [...document.querySelectorAll(".ticks input")];
  const ticked = "ticks " + location.pathname;
  const done = read(ticked).split(" ");
  for (const box of ticks) {
    box.checked = done.includes(box.id);
    box.addEventListener("change", () =>
      keep(ticked, ticks.filter((b) => b.checked).map((b) => b.id).join(" ")),
    );
    box.nextElementSibling.addEventListener("click", (event) => event.target.closest("a") ?? box.click());
  }
})();
