// When the form itself does not work: the words in the page, and the page that saves raw records.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { withPhone } from "./phone.mjs";

/** Writes records as some version of the form might: small keys, a journal, a photo, a signing key. */
function writeRecords() {
  return new Promise((resolve, reject) => {
    localStorage.setItem("marrowbook.pending.7", "{\"tap\":7}");
    localStorage.setItem("marrowbook.device-key", "do-not-tell-this");
    localStorage.setItem("other.program", "not ours");
    const wipe = indexedDB.deleteDatabase("marrowbook");
    wipe.onerror = () => reject(wipe.error);
    wipe.onsuccess = () => {
      const request = indexedDB.open("marrowbook", 3);
      request.onupgradeneeded = () => {
        for (const store of ["journal", "photos", "keys"]) request.result.createObjectStore(store);
      };
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const write = request.result.transaction(["journal", "photos", "keys"], "readwrite");
        write.objectStore("journal").put("{\"answer\":\"snow under it\"}", 1);
        write.objectStore("journal").put({ body: new Uint8Array([1, 2, 3]), note: "naïve é" }, 2);
        write.objectStore("photos").put(new Uint8Array(9000).fill(7), "p1");
        write.objectStore("keys").put("seed-must-stay", "device");
        write.oncomplete = () => { request.result.close(); resolve(); };
        write.onerror = () => reject(write.error);
      };
    };
  });
}

/** Opens the rescue page and waits until it has looked everywhere. */
async function openRescue(hand, place) {
  await hand.page.goto(place.url + "rescue.html");
  await hand.page.waitForFunction(() => document.querySelectorAll("#facts li").length >= 2);
}

for (const base of ["/", "/a/b/"]) {
  test(`under ${base}: without the server it lists all that is ours, keys left out`, () => withPhone({ base }, async (hand, place) => {
    await hand.open(place.url);
    await hand.offlineReady();
    await hand.page.goto(place.url + "rescue.html"); // no wasm runs here, so the database is free
    await hand.page.evaluate(writeRecords);
    await place.stop();
    await openRescue(hand, place);
    const download = hand.page.waitForEvent("download");
    await hand.page.tap("#download");
    const file = await download;
    assert.match(file.suggestedFilename(), /^marrowbook-raw-.*\.txt$/);
    const text = readFileSync(await file.path(), "utf8");
    const saved = JSON.parse(text);
    assert.equal(saved.small_store["marrowbook.pending.7"], "{\"tap\":7}");
    assert.equal(saved.record_store.journal[0].value, "{\"answer\":\"snow under it\"}");
    assert.deepEqual(saved.record_store.journal[1].value, { body: { bytes_base64: "AQID" }, note: "naïve é" });
    assert.equal(saved.record_store.photos[0].value.bytes, 9000);
    assert.ok(!text.includes("do-not-tell-this") && !text.includes("seed-must-stay"), "a signing key leaked");
    assert.ok(!text.includes("not ours"));
    assert.equal(await hand.page.locator("#photos a").count(), 1);
    assert.deepEqual(hand.violations, []);
    assert.deepEqual(hand.faults, []);
    assert.deepEqual(await hand.axe(), []);
    await hand.picture(`rescue-${base === "/" ? "root" : "folder"}`);
  }));
}

test("looking for records makes none: the database is not created by looking", () => withPhone({}, async (hand, place) => {
  await hand.page.goto(place.url + "rescue.html");
  await hand.page.waitForFunction(() => document.querySelectorAll("#facts li").length >= 2);
  assert.match(await hand.page.textContent("#found"), /Nothing of the form was found/);
  assert.deepEqual(await hand.page.evaluate(() => indexedDB.databases()), []);
}));

test("where the browser has thrown the record store away, the second copy is shown, its key left out", () => withPhone({}, async (hand, place) => {
  await hand.page.goto(place.url + "rescue.html");
  await hand.page.evaluate(async () => {
    const cache = await caches.open("marrowbook.spare");
    const put = (name, body) => cache.put(`/marrowbook.spare/${name}`, new Response(body));
    await put("entries.d1.1.2", "{\"answer\":\"no drag\"}\n{\"answer\":\"naïve é\"}");
    await put("seed", "do-not-tell-this");
    await put("photo.ab12", new Uint8Array(9000).fill(7));
  });
  await openRescue(hand, place);
  const saved = JSON.parse(await hand.page.inputValue("#text")).record_store["marrowbook.spare"];
  const of = (key) => saved.find((piece) => piece.key === key).value;
  assert.match(of("entries.d1.1.2"), /naïve é/);
  assert.match(of("seed"), /left out/);
  assert.equal(of("photo.ab12").bytes, 9000);
  assert.equal(await hand.page.locator("#photos a").count(), 1);
  assert.match(await hand.page.textContent("#stores"), /Second copy: 3/);
  assert.deepEqual(hand.faults, []);
}));

test("when the wasm cannot start, the page says so and leads to the raw records", () => withPhone({}, async (hand, place) => {
  await hand.page.route("**/*_bg.wasm", (route) => route.abort());
  await hand.page.goto(place.url);
  await hand.page.waitForSelector("#crashed", { state: "visible" });
  assert.equal(await hand.page.evaluate(() => document.activeElement.innerText), "The form has stopped");
  const note = await hand.page.evaluate(() => JSON.parse(localStorage.getItem("marrowbook.crash")));
  assert.equal(note.started, false);
  assert.ok(note.what.length > 0);
  assert.deepEqual(await hand.axe(), []);
  await hand.picture("crashed");
  await hand.page.tap(".crashed-save");
  await hand.page.waitForURL("**/rescue.html");
}));

test("a trap after the start stops the form in words; a lesser fault only leaves a note", () => withPhone({}, async (hand, place) => {
  await hand.open(place.url);
  await hand.page.evaluate(() => { Promise.reject(new Error("a refused share")); });
  await hand.page.waitForFunction(() => localStorage.getItem("marrowbook.crash")?.includes("a refused share"));
  assert.equal(await hand.page.isVisible("#crashed"), false);
  await hand.page.evaluate(() => {
    // A wasm module whose one function is `unreachable`: a real trap, as a panic ends in.
    const bytes = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11]);
    const trap = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports.f;
    setTimeout(trap, 0);
  });
  await hand.page.waitForSelector("#crashed", { state: "visible" });
  const note = await hand.page.evaluate(() => JSON.parse(localStorage.getItem("marrowbook.crash")));
  assert.equal(note.started, true);
  assert.match(note.what, /unreachable/);
}));

test("a real panic in the form ends in words and leaves message and place", () => withPhone({}, async (hand, place) => {
  await hand.page.addInitScript(() => addEventListener("TrunkApplicationStarted", (event) => { globalThis.exportsOfTheForm = event.detail.wasm; }));
  await hand.open(place.url);
  await hand.page.evaluate(() => { setTimeout(() => globalThis.exportsOfTheForm.panicOnPurpose(), 0); });
  await hand.page.waitForSelector("#crashed", { state: "visible" });
  const note = await hand.page.evaluate(() => JSON.parse(localStorage.getItem("marrowbook.crash")));
  assert.match(note.what, /asked to panic by a test/);
  assert.match(note.what, /src\/web\/crash\.rs:\d+/);
  assert.deepEqual(await hand.axe(), []);
  // Whatever was on the screen is still to be read, but takes no more taps that would not be saved.
  const others = await hand.page.evaluate(() => Array.from(document.body.children, (part) => part.id === "crashed" || part.inert));
  assert.ok(others.every(Boolean));
  await hand.page.tap(".crashed-again");
  await hand.formIsUp();
}));
