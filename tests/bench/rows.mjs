// Measures and prints the rows of the design's table of numbers to hold, each beside its bound.
// A row whose part of the program does not exist yet has no `measure` and is listed as such.
//   node rows.mjs NATIVE-ROWS-FILE PHONE-WASM-FOLDER
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { sums } from "../tools/budget.mjs";
import { DIST, ROOT, SCREEN, phone, site } from "../browser/phone.mjs";
import { walk } from "../browser/form.mjs";
import { VISIT, onTheWay } from "../browser/outing.mjs";

const [nativeFile, wasmFolder] = process.argv.slice(2);
const RESULTS = join(ROOT, "tests/results");
const SLOWER = 4; // a cheap phone beside this machine
// How long a finger stays on the glass when it taps (from memory: some 50 to 200 ms).
const FINGER_MS = 80;
const native = Object.fromEntries(readFileSync(nativeFile, "utf8").split("\n").filter((line) => line.startsWith("{"))
  .map((line) => JSON.parse(line)).map((row) => [row.id, row.value]));

/** The time that 95 of 100 runs keep, in the unit of `times`. */
function p95(times) {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(sorted.length * 0.95) - 1)];
}

/** From opening the address with the server gone to the first tile that can be tapped, painted; milliseconds. */
async function coldStart() {
  const hand = await phone();
  try {
    const place = await site();
    await hand.open(place.url);
    await hand.offlineReady();
    await place.stop();
    const times = [];
    for (let run = 0; run < 20; run += 1) {
      // A new process with nothing in memory, as after a pocket.
      await hand.dieAndStartAgain();
      await hand.page.addInitScript(() => {
        const look = () => {
          if (!document.querySelector("main [data-tile]")) return requestAnimationFrame(look);
          const port = new MessageChannel();
          port.port1.onmessage = () => { globalThis.usableAt = performance.now(); };
          return port.port2.postMessage(0);
        };
        requestAnimationFrame(look);
      });
      await hand.slowDown(SLOWER);
      await hand.page.goto(place.url);
      await hand.page.waitForFunction(() => globalThis.usableAt !== undefined);
      times.push(await hand.page.evaluate(() => globalThis.usableAt));
    }
    return p95(times);
  } finally { await hand.end(); }
}

/** Runs `act` in a slowed page that has the phone's benchmark wasm loaded; milliseconds, p95. */
async function inWasm(prepare, act, runs) {
  const place = await site({ root: wasmFolder });
  const hand = await phone();
  try {
    await hand.slowDown(SLOWER);
    await hand.page.goto(place.url);
    const times = await hand.page.evaluate(async ([prepareText, actText, count]) => {
      const rows = await import("./phone-rows.js");
      await rows.default();
      const state = (0, eval)(prepareText)(rows);
      const work = (0, eval)(actText);
      work(state);
      const taken = [];
      for (let run = 0; run < count; run += 1) {
        const start = performance.now();
        work(state);
        taken.push(performance.now() - start);
      }
      return taken;
    }, [prepare.toString(), act.toString(), runs]);
    return p95(times);
  } finally { await hand.end(); await place.stop(); }
}

/**
 * Walks a visit without server on a slowed phone and times every answered tile: from the finger's touch to
 * the pressed look painted, and from its lifting to the painted tick. Milliseconds, p95 of each.
 */
let tapTimes;
function taps() {
  tapTimes ??= (async () => {
    const hand = await phone();
    try {
      const place = await site();
      await hand.page.addInitScript(() => {
        const times = { pressed: [], saved: [] };
        globalThis.tapTimes = times;
        const painted = (act) => requestAnimationFrame(() => { const port = new MessageChannel(); port.port1.onmessage = act; port.port2.postMessage(0); });
        let lifted = null;
        addEventListener("pointerdown", (event) => {
          if (event.target.closest("[data-tile]")) painted(() => times.pressed.push(performance.now() - event.timeStamp));
        }, true);
        addEventListener("click", (event) => { if (event.target.closest("[data-tile]")) lifted = event.timeStamp; }, true);
        // Writing, then saved: the tick. A tile that saves nothing never gets as far as writing.
        let writing = false;
        new MutationObserver(() => {
          const state = document.querySelector("[data-saved]")?.dataset.saved;
          if (state === "writing") writing = true;
          if (state === "saved" && writing && lifted !== null) {
            const from = lifted;
            [writing, lifted] = [false, null];
            painted(() => times.saved.push(performance.now() - from));
          }
        }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-saved"] });
      });
      const form = await onTheWay(hand, place);
      await form.withFinger(FINGER_MS);
      // Last: what opens another session with the page takes the slowness off again.
      await hand.slowDown(SLOWER);
      await walk(form, VISIT, { until: ({ ask }) => ask === "third_tooth.left" });
      const { pressed, saved } = await hand.page.evaluate(() => globalThis.tapTimes);
      if (saved.length < 20) throw new Error(`only ${saved.length} ticks were seen`);
      return { pressed: p95(pressed), saved: p95(saved) };
    } finally { await hand.end(); }
  })();
  return tapTimes;
}

/** The newest dated result of 200 kills; they take a quarter of an hour and are run by tests/long. */
function killsLost() {
  const newest = existsSync(RESULTS) && readdirSync(RESULTS).filter((name) => name.endsWith("-kills.txt")).sort().at(-1);
  return newest && /lost (\d+) of \d+ kills/.exec(readFileSync(join(RESULTS, newest), "utf8"));
}

const kb = (value) => `${value.toFixed(1)} kB`;
const ms = (value) => `${value.toFixed(0)} ms`;

// `over`: the bound is a lower one.
const ROWS = [
  { what: "the crew's phone, one language, brotli", bound: 350, show: kb, measure: () => sums(DIST).form },
  { what: "all precached parts, brotli", bound: 900, show: kb, measure: () => sums(DIST).all },
  { what: "cold start without network to first usable screen (p95)", bound: 1000, show: ms, measure: coldStart },
  { what: "tap to pressed state painted (p95)", bound: 50, show: ms, measure: async () => (await taps()).pressed },
  { what: "tap to saved tick (p95)", bound: 250, show: ms, measure: async () => (await taps()).saved },
  { what: "intervals of one carcass, the table drawn for it (p95)", bound: 400, show: ms,
    measure: () => inWasm((rows) => new rows.Filled(1), (filled) => filled.draw(), 20) },
  { what: "the longest piece of that between two taps (p95)", bound: 50, show: ms,
    measure: () => inWasm((rows) => new rows.Filled(1), (filled) => filled.one_part(), 100) },
  { what: "readings of one carcass, the table drawn before (p95)", bound: 50, show: ms,
    measure: () => inWasm((rows) => new rows.Filled(1), (filled) => filled.with_cause(), 100) },
  { what: "point readings of one carcass (p95)", bound: 16, show: ms,
    measure: () => inWasm((rows) => new rows.Filled(1), (filled) => filled.readings(), 100) },
  { what: "ticked answers lost over 200 kills (newest long run)", bound: 0, show: (value) => `${value}`, measure: killsLost() && (() => Number(killsLost()[1])) },
  { what: "a bundle of 100 carcasses made and signed (p95)", bound: 300, show: ms,
    measure: () => inWasm((rows) => new rows.Filled(100), (filled) => filled.bundle(), 20) },
  { what: "size of a full carcass in a bundle", bound: 12, show: kb, measure: () => native.carcass_size },
  { what: "office: open and check bundles", bound: 100, over: true, show: (value) => `${value.toFixed(1)} MB/s`, measure: () => native.office_open },
  { what: "office: readings with the ranges of the cause", bound: 1000, over: true, show: (value) => `${value.toFixed(0)} a second`, measure: () => native.office_intervals },
  { what: "office: the same where every row is answered", bound: 1000, over: true, show: (value) => `${value.toFixed(0)} a second`, measure: () => native.office_intervals_whole },
  { what: "office: point readings", bound: 20000, over: true, show: (value) => `${value.toFixed(0)} a second`, measure: () => native.office_readings },
  // Eight looks a second on a phone that is four times slower.
  { what: "frames: pictures of the camera read", bound: 32, over: true, show: (value) => `${value.toFixed(0)} a second`, measure: () => native.frames_read },
  { what: "frames: 100 kB from screen to camera, three codes in ten missed", bound: 75, show: (value) => `${value.toFixed(0)} s`, measure: () => native.frames_100_kb_s },
  { what: "cost of a season per carcass, 10^6 beside 10^3", bound: 1, show: (value) => `${value.toFixed(2)} times`, measure: native.season_growth && (() => native.season_growth) },
];

console.log(`Phone rows: Chromium, ${SCREEN.width} x ${SCREEN.height}, processor slowed ${SLOWER} times. Office rows: one core.`);
let broken = 0;
for (const row of ROWS) {
  const bound = `${row.over ? "at least" : "at most"} ${row.show(row.bound)}`;
  let is = "not there yet";
  let verdict = "";
  if (row.measure) {
    const value = await row.measure();
    const holds = row.over ? value >= row.bound : value <= row.bound;
    is = row.show(value);
    verdict = holds ? "holds" : "BROKEN";
    if (!holds) broken += 1;
  }
  console.log(`${row.what.padEnd(58)} ${is.padStart(16)}   ${bound.padEnd(26)} ${verdict}`);
}
console.log(`${broken} broken`);
process.exit(broken === 0 ? 0 : 1);
