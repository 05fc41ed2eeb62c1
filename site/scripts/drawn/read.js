// A tape to read: the page picks the place.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.read = (s) => {
    const { width, place, v: [most] } = s;
    if (!(most > 0)) return { svg: drawn.tape(54, s) };
    const across = s.parts === 16 ? 2.2 : 4;
    const [from, k] = [place - across * s.part, width / across];
    const whole = Math.floor(place);
    return {
      svg: drawn.tape(54, s, s.open, from, k) + drawn.hook((place - from) * k, 6),
      says: s.say("between", `${whole}`, `${whole + 1}`),
    };
  };
})();
