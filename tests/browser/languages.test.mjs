// A language is chosen on the first screen, changed in the middle of a visit, and kept; nothing is lost by it.
// What is checked is the project's own promise: no outside source.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Hand, answerOne, entries, saved, standing, walk } from "./form.mjs";
import { withPhone } from "./phone.mjs";

const PLAN = {
  people_out: { text: "K7" }, crew_count: { number: 2 }, roles: "recorder_and_handler", contact_told: "done", backup_told: "done",
  late_action_agreed: "done", air_temperature: { number: "-8" }, wind: { number: 10 }, wind_read_at: "forecast_or_mast",
  land_leave: "reserve_or_public", ground: { seen: ["moving_or_open_water"] }, road_and_people: { seen: [] },
};
const HEADS = { fr: "De l'eau qui bouge", en: "Water on the move", es: "Agua" };

const text = (page) => page.evaluate(() => document.querySelector(".page")?.innerText ?? "");
const lang = (page) => page.evaluate(() => document.documentElement.lang);
const inLanguage = (page, code) => page.waitForFunction((c) => document.documentElement.lang === c, code);

/** Waits until the worker keeps a language's texts. */
const kept = (page, code) => page.waitForFunction(async (c) => {
  for (const name of await caches.keys()) {
    const urls = (await (await caches.open(name)).keys()).map((request) => request.url);
    if (urls.some((url) => url.endsWith(`words/${c}.txt`))) return true;
  }
  return false;
}, code);

/** Chooses a language on the settings screen, then goes back to where one was. */
async function speak(hand, code) {
  await hand.page.evaluate(() => { location.hash = "#settings"; });
  await hand.tile(`language-${code}`);
  await inLanguage(hand.page, code);
  await hand.page.waitForSelector(`main [data-tile="language-${code}"][aria-pressed="true"]`);
  await hand.page.goBack();
  await hand.page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen !== "settings");
}

test("the browser's language stands first, is chosen with one tap, and holds without a server", { timeout: 240_000 }, () =>
  withPhone({ locale: "fr-CA" }, async (phone, place) => {
    await phone.open(place.url);
    await phone.offlineReady();
    const hand = new Hand(phone.page);
    await phone.page.waitForSelector('main [data-tile="outing"]');
    assert.equal(await lang(phone.page), "en", "nothing is chosen for a person");
    const offered = (await standing(phone.page)).tiles.filter((name) => name.startsWith("language-"));
    assert.equal(offered[0], "language-fr");
    assert.ok(offered.includes("language-en"));
    const sizes = await phone.page.$$eval(".languages .tile", (all) => all.map((one) => one.getBoundingClientRect()).map((r) => [r.width, r.height]));
    assert.ok(sizes.every(([width, height]) => width >= 60 && height >= 72), JSON.stringify(sizes));
    await hand.tile("language-fr");
    await inLanguage(phone.page, "fr");
    await kept(phone.page, "fr");
    await place.stop();
    assert.match(await text(phone.page), /Cerf mort sur la neige/);
    assert.ok(await phone.page.$('[data-fact="language"]'), "marked as not checked yet");
    assert.ok(!(await standing(phone.page)).tiles.some((name) => name.startsWith("language-")), "asked once");
    await phone.page.reload();
    await inLanguage(phone.page, "fr");
    await phone.page.waitForSelector('main [data-tile="outing"]');
    assert.match(await text(phone.page), /Cerf mort sur la neige/);
    // The other was never asked for: said in plain words, and nothing changes.
    await phone.page.evaluate(() => { location.hash = "#settings"; });
    await hand.tile("language-es");
    await phone.page.waitForFunction(() => /not on this phone/.test(document.querySelector("[data-notice]")?.textContent ?? ""));
    assert.equal(await lang(phone.page), "fr");
    assert.deepEqual(phone.faults, []);
  }));

test("switched in the middle of a visit: same question, same answers, half a number kept", { timeout: 300_000 }, () =>
  withPhone({}, async (phone, place) => {
    await phone.open(place.url);
    await phone.offlineReady();
    const hand = new Hand(phone.page);
    await hand.tile("language-fr");
    await inLanguage(phone.page, "fr");
    await hand.tile("outing");
    await hand.type("main [data-field]", "K7");
    await hand.tile("go");
    await phone.page.waitForSelector("main [data-ask]");
    await walk(hand, PLAN, { until: ({ grade }) => grade === "stop" });
    assert.match(await text(phone.page), new RegExp(HEADS.fr), "a hazard in French");
    const stop = (await standing(phone.page)).ask;
    await speak(hand, "en");
    assert.match(await text(phone.page), new RegExp(HEADS.en));
    assert.equal((await standing(phone.page)).ask, stop, "the same stop stands");
    await speak(hand, "fr");
    await answerOne(hand, PLAN);
    await walk(hand, PLAN, { until: ({ pad }) => pad });
    const here = await standing(phone.page);
    assert.ok(here.pad, "a number is asked somewhere after the stop");
    await hand.press('[data-key="1"]');
    await hand.press('[data-key="2"]');
    await saved(phone.page);
    const before = await entries(phone.page);
    const others = (await standing(phone.page)).tiles;
    for (const code of ["en", "es", "fr"]) {
      await speak(hand, code);
      const now = await standing(phone.page);
      assert.equal(now.ask, here.ask, `in ${code} the same question stands`);
      assert.deepEqual(now.tiles, others);
      assert.equal(await phone.page.$eval("[data-typed]", (field) => field.dataset.typed), "12", `in ${code} half a number is kept`);
      assert.equal(await entries(phone.page), before, `in ${code} no entry more, none less`);
    }
    await phone.page.reload();
    await inLanguage(phone.page, "fr");
    await hand.tile("carry-on");
    assert.equal((await standing(phone.page)).ask, here.ask);
    assert.equal(await phone.page.$eval("[data-typed]", (field) => field.dataset.typed), "12");
    await hand.tile("save");
    await saved(phone.page);
    assert.ok(await entries(phone.page) > before);
    assert.match(await text(phone.page), /Gardé/);
    assert.deepEqual(phone.faults, []);
  }));

test("texts of another version are refused in plain words, and the form stays as it was", { timeout: 240_000 }, () =>
  withPhone({ also: {} }, async (phone, place) => {
    // Without a worker the network answers: a file of another version, then none.
    await phone.context.route("**/sw.js", (route) => route.abort());
    const hand = new Hand(phone.page);
    await phone.context.route("**/words/fr.txt*", (route) => route.fulfill({ body: "0123456789abcdef\0Une ligne" }));
    await phone.open(place.url);
    await hand.tile("language-fr");
    await phone.page.waitForSelector('[data-notice="shown"]');
    assert.match(await text(phone.page), /another version/);
    assert.equal(await lang(phone.page), "en");
    await phone.context.unroute("**/words/fr.txt*");
    await phone.context.route("**/words/fr.txt*", (route) => route.abort());
    await hand.tile("language-fr");
    await phone.page.waitForFunction(() => /not on this phone/.test(document.querySelector("[data-notice]")?.textContent ?? ""));
    assert.equal(await lang(phone.page), "en");
    await hand.tile("outing");
    await phone.page.waitForSelector('[data-screen="who"]');
  }));
