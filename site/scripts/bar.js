// The bar at the foot: what goes on now, how long still, and what comes next; and where now is on the tape.
(() => {
  "use strict";
  const trundle = (globalThis.trundle ??= {});
  const bar = document.getElementById("_bar");
  const { clock } = trundle;
  if (!bar || !clock) return;
  const at = (selector) => bar.querySelector(selector);
  const { say } = trundle;
  const parts = [...document.querySelectorAll(".plan li")].map((li) => ({
    from: Number(li.querySelector("[data-from]").dataset.from),
    minutes: parseInt(li.querySelector("small").textContent.match(/\d+/), 10),
    a: li.querySelector("a"),
  }));
  const end = parts.length ? parts.at(-1).from + parts.at(-1).minutes : 0;
  const day = 24 * 60;

  const pointer = document.createElement("i");
  pointer.className = "now";
  pointer.setAttribute("aria-hidden", "true");
  const point = (minutes) => {
    const band = document.querySelector(".tape > div") ?? document.querySelector(".tape");
    const isThere = minutes >= 0 && minutes <= end && band && end;
    if (!isThere) return pointer.remove();
    if (pointer.parentNode !== band) band.append(pointer);
    pointer.style.left = (100 * minutes) / end + "%";
  };
  const link = (a, part, text) => {
    a.hidden = !part;
    if (!part) return;
    a.href = part.a.hash;
    if (a.textContent !== text) a.textContent = text;
  };
  // The next part's time stays where there is no room for its name.
  const follow = (next, begins) => {
    const a = at(".next");
    a.hidden = !next;
    if (!next) return;
    a.href = next.a.hash;
    const name = Object.assign(document.createElement("span"), { textContent: ` ${next.a.textContent} ` });
    a.replaceChildren(clock.write(begins + next.from), name, "›");
  };

  const show = () => {
    const begins = clock.begins();
    const time = new Date();
    const now = time.getHours() * 60 + time.getMinutes();
    const isSet = begins === begins && parts.length > 0;
    at(".now").hidden = !isSet;
    at(".begin").hidden = isSet || !parts.length;
    bar.classList.toggle("set", isSet);
    at(".go").hidden = !isSet;
    if (!isSet) {
      at(".next").hidden = true;
      return point(-1);
    }
    // Half a day before and after: an evening may go past midnight.
    const gone = ((now - begins + day * 1.5) % day) - day / 2;
    const i = gone < 0 ? -1 : parts.findLastIndex((p) => p.from <= gone);
    const part = parts[Math.max(i, 0)];
    const next = gone < end ? parts[i + 1] : undefined;
    at(".now b").textContent = clock.write(now);
    link(at(".now a"), part, part.a.textContent);
    at(".now small").textContent =
      gone < 0
        ? say("soon", -gone)
        : gone >= end
          ? say("over", clock.write(begins + end))
          : say("left", part.from + part.minutes - gone, part.minutes);
    follow(i < 0 ? undefined : next, begins);
    point(gone);
  };

  at(".begin").addEventListener("click", () => {
    const time = new Date();
    clock.set(clock.write(time.getHours() * 60 + time.getMinutes()));
    at(".now a").focus({ preventScroll: true }); // the button is gone
  });
  const go = at(".go");
  const open = (isOpen) => {
    go.setAttribute("aria-expanded", isOpen);
    bar.classList.toggle("open", isOpen);
  };
  go.addEventListener("click", () => open(go.getAttribute("aria-expanded") !== "true"));
  bar.addEventListener("click", ({ target }) => {
    const a = target.closest("a");
    if (!a) return;
    open(false);
    const fold = document.getElementById(decodeURIComponent(a.hash.slice(1)))?.closest("details");
    if (fold) fold.open = true;
  });
  bar.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || go.getAttribute("aria-expanded") !== "true") return;
    open(false);
    go.focus();
  });
  clock.changed = show;
  show();
  setInterval(show, 5000);
  document.addEventListener("visibilitychange", show); // a tablet that was put down for a while
})();
