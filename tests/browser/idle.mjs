// What the form costs a battery while nobody touches it: timers that run, frames that are drawn, changes of the page,
// requests, position watches and wake locks, counted for a while on each of several screens, with the page shown and
// hidden. The processor's own time comes from the browser's protocol.
//   node tests/browser/idle.mjs [SECONDS]     on each screen, shown and hidden (default 65)
// Expected: the clock that is read every 30 s (due back, daylight and the card's dates hang on it), the wake lock on the
// screens of a visit, and the position watch on the way to the carcass. Nothing else.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Hand, answerOne, loadCard, saved, walk } from "./form.mjs";
import { OPEN_VISIT } from "./kill-at-every-step.mjs";
import { ROOT, phone, site } from "./phone.mjs";

const SECONDS = Number(process.argv[2] ?? 65);
/** The clock of the form (src/web/app.rs). */
const CLOCK_SECONDS = 30;

/** Counts, before any script of the page runs. */
function count() {
  const n = { timeouts: 0, intervals: 0, frames: 0, idle: 0, requests: 0, changes: 0, watches: new Set(), locks: 0 };
  globalThis.counted = n;
  const wrap = (owner, name, key) => {
    const was = owner[name].bind(owner);
    owner[name] = (act, ...rest) => was((...given) => { n[key] += 1; return typeof act === "function" ? act(...given) : undefined; }, ...rest);
  };
  wrap(window, "setTimeout", "timeouts");
  wrap(window, "setInterval", "intervals");
  wrap(window, "requestAnimationFrame", "frames");
  wrap(window, "requestIdleCallback", "idle");
  const fetched = window.fetch.bind(window);
  window.fetch = (...given) => { n.requests += 1; return fetched(...given); };
  const watch = Geolocation.prototype.watchPosition;
  Geolocation.prototype.watchPosition = function (...given) { const id = watch.apply(this, given); n.watches.add(id); return id; };
  const clear = Geolocation.prototype.clearWatch;
  Geolocation.prototype.clearWatch = function (id) { n.watches.delete(id); return clear.call(this, id); };
  const ask = WakeLock.prototype.request;
  WakeLock.prototype.request = async function (...given) {
    const lock = await ask.apply(this, given);
    n.locks += 1;
    lock.addEventListener("release", () => { n.locks -= 1; });
    return lock;
  };
  new MutationObserver((list) => { n.changes += list.length; }).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
}

const read = (page) => page.evaluate(() => ({ ...globalThis.counted, watches: globalThis.counted.watches.size }));

const deer = await phone({ geolocation: { latitude: 47.95, longitude: -91.45, accuracy: 12 }, permissions: ["geolocation"] });
const faults = [];
try {
  const place = await site();
  await deer.context.addInitScript(count);
  await deer.open(place.url);
  await deer.offlineReady();
  const { page } = deer;
  const hand = new Hand(page);
  const session = await deer.context.newCDPSession(page);
  await session.send("Performance.enable");
  const processor = async () => (await session.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration").value;

  /** One screen, left alone. */
  const look = async (name, { watches = 0, locks = 0 }) => {
    for (const hidden of [false, true]) {
      await page.evaluate((is) => {
        // A page without a window cannot be covered by another; it is told that it was.
        Object.defineProperty(document, "visibilityState", { configurable: true, get: () => (is ? "hidden" : "visible") });
        Object.defineProperty(document, "hidden", { configurable: true, get: () => is });
        document.dispatchEvent(new Event("visibilitychange"));
      }, hidden);
      await page.waitForTimeout(1500);
      const [before, cpu] = [await read(page), await processor()];
      await page.waitForTimeout(SECONDS * 1000);
      const [after, cpuAfter] = [await read(page), await processor()];
      const ran = Object.fromEntries(["timeouts", "intervals", "frames", "idle", "requests", "changes"].map((key) => [key, after[key] - before[key]]));
      const busy = (1000 * (cpuAfter - cpu)) / SECONDS;
      console.log(`${name}, ${hidden ? "hidden" : "shown"}: in ${SECONDS} s ${JSON.stringify(ran)}, position watches ${after.watches}, wake locks ${after.locks}, processor ${busy.toFixed(2)} ms a second`);
      const wrong = (what) => faults.push(`${name}, ${hidden ? "hidden" : "shown"}: ${what}`);
      if (ran.intervals > Math.ceil(SECONDS / CLOCK_SECONDS)) wrong(`${ran.intervals} ticks of the clock`);
      for (const key of ["timeouts", "frames", "idle", "requests", "changes"]) if (ran[key] > 0) wrong(`${ran[key]} ${key}`);
      if (after.watches !== watches) wrong(`${after.watches} position watches, ${watches} expected`);
      if (after.locks > locks) wrong(`${after.locks} wake locks, at most ${locks} expected`);
    }
    await page.evaluate(() => {
      delete document.visibilityState;
      delete document.hidden;
      document.dispatchEvent(new Event("visibilitychange"));
    });
  };

  await page.waitForSelector("main [data-tile]");
  await look("first screen, nothing recorded", {});
  await loadCard(hand, readFileSync(join(ROOT, "demo/card.txt"), "utf8"));
  await page.waitForSelector('main [data-tile="outing"]');
  await hand.tile("outing");
  await hand.tile("person-K7");
  await page.waitForSelector("main [data-ask]");
  await look("a question before leaving", { locks: 1 });
  await walk(hand, OPEN_VISIT, { until: ({ ask }) => ask === "place" });
  await look("the question of the place", { watches: 1, locks: 1 });
  await walk(hand, OPEN_VISIT, { until: ({ ask }) => ask === "snow_depth" });
  await saved(page);
  await look("a question at the carcass", { locks: 1 });
  await answerOne(hand, OPEN_VISIT);
  await walk(hand, OPEN_VISIT);
  await hand.tile("close");
  await page.waitForSelector("[data-card]");
  await page.waitForTimeout(3000);
  await look("readings", { locks: 1 });
  await page.goto(`${place.url}#hand-over`);
  await page.waitForSelector('[data-field="bundle"]');
  await look("hand over", { locks: 1 });
  await page.goto(`${place.url}#start`);
  await page.waitForSelector('main [data-tile="hand-over"]');
  await look("first screen, a visit closed", {});
  faults.push(...deer.faults);
  await place.stop();
} finally {
  await deer.end();
}
for (const fault of faults) console.log(fault);
console.log(`idle: ${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
