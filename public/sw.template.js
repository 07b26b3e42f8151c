// The whole form, kept on the phone. `stamp` fills in the three marked values; the worker's bytes
// therefore change exactly when a file of the form changes.
"use strict";

const VERSION = "STAMP:VERSION";
const FILES = /*STAMP:FILES*/[];
// Other languages: kept once they were asked for, and from then on with every newer version.
const LATER = /*STAMP:LATER*/[];

// Everything under one address shares its caches: the folder is part of the name, so that two copies
// of the form under one address never delete each other's files. Names hold a space, folders do not.
const HOME = new URL("./", self.location.href);
const OURS = "marrowbook " + HOME.pathname + " ";
const CACHE = OURS + VERSION;
// The form's own folders, in whichever version.
const FOLDERS = new Set([...FILES, ...LATER].filter(([path]) => path.includes("/")).map(([path]) => path.split("/")[0]));
const WHERE = new Map(FILES.map(([path, digest]) => [new URL(path, HOME).href, digest]));
const ASKED_FOR = new Map(LATER.map(([path, digest]) => [new URL(path, HOME).href, digest]));
const PAGE = new URL("index.html", HOME).href;

function hex(buffer) {
  return Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A log-in page of a public network, or a publication caught half-way, also answers "200 OK". Only
// the very bytes of this version go in.
async function fetchChecked(url, digest) {
  const answer = await fetch(url, { cache: "reload", credentials: "same-origin" });
  if (!answer.ok) throw new Error(url + " answered " + answer.status);
  const bytes = await answer.arrayBuffer();
  if (hex(await crypto.subtle.digest("SHA-256", bytes)) !== digest) throw new Error(url + " is not the file of version " + VERSION);
  // Built afresh: an answer that went through a redirect may not be used for opening a page.
  return new Response(bytes, { status: 200, headers: { "content-type": answer.headers.get("content-type") || "application/octet-stream" } });
}

// Caches of this folder, oldest first (the standard keeps their order). The oldest is the version in use: a newer one is
// kept beside it, and takes its place only when the person asks. A browser starts a waiting worker by itself once no page
// is open, as after a phone has died in the middle of a visit; the visit then goes on in the version that it began with.
async function ours() {
  return (await caches.keys()).filter((name) => name.startsWith(OURS));
}

async function inUse() {
  return (await ours())[0] || CACHE;
}

async function keepOnly(...wanted) {
  await Promise.all((await ours()).filter((name) => !wanted.includes(name)).map((name) => caches.delete(name)));
}

// What of the later files an older version holds: whoever chose a language keeps it.
async function heldLater() {
  const held = [];
  for (const name of await ours()) {
    const cache = await caches.open(name);
    for (const row of ASKED_FOR) if (await cache.match(row[0])) held.push(row);
  }
  return held;
}

async function keepAll() {
  const wanted = new Map([...WHERE, ...(await heldLater())]);
  const answers = await Promise.all(Array.from(wanted, async ([url, digest]) => [url, await fetchChecked(url, digest)]));
  const cache = await caches.open(CACHE);
  try {
    for (const [url, answer] of answers) await cache.put(url, answer);
  } catch (error) {
    await caches.delete(CACHE); // no room: whole or nothing
    throw error;
  }
}

// Which file of the form is asked for, if any. Screens live after the "#", which never gets here.
// An address deeper down (the office's page, a neighbour's folder) is not ours to answer.
function fileOf(request) {
  if (request.method !== "GET") return null;
  const url = new URL(request.url);
  url.hash = "";
  url.search = "";
  if (!url.href.startsWith(HOME.href)) return null;
  const path = url.href.slice(HOME.href.length);
  if (path === "") return PAGE;
  return !path.includes("/") || FOLDERS.has(path.split("/")[0]) ? url.href : null;
}

async function fromCache(url, request) {
  const used = await inUse();
  const kept = await caches.match(url, { cacheName: used });
  if (kept) return kept;
  // If the browser threw the cache away, the network is the only way left.
  if (used !== CACHE || !ASKED_FOR.has(url)) return fetch(request);
  const answer = await fetchChecked(url, ASKED_FOR.get(url));
  await (await caches.open(CACHE)).put(url, answer.clone());
  return answer;
}

// Where no worker runs yet, a cache that lies there is one that was cut off.
self.addEventListener("install", (event) => event.waitUntil((async () => {
  await keepAll();
  await keepOnly(self.registration.active ? await inUse() : CACHE, CACHE);
})()));
// Only matters on the very first visit, when the page was loaded before there was a worker.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const url = fileOf(event.request);
  if (url) event.respondWith(fromCache(url, event.request));
});
self.addEventListener("message", (event) => {
  const said = event.data || {};
  const answer = (what) => { if (event.ports[0]) event.ports[0].postMessage(what); };
  if (said.update === "now") event.waitUntil(keepOnly(CACHE).then(() => self.skipWaiting()).then(() => answer("done")));
  if (said.ask === "version") event.waitUntil(inUse().then((used) => answer(used.slice(OURS.length))));
  if (said.ask === "newer") event.waitUntil(inUse().then((used) => answer(used !== CACHE)));
});
