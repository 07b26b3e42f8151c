// Makes the form work without signal: registers the service worker and tells the page how far it is.
//
// The page reads two attributes of <html> and listens for the event "marrowbook-shell" on window:
//   data-offline  unknown | loading | ready | failed | unsupported
//   data-update   none | ready | elsewhere       ("elsewhere": another tab took a new version)
//   data-build    the version now in use, once known
// To take a waiting version the page sends the event "marrowbook-update-now" to window. Nothing here
// ever does so by itself: a new version must not arrive in the middle of a visit.
"use strict";
(() => {
  const root = document.documentElement;
  let asked = false;
  let retired = false; // the active worker takes the form off phones

  function tell(name, value) {
    if (root.dataset[name] === value) return;
    root.dataset[name] = value;
    dispatchEvent(new Event("marrowbook-shell"));
  }

  function ask(worker, what, hear) {
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => hear(event.data);
    worker.postMessage(what, [channel.port2]);
  }

  function askVersion(worker) {
    ask(worker, { ask: "version" }, (version) => {
      // The worker that takes the form off phones keeps none.
      if (!version) {
        retired = true;
        tell("offline", "unsupported");
        succeed();
        return;
      }
      tell("build", String(version));
      tell("offline", "ready");
    });
    // A newer worker may run already, where the browser had been closed, and still give out the version in use.
    ask(worker, { ask: "newer" }, (is) => { if (is) tell("update", "ready"); });
  }

  // After the form was taken off, what runs on the page came by the network: no version is in use that a newer one
  // could take the place of in the middle of a visit, so a mended form is kept at once.
  function succeed() {
    if (!registration.waiting) return;
    tell("update", "none");
    ask(registration.waiting, { update: "now" }, () => {});
  }

  function watch(worker, registration) {
    const look = () => {
      if (worker.state === "activated") askVersion(worker);
      else if (worker.state === "installed" && retired) succeed();
      else if (worker.state === "installed" && registration.active) tell("update", "ready");
      else if (worker.state === "redundant" && !registration.active) tell("offline", "failed");
    };
    worker.addEventListener("statechange", look);
    look();
  }

  // Another copy of the form may be published one folder up and then answers for this page at first.
  function controlled() {
    const controller = navigator.serviceWorker.controller;
    return controller !== null && controller.scriptURL === new URL("sw.js", location.href).href;
  }

  let registration = null;

  async function register() {
    registration = await navigator.serviceWorker.register("sw.js", { scope: "./", updateViaCache: "none" });
    for (const worker of [registration.active, registration.waiting, registration.installing]) {
      if (worker) watch(worker, registration);
    }
    registration.onupdatefound = () => watch(registration.installing, registration);
    // The browser looks for a new version on its own too, but when it pleases. Without signal this fails
    // at once and nothing is lost.
    if (!registration.installing) registration.update().catch(() => {});
  }

  function start() {
    register().catch((error) => {
      // Without signal the check for a new version fails; what is in the cache still works.
      if (!controlled()) tell("offline", "failed");
      console.info("service worker:", String(error));
    });
  }

  root.dataset.update = "none";
  if (!("serviceWorker" in navigator)) {
    // No HTTPS, a private window, or a very old browser.
    tell("offline", "unsupported");
    return;
  }
  tell("offline", controlled() ? "ready" : "loading");
  const wasControlled = controlled();
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
    else if (wasControlled && !retired) tell("update", "elsewhere");
  });
  addEventListener("marrowbook-update-now", () => {
    const worker = registration && (registration.waiting || registration.active);
    if (!worker) return;
    asked = true;
    // One that waits is started by this, and the page is loaded anew when it has taken over.
    ask(worker, { update: "now" }, () => { if (worker === registration.active) location.reload(); });
  });
  // A network that came and went during the first load leaves nothing behind; it is tried again.
  addEventListener("online", () => {
    if (root.dataset.offline !== "failed") return;
    tell("offline", "loading");
    start();
  });
  start();
})();
