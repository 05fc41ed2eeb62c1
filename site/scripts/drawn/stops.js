// Where runs stopped on a tape, with what they were to reach. Mean and spread come when they have been found.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.stops = (s) => {
    const { d: to, path, text } = drawn;
    const { width, shown, amount, say, v: [runs, target] } = s;
    const all = Number.isFinite(target) ? [...runs, target] : runs;
    if (!all.length) return { svg: drawn.tape(100, s) };
    const [low, high] = [Math.min(...all), Math.max(...all)];
    const pad = Math.max((high - low) * 0.12, s.parts === 16 ? 0.3 : 0.6);
    const from = low - pad;
    const k = width / (high - low + 2 * pad);
    const at = (x) => (x - from) * k;
    let svg = drawn.tape(100, s, s.open, from, k);
    if (all !== runs) {
      svg += drawn.hook(at(target), 52) + text("r", drawn.within(at(target), width), 46, say("target", shown(1)));
    }
    if (!runs.length) return { svg };
    const pile = {};
    for (const x of runs) {
      const column = Math.floor(at(x) / 14 + 0.5);
      svg += drawn.circle("d", at(x), 92 - 14 * (pile[column] ??= 0), 7);
      pile[column]++;
    }
    const [least, most] = [Math.min(...runs), Math.max(...runs)];
    if (runs.length > 1 && s.spread) {
      svg += path("b", to`M${at(least)} 30v-7H${at(most)}v7`);
      svg += text("q", drawn.within((at(least) + at(most)) / 2, width), 16, say("apart", amount(most - least)));
    }
    const middle = runs.reduce((a, b) => a + b, 0) / runs.length;
    if (runs.length > 1 && s.mean) svg += path("b f", to`M${at(middle)} 100l-7-13h14z`);
    return { svg, says: say("stops", `${runs.length}`, amount(least), amount(most)) };
  };
})();
