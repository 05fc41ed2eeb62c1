// Marks the part of the lesson that is being read on the tape strip.
(() => {
  "use strict";
  const links = [...document.querySelectorAll(".tape a")];
  const parts = links.map((a) => document.getElementById(decodeURIComponent(a.hash.slice(1))));
  if (links.length === 0) return;
  let waiting = false;
  const mark = () => {
    waiting = false;
    const line = window.innerHeight / 3;
    let current = 0;
    parts.forEach((part, i) => {
      if (part && part.getBoundingClientRect().top <= line) current = i;
    });
    if (window.innerHeight + window.scrollY >= document.documentElement.scrollHeight - 2) current = links.length - 1;
    links.forEach((a, i) => {
      if (i === current) a.setAttribute("aria-current", "true");
      else a.removeAttribute("aria-current");
    });
  };
  const soon = () => {
    if (!waiting) requestAnimationFrame(mark);
    waiting = true;
  };
  addEventListener("scroll", soon, { passive: true });
  addEventListener("resize", soon);
  mark();
})();
