// Takes the form off phones. To use it, publish this file as `sw.js` in place of the one that the build
// made, and leave it there for as long as phones that still have the form may come by.
// It removes only the kept program files. The journal is in another store and is not touched.
"use strict";

const OURS = "marrowbook " + new URL("./", self.location.href).pathname + " ";

async function stepDown() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS)).map((name) => caches.delete(name)));
  await self.registration.unregister();
}

// The one place that does not wait for the user: it is published when the old form must not be used.
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(stepDown()));
// A page that asks is told that nothing is kept any more.
self.addEventListener("message", (event) => {
  if (event.data && event.data.ask === "version" && event.ports[0]) event.ports[0].postMessage("");
});
