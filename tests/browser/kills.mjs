// Kills the form at random moments of random visits, opens it again and looks: every answer whose tick was shown is
// there, no entry that was on disk is gone or changed, the chain is whole, and the resume card is of the same carcass.
//   node kills.mjs [TIMES] [--kind process|tab|full] [--seed N]
//     process   every process of the browser at once, as a phone dies of cold (default)
//     tab       the page alone, as a phone short of memory does
//     full      the disk that the browser writes to is full for a while, and then the browser dies (needs root: a small
//               file system of its own is mounted)
// Every second kill, as drawn, waits for a first tick before its time begins to run.
// Answers and moments are drawn from the seed; what the machine does in between is its own.
import { createHash } from "node:crypto";
import { Hand, answerOne, bodies, noAnswer, standing } from "./form.mjs";
import { LONG_VISIT } from "./kill-at-every-step.mjs";
import { phone, site } from "./phone.mjs";
import { onTheWay } from "./outing.mjs";
import { smallDisk } from "./small-disk.mjs";

const words = process.argv.slice(2);
const value = (name, otherwise) => { const at = words.indexOf(name); return at < 0 ? otherwise : words[at + 1]; };
const TIMES = Number(/^\d+$/.test(words[0] ?? "") ? words[0] : 200);
const KIND = value("--kind", "process");
const SEED = Number(value("--seed", 20261126));
if (!["process", "tab", "full"].includes(KIND)) throw new Error(`no kind ${KIND}: process, tab, full`);
/** The longest that a kill waits after the first tap, in milliseconds; a tick takes some 30. */
const LONGEST = 1500;

/** Numbers from a seed (Vigna's splitmix64, from memory; only even spread is wanted of it). */
function drawing(seed) {
  let state = BigInt(seed);
  const mask = (1n << 64n) - 1n;
  return () => {
    state = (state + 0x9e3779b97f4a7c15n) & mask;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & mask;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & mask;
    return Number((z ^ (z >> 31n)) >> 11n) / 2 ** 53;
  };
}
const draw = drawing(SEED);

/** Goes on with the open visit, or begins the next carcass; stands on a question then. */
async function takeUp(hand) {
  const { page } = hand;
  await page.waitForSelector("main [data-tile]");
  for (let tries = 0; tries < 8; tries += 1) {
    const here = await standing(page);
    if (here.ask !== "" && here.ask !== "none") return;
    const next = here.tiles.find((tile) => tile === "close") ?? here.tiles.find((tile) => tile.startsWith("carry-on"))
      ?? here.tiles.find((tile) => tile === "new-carcass") ?? here.tiles.find((tile) => tile === "start");
    if (next) await hand.tile(next);
    else await page.goto(`${page.url().split("#")[0]}#start`);
    await page.waitForTimeout(150);
  }
  throw new Error("no question was reached");
}

/** An answer as the visit has it, or, one time in six, one of the other four. */
async function answer(hand, here) {
  if (draw() < 1 / 6 && here.tiles.includes("no-answer") && here.grade === "") return noAnswer(hand, draw() < 0.5 ? "not-looked" : "cant-tell");
  return answerOne(hand, LONG_VISIT);
}

/** What is wrong with the chain of the entries as they lie there: each header names the digest of the one before. */
function chainFaults(rows) {
  const headers = rows.map((row) => JSON.parse(JSON.parse(row)).header).map((text) => ({ text, ...JSON.parse(text) })).sort((a, b) => a.seq - b.seq);
  return headers.flatMap((header, i) => {
    const before = headers[i - 1];
    if (!before) return header.prev === undefined ? [] : ["the first entry names one before it"];
    const digest = createHash("sha256").update(before.text).digest("base64url");
    const hex = createHash("sha256").update(before.text).digest("hex");
    if (header.seq !== before.seq + 1) return [`entry ${before.seq + 1} is missing`];
    return [digest, hex].includes(header.prev) ? [] : [`entry ${header.seq} does not follow from the one before`];
  });
}

const code = (page) => page.evaluate(() => document.querySelector(".where .code")?.textContent ?? "");

const disk = KIND === "full" ? smallDisk() : null;
const deer = await phone();
let [lost, ticked, unsaid, entriesSeen, recovered, spared] = [0, 0, 0, 0, 0, 0];
const faults = [];
try {
  let ticks = 0;
  // Each tick is told as it is shown. One that this program has not heard of yet when it kills counts as not shown.
  const hear = async () => {
    await deer.context.exposeBinding("tickShown", () => { ticks += 1; });
    await deer.context.addInitScript(() => {
      let writing = false;
      new MutationObserver(() => {
        const state = document.querySelector("[data-saved]")?.dataset.saved;
        if (state === "writing") writing = true;
        if (state === "saved" && writing) { writing = false; globalThis.tickShown(); }
      }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-saved"] });
    });
  };
  await hear();
  const place = await site();
  let hand = await onTheWay(deer, place);
  for (let time = 1; time <= TIMES; time += 1) {
    await takeUp(hand);
    const before = await bodies(deer.page);
    const [{ ask }, carcass] = [await standing(deer.page), await code(deer.page)];
    ticks = 0;
    let over = false;
    const wait = Math.floor(draw() * LONGEST);
    const tickFirst = draw() < 0.5;
    // Some questions one after the other, until the kill comes between.
    const answering = (async () => {
      for (let i = 0; i < 3 && !over; i += 1) {
        const here = await standing(deer.page);
        if (here.ask === "" || here.ask === "none") return;
        await answer(hand, here);
        await deer.page.waitForTimeout(40);
      }
    })().catch(() => { /* the page died under the hand */ });
    const killAtOnce = KIND === "tab" ? null : deer.killer();
    // A question that has just appeared takes no tap for a moment. With a full disk the page may crash by itself.
    const sleep = (ms) => new Promise((done) => setTimeout(done, ms));
    const [early, late] = disk ? [wait / 2, wait / 2] : [wait, 0];
    for (let i = 0; tickFirst && ticks === 0 && i < 300; i += 1) await sleep(20);
    await sleep((tickFirst ? 0 : 270) + early);
    disk?.fill();
    await sleep(late);
    const shown = ticks;
    over = true;
    if (KIND === "tab") await deer.crashPage();
    else killAtOnce();
    await answering;
    disk?.free();
    if (KIND !== "tab") { await deer.dieAndStartAgain(); await hear(); }
    await deer.open(place.url);
    hand = new Hand(deer.page);
    await deer.page.waitForSelector("main [data-tile]");
    const wrong = (what) => { faults.push(what); console.log(`kill ${time}, ${wait} ms after ${ask}: ${what}`); };
    const after = await bodies(deer.page);
    const there = new Set(after);
    const gone = before.filter((entry) => !there.has(entry)).length;
    if (gone > 0) wrong(`${gone} of ${before.length} entries are gone or changed`);
    if (after.length < before.length + shown) { lost += before.length + shown - after.length; wrong(`${shown} ticks were shown, ${after.length - before.length} entries came of them`); }
    for (const fault of chainFaults(after)) wrong(fault);
    const said = await deer.page.evaluate(() => document.body.innerText);
    if (/set aside|new chain|used twice|lost answers/i.test(said)) wrong("the start speaks of damage");
    if (/Recovered:/.test(said)) recovered += 1;
    if (/second copy gave back/.test(said)) spared += 1;
    const screen = (await standing(deer.page)).screen;
    const now = await code(deer.page);
    // Where the visit was closed or a carcass begun just before the kill, the card is of another, or none.
    if (carcass !== "" && screen === "resume" && now !== carcass) wrong(`the card is of ${now} and not of ${carcass}`);
    if (!["resume", "start"].includes(screen)) wrong(`it opens on ${screen}`);
    ticked += shown;
    if (shown === 0) unsaid += 1;
    entriesSeen = after.length;
    if (time % 20 === 0) console.log(`${time} kills, ${ticked} ticks shown, ${lost} lost, ${entriesSeen} entries, ${faults.length} faults`);
  }
  for (const fault of deer.faults) faults.push(fault);
} finally {
  await deer.end();
  disk?.remove();
}
console.log(`${KIND}, seed ${SEED}: lost ${lost} of ${ticked} ticked answers over ${TIMES} kills (${unsaid} before any tick); recovered from the quick copy ${recovered} times, from the second copy ${spared} times; ${entriesSeen} entries at the end; ${faults.length} faults`);
process.exit(faults.length === 0 && ticked > 0 && entriesSeen > 0 ? 0 : 1);
