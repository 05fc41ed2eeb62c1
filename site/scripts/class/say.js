// What the groups of a class come to, in the sentences of trundle tally: package figure has the same, from the same
// words.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  // The first number among the parts decides between singular and plural, as in package words.
  const say = (trundle.tell = (name, ...parts) => {
    const { words } = trundle;
    const number = parts.find((part) => typeof part === "number");
    const isOne = number !== undefined && words["#singular"]?.split(" ").includes(`${number}`);
    let next = 0;
    return ((isOne && words[name + "#one"]) || words[name]).replace(/%%|%(?:\[(\d)\])?[sd]|{}/g, (form, i) =>
      form === "%%" ? "%" : parts[i ? i - 1 : next++]);
  });

  // A whole number with the language's mark between its thousands: {mark, from}, from so many digits on.
  const grouped = (n) => {
    const { mark, from } = trundle.thousands;
    return `${n}`.length < from ? `${n}` : `${n}`.replace(/\B(?=(\d{3})+$)/g, mark);
  };
  const oneIn = (p) => {
    if (!(p > 1e-6)) return say("runs-one-in-million");
    const n = 1 / p;
    const place = n < 100 ? 1 : 10 ** Math.floor(Math.log10(n));
    return say("runs-one-in", grouped(Math.round(Math.round(n / place) * place)));
  };

  // To as many places as show two digits of the smallest spread.
  const twoDigits = (x) => Math.min(Math.max(0, 1 - Math.floor(Math.log10(x))), 9);
  trundle.amounts = (groups, unit) => {
    const spreads = groups.map((g) => g.sd).filter((sd) => sd > 0);
    const halves = groups.map((g) => (g.high - g.low) / 2).filter((half) => half > 0);
    const none = Math.max(-1, ...halves.map(twoDigits));
    const [least, most] = [Math.min(...spreads), Math.max(...spreads)];
    const places = spreads[0] ? Math.min(twoDigits(least), twoDigits(most) + 2) : none;
    const to = (x, n) => trundle.step(x, n ? "0." + "0".repeat(n - 1) + "1" : "1");
    const few = (x) => trundle.numeral(trundle.significant(x, 4));
    const number = (x, n = places) => (!Number.isFinite(x) ? "–" : n >= 0 ? to(x, n) : few(x));
    const signed = (x) => (x > 0 && /[1-9]/.test(number(x)) ? "+" : "") + number(x);
    return { number, signed, size: (x) => trundle.written(number(x), unit) };
  };

  const verdict = ({ groups }, pair, apart, together) => {
    const [a, b] = [groups[pair.first], groups[pair.second]];
    if (pair.verdict === "apart") return say(apart, a.name, b.name, oneIn(pair.p));
    if (pair.verdict === "together") return say(together, a.name, b.name);
    if (pair.verdict === "no-spread") return say("runs-no-spread", a.name, b.name);
    const few = [a, b].filter(({ n }) => n < 3).map(({ name }) => name);
    return say("runs-too-few", a.name, b.name, few[1] === undefined ? few[0] : say("runs-both", ...few));
  };

  const look = (g, m) => {
    const all = g.odd.map((i) => say("runs-odd", g.name, m.size(g.values[i]), g.rows[i]));
    if (g.odd[0] !== undefined) all.push(say("runs-odd-mean", g.name, m.size(g.mean), m.size(g.without)));
    if (g.n === 1) all.push(say("runs-one-run", g.name));
    if (g.n > 1 && g.sd === 0) all.push(say("runs-no-scatter", g.name));
    if (g.empty) all.push(say("runs-empty", g.name, grouped(g.empty)));
    return all;
  };

  // trundle.findings gives a column's table and sentences: {heads, rows, says}.
  trundle.findings = (column, { by, unit, isLength }) => {
    const { groups, target, near, aim = [] } = column;
    const m = trundle.amounts(groups, unit);
    const [isAimed, hasPart] = [target === target, target === target && target !== 0];
    const kind = !isAimed ? "more" : hasPart && isLength ? "near" : "target";
    const heads = [by, "runs-n", "runs-mean", "runs-interval", "runs-sd"];
    if (isAimed) heads.push("runs-error");
    if (hasPart) heads.push("runs-percent");
    const rows = groups.map((g) => {
      const interval = Number.isFinite(g.low) ? `${m.number(g.low)} … ${m.number(g.high)}` : "–";
      const row = [g.name, `${g.n}`, m.number(g.mean), interval, m.number(g.sd)];
      if (isAimed) row.push(m.signed(g.bias));
      const part = m.number(100 * g.percent, 1);
      if (hasPart) row.push(100 * g.percent > 9999 ? `> ${grouped(9999)} %` : part === "–" ? part : part + " %");
      return row;
    });
    const says = groups.flatMap((g) => look(g, m));
    for (const p of near) says.push(verdict(column, p, "runs-apart-" + kind, "runs-together-" + kind));
    for (const p of aim.filter((p) => p.p === p.p))
      says.push(verdict(column, p, "runs-apart-aim-" + kind, "runs-together-aim-" + kind));
    return { heads: heads.map((name, i) => (i ? say(name) : name)), rows, says };
  };
})();
