// What stands below a record: its runs on a piece of tape, and their mean and spread once these may be seen. Readings
// that follow each other rise and fall, and have neither.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});

  const answered = (finds, own) => (finds ?? []).every((name) => own[name] === own[name]);

  // below shows them in a box, from two runs on. What the lesson asks for comes only
  // when it has been answered.
  trundle.below = (box, f, xs, own) => {
    const { say, run, plain } = trundle;
    // Inches are written as a tape has them, if it has them.
    const number = (x) => (f.u === "in" && (x * 16) % 1 === 0 ? trundle.step(x, "1/16") : plain(x));
    const write = (x) => trundle.written(number(x), f.u);
    const open = [f.goal && run(f.goal, own), answered(f.mid, own), answered(f.spread, own)];
    const text = JSON.stringify([trundle.width, xs, ...open]);
    if (box.dataset.of === text) return; // most entries are of other boxes
    box.dataset.of = text;
    box.textContent = "";
    if (xs.length < 2) return;
    if (f.ord) {
      const label = say("follow", xs.length, write(xs[0]), write(xs[xs.length - 1]));
      return trundle.inOrder(box, { xs, unit: f.u, label });
    }
    const value = (what) => run(`x ${what}:1`, { x: xs });
    const parts = [say("plot", xs.length, write(Math.min(...xs)), write(Math.max(...xs)))];
    const shown = (x, name, whole = name) => {
      parts.push(say(whole, write(x)));
      return { x, text: say(name, write(x)) };
    };
    const x = f.goal ? run(f.goal, own) : NaN;
    const goal = x === x ? shown(x, "goal") : undefined;
    const mean = answered(f.mid, own) ? shown(value("mean"), "strip-mean", "mean") : undefined;
    const spread = answered(f.spread, own) ? shown(value("range"), "strip-spread", "spread").text : undefined;
    const label = parts.join(", ");
    trundle.strip(box, { xs, unit: f.u, label, goal, mean, spread, room: true });
  };
})();
