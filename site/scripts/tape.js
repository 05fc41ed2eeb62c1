// The hook on the tape: where in the lesson one is reading, by its minutes.
(() => {
  "use strict";
  const links = [...document.querySelectorAll(".tape a")];
  if (!links[0]) return;
  const parts = links.map((a) => document.getElementById(decodeURIComponent(a.hash.slice(1))));
  const band = document.querySelector(".tape > div");
  const hook = document.createElement("i");
  hook.className = "hook";
  band.append(hook);
  let waiting;
  const place = () => {
    waiting = 0;
    // One reads a third down the window; on the way to the page's end, further down.
    const left = document.documentElement.scrollHeight - innerHeight - scrollY;
    const line = innerHeight - Math.min(Math.max(left, 0), (innerHeight * 2) / 3);
    const tops = [...parts, document.querySelector("footer")].map((e) => e.getBoundingClientRect().top);
    const at = Math.max(0, parts.findLastIndex((_, i) => tops[i] <= line));
    links.forEach((a, i) => (i === at ? a.setAttribute("aria-current", "true") : a.removeAttribute("aria-current")));
    const share = Math.min(Math.max((line - tops[at]) / (tops[at + 1] - tops[at]), 0), 1);
    const { offsetLeft, offsetWidth } = links[at].parentNode;
    const x = Math.min(Math.max(offsetLeft + share * offsetWidth, 5), band.offsetWidth - 17); // all of it can be seen
    hook.style.transform = `translateX(${x}px)`;
    band.parentNode.scrollLeft = x - innerWidth * 0.3; // a tape longer than the window is pulled along under the hook
  };
  const soon = () => (waiting ||= requestAnimationFrame(place));
  addEventListener("scroll", soon, { passive: true });
  addEventListener("resize", soon);
  place();
})();
