// Two people at one carcass: the second looks without seeing what the first called; a second phone joins by the code.
// And a sweep tapped by mistake. No outside check: what is held is the form's own promise.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Hand, answerOne, saved, standing, walk } from "./form.mjs";
import { VISIT } from "./outing.mjs";
import { withPhone } from "./phone.mjs";

const PHONE = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
const FIRST = { ...VISIT, due_back: { number: 2359 }, photo_scene: { none: "not-looked" }, examination_closed: "record_only" };

async function outing(phone, place, person) {
  await phone.open(place.url);
  const hand = new Hand(phone.page);
  await phone.page.waitForSelector('main [data-tile="outing"]');
  await hand.tile("outing");
  await phone.page.waitForSelector('main [data-field="who"]');
  await hand.type('main [data-field="who"]', person);
  await hand.tile("go");
  await phone.page.waitForSelector("main [data-ask]");
  return hand;
}

/** Waits for a screen by its hash. */
async function to(page, screen, selector) {
  await page.evaluate((hash) => { location.hash = hash; }, `#${screen}`);
  await page.waitForSelector(selector);
}

const said = (page) => page.evaluate(() => document.body.innerText.replace(/[\u00a0\u202f]/g, " "));

test("a second person looks without the first answers, even after a reload; both are compared", { timeout: 300_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  const hand = await outing(phone, place, "M1");
  await walk(hand, FIRST, { until: ({ ask }) => ask === "quick_class" });
  await answerOne(hand, FIRST);
  await saved(page);
  await page.waitForFunction(() => /Older/.test(document.body.innerText), undefined, { timeout: 10_000 });
  await to(page, "pair", "[data-pair]");
  const exam = await page.evaluate(() => document.querySelector("[data-carcass-code]").textContent);
  assert.match(exam, /^[A-Z0-9]{6}$/);
  await hand.type('main [data-field="second"]', "M1");
  await hand.tile("second");
  assert.match(await said(page), /somebody else/, "nobody is a second person to oneself");
  await hand.type('main [data-field="second"]', "B2");
  await hand.tile("second");
  await page.waitForSelector('[data-pair="looking"]');
  await phone.picture("pair-looking");
  const hidden = async (where) => assert.doesNotMatch(await said(page), /Older(?! than)/, `${where} tells the first answer`);
  await hidden("the list");
  for (const [screen, selector] of [["steps", "[data-step]"], ["visit/quick_class", "main [data-ask]"]]) {
    await to(page, screen, selector);
    assert.equal(await page.locator("[data-given]").count(), 0, `${screen} shows an answer given`);
    assert.doesNotMatch(await page.evaluate(() => document.querySelector("[data-saved]")?.innerText ?? ""), /Older/);
  }
  // Killed meanwhile: still hidden.
  await page.reload();
  await page.waitForSelector("main [data-tile]");
  await to(page, "visit/quick_class", 'main [data-tile="fawn"]');
  assert.equal(await page.locator("[data-given]").count(), 0, "hidden after a reload");
  assert.equal(await page.evaluate(() => document.querySelector(".chosen, [aria-pressed='true']")), null);
  await hand.tile("fawn");
  await page.waitForSelector('[data-pair="looking"]');
  await hand.tile("hand-back");
  await page.waitForSelector("[data-compared]");
  await phone.picture("pair-compared");
  const row = await page.locator("[data-compared] li").first();
  assert.equal(await row.getAttribute("data-agree"), "false");
  assert.match((await row.innerText()).replace(/\s+/g, " "), /M1: .*Older.*B2: .*Fawn|B2: .*Fawn.*M1: .*Older/i);
  assert.deepEqual(await phone.axe(), []);
  assert.deepEqual(phone.faults, []);
}));

test("a second phone begins at the code of the first, and only at a whole one", { timeout: 200_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  await outing(phone, place, "M1");
  await to(page, "pair", "[data-carcass-code]");
  const code = await page.evaluate(() => document.querySelector("[data-carcass-code]").textContent);
  await withPhone(PHONE, async (other, there) => {
    await other.open(there.url);
    const hand = new Hand(other.page);
    await other.page.waitForSelector('main [data-tile="outing"]');
    await to(other.page, "join", 'main [data-field="who"]');
    await hand.type('main [data-field="who"]', "B2");
    await hand.tile("who-joins");
    await other.page.waitForSelector('main [data-field="join"]');
    await other.picture("join");
    await hand.type('main [data-field="join"]', code.slice(0, 5) + (code[5] === "B" ? "C" : "B"));
    await hand.tile("join");
    assert.match(await said(other.page), /not whole/);
    await hand.type('main [data-field="join"]', code.toLowerCase());
    await hand.tile("join");
    await other.page.waitForSelector("main [data-ask]");
    await saved(other.page);
    await to(other.page, "steps", "[data-step]");
    await hand.act("journal");
    await other.page.waitForSelector('[data-screen="journal"]');
    assert.match(await said(other.page), new RegExp(code));
    assert.deepEqual(other.faults, []);
  });
}));

test("a sweep tapped by mistake is taken back, and each sign is asked", { timeout: 300_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  const hand = await outing(phone, place, "M1");
  await walk(hand, FIRST, { until: ({ ask }) => ask === "none" });
  await saved(page);
  await to(page, "start", 'main [data-tile="new-carcass"]');
  await hand.tile("new-carcass");
  await page.waitForSelector('main [data-ask="land_leave"]');
  await answerOne(hand, FIRST);
  await page.waitForSelector('main [data-ask="ground_again"]');
  await phone.picture("sweep-ground");
  await hand.tile("none-of-these");
  await page.waitForFunction(() => document.querySelector("main [data-ask]")?.dataset.ask !== "ground_again");
  assert.notEqual((await standing(page)).ask, "ground", "swept");
  await to(page, "visit/ground_again", '[data-act="take-back"]');
  await hand.tile("ask-each");
  await page.waitForFunction(() => document.querySelector("main [data-ask]")?.dataset.ask === "ground");
  assert.deepEqual(phone.faults, []);
}));
