// On the page above an edition's folder: over HTTP, has the browser keep that page, and the whole edition below it.
(() => {
  "use strict";
  const worker = navigator.serviceWorker;
  if (!/^http/.test(location.protocol) || !worker) return;
  const keep = (script) => worker.register(script, { updateViaCache: "none" }).catch(() => {});
  keep("offline.js");
  // A worker sees to nothing above its own folder, so the edition has another, which is asked for by its version.
  const edition = new URL("../", document.currentScript.src);
  const script = document.createElement("script");
  script.src = new URL("version.js?" + Date.now(), edition);
  script.onload = () => keep(new URL("offline.js?v=" + trundle.newest, edition));
  document.head.append(script);
})();
