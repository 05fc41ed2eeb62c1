// Judges an answer, and says what a wrong one may come from.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const say = (...parts) => trundle.say(...parts);

  // The units that hints name: no child need know radians to get rotations right.
  const familiar = ["mm", "cm", "m", "in", "ft", "°", "rotations", "s", "min", "g", "kg", "%"];
  // A unit that is a word may have another name in the page's language.
  const called = (name) =>
    Object.keys(trundle.ones ?? {}).find((other) => `${trundle.units[other]}` === `${trundle.units[name]}`) ?? name;
  const asked = (unit) => (unit === "in" ? say("inches") : unit.replace("Δ", "") || say("number"));
  const fits = (name, unit) => {
    const [from, to] = [name, unit].map(trundle.unit);
    return name === unit || from.dim.join() === to.dim.join();
  };

  const same = (name, said) => {
    const [a, b] = [name, said ?? ""].map(trundle.unit);
    return b && a.num * b.den === b.num * a.den;
  };

  // Why a text is no number for this box.
  trundle.complaint = ({ fault, part }, unit) => {
    if (fault === "kind") return say("kind", part, asked(unit));
    if (fault === "answer-unclear" && part) {
      const [decimal, whole] = [part.replace(",", "."), part.replace(/[.,]/, "")];
      return say("comma", trundle.numeral(decimal), whole);
    }
    if (fault === "unknown-unit") {
      const some = familiar.filter((name) => fits(name, unit)).map(called);
      return unit ? say(fault, part, some.join(", ") || unit) : say("kind", say("quote", part), asked(unit));
    }
    return say(trundle.words[fault] ? fault : "fault", part);
  };

  // judge compares an answer to a find with the exact value: {right, x} or {text} or,
  // for an empty box, nothing. own has the team's own answers to earlier finds.
  trundle.judge = (f, text, exact, own, missing) => {
    if (!text.trim()) return {};
    const answer = trundle.amount(text, f.u);
    if (answer.fault) return { text: trundle.complaint(answer, f.u) };
    if (missing) return { text: say(missing.k, missing.n), wait: true };
    const right = exact[f.n];
    if (right !== right) return { text: say("no-value") };
    const x = answer.x;
    const other = f.also?.find(([unit]) => same(unit, answer.said));
    if (other) f = { ...f, t: [other[1], f.t[1]], to: undefined };
    if (near(f, x, right)) return { right: true, x, text: say("right") };
    // A slip that comes to nothing at all is what somebody who writes 0 has made.
    const slipped = (y) => like(f, x, y) || (x === 0 && Math.abs(y) < 1e-12);
    const slip = (f.s ?? []).find(([program]) => slipped(trundle.run(program, exact)));
    const hint = slip ? slip[1] : f.u === trundle.truth ? undefined : common(f, right, answer, exact, own);
    return { x, wrong: true, hint, text: hint ?? say("not-yet") };
  };

  // A verdict that first speaks of a measurement that looks odd, if one does.
  trundle.warned = (verdict, odd) => {
    const { right, wrong, hint } = verdict;
    if (!odd || !(right || wrong)) return verdict;
    const text = right ? say("right-but", ...odd) : [say("look-first", ...odd), hint].filter(Boolean).join(" ");
    return { ...verdict, odd: true, text };
  };

  // Whether an answer x is taken for y: the rule of Tolerance.Near in generator/work.
  const near = (trundle.near = (f, x, y) => Math.abs(x - y) <= f.t[0] + (f.t[1] + 1e-9) * Math.abs(y));

  // Whether it is what a mistake would come to. That must be met to a quarter at least, however rough the
  // answer may be, so that 0 is like nothing; scale is what the mistake does to a rounded digit.
  const like = (f, x, y, scale = 1) =>
    Number.isFinite(y) &&
    y !== 0 &&
    Math.abs(x - y) <= Math.min(f.t[0] * scale, Math.abs(y) / 4) + (f.t[1] + 1e-9) * Math.abs(y);

  const rough = [" 3 ", " 3.1 "]; // for π
  const roughly = (program, pi) => ` ${program} `.replaceAll(` ${Math.PI} `, pi).trim();

  // The mistakes that need no lesson to know them.
  const common = (f, right, { x, raw, said, plain }, exact, own) => {
    const is = (y, scale) => like(f, x, y, scale);
    const box = trundle.unit(f.u);
    if (raw !== x && near(f, raw ?? NaN, right)) return say("other-unit", said, asked(f.u));
    for (const scale of [10, 0.1, 100, 0.01, 1000, 0.001]) if (is(right * scale, scale)) return say("ten");
    const length = /^1(,0)+$/.test(box.dim);
    if (length && [2.54, 1 / 2.54].some((scale) => is(right * scale, scale))) return say("inch");
    if (rough.some((pi) => is(trundle.run(roughly(f.p, pi), exact)))) return say("pi");
    if (is(2 * right, 2)) return say("twice");
    if (is(right / 2, 0.5)) return say("half");
    if (is(1 / right)) return say("inverse");
    if (is(-right)) return say("sign");
    for (const name of familiar) {
      const y = trundle.convert(right, box, trundle.unit(name));
      if (y !== right && is(y, Math.abs(y / right))) return say("unit", name, asked(f.u));
    }
    const place = /^-?[\d.]+$/.test(plain ?? "") && 10 ** -(plain.split(".")[1] ?? "").length;
    const step = f.to && Number(f.to);
    if (step && place > step && Math.abs(x - right) <= place / 2)
      return say("places", trundle.written(trundle.numeral(f.to), f.u));
    if (near(f, x, trundle.run(f.p, own))) return say("early");
  };

  const amount = (f, x) => trundle.written(trundle.plain(x), f.u);
  const isOdd = (f, x) => f.b && (Math.abs(x) < f.b[0] || Math.abs(x) > f.b[1]);

  // What is odd about a measurement, if anything.
  trundle.doubt = (f, text) => {
    if (!text.trim()) return;
    const a = trundle.amount(text, f.u);
    if (a.fault) return trundle.complaint(a, f.u);
    if (f.b?.[2] && a.x <= 0) return say("positive", text);
    if (isOdd(f, a.x)) return say("range", amount(f, a.x));
  };

  // The first box of a measure or record whose number is of an unlikely size, by its name, and the number.
  trundle.odd = (f, entries) => {
    for (const [i, id] of trundle.boxes(f).entries()) {
      const { x } = trundle.amount(entries[id] ?? "", f.u);
      if (x !== undefined && isOdd(f, x)) return [f.c ? say("run-of", i + 1, f.n) : f.n, amount(f, x)];
    }
  };
})();
