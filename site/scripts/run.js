// Runs the formulas, which come as data: words in reverse Polish order.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const half = (x) => Math.sign(x) * Math.round(Math.abs(x));
  const sum = (all) => all.reduce((a, b) => a + b, 0);
  const mean = (all) => sum(all) / all.length;
  const sorted = (all) => [...all].sort((a, b) => a - b);
  const least = (all) => sorted(all)[0];
  const most = (all) => sorted(all).at(-1);
  const median = (all) => {
    const s = sorted(all);
    const n = s.length;
    return (s[(n - 1) >> 1] + s[n >> 1]) / 2;
  };
  // The second sum takes up what rounding the mean has left.
  const stdev = (all) => {
    const m = mean(all);
    const off = sum(all.map((x) => x - m));
    return Math.sqrt((sum(all.map((x) => (x - m) ** 2)) - off ** 2 / all.length) / (all.length - 1));
  };
  // The median of the half of the values that begins at a rank; of an odd number the middle one is in neither.
  const quartile = (all, from) => {
    const half = all.length >> 1;
    return half ? median(sorted(all).slice(from, from + half)) : NaN;
  };
  // The value that comes most often, NaN if several do. What differs in the last bits only is equal.
  const mode = (all) => {
    const times = new Map();
    for (const x of all.map(trundle.snap)) times.set(x, (times.get(x) ?? 0) + 1);
    const often = Math.max(...times.values());
    const [x, other] = [...times.keys()].filter((x) => times.get(x) === often);
    return other === undefined ? all.find((y) => trundle.snap(y) === x) : NaN;
  };
  // x, or 0 where it is no more than rounding in binary leaves of numbers of that size.
  const unlessDust = (x, size) => (Math.abs(x) <= 1e-13 * size ? 0 : x);
  const largest = (all) => Math.max(...all.map(Math.abs));
  const order = (a, b) => unlessDust(a - b, 10 * Math.max(Math.abs(a), Math.abs(b)));
  const steps = (whole) => ([x, step = 1]) => (step > 0 ? trundle.snap(whole(trundle.snap(x / step)) * step) : NaN);
  // Sine and cosine of rotations, exact at the quarters.
  const circular = (turns) => {
    const quarter = half(4 * turns);
    const rest = (turns - quarter / 4) * 2 * Math.PI;
    const s = Math.sin(rest);
    const c = Math.cos(rest);
    return [[s, c], [c, -s], [-s, -c], [-c, s]][((quarter % 4) + 4) % 4] ?? [NaN, NaN];
  };
  // Readings of y, then as many of x: the slope of the line that fits best, and where it is at 0.
  const halves = (all) => [all.slice(0, all.length / 2), all.slice(all.length / 2)];
  const slope = (all) => {
    const [ys, xs] = halves(all);
    const [y, x] = [mean(ys), mean(xs)];
    if (least(xs) === most(xs)) return NaN; // rounding their mean could hide it
    return sum(xs.map((v, i) => (v - x) * (ys[i] - y))) / sum(xs.map((v) => (v - x) ** 2));
  };
  const degrees = (angle) => (angle / (2 * Math.PI)) * 360;

  const functions = {
    mean: (all) => unlessDust(mean(all), largest(all)),
    median, stdev,
    sum: (all) => unlessDust(sum(all), largest(all)),
    min: least,
    max: most,
    range: (all) => most(all) - least(all),
    count: (all) => all.length,
    stderr: (all) => stdev(all) / Math.sqrt(all.length),
    fit_slope: slope,
    fit_intercept: (all) => {
      const [y, carried] = [mean(halves(all)[0]), slope(all) * mean(halves(all)[1])];
      // What rounding leaves is nothing.
      return Math.abs(y - carried) <= 1e-13 * (Math.abs(y) + Math.abs(carried)) ? 0 : y - carried;
    },
    fit_through_origin: (all) => {
      const [ys, xs] = halves(all);
      return sum(xs.map((v, i) => v * ys[i])) / sum(xs.map((v) => v * v));
    },
    lower_quartile: (all) => quartile(all, 0),
    upper_quartile: (all) => quartile(all, (all.length + 1) >> 1),
    mode,
    population_stdev: (all) => {
      const m = mean(all);
      return unlessDust(Math.sqrt(sum(all.map((x) => (x - m) ** 2)) / all.length), Math.abs(m));
    },
    mean_absolute_deviation: (all) => {
      const m = mean(all);
      return unlessDust(sum(all.map((x) => Math.abs(x - m))) / all.length, Math.abs(m));
    },
  };
  // These take single numbers; a record is taken reading by reading. Yes is 1 and no is 0.
  const single = {
    less: ([a, b]) => +(order(a, b) < 0),
    atmost: ([a, b]) => +(order(a, b) <= 0),
    more: ([a, b]) => +(order(a, b) > 0),
    atleast: ([a, b]) => +(order(a, b) >= 0),
    equal: ([a, b]) => +(order(a, b) === 0),
    unequal: ([a, b]) => +(order(a, b) !== 0),
    within: ([a, b, w]) =>
      +(Math.abs(order(a, b)) - w <= 1e-12 * Math.max(Math.abs(a), Math.abs(b), Math.abs(w))),
    abs: ([x]) => Math.abs(x),
    sqrt: ([x]) => Math.sqrt(x),
    round: steps(half),
    floor: steps(Math.floor),
    ceil: steps(Math.ceil),
    mod: ([x, by]) => {
      const taken = by * Math.floor(trundle.snap(x / by));
      return by ? unlessDust(x - taken, Math.abs(x) + Math.abs(taken)) : NaN;
    },
    sin: ([x]) => circular(x)[0],
    cos: ([x]) => circular(x)[1],
    tan: ([x]) => circular(x)[0] / circular(x)[1],
    atan: ([x]) => degrees(Math.atan(x)),
    atan2: ([y, x]) => (y || x ? degrees(Math.atan2(y, x)) : NaN),
  };
  // What is too small for a number is no 0.
  const notLost = (x, some) => (x === 0 && some ? NaN : x);
  const operators = {
    __proto__: null, // a name may be called "constructor"
    "+": (a, b) => unlessDust(a + b, largest([a, b])), // 0.1 + 0.2 - 0.3 is 0
    "-": (a, b) => unlessDust(a - b, largest([a, b])),
    "*": (a, b) => notLost(a * b, a && b),
    "/": (a, b) => notLost(a / b, a),
    // Without a value stays without one, even to the power of 0.
    "^": (a, b) => (a === a && b === b ? notLost(a ** b, a) : NaN),
  };
  const finite = (x) => (Number.isFinite(x) ? x : NaN);
  const call = (f, all) => (all.every(Number.isFinite) ? finite(f(all)) : NaN);

  // Applies f to numbers, or to the readings of records that belong together: the same rows of each. Rows that one of
  // them lacks are left out; rows has them all, undefined where one is lacking, so that what follows still finds its
  // row.
  const each = (f, args) => {
    const records = args.filter(Array.isArray);
    if (!records.length) return f(args);
    const rows = records.map((r) => r.rows ?? r);
    if (rows.some((r) => r.length !== rows[0].length)) return NaN;
    const isFull = (i) => rows.every((r) => r[i] !== undefined);
    const at = (i) => args.map((a) => (Array.isArray(a) ? (a.rows ?? a)[i] : a));
    const all = rows[0].map((_, i) => (isFull(i) ? f(at(i)) : undefined));
    const out = all.filter((x) => x !== undefined);
    out.rows = all;
    return out;
  };
  const choose = ([condition, yes, no]) => (condition !== condition ? NaN : condition ? yes : no);

  // The value of a program: a number, NaN where none comes out. values gives a number or
  // an array for each name.
  trundle.run = (program, values) => {
    const stack = [];
    const kept = {};
    for (const word of program.split(" ")) {
      const operator = operators[word];
      const [name, count] = word.split(":");
      if (operator) {
        stack.push(each(([a, b]) => finite(operator(a, b)), stack.splice(-2)));
      } else if (word === "~") stack.push(each(([x]) => -x, [stack.pop()]));
      else if (name === "if") stack.push(choose(stack.splice(-3)));
      else if (name === "reading") {
        const record = stack.pop();
        stack.push((record.rows ?? record)[count - 1] ?? NaN);
      } else if (count && single[name]) stack.push(each((all) => call(single[name], all), stack.splice(-count)));
      else if (count) stack.push(call(functions[name], stack.splice(-count).flat()));
      else if (word[0] === "=") kept[word.slice(1)] = stack.at(-1);
      else if (word[0] === "#") stack.push(kept[word.slice(1)]);
      else stack.push(/^[-.\d]/.test(word) ? Number(word) : (values[word] ?? NaN));
    }
    return stack[0];
  };
})();
