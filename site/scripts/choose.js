// Answers to choose from: what the page replies to the one that is chosen. The replies come with the lesson's steps in
// a form that nobody reads by chance; choose.go has the same rule.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // trundle.reply is what is said of an answer: + or -, and a text.
  trundle.reply = (scrambled, by) => {
    let state = 2166136261;
    for (const c of by) state = Math.imul(state ^ c.codePointAt(), 16777619);
    const bytes = Uint8Array.from(atob(scrambled), (c) => {
      state = (Math.imul(state ^ (state >>> 13), 1597334677) + 0x9e3779b9) | 0;
      return c.charCodeAt() ^ (state >>> 24);
    });
    return new TextDecoder().decode(bytes).trimEnd();
  };

  const groups = [...document.querySelectorAll(".choose [role=radiogroup]")];
  (trundle.followers ??= []).push(() => {
    for (const group of groups) {
      const name = group.id.slice(3);
      const i = [...group.querySelectorAll("input")].findIndex((one) => one.checked);
      const reply = i < 0 ? "" : trundle.reply(trundle.replies[name][i], name + " " + group.value);
      const isRight = reply[0] === "+";
      const told = document.getElementById("told_" + name);
      if ("asks" in told.dataset) continue; // another tab's answer is asked about there
      trundle.put(told, reply.slice(1));
      told.dataset.state = reply && (isRight ? "right" : "look");
      group.closest(".row").classList.toggle("ok", isRight);
    }
  });
})();
