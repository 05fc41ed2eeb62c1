// A wheel that lays its way round down on a tape.
(() => {
  "use strict";
  const { drawn } = trundle;
  const ground = 76;

  drawn.unroll = (s) => {
    const { d: to, path, circle, text } = drawn;
    const { width, open, roll, shown, near, say, v: [d] } = s;
    if (!(d > 0)) return { svg: drawn.tape(78, s) + path("h", `M48 58v62`) };
    const round = Math.PI * d;
    const k = Math.min((width - 16) / (round + d), 68 / d);
    const r = (d * k) / 2;
    const x0 = 8 + r;
    const [x, turned] = [x0 + round * k * roll, 2 * Math.PI * roll];
    const rim = (t, r) => [x + r * Math.sin(t), ground - (d * k) / 2 + r * Math.cos(t)];
    let svg = drawn.tape(78, s, open, -x0 / k, k) + path("o", to`M${x0} 75H${x}`);
    if (roll) svg += circle("g", x0, ground - r, r);
    const [sx, sy] = rim(-turned, r);
    svg += circle("w", x, ground - r, r) + path("b", to`M${x} ${ground - r}L${sx} ${sy}M${x - 5} ${ground - r}h10`);
    svg += path("h", to`M${x0} 58v62`);
    const rolled = say("rolled", shown(0), `${roll * 100}`);
    if (roll < 1) {
      const rest = 2 * Math.PI - turned;
      const [[ax, ay], [bx, by]] = [rim(0, r - 3), rim(rest, r - 3)];
      const arc = to`M${ax} ${ay}A${r - 3} ${r - 3} 0 ${rest > Math.PI ? 1 : 0} 0 ${bx} ${by}`;
      svg += roll ? path("o", arc) : circle("o", ax, ay - (r - 3), r - 3);
      return { svg, says: rolled };
    }
    for (let i = 0; i < 4; i++) {
      const [from, long] = [x0 + i * d * k, Math.min(d, round - i * d) * k];
      svg += path("s", to`M${from} 122v7h${long}v-7`);
      if (i < 3) svg += text("q", from + long / 2, 144, say("wheel"));
      else svg += text("q a", Math.min(from + long + 6, width - 52), 144, say("bit"));
    }
    return { svg, says: open ? say("unroll", shown(0), near(round), near(round - 3 * d)) : rolled };
  };
})();
