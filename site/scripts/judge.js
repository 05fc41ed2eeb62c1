// Judges an answer, and says what a wrong one may come from.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const say = (...parts) => trundle.say(...parts);

  // Why a text is no number for this box.
  trundle.complaint = ({ fault, part }, unit) => {
    if (fault === "kind") return say("kind", part, unit || say("number"));
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
    const [within, part] = f.t;
    const near = (y, scale = 1) => Math.abs(x - y) <= within * scale + (part + 1e-9) * Math.abs(y);
    if (near(right)) return { right: true, x, text: say("right") };
    const slip = (f.s ?? []).find(([program]) => near(trundle.run(program, exact)));
    return { text: slip ? slip[1] : common(f, right, x, near, answer.plain, own) ?? say("not-yet") };
  };

  // The mistakes that need no lesson to know them. What they would come to must be met to a
  // quarter at least, however rough the answer may be.
  const common = (f, right, x, near, plain, own) => {
    const [within, part] = f.t;
    const like = (y, scale = 1) =>
      Number.isFinite(y) && y !== 0 &&
      Math.abs(x - y) <= Math.min(within * scale, Math.abs(y) / 4) + part * Math.abs(y);
    for (const scale of [10, 0.1, 100, 0.01, 1000, 0.001]) if (like(right * scale, scale)) return say("ten");
    const box = trundle.unit(f.u);
    const length = box.dim.join() === "1,0,0,0,0";
    if (length && [2.54, 1 / 2.54].some((scale) => like(right * scale, scale))) return say("inch");
    if (like(1 / right)) return say("inverse");
    if (like(-right)) return say("sign");
    for (const name in trundle.units) {
      const y = trundle.convert(right, box, trundle.unit(name));
      if (y !== right && like(y, Math.abs(y / right))) return say("unit", name, f.u || say("number"));
    }
    const place = /^-?[\d.]+$/.test(plain ?? "") && 10 ** -(plain.split(".")[1] ?? "").length;
    const step = f.to && Number(f.to);
    if (step && place > step && Math.abs(x - right) <= place / 2) return say("places", trundle.written(f.to, f.u));
    if (near(trundle.run(f.p, own))) return say("early");
  };

  // What is odd about a measurement, if anything.
  trundle.doubt = (f, text) => {
    if (!text.trim()) return;
    const a = trundle.amount(text, f.u);
    if (a.fault) return trundle.complaint(a, f.u);
    const [low, high, positive] = f.b ?? [0, Infinity];
    const size = Math.abs(a.x);
    if (positive && a.x <= 0) return say("positive", text);
    if (size < low || size > high) return say("range", trundle.written(trundle.plain(a.x), f.u));
  };
})();
