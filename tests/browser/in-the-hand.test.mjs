// What a crew has in its hand: the screen stays on while a visit lasts and no longer, a tick on disk is felt, and a
// phone that has neither misses nothing else. The browser's own parts are watched, not replaced in what they do.
import assert from "node:assert/strict";
import { test } from "node:test";
import { answerOne, saved } from "./form.mjs";
import { VISIT, onTheWay } from "./outing.mjs";
import { withPhone } from "./phone.mjs";

/** Runs in the page before the form: notes who asks for the screen and for a buzz, and what was saved by then. */
function watch() {
  const noted = { asked: [], held: 0, buzzed: [] };
  globalThis.noted = noted;
  const keeper = {
    async request(kind) {
      noted.asked.push(kind);
      noted.held += 1;
      return { async release() { noted.held -= 1; } };
    },
  };
  Object.defineProperty(navigator, "wakeLock", { get: () => keeper });
  Object.defineProperty(navigator, "vibrate", { value: (ms) => { noted.buzzed.push(ms); return true; } });
}

/** The same phone without either, as some are. */
function without() {
  Object.defineProperty(navigator, "wakeLock", { get: () => undefined });
  Object.defineProperty(navigator, "vibrate", { value: undefined });
}

const noted = (page) => page.evaluate(() => ({ ...globalThis.noted }));

test("the screen stays on during a visit and a saved tick is felt", { timeout: 240_000 }, () => withPhone({}, async (phone, place) => {
  await phone.page.addInitScript(watch);
  const hand = await onTheWay(phone, place);
  await phone.page.waitForFunction(() => globalThis.noted.held === 1);
  await saved(phone.page);
  const before = (await noted(phone.page)).buzzed.length;
  await answerOne(hand, VISIT);
  await phone.page.waitForFunction((n) => globalThis.noted.buzzed.length > n, before);
  await saved(phone.page);
  const { buzzed, asked } = await noted(phone.page);
  assert.equal(buzzed.length, before + 1, "one answer, one buzz");
  assert.ok(buzzed.every((ms) => ms > 0 && ms <= 50), `short: ${buzzed}`);
  assert.deepEqual(asked, ["screen"], "asked for once, not at each question");
  // A half typed number is no tick.
  await hand.press('main [data-key="2"]');
  await phone.page.waitForTimeout(300);
  assert.equal((await noted(phone.page)).buzzed.length, before + 1);
  await phone.page.evaluate(() => { location.hash = "#start"; });
  await phone.page.waitForFunction(() => globalThis.noted.held === 0);
  assert.deepEqual(phone.faults, []);
}));

test("a phone that can neither stay on nor buzz goes on all the same", { timeout: 240_000 }, () => withPhone({}, async (phone, place) => {
  await phone.page.addInitScript(without);
  const hand = await onTheWay(phone, place);
  await answerOne(hand, VISIT);
  await saved(phone.page);
  await phone.page.waitForFunction(() => document.querySelector("[data-saved]")?.dataset.saved === "saved");
  assert.deepEqual(phone.faults, []);
}));
