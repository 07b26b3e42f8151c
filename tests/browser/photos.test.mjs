// Photos: taken or picked, made smaller without what the camera wrote into them, kept before they are named, deleted
// with a trace, handed over. The digest is worked out anew by node's own SHA-256; the JPEG markers are those of
// ISO/IEC 10918-1, the EXIF block is laid out by hand after CIPA DC-008 (TIFF 6.0 directories).
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { Hand, saved, standing, walk } from "./form.mjs";
import { VISIT, onTheWay } from "./outing.mjs";
import { ROOT, withPhone } from "./phone.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");
const SMALL = { viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 } };
/** Placed, so that the walk comes to the list of photos. */
const PLAN = { ...VISIT, photo_scene: { none: "not-looked" } };

/** What lies in a store of the form's database: keys and values, bytes as base64. */
const stored = (page, name) => page.evaluate((store) => new Promise((done, failed) => {
  const ask = indexedDB.open("marrowbook");
  ask.onerror = () => failed(ask.error);
  ask.onsuccess = () => {
    const rows = [];
    const walk = ask.result.transaction(store).objectStore(store).openCursor();
    walk.onerror = () => failed(walk.error);
    walk.onsuccess = () => {
      const at = walk.result;
      if (!at) { ask.result.close(); return done(rows); }
      const { value } = at;
      let text = value;
      if (value instanceof Uint8Array) { text = ""; for (const byte of value) text += String.fromCharCode(byte); text = btoa(text); }
      rows.push({ key: at.key, value: text });
      at.continue();
    };
  };
}), name);
const photos = async (page) => (await stored(page, "photos")).map(({ key, value }) => ({ name: key[0], bytes: Buffer.from(value, "base64") }));
/** Texts of the entries that speak of a finding. */
const entries = async (page, finding) => (await stored(page, "entries")).map(({ value }) => value)
  .filter((text) => text.replaceAll("\\", "").includes(`"finding":"${finding}"`)).map((text) => text.replaceAll("\\", ""));
const seen = async (page, finding) => (await entries(page, finding)).filter((text) => text.includes('"state":"seen"'));
const sha256 = (bytes) => createHash("sha256").update(bytes).digest("base64url");
const notice = (page) => page.evaluate(() => document.querySelector("[data-notice]")?.textContent ?? "");
const noticeSays = (page, words) => page.waitForFunction((source) => new RegExp(source).test(document.querySelector("[data-notice]")?.textContent ?? ""), words.source);

/** A JPEG drawn by the browser: bands of colour, so that up and down can be told. */
async function jpeg(page, width, height) {
  const text = await page.evaluate(async ([w, h]) => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [w, h];
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#c00000"; pen.fillRect(0, 0, w, h);
    pen.fillStyle = "#0000c0"; pen.fillRect(0, 0, w, h / 8);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.8));
    const bytes = new Uint8Array(await blob.arrayBuffer());
    let out = "";
    for (let i = 0; i < bytes.length; i += 8192) out += String.fromCharCode(...bytes.subarray(i, i + 8192));
    return btoa(out);
  }, [width, height]);
  return Buffer.from(text, "base64");
}

/** The same with what a camera writes: orientation 6 (turn right), and a position. */
function withExif(bytes) {
  const tiff = Buffer.alloc(26 + 12 + 12 + 4 + 12 * 4 + 6 + 48);
  tiff.write("II", 0, "latin1"); tiff.writeUInt16LE(42, 2); tiff.writeUInt32LE(8, 4);
  tiff.writeUInt16LE(2, 8); // first directory: orientation, pointer to the GPS directory
  const entry = (at, tag, type, count, value) => {
    tiff.writeUInt16LE(tag, at); tiff.writeUInt16LE(type, at + 2); tiff.writeUInt32LE(count, at + 4);
    if (type === 3) tiff.writeUInt16LE(value, at + 8); else if (type === 2) tiff.write(value, at + 8, "latin1"); else tiff.writeUInt32LE(value, at + 8);
  };
  entry(10, 0x0112, 3, 1, 6);
  entry(22, 0x8825, 4, 1, 38);
  tiff.writeUInt32LE(0, 34);
  tiff.writeUInt16LE(4, 38); // GPS directory
  const at = 38 + 2 + 4 * 12 + 4;
  entry(40, 1, 2, 2, "N"); entry(52, 2, 5, 3, at); entry(64, 3, 2, 2, "W"); entry(76, 4, 5, 3, at + 24);
  [47, 57, 0, 91, 27, 0].forEach((n, i) => { tiff.writeUInt32LE(n, at + i * 8); tiff.writeUInt32LE(1, at + i * 8 + 4); });
  const head = Buffer.from("Exif\0\0", "latin1");
  const length = Buffer.alloc(4);
  length.writeUInt16BE(0xffe1, 0); length.writeUInt16BE(2 + head.length + tiff.length, 2);
  return Buffer.concat([bytes.subarray(0, 2), length, head, tiff, bytes.subarray(2)]);
}

/** Width and height from the frame header, and the markers before it. */
function measured(bytes) {
  const markers = [];
  for (let at = 2; at < bytes.length;) {
    const marker = bytes.readUInt16BE(at);
    markers.push(marker);
    if (marker === 0xffc0 || marker === 0xffc2) return { height: bytes.readUInt16BE(at + 5), width: bytes.readUInt16BE(at + 7), markers };
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  throw new Error("no frame header");
}

/** Taps a tile with a file behind it and hands over a file, as the camera would. */
async function give(hand, tile, file) {
  await hand.page.locator(`main [data-tile="${tile}"] input`).waitFor({ state: "attached" });
  const chooser = hand.page.waitForEvent("filechooser");
  await hand.tile(tile);
  await (await chooser).setFiles(file);
}
const jpg = (buffer, name = "IMG_0001.jpg") => ({ name, mimeType: "image/jpeg", buffer });
const counts = (page, tile, n) => page.waitForFunction(([name, text]) => document.querySelector(`main [data-tile="${name}"] .tick`)?.textContent === text, [tile, `\u2713 ${n}`]);

async function atTheList(phone, place) {
  const hand = await onTheWay(phone, place);
  await walk(hand, PLAN, { until: ({ ask }) => ask === "photos" });
  await hand.page.waitForSelector('main [data-ask="photos"]');
  return hand;
}

test("photos of the list: smaller, turned, without position, kept before they are named, counted, skipped", { timeout: 600_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    const hand = await atTheList(phone, place);
    const { page } = hand;
    const tiles = (await standing(page)).tiles;
    assert.deepEqual(tiles.slice(0, 4), ["photo-31", "photo-32", "photo-33", "photo-34"], "tracks first, then the sides");
    const input = page.locator('main [data-tile="photo-31"] input');
    assert.equal(await input.getAttribute("capture"), "environment");
    assert.match(await input.getAttribute("accept"), /image/);
    await phone.picture("photos-list");
    const fits = await page.evaluate(() => [...document.querySelectorAll("main .tile")].every((t) => t.getBoundingClientRect().height >= 60));
    assert.ok(fits, "every tile is at least 60 px tall");

    const taken = withExif(await jpeg(page, 2400, 1200));
    assert.ok(taken.includes("Exif") && taken.includes(Buffer.from([47, 0, 0, 0, 1, 0, 0, 0])));
    await give(hand, "photo-31", jpg(taken));
    await counts(page, "photo-31", 1);
    await saved(page);
    const [first] = await photos(page);
    assert.ok(!first.bytes.includes("Exif") && !first.bytes.includes("GPS"), "nothing of the camera's is left");
    const { width, height, markers } = measured(first.bytes);
    assert.ok(!markers.includes(0xffe1), `markers ${markers.map((m) => m.toString(16))}`);
    assert.deepEqual([width, height], [800, 1600], "turned upright and made smaller");
    assert.equal(sha256(first.bytes), first.name, "kept under its own digest");
    const named = await seen(page, "photo");
    assert.equal(named.length, 1);
    assert.ok(named[0].includes(`"sha256":"${first.name}"`) && named[0].includes(`"bytes":${first.bytes.length}`) && named[0].includes('"item":31'));

    // A second of the same thing stands beside the first; a small picture is not blown up.
    await give(hand, "photo-31", jpg(await jpeg(page, 640, 480)));
    await counts(page, "photo-31", 2);
    await give(hand, "photo-32", jpg(await jpeg(page, 1000, 900)));
    await counts(page, "photo-32", 1);
    await saved(page);
    const sizes = (await photos(page)).map(({ bytes }) => measured(bytes)).map((m) => `${m.width}x${m.height}`).sort();
    assert.deepEqual(sizes, ["1000x900", "640x480", "800x1600"]);
    await phone.picture("photos-list-taken");

    // From the phone's own pictures: the same tiles without the camera.
    await hand.act("from-pictures");
    assert.equal(await input.getAttribute("capture"), null);

    await hand.tile("done");
    await page.waitForFunction(() => document.querySelector("main [data-ask]")?.dataset.ask !== "photos");
    await saved(page);
    const skipped = (await entries(page, "photo")).filter((text) => text.includes('"state":"not_looked"'));
    assert.equal(skipped.filter((text) => /"item":3[3-8]/.test(text)).length, 6, "what was left out is written as not looked for");
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));

test("what is no picture, HEIC, damaged, and 40 megapixels", { timeout: 600_000 }, () => withPhone(SMALL, async (phone, place) => {
  const hand = await atTheList(phone, place);
  const { page } = hand;
  const before = (await stored(page, "entries")).length;
  const good = await jpeg(page, 800, 600);
  const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic\0\0\0\0mif1heic", "latin1"), Buffer.alloc(400)]);
  for (const [file, words] of [
    [{ name: "notes.jpg", mimeType: "image/jpeg", buffer: Buffer.from("not a picture at all") }, /no picture/],
    [{ name: "IMG_0002.HEIC", mimeType: "image/heic", buffer: heic }, /HEIC/],
    [jpg(good.subarray(0, 120), "cut.jpg"), /damaged/],
    [jpg(Buffer.alloc(0), "empty.jpg"), /no picture/],
  ]) {
    await give(hand, "photo-31", file);
    await noticeSays(page, words);
    assert.equal((await photos(page)).length, 0, file.name);
  }
  assert.equal((await stored(page, "entries")).length, before, "nothing was written for them");
  await phone.picture("photos-no-picture");

  const large = await jpeg(page, 8000, 5000);
  await give(hand, "photo-31", jpg(large));
  await counts(page, "photo-31", 1);
  await saved(page);
  const [kept] = await photos(page);
  const { width, height } = measured(kept.bytes);
  assert.deepEqual([width, height], [1600, 1000]);
  assert.deepEqual(phone.faults, []);
}));

test("killed while the camera is open: back at that photo, and told what is missing", { timeout: 600_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    let hand = await atTheList(phone, place);
    const url = hand.page.url().split("#")[0];
    const chooser = hand.page.waitForEvent("filechooser");
    await hand.tile("photo-33");
    await chooser;
    await hand.page.waitForTimeout(600);
    await phone.dieAndStartAgain();
    await phone.open(url);
    hand = new Hand(phone.page);
    await hand.page.waitForSelector('main [data-ask="photos"]');
    await noticeSays(hand.page, /never came back/);
    await phone.picture("photos-after-kill");
    assert.equal((await photos(hand.page)).length, 0);
    await give(hand, "photo-33", jpg(await jpeg(hand.page, 900, 700)));
    await counts(hand.page, "photo-33", 1);
    await saved(hand.page);

    // Told once: the next start is an ordinary one.
    await phone.dieAndStartAgain();
    await phone.open(url);
    hand = new Hand(phone.page);
    await hand.page.waitForSelector('main [data-tile="carry-on"]');
    assert.doesNotMatch(await notice(hand.page), /came back/);

    // Killed after the picture was on disk and before its entry: the entry is written at the next start.
    await hand.page.goto(`${url}#visit/photos`);
    await hand.page.waitForSelector('main [data-ask="photos"]');
    const bytes = await jpeg(hand.page, 700, 500);
    const name = sha256(bytes);
    const [one] = await seen(hand.page, "photo");
    const exam = /"examination":"([0-9a-f-]{36})"/.exec(one)[1];
    await hand.page.evaluate(([key, text, slot]) => new Promise((done, failed) => {
      const ask = indexedDB.open("marrowbook");
      ask.onsuccess = () => {
        const write = ask.result.transaction("photos", "readwrite");
        write.objectStore("photos").put(Uint8Array.from(atob(text), (c) => c.charCodeAt(0)), [key]);
        write.oncomplete = () => { ask.result.close(); localStorage.setItem("marrowbook.photo-slot", slot); done(); };
        write.onerror = () => failed(write.error);
      };
    }), [name, bytes.toString("base64"), `photos 36 ${exam} - ${Date.now()} ${name} ${bytes.length} image/jpeg`]);
    await hand.page.reload();
    await noticeSays(hand.page, /closed in between/);
    await saved(hand.page);
    const rows = (await seen(hand.page, "photo")).filter((text) => text.includes(name));
    assert.equal(rows.length, 1);
    assert.ok(rows[0].includes('"item":36'));
    assert.deepEqual(phone.faults, []);
  }));

test("no room in the middle: nothing half stays, and a sentence says what to do", { timeout: 600_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    const hand = await atTheList(phone, place);
    const { page } = hand;
    const file = jpg(await jpeg(page, 1600, 1200));
    const session = await phone.context.newCDPSession(page);
    const { origin } = new URL(page.url());
    const used = (await session.send("Storage.getUsageAndQuota", { origin })).usage;
    await session.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: Math.max(1, Math.floor(used * 0.5)) });
    // Chromium believes what it last knew of the room left for half a minute (seen: a photo was taken right after).
    await page.waitForTimeout(35_000);
    const before = (await stored(page, "entries")).length;
    await give(hand, "photo-31", file);
    await noticeSays(page, /No room/);
    await phone.picture("photos-no-room");
    assert.equal((await photos(page)).length, 0);
    assert.equal((await stored(page, "entries")).length, before);
    assert.equal((await standing(page)).ask, "photos");
    await session.send("Storage.overrideQuotaForOrigin", { origin });
    await page.waitForTimeout(35_000);
    await give(hand, "photo-31", file);
    await counts(page, "photo-31", 1);
    await saved(page);
    assert.equal((await photos(page)).length, 1);
  }));

test("deleted with a trace, handed over in parts, and matched at the office by digest", { timeout: 600_000 }, () =>
  withPhone(SMALL, async (phone, place) => {
    await phone.context.addInitScript(() => {
      globalThis.given = [];
      Object.defineProperty(navigator, "canShare", { value: () => true });
      Object.defineProperty(navigator, "share", { value: async ({ files }) => {
        const all = [];
        for (const file of files) {
          const bytes = new Uint8Array(await file.arrayBuffer());
          let text = "";
          for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
          all.push({ name: file.name, type: file.type, text: btoa(text) });
        }
        globalThis.given.push(all);
      } });
    });
    const hand = await atTheList(phone, place);
    const { page } = hand;
    const base = page.url().split("#")[0];
    for (let n = 1; n <= 12; n += 1) {
      const tile = `photo-${31 + (n % 4)}`;
      const already = await page.locator(`main [data-tile="${tile}"] .tick`).textContent();
      await give(hand, tile, jpg(await jpeg(page, 300 + 10 * n, 200)));
      await counts(page, tile, Number(already.slice(2) || 0) + 1);
    }
    await saved(page);
    assert.equal((await photos(page)).length, 12);

    // One is deleted: asked once more, then the trace is on disk and the bytes are gone.
    await hand.act("photos");
    await page.waitForSelector("[data-photo] img");
    await page.waitForSelector("[data-room]");
    await phone.picture("photos-gallery");
    assert.match(await page.locator("[data-storage]").textContent(), /12 photos/);
    const name = await page.locator("[data-photo]").first().getAttribute("data-photo");
    await hand.act("delete");
    await page.waitForSelector('main [data-tile="delete-it"]');
    await phone.picture("photos-delete");
    await hand.tile("delete-it");
    await page.waitForFunction(() => /Deleted/.test(document.querySelector("[data-photo]")?.textContent ?? ""));
    await saved(page);
    await page.waitForTimeout(300);
    assert.ok(!(await photos(page)).some((photo) => photo.name === name), "its bytes are gone");
    const trace = await seen(page, "photo_deleted");
    assert.ok(trace.length === 1 && trace[0].includes(name), "its trace is kept");
    assert.ok((await seen(page, "photo")).some((text) => text.includes(name)), "what named it stays in the journal");

    await page.goto(`${base}#hand-over`);
    await page.waitForSelector('main [data-tile="share"]');
    await phone.picture("photos-hand-over");
    await hand.tile("share");
    await noticeSays(page, /to go/);
    await page.waitForFunction(() => /10 to 11/.test(document.querySelector('main [data-tile="share"]')?.textContent ?? ""));
    await hand.tile("share");
    await page.waitForFunction(() => globalThis.given.length === 2);
    const given = await page.evaluate(() => globalThis.given);
    assert.deepEqual(given.map((sheet) => sheet.length), [10, 2], "at most ten files a sheet, the bundle first");
    const files = given.flat();
    assert.ok(files.slice(1).every(({ name, type, text }) => type === "image/jpeg" && name.includes(sha256(Buffer.from(text, "base64")))));

    const folder = mkdtempSync(join(tmpdir(), "marrowbook-office-"));
    try {
      const archive = join(folder, "archive");
      const mail = join(folder, "mail", "attachments");
      mkdirSync(mail, { recursive: true });
      const office = (...args) => spawnSync(OFFICE, ["--archive", archive, ...args], { encoding: "utf8" });
      const put = (at, { text }) => writeFileSync(join(mail, at), Buffer.from(text, "base64"));
      put("bundle.txt", files[0]);
      writeFileSync(join(mail, "Thumbs.db"), "of the mail program");
      // Renamed by the mail program, one under another's name, one still to come.
      files.slice(1, 11).forEach((file, i) => put(`image${i}.jpg`, file));
      const open = office("open", "--keep", join(folder, "mail"));
      assert.match(open.stdout, /10 photos received as signed/);
      const missing = [...open.stdout.matchAll(/photo named in the bundle but not received: (\S+)/g)].map(([, digest]) => digest);
      assert.deepEqual(missing, [sha256(Buffer.from(files[11].text, "base64"))]);
      assert.match(open.stdout, new RegExp(`photo deleted on the phone, its trace kept: ${name}`));
      assert.match(open.stderr, /Thumbs\.db: passed over/);
      // The last one comes a day later, alone.
      writeFileSync(join(folder, "late.jpeg"), Buffer.from(files[11].text, "base64"));
      const late = office("open", "--keep", join(folder, "late.jpeg"));
      assert.match(late.stdout, /a photo named in .*received/);
      assert.equal(late.status, 0);
      const again = office("open", join(mail, "bundle.txt"));
      assert.match(again.stdout, /11 photos received as signed/);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
    assert.deepEqual(phone.faults, []);
    assert.deepEqual(phone.violations, []);
  }));
