// Over HTTP, has the browser keep the whole edition, so that it works without a network.
(() => {
  "use strict";
  const served = location.protocol === "http:" || location.protocol === "https:";
  // Without it the pages work as they are; a browser that refuses it says so itself.
  if (served && navigator.serviceWorker) navigator.serviceWorker.register("offline.js").catch(() => {});
})();
