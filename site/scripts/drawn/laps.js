// How many rotations fit a distance.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.laps = (s) => {
    const { d: to, path, text } = drawn;
    const { width, open, shown, say, v: [long, lap] } = s;
    if (!(long > 0)) return { svg: drawn.tape(66, s) };
    const k = (width - 52) / long;
    const from = -36 / k;
    let svg = drawn.tape(66, s, open && lap > 0, from, k);
    const end = (long - from) * k;
    svg += path("h", to`M36 36v70M${end} 22v84`) + text("r e", width - 4, 16, shown(0));
    if (!(lap > 0)) return { svg };
    const fit = long / lap;
    const whole = Math.floor(fit + 1e-9);
    const pieces = open ? Math.min(Math.ceil(fit - 1e-9), 200) : 1;
    for (let i = 0; i < pieces; i++) {
      const [x, wide] = [(i * lap - from) * k, Math.min(lap, long - i * lap) * k];
      svg += path(i % 2 ? "p a" : "p", to`M${x} 40h${wide}v22h${-wide}z`);
      if (i < whole && wide >= 18) svg += text("m", x + wide / 2, 57, `${i + 1}`);
    }
    if (!open) return { svg, says: say("lap", shown(1), shown(0)) };
    const rest = trundle.step(Math.max(0, fit - whole), "0.01");
    return { svg, says: say("laps", `${whole}`, shown(0), rest) };
  };
})();
