// Keeps the page on the device, by way of `offline.js`, and hears of new versions. A built
// page carries a mark with that file's name; a page without one keeps nothing, and ends
// what an earlier page of the same place kept. Without a secure connection, and in frames
// that may keep nothing, all of it is quietly absent.
"use strict";

(() => {
  const HOUR = 3_600_000;
  // What the page needs first, it loads first.
  const SOON = 400;
  const boot = document.getElementById("boot");
  const mark = document.querySelector('meta[name="coilwright-offline"]');
  const scope = new URL(".", document.baseURI).href;
  const off = new URL(location.href).searchParams.has("off");
  let workers;
  try {
    workers = location.protocol.startsWith("http") ? navigator.serviceWorker : undefined;
  } catch {
    // A frame without an origin of its own.
  }
  let registration = null;

  // A worker of a folder above is somebody else's.
  async function ours() {
    const found = await workers.getRegistration(scope);
    return found?.scope === scope ? found : undefined;
  }

  async function end(found) {
    await found.unregister();
    for (const name of await caches.keys())
      if (name.startsWith(`coilwright ${scope} `)) await caches.delete(name);
  }

  // The worker itself has led out, if it could. If it is still there although the server
  // answers, it is the worker that does not work.
  async function leave() {
    const found = await ours();
    if (found === undefined || !(await fetch(mark.content, { cache: "no-store" })).ok) return;
    await end(found);
    location.reload();
  }

  // Tells once when a worker has come so far.
  function once(worker, states, tell) {
    const look = () => {
      if (!states.includes(worker.state)) return;
      worker.removeEventListener("statechange", look);
      tell();
    };
    worker.addEventListener("statechange", look);
    look();
  }

  async function keep(tell) {
    registration = await workers.register(mark.content, { updateViaCache: "none" });
    const found = () => {
      const { installing, waiting, active } = registration;
      // The first worker keeps what this page is of. Any after it is newer than the page.
      if (active !== null) tell(false);
      else if (installing !== null) once(installing, ["activated"], () => tell(false));
      const next = active === null ? null : (waiting ?? installing);
      if (next !== null) once(next, ["installed", "activating", "activated"], () => tell(true));
    };
    registration.addEventListener("updatefound", found);
    found();
    let looked = Date.now();
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState !== "visible" || Date.now() - looked < HOUR) return;
      looked = Date.now();
      registration.update().catch(() => {});
    });
  }

  window.coilwrightKept = {
    /** Keeps the page, once it has come up; tells whether that is done or there is a newer one. */
    hear(tell) {
      if (workers === undefined || mark === null || off) return;
      setTimeout(() => boot.hidden && keep(tell).catch(() => {}), SOON);
    },
    /** Goes over to the newer version: in this tab. Others do so when they are told to. */
    take() {
      const next = registration?.waiting;
      if (!next) return location.reload();
      once(next, ["activated", "redundant"], () => location.reload());
      next.postMessage("take over");
    },
  };

  if (workers === undefined) return;
  if (mark === null) ours().then((found) => found && end(found)).catch(() => {});
  else if (off) leave().catch(() => {});
})();
