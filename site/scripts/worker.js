// Keeps an edition's files on the device. Above this stand files and version, which
// belong together: a page and its scripts always come from one version.
"use strict";
const prefix = "trundle " + registration.scope + " ";
const kept = prefix + version;

addEventListener("install", (event) => {
  const all = async () => {
    const cache = await caches.open(kept);
    for (const name of files) {
      const got = await fetch(name, { cache: "reload" });
      if (!got.ok) throw new Error(name);
      // Many servers send index.html on to its folder, and what was sent on may not
      // stand for a page.
      await cache.put(name, got.redirected ? new Response(got.body, { headers: got.headers }) : got);
    }
    await skipWaiting();
  };
  event.waitUntil(all());
});

addEventListener("activate", (event) => {
  const all = async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(prefix) && name !== kept) await caches.delete(name);
    }
    await clients.claim();
  };
  event.waitUntil(all());
});

addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || !event.request.url.startsWith(registration.scope)) return;
  const answer = async () => {
    const cache = await caches.open(kept);
    const asked = new URL(event.request.url);
    if (asked.href.split(/[?#]/)[0] === registration.scope) asked.pathname += "index.html";
    return (await cache.match(asked, { ignoreSearch: true })) ?? fetch(event.request);
  };
  event.respondWith(answer());
});
