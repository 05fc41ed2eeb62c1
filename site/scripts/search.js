// Finds words in all lessons, on the mentors' page of the season. The texts are loaded when somebody types.
(() => {
  "use strict";
  const box = document.getElementById("_search");
  const [field, count, hits] = ["input", "[role=status]", "ol"].map((part) => box.querySelector(part));
  const most = 50; // places that are listed; whoever gets more types on
  const words = trundle.words;
  const letters = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d", "’": "'" };

  // A text as it is compared, without capitals and accents; and with ä written as ae, where there is one.
  const fold = (text) =>
    text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "").replace(/[ßæœøłđ’]/g, (sign) => letters[sign]);

  const spelled = (text) => text.normalize("NFC").replace(/[äöü]/gi, "$&e");
  const folds = (text) => [...new Set([fold(text), fold(spelled(text))])];

  let loading;
  const load = () =>
    (loading ??= new Promise((done, fail) => {
      const script = document.createElement("script");
      script.src = "assets/texts.js?v=" + document.documentElement.dataset.version;
      script.onload = () =>
        done(trundle.texts.map(([address, where, heading, text]) =>
          ({ address, where, heading, text, in: folds(heading), all: folds(heading + " " + text + " " + where) })));
      script.onerror = fail;
      document.head.append(script);
    }));

  // Where a word of the text begins with what is sought, −1 if none does.
  const place = (text, sought) => {
    for (let at = text.indexOf(sought); at >= 0; at = text.indexOf(sought, at + 1)) {
      if (!/[\p{L}\p{N}]/u.test(text[at - 1] ?? " ")) return at;
    }
    return -1;
  };

  // The words around the first place of what is sought; it is itself in a mark.
  const around = (text, sought) => {
    const signs = Array.from(text);
    const from = [0]; // where each sign begins in the folded text
    const form = place(fold(text), sought) < 0 ? (sign) => fold(spelled(sign)) : fold;
    for (const sign of signs) from.push(from.at(-1) + form(sign).length);
    const at = place(form(text), sought);
    const line = document.createElement("p");
    if (at < 0) {
      line.textContent = text.slice(0, 120);
      return line;
    }
    const sign = (n) => from.findLastIndex((begins) => begins <= n);
    const [start, end] = [sign(at), Math.max(sign(at) + 1, sign(at + sought.length - 1) + 1)];
    const part = (a, b) => signs.slice(Math.max(0, a), b).join("");
    const mark = document.createElement("mark");
    mark.textContent = part(start, end);
    const before = start > 50 ? "… " + part(start - 50, start).replace(/^\S*\s/, "") : part(0, start);
    const after = end + 80 < signs.length ? part(end, end + 80).replace(/\s\S*$/, "") + " …" : part(end);
    line.append(before, mark, after);
    return line;
  };

  const entry = (found, sought) => {
    const item = document.createElement("li");
    const link = document.createElement("a");
    const where = document.createElement("span");
    link.href = found.address;
    link.textContent = found.heading;
    where.className = "min";
    where.textContent = found.where;
    item.append(link, " ", where, around(found.text, sought));
    return item;
  };

  let asked = 0;
  const search = async () => {
    const mine = ++asked;
    const sought = fold(field.value).split(/\s+/).filter(Boolean);
    if (!sought.length) {
      hits.replaceChildren();
      count.textContent = "";
      return;
    }
    let passages;
    try {
      passages = await load();
    } catch {
      count.textContent = words.missing;
      return;
    }
    if (mine !== asked) return; // more was typed
    const holds = (forms) => sought.every((word) => forms.some((text) => place(text, word) >= 0));
    const found = passages.filter((p) => holds(p.all));
    const first = found.filter((p) => holds(p.in));
    const listed = [...first, ...found.filter((p) => !first.includes(p))].slice(0, most);
    hits.replaceChildren(...listed.map((p) => entry(p, sought[0])));
    const name = !found.length ? "none" : found.length > most ? "most" : "count";
    count.textContent = trundle.say(name, found.length);
  };

  let rest;
  field.addEventListener("input", () => {
    clearTimeout(rest);
    rest = setTimeout(search, 150); // a moment, so that not every letter is told to those who listen
  });
  field.addEventListener("keydown", (event) => {
    if (event.key === "Enter") hits.querySelector("a")?.focus();
    if (event.key === "Escape" && field.value) {
      event.preventDefault();
      field.value = "";
      search();
    }
  });
  box.hidden = false;
})();
