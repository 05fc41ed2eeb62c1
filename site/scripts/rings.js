// The rings on the tape, one for each question of a part in the order of the page: full when its answer is right.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const at = (id) => document.getElementById(id);
  // The rings of a page carry no names, since they are there before all scripts: which questions are in which part is
  // seen from where they are.
  let rings; // [link, ring of each question by its name] of each part with rings
  const find = (fields) => {
    const links = [...document.querySelectorAll(".tape a")];
    const parts = links.map((a) => ({ a, start: at(decodeURIComponent(a.hash.slice(1))), names: [] }));
    const follows = (e, start) => start?.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING;
    for (const { k, n } of fields) {
      if (k === "find") parts.findLast(({ start }) => follows(at("told_" + n), start))?.names.push(n);
    }
    return parts.map(({ a, names }) => [a, new Map([...a.querySelectorAll("i")].map((ring, i) => [names[i], ring]))]);
  };
  const fill = ({ page }, { verdicts }) => {
    for (const [link, questions] of (rings ??= find(page.fields))) {
      for (const [name, ring] of questions) ring.className = verdicts[name]?.right ? "full" : "";
      const right = link.querySelectorAll(".full").length;
      const said = right ? trundle.say("part", right, questions.size) : "";
      link.querySelector("b")?.setAttribute("title", said);
      if (right) link.setAttribute("aria-label", link.textContent.trim() + ", " + said);
      else link.removeAttribute("aria-label");
    }
  };
  (trundle.followers ??= []).push(fill);
})();
