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

// What of the later files an older version holds: whoever chose a language keeps it.
async function heldLater() {
  const held = [];
  for (const name of (await caches.keys()).filter((name) => name.startsWith(OURS))) {
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

async function dropOlder() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
  // Only matters on the very first visit, when the page was loaded before there was a worker.
  await self.clients.claim();
}

// Which kept file answers this address, if any. Screens live after the "#", which never gets here.
// An address deeper down (the office's page, a neighbour's folder) is not ours to answer.
function keptFile(request) {
  if (request.method !== "GET") return null;
  const url = new URL(request.url);
  if (url.origin !== HOME.origin) return null;
  url.hash = "";
  url.search = "";
  const asked = url.href === HOME.href ? PAGE : url.href;
  return WHERE.has(asked) || ASKED_FOR.has(asked) ? asked : null;
}

async function fromCache(url, request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(url);
  if (kept) return kept;
  // If the browser threw the cache away, the network is the only way left.
  if (!ASKED_FOR.has(url)) return fetch(request);
  const answer = await fetchChecked(url, ASKED_FOR.get(url));
  await cache.put(url, answer.clone());
  return answer;
}

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropOlder()));
self.addEventListener("fetch", (event) => {
  const url = keptFile(event.request);
  if (url) event.respondWith(fromCache(url, event.request));
});
self.addEventListener("message", (event) => {
  const said = event.data || {};
  if (said.update === "now") self.skipWaiting();
  if (said.ask === "version" && event.ports[0]) event.ports[0].postMessage(VERSION);
});
