// Keeps an edition's files on the device. Above this stand files and version, which belong
// together. A page asks for its scripts with ?v= and its own version, and gets them from the
// cache of that version. So a new version may take over while pages of the last one are open:
// they go on as they are, and the next page to be opened is a new one.
"use strict";
const prefix = "trundle " + registration.scope + " ";
const kept = prefix + version;

const missing = async () => {
  const here = new Set((await (await caches.open(kept)).keys()).map(({ url }) => url));
  return files.filter((name) => !here.has(new URL(name, registration.scope).href));
};

// Fetches what is missing, a few files side by side in the order of the list. A file that the
// server lacks, or that is of another version since one is just being published, is left for
// the next visit. Rejects when the network is gone.
const fill = async () => {
  const cache = await caches.open(kept);
  const rest = (await missing()).values(); // which all take from
  const fetchSome = async () => {
    for (const name of rest) {
      // No look at times or sizes: a server cannot say that nothing has changed.
      const got = await fetch(name, { cache: "reload" });
      if (!got.ok || (/\.(html|js)$/.test(name) && !(await got.clone().text()).includes(version))) continue;
      // Many servers send index.html on to its folder, and what was sent on may not
      // stand for a page.
      await cache.put(name, got.redirected ? new Response(got.body, { headers: got.headers }) : got);
    }
  };
  await Promise.all([0, 1, 2, 3].map(fetchSome));
};

const pages = async () =>
  (await clients.matchAll({ includeUncontrolled: true })).filter(({ url }) => url.startsWith(registration.scope));

const tell = async (pages, isNew) => {
  const complete = !(await missing())[0];
  for (const page of pages) page.postMessage({ version, complete, isNew });
};

addEventListener("install", (event) => {
  const all = async () => {
    // The page names the version that it wants, unless it is so old that it names none. A server
    // in the middle of an update may send an older worker, which must not be taken for it.
    if (location.search && !location.search.includes(version)) throw new Error(location.search);
    await fill();
    await skipWaiting();
  };
  event.waitUntil(all());
});

addEventListener("activate", (event) => {
  event.waitUntil(clients.claim().then(pages).then((all) => tell(all, true)));
});

// A page that was opened says its version.
addEventListener("message", (event) => {
  const all = async () => {
    const some = (await missing())[0];
    if (some) await fill().catch(() => {});
    const isNew = some && !(await missing())[0];
    const open = await pages();
    await tell(isNew ? open : [event.source], isNew);
    // What another page may still ask for stays; so does all that stands in for what is missing.
    if (open[1] || event.data !== version || (await missing())[0]) return;
    for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== kept) await caches.delete(name);
  };
  event.waitUntil(all());
});

const answer = async (request) => {
  const asked = new URL(request.url);
  // Which version is the newest only the server knows. Without a network there is no news.
  if (asked.pathname.endsWith("/version.js"))
    return fetch(request, { cache: "no-store" }).catch(
      () => new Response("", { headers: { "Content-Type": "text/javascript" } }),
    );
  const own = request.mode !== "navigate" && asked.searchParams.get("v");
  if (asked.href.split(/[?#]/)[0] === registration.scope) asked.pathname += "index.html";
  const find = (cacheName) => caches.match(asked, { ignoreSearch: true, cacheName });
  return (
    (own && (await find(prefix + own))) ||
    (await find(kept)) ||
    fetch(request).catch(async (error) => (await find()) ?? Promise.reject(error))
  );
};

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(registration.scope)) event.respondWith(answer(request));
});
