// The main job in three engines: opened once, kept for use without signal, a hands-off visit with the server gone, the
// browser killed in the middle, handed over, and the bundle opened by the office's command line.
//   node tests/browser/engines/visit.mjs [chromium] [firefox] [webkit]
// What an engine lacks is no fault: it is listed, and the form has to have said so. What the form asks of an engine
// and how it is told apart is in FACTS below.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hand, answerOne, bodies, entries, saved, walk } from "../form.mjs";
import { OPEN_VISIT } from "../kill-at-every-step.mjs";
import { onTheWay } from "../outing.mjs";
import { ROOT, site } from "../phone.mjs";
import { EnginePhone, ENGINES, display } from "./engines.mjs";

const OFFICE = process.env.MARROWBOOK_OFFICE ?? join(ROOT, "target/debug/office");

/** What this engine offers here of all that the form may use; asked in the page. */
async function facts() {
  const has = (owner, name) => Boolean(owner) && name in owner;
  const ask = (promise) => Promise.race([Promise.resolve(promise).then(String, (error) => `refused (${error.name})`), new Promise((late) => setTimeout(late, 3000, "no answer"))]);
  const strict = await new Promise((done) => {
    const request = indexedDB.open("marrowbook");
    request.onerror = () => done("refused");
    request.onsuccess = () => {
      const transaction = request.result.transaction("settings", "readonly", { durability: "strict" });
      done(transaction.durability ?? "not told");
      request.result.close();
    };
  });
  const file = new File(["text"], "bundle.txt", { type: "text/plain" });
  // One module each (the WebAssembly standard's binary form): what the compiler of the form uses.
  const wasm = {
    "bulk memory": [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 5, 3, 1, 0, 1, 10, 14, 1, 12, 0, 65, 0, 65, 0, 65, 0, 252, 10, 0, 0, 11],
    "sign extension": [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 8, 1, 6, 0, 65, 0, 192, 26, 11],
    "non-trapping conversion": [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 12, 1, 10, 0, 67, 0, 0, 0, 0, 252, 0, 26, 11],
    "reference types": [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 7, 1, 5, 0, 208, 112, 26, 11],
    "multiple values": [0, 97, 115, 109, 1, 0, 0, 0, 1, 6, 1, 96, 0, 2, 127, 127],
  };
  return {
    "IndexedDB, durability of a strict write": strict,
    "localStorage": String(typeof localStorage === "object" && localStorage !== null),
    "Cache Storage and service worker": String(has(window, "caches") && has(navigator, "serviceWorker")),
    "storage.persisted()": has(navigator, "storage") && navigator.storage.persisted ? await ask(navigator.storage.persisted()) : "none",
    "storage.persist()": has(navigator, "storage") && navigator.storage.persist ? await ask(navigator.storage.persist()) : "none",
    "storage.estimate(), quota in GB": has(navigator, "storage") && navigator.storage.estimate ? await ask(navigator.storage.estimate().then(({ quota }) => (quota / 1e9).toFixed(1))) : "none",
    "Web Locks": String(has(navigator, "locks")),
    "BroadcastChannel": String(has(window, "BroadcastChannel")),
    "wake lock": has(navigator, "wakeLock") ? await ask(navigator.wakeLock.request("screen").then((lock) => { lock.release(); return "given"; })) : "none",
    "vibration": String(has(navigator, "vibrate")),
    "geolocation": String(has(navigator, "geolocation")),
    "camera by getUserMedia": String(has(navigator, "mediaDevices") && has(navigator.mediaDevices, "getUserMedia")),
    "photo by a file input": String("capture" in document.createElement("input") ? "with capture" : "without capture: the system asks camera or file"),
    "share of a text file": has(navigator, "share") ? String(has(navigator, "canShare") && navigator.canShare({ files: [file] })) : "none",
    "clipboard": String(has(navigator, "clipboard") && has(navigator.clipboard, "writeText")),
    "folder picker (office's page)": String(has(window, "showDirectoryPicker")),
    "BarcodeDetector (not used)": String(has(window, "BarcodeDetector")),
    "crypto.getRandomValues": String(has(window.crypto, "getRandomValues")),
    "createImageBitmap, OffscreenCanvas": `${has(window, "createImageBitmap")}, ${has(window, "OffscreenCanvas")}`,
    "zone": Intl.DateTimeFormat().resolvedOptions().timeZone,
    "WebAssembly parts missing": Object.entries(wasm).filter(([, bytes]) => !WebAssembly.validate(new Uint8Array(bytes))).map(([name]) => name).join(", ") || "none",
    "pointer": matchMedia("(pointer: coarse)").matches ? "coarse" : "fine",
    "user agent": navigator.userAgent,
  };
}

/** What the first screen says of the phone itself. */
const told = (page) => page.evaluate(() => Object.fromEntries([...document.querySelectorAll("ul.facts li[data-fact]")].map((li) => [li.dataset.fact, li.innerText.trim()])));
const text = (page) => page.evaluate(() => document.querySelector("main:not([hidden])")?.innerText ?? document.body.innerText);

function office(archive, ...args) {
  const ran = spawnSync(OFFICE, ["--archive", archive, ...args], { encoding: "utf8" });
  if (ran.error) throw new Error(`the office's command line is missing (${OFFICE}): cargo build --features cli --bin office`);
  return { code: ran.status, said: `${ran.stdout}${ran.stderr}`, out: ran.stdout };
}

/** The visit in one engine; faults are sentences. */
async function visit(engine) {
  const put = await display(engine);
  const phone = new EnginePhone(engine);
  const faults = [];
  const should = (is, what) => { if (!is) faults.push(what); };
  const steps = [];
  const done = (what) => { steps.push(what); console.log(`  ${engine}: ${what}`); };
  let browser = engine;
  let found = {};
  let said = {};
  try {
    await phone.start();
    browser = phone.session.browser;
    const place = await site();
    // A cold start, the worker's installation, then no server: onTheWay() loads the page anew and goes out.
    let hand = await onTheWay(phone, place);
    done("opened, kept for use without signal, loaded anew with the server gone, card loaded, outing begun");
    found = await phone.page.evaluate(facts);

    // A second tab beside the one that writes.
    const own = await phone.session.do("GET", "/window");
    const { handle } = await phone.session.do("POST", "/window/new", { type: "tab" });
    await phone.session.do("POST", "/window", { handle });
    await phone.page.goto(place.url);
    await phone.page.waitForFunction(() => /only for reading/i.test(document.body.innerText)).then(
      () => done("a second tab only reads, and says why"), () => faults.push("a second tab does not say that it only reads"));
    await phone.session.do("DELETE", "/window");
    await phone.session.do("POST", "/window", { handle: own });

    await walk(hand, OPEN_VISIT, { until: ({ ask }) => ask === "snow_depth" });
    await answerOne(hand, OPEN_VISIT);
    await saved(phone.page);
    const before = await bodies(phone.page);
    const killed = await phone.dieAndStartAgain();
    await phone.open(place.url);
    hand = new Hand(phone.page);
    await phone.page.waitForSelector('main [data-tile="carry-on"]');
    const after = new Set(await bodies(phone.page));
    const gone = before.filter((entry) => !after.has(entry));
    should(gone.length === 0 && before.length > 20, `${gone.length} of ${before.length} entries are gone after the kill`);
    should(/64/.test(await text(phone.page)), "the resume card does not show the last answer");
    done(`killed (${killed} processes) in the middle: all ${before.length} entries are there, the resume card shows the last answer`);

    await hand.tile("carry-on");
    await walk(hand, OPEN_VISIT);
    await hand.tile("close");
    await phone.page.waitForSelector("[data-card]");
    done(`the examination is closed after ${await entries(phone.page)} entries, readings are shown`);
    await phone.page.goto(`${place.url}#start`);
    await phone.page.waitForSelector('main [data-tile="hand-over"]');
    said = await told(phone.page);
    await hand.tile("hand-over");
    await phone.page.waitForSelector('[data-field="bundle"]');
    const bundle = await phone.page.inputValue('[data-field="bundle"]');
    const words = (await phone.page.evaluate(() => document.querySelector("[data-fingerprint]").textContent)).trim().split("\n")[0];
    said.share = (await phone.page.locator('[data-tile="share"]').count()) > 0 ? "a share tile" : "Shares no files: save the file, or copy the text";
    await hand.tile("handed-over");
    await saved(phone.page);

    const folder = mkdtempSync(join(tmpdir(), "marrowbook-engine-"));
    try {
      const file = join(folder, "from the phone.txt");
      writeFileSync(file, `${bundle}\n`);
      const archive = join(folder, "archive");
      const unknown = office(archive, "open", file);
      should(unknown.code === 3, `the office does not call it a file of an unknown phone: ${unknown.said}`);
      const enrolled = office(archive, "enrol", file, "--name", engine, "--words", words);
      should(enrolled.code === 0, `the office does not enrol it: ${enrolled.said}`);
      const opened = office(archive, "open", file);
      should(opened.code === 0, `the office does not call it intact: ${opened.said}`);
      const read = office(archive, "read", "--card", join(ROOT, "demo/card.txt"), file);
      should(read.code === 0, `the office does not read it: ${read.said}`);
      const rows = read.out.trim().split("\n").map((line) => JSON.parse(line));
      const differs = rows.flatMap(({ phones }) => phones.flatMap((one) => one.differs ?? [])).filter((one) => one.method !== "cause.of_death" || one.because !== "other_card");
      should(rows.length === 1 && rows[0].phones.length === 1, `the office finds ${rows.length} carcasses`);
      should(differs.length === 0, `the office's digits are not the phone's: ${JSON.stringify(differs)}`);
      if (faults.length === 0) done(`the bundle (${bundle.length} bytes) is intact at the office, and its readings are the phone's to the digit`);
    } finally { rmSync(folder, { recursive: true, force: true }); }
  } catch (error) {
    const shown = await phone.page?.evaluate(() => `${location.href} ${document.body.innerText}`).catch(String);
    console.log(`  ${engine}: ${error.message}; on the screen: ${String(shown).replace(/\s+/g, " ").slice(0, 600)}`);
    faults.push(`the way stopped after "${steps.at(-1) ?? "nothing"}": ${String(error.stack).slice(0, 1500)}`);
  } finally {
    await phone.end();
    put();
  }
  return { engine, browser, faults, facts: found, told: said };
}

const wanted = process.argv.slice(2);
const all = [];
for (const engine of wanted.length ? wanted : Object.keys(ENGINES)) all.push(await visit(engine));

console.log("\nWhat each engine offers here, and what the form's first screen told of it:");
const names = [...new Set(all.flatMap((one) => [...Object.keys(one.facts)]))];
for (const name of names) {
  const values = all.map((one) => one.facts[name] ?? "not seen");
  console.log(new Set(values).size === 1 ? `  ${name}: ${values[0]}` : `  ${name}:`);
  if (new Set(values).size > 1) all.forEach((one, i) => console.log(`      ${one.engine.padEnd(8)} ${values[i]}`));
}
for (const { engine, told } of all) {
  console.log(`  told in ${engine}:`);
  for (const [fact, line] of Object.entries(told)) console.log(`      ${fact}: ${line.replace(/\s+/g, " ")}`);
}
for (const { engine, browser, faults } of all) {
  console.log(`${engine} (${browser}): ${faults.length} faults`);
  for (const fault of faults) console.log(`  ${fault}`);
}
process.exit(all.length > 0 && all.every(({ faults }) => faults.length === 0) ? 0 : 1);
