// While a pack is written: brings the page up to what its source has become, in place, and
// shows the author's strip. Nothing of it is in what the club hands out.
(() => {
  "use strict";
  // No script of an earlier state may answer for the server.
  navigator.serviceWorker?.getRegistrations?.().then((all) => all.forEach((one) => one.unregister()), () => {});
  Object.defineProperty(navigator, "serviceWorker", { value: undefined });

  const shown = new Map(); // nodes of the page as it was sent → those on the screen
  const each = (was, now, act) => {
    act(was, now);
    was.childNodes.forEach((child, i) => each(child, now.childNodes[i], act));
  };
  let sent = document.body.cloneNode(true); // before other scripts change anything
  each(sent, document.body, (a, b) => shown.set(a, b));

  const keep = (was, now) => each(was, now, (a, b) => shown.set(b, shown.get(a)));
  const alike = (a, b) => a.nodeName === b.nodeName && a.id === b.id;

  // Brings a node on the screen, and what is in it, from what was sent to what is sent now.
  const patch = (was, now) => {
    const node = shown.get(was);
    shown.set(now, node);
    if (!was.attributes) {
      if (was.data !== now.data) node.data = now.data;
      return;
    }
    for (const { name, value } of now.attributes) if (was.getAttribute(name) !== value) node.setAttribute(name, value);
    for (const { name } of [...was.attributes]) if (!now.hasAttribute(name)) node.removeAttribute(name);
    children(node, [...was.childNodes], [...now.childNodes]);
  };

  // The longest row of nodes that are the same in both, as pairs of places.
  const common = (was, now) => {
    const same = was.map((a) => now.map((b) => a.isEqualNode(b)));
    const length = Array.from({ length: was.length + 1 }, () => new Array(now.length + 1).fill(0));
    for (let i = was.length; i--; )
      for (let j = now.length; j--; )
        length[i][j] = same[i][j] ? length[i + 1][j + 1] + 1 : Math.max(length[i + 1][j], length[i][j + 1]);
    const pairs = [];
    for (let i = 0, j = 0; i < was.length && j < now.length; ) {
      if (same[i][j]) pairs.push([i++, j++]);
      else if (length[i + 1][j] >= length[i][j + 1]) i++;
      else j++;
    }
    return pairs;
  };

  // The same for a row of nodes: what is alike at both ends stays, and between them the longest row that is alike.
  const children = (parent, was, now) => {
    let head = 0;
    while (head < was.length && head < now.length && was[head].isEqualNode(now[head])) keep(was[head], now[head++]);
    let a = was.length;
    let b = now.length;
    while (a > head && b > head && was[a - 1].isEqualNode(now[b - 1])) keep(was[--a], now[--b]);
    const after = b < now.length ? shown.get(now[b]) : null;
    was = was.slice(head, a);
    now = now.slice(head, b);
    const pairs = was.length * now.length < 40000 ? common(was, now) : [];
    let i = 0;
    let j = 0;
    for (const [x, y] of [...pairs, [was.length, now.length]]) {
      const next = x < was.length ? shown.get(was[x]) : after;
      while (i < x && j < y) {
        if (alike(was[i], now[j])) patch(was[i++], now[j++]);
        else if (x - i > y - j) shown.get(was[i++]).remove();
        else put(parent, now[j++], i < x ? shown.get(was[i]) : next);
      }
      while (i < x) shown.get(was[i++]).remove();
      while (j < y) put(parent, now[j++], next);
      if (x < was.length) keep(was[i++], now[j++]);
    }
  };

  const put = (parent, now, before) => {
    const node = document.importNode(now, true);
    parent.insertBefore(node, before && before.parentNode === parent ? before : null);
    each(now, node, (a, b) => shown.set(a, b));
  };

  // What checks answers has changed: the page starts again, where it was.
  const where = "live " + location.pathname;
  const restart = () => {
    const box = document.activeElement;
    const open = [...document.querySelectorAll("main details")].map((d) => d.open);
    const kept = { y: scrollY, open, id: box?.id, text: box?.value, from: box?.selectionStart };
    sessionStorage.setItem(where, JSON.stringify(kept));
    location.reload();
  };
  const resume = () => {
    const kept = JSON.parse(sessionStorage.getItem(where) ?? "null");
    sessionStorage.removeItem(where);
    if (!kept) return;
    document.querySelectorAll("main details").forEach((d, i) => d.open ||= kept.open[i] ?? false);
    scrollTo(0, kept.y);
    const box = document.getElementById(kept.id);
    if (!box) return;
    if (kept.text !== undefined) box.value = kept.text;
    box.focus({ preventScroll: true });
    box.setSelectionRange?.(kept.from, kept.from);
  };
  // A sheet fills its boxes from the storage first.
  const rested = () =>
    !document.getElementById("_sheet") || "ready" in document.body.dataset ? resume() : setTimeout(rested, 10);
  rested();

  const strip = document.createElement("aside");
  strip.id = "_strip";
  document.body.append(strip);
  const measured = () => document.body.style.setProperty("--strip", strip.offsetHeight + "px");
  new ResizeObserver(measured).observe(strip);
  const point = (event) => {
    const place = document.getElementById("_at");
    const at = event.target.closest?.("[data-at]");
    if (place && at) place.textContent = at.dataset.at;
  };
  addEventListener("pointermove", point);
  addEventListener("focusin", point);

  // A problem's place leads to what the page has of that line, or of the last line before it.
  const aim = "live aim";
  const go = (place) => {
    if (!place || !document.querySelector("main [data-at]")) return;
    sessionStorage.removeItem(aim);
    const [file, line] = place.split(/:(?=\d+$)/);
    const before = [...document.querySelectorAll("main [data-at]")].filter((e) => {
      const [of, at] = e.dataset.at.split(/:(?=\d+$)/);
      return of === file && +at <= +line;
    });
    const to = before.at(-1) ?? document.querySelector("h1");
    for (const last of document.querySelectorAll("[data-aimed]")) delete last.dataset.aimed;
    to.dataset.aimed = "";
    for (let fold = to.closest("details"); fold; fold = fold.parentNode.closest("details")) fold.open = true;
    to.scrollIntoView({ block: "center" });
  };
  strip.addEventListener("click", (event) => {
    const link = event.target.closest("[data-go]");
    if (!link) return;
    sessionStorage.setItem(aim, link.dataset.go);
    if (link.pathname !== location.pathname) return;
    event.preventDefault();
    go(link.dataset.go);
  });

  const last = {};
  const live = new EventSource("/_live/events?page=" + encodeURIComponent(location.pathname));
  live.onmessage = ({ data }) => {
    const news = JSON.parse(data);
    const notice = document.getElementById("_notice");
    if (news.moved) return location.replace(news.moved);
    if (notice ? news.page : news.gone) return location.reload();
    for (const part of ["steps", "style"]) last[part] ??= news[part];
    if (news.page) {
      const now = new DOMParser().parseFromString(news.page, "text/html");
      patch(sent, now.body);
      sent = now.body;
      document.title = now.title;
    }
    if (last.steps !== news.steps) return restart();
    if (last.style !== news.style) {
      last.style = news.style;
      document.querySelector("link[rel=stylesheet]").href = "/" + news.edition + "/assets/site.css?" + news.style;
    }
    if (strip.innerHTML !== news.strip) strip.innerHTML = news.strip;
    document.body.dataset.live = news.version;
    go(sessionStorage.getItem(aim));
  };
  const lost = (is) => () => document.getElementById("_lost")?.toggleAttribute("hidden", !is);
  live.onerror = lost(true);
  live.onopen = lost(false);
})();
