// Has the browser keep the whole edition, so that it works without a network. Tells when that is
// done, and when there is a newer version than this page's.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const { version } = document.documentElement.dataset;
  const worker = navigator.serviceWorker;
  const news = document.createElement("div");
  news.id = "_news";
  const line = news.appendChild(document.createElement("p"));
  line.setAttribute("role", "status"); // and empty, so that what comes is read out
  document.body.append(news);
  const add = (name, act) => {
    const button = document.createElement("button");
    button.textContent = trundle.words[name];
    button.onclick = act;
    news.append(" ", button);
  };
  const close = () => news.replaceChildren(line, (line.textContent = ""));

  // A page that was reloaded and is as old as before came from a cache on the way.
  const reload = () =>
    trundle.newest && !worker?.controller && performance.getEntriesByType("navigation")[0]?.type === "reload"
      ? (location.search = "v=" + trundle.newest)
      : location.reload();

  // Says each thing once, and nothing while somebody types.
  const said = {};
  const say = (name) => {
    if (said[name]) return;
    if (document.activeElement?.matches("input,textarea")) {
      addEventListener("focusout", () => setTimeout(say, 0, name), { once: true });
      return;
    }
    said[name] = true;
    close();
    line.textContent = trundle.words[name];
    if (name === "new-version") add("reload", reload);
    add("close", close);
  };
  trundle.renew = () => say("new-version");

  if (worker) {
    worker.onmessage = ({ data }) => {
      if (data.version !== version) trundle.renew();
      else if (data.complete && data.isNew) say("all-here");
      else if (data.complete) {
        const here = document.createElement("p");
        here.id = "_here";
        here.textContent = trundle.words["all-here"];
        document.querySelector("footer").append(here);
      }
    };
    worker.controller?.postMessage(version);
  }

  // The newest version is asked for at an address that is new each time, since servers and
  // caches go by times and sizes. The worker's address has its version: a new one is another
  // script to the browser, which fetches it whatever the server says of times.
  const look = () => {
    const newest = trundle.newest ?? (worker?.controller ? "" : version);
    const isOld = newest && newest !== version;
    const none = () => isOld && trundle.renew();
    if (!worker) none();
    else if (newest) worker.register("offline.js?v=" + newest, { updateViaCache: "none" }).catch(none);
  };
  const script = document.createElement("script");
  script.src = "version.js?" + Date.now();
  script.onload = script.onerror = look;
  document.head.append(script);
})();
