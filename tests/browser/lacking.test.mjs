// What an old or lacking browser misses is told on the first screen, with what still works. Each browser is Chromium
// with parts taken away before any script of the page runs; which browsers lack what: MDN's browser-compat-data.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { Hand, entries, loadCard, saved, walk } from "./form.mjs";
import { VISIT } from "./outing.mjs";
import { ROOT, plainBrowser, site, withPhone } from "./phone.mjs";

const CARD = readFileSync(join(ROOT, "demo/card.txt"), "utf8");
const text = async (page) => (await page.evaluate(() => document.querySelector("main:not([hidden])").innerText)).replace(/\u00a0|\u202f/g, " ");

/** A phone whose browser lacks what `take` takes away. */
function lacking(take, act) {
  return withPhone({}, async (phone, place) => {
    await phone.context.addInitScript(take);
    await act(phone, place);
    assert.deepEqual(phone.violations, []);
  });
}

/** The first screen, once the journal is open. */
async function first(phone, place) {
  await phone.open(place.url);
  await phone.page.waitForSelector('[data-fact="storage"]');
}

/** A visit as far as its snow, to see that the rest still works. */
async function visit(phone) {
  const hand = new Hand(phone.page);
  await loadCard(hand, CARD);
  await phone.page.waitForSelector('main [data-tile="outing"]');
  await hand.tile("outing");
  await hand.tile("person-K7");
  await phone.page.waitForSelector("main [data-ask]");
  await walk(hand, VISIT, { until: ({ ask }) => ask === "snow_depth" });
  await saved(phone.page);
}

test("without position, wake lock, share, vibration, channel, promise of the storage: each told, the visit goes on", { timeout: 240_000 }, () => lacking(() => {
  for (const name of ["geolocation", "wakeLock", "share", "canShare", "vibrate", "storage", "clipboard", "mediaDevices", "permissions"]) delete Navigator.prototype[name];
  for (const name of ["BroadcastChannel", "BarcodeDetector", "createImageBitmap", "OffscreenCanvas", "showDirectoryPicker"]) delete window[name];
}, async (phone, place) => {
  await first(phone, place);
  await phone.offlineReady();
  await phone.page.waitForSelector('[data-fact="persisted"]');
  const said = await text(phone.page);
  assert.match(said, /gives no position\. Type it/);
  assert.match(said, /screen go dark.*No tick is lost/);
  assert.match(said, /shares no files.*save the file or copy the text/);
  assert.match(said, /may clear the records/, "nobody has promised to keep them");
  assert.match(said, /Each tick is kept even if the phone dies/);
  assert.match(said, /Ready without signal/);
  await visit(phone);
  assert.ok(await entries(phone.page) > 20);
  assert.deepEqual(phone.faults, []);
}));

test("what the browser has is not told as lacking", () => withPhone({}, async (phone, place) => {
  await phone.context.addInitScript(() => { Object.assign(Navigator.prototype, { share() {}, canShare: () => true }); });
  await first(phone, place);
  await phone.page.waitForSelector('[data-fact="storage"]');
  assert.equal(await phone.page.locator('[data-fact="lacks"]').count(), 0);
}));

test("without a record store: not safe, and said so; with it, but without the quick one, ticks are as safe", { timeout: 240_000 }, async () => {
  await lacking(() => { Object.defineProperty(window, "indexedDB", { value: undefined }); }, async (phone, place) => {
    await first(phone, place);
    const said = await text(phone.page);
    assert.match(said, /does not let the form keep its journal/);
    assert.match(said, /use paper or another phone/i);
    assert.match(said, /Only half safe/);
    assert.deepEqual(phone.faults, []);
  });
  await lacking(() => {
    Object.defineProperty(window, "indexedDB", { value: undefined });
    Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
  }, async (phone, place) => {
    await first(phone, place);
    assert.match(await text(phone.page), /NOT SAFE: this browser keeps nothing/);
    assert.deepEqual(phone.faults, []);
  });
  await lacking(() => { Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } }); }, async (phone, place) => {
    await first(phone, place);
    const said = await text(phone.page);
    assert.match(said, /quick store is closed/);
    assert.match(said, /Each tick is kept even if the phone dies/);
    await visit(phone);
    assert.ok(await entries(phone.page) > 20);
    assert.deepEqual(phone.faults, []);
  });
});

test("without a service worker: no use without signal, and said so; the visit goes on", { timeout: 240_000 }, () => lacking(() => {
  delete Navigator.prototype.serviceWorker;
}, async (phone, place) => {
  await first(phone, place);
  await phone.page.waitForFunction(() => /cannot keep the form without signal/.test(document.body.innerText));
  assert.match(await text(phone.page), /Each tick is kept even if the phone dies/);
  await visit(phone);
  assert.deepEqual(phone.faults, []);
}));

test("without locks or random bytes it only shows, says why, and sends to paper or a newer browser", async () => {
  await lacking(() => { delete Navigator.prototype.locks; }, async (phone, place) => {
    await first(phone, place);
    const said = await text(phone.page);
    assert.match(said, /Only for reading here/);
    assert.match(said, /https and an up-to-date browser; until then use paper/);
    assert.doesNotMatch(said, /load this one again/, "no other page is open");
    assert.match(said, /NOT SAFE/);
    assert.deepEqual(phone.faults, []);
  });
  await lacking(() => { Crypto.prototype.getRandomValues = undefined; }, async (phone, place) => {
    await first(phone, place);
    const said = await text(phone.page);
    assert.match(said, /Only for reading here/);
    assert.match(said, /no random bytes/);
    assert.match(said, /NOT SAFE/);
  });
});

for (const [name, take] of [
  ["without WebAssembly", () => { delete window.WebAssembly; }],
  ["with a WebAssembly that is too old", () => { WebAssembly.validate = () => false; }],
  ["without modules", () => { delete HTMLScriptElement.prototype.noModule; }],
]) {
  test(`${name}: too old, in the browser's own language, and what was ticked can be saved`, () => lacking(take, async (phone, place) => {
    await phone.page.goto(place.url);
    await phone.page.waitForSelector("#crashed", { state: "visible" });
    const said = await text(phone.page);
    assert.match(said, /too old for the form/);
    assert.match(said, /Update the browser, take another phone, or go out with the sheets of paper/);
    assert.doesNotMatch(said, /has stopped|Start the form again/);
    assert.match(await phone.page.evaluate(() => document.activeElement.innerText), /too old/);
    await phone.page.waitForTimeout(500);
    assert.equal(await phone.page.locator(".page").count(), 0, "nothing of the form appears beside it");
    assert.deepEqual(await phone.axe({ strict: true }), []);
    await phone.picture(`too-old-${name.replaceAll(" ", "-")}`);
    await phone.page.tap(".crashed-save");
    await phone.page.waitForURL("**/rescue.html");
  }));
}

test("a French phone that is too old is told so in French", () => withPhone({ locale: "fr-CA" }, async (phone, place) => {
  await phone.context.addInitScript(() => { delete window.WebAssembly; });
  await phone.page.goto(place.url);
  await phone.page.waitForSelector("#crashed", { state: "visible" });
  assert.match(await text(phone.page), /trop vieux pour le formulaire/);
}));

test("the module by which a browser is judged uses each part that the form's compiler does (binaryen's validator)", () => {
  const script = readFileSync(join(ROOT, "public/crash.js"), "utf8");
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-needed-"));
  try {
    const [needed, out] = [join(folder, "needed.wasm"), join(folder, "out.wasm")];
    writeFileSync(needed, new Uint8Array(JSON.parse(/NEEDED = (\[[^\]]*\])/.exec(script)[1])));
    const npm = process.env.MARROWBOOK_NPM ?? join(process.env.HOME, ".cache/marrowbook/npm");
    const parts = ["bulk-memory", "nontrapping-float-to-int", "sign-ext", "reference-types", "multivalue"];
    const valid = (allowed) => spawnSync(join(npm, "node_modules/.bin/wasm-opt"), ["--mvp-features", ...allowed.map((part) => `--enable-${part}`), needed, "-o", out]).status === 0;
    assert.ok(valid(parts), "with all of them it is a module");
    for (const part of parts) assert.ok(!valid(parts.filter((one) => one !== part)), `without ${part} it would pass`);
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("a script of 2009 tells of a browser that is too old: nothing newer stands in it", () => {
  // The engine itself cannot be asked to be older; these are the newer forms that such scripts slip into.
  const script = readFileSync(join(ROOT, "public/crash.js"), "utf8").replace(/\/\/.*$|"[^"\n]*"/gm, "");
  for (const newer of [/=>/, /\b(let|const|class|async|await)\b/, /`/, /\?\?|\?\./, /\.\.\./, /\bof\b/, /catch\s*\{/]) assert.doesNotMatch(script, newer);
  execFileSync(process.execPath, ["--check", join(ROOT, "public/crash.js")]);
});

test("in a private window it works and says that the records may go", async () => {
  const place = await site();
  const browser = await plainBrowser();
  try {
    const page = await browser.newPage();
    await page.goto(place.url);
    await page.waitForFunction(() => document.documentElement.dataset.offline === "ready");
    await page.waitForSelector('[data-fact="persisted"]');
    assert.match(await page.innerText('[data-fact="persisted"]'), /window is a private one/);
  } finally { await browser.close(); await place.stop(); }
});
