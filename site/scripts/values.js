// What a team's entries come to.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // Whether a team writes decimals with the mark that the pack's language does not have there: some that can be
  // nothing else, and none with the other mark. A sentence says nothing of that.
  trundle.writesOther = (entries) => {
    const texts = Object.values(entries).filter((text) => text.split(/\s+/).length < 6).map(trundle.ungrouped);
    const some = (form) => texts.some((text) => new RegExp("^[ +−-]*" + form).test(text));
    const [own, other] = trundle.comma ? [",", "\\."] : ["\\.", ","];
    return some(`(\\d*${other}(\\d\\d?|\\d{4,})|0?${other}\\d+)(?!\\d)`) && !some(`\\d*${own}\\d`);
  };

  // What was worked out once, kept: most texts of a sheet are the same in its next update. The oldest go first.
  const kept = new Map();
  const remember = (key, make) => {
    let result = kept.get(key);
    if (result) return result;
    if (kept.size > 999) kept.delete(kept.keys().next().value);
    kept.set(key, (result = make()));
    return result;
  };

  // A typed text as a number in the unit of its box: {x, plain, raw, said}, the last two as it was
  // typed, or {fault, part}.
  trundle.amount = (text, unit) => remember(`${trundle.other} ${unit} ${text}`, () => read(text, unit));
  const times = ["s", "min", "h"];
  const read = (typed, unit) => {
    if (unit === trundle.truth) {
      const { yes = "yes", no = "no" } = trundle.words ?? {};
      const bare = (word) => word.toLowerCase().normalize("NFD").replace(/\p{M}/gu, ""); // si for sí
      const word = bare(typed.trim().replace(/[\s.!]+$/, ""));
      const x = [[no, "no", "n"], [yes, "yes", "y"]].findIndex((said) => said.map(bare).includes(word));
      return x < 0 ? { fault: "yes-or-no" } : { x };
    }
    // 2:30 alone is a time where a time is asked for.
    const isTime = times.includes(unit) && /^[^\p{L}]*:[^\p{L}]*$/u.test(typed);
    const text = isTime ? typed + (unit === "h" || /:.*:/.test(typed) ? " h" : " min") : typed;
    return asAmount(text, unit);
  };
  const asAmount = (text, unit) => {
    const { plain, ...typed } = trundle.read(text, trundle.other);
    if (typed.fault || !typed.unit) return { ...typed, plain };
    const x = trundle.convert(typed.x, trundle.unit(typed.unit), trundle.unit(unit));
    if (x !== x) return { fault: "kind", part: typed.unit };
    return { x, plain: x === typed.x ? plain : undefined, raw: typed.x, said: typed.unit };
  };

  // The names that a program uses; every check asks for those of every program.
  const named = new Map();
  const names = (program) => {
    if (!named.has(program)) named.set(program, program.split(" ").filter((word) => !/^[-+*/^~=#.\d]|:/.test(word)));
    return named.get(program);
  };

  // The values of all names: exact as the formulas give them from what was measured, and
  // own, where a find counts as the team's answer and only once that is right. Where
  // something is still missing is NaN. verdicts has what is said of each find, texts the measured
  // numbers as they were written.
  trundle.values = (fields, entries, kit, kitTexts = {}) => {
    const exact = Object.create(null);
    const own = Object.create(null);
    const verdicts = {};
    const texts = Object.create(null);
    const put = (name, x) => (exact[name] = own[name] = x);
    for (const name in kit) {
      put("kit." + name, kit[name]);
      texts["kit." + name] = kitTexts[name];
    }
    const amount = (id, f) => trundle.amount(entries[id] ?? "", f.u);
    const asTyped = ({ plain }) => trundle.numeral(plain?.replace("-", "−"));
    // A fact that the team measures is theirs from the first line on.
    for (const f of fields) if (f.kit) put("kit." + f.kit, trundle.amount(entries[f.n] ?? "", f.u).x ?? NaN);

    const byName = new Map();
    for (const f of fields) for (const name of [f.n, "kit." + f.kit]) if (!byName.has(name)) byName.set(name, f);

    // The first thing to measure that a program still lacks. It is looked for once a program: finds that each use the
    // one before twice would double the work with every find. What is below a find is known by then, so it stays so.
    const lacking = new Map();
    const missing = (program) => {
      if (!lacking.has(program)) lacking.set(program, firstMissing(program));
      return lacking.get(program);
    };
    const firstMissing = (program) => {
      for (const name of names(program)) {
        const f = byName.get(name);
        if (!f) {
          if (exact[name] !== exact[name] && name.startsWith("kit.")) return { k: "measure", n: name.slice(4) };
          continue;
        }
        if (f.p) {
          const deeper = missing(f.p);
          if (deeper) return deeper;
        } else if (!(exact[f.n] === exact[f.n])) return f;
      }
    };

    // The first measurement that a program depends on and that looks odd. Many finds depend on the same ones.
    const looked = new Map();
    const odd = (program) => {
      if (!looked.has(program)) looked.set(program, firstOdd(program));
      return looked.get(program);
    };
    const firstOdd = (program) => {
      for (const name of names(program)) {
        const f = byName.get(name);
        const found = f && (f.p ? odd(f.p) : trundle.odd(f, entries));
        if (found) return found;
      }
    };

    // A line through points takes the runs that all its records have.
    const readings = {};
    const paired = (program, values) => {
      const records = /\bfit_/.test(program) ? names(program).filter((name) => Array.isArray(values[name])) : [];
      const together = Object.create(values);
      const isPoint = (_, i) => records.every((name) => Number.isFinite(readings[name][i]));
      for (const name of records) together[name] = readings[name].filter(isPoint);
      return together;
    };

    for (const f of fields) {
      if (f.c) {
        const typed = trundle.boxes(f).map((id) => amount(id, f));
        readings[f.n] = typed.map((a) => a.x ?? NaN);
        texts[f.n] = typed.filter((a) => Number.isFinite(a.x)).map(asTyped);
        put(f.n, trundle.counted(f, entries, readings[f.n]) ?? NaN);
      } else if (!f.p) {
        const typed = amount(f.n, f);
        put(f.n, typed.x ?? NaN);
        texts[f.n] = asTyped(typed);
        if (f.kit) {
          put("kit." + f.kit, exact[f.n]);
          texts["kit." + f.kit] = texts[f.n];
        }
      } else {
        if (f.k === "given") texts[f.n] = texts[f.p]; // of a fact of the kit, as it was written
        exact[f.n] = trundle.run(f.p, paired(f.p, exact));
        own[f.n] = trundle.run(f.p, paired(f.p, own));
        if (f.k !== "find") continue;
        const [all, ours] = [exact, own].map((values) => paired(f.p, values));
        const lacks = entries[f.n]?.trim() && missing(f.p);
        const verdict = trundle.judge(f, entries[f.n] ?? "", all, ours, lacks);
        verdicts[f.n] = trundle.warned(trundle.regrown(verdict, f, fields, all), odd(f.p));
        own[f.n] = verdict.right ? verdict.x : NaN;
      }
    }
    return { exact, own, verdicts, texts };
  };
})();
