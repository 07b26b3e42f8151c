// A long day in one life of the page: visit after visit, each closed, read and gone back from, with what lies on the
// heap after a collection printed beside what the journal holds. What grows must be the journal.
//   node tests/browser/long-day.mjs [VISITS]      30 is about eight hours of a quick crew
import { Hand, bodies, saved, walk } from "./form.mjs";
import { OPEN_VISIT } from "./kill-at-every-step.mjs";
import { onTheWay } from "./outing.mjs";
import { phone, site } from "./phone.mjs";

const VISITS = Number(process.argv[2] ?? 30);
/** Bytes of memory that a byte of the journal may take: text, what was read of it, and folds of it. From measurement. */
const FACTOR = 12;

/** At the next carcass less is asked one by one; what is not named here is answered "not looked". */
const NEXT = { report_outcome: "found", place: { text: "47.95 -91.45" }, alive: "dead", species: "white_tailed_deer", snow_depth: { number: 64 }, remark: { text: "Frost" } };

const deer = await phone();
let failed = 0;
try {
  const place = await site();
  const hand = await onTheWay(deer, place);
  const { page } = deer;
  const session = await deer.context.newCDPSession(page);
  await session.send("HeapProfiler.enable");
  await session.send("Performance.enable");
  const wasm = () => page.evaluate(() => globalThis.memoryOfTheForm?.buffer.byteLength ?? 0);
  await deer.context.addInitScript(() => addEventListener("TrunkApplicationStarted", (event) => { globalThis.memoryOfTheForm = event.detail.wasm.memory; }));
  await page.reload();
  await deer.formIsUp();
  await page.locator('main [data-tile="carry-on"]').first().waitFor();
  await hand.tile("carry-on");
  const heap = async () => {
    for (let i = 0; i < 3; i += 1) await session.send("HeapProfiler.collectGarbage");
    const { metrics } = await session.send("Performance.getMetrics");
    const of = (name) => metrics.find((one) => one.name === name).value;
    return { js: of("JSHeapUsedSize"), nodes: of("Nodes"), listeners: of("JSEventListeners"), wasm: await wasm() };
  };
  const rows = [];
  for (let n = 1; n <= VISITS; n += 1) {
    await walk(hand, n === 1 ? OPEN_VISIT : NEXT);
    await hand.tile("close");
    await page.locator("[data-card]").first().waitFor();
    // Each reading in short is made; the one of the cause is drawn in parts between taps.
    await page.waitForTimeout(1500);
    await saved(page);
    await page.goto(`${place.url}#start`);
    await page.locator('main [data-tile="new-carcass"]').first().waitFor();
    const journal = (await bodies(page)).reduce((sum, body) => sum + body.length, 0);
    const row = { n, journal, ...await heap() };
    rows.push(row);
    console.log(`visit ${String(n).padStart(2)}: journal ${(journal / 1e3).toFixed(0)} kB, scripts' heap ${(row.js / 1e6).toFixed(2)} MB, wasm ${(row.wasm / 1e6).toFixed(1)} MB, ${row.nodes} nodes, ${row.listeners} listeners`);
    if (n < VISITS) {
      await hand.tile("new-carcass");
      await page.locator("main [data-ask]").first().waitFor();
    }
  }
  // The first visits warm everything up; from there on the growth is compared.
  const [from, to] = [rows[Math.min(4, rows.length - 2)], rows.at(-1)];
  const grown = (key) => to[key] - from[key];
  console.log(`from visit ${from.n} to ${to.n}: journal +${(grown("journal") / 1e3).toFixed(0)} kB, scripts' heap +${(grown("js") / 1e3).toFixed(0)} kB, wasm +${(grown("wasm") / 1e3).toFixed(0)} kB, nodes +${grown("nodes")}, listeners +${grown("listeners")}`);
  const wrong = (what) => { failed += 1; console.log(what); };
  if (grown("wasm") + grown("js") > FACTOR * grown("journal")) wrong(`memory grew by more than ${FACTOR} times the journal`);
  // The start screen lists the last few; a node or listener for every visit would be a leak.
  if (grown("nodes") > 60) wrong("nodes of the page are left behind");
  if (grown("listeners") > 20) wrong("listeners are left behind");
  for (const fault of deer.faults) wrong(fault);
} finally {
  await deer.end();
}
console.log(`long day: ${failed} faults`);
process.exit(failed === 0 ? 0 : 1);
