// How the office's page answers taps with many carcasses open; prints figures and asserts none of them.
//   cargo run --release --features cli --example many-carcasses -- FOLDER [COUNT]
//   node tests/browser/office-many.mjs FOLDER
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { withPhone } from "./phone.mjs";

const FOLDER = process.argv[2];
const WIDE = { viewport: { width: 1280, height: 900 }, screen: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1 };
const PASSPHRASE = "quillback ridge is invented";
const rows = [];

function told(name, times) {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)].toFixed(0);
  rows.push(`${name.padEnd(46)} median ${at(0.5).padStart(5)} ms   p95 ${at(0.95).padStart(5)} ms   worst ${at(1).padStart(5)} ms   (${times.length})`);
}

/** From a click to the frame after it. */
const tap = (page, selector) => page.evaluate(async (at) => {
  const button = document.querySelector(at);
  const begun = performance.now();
  button.click();
  await new Promise((done) => requestAnimationFrame(() => { const after = new MessageChannel(); after.port1.onmessage = done; after.port2.postMessage(0); }));
  return performance.now() - begun;
}, selector);

/** What held the page for 50 ms and more since the last call, ms each. */
const long = (page) => page.evaluate(() => globalThis.longTasks.splice(0));

async function figures(page) {
  await page.waitForFunction(() => document.querySelector("[data-working]").dataset.working === "no" && document.querySelector("[data-carcasses]"), null, { timeout: 1_200_000, polling: 200 });
}

await withPhone(WIDE, async (phone, place) => {
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  await page.addInitScript(() => {
    globalThis.longTasks = [];
    new PerformanceObserver((list) => globalThis.longTasks.push(...list.getEntries().map((one) => Math.round(one.duration)))).observe({ type: "longtask" });
  });
  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  await page.setInputFiles('[data-pick="keyring"] input', join(FOLDER, "keyring.json"));
  const files = readdirSync(FOLDER).filter((name) => name.startsWith("bundle-")).map((name) => join(FOLDER, name));
  await long(page);
  let begun = Date.now();
  await page.setInputFiles('[data-pick="bundles"] input', files);
  await page.waitForFunction(() => document.querySelector("[data-working]").dataset.working === "yes", null, { timeout: 600_000, polling: 100 });
  rows.push(`files read, opened and checked                 ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
  begun = Date.now();
  // Taps while figures are worked out.
  const during = [];
  for (const name of ["carcasses", "files", "phones", "archive", "card", "files"]) {
    during.push(await tap(page, `[data-nav="${name}"]`));
    await page.waitForTimeout(300);
  }
  await figures(page);
  rows.push(`figures of all carcasses                       ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
  told("a tap on a part while they are worked out", during);
  const n = await page.evaluate(() => document.querySelector("[data-carcasses]").dataset.carcasses);
  rows.push(`carcasses                                      ${n}`);
  const parts = [];
  for (let run = 0; run < 5; run += 1) for (const name of ["carcasses", "season", "archive", "phones", "card", "files"]) parts.push(await tap(page, `[data-nav="${name}"]`));
  told("a tap on a part", parts);
  await page.click('[data-nav="carcasses"]');
  const on = [];
  for (let run = 0; run < 20; run += 1) on.push(await tap(page, '[data-act="page-on"]'));
  for (let run = 0; run < 20; run += 1) on.push(await tap(page, '[data-act="page-back"]'));
  told("a page of the list on or back", on);
  const [open, back] = [[], []];
  for (let run = 1; run <= 20; run += 1) {
    open.push(await tap(page, `[data-carcasses] [data-carcass]:nth-of-type(${run}) [data-act="open-carcass"]`));
    back.push(await tap(page, '[data-act="back-to-list"]'));
  }
  told("a carcass opened", open);
  told("back to the list", back);
  rows.push(`of which held the page for 50 ms and more: ${await long(page)} ms`);
  // All that can be tapped on one carcass.
  for (const [name, at] of [["all readings drawn", "[data-all-readings] summary"], ["the report saved", '[data-act="report"]']]) {
    const taps = [];
    for (let run = 1; run <= 5; run += 1) {
      await tap(page, `[data-carcasses] [data-carcass]:nth-of-type(${run}) [data-act="open-carcass"]`);
      // What opening draws afterwards is no part of the next tap.
      await page.waitForSelector("article.paper");
      taps.push(await tap(page, at));
      await tap(page, '[data-act="back-to-list"]');
    }
    told(name, taps);
  }
  const typed = [];
  for (const text of ["A", "AB", "ABC", "AB", "A", ""]) {
    typed.push(await page.evaluate(async (value) => {
      const field = document.querySelector('[data-field="find"]');
      const start = performance.now();
      field.value = value;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      return performance.now() - start;
    }, text));
  }
  told("a letter typed into the search", typed);
  await long(page);
  begun = Date.now();
  const decide = [await tap(page, '[data-nav="decide"]')];
  told("the tap on To decide", decide);
  await page.waitForFunction(() => document.querySelector("[data-waiting=doubles], [data-decide=none]") || !/Comparing/.test(document.querySelector('[data-part="decide"]').innerText), null, { timeout: 600_000, polling: 200 });
  rows.push(`carcasses compared with each other             ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
  begun = Date.now();
  told("the tap on Laboratory and calls", [await tap(page, '[data-nav="laboratory"]')]);
  await page.waitForSelector("[data-calls]", { state: "attached", timeout: 600_000 });
  const listed = await page.evaluate(() => [document.querySelector("[data-samples]")?.dataset.samples ?? 0, document.querySelector("[data-calls]").dataset.calls]);
  rows.push(`${listed[0]} lines of samples, ${listed[1]} calls listed in ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
  // Both beside the page: taps meanwhile, and what held it.
  for (const [part, act, done] of [["season", "work-season", "[data-season]"], ["exports", "export", "[data-export=true]"]]) {
    await page.click(`[data-nav="${part}"]`);
    await long(page);
    begun = Date.now();
    await tap(page, `[data-act="${act}"]`);
    const taps = [];
    for (const other of ["carcasses", "files", part]) taps.push(await tap(page, `[data-nav="${other}"]`));
    await page.waitForSelector(done, { timeout: 1_200_000 });
    rows.push(`${act.padEnd(46)} ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
    told("a tap on a part meanwhile", taps);
  }
  await long(page);
  told("the season saved as a zip", [await tap(page, '[data-act="save-season"]')]);
  // A key, and a decision signed with it.
  await page.click('[data-nav="archive"]');
  await page.fill('[data-field="key.page.passphrase_new"]', PASSPHRASE);
  await page.fill('[data-field="key.page.again"]', PASSPHRASE);
  // The phones of the picked ring go along, or nothing counts any more.
  await page.check('[data-field="ring-take"]');
  await page.click('[data-act="make-key"]');
  await page.waitForSelector('[data-key="open"]', { timeout: 120_000 });
  await figures(page);
  await page.click('[data-nav="decide"]');
  await page.waitForTimeout(500);
  await page.fill('[data-field="decide-by"]', "K7");
  await long(page);
  const same = await page.locator('[data-act="same"]').count();
  if (same > 0) {
    begun = Date.now();
    told("the tap on One animal", [await tap(page, '[data-act="same"]')]);
    await figures(page);
    rows.push(`figures after the decision                     ${Date.now() - begun} ms; held the page: ${await long(page)} ms`);
  }
  // The office's own entries about samples, signed by a tap.
  await page.click('[data-nav="laboratory"]');
  await page.waitForSelector('[data-unreceived]', { state: "attached", timeout: 600_000 });
  const counts = await page.evaluate(() => [document.querySelector("[data-carcasses]")?.dataset.carcasses, document.querySelector("[data-unreceived]").dataset.unreceived]);
  rows.push(`carcasses that count with the key, samples that wait  ${counts}`);
  if (Number(counts[1]) > 0) {
    await page.fill('[data-field="bench-by"]', "K7");
    const signed = [];
    for (let run = 0; run < 5; run += 1) {
      const before = Number(await page.getAttribute("[data-unreceived]", "data-unreceived"));
      await page.locator("[data-received]").first().check();
      await long(page);
      signed.push(await tap(page, '[data-act="receive"]'));
      await page.waitForFunction((n) => Number(document.querySelector("[data-unreceived]")?.dataset.unreceived) === n, before - 1, { timeout: 600_000, polling: 200 });
      await figures(page);
    }
    told("a sample noted as received, signed", signed);
    rows.push(`lists and figures after the last of these held the page: ${await long(page)} ms`);
  }
  for (const row of rows) console.log(row);
  if (phone.faults.length) console.log(`faults: ${phone.faults}`);
});
