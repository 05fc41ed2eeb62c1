// A part of a lesson opens when something leads into it: the tape, the part before it, a link to a box.
(() => {
  "use strict";
  // An address may be cut off within a letter, as in #%E2, and then leads nowhere.
  const place = () => {
    try {
      return document.getElementById(decodeURIComponent(location.hash.slice(1)));
    } catch {
      return null;
    }
  };
  const open = () => {
    const to = place();
    const part = to?.closest(".part:not([open])");
    if (!part) return;
    part.open = true;
    to.scrollIntoView();
  };
  addEventListener("hashchange", open);
  // The address may be there already.
  addEventListener("click", ({ target }) => target.closest?.('a[href^="#"]') && setTimeout(open));
  open();
})();
