// Twelve deer told by a person who has never seen the form (ten-deer.mjs), each put through it on a small phone.
// What must hold: no stop but those that the story calls for, the record closes, the cause that is named above
// `possibly` is one that the story allows, and the time of death that the form gives holds the true one. The bound of
// the whole run is ours.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { Hand, answerOne, loadCard, saved, walk } from "./form.mjs";
import { phone, ROOT, site } from "./phone.mjs";
import { STORIES } from "./ten-deer.mjs";

const CARD = readFileSync(join(ROOT, "demo/card.txt"), "utf8");
const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 }, deviceScaleFactor: 1 };
/** Phones in use at once. */
const HANDS = Number(process.env.MARROWBOOK_HANDS ?? 4);
/** Labels that say more than `possibly`, and the cause that they name. */
const FIRM = /^(?:Killed by (.+): definite|Probably (?:killed by|died of) (.+))$/m;

/** The page's clock is set to the story's day before the form starts. */
const clock = (at) => `(() => { const D = Date, off = ${Date.parse(at)} - D.now();
  globalThis.Date = class extends D { constructor(...a) { if (a.length) super(...a); else super(D.now() + off); } static now() { return D.now() + off; } }; })();`;

const text = async (page) => (await page.evaluate(() => document.querySelector("main:not([hidden])")?.innerText ?? ""))
  .replace(/\u00a0|\u202f/g, " ");

/** Which question of the jaw is asked. Runs in the page. */
const panelNow = () => JSON.stringify({ ...document.querySelector("main .jaw-panel")?.dataset });

/** What the plan of a story can say beside what every walk can: moments, a jaw tooth by tooth, a stop that is reopened. */
async function act(hand, here, said) {
  const { page } = hand;
  if (said.when) {
    if (here.tiles.includes("other-time")) {
      await hand.tile("other-time");
      await page.waitForSelector("main [data-key]");
    }
    for (let day = 0; day < said.when[0]; day += 1) await hand.act("day-before");
    for (const digit of said.when[1]) await hand.press(`[data-key="${digit}"]`);
    return hand.tile("save");
  }
  if (said.teeth) {
    for (const tooth of said.teeth) {
      // The panel names what it asks: the text alone may change before the question does.
      const before = await page.evaluate(panelNow);
      await hand.tilePaged(tooth);
      await page.waitForFunction(([now, was]) => (0, eval)(now)() !== was, [`(${panelNow})`, before]);
    }
    return hand.tilePaged("next");
  }
  if (said.reopen) {
    await hand.tile("done");
    await page.waitForTimeout(300);
    await page.evaluate(() => { location.hash = "#stops"; });
    await page.waitForSelector("main [data-field]");
    await hand.type("main [data-field]", said.reopen);
    return hand.tile(`reopen-${here.ask.toLowerCase()}`);
  }
  return answerOne(hand, { [here.ask]: said });
}

/** The dates of the card of the time of death: earliest and latest, either may be open. */
function windowOf(said) {
  const at = (found) => found && Date.parse(`${found[1]}T${found[2]}:00-05:00`);
  const between = said.match(/between (\d{4}-\d\d-\d\d) (\d\d:\d\d) and (\d{4}-\d\d-\d\d) (\d\d:\d\d)/);
  if (between) return [at(between), at([0, between[3], between[4]])];
  const before = said.match(/before (\d{4}-\d\d-\d\d) (\d\d:\d\d)/);
  const after = said.match(/after (\d{4}-\d\d-\d\d) (\d\d:\d\d)/);
  return [at(after) ?? -Infinity, at(before) ?? Infinity];
}

const card = (page, method) => page.evaluate((m) => document.querySelector(`[data-card="${m}"]`)?.innerText ?? "", method)
  .then((t) => t.replace(/\u00a0|\u202f/g, " "));

/** One story from the start screen to its readings. */
async function tell(story, url) {
  const hands = await phone(SMALL);
  const { page } = hands;
  const hand = new Hand(page);
  let taps = 0;
  const press = hand.press.bind(hand);
  hand.press = (selector) => { taps += 1; return press(selector); };
  try {
    await page.addInitScript(clock(story.at));
    await hands.open(url);
    await page.waitForSelector("main [data-tile]");
    if (story.card) {
      await loadCard(hand, CARD);
      await page.waitForSelector('main [data-tile="outing"]');
    }
    await hand.tile("outing");
    if (story.card) await hand.tile("person-K7");
    else { await hand.type('main [data-field="who"]', "M1"); await hand.tile("go"); }
    await page.waitForSelector("main [data-ask]");
    const stops = [];
    for (;;) {
      const asked = await walk(hand, story.plan, {
        until: ({ ask, grade }) => {
          if (grade === "stop") stops.push(ask);
          const said = story.plan[ask];
          return ask === "none" || Boolean(said?.when || said?.teeth || said?.reopen);
        },
      });
      const here = await page.evaluate(() => ({
        ask: document.querySelector("main [data-ask]")?.dataset.ask ?? "",
        tiles: [...document.querySelectorAll("main [data-tile]")].map((t) => t.dataset.tile),
      }));
      const said = story.plan[here.ask];
      if (said === undefined || !(said.when || said.teeth || said.reopen)) break;
      await act(hand, here, said);
      await page.waitForFunction((was) => document.querySelector("main [data-ask]")?.dataset.ask !== was, here.ask)
        .catch(() => { throw new Error(`${here.ask} asks again after ${JSON.stringify(said)} (asked ${asked.length})`); });
    }
    if (await page.locator('main [data-tile="close"]').count()) await hand.tile("close");
    else await hand.tile("readings");
    await page.waitForSelector('[data-card="cause.of_death"]', { timeout: 60_000 });
    await saved(page);
    const [cause, death, age, condition] = await Promise.all(
      ["cause.of_death", "death.window", "age.lower_jaw", "condition.combined"].map((m) => card(page, m)));
    return { taps, stops: [...new Set(stops)], cause, death, age, condition, faults: hands.faults, page: await text(page) };
  } finally {
    await hands.end();
  }
}

test("twelve deer told by newcomers come out as they were", { timeout: 900_000 }, async (t) => {
  const only = process.env.MARROWBOOK_STORY?.split(",");
  const waiting = STORIES.filter((story) => !only || only.includes(story.name));
  const place = await site();
  const told = new Map();
  try {
    const worker = async () => {
      for (let story = waiting.shift(); story; story = waiting.shift()) {
        const found = await tell(story, place.url).catch((error) => ({ error }));
        told.set(story, found);
        if (process.env.MARROWBOOK_STORY) console.log(story.name, found.error?.message ?? found);
      }
    };
    await Promise.all(Array.from({ length: HANDS }, worker));
  } finally {
    await place.stop();
  }
  for (const [story, found] of told) {
    await t.test(story.name, () => {
      if (found.error) throw found.error;
      const one = (said) => said.replace(/\n›?\n?/g, " | ");
      console.log(`${story.name}: ${found.taps} taps; stops ${found.stops.join(" ") || "none"}; ${one(found.cause)}; ${one(found.death)}; ${one(found.age)}; ${one(found.condition)}`);
      assert.deepEqual(found.stops.toSorted(), story.stops.toSorted(), "the stops that the story calls for and no other");
      const firm = found.cause.match(FIRM);
      if (firm) {
        assert.ok(story.truth.cause, `nothing in the story says why, yet: ${firm[0]}`);
        assert.match(firm[1] ?? firm[2], story.truth.cause, "a cause above `possibly` is one that the story allows");
      }
      const [from, to] = windowOf(found.death);
      const died = Date.parse(story.truth.died);
      assert.ok(from <= died && died <= to, `died ${story.truth.died}, said: ${one(found.death)}`);
      if (story.truth.young) assert.doesNotMatch(found.age, /^\d+ years?$/m, "a fawn is not read as grown");
      assert.deepEqual(found.faults, []);
    });
  }
});
