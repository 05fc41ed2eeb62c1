// The time plan as a clock: from the start that a mentor sets, when each part begins.
(() => {
  "use strict";
  const start = document.getElementById("_start");
  if (!start) return;
  const key = "start " + location.pathname;
  const two = (n) => String(n).padStart(2, "0");
  const tell = () => {
    const [hours, minutes] = start.value.split(":").map(Number);
    for (const cell of document.querySelectorAll("[data-from]")) {
      const at = hours * 60 + minutes + Number(cell.dataset.from);
      cell.textContent = start.value ? two(Math.floor(at / 60) % 24) + ":" + two(at % 60) : cell.dataset.plain;
    }
    try {
      sessionStorage.setItem(key, start.value);
    } catch {} // a browser that keeps nothing shows the clock all the same
  };
  for (const cell of document.querySelectorAll("[data-from]")) cell.dataset.plain = cell.textContent;
  try {
    start.value = sessionStorage.getItem(key) ?? "";
  } catch {}
  start.closest("p").hidden = false;
  start.addEventListener("input", tell);
  tell();
})();
