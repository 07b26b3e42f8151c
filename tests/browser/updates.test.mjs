// A newer form that is published while a visit is under way: nothing changes until it is asked for, all data is read,
// a half-fetched one leaves the old one working; the form taken off phones leaves the records; and journals of earlier
// forms, as those wrote them, go on in the form of today.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { Hand, answerOne, bodies, saved, standing, walk } from "./form.mjs";
import { OPEN_VISIT } from "./kill-at-every-step.mjs";
import { ROOT, phone, withPhone, programCaches } from "./phone.mjs";
import { copyOfSite, publishChange } from "./publish.mjs";
import { putIn, released } from "./released.mjs";
import { serve } from "../tools/serve.mjs";
import { carryOn, gone, intoAVisit, newerWaits, stand, takeUpdate } from "./updates.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");
const TITLE = ["<title>Marrowbook</title>", "<title>Marrowbook, newer</title>"];
const update = (page) => page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration()).update(); });

test("in the middle of a visit a newer version changes nothing until its button is tapped; then every answer is read", { timeout: 300_000 }, async () => {
  const folder = copyOfSite();
  try {
    await withPhone({ root: folder }, async (deer, place) => {
      const { page } = deer;
      const hand = new Hand(page);
      await deer.open(place.url);
      await deer.offlineReady();
      await intoAVisit(hand);
      publishChange(folder, "index.html", ...TITLE);
      await update(page);
      await newerWaits(page);
      const before = await stand(page);
      await page.waitForTimeout(500);
      assert.deepEqual(await stand(page), before, "the screen stands as it stood");
      await answerOne(hand, OPEN_VISIT);
      await saved(page);
      const answered = await stand(page);
      await page.reload();
      await deer.formIsUp();
      assert.equal(await page.title(), "Marrowbook", "the form that was opened goes on");
      assert.deepEqual(await carryOn(hand), answered);
      // The battery goes while the newer one waits: still the one that the visit began with.
      await deer.dieAndStartAgain();
      await deer.open(place.url);
      const again = new Hand(deer.page);
      assert.equal(await deer.page.title(), "Marrowbook");
      assert.deepEqual(await carryOn(again), answered);
      await takeUpdate(again, place.url);
      await deer.formIsUp();
      assert.equal(await deer.page.title(), "Marrowbook, newer");
      assert.deepEqual(await carryOn(again), answered, "the same carcass, the same entries, the same question");
      assert.deepEqual(deer.faults, []);
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

test("a newer version of which half arrived leaves the old one working, and is fetched whole later", { timeout: 300_000 }, async () => {
  const folder = copyOfSite();
  let [cut, served] = [false, 0];
  let server;
  const seen = (_, path) => {
    served += 1;
    // Signal is lost with the largest file on its way.
    if (cut && path.endsWith("_bg.wasm")) { cut = false; void server.stop(); }
  };
  server = await serve({ root: folder, seen });
  const deer = await phone();
  try {
    const { page } = deer;
    const hand = new Hand(page);
    await deer.open(server.url);
    await deer.offlineReady();
    await intoAVisit(hand);
    const before = await stand(page);
    publishChange(folder, "index.html", ...TITLE);
    [cut, served] = [true, 0];
    const outcome = await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      const found = new Promise((done) => registration.addEventListener("updatefound", () => {
        const worker = registration.installing;
        worker.addEventListener("statechange", () => { if (worker.state !== "installing") done(worker.state); });
      }));
      await registration.update().catch(() => {});
      return found;
    });
    assert.equal(outcome, "redundant");
    assert.ok(served > 3 && !cut, `part of it had arrived: ${served} files were asked for`);
    assert.equal((await programCaches(page)).length, 1, "nothing of the half lies about");
    assert.equal(await page.evaluate(() => document.documentElement.dataset.update), "none");
    await page.reload();
    await deer.formIsUp();
    assert.equal(await page.title(), "Marrowbook");
    assert.deepEqual(await carryOn(hand), before);
    await answerOne(hand, OPEN_VISIT);
    await saved(page);
    const answered = await stand(page);
    const back = await serve({ root: folder, port: server.port });
    try {
      await update(page);
      await newerWaits(page);
      await takeUpdate(hand, back.url);
      await deer.formIsUp();
      assert.equal(await page.title(), "Marrowbook, newer");
      assert.deepEqual(await carryOn(hand), answered);
    } finally { await back.stop(); }
    assert.deepEqual(deer.faults, []);
  } finally {
    await deer.end();
    await server.stop().catch(() => {});
    rmSync(folder, { recursive: true, force: true });
  }
});

test("taken off phones in the middle of a visit: the open page still saves, nothing promises signal-free use, the records stay", { timeout: 300_000 }, async () => {
  const folder = copyOfSite();
  try {
    await withPhone({ root: folder }, async (deer, place) => {
      const { page } = deer;
      const hand = new Hand(page);
      await deer.open(place.url);
      await deer.offlineReady();
      await intoAVisit(hand);
      const worker = readFileSync(join(folder, "sw.js"));
      cpSync(join(ROOT, "public/sw.kill.js"), join(folder, "sw.js"));
      await update(page);
      await page.waitForFunction(async () => (await caches.keys()).every((name) => !name.startsWith("marrowbook ")) && !(await navigator.serviceWorker.getRegistration()));
      await answerOne(hand, OPEN_VISIT);
      await saved(page);
      const answered = await stand(page);
      await page.reload();
      await deer.formIsUp();
      assert.deepEqual(await carryOn(hand), answered);
      await page.goto(`${place.url}#start`);
      await page.waitForFunction(() => ["unsupported", "failed"].includes(document.documentElement.dataset.offline));
      assert.doesNotMatch(await page.evaluate(() => document.body.innerText), /Ready without signal/);
      assert.deepEqual(await programCaches(page), [], "nothing is kept again");
      await page.goto(`${place.url}rescue.html`);
      await page.waitForFunction((n) => document.getElementById("stores").innerText.includes(`Answers and notes: ${n}`), answered.kept.length);
      // A mended form, published later under the same address.
      writeFileSync(join(folder, "sw.js"), worker);
      // The worker that took the form off may still answer at first; the mended one takes over by itself.
      await deer.open(place.url);
      await page.waitForFunction(() => document.documentElement.dataset.offline === "ready");
      assert.equal(await page.evaluate(() => document.documentElement.dataset.update), "none");
      assert.deepEqual(await carryOn(hand), answered);
      assert.deepEqual(deer.faults, []);
    });
  } finally { rmSync(folder, { recursive: true, force: true }); }
});

const earlier = released();

test("there are journals of earlier forms to try", () => { assert.ok(earlier.length >= 1); });

for (const made of earlier) {
  test(`the journal that an earlier form wrote (${made.name}) is read whole, goes on, and reaches the office intact`, { timeout: 300_000 }, () => withPhone({}, async (deer, place) => {
    const { page } = deer;
    const hand = new Hand(page);
    await page.goto(`${place.url}rescue.html`);
    await page.waitForFunction(() => document.querySelectorAll("#facts li").length >= 2);
    await putIn(page, made);
    await deer.open(place.url);
    await page.waitForSelector('main [data-tile="carry-on"]');
    const shown = await page.evaluate(() => document.body.innerText);
    assert.doesNotMatch(shown, /set aside|new chain|used twice|could not be read|refused/i);
    assert.match(shown, /64|25/, "the last answer, snow 64 cm deep, stands on the resume card");
    const kept = made.stores.entries.map(([, entry]) => JSON.stringify(entry));
    const at = await carryOn(hand);
    assert.deepEqual(gone({ kept }, at), [], "every entry lies there as it was written");
    assert.ok(kept.length > 20 && at.ask !== "", JSON.stringify(at.ask));
    await walk(hand, OPEN_VISIT);
    await hand.tile("close");
    await page.waitForSelector("[data-card]");
    await page.goto(`${place.url}#hand-over`);
    await page.waitForSelector('[data-field="bundle"]');
    const folder = mkdtempSync(join(tmpdir(), "marrowbook-earlier-"));
    try {
      const file = join(folder, "bundle.txt");
      writeFileSync(file, `${await page.inputValue('[data-field="bundle"]')}\n`);
      const words = (await page.evaluate(() => document.querySelector("[data-fingerprint]").textContent)).trim().split("\n")[0];
      const office = (...args) => spawnSync(OFFICE, ["--archive", join(folder, "archive"), ...args], { encoding: "utf8" });
      assert.equal(office("enrol", file, "--name", "earlier", "--words", words).status, 0);
      const opened = office("open", file);
      assert.equal(opened.status, 0, opened.stdout + opened.stderr);
      const read = office("read", "--card", join(ROOT, "demo/card.txt"), file);
      assert.equal(read.status, 0, read.stderr);
      assert.equal(read.stdout.trim().split("\n").length, 1, "one carcass");
    } finally { rmSync(folder, { recursive: true, force: true }); }
    assert.deepEqual(deer.faults, []);
  }));
}
