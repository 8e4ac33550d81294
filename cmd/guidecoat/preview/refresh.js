"use strict";
(() => {
  const shown = document.currentScript.dataset.version;
  const key = "guidecoat-scroll";
  let source, later;

  // Browsers restore the place themselves, unless the page was shorter for a moment.
  try {
    const kept = JSON.parse(sessionStorage.getItem(key) || "null");
    sessionStorage.removeItem(key);
    if (kept && kept.path === location.pathname) addEventListener("load", () => scrollTo({ left: kept.x, top: kept.y, behavior: "instant" }));
  } catch { /* no storage: the page begins at its top */ }

  const refresh = () => {
    stop();
    try {
      sessionStorage.setItem(key, JSON.stringify({ path: location.pathname, x: scrollX, y: scrollY }));
    } catch { /* likewise */ }
    location.reload();
  };
  const listen = () => {
    stop();
    source = new EventSource("/-preview/events");
    source.onmessage = (event) => { if (event.data !== shown) refresh(); };
    // A lost connection comes back by itself; one that was refused does not.
    source.onerror = () => { if (source.readyState === EventSource.CLOSED) later = setTimeout(listen, 2000); };
  };
  const stop = () => {
    clearTimeout(later);
    if (source) source.close();
  };
  // Browsers open six connections to one host, so only pages that are seen hold one.
  // On coming back each hears at once what is current.
  const look = () => (document.hidden ? stop() : listen());
  document.addEventListener("visibilitychange", look);
  addEventListener("pageshow", look);
  addEventListener("pagehide", stop);
})();
