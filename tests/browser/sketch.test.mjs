// The scene sketch by taps: what, from where, which way, how far. Drawn to scale as it grows, taken back, and made
// into a map at the office. Distances are the paces times their length: no source needed.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { saved, walk } from "./form.mjs";
import { VISIT, onTheWay } from "./outing.mjs";
import { ROOT, withPhone } from "./phone.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");
const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
const PLAN = { ...VISIT, snow_signs: { seen: ["blood_on_snow", "drag_marks"] } };

const key = async (hand, digits) => {
  for (const digit of String(digits)) await hand.press(`[data-key="${digit === "." ? "point" : digit}"]`);
  await hand.tile("save");
};
const stage = (page, id) => page.waitForSelector(`main [data-stage="${id}"]`);

test("a sketch is paced out by taps, shown to scale, taken back and made into a map", { timeout: 600_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    const hand = await onTheWay(phone, place);
    const { page } = hand;
    const asked = await walk(hand, PLAN, { until: ({ ask }) => ask === "sketch" });
    assert.ok(asked.includes("photos"), "photos come before anybody paces");
    await page.waitForSelector('main [data-ask="sketch"]');
    await phone.picture("sketch-asked");
    await hand.tile("sketch");
    await stage(page, "sketch.head");
    await phone.picture("sketch-empty");

    // A drag to the south: the first paces ask how long one is.
    await hand.tile("add");
    await stage(page, "sketch.what");
    await phone.picture("sketch-what");
    const low = await page.evaluate(() => [...document.querySelectorAll("main .tile")].map((t) => t.getBoundingClientRect().height));
    assert.ok(low.every((height) => height >= 60), `${low}`);
    await hand.tile("drag");
    await stage(page, "sketch.way");
    await phone.picture("sketch-way");
    await hand.tile("s");
    await page.waitForSelector('main [data-key="7"]');
    await key(hand, 70);
    await stage(page, "sketch.far");
    await phone.picture("sketch-far");
    await key(hand, 12);
    await stage(page, "sketch.head");
    await page.waitForFunction(() => /1 Drag/.test(document.querySelector("main:not([hidden])").textContent));
    assert.match(await page.locator(".marks").textContent(), /12 paces \(8\.4.m\)/);

    // Blood on from there by degrees and metres; then a bed from the body.
    await hand.tile("add");
    await hand.tile("blood");
    await stage(page, "sketch.from");
    await hand.tile("from-last");
    await hand.tile("degrees");
    await page.waitForSelector('main [data-key="7"]');
    await key(hand, 200);
    await stage(page, "sketch.far");
    await hand.act("in-metres");
    await key(hand, "3.5");
    await stage(page, "sketch.head");
    await hand.tile("add");
    await hand.tile("bed");
    await hand.tile("from-body");
    await hand.tile("ne");
    await stage(page, "sketch.far");
    await hand.act("in-paces");
    await key(hand, 20);
    await stage(page, "sketch.head");
    await hand.act("set-head");
    await hand.tile("w");
    await hand.act("set-north");
    await hand.tile("compass_needle");
    await stage(page, "sketch.head");
    await saved(page);
    await phone.picture("sketch-three");
    await page.evaluate(() => document.documentElement.setAttribute("data-light", "dusk"));
    await phone.picture("sketch-three-dusk");
    await page.evaluate(() => document.documentElement.setAttribute("data-light", "day"));
    assert.deepEqual(await phone.axe(), []);

    // To scale: the number of mark 3 stands 20 paces of 0.7 m north-east of the body.
    const spots = await page.evaluate(() => [...document.querySelectorAll(".sketch text")].map((t) => ({ n: t.textContent, x: Number(t.getAttribute("x")), y: Number(t.getAttribute("y")) })));
    const at = (n) => spots.find((spot) => spot.n === n);
    const unitsAMetre = Math.hypot(at("2").x - at("1").x, at("2").y - at("1").y) / 3.5;
    const east = (at("3").x - at("1").x) / unitsAMetre;
    const north = (at("1").y - at("3").y) / unitsAMetre;
    assert.ok(Math.abs(east - 14 * Math.SQRT1_2) < 0.1 && Math.abs(north - (14 * Math.SQRT1_2 + 8.4)) < 0.1, `${east} ${north}`);

    // The last mark can be taken back; a number of no compass is refused.
    await hand.tile("undo");
    await page.waitForFunction(() => !/3 Bed/.test(document.querySelector("main:not([hidden])").textContent));
    await hand.tile("add");
    await hand.tile("hair");
    await hand.tile("from-last");
    await hand.tile("degrees");
    await key(hand, 400);
    await page.waitForFunction(() => /0 to 359/.test(document.querySelector("[data-notice]")?.textContent ?? ""));
    await hand.act("to-sketch");
    await stage(page, "sketch.head");

    // Killed: the marks are there.
    await saved(page);
    const url = page.url().split("#")[0];
    await phone.dieAndStartAgain();
    await phone.open(url);
    hand.page = phone.page;
    await hand.tile("carry-on");
    await hand.page.waitForSelector('main [data-ask="sketch"]');
    await hand.tile("sketch");
    await hand.page.waitForFunction(() => /2 Blood/.test(document.querySelector("main:not([hidden])").textContent) && !/3 Bed/.test(document.querySelector("main:not([hidden])").textContent));
    await hand.tile("done");
    await hand.page.waitForFunction(() => document.querySelector("main [data-ask]")?.dataset.ask !== "sketch");
    await saved(hand.page);

    await hand.page.goto(`${url}#hand-over`);
    await hand.page.waitForSelector('[data-field="bundle"]');
    const bundle = await hand.page.inputValue('[data-field="bundle"]');
    const folder = mkdtempSync(join(tmpdir(), "marrowbook-office-"));
    try {
      writeFileSync(join(folder, "bundle.txt"), bundle);
      const ran = spawnSync(OFFICE, ["--archive", join(folder, "archive"), "sketch", "--out", folder, "--declination", "-2", join(folder, "bundle.txt")], { encoding: "utf8" });
      assert.match(ran.stdout, /sketch-.*\.geojson/, ran.stdout + ran.stderr);
      const map = JSON.parse(readFileSync(join(folder, readdirSync(folder).find((name) => name.endsWith(".geojson"))), "utf8"));
      const kinds = map.features.map(({ geometry, properties }) => `${properties.what} ${geometry?.type}`);
      assert.deepEqual(kinds, ["body Point", "drag LineString", "blood Point"]);
      // The crew's position (outing.mjs) is the body's; the drag leads south, turned by the declination.
      const [[lon0, lat0], [lon1, lat1]] = map.features[1].geometry.coordinates;
      assert.ok(Math.abs(lat0 - 47.95) < 1e-7 && Math.abs(lon0 + 91.45) < 1e-7);
      assert.ok(lat1 < lat0 && lon1 > lon0, "two degrees west of south by the needle lead a little east");
      assert.equal(map.features[1].properties.paces, 12);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));
