// Typing on a sheet: Enter goes on to the next box, and a tap on a unit brings a keyboard with letters, since one of
// digits has no "in", no slash and no sign.
(() => {
  "use strict";
  const boxes = "[id^=in_]";

  document.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.isComposing || !event.target.matches("input" + boxes)) return;
    event.preventDefault();
    const all = [...document.querySelectorAll(boxes)].filter((e) => e.checkVisibility());
    const next = all[all.indexOf(event.target) + 1];
    if (next) next.focus();
    else event.target.blur(); // which has it checked
  });

  document.addEventListener("click", ({ target }) => {
    const input = target.closest?.(".work .unit")?.parentNode.querySelector("input");
    if (!input) return;
    input.inputMode = "text";
    input.focus();
  });
})();
