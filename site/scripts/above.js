// Keeps the page above an edition's folder on the device, and what it leads to beside the edition.
// Above this stand files and version. What the server sends comes first, since these files have no
// version of their own that they could ask for; what is kept stands in for it.
"use strict";
const prefix = "trundle " + registration.scope + " ";
const kept = prefix + version;

addEventListener("install", (event) => {
  const all = async () => {
    const cache = await caches.open(kept);
    for (const name of files) {
      const got = await fetch(name, { cache: "reload" });
      // What was sent on, as index.html often is, may not stand for a page. A file that is not
      // there costs nobody the others.
      if (got.ok) await cache.put(name, got.redirected ? new Response(got.body, { headers: got.headers }) : got);
    }
    await skipWaiting();
  };
  event.waitUntil(all());
});

addEventListener("activate", (event) => {
  const all = async () => {
    for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== kept) await caches.delete(name);
    await clients.claim();
  };
  event.waitUntil(all());
});

addEventListener("fetch", (event) => {
  const { request } = event;
  const asked = new URL(request.url);
  if (request.method !== "GET" || !asked.href.startsWith(registration.scope)) return;
  if (asked.href.split(/[?#]/)[0] === registration.scope) asked.pathname += "index.html";
  const find = () => caches.match(asked, { ignoreSearch: true, cacheName: kept });
  event.respondWith(fetch(request).catch(async (error) => (await find()) ?? Promise.reject(error)));
});
