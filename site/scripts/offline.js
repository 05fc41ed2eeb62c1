// Over HTTP, fetches what keeps the edition on the device and tells of versions (news), once the
// page is there. Pages of a folder have no server to ask, those of the preview no version.
(() => {
  "use strict";
  const { version } = document.documentElement.dataset;
  if (!/^http/.test(location.protocol) || !/^[0-9a-f]+$/.test(version)) return;
  const script = document.createElement("script");
  script.src = "assets/news.js?v=" + version;
  document.head.append(script);
})();
