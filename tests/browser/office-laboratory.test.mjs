// A laboratory's day in the page: parcels noted, a sheet read in, calls marked. No check value: lists are held against
// the command line's own on the same archive.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { DEER } from "./five-deer.mjs";
import { saved } from "./form.mjs";
import { ROOT, withPhone } from "./phone.mjs";
import { OFFICE } from "./season.mjs";

const PASSPHRASE = "quillback ridge is invented";
const WIDE = { viewport: { width: 1280, height: 900 }, screen: { width: 1280, height: 900 }, isMobile: false, hasTouch: false, deviceScaleFactor: 1 };

function zipped(folder) {
  const at = join(mkdtempSync(join(tmpdir(), "marrowbook-lab-")), "archive.zip");
  execFileSync("python3", ["-m", "zipfile", "-c", at, ...readdirSync(folder).map((name) => join(folder, name))]);
  return at;
}

const seen = (finding, value, item) => ({ finding, answer: { state: "seen", value }, ...(item ? { site: { item } } : {}) });
/** A deer of which jaw and a part of the head were taken, each with a number on its label. */
const TAKEN = [
  ...DEER.prime, seen("touching_allowed", { choice: "card_names_me" }), seen("jaw_taken", { choice: "whole_jaw" }),
  seen("sample_number", { text: "INV-1" }, 1), seen("other_samples_count", { number: 1 }),
  seen("sample_what", { choice: "head_part" }, 3), seen("sample_number", { text: "INV-3" }, 3), seen("sample_kept", { choice: "bag_frozen" }, 3),
];

/** What a phone hands over of it, by its own hand-over screen. */
async function bundle() {
  const demo = mkdtempSync(join(tmpdir(), "marrowbook-lab-"));
  writeFileSync(join(demo, "card.txt"), readFileSync(join(ROOT, "demo/card.txt")));
  writeFileSync(join(demo, "outing.json"), JSON.stringify({ person: "K7", outing: [], carcasses: [{ kind: "field", closed: true, findings: TAKEN }] }));
  let text;
  await withPhone({ viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 }, also: { demo } }, async (phone, place) => {
    await phone.open(`${place.url}#demo`);
    await phone.page.waitForSelector('[data-act^="readings-"]');
    await saved(phone.page);
    await phone.page.evaluate(() => { location.hash = "hand-over"; });
    await phone.page.waitForSelector('[data-bundle="made"]');
    text = await phone.page.inputValue('[data-field="bundle"]');
  });
  rmSync(demo, { recursive: true, force: true });
  return text;
}

/** An office's archive with its key, the card with laboratories, and that phone enrolled. */
async function archive(folder) {
  const at = join(folder, "begun");
  mkdirSync(at);
  const file = join(folder, "crew.txt");
  writeFileSync(file, await bundle());
  const run = (args) => execFileSync(OFFICE, ["--archive", at, ...args], { encoding: "utf8", env: { ...process.env, MARROWBOOK_PASSPHRASE: PASSPHRASE } });
  run(["key", "new"]);
  run(["card", join(ROOT, "demo/card.json")]);
  let opened;
  try { opened = run(["open", file, "--json"]); } catch (error) { opened = error.stdout; }
  const told = JSON.parse(opened.trim().split("\n")[0]);
  run(["enrol", file, "--name", "lab phone", "--words", told.fingerprint ?? told.words]);
  run(["open", "--keep", file]);
  return at;
}

async function says(page, selector, words) {
  await page.waitForFunction(([at, wanted]) => new RegExp(wanted).test(document.querySelector(at)?.innerText ?? ""), [selector, words.source], { timeout: 60_000 });
}

test("samples are sent, a sheet is entered, and who touched the animal is called, from the page", { timeout: 600_000 }, () => withPhone(WIDE, async (phone, place) => {
  const { page } = phone;
  page.on("dialog", (dialog) => dialog.accept());
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-lab-"));
  const begun = await archive(folder);
  const unpack = async () => {
    await page.click('[data-nav="archive"]');
    const [file] = await Promise.all([page.waitForEvent("download"), page.click('[data-act="save-zip"]')]);
    const at = join(folder, "saved.zip");
    await file.saveAs(at);
    execFileSync("python3", ["-m", "zipfile", "-e", at, join(folder, "archive")]);
    await page.click('[data-nav="laboratory"]');
  };
  const run = (args) => execFileSync(OFFICE, ["--archive", join(folder, "archive"), ...args], { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "ignore"] });
  const listed = (args) => run([...args, "--json"]).trim().split("\n").filter(Boolean).map((line) => JSON.parse(line));
  const look = async (name) => {
    for (const width of [1280, 800]) {
      await page.setViewportSize({ width, height: 900 });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${name} at ${width} is ${wide} px too wide`);
      await phone.picture(`office-${name}-${width}`);
    }
    assert.deepEqual(await phone.axe(), [], name);
    await page.setViewportSize({ width: 1280, height: 900 });
  };

  await page.goto(`${place.url}office/`);
  await phone.formIsUp();
  await page.click('[data-nav="archive"]');
  await page.setInputFiles('[data-pick="zip"] input', zipped(begun));
  await page.waitForSelector('[data-key="locked"]', { timeout: 60_000 });
  await page.waitForFunction(() => Number(document.querySelector("[data-carcasses]")?.dataset.carcasses ?? 0) > 0, null, { timeout: 120_000 });
  await page.click('[data-nav="laboratory"]');
  await page.waitForSelector("[data-samples]", { timeout: 60_000 });
  // Without the key one can look, and nothing is noted.
  assert.equal(await page.locator('[data-part="laboratory"] [data-no-key]').count(), 1);
  await page.fill('[data-field="bench-by"]', "K7");
  await page.locator('[data-laboratory="ROOT"] [data-tick]').first().check();
  await page.click('[data-laboratory="ROOT"] [data-act="send"]');
  await says(page, "[data-bench-said]", /Not noted: .*office key/);
  await page.click('[data-nav="archive"]');
  await page.fill('[data-field="key.page.passphrase"]', PASSPHRASE);
  await page.click('[data-act="open-key"]');
  await page.waitForSelector('[data-key="open"]', { timeout: 60_000 });
  await unpack();
  const before = listed(["lab", "list", "--all"]);
  assert.equal(Number(await page.getAttribute("[data-samples]", "data-samples")), before.length, "as many as the command line lists");
  await look("laboratory");

  // A parcel of one sample.
  const number = await page.locator('[data-laboratory="ROOT"] [data-tick]:checked').first().getAttribute("data-tick");
  await page.fill('[data-field="parcel-place"]', "post office, invented");
  await page.click('[data-laboratory="ROOT"] [data-act="send"]');
  await says(page, "[data-bench-said]", /Noted as sent/);
  await page.waitForFunction((wanted) => new RegExp("sent \\d{4}").test(document.querySelector(`[data-sample="${wanted}"]`)?.innerText ?? ""), number, { timeout: 60_000 });
  await page.click('[data-laboratory="ROOT"] [data-act="send"]');
  await says(page, "[data-bench-said]", /Tick the samples/);
  await unpack();
  const states = (all, of) => [...new Set(all.filter((line) => line.number === of && line.laboratory === "ROOT").map((line) => line.state))];
  assert.ok(states(listed(["lab", "list", "--all"]), number).includes("sent"));

  // A slip is taken back, and sent once more; what a crew handed in is noted as received.
  const row = page.locator(`[data-laboratory="ROOT"] [data-sample="${number}"]`);
  await row.locator('[data-act="back"]').click();
  await says(page, "[data-bench-said]", /Taken back/);
  await row.locator("[data-tick]").waitFor({ timeout: 60_000 });
  await unpack();
  assert.ok(!states(listed(["lab", "list", "--all"]), number).includes("sent"), "taken back on the command line too");
  const waiting = Number(await page.getAttribute("[data-unreceived]", "data-unreceived"));
  assert.ok(waiting > 0);
  await page.click('[data-act="receive"]');
  await says(page, "[data-bench-said]", /Tick the samples that arrived/);
  await page.locator(`[data-received="${number}"]`).check();
  await page.fill('[data-field="receipt-place"]', "office, invented");
  await page.selectOption('[data-field="receipt-seals"]', "broken");
  await look("laboratory-received");
  await page.click('[data-act="receive"]');
  await says(page, "[data-bench-said]", /Noted as received/);
  await page.waitForFunction((n) => Number(document.querySelector("[data-unreceived]")?.dataset.unreceived) === n, waiting - 1, { timeout: 60_000 });
  await row.locator("[data-tick]").check();
  await page.click('[data-laboratory="ROOT"] [data-act="send"]');
  await says(page, "[data-bench-said]", /Noted as sent/);
  await unpack();
  const handed = listed(["lab", "list", "--all"]).find((line) => line.number === number && line.laboratory === "ROOT");
  assert.ok(handed.custody.some((line) => /office, invented/.test(line)), JSON.stringify(handed.custody));
  assert.ok(handed.gaps.includes("seal_broken") && !handed.gaps.includes("not_received"), JSON.stringify(handed.gaps));
  assert.equal(handed.state, "sent");

  // A sheet with a line of nobody's: nothing goes in until that line is left out.
  const [head] = before.filter((line) => line.test === "cwd");
  const of = head ?? before.find((line) => line.number === number);
  const sheet = join(folder, "sheet.csv");
  writeFileSync(sheet, head ? `sample,test,result\r\nQR-9,cwd,positive\r\n${head.number},cwd,suspect\r\n` : `sample,test,years\r\nQR-9,cementum,4\r\n${of.number},${of.test},4\r\n`);
  await page.setInputFiles('[data-pick="sheet"] input', sheet);
  await page.waitForSelector('[data-sheet="2"][data-wrong="1"]');
  assert.equal(await page.locator('[data-act="enter"]').count(), 0);
  // What lies below the window is laid out once somebody scrolls there.
  await page.locator('[data-line="2"]').scrollIntoViewIfNeeded();
  await says(page, '[data-line="2"]', /no sample has the number `QR-9`/);
  await look("laboratory-sheet");
  await page.check('[data-leave="2"]');
  await page.waitForSelector('[data-sheet="2"][data-wrong="0"]');
  await page.click('[data-act="enter"]');
  await says(page, "[data-bench-said]", /Entered and kept/);
  await unpack();
  assert.ok(listed(["lab", "list", "--all"]).some((line) => line.number === of.number && line.state === "answered"));

  // Calls as the command line lists them; one marked here is marked there.
  const calls = listed(["calls", "list"]);
  await page.waitForFunction((n) => Number(document.querySelector("[data-calls]")?.dataset.calls) === n, calls.length, { timeout: 60_000 });
  if (head) assert.ok(calls.some((call) => call.why.some((why) => /SUSPECT/.test(why))), JSON.stringify(calls.slice(0, 3)));
  assert.ok(calls.length > 0);
  await page.locator("[data-call]").first().locator('[data-act="mark"]').click();
  await says(page, "[data-bench-said]", /Noted as called/);
  await page.waitForFunction((n) => Number(document.querySelector("[data-calls]")?.dataset.calls) === n, calls.length - 1, { timeout: 60_000 });
  await look("laboratory-calls");
  await unpack();
  assert.equal(listed(["calls", "list"]).length, calls.length - 1);

  // The card's laboratories have fields; one more is signed with it.
  await page.click('[data-nav="card"]');
  await page.click('[data-act="newest-card"]');
  assert.equal(await page.inputValue('[data-at="/laboratories/0/code"]'), "ROOT");
  assert.equal(await page.inputValue('[data-at="/laboratories/1/tests/0/kind"]'), "disease");
  await page.click('[data-act="add-laboratories"]');
  const set = async (at, value) => { await page.fill(`[data-at="${at}"]`, value); await page.locator(`[data-at="${at}"]`).blur(); };
  await set("/laboratories/2/code", "ROOT");
  await set("/laboratories/2/name", "Third Laboratory (invented)");
  await says(page, "#fault-laboratories-2-code", /code of its own/);
  await set("/laboratories/2/code", "THIRD");
  await page.waitForFunction(() => document.querySelector("[data-faults]").dataset.faults === "0");
  await page.locator('[data-laboratory="2"]').scrollIntoViewIfNeeded();
  await look("card-laboratories");
  await page.click('[data-act="sign-card"]');
  await page.waitForSelector("[data-signed]");
  await page.click('[data-nav="laboratory"]');
  await page.waitForSelector('[data-laboratory="THIRD"]', { timeout: 60_000 });
  assert.deepEqual(phone.faults, []);
  assert.deepEqual(phone.violations, []);
  rmSync(folder, { recursive: true, force: true });
}));
