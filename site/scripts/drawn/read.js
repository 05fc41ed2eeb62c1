// A tape to read: the page picks the place.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.read = ({ width, parts, unit, open, place, part, say, v: [most] }) => {
    if (!(most > 0)) return { svg: drawn.tape(54, width, { from: 0, k: 1, parts }, unit, false) };
    const across = parts === 16 ? 2.2 : 4;
    const scale = { from: place - across * part, k: width / across, parts };
    const svg = drawn.tape(54, width, scale, unit, open) + drawn.hook((place - scale.from) * scale.k, 6);
    const whole = Math.floor(place);
    return { svg, says: say("between", `${whole}`, `${whole + 1}`) };
  };
})();
