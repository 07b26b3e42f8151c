// Somebody is hurt: the note begins with what the phone knows and goes to a doctor by itself. And a number typed in US
// units. No outside check of the note: what is held is the form's own promise. -5 F is -20.6 C by definition.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { Hand, bodies, saved } from "./form.mjs";
import { withPhone } from "./phone.mjs";

const PHONE = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };

async function outing(phone, place) {
  await phone.open(place.url);
  const hand = new Hand(phone.page);
  await hand.tile("outing");
  await hand.type('main [data-field="who"]', "M1");
  await hand.tile("go");
  await phone.page.waitForSelector("main [data-ask]");
  return hand;
}

const to = (page, screen) => page.evaluate((hash) => { location.hash = hash; }, `#${screen}`);

test("an exposure note begins with what is known, is kept over a reload, and is saved as a file of its own", { timeout: 120_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  const hand = await outing(phone, place);
  await to(page, "hurt");
  const field = page.locator('main [data-field="text"]');
  await field.waitFor();
  const begun = await field.inputValue();
  assert.match(begun, /^Who: M1\nWhen: \d{4}-\d\d-\d\d \d\d:\d\d\nCarcass: [A-Z0-9]{6}\n/);
  // What the phone knows by itself is no note.
  await hand.tile("save-note");
  await page.waitForFunction(() => /what happened first/.test(document.body.innerText));
  assert.equal(await page.locator("[data-note]").count(), 0);
  const typed = `${begun}left thumb, bone`;
  await field.fill(typed);
  // A question answered in between does not push it out.
  await to(page, "visit/air_temperature");
  await hand.press('[data-key="5"]');
  await hand.tile("save");
  await saved(page);
  await page.reload();
  await to(page, "hurt");
  await field.waitFor();
  assert.equal(await field.inputValue(), typed, "what was typed stands after a reload");
  await phone.picture("hurt-note");
  await hand.tile("save-note");
  await page.waitForSelector("[data-note]");
  await saved(page);
  await phone.picture("hurt-saved");
  await page.reload();
  const note = page.locator("[data-note]");
  await note.waitFor();
  assert.equal(await note.count(), 1);
  await page.waitForTimeout(300);
  const [file] = await Promise.all([page.waitForEvent("download"), note.locator('[data-tile="download"]').tap()]);
  const text = readFileSync(await file.path(), "utf8");
  assert.match(file.suggestedFilename(), /^Exposure-note-[\d-]+\.txt$/);
  assert.ok(text.includes("left thumb, bone") && /fever, sweats/.test(text), text);
  assert.match(text, /\(the last four from memory, no source\)/, "what rests on memory stays marked");
  assert.deepEqual(await phone.axe({ strict: true }), []);
}));

test("degrees Fahrenheit are typed, and degrees Celsius are shown before and kept", { timeout: 120_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  const hand = await outing(phone, place);
  await to(page, "settings");
  await hand.act("us_units");
  await to(page, "visit/air_temperature");
  for (const key of ["minus", "5"]) await hand.press(`[data-key="${key}"]`);
  const tile = await page.locator('main [data-tile="save"]').innerText();
  assert.match(tile.replace(/\u00a0/g, " "), /\u22125 \u00b0F = \u221221 \u00b0C/);
  await phone.picture("typed-fahrenheit");
  await hand.tile("save");
  await saved(page);
  const kept = (await bodies(page)).filter((body) => body.includes("air_temperature_c"));
  assert.equal(kept.length, 1);
  assert.match(kept[0].replace(/\\/g, ""), /-21\b/);
}));
