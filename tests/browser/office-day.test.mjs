// A new office's day in the page, without a command line: key, card, the card on a phone, crews' files in, a phone
// enrolled, the archive out as a zip and opened by the command line. No check value: the figures are held against the
// command line's own on the same files.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { ROOT, withPhone } from "./phone.mjs";
import { OFFICE, handedIn } from "./season.mjs";

const PASSPHRASE = "quillback ridge is invented";
const MARKUP = "<img src=x onerror=alert(1)>";
const WIDE = { viewport: { width: 1280, height: 900 }, screen: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1 };

async function fits(page, name) {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${name} is ${wide} px too wide`);
}

/** A clause of text in the part that is shown. */
async function says(page, selector, words) {
  await page.waitForFunction(([at, wanted]) => new RegExp(wanted).test(document.querySelector(at)?.innerText ?? ""), [selector, words.source], { timeout: 60_000 });
}

async function download(page, act, part) {
  if (part) await page.click(`[data-nav="${part}"]`);
  const [file] = await Promise.all([page.waitForEvent("download"), page.click(`[data-act="${act}"]`)]);
  const path = join(mkdtempSync(join(tmpdir(), "marrowbook-office-")), file.suggestedFilename());
  await file.saveAs(path);
  return path;
}

async function makeKey(page) {
  await page.click('[data-nav="archive"]');
  await page.fill('[data-field="key.page.passphrase_new"]', "too short");
  await page.click('[data-act="make-key"]');
  await says(page, "[data-key-said]", /at least 15 characters/);
  await page.fill('[data-field="key.page.passphrase_new"]', PASSPHRASE);
  await page.fill('[data-field="key.page.again"]', PASSPHRASE + "x");
  await page.click('[data-act="make-key"]');
  await says(page, "[data-key-said]", /not the same/);
  await page.fill('[data-field="key.page.again"]', PASSPHRASE);
  await page.click('[data-act="make-key"]');
  await page.waitForSelector('[data-key="open"]', { timeout: 60_000 });
}

async function makeCard(page) {
  const set = async (at, value) => {
    await page.fill(`[data-at="${at}"]`, value);
    await page.locator(`[data-at="${at}"]`).blur();
  };
  await page.click('[data-nav="card"]');
  await page.click('[data-act="sign-card"]');
  await says(page, "[data-card-said]", /Mend what is listed/);
  await set("/office", "Quillback Ridge Reserve (invented)");
  await set("/valid_from", "2026-10-01");
  await set("/valid_to", "2030-06-30");
  for (const [n, role] of ["lead", "officer", "emergency", "vet"].entries()) {
    await page.click('[data-act="add-calls"]');
    await page.selectOption(`[data-at="/calls/${n}/call_for"]`, role);
    await set(`/calls/${n}/name`, `${role}, invented`);
    if (role !== "vet") await set(`/calls/${n}/number`, "as on the reserve's paper plan");
  }
  await page.click('[data-act="add-people"]');
  await set("/people/0/code", "K 7");
  await set("/people/0/name", "Ada Fenn (invented)");
  await set("/limits/min_crew_count", "two");
  await page.check('[data-at="/people/0/may_touch"]');
  await page.check('[data-at="/flags/predators/coyote"]');
  await page.waitForFunction(() => document.querySelector("[data-faults]").dataset.faults === "3");
  await page.click('[data-act="sign-card"]');
  await says(page, "[data-card-said]", /Mend what is listed/);
  assert.equal(await page.locator("[data-signed]").count(), 0, "a card with flaws is not signed");
}

async function mendCard(page) {
  for (const [at, value] of [["/people/0/code", "K7"], ["/limits/min_crew_count", "2"], ["/calls/3/number", "as on the reserve's paper plan"]]) {
    await page.fill(`[data-at="${at}"]`, value);
    await page.locator(`[data-at="${at}"]`).blur();
  }
  await page.waitForFunction(() => document.querySelector("[data-faults]").dataset.faults === "0");
  await page.click('[data-act="sign-card"]');
  await page.waitForSelector('[data-signed="1"]');
  // For a phone's camera: codes that move.
  await page.click('[data-act="show-card"]');
  await page.waitForSelector('[data-frames="shown"]');
  const code = () => page.locator(".frames path").nth(1).getAttribute("d");
  const first = await code();
  await page.waitForFunction((before) => document.querySelectorAll(".frames path")[1].getAttribute("d") !== before, first);
  await page.click('[data-act="show-card"]');
  await page.waitForSelector('[data-frames="shown"]', { state: "detached" });
}

/** Figures come in short parts after each change; this waits for the last. */
async function worked(page) {
  await page.waitForTimeout(50);
  await page.waitForFunction(() => document.querySelector("[data-working]").dataset.working === "no", null, { timeout: 120_000 });
}

/** Every carcass of the list, page by page. */
async function listed(page) {
  await page.click('[data-nav="carcasses"]');
  const all = [];
  for (;;) {
    all.push(...await page.evaluate(() => [...document.querySelectorAll("[data-carcasses] [data-carcass]")].map((one) => ({
      id: one.dataset.carcass,
      heads: [...one.querySelectorAll(":scope > ul:first-of-type > li")].map((li) => li.textContent),
    }))));
    const on = page.locator('[data-carcasses] [data-act="page-on"]');
    if (await on.count() === 0 || await on.isDisabled()) return all;
    await on.click();
  }
}

const counted = (page) => page.evaluate(() => Number(document.querySelector("[data-carcasses]")?.dataset.carcasses ?? 0));
const looked = (page) => page.evaluate(() => Number(document.querySelector("[data-looked]")?.dataset.looked ?? 0));

/** One animal reported twice is joined by a person, counted once, and taken apart again. */
async function decideOnThePage(page, look, whole, run, folder) {
  await page.click('[data-nav="decide"]');
  await page.waitForSelector("[data-waiting=doubles] [data-pair]", { timeout: 120_000 });
  assert.equal(await page.locator('[data-part="decide"] [data-no-key]').count(), 0);
  await look("decide");
  const first = page.locator("[data-waiting=doubles] [data-pair]").first();
  const pair = (await first.getAttribute("data-pair")).split(" ");
  const why = await first.innerText();
  assert.match(why, /in 100 that they are one animal/);
  // The command line's list says the same of the same two.
  const list = run(["decide", "list"]);
  assert.ok(list.includes(`office decide same ${pair[0]} ${pair[1]} --by CODE`), list.slice(0, 2000));
  for (const line of why.split("\n").filter((one) => /^(\d|Odds)/.test(one))) assert.ok(list.includes(line), line);
  await page.fill('[data-field="decide-by"]', "not a code!");
  await first.locator('[data-act="same"]').click();
  await says(page, "[data-decide-said]", /Type your person code first/);
  await page.fill('[data-field="decide-by"]', "K7");
  await first.locator('[data-act="same"]').click();
  await says(page, "[data-decide-said]", /Decided and kept in the archive/);
  await worked(page);
  assert.equal(await counted(page), whole - 1, "figures follow");
  // Saved, the command line reads the same decision.
  await page.click('[data-nav="archive"]');
  const zip = await download(page, "save-zip");
  execFileSync("python3", ["-m", "zipfile", "-e", zip, folder]);
  const files = readdirSync(join(folder, "received")).map((name) => join(folder, "received", name));
  assert.equal(run(["read", ...files]).trim().split("\n").length, whole - 1);
  await page.click('[data-nav="decide"]');
  await page.locator(`[data-joined="${pair.join(" ")}"] [data-act="apart"]`).click();
  await worked(page);
  assert.equal(await counted(page), whole, "taken apart again");
  const after = await download(page, "save-zip", "archive");
  execFileSync("python3", ["-m", "zipfile", "-e", after, folder]);
  await page.click('[data-nav="decide"]');
  await page.waitForFunction((pair) => document.querySelector('[data-part="decide"]').innerText.length > 0 && !document.querySelector(`[data-pair="${pair}"]`), pair.join(" "), { timeout: 60_000 });
}

/** One carcass on the page: the command line's own report, printed and saved from here. */
async function carcassPage(page, phone, look, run, folder) {
  await page.click('[data-nav="carcasses"]');
  // One whose phone was given a name that looks like markup.
  let code = "";
  for (const { id } of (await listed(page)).reverse()) {
    await page.fill('[data-field="find"]', id);
    await page.click(`[data-carcass="${id}"] [data-act="open-carcass"]`);
    await page.waitForSelector(".paper h1");
    code = (await page.innerText(".paper h1")).replace("Report on carcass ", "");
    if ((await page.innerText(".paper")).includes(MARKUP)) break;
    code = "";
    await page.click('[data-act="back-to-list"]');
  }
  assert.ok(code, "a carcass of that phone");
  assert.equal(await page.locator(".paper script, .paper iframe, .paper img:not([src^=\"data:image/\"]), .paper [onerror]").count(), 0);
  await look("carcass");
  const text = await page.innerText(".paper");
  for (const part of ["Files that this rests on", "File SHA-256", "Chain of custody", "Laboratory and office", "What the phone said", "Continuation: every answer"]) assert.ok(text.includes(part), part);
  const saved = readFileSync(await download(page, "report"), "utf8");
  run(["report", code, "--out", join(folder, "report.html")]);
  const body = (html) => html.slice(html.indexOf("<body")).replace(/Worked out on [0-9: -]+/, "");
  assert.equal(body(saved), body(readFileSync(join(folder, "report.html"), "utf8")), "one source for both");
  await page.evaluate(() => { globalThis.print = () => { globalThis.printedAs = document.title; }; });
  await page.click('[data-act="print"]');
  assert.equal(await page.evaluate(() => globalThis.printedAs), `report-${code}`);
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format, path: join(ROOT, `tests/out/office-carcass-${format}.pdf`) });
    const sheets = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
    assert.ok(sheets >= 2 && sheets <= 6, `${sheets} sheets of ${format}`);
  }
  await page.click('[data-act="back-to-list"]');
}

/** From what lies in the archive to the season's figures, and all of it as a zip. */
async function season(page, look) {
  await page.click('[data-nav="season"]');
  await page.click('[data-act="work-season"]');
  await page.waitForSelector("[data-season]", { timeout: 240_000 });
  assert.ok(Number(await page.getAttribute("[data-season]", "data-season")) > 20);
  assert.equal(await page.locator("[data-plot] svg").count(), 4);
  await look("season");
  // Every table opened: heads in words, shares in 100.
  const heads = await page.evaluate(() => [...document.querySelectorAll(".season-table th")].map((one) => one.textContent));
  assert.ok(heads.length > 40 && heads.every((head) => head && !/season\.|_/.test(head)), heads.filter((head) => !head || /season\.|_/.test(head)).join(", "));
  await page.evaluate(() => document.querySelectorAll('[data-part="season"] details').forEach((one) => { one.open = true; }));
  await look("season-tables");
  await page.fill('[data-field="season-winter"]', "last");
  await page.click('[data-act="work-season"]');
  await says(page, '[data-part="season"] [role="alert"]', /`last` is no year/);
  await page.fill('[data-field="season-winter"]', "");
  const zip = await download(page, "save-season");
  const names = execFileSync("python3", ["-m", "zipfile", "-l", zip], { encoding: "utf8" });
  for (const name of ["manifest.txt", "season.json", "causes.csv", "weeks.svg"]) assert.ok(names.includes(name), names);
}

/** What leaves the page for others is what the command line writes, but for Parquet. */
async function handOn(page, look, run, folder) {
  await page.click('[data-nav="exports"]');
  await page.fill('[data-field="export-cell"]', "50");
  await page.click('[data-act="export"]');
  await says(page, '[data-export="false"]', /squares of 50 m are too fine/);
  await page.fill('[data-field="export-cell"]', "2000");
  await look("exports");
  const zip = await download(page, "export");
  await says(page, '[data-export="true"]', /carcasses in \d+ files\. Places are blurred/);
  const [mine, theirs] = ["page", "command"].map((name) => join(folder, `export-${name}`));
  execFileSync("python3", ["-m", "zipfile", "-e", zip, mine]);
  run(["export", "--out", theirs]);
  for (const name of ["csv/carcasses.csv", "csv/findings.csv", "csv/readings.csv", "carcasses.geojson", "carcasses.ndjson", "dwca/occurrence.txt", "dwca/measurementorfact.txt"]) {
    assert.ok(readFileSync(join(mine, name)).equals(readFileSync(join(theirs, name))), `${name} differs`);
  }
  const labels = await download(page, "labels");
  run(["labels", "--out", join(folder, "labels.html")]);
  const numbers = (path) => [...readFileSync(path, "utf8").matchAll(/data-label="([^"]+)"/g)].map((found) => found[1]).sort();
  assert.ok(numbers(labels).length > 0);
  assert.deepEqual(numbers(labels), numbers(join(folder, "labels.html")));
  const paper = await download(page, "paper");
  run(["paper", join(folder, "paper.html")]);
  assert.equal(readFileSync(paper, "utf8"), readFileSync(join(folder, "paper.html"), "utf8"));
}

test("a new office's day: key, card, phone, files, a phone enrolled, zip out", { timeout: 900_000 }, () => withPhone(WIDE, async (phone, place) => {
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  const look = async (name) => {
    for (const width of [1280, 800]) {
      await page.setViewportSize({ width, height: 900 });
      await fits(page, `${name} at ${width}`);
      await phone.picture(`office-${name}-${width}`);
    }
    assert.deepEqual(await phone.axe(), [], name);
    await page.setViewportSize({ width: 1280, height: 900 });
  };
  await makeKey(page);
  await look("key");
  const keyFile = await download(page, "copy-key");
  await makeCard(page);
  await page.evaluate(() => scrollTo(0, 0));
  await look("card-faults");
  await mendCard(page);
  await page.locator("[data-signed]").scrollIntoViewIfNeeded();
  await look("card-signed");
  const card = await download(page, "download-card");

  // Crews' files: nobody is enrolled, nothing counts.
  await page.click('[data-nav="files"]');
  await page.setInputFiles('[data-pick="bundles"] input', handedIn());
  await page.waitForSelector("[data-looked]", { timeout: 120_000, state: "attached" });
  await worked(page);
  assert.equal(await counted(page), 0, "nothing counts before a phone is enrolled");
  const all = await looked(page);
  assert.ok(all > 20, `${all} carcasses to look at`);
  await look("files");
  await page.click('[data-nav="carcasses"]');
  await look("carcasses-looked");
  await page.click('[data-nav="phones"]');
  const strangers = await page.locator("[data-unknown]").count();
  assert.ok(strangers >= 2);
  await look("phones");
  const first = page.locator("[data-unknown]").first();
  await first.locator('[data-act="enrol"]').click();
  await says(page, '[data-part="phones"] [role="alert"]', /Compare the words first/);
  await first.locator('[data-field="compared"]').check();
  await first.locator('[data-field="phone-name"]').fill("blue phone");
  await first.locator('[data-act="enrol"]').click();
  await page.waitForSelector('[data-enrolled="blue phone"]', { timeout: 60_000 });
  await worked(page);
  const some = await counted(page);
  assert.ok(some > 0 && some < all, `${some} of ${all} count now`);
  for (let n = 1; n < strangers; n += 1) {
    const next = page.locator("[data-unknown]").first();
    await next.locator('[data-field="compared"]').check();
    // What is typed is shown as typed, and never markup.
    const name = n === 1 ? MARKUP : `phone ${n}`;
    await next.locator('[data-field="phone-name"]').fill(name);
    await next.locator('[data-act="enrol"]').click();
    await page.waitForSelector(`[data-enrolled="${name}"]`, { timeout: 60_000 });
  }
  await worked(page);
  assert.equal(await looked(page), 0);
  const whole = await counted(page);
  await look("phones-enrolled");
  // A bundle again is no news.
  await page.click('[data-nav="archive"]');
  assert.ok(Number(await page.getAttribute("[data-archive]", "data-archive")) > 0, "not saved yet");
  const zip = await download(page, "save-zip");
  await page.waitForFunction(() => document.querySelector("[data-archive]").dataset.archive === "0");
  await look("archive");

  // The command line on the unpacked zip: the same carcasses, the same words of every phone.
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-archive-"));
  execFileSync("python3", ["-m", "zipfile", "-e", zip, folder]);
  assert.equal(readFileSync(join(folder, "office-key.json"), "utf8"), readFileSync(keyFile, "utf8"));
  const files = readdirSync(join(folder, "received")).map((name) => join(folder, "received", name));
  const run = (args) => { try { return execFileSync(OFFICE, ["--archive", folder, ...args], { encoding: "utf8", maxBuffer: 1 << 28 }); } catch (error) { return error.stdout; } };
  const read = run(["read", ...files]).trim().split("\n").map((line) => JSON.parse(line));
  const shown = await listed(page);
  assert.deepEqual(read.map((line) => line.carcass).sort(), shown.map((one) => one.id).sort(), "the same carcasses");
  assert.equal(shown.length, whole);
  for (const line of read.slice(0, 10)) {
    for (const head of shown.find((one) => one.id === line.carcass).heads) {
      const said = head.slice(head.indexOf(": ") + 2);
      assert.ok(Object.values(line.said).flat().includes(said), `${said} of ${line.carcass}`);
    }
  }

  // The page opened again, the zip in: the same; the key by its passphrase, a wrong one said so.
  await page.goto("about:blank");
  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  await page.click('[data-nav="archive"]');
  await page.setInputFiles('[data-pick="zip"] input', zip);
  await page.waitForSelector('[data-key="locked"]', { timeout: 60_000 });
  await page.waitForFunction((n) => Number(document.querySelector("[data-carcasses]")?.dataset.carcasses) === n, whole, { timeout: 120_000 });
  // Without the key nothing is decided, and the page says so.
  await page.click('[data-nav="decide"]');
  await page.waitForSelector("[data-waiting=doubles] [data-pair]", { timeout: 120_000 });
  assert.equal(await page.locator('[data-part="decide"] [data-no-key]').count(), 1);
  await page.fill('[data-field="decide-by"]', "K7");
  await page.locator('[data-waiting=doubles] [data-act="same"]').first().click();
  await says(page, "[data-decide-said]", /Nothing can be decided here yet/);
  assert.equal(await counted(page), whole);
  await page.click('[data-nav="archive"]');
  await page.fill('[data-field="key.page.passphrase"]', "quillback ridge is invente");
  await page.click('[data-act="open-key"]');
  await says(page, "[data-key-said]", /does not open the office key/);
  await page.fill('[data-field="key.page.passphrase"]', PASSPHRASE);
  await page.click('[data-act="open-key"]');
  await page.waitForSelector('[data-key="open"]', { timeout: 60_000 });
  await page.click('[data-nav="files"]');
  await page.setInputFiles('[data-pick="bundles"] input', files[0]);
  await page.waitForSelector('[data-kept="before"]');
  assert.equal(await page.getAttribute("[data-archive]", "data-archive"), "0", "a bundle again is no news, and nothing was decided");
  await worked(page);
  await decideOnThePage(page, look, whole, run, folder);
  await carcassPage(page, phone, look, run, folder);
  await season(page, look);
  await handOn(page, look, run, folder);
  await page.click('[data-nav="card"]');
  await page.click('[data-act="newest-card"]');
  assert.equal(await page.inputValue('[data-at="/serial"]'), "2", "one higher than the card before");
  await look("card-again");

  // The card on a phone's form.
  await page.setViewportSize({ width: 412, height: 915 });
  await page.goto(`${place.url}#settings`);
  await phone.formIsUp();
  await page.setInputFiles('[data-field="card-file"]', card);
  // Spaces of a name may not break.
  await says(page, "body", /from\s+Quillback\s+Ridge\s+Reserve/);
  await phone.picture("office-card-on-phone");
  assert.deepEqual(phone.faults, []);
  assert.deepEqual(phone.violations, []);
  rmSync(folder, { recursive: true, force: true });
}));

test("an archive folder in the browser is written at once and opened again", { timeout: 300_000 }, () => withPhone(WIDE, async (phone, place) => {
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  // The browser's private folder stands in for the one that a person would pick: the same handles, no dialogue.
  await page.addInitScript(() => { globalThis.showDirectoryPicker = () => navigator.storage.getDirectory(); });
  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  await makeKey(page);
  await page.click('[data-act="open-folder"]');
  await page.waitForFunction(() => document.querySelector("[data-archive]").dataset.archive === "0", null, { timeout: 60_000 });
  await page.click('[data-nav="files"]');
  await page.setInputFiles('[data-pick="bundles"] input', handedIn().slice(0, 3));
  await page.waitForFunction(() => document.querySelectorAll('[data-kept="new"]').length > 0 && document.querySelector("[data-archive]").dataset.archive === "0", null, { timeout: 60_000 });
  const there = await page.evaluate(async () => {
    const names = [];
    const root = await navigator.storage.getDirectory();
    for await (const one of root.values()) {
      names.push(one.name);
      if (one.kind === "directory") for await (const inner of one.values()) names.push(`${one.name}/${inner.name}`);
    }
    return names;
  });
  assert.ok(there.includes("office-key.json") && there.includes("keyring.txt"), there.join(" "));
  assert.ok(there.some((name) => /^received\/[0-9a-f]{64}\.txt$/.test(name)), there.join(" "));
  // Another program changes the keyring: the page does not write over it.
  await page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const file = await (await root.getFileHandle("keyring.txt")).createWritable();
    await file.write("changed by another program");
    await file.close();
  });
  await page.click('[data-nav="phones"]');
  const first = page.locator("[data-unknown]").first();
  await first.locator('[data-field="compared"]').check();
  await first.locator('[data-act="enrol"]').click();
  await says(page, "header", /another program changed keyring.txt/);
  const kept = await page.evaluate(async () => (await (await (await navigator.storage.getDirectory()).getFileHandle("keyring.txt")).getFile()).text());
  assert.equal(kept, "changed by another program");
  // A keyring that does not hold is refused with its reason.
  await page.goto("about:blank");
  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  await page.click('[data-nav="archive"]');
  await page.click('[data-act="open-folder"]');
  await says(page, '[data-part="archive"]', /Not opened: keyring.txt: the keyring does not hold/);
  assert.deepEqual(phone.faults, []);
  assert.deepEqual(phone.violations, []);
}));

test("the invented season is opened in two taps, with its laboratory and calls", { timeout: 600_000 }, () => withPhone({ ...WIDE, also: { demo: join(ROOT, "demo") } }, async (phone, place) => {
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  handedIn();
  await page.goto(`${place.url}office/#demo`);
  await phone.formIsUp();
  await page.click('[data-demo]');
  await page.waitForSelector("[data-looked]", { timeout: 120_000, state: "attached" });
  await worked(page);
  assert.ok(await counted(page) > 50, `${await counted(page)} carcasses`);
  await says(page, "main:not([hidden])", /Its key opens with: quillback ridge is invented/);
  for (const [outcome, files] of [["damaged", 2], ["unknown_device", 1]]) assert.equal(await page.locator(`[data-outcome="${outcome}"]`).count(), files, outcome);
  await page.click('[data-nav="laboratory"]');
  await says(page, '[data-part="laboratory"]', /SUSPECT, not confirmed/);
  await phone.picture("office-demo-laboratory");
  assert.deepEqual(phone.faults, []);
}));
