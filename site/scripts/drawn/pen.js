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
  const names = [0.1, ...steps].flatMap((n) => [n, n * 2, n * 5]);
  const marks = { 10: steps.flatMap((n) => [n, n * 5]), 16: [1, 2, 4, 8, ...steps.flatMap((n) => [n * 16, n * 80])] };
  const long = (i, parts) => (i % (parts / 2) === 0 ? 16 : parts < 16 || i % 2 ? 6 : i % 4 ? 9 : 12);

  // A tape across a picture, which has its width, unit and parts; it begins at from, and a unit is k pixels long.
  // Without marks it tells nothing. A box may have any number in it, so that a tape for which there are no marks, or
  // whose parts are more than can be counted one by one, is left blank.
  drawn.tape = (y, { width, unit, parts }, marked, from, k, fine) => {
    const band = drawn.path("t", drawn.d`M0 ${y}H${width}v40H0z`);
    const every = marks[parts].find((n) => (n * k) / parts >= 3.2);
    const last = (from + width / k) * parts;
    if (!marked || !every || !(last < 2 ** 53)) return band;
    const name = parts * ((fine ? names : names.slice(3)).find((n) => n * k >= 40) ?? 1e6); // which are marks, too
    let ticks = "";
    let numbers = "";
    for (let i = Math.max(0, Math.ceil((from * parts) / every)) * every; i <= last; i += every) {
      const named = i % name === 0;
      const x = (i / parts - from) * k;
      ticks += drawn.d`M${x} ${y}v${named ? 20 : long(i, parts)}`;
      if (named && x > 36 && x < width - 10) numbers += drawn.text("n", x, y + 34, trundle.numeral(`${i / parts}`));
    }
    return band + drawn.path("k", ticks) + numbers + drawn.text("n u", 5, y + 34, unit);
  };

  // A label's place inside the picture.
  drawn.within = (x, width) => Math.min(Math.max(x, 64), width - 64);
  drawn.hook = (x, y) => drawn.path("h", drawn.d`M${x} ${y}v48m-8-10l8 10l8-10`);
})();
