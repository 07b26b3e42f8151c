// Hand-over from phone to phone without signal: what one phone's screen shows is played to another phone's camera
// (Chromium's file as a camera), which keeps it over a restart and hands it on; the office opens both files.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { deflateRawSync } from "node:zlib";
import { outing } from "./five-deer.mjs";
import { saved } from "./form.mjs";
import { FLAGS, ROOT, withPhone } from "./phone.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");
const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
const DEER = 5;
/** Pictures of the screen that the camera goes round in. */
const ROUNDS = 1.5;
const [WIDE, HIGH, SCALE] = [640, 480, 6];

/** A Y4M file of codes given as SVG paths of runs `Mx yhw`, one second's tenth each. */
function film(codes, side) {
  const parts = [Buffer.from(`YUV4MPEG2 W${WIDE} H${HIGH} F10:1 Ip A1:1 C420jpeg\n`)];
  const colour = Buffer.alloc(WIDE * HIGH / 2, 128);
  const left = Math.floor((WIDE - side * SCALE) / 2), top = Math.floor((HIGH - side * SCALE) / 2);
  for (const code of codes) {
    const luma = Buffer.alloc(WIDE * HIGH, 255);
    for (const [, x, y, w] of code.matchAll(/M(\d+) (\d+)h(\d+)/g)) {
      for (let row = 0; row < SCALE; row += 1) {
        const from = (top + y * SCALE + row) * WIDE + left + x * SCALE;
        luma.fill(0, from, from + w * SCALE);
      }
    }
    parts.push(Buffer.from("FRAME\n"), luma, colour);
  }
  return Buffer.concat(parts);
}

async function playDemo(phone, place) {
  await phone.open(`${place.url}#demo`);
  await phone.page.waitForFunction((n) => document.querySelectorAll('[data-act^="readings-"]').length === n, DEER);
  await saved(phone.page);
}

/** The codes on a phone's screen, each as it appears, and the side of their view box. */
async function shown(page) {
  await page.waitForSelector('[data-frames="shown"]');
  return page.evaluate((rounds) => new Promise((done) => {
    const svg = document.querySelector("svg.frames"), path = svg.querySelectorAll("path")[1];
    const wanted = Math.ceil(Number(svg.dataset.round) * rounds) + 5, codes = [path.getAttribute("d")];
    new MutationObserver((_, watch) => {
      codes.push(path.getAttribute("d"));
      if (codes.length >= wanted) { watch.disconnect(); done({ codes, side: svg.viewBox.baseVal.width, round: Number(svg.dataset.round) }); }
    }).observe(path, { attributes: true, attributeFilter: ["d"] });
  }), ROUNDS);
}

test("a bundle goes from screen to camera, outlives a restart, is handed on beside the own one; the office opens both", { timeout: 600_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-frames-"));
  try {
    writeFileSync(join(folder, "outing.json"), outing());
    writeFileSync(join(folder, "card.txt"), readFileSync(join(ROOT, "demo/card.txt"), "utf8"));
    const film_at = join(folder, "film.y4m");
    let sent;
    await withPhone({ ...SMALL, also: { demo: folder } }, async (phone, place) => {
      await playDemo(phone, place);
      await phone.page.goto(`${place.url}#show`);
      const { codes, side, round } = await shown(phone.page);
      await phone.picture("frames-show");
      assert.deepEqual(await phone.axe(), []);
      console.log(`# ${round} codes a round for ${DEER} carcasses`);
      writeFileSync(film_at, film(codes, side));
      await phone.page.tap('[data-tile="stop"]');
      await phone.page.waitForSelector('[data-bundle="made"]');
      sent = await phone.page.inputValue('[data-field="bundle"]');
      assert.deepEqual(phone.violations, []);
    });
    const args = [...FLAGS, "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", `--use-file-for-fake-video-capture=${film_at}`];
    await withPhone({ ...SMALL, also: { demo: folder }, args, permissions: ["camera"] }, async (phone, place) => {
      await playDemo(phone, place);
      await phone.offlineReady();
      // No signal from here on: the part has to be on the phone.
      await phone.context.setOffline(true);
      const { page } = phone;
      await page.evaluate(() => { location.hash = "take"; });
      await page.waitForFunction(() => /^[1-9]/.test(document.querySelector("[data-far]")?.dataset.far ?? ""), null, { timeout: 60_000 });
      await phone.picture("frames-take");
      await page.waitForSelector('[data-take="came"]', { timeout: 120_000 });
      const told = await page.textContent('[data-take="came"]');
      assert.match(told, new RegExp(`${DEER} carcasses.*signature is good`, "s"));
      await phone.picture("frames-came");
      // The same once more is no news.
      await page.tap('[data-tile="again"]');
      await page.waitForFunction(() => /nothing new/.test(document.querySelector('[data-take="came"]')?.textContent ?? ""), null, { timeout: 120_000 });
      await phone.context.setOffline(false);
      await phone.dieAndStartAgain();
      await phone.open(`${place.url}#hand-over`);
      await phone.page.waitForSelector("[data-received]");
      await phone.picture("frames-hand-over");
      const files = [];
      phone.page.on("download", (one) => files.push(one));
      await phone.page.tap('[data-tile="download"]');
      for (let wait = 0; files.length < 2 && wait < 100; wait += 1) await phone.page.waitForTimeout(100);
      assert.equal(files.length, 2, "its own and the other phone's");
      const saved_at = await Promise.all(files.map(async (file, n) => { const at = join(folder, `${n}.txt`); await file.saveAs(at); return at; }));
      const payload = (text) => JSON.parse(text).protected;
      assert.equal(payload(readFileSync(saved_at[1], "utf8")), payload(sent), "signed by the other phone");
      assert.notEqual(payload(readFileSync(saved_at[0], "utf8")), payload(sent));
      const opened = spawnSync(OFFICE, ["--archive", join(folder, "archive"), "open", ...saved_at, "--json"], { encoding: "utf8" });
      assert.equal(opened.status, 3, `intact, not enrolled: ${opened.stdout}${opened.stderr}`);
      assert.deepEqual(opened.stdout.trim().split("\n").map((line) => JSON.parse(line).outcome), ["unknown_device", "unknown_device"]);
      // Handed on by codes too, as the other phone signed it.
      await phone.page.tap('[data-act="show-received"]');
      await phone.page.waitForSelector('[data-frames="shown"]');
      assert.equal(await phone.page.evaluate(() => location.hash), "#show/1");
      await phone.page.waitForTimeout(400); // a screen that has just appeared takes no tap
      await phone.page.tap('[data-tile="stop"]');
      await phone.page.waitForSelector("[data-received]");
      // Deleted only when it is asked for twice.
      await phone.page.waitForTimeout(400);
      await phone.page.tap('[data-act="delete-received"]');
      await phone.page.waitForTimeout(400);
      await phone.page.tap('[data-tile="delete-it"]');
      await phone.page.waitForFunction(() => !document.querySelector("[data-received]"));
      assert.deepEqual(phone.violations, []);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

/** What a phone sees that looks at these codes for good. */
function filmed(folder, name, codes, side) {
  const at = join(folder, name);
  writeFileSync(at, film(codes, side));
  return [...FLAGS, "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", `--use-file-for-fake-video-capture=${at}`];
}

/** The codes that the part shows for a file. */
function codesOf(page, bytes) {
  return page.evaluate(async (all) => {
    const part = await globalThis.marrowbookPart("parts/frames.js");
    await part.ready();
    const box = Object.assign(document.createElement("div"), { id: "frames-box" });
    document.body.append(box);
    await part.show("en", new Uint8Array(all));
  }, [...bytes]).then(() => shown(page));
}

test("the office's card comes by camera, its words are compared first; a code of another kind is told", { timeout: 300_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-frames-card-"));
  try {
    const card = readFileSync(join(ROOT, "demo/card.txt"), "utf8");
    let codes, side, other;
    await withPhone({ ...SMALL }, async (phone, place) => {
      await phone.open(place.url);
      ({ codes, side } = await codesOf(phone.page, deflateRawSync(card)));
      other = await phone.page.evaluate(async () => {
        const box = Object.assign(document.createElement("div"), { className: "qr" });
        Object.assign(box.dataset, { code: "https://example.org/trail", label: "other" });
        document.body.append(box);
        (await globalThis.marrowbookPart("parts/frames.js")).draw();
        const svg = box.querySelector("svg");
        return { code: svg.querySelectorAll("path")[1].getAttribute("d"), side: svg.viewBox.baseVal.width };
      });
    });
    await withPhone({ ...SMALL, args: filmed(folder, "card.y4m", codes, side), permissions: ["camera"] }, async (phone, place) => {
      await phone.open(`${place.url}#card`);
      await phone.page.evaluate(() => { location.hash = "take"; });
      await phone.page.waitForSelector('[data-act="other-words"]', { timeout: 120_000 });
      await phone.picture("frames-card");
      assert.deepEqual(phone.violations, []);
    });
    await withPhone({ ...SMALL, args: filmed(folder, "other.y4m", [other.code], other.side), permissions: ["camera"] }, async (phone, place) => {
      await phone.open(`${place.url}#take`);
      await phone.page.waitForFunction(() => /another code, not ours/.test(document.querySelector("[data-far]")?.textContent ?? ""), null, { timeout: 30_000 });
      await phone.page.evaluate(() => { globalThis.held = document.querySelector("video").srcObject.getTracks()[0]; });
      assert.equal(await phone.page.evaluate(() => globalThis.held.readyState), "live");
      // Left midway, the camera is given back.
      await phone.page.tap('[data-tile="stop"]');
      await phone.page.waitForFunction(() => !document.querySelector("video") && globalThis.held.readyState === "ended");
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("without a camera the screen says so and what next", { timeout: 120_000 }, () =>
  withPhone({ ...SMALL }, async (phone, place) => {
    await phone.open(`${place.url}#take`);
    await phone.page.waitForSelector('[data-take="trouble"]');
    assert.match(await phone.page.textContent('[data-take="trouble"]'), /no camera|not allowed/);
    await phone.picture("frames-no-camera");
    assert.deepEqual(await phone.axe(), []);
  }));
