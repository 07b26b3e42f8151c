// The readings as a crew meets them on a small phone: five invented deer (five-deer.mjs), and practice at home.
// Bounds and laws are this project's own: 360 x 740 holds the three that matter, no screen trips the page checker.
import assert from "node:assert/strict";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { inflateRawSync } from "node:zlib";
import { DEER, outing } from "./five-deer.mjs";
import { Hand, saved } from "./form.mjs";
import { ROOT, withPhone } from "./phone.mjs";

const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
const text = (page) => page.evaluate(() => document.querySelector("main:not([hidden])")?.innerText ?? "");
const stored = (page, store, name) => page.evaluate(([store, name]) => new Promise((done, failed) => {
  const ask = indexedDB.open("marrowbook");
  ask.onerror = () => failed(ask.error);
  ask.onsuccess = () => {
    const all = ask.result.transaction(store).objectStore(store);
    const read = name === undefined ? all.count() : all.getAll();
    read.onsuccess = () => { ask.result.close(); done(read.result); };
    read.onerror = () => failed(read.error);
  };
}), [store, name]);

/** A place that serves the form with five deer under `demo/`. */
async function withFive(act) {
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-five-"));
  try {
    writeFileSync(join(folder, "outing.json"), outing());
    writeFileSync(join(folder, "card.txt"), readFileSync(join(ROOT, "demo/card.txt"), "utf8"));
    await withPhone({ ...SMALL, also: { demo: folder } }, act);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

test("five deer: three cards on one screen, each opens its whole reading, in daylight and dusk", { timeout: 600_000 }, () =>
  withFive(async (phone, place) => {
    const { page } = phone;
    const hand = new Hand(page);
    await phone.open(`${place.url}#demo`);
    const names = Object.keys(DEER);
    await page.waitForFunction((n) => document.querySelectorAll('[data-act^="readings-"]').length === n, names.length);
    await saved(page);
    const codes = await page.evaluate(() => [...document.querySelectorAll('[data-act^="readings-"]')].map((b) => b.dataset.act));
    // Which is which: every one has its own sign of sex.
    const SIGN = {
      fawn: /knobs of a buck fawn/, yearling: /antlers \(a few/, prime: /udder or vulva, a certain sign/, old: /smooth brow/, bones: /underside of the pelvis/,
    };
    const acts = {};
    for (const code of codes) {
      await page.goto(`${place.url}#start`);
      await hand.act(code);
      await page.waitForSelector("[data-card]");
      const found = await text(page);
      acts[names.find((name) => SIGN[name].test(found))] = code;
    }
    assert.deepEqual(Object.keys(acts).sort(), [...names].sort());
    const faults = [];
    const axe = async (name) => faults.push(...(await phone.axe()).map((fault) => `${name}: ${fault}`));
    const said = {};
    for (const name of names) {
      await page.goto(`${place.url}#start`);
      await hand.act(acts[name]);
      await page.waitForSelector("[data-card]");
      await page.evaluate(() => scrollTo(0, 0));
      const cards = await page.evaluate(() => [...document.querySelectorAll("[data-card]")].slice(0, 3)
        .map((card) => [card.dataset.card, card.getBoundingClientRect().bottom]));
      assert.deepEqual(cards.map(([method]) => method), ["age.lower_jaw", "sex.ladder", "size.weight"]);
      assert.ok(cards[2][1] <= 740, `${name}: the third card ends at ${cards[2][1]} of 740`);
      said[name] = await text(page);
      await phone.picture(`readings-${name}-day`);
      await axe(name);
      const methods = await page.evaluate(() => [...document.querySelectorAll("[data-card]")].map((c) => c.dataset.card));
      for (const method of methods) {
        await hand.press(`[data-card="${method}"] button`);
        await page.waitForSelector(`[data-reading="${method}"]`);
        const heads = await page.evaluate(() => [...document.querySelectorAll("main:not([hidden]) :is(h1, h2, h3)")].map((h) => Number(h.tagName[1])));
        assert.equal(heads.filter((h) => h === 1).length, 1, `${name} ${method}: one main heading`);
        assert.ok(heads.every((h, i) => i === 0 || h <= heads[i - 1] + 1), `${name} ${method}: headings go down one at a time: ${heads}`);
        if (methods.indexOf(method) < 3) { await phone.picture(`reading-${name}-${method.split(".")[0]}-day`); await axe(`${name} ${method}`); }
        await hand.act("back");
        await page.waitForSelector("[data-card]");
      }
    }
    assert.match(said.fawn, /^fawn$/im);
    assert.match(said.prime, /Left: .+\. Right: .+\./, "sides a class apart are named");
    assert.match(said.prime, /\d+ of \d+ sources unconfirmed/);
    assert.match(said.old, /was it 34 inches/i, "a girth in the wrong unit is said, not read");
    assert.match(said.bones, /afar|Not read|Nothing/i);

    // A closed record offers no look any more.
    await page.goto(`${place.url}#start`);
    await hand.act(acts.fawn);
    assert.equal(await page.locator('[data-tile="sharpen"]').count(), 0);
    assert.doesNotMatch(await text(page), /Most worth the time/);

    // Pounds and inches by the setting, and back.
    await page.goto(`${place.url}#settings`);
    await hand.act("us_units");
    await page.goto(`${place.url}#start`);
    await hand.act(acts.yearling);
    await page.waitForSelector("[data-card]");
    // 48.2 kg is 106.3 lb (0.45359237 kg to the pound).
    assert.match(await text(page), /106\.3\s*lb/);
    assert.doesNotMatch(await text(page), /\d\s*kg/);

    // Dusk, one of each.
    await page.goto(`${place.url}#settings`);
    await hand.act("dusk");
    for (const name of names) {
      await page.goto(`${place.url}#start`);
      await hand.act(acts[name]);
      await page.waitForSelector("[data-card]");
      await phone.picture(`readings-${name}-dusk`);
      await axe(`${name} at dusk`);
    }
    await hand.press('[data-card="age.lower_jaw"] button');
    await page.waitForSelector('[data-reading="age.lower_jaw"]');
    await phone.picture("reading-age-dusk");
    assert.deepEqual(faults, []);
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));

test("practice: a drawn jaw is aged, told, counted, and kept apart from every record", { timeout: 300_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    const { page } = phone;
    const hand = new Hand(page);
    await phone.open(place.url);
    await phone.offlineReady();
    await place.stop();
    await page.reload();
    await phone.formIsUp();
    await hand.act("practice");
    await page.waitForSelector("[data-practice]");
    const entries = await stored(page, "entries");
    assert.deepEqual(await phone.axe(), []);
    await phone.picture("practice-day");
    const jaw = () => page.evaluate(() => document.querySelector("[data-practice]").dataset.practice);
    const first = await jaw();
    const looks = await page.evaluate(() => [...document.querySelectorAll(".looks [role=img]")].map((i) => i.getAttribute("aria-label")));
    assert.ok(looks.length >= 2 && looks.every(Boolean), `every picture is said in words: ${looks}`);
    await hand.press('[data-call="3"]');
    await page.waitForSelector("[data-verdict]");
    assert.match(await text(page), /made as/);
    assert.match(await text(page), /This program would read/);
    assert.deepEqual(await phone.axe(), []);
    await phone.picture("practice-told");
    await page.waitForTimeout(300);
    await page.reload();
    await phone.formIsUp();
    await page.waitForSelector("[data-verdict]");
    assert.equal(await jaw(), first, "the same jaw after the page was loaded again, without signal");
    const count = () => page.evaluate(() => [...document.querySelectorAll("[data-score] tbody tr")].at(-1)?.innerText ?? "");
    assert.match(await count(), /\t1\t/);
    await hand.tile("next-jaw");
    await page.waitForFunction((before) => document.querySelector("[data-practice]")?.dataset.practice !== before, first);
    await hand.press('[data-call="0"]');
    await page.waitForSelector("[data-verdict]");
    assert.match(await count(), /\t2\t\d+ \(\d+ to \d+\)/, "a share with its interval");
    await hand.act("clear-practice");
    assert.match(await text(page), /No jaw read yet/);

    // Nonsense where the practice was kept: set aside, said, and on with a new jaw.
    await page.waitForTimeout(300);
    await page.evaluate(() => new Promise((done, failed) => {
      const ask = indexedDB.open("marrowbook");
      ask.onsuccess = () => {
        const put = ask.result.transaction("settings", "readwrite").objectStore("settings").put("{not practice", ["practice"]);
        put.onsuccess = () => { ask.result.close(); done(); };
        put.onerror = () => failed(put.error);
      };
    }));
    await page.reload();
    await phone.formIsUp();
    await page.waitForSelector("[data-practice]");
    assert.match(await text(page), /set aside/);
    await page.waitForTimeout(300);
    assert.ok((await stored(page, "settings", "all")).includes("{not practice"), "what could not be read is still there");
    assert.equal(await stored(page, "entries"), entries, "no entry was written by practising");
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));

/** What stands inside the bundle that the hand-over screen shows: the payload is raw deflate (RFC 1951) of JSON. */
async function handedOver(page, place) {
  await page.goto(`${place.url}#start`);
  await page.goto(`${place.url}#hand-over`);
  await page.waitForSelector('[data-field="bundle"]');
  const { payload } = JSON.parse(await page.inputValue('[data-field="bundle"]'));
  return inflateRawSync(Buffer.from(payload, "base64url")).toString("utf8");
}

test("a bundle made after practice holds nothing of practice", { timeout: 240_000 }, () => withFive(async (phone, place) => {
  const { page } = phone;
  const hand = new Hand(page);
  await phone.open(`${place.url}#demo`);
  await page.waitForFunction((n) => document.querySelectorAll('[data-act^="readings-"]').length === n, Object.keys(DEER).length);
  await saved(page);
  const before = await handedOver(page, place);
  await page.goto(`${place.url}#practice`);
  await hand.press('[data-call="3"]');
  await hand.tile("next-jaw");
  await hand.press('[data-call="1"]');
  await page.waitForFunction(() => /\t2\t/.test([...document.querySelectorAll("[data-score] tbody tr")].at(-1)?.innerText ?? ""));
  await page.waitForTimeout(300);
  const kept = (await stored(page, "settings", "all")).find((text) => typeof text === "string" && /"seed"/.test(text));
  assert.match(kept ?? "", /K7/, "the practice is on the phone, under the name of its reader");
  const after = await handedOver(page, place);
  assert.doesNotMatch(after, /practi[cs]e/i);
  // All but its own name and the hour it was made is as it was before anybody practised.
  const { bundle: one, made_at: then, ...was } = JSON.parse(before);
  const { bundle: other, made_at: now, ...is } = JSON.parse(after);
  assert.notEqual(one, other, "two bundles, not one read twice");
  assert.ok(was.chain.entries.length > 50 && then <= now, `a record was handed over: ${was.chain.entries.length} entries`);
  assert.deepEqual(is, was);
  assert.deepEqual(phone.faults, []);
}));
