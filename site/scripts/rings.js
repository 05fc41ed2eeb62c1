// The rings on the tape, one for each question of a part: full when its answer is right.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const fill = (_, { verdicts }) => {
    for (const rings of document.querySelectorAll(".tape b")) {
      const all = [...rings.children];
      for (const ring of all) ring.className = verdicts[ring.id.slice(5)]?.right ? "full" : "";
      const right = all.filter((ring) => ring.className).length;
      const link = rings.parentNode;
      rings.title = right && trundle.say("part", right, all.length);
      if (right) link.setAttribute("aria-label", link.textContent.trim() + ", " + rings.title);
      else link.removeAttribute("aria-label");
    }
  };
  (trundle.followers ??= []).push(fill);
})();
