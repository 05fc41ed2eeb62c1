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
    mean, median, stdev, sum,
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
    abs: ([x]) => Math.abs(x),
    sqrt: ([x]) => Math.sqrt(x),
    round: ([x]) => half(trundle.snap(x)),
    sin: ([x]) => circular(x)[0],
    cos: ([x]) => circular(x)[1],
    tan: ([x]) => circular(x)[0] / circular(x)[1],
    atan: ([x]) => degrees(Math.atan(x)),
    atan2: ([y, x]) => (y || x ? degrees(Math.atan2(y, x)) : NaN),
  };
  const operators = {
    __proto__: null, // a name may be called "constructor"
    "+": (a, b) => a + b,
    "-": (a, b) => a - b,
    "*": (a, b) => a * b,
    "/": (a, b) => a / b,
    // Without a value stays without one, even to the power of 0.
    "^": (a, b) => (a === a && b === b ? a ** b : NaN),
  };
  const finite = (x) => (Number.isFinite(x) ? x : NaN);
  const call = (f, all) => (all.every(Number.isFinite) ? finite(f(all)) : NaN);

  // The value of a program: a number, NaN where none comes out. values gives a number or
  // an array for each name.
  trundle.run = (program, values) => {
    const stack = [];
    const kept = {};
    for (const word of program.split(" ")) {
      const operator = operators[word];
      const [name, count] = word.split(":");
      if (operator) {
        const b = stack.pop();
        const a = stack.pop();
        stack.push(Array.isArray(a) ? a.map((x) => operator(x, b)) : finite(operator(a, b)));
      } else if (word === "~") stack.push(-stack.pop());
      else if (count) stack.push(call(functions[name], stack.splice(-count).flat()));
      else if (word[0] === "=") kept[word.slice(1)] = stack.at(-1);
      else if (word[0] === "#") stack.push(kept[word.slice(1)]);
      else stack.push(/^[-.\d]/.test(word) ? Number(word) : (values[word] ?? NaN));
    }
    return stack[0];
  };
})();
