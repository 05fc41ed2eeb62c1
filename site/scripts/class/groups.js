// Groups of runs, and which of them can be told apart. Everything here is what generator/runs does, number for number.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const level = 0.05;
  const confidence = 0.95;
  const fewest = 3; // runs of a group that is compared
  const sum = (all) => all.reduce((a, b) => a + b, 0);

  const summarise = (x) => {
    const n = x.length;
    const s = { n, mean: NaN, sd: NaN, error: NaN, low: NaN, high: NaN, least: NaN, most: NaN };
    if (!n) return s;
    s.least = Math.min(...x);
    s.most = Math.max(...x);
    s.mean = s.least === s.most ? s.least : sum(x) / n;
    if (n === 1) return s;
    // The second sum takes up what rounding the mean has left.
    const off = sum(x.map((v) => v - s.mean));
    s.sd = Math.sqrt((sum(x.map((v) => (v - s.mean) ** 2)) - (off * off) / n) / (n - 1));
    s.error = s.sd / Math.sqrt(n);
    const half = trundle.critical(n - 1, confidence) * s.error;
    [s.low, s.high] = [s.mean - half, s.mean + half];
    return s;
  };

  // The step to which runs were read counts as a limit of half a step.
  const readTo = (s, step) => {
    if (s.n < 2) return s;
    if (!(step > 0)) return s.sd === 0 ? { ...s, low: NaN, high: NaN } : s;
    const error = Math.hypot(s.sd, step / Math.sqrt(12)) / (s.sd > 0 ? s.sd / s.error : Math.sqrt(s.n));
    let half = trundle.critical(s.n - 1, confidence) * error;
    if (s.most - s.least < 1.5 * step) half = Math.max(half, step / 2);
    return { ...s, error, low: s.mean - half, high: s.mean + half };
  };

  // Runs far from the others: Grubbs' test from six on, Rosner's from twenty on.
  const odd = (x, step) => {
    const n = x.length;
    if (n < 6) return [];
    return n < 20 ? oddAmong(x, step, 1, level * 0.9) : oddAmong(x, step, Math.floor(n / 5), level * 0.7);
  };
  const oddAmong = (x, step, most, level) => {
    const left = x.map((_, i) => i);
    const all = [];
    let found = 0;
    while (all.length < most) {
      const [far, score] = farthest(left.map((i) => x[i]), step);
      if (far < 0) break;
      const limit = oddLimit(left.length, level);
      all.push(...left.splice(far, 1));
      if (score > limit) found = all.length; // those before it are odd, too: they only hid each other
    }
    return all.slice(0, found).sort((a, b) => a - b);
  };
  const farthest = (x, step) => {
    const { mean, sd } = summarise(x);
    const spread = Math.hypot(sd, step / Math.sqrt(12));
    if (!(spread > 0)) return [-1, 0];
    let [place, score] = [0, 0];
    x.forEach((v, i) => {
      const d = Math.abs(v - mean) / spread;
      if (d > score) [place, score] = [i, d];
    });
    return [place, score];
  };
  const oddLimit = (n, level) => {
    const t = trundle.critical(n - 2, 1 - level / n);
    return ((n - 1) * t) / Math.sqrt((n - 2 + t * t) * n);
  };

  const group = ({ name, numbers, rows }, target, step) => {
    const full = numbers.map((x, i) => [x, rows?.[i] ?? i]).filter(([x]) => x === x);
    const values = full.map(([x]) => x);
    const g = { name, values, rows: full.map(([, row]) => row), empty: numbers.length - full.length };
    Object.assign(g, readTo(summarise(values), step));
    g.distance = readTo(summarise(target === target ? values.map((x) => Math.abs(x - target)) : []), step);
    g.bias = g.mean - target;
    g.percent = target === 0 ? NaN : Math.abs(g.bias / target);
    g.odd = odd(values, step);
    g.without = g.odd[0] === undefined ? NaN : summarise(values.filter((_, i) => !g.odd.includes(i))).mean;
    return g;
  };

  const welch = (a, b) => {
    if (a.n < 2 || b.n < 2) return;
    const [va, vb] = [a.error * a.error, b.error * b.error];
    if (!(va + vb > 0)) return;
    const t = (a.mean - b.mean) / Math.sqrt(va + vb);
    const degrees = (va + vb) ** 2 / ((va * va) / (a.n - 1) + (vb * vb) / (b.n - 1));
    return trundle.tails(t, degrees);
  };

  const holm = (p) => {
    const order = p.map((_, i) => i).sort((a, b) => p[a] - p[b]);
    const corrected = [];
    let least = 0;
    order.forEach((i, rank) => {
      least = Math.max(least, Math.min(1, p[i] * (p.length - rank)));
      corrected[i] = least;
    });
    return corrected;
  };

  const pairs = (groups, of, moreIsFirst) => {
    const all = [];
    groups.forEach((one, i) => {
      for (let j = i + 1; j < groups.length; j++) {
        const [a, b] = [of(one), of(groups[j])];
        const isTurned = a.mean > b.mean !== moreIsFirst && a.mean !== b.mean;
        const pair = { first: isTurned ? j : i, second: isTurned ? i : j, p: NaN };
        const p = welch(a, b);
        if (a.n < fewest || b.n < fewest) pair.verdict = "too-few";
        else if (p === undefined) pair.verdict = "no-spread";
        else pair.p = p;
        all.push(pair);
      }
    });
    const tested = all.filter((pair) => !pair.verdict);
    const corrected = holm(tested.map((pair) => pair.p));
    tested.forEach((pair, k) => (pair.verdict = corrected[k] < level ? "apart" : "together"));
    return all;
  };

  // trundle.column works a measured column out: series are {name, numbers, rows}, NaN for a run without a number;
  // target is NaN without one, step 0 if it is not known. aim is there with a target.
  trundle.column = (series, target, step) => {
    const groups = series.map((s) => group(s, target, step));
    if (target !== target) return { groups, target, step, near: pairs(groups, (g) => g, true) };
    // A mean beyond the target is mirrored to its near side: that never makes a difference look larger.
    const facing = (g) => ({ ...g, mean: Math.abs(g.mean - target) });
    return { groups, target, step, near: pairs(groups, (g) => g.distance, false), aim: pairs(groups, facing, false) };
  };
})();
