// What follows from an answer is done after its verdict has been painted: in pieces, with room for a frame between
// them, so that no key and no verdict waits for all of it.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const longest = 10; // milliseconds that pieces may take together
  let left = []; // what is still to be done
  let turn = 0; // a timer of an earlier turn does nothing
  let quiet, rest; // the promise that nothing is left, and what keeps it

  const soon = (wait) => {
    const mine = ++turn;
    wait(async () => {
      await trundle.still?.(); // nothing moves under a finger
      if (mine === turn) go(longest);
    });
  };
  const go = (most) => {
    const end = performance.now() + most;
    try {
      do left.shift()?.();
      while (left[0] && performance.now() < end);
    } finally {
      // Also after a piece that has failed: the others do not depend on it.
      if (left[0]) soon(setTimeout);
      else {
        turn++;
        rest?.();
        quiet = rest = undefined;
      }
    }
  };
  const flush = () => left[0] && go(Infinity);
  const afterFrame = (act) => requestAnimationFrame(() => setTimeout(act));

  // trundle.pieces does pieces in turn instead of those that are still left: each update brings all of them, and those
  // of the newest know best. The promise is kept when nothing is left.
  trundle.pieces = (all) => {
    left = all;
    quiet ??= new Promise((done) => (rest = done));
    const promise = quiet;
    document.hidden ? flush() : soon(afterFrame); // a page that is not seen has no frames
    return promise;
  };

  trundle.quiet = () => quiet; // tests wait for it

  // What is left when the page is left, or goes to paper, is done at once.
  for (const away of ["visibilitychange", "pagehide", "beforeprint"])
    addEventListener(away, () => (document.hidden || away !== "visibilitychange") && flush());
})();
