// What chance alone does: the runs of two groups are dealt anew, and each deal leaves a dot.
(() => {
  "use strict";
  const { drawn } = trundle;
  const mean = (all) => all.reduce((a, b) => a + b, 0) / all.length;

  // How far apart the means of two heaps come if chance deals all runs.
  drawn.deal = ([a, b]) => {
    const cards = [...a, ...b];
    for (let i = cards.length - 1; i > 0; i--) {
      const j = Math.floor(Math.random() * (i + 1));
      [cards[i], cards[j]] = [cards[j], cards[i]];
    }
    return Math.abs(mean(cards.slice(0, a.length)) - mean(cards.slice(a.length)));
  };

  drawn.shuffle = (s) => {
    const { d: to, path, text } = drawn;
    const { width, open, names, deals, amount, say } = s;
    const [a, b] = s.heaps;
    const gap = Math.abs(mean(a) - mean(b));
    const all = [...a, ...b];
    const middle = mean(all);
    const squares = all.reduce((sum, x) => sum + (x - middle) * (x - middle), 0);
    const chance = Math.sqrt(((squares / (all.length - 1)) * all.length) / (a.length * b.length));
    const far = Math.max(4 * chance, open ? gap * 1.15 : 0);
    const k = (width - 48) / far;
    const from = -36 / k;
    const at = (x) => (x - from) * k;
    let svg = drawn.tape(102, s, true, from, k, true);
    const piles = [];
    for (const x of deals) {
      const column = Math.floor(at(x) / 7);
      piles[column] = (piles[column] ?? 0) + 1;
    }
    const step = Math.min(7, 92 / Math.max(1, ...piles.filter(Boolean)));
    piles.forEach((n, column) => {
      for (let i = 0; i < n; i++) svg += drawn.circle("d", column * 7 + 3.5, 98 - i * step, 3.2);
    });
    const dealt = deals.length ? say("deals", `${deals.length}`) : say("axis", ...names);
    if (!open) return { svg, says: dealt };
    svg += path("h", to`M${at(gap)} 24V142`) + text("r", drawn.within(at(gap), width), 16, say("real", amount(gap)));
    const out = deals.filter((x) => x >= gap * (1 - 1e-9)).length;
    const out_ = deals.length ? [say("as-far", `${out}`)] : [];
    return { svg, says: [dealt, ...out_, say("apart-by", amount(gap))].join(" ") };
  };
})();
