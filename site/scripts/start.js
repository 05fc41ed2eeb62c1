// On the page above an edition's folder: over HTTP, has the browser keep that page, and the whole edition below it.
(() => {
  "use strict";
  const served = location.protocol === "http:" || location.protocol === "https:";
  if (!served || !navigator.serviceWorker) return;
  // A worker sees to nothing above its own folder, so each of the two has one.
  const below = new URL("../offline.js", document.currentScript.src);
  for (const script of ["offline.js", below]) navigator.serviceWorker.register(script).catch(() => {});
})();
