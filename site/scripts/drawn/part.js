// A part of a whole as a piece of a bar.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.part = ({ width, open, shown, say, v: [x, whole] }) => {
    const { d: to, path, text } = drawn;
    const wide = width - 48;
    let svg = path("t", to`M24 8h${wide}v32h${-wide}z`);
    if (!(whole > 0 && Number.isFinite(x))) return { svg };
    const part = Math.abs(x) / whole;
    const filled = Math.min(part, 1) * wide;
    svg += path("p", to`M24 8h${filled}v32h${-filled}z`);
    if (!open) return { svg, says: say("some", shown(0), shown(1)) };
    let ticks = "";
    for (let i = 0; i <= 10; i++) {
      const at = 24 + (wide * i) / 10;
      if (i % 5 === 0) svg += text("q", at, 64, `${i * 10}\u00a0%`);
      ticks += to`M${at} 40v${i % 5 ? 5 : 9}`;
    }
    svg += path("s", ticks);
    return { svg, says: say("part", shown(0), shown(1), trundle.step(part * 100, "0.1")) };
  };
})();
