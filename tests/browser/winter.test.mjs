// The winter log on a small phone, and a daily log as CSV on the office's page. No check value: the figures
// of the indices are held against the agencies' own in tests/winter.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Hand, saved } from "./form.mjs";
import { withPhone } from "./phone.mjs";

const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
/** No-break spaces and the true minus sign are set for the eye; here they are plain. */
const plain = (said) => said.replace(/\u2060/g, "").replace(/\u00a0|\u202f/g, " ").replace(/\u2212/g, "-");
const text = async (page) => plain(await page.evaluate(() => document.querySelector("main:not([hidden])")?.innerText ?? ""));

/** Types a number on the pad and saves it. */
async function number(hand, typed) {
  const KEY = { "-": "minus" };
  for (const digit of typed) await hand.press(digit === "." ? 'main :is([data-key="point"], [data-act="point"])' : `main [data-key="${KEY[digit] ?? digit}"]`);
  await hand.tile("save");
}

async function onScreen(page, screen) {
  await page.waitForFunction((s) => document.querySelector("[data-screen]")?.dataset.screen === s, screen);
}

/** The page is no wider than the screen. */
async function fits(page, name) {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${name} is ${wide} px too wide`);
}

test("three days in F and inches, one corrected, read back after the phone was opened again", { timeout: 240_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    const { page } = phone;
    const hand = new Hand(page);
    const look = async (name) => {
      await fits(page, name);
      await phone.picture(`winter-${name}-day`);
      assert.deepEqual(await phone.axe(), [], name);
    };
    await phone.open(place.url);
    await phone.offlineReady();
    await place.stop();
    await page.reload();
    await phone.formIsUp();
    await page.goto(`${page.url().split("#")[0]}#settings`);
    await hand.act("us_units");
    await page.goto(`${page.url().split("#")[0]}#winter`);
    await page.waitForSelector('[data-field="place"]');
    await look("places");
    await hand.tile("begin-log");
    await page.waitForFunction(() => /place/i.test(document.querySelector("[data-notice]")?.textContent ?? ""));
    await hand.type('[data-field="place"]', "Ridge cabin");
    await hand.tile("begin-log");
    await onScreen(page, "winter-log");
    const log = page.url();
    await look("log-empty");
    // Three days ending yesterday, by the phone's own calendar.
    const days = await page.evaluate(() => [3, 2, 1].map((back) => {
      const at = new Date(Date.now() - back * 86_400_000);
      return [at.getFullYear(), at.getMonth() + 1, at.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
    }));
    const DAYS = [["-4", "14"], ["-11.5", "18.5"], ["7", "18"]];
    for (const [n, day] of days.entries()) {
      await page.goto(log);
      await onScreen(page, "winter-log");
      await page.fill('[data-field="day"]', day);
      await onScreen(page, "winter-day");
      if (n === 0) await look("day-empty");
      await hand.tile("next");
      await onScreen(page, "winter-read");
      if (n === 0) await look("pad");
      await number(hand, DAYS[n][0]);
      await page.waitForFunction(() => location.hash.endsWith("day_snow_depth_cm"));
      if (n === 0) await look("snow-pad");
      await number(hand, DAYS[n][1]);
      await page.waitForFunction(() => location.hash.endsWith("day_new_snow_cm"));
      // No new snow was looked for and is not there; the second day nobody read it.
      if (n === 1) await hand.tile("not-read"); else await hand.act("none");
      await onScreen(page, "winter-day");
      await saved(page);
      if (n === 1) await look("day");
    }
    // The last night was -7 and not 7.
    await hand.act("day_minimum_c");
    await onScreen(page, "winter-read");
    assert.match(await text(page), /7(\.0)? ?°F/);
    await look("correct");
    await number(hand, "-7");
    await onScreen(page, "winter-day");
    await saved(page);
    await page.goto(log);
    await onScreen(page, "winter-log");
    await page.reload();
    await phone.formIsUp();
    await page.waitForSelector('[data-act^="logged-"]');
    await look("log");
    const rows = (await page.locator('[data-act^="logged-"]').allInnerTexts()).map(plain);
    assert.equal(rows.length, 3, rows.join("\n"));
    assert.match(rows[0], new RegExp(`${days[2]}.*-7(\\.0)? ?°F.*18(\\.0)? ?in`), "the correction stands, the newest day first");
    assert.doesNotMatch(rows[0], / 7(\.0)? ?°F/, "what was corrected stands no more");
    assert.match(rows[1], /-11\.5 ?°F.*18\.5 ?in, New snow: not read/i, "as typed, no digit lost; not read is no none");
    assert.match(rows[2], /-4(\.0)? ?°F.*14(\.0)? ?in, New snow: none/i);
    // The same in metric: 18 in are 45.7 cm, -4 F are -20 C.
    await page.goto(`${page.url().split("#")[0]}#settings`);
    await hand.act("us_units");
    await page.goto(log);
    await page.waitForFunction(() => /°C/.test(document.querySelector('[data-act^="logged-"]')?.innerText ?? ""));
    assert.match(await text(page), /-20(\.0)? ?°C/);
    await page.goto(`${page.url().split("#")[0]}#settings`);
    await hand.act("dusk");
    for (const [name, url] of [["log", log], ["day", log.replace("winter-log", "winter-day") + `/${days[1]}`],
      ["pad", log.replace("winter-log", "winter-read") + `/${days[1]}/day_minimum_c`], ["crust", log.replace("winter-log", "winter-read") + `/${days[1]}/day_crust`]]) {
      await page.goto(url);
      await page.waitForTimeout(250);
      await fits(page, name);
      await phone.picture(`winter-${name}-dusk`);
      assert.deepEqual(await phone.axe(), [], `${name} at dusk`);
    }
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));

/** An invented winter of 60 days at one place; line 22 is broken. */
function csv() {
  const lines = ["date,tmin,snow depth,new snow"];
  for (let n = 0; n < 60; n += 1) {
    const date = new Date(Date.UTC(2027, 0, 1 + n)).toISOString().slice(0, 10);
    lines.push(n === 20 ? `${date},cold,deep,1` : `${date},${(n * 7) % 31 - 14},${8 + Math.round(n / 4)},${n % 6 === 0 ? 3 : 0}`);
  }
  return lines.join("\n");
}

test("the office's page: a pasted winter, its bad line named, units confirmed, figures and plot", { timeout: 120_000 }, () =>
  withPhone({ viewport: { width: 1280, height: 900 }, screen: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1 }, async (phone, place) => {
    const { page } = phone;
    await page.goto(`${place.url}office/`);
    await page.waitForSelector("[data-winter]");
    await page.fill('[data-winter] [data-field="paste"]', csv());
    await page.locator('[data-winter] [data-field="paste"]').blur();
    await page.waitForSelector('[data-field="temperature"]');
    assert.equal(await page.locator("[data-index]").count(), 0, "no figure before the units were told");
    assert.match(await text(page), /Nothing is read before you have said the units/);
    assert.deepEqual(await phone.axe(), [], "units open");
    await page.selectOption('[data-field="temperature"]', "f");
    assert.equal(await page.locator("[data-index]").count(), 0, "one unit is not both");
    await page.selectOption('[data-field="snow"]', "in");
    await page.waitForSelector("[data-index]");
    const notes = await page.locator("[data-notes]").innerText();
    assert.match(notes, /line 22:.*cold/);
    assert.match(notes, /line 22:.*deep/);
    const figures = await page.evaluate(() => [...document.querySelectorAll("[data-index] summary")].map((s) => s.innerText));
    assert.ok(figures.length >= 3 && figures.some((line) => /\d/.test(line)), figures.join("\n"));
    const svg = page.locator(".winter-plot svg");
    await svg.waitFor();
    assert.match(await svg.locator("title").first().textContent(), /2027/);
    const grey = await page.evaluate(() => [...document.querySelectorAll(".winter-plot [fill], .winter-plot [stroke]")]
      .flatMap((e) => [e.getAttribute("fill"), e.getAttribute("stroke")]).filter((c) => c && c !== "none"));
    assert.ok(grey.every((c) => /^#(?:([0-9a-f])\1\1|([0-9a-f]{2})\2\2)$/.test(c)), `colours: ${[...new Set(grey)]}`);
    assert.deepEqual(await phone.axe(), [], "figures and plot");
    await phone.picture("office-winter-wide");
    // Kept, it stands among the archive's own; the same bytes with other units are not taken unasked.
    const points = async () => (await page.locator("[data-index] summary").first().innerText()).replace(/^.*?: /, "");
    const inches = await points();
    await page.fill('[data-field="winter-place"]', "Invented Ridge");
    await page.locator('[data-field="winter-place"]').blur();
    await page.click('[data-act="keep-winter"]');
    await page.waitForSelector('[data-kept="true"]');
    assert.equal(await points(), inches, "the figures are the kept log's now");
    await page.fill('[data-winter] [data-field="paste"]', `${csv()}\n`.trimEnd());
    await page.locator('[data-winter] [data-field="paste"]').blur();
    await page.locator('[data-winter] [data-field="paste"]').evaluate((field) => field.dispatchEvent(new Event("change", { bubbles: true })));
    await page.selectOption('[data-field="temperature"]', "c");
    await page.selectOption('[data-field="snow"]', "in");
    await page.click('[data-act="keep-winter"]');
    await page.waitForSelector('[data-kept="false"]');
    assert.match(await page.locator('[data-kept="false"]').innerText(), /other units/);
    assert.deepEqual(await phone.axe(), [], "a log that lies there with other units");
    await phone.picture("office-winter-kept");
    await page.click('[data-act="keep-winter-correct"]');
    await page.waitForSelector('[data-kept="true"]');
    assert.match(await page.locator('[data-kept="true"]').innerText(), /corrected/);
    await svg.scrollIntoViewIfNeeded();
    await phone.picture("office-winter-plot");
    // On the phone of somebody away from the desk the page stays as wide as the screen; the plot scrolls.
    await page.setViewportSize({ width: 360, height: 740 });
    await fits(page, "the office's page");
    await phone.picture("office-winter-small");
    assert.deepEqual(await phone.axe(), [], "360 px wide");
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));
