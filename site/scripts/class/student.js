// Student's t in plain numbers: chances of both tails, and critical values. Package runs has the same from a library,
// against which these are tested on a thousand classes.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  // ln Γ(x) for x > 0, by Stirling's series (NIST DLMF 5.11.1) from where it is exact to the last digit.
  const logGamma = (x) => {
    let shift = 1;
    for (; x < 20; x++) shift *= x;
    const y = 1 / (x * x);
    const series = 1 / 12 - y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y * (1 / 1188 - (y * 691) / 360360))));
    return (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI) + series / x - Math.log(shift);
  };

  // The continued fraction of the incomplete beta function (NIST DLMF 8.17.22), by the modified method of Lentz.
  const fraction = (x, a, b) => {
    const tiny = 1e-300;
    let c = 1;
    let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny);
    let all = d;
    for (let m = 1; m < 10000; m++) {
      const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
      const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
      let step;
      for (const term of [even, odd]) {
        d = 1 / (1 + term * d || tiny);
        c = 1 + term / c || tiny;
        all *= step = c * d;
      }
      if (Math.abs(step - 1) < 1e-16) break;
    }
    return all;
  };
  // ln B(a, b), kept: one table of a class asks for the same few many times.
  const logBetas = new Map();
  const logBeta = (a, b) => {
    const key = `${a} ${b}`;
    if (!logBetas.has(key)) logBetas.set(key, logGamma(a) + logGamma(b) - logGamma(a + b));
    return logBetas.get(key);
  };
  // I_x(a, b), with y = 1 − x given apart, so that neither loses its digits.
  const beta = (x, y, a, b) => {
    if (x <= 0) return 0;
    if (y <= 0) return 1;
    const front = Math.exp(a * Math.log(x) + b * Math.log(y) - logBeta(a, b));
    const isNear = x < (a + 1) / (a + b + 2);
    return isNear ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(y, b, a)) / b;
  };

  // The chance of a t as far from 0 or farther, to both sides.
  trundle.tails = (t, degrees) => beta(degrees / (degrees + t * t), (t * t) / (degrees + t * t), degrees / 2, 0.5);
  // How fast it falls there: twice the density of t.
  const fall = (t, degrees) =>
    2 * Math.exp((-(degrees + 1) / 2) * Math.log1p((t * t) / degrees) - logBeta(degrees / 2, 0.5)) / Math.sqrt(degrees);

  // The t that leaves so much to both sides. The chance falls ever more slowly, so that Newton's steps from 0 never go
  // too far.
  const found = new Map();
  trundle.critical = (degrees, confidence) => {
    const key = `${degrees} ${confidence}`;
    if (found.has(key)) return found.get(key);
    const rest = 1 - confidence;
    let t = 0;
    for (let i = 0; i < 100; i++) {
      const step = (trundle.tails(t, degrees) - rest) / fall(t, degrees);
      t += step;
      if (!(step > 1e-15 * t)) break;
    }
    found.set(key, t);
    return t;
  };

  // What the standard deviation of n readings is on average, in parts of the true one (ISO 7870-2, c4).
  trundle.c4 = (n) => Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2));
})();
