// Where runs stopped on a tape, with what they were to reach. Mean and spread come when they have been found.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.stops = ({ width, parts, unit, open, mean, spread, shown, amount, say, v: [runs, target] }) => {
    const { d: to, path, text } = drawn;
    const all = Number.isFinite(target) ? [...runs, target] : runs;
    if (!all.length) return { svg: drawn.tape(100, width, { from: 0, k: 1, parts }, unit, false) };
    const [low, high] = [Math.min(...all), Math.max(...all)];
    const pad = Math.max((high - low) * 0.12, parts === 16 ? 0.3 : 0.6);
    const from = low - pad;
    const k = width / (high - low + 2 * pad);
    const at = (x) => (x - from) * k;
    let svg = drawn.tape(100, width, { from, k, parts }, unit, open);
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
    if (runs.length > 1 && spread) {
      svg += path("b", to`M${at(least)} 30v-7H${at(most)}v7`);
      svg += text("q", drawn.within((at(least) + at(most)) / 2, width), 16, say("apart", amount(most - least)));
    }
    const middle = runs.reduce((a, b) => a + b, 0) / runs.length;
    if (runs.length > 1 && mean) svg += path("b f", to`M${at(middle)} 100l-7-13h14z`);
    return { svg, says: say("stops", `${runs.length}`, amount(least), amount(most)) };
  };
})();
