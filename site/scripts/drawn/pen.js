// Draws figures as SVG, as site/drawn does for still pictures: numbers are written to a tenth of a pixel.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const drawn = (trundle.drawn = {});

  const at = (drawn.at = (x) => `${Math.floor(x * 10 + 0.5) / 10 + 0}`);
  const safe = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

  // A path as a template: drawn.d`M${x} ${y}H${z}`.
  drawn.d = (texts, ...numbers) => String.raw({ raw: texts }, ...numbers.map(at));
  drawn.path = (kind, d) => `<path class="${kind}" d="${d}"></path>`;
  drawn.circle = (kind, x, y, r) => `<circle class="${kind}" cx="${at(x)}" cy="${at(y)}" r="${at(r)}"></circle>`;
  drawn.text = (kind, x, y, text) => `<text class="${kind}" x="${at(x)}" y="${at(y)}">${safe(text)}</text>`;

  const steps = [1, 10, 100, 1000, 1e4];
  const first = (list, k, least) => list.find((n) => n * k >= least) ?? 1e6;
  const names = [0.1, ...steps].flatMap((n) => [n, n * 2, n * 5]);
  const marks = { 10: steps.flatMap((n) => [n, n * 5]), 16: [1, 2, 4, 8, ...steps.flatMap((n) => [n * 16, n * 80])] };
  const long = (i, parts) => (i % (parts / 2) === 0 ? 16 : parts < 16 || i % 2 ? 6 : i % 4 ? 9 : 12);

  // A tape across a picture, which has its width, unit and parts; it begins at from, and a unit is k pixels long.
  // Without marks it tells nothing.
  drawn.tape = (y, { width, unit, parts }, marked, from, k, fine) => {
    const band = drawn.path("t", drawn.d`M0 ${y}H${width}v40H0z`);
    if (!marked) return band;
    const name = first(fine ? names : names.slice(3), k, 40);
    const every = first(marks[parts], k / parts, 3.2);
    let ticks = "";
    let numbers = "";
    for (let i = Math.max(0, Math.ceil(from * parts)); i <= Math.floor((from + width / k) * parts); i++) {
      const named = i % (name * parts) === 0;
      if (i % every && !named) continue;
      const x = (i / parts - from) * k;
      ticks += drawn.d`M${x} ${y}v${named ? 20 : long(i, parts)}`;
      if (named && x > 36 && x < width - 10) numbers += drawn.text("n", x, y + 34, `${i / parts}`);
    }
    return band + drawn.path("k", ticks) + numbers + drawn.text("n u", 5, y + 34, unit);
  };

  // A label's place inside the picture.
  drawn.within = (x, width) => Math.min(Math.max(x, 64), width - 64);
  drawn.hook = (x, y) => drawn.path("h", drawn.d`M${x} ${y}v48m-8-10l8 10l8-10`);
})();
