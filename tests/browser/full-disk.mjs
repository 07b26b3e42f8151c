// What the browser itself does with its stores when the disk fills between two writes and it is killed then: a page with
// nothing of the form's in it writes the same text into IndexedDB (strict) and Cache Storage and tells when both have it.
//   node tests/browser/full-disk.mjs [TIMES]
// Printed after each kill: what was told so far, and what each store holds at the next start.
import { createServer } from "node:http";
import { phone } from "./phone.mjs";
import { smallDisk } from "./small-disk.mjs";

const TIMES = Number(process.argv[2] ?? 20);
const sleep = (ms) => new Promise((done) => setTimeout(done, ms));

/** Runs in the page. */
function page() {
  globalThis.lost = "";
  const open = () => new Promise((done, gone) => {
    const request = indexedDB.open("plain", 1);
    // `dataLoss` is Chromium's own.
    request.onupgradeneeded = (event) => { globalThis.lost = `${event.dataLoss} ${event.dataLossMessage}`; request.result.createObjectStore("rows"); };
    request.onsuccess = () => done(request.result);
    request.onerror = () => gone(request.error);
  });
  const count = (database) => new Promise((done, gone) => {
    const request = database.transaction("rows").objectStore("rows").count();
    request.onsuccess = () => done(request.result);
    request.onerror = () => gone(request.error);
  });
  globalThis.write = async (run) => {
    const [database, cache] = [await open(), await caches.open("plain")];
    for (let i = await count(database); ; i += 1) {
      const text = "x".repeat(900) + run;
      await new Promise((done, gone) => {
        const work = database.transaction("rows", "readwrite", { durability: "strict" });
        work.oncomplete = done;
        work.onabort = () => gone(work.error);
        work.objectStore("rows").add(text, i);
      });
      await cache.put(`/plain/${run}-${i}`, new Response(text));
      globalThis.told();
      await new Promise((done) => setTimeout(done, 60));
    }
  };
  globalThis.look = async () => {
    const rows = await count(await open());
    const cache = await caches.open("plain");
    let whole = 0;
    for (const key of await cache.keys()) {
      const answer = await cache.match(key);
      if (answer && (await answer.text()).length > 900) whole += 1;
    }
    return { rows, whole, lost: globalThis.lost };
  };
}

const server = createServer((_, answer) => { answer.setHeader("content-type", "text/html"); answer.end(`<!doctype html><title>plain</title><script>(${page})()</script>`); });
await new Promise((done) => server.listen(0, done));
const url = `http://localhost:${server.address().port}/`;
const disk = smallDisk();
const deer = await phone();
let [told, whole, thrown] = [0, 0, 0];
try {
  const hear = () => deer.context.exposeBinding("told", () => { told += 1; });
  await hear();
  for (let run = 1; run <= TIMES; run += 1) {
    await deer.page.goto(url);
    deer.page.evaluate((n) => globalThis.write(n), run).catch(() => { /* full, or the page died */ });
    await sleep(200 + Math.random() * 300);
    const kill = deer.killer();
    disk.fill();
    await sleep(150 + Math.random() * 300);
    kill();
    disk.free();
    await deer.dieAndStartAgain();
    await hear();
    await deer.page.goto(url);
    const found = await deer.page.evaluate(() => globalThis.look());
    if (run > 1 && found.lost !== "") thrown += 1;
    whole = found.whole;
    console.log(`kill ${run}: ${told} told in all; IndexedDB holds ${found.rows} rows${found.lost ? ` (${found.lost})` : ""}, Cache Storage ${whole} whole`);
  }
} finally {
  await deer.end();
  server.close();
  disk.remove();
}
console.log(`the browser threw its IndexedDB away ${thrown} times in ${TIMES} kills; Cache Storage holds ${whole} of ${told} texts that were told`);
process.exit(told > 0 && whole >= told ? 0 : 1);
