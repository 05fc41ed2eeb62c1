// What is to be predicted first: shut until the finds that open it are right, and saying of each
// whether it is. It is no details element, which a browser opens to show what is searched for.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const isFree = (later) => "free" in later.dataset;

  const show = (later, open) => {
    later.querySelector("div").hidden = !open;
    later.querySelector("button").setAttribute("aria-expanded", open);
  };

  // trundle.press answers somebody who presses a shut one: the questions that are still open.
  trundle.press = (later) => {
    const said = later.querySelector("[role=status]");
    said.textContent = "";
    if (isFree(later)) return show(later, later.querySelector("div").hidden);
    const open = [...later.querySelectorAll("a:not(.done)")];
    const question = (a) => document.querySelector(`label[for="${a.hash.slice(1)}"]`) ?? a;
    const asked = open.map((a) => question(a).textContent);
    said.textContent = trundle.say("later", asked.map((text) => trundle.say("quote", text.trim())).join(" · "));
  };

  (trundle.followers ??= []).push((sheet, { verdicts }) => {
    for (const later of document.querySelectorAll("[data-after]")) {
      let free = true;
      for (const a of later.querySelectorAll(".opens a")) {
        const { right = false } = verdicts[a.hash.slice(4)];
        free &&= right;
        if (right === a.classList.contains("done")) continue;
        a.classList.toggle("done", right);
        a.children[0].textContent = trundle.say(right ? "later-done" : "later-open") + " ";
        a.children[1].textContent = right ? "✓" : "○";
      }
      if (free === isFree(later)) continue;
      later.toggleAttribute("data-free", free);
      later.querySelector("[role=status]").textContent = "";
      show(later, free);
    }
  });
})();
