// Runs seen from above, sideways so many times as large.
(() => {
  "use strict";
  const { drawn } = trundle;

  drawn.above = ({ width, times, shown, say, v: [runs, forward] }) => {
    const { d: to, path, text } = drawn;
    let svg = path("z", to`M20 72H${width}`) + path("b", "M20 24V120");
    svg += text("q a", 26, 16, say("left")) + text("q a", 26, 140, say("rightward"));
    svg += text("r e", width - 4, 16, say("times", trundle.plain(times)));
    if (!(forward > 0)) return { svg };
    const k = (width - 60) / forward;
    const end = 20 + forward * k;
    svg += path("s", to`M${end} 24V120`) + text("q e", width - 4, 140, shown(1));
    for (const s of runs) {
      const y = Math.min(Math.max(72 - s * k * times, -500), 600);
      svg += path("o i", to`M20 72L${end} ${y}`) + drawn.circle("d", end, y, 5);
    }
    return { svg, says: runs.length ? say("path", `${runs.length}`, shown(1), trundle.plain(times)) : undefined };
  };
})();
