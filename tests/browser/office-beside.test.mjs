// Season and export beside the page: taps are answered meanwhile; a browser that cannot do so gives the same; a thread
// that ends is told. And what becomes of a keyring that was picked by itself. No check value: the figures are held
// against the command line's in tests/office_season.rs and tests/office_export.rs.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { ROOT, withPhone } from "./phone.mjs";
import { handedIn, season } from "./season.mjs";

const PASSPHRASE = "quillback ridge is invented";
const WIDE = { viewport: { width: 1280, height: 900 }, screen: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1 };

const says = (page, selector, words) => page.waitForFunction(([at, wanted]) => new RegExp(wanted).test(document.querySelector(at)?.innerText ?? ""), [selector, words.source], { timeout: 120_000 });

const worked = (page) => page.waitForFunction(() => document.querySelector("[data-working]").dataset.working === "no" && document.querySelector("[data-carcasses]"), null, { timeout: 240_000 });

const counted = (page) => page.evaluate(() => Number(document.querySelector("[data-carcasses]")?.dataset.carcasses ?? 0));

async function demo(phone, place) {
  handedIn();
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  // Everything that is said in passing.
  await page.addInitScript(() => {
    globalThis.heard = [];
    addEventListener("DOMContentLoaded", () => new MutationObserver(() => {
      for (const one of document.querySelectorAll("[role=status]")) if (one.innerText && !globalThis.heard.includes(one.innerText)) globalThis.heard.push(one.innerText);
    }).observe(document.body, { subtree: true, childList: true, characterData: true }));
  });
  await page.goto(`${place.url}office/#demo`);
  await phone.formIsUp();
  await page.click("[data-demo]");
  await worked(page);
  return page;
}

/** Works both out; the digest of what is saved of each, and what was said. */
async function both(page) {
  const digest = async (act) => {
    const [file] = await Promise.all([page.waitForEvent("download", { timeout: 240_000 }), page.click(`[data-act="${act}"]`)]);
    return createHash("sha256").update(readFileSync(await file.path())).digest("hex");
  };
  await page.click('[data-nav="season"]');
  await page.click('[data-act="work-season"]');
  await page.waitForSelector('[data-act="work-season"]:not([disabled])', { timeout: 240_000 });
  await page.waitForSelector("[data-season]");
  const found = { counted: await page.getAttribute("[data-season]", "data-season"), season: await digest("save-season") };
  await page.click('[data-nav="exports"]');
  found.exported = await digest("export");
  await page.waitForSelector("[data-export=true]");
  return { found, heard: (await page.evaluate(() => globalThis.heard)).join("\n") };
}

let beside;

test("a season and an export are made beside the page, which goes on", { timeout: 600_000 }, () => withPhone({ ...WIDE, also: { demo: join(ROOT, "demo") } }, async (phone, place) => {
  const threads = [];
  let ended = 0;
  phone.page.on("worker", (worker) => {
    threads.push(worker.url());
    worker.on("close", () => { ended += 1; });
  });
  const page = await demo(phone, place);
  // Held back, so that it is still at work whatever the machine.
  let release;
  const held = new Promise((done) => { release = done; });
  await page.route("**/aside.js", async (route) => { await held; await route.continue(); });
  await page.click('[data-nav="season"]');
  await page.click('[data-act="work-season"]');
  // Meanwhile another part is looked at; what was begun is there on coming back.
  await page.click('[data-nav="carcasses"]');
  await page.locator('[data-act="open-carcass"]').first().click();
  await page.waitForSelector(".paper h1");
  assert.equal(await page.locator("[data-season]").count(), 0, "still at work");
  release();
  await page.waitForSelector("[data-season]", { timeout: 240_000, state: "attached" });
  const { found, heard } = await both(page);
  assert.match(heard, /Working the season out/);
  assert.doesNotMatch(heard, /no tap is answered/);
  assert.equal(threads.length, 3, "one thread each");
  assert.ok(threads.every((url) => url === `${place.url}office/aside.js`), threads.join(" "));
  // Each ends with its work; the browser may tell so a little later.
  for (let n = 0; n < 300 && ended < 3; n += 1) await page.waitForTimeout(100);
  assert.equal(ended, 3, "and none that stays");
  assert.ok(Number(found.counted) > 20);
  beside = found;
  assert.deepEqual([phone.faults, phone.violations], [[], []]);
}));

for (const [name, how] of [
  ["a browser that has no second thread", (page) => page.addInitScript(() => { delete globalThis.Worker; })],
  ["a thread whose script cannot be had", (page) => page.route("**/aside.js", (route) => route.abort())],
]) {
  test(`${name}: the page does it itself, says so, and gives the same`, { timeout: 600_000 }, () => withPhone({ ...WIDE, also: { demo: join(ROOT, "demo") } }, async (phone, place) => {
    assert.ok(beside, "the test before gave what this is held against");
    await how(phone.page);
    const page = await demo(phone, place);
    const { found, heard } = await both(page);
    assert.match(heard, /no tap is answered until it is done/);
    assert.deepEqual(found, beside);
  }));
}

test("a thread that ends on the way is told, and the next one works", { timeout: 600_000 }, () => withPhone({ ...WIDE, also: { demo: join(ROOT, "demo") } }, async (phone, place) => {
  const page = await demo(phone, place);
  // Stands ready, and ends once it was handed the archive.
  const body = 'self.onmessage = () => { self.onmessage = () => { throw new Error("out of memory"); }; self.postMessage(true); };';
  await page.route("**/aside.js", (route) => route.fulfill({ contentType: "text/javascript", body }));
  await page.click('[data-nav="season"]');
  await page.click('[data-act="work-season"]');
  await says(page, '[data-part="season"] [role="alert"]', /out of memory/);
  await page.click('[data-nav="exports"]');
  await page.click('[data-act="export"]');
  await says(page, "[data-export=false]", /out of memory/);
  await page.unroute("**/aside.js");
  const { found } = await both(page);
  assert.deepEqual(found, beside);
}));

test("a picked keyring's phones go onto the archive's own, or it begins empty: chosen before the key is made", { timeout: 600_000 }, () => withPhone(WIDE, async (phone, place) => {
  const { page } = phone;
  const files = handedIn().slice(0, 6);
  page.on("dialog", (dialog) => dialog.accept());
  for (const take of [false, true]) {
    await page.goto("about:blank");
    await page.goto(`${place.url}office/`);
    await phone.formIsUp();
    await page.setInputFiles('[data-pick="keyring"] input', join(season(), "archive/keyring.txt"));
    await page.setInputFiles('[data-pick="bundles"] input', files);
    await worked(page);
    const before = await counted(page);
    assert.ok(before > 0);
    await page.click('[data-nav="archive"]');
    const phones = Number(await page.getAttribute("[data-of-picked]", "data-of-picked"));
    assert.ok(phones > 3, `${phones}`);
    await page.fill('[data-field="key.page.passphrase_new"]', PASSPHRASE);
    await page.fill('[data-field="key.page.again"]', PASSPHRASE);
    await page.click('[data-act="make-key"]');
    await says(page, "[data-key-said]", /Choose first what becomes of the phones/);
    await phone.picture("office-picked-ring");
    await page.check(`[data-field="ring-${take ? "take" : "leave"}"]`);
    await page.click('[data-act="make-key"]');
    await page.waitForSelector('[data-key="open"]', { timeout: 60_000 });
    assert.equal(await page.locator("[data-of-picked]").count(), 0);
    await page.waitForFunction((n) => Number(document.querySelector("[data-carcasses]")?.dataset.carcasses ?? 0) === n && document.querySelector("[data-working]").dataset.working === "no", take ? before : 0, { timeout: 120_000 });
    await page.click('[data-nav="phones"]');
    const enrolled = await page.locator("[data-enrolled]").count();
    // And the office's own key, from the moment it is made.
    assert.equal(enrolled, take ? phones + 1 : 1);
    assert.equal(await page.locator('[data-enrolled="the office"]').count(), 1);
  }
  assert.deepEqual([phone.faults, phone.violations], [[], []]);
}));
