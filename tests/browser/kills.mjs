// Ticks an answer and kills every process of the browser the moment the tick is shown, again and again.
// An answer whose tick was shown must be there when the form is opened again.
//   node kills.mjs [TIMES]
import { Hand, answerOne, bodies, standing } from "./form.mjs";
import { phone, site } from "./phone.mjs";
import { VISIT, onTheWay } from "./outing.mjs";

const times = Number(process.argv[2] ?? 200);

/** Resolves when the next tick is shown: the saved line goes to writing and then to saved. */
function nextTick(page) {
  return page.evaluate(() => new Promise((ticked) => {
    let writing = false;
    const watch = new MutationObserver(() => {
      const state = document.querySelector("[data-saved]")?.dataset.saved;
      if (state === "writing") writing = true;
      if (state === "saved" && writing) { watch.disconnect(); ticked(); }
    });
    watch.observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-saved"] });
  }));
}

/** Goes on with the open visit, or begins the next carcass; stands on a question then. */
async function takeUp(hand) {
  const { page } = hand;
  await page.waitForSelector("main [data-tile]");
  for (let tries = 0; tries < 8; tries += 1) {
    const here = await standing(page);
    if (here.ask !== "") return;
    const next = here.tiles.find((tile) => tile === "close") ?? here.tiles.find((tile) => tile.startsWith("carry-on"))
      ?? here.tiles.find((tile) => tile === "new-carcass") ?? here.tiles.find((tile) => tile === "start");
    if (!next) throw new Error(`no way on from ${JSON.stringify(here)}`);
    await hand.tile(next);
    await page.waitForTimeout(150);
  }
  throw new Error("no question was reached");
}

const deer = await phone();
let lost = 0;
let waited = 0;
try {
  const place = await site();
  let hand = await onTheWay(deer, place);
  for (let time = 1; time <= times; time += 1) {
    const before = (await bodies(deer.page)).length;
    const { ask } = await standing(deer.page);
    const killAtOnce = deer.killer();
    const tick = nextTick(deer.page).then(killAtOnce);
    // The answering hand may still be waiting for the page when it dies.
    const answered = answerOne(hand, VISIT).catch(() => {});
    const shown = await Promise.race([tick.then(() => true, () => false), new Promise((late) => setTimeout(late, 20000, null))]);
    if (shown === null) throw new Error(`no tick was shown after answering ${ask}`);
    await answered;
    await deer.dieAndStartAgain();
    await deer.open(place.url);
    const after = await bodies(deer.page);
    if (after.length <= before) { lost += 1; console.log(`kill ${time}: the answer to ${ask} is gone`); }
    waited += after.length;
    hand = new Hand(deer.page);
    await takeUp(hand);
    const again = await standing(deer.page);
    if (again.ask === ask) console.log(`kill ${time}: ${ask} is asked again, ${before} entries before and ${after.length} after`);
    if (time % 20 === 0) console.log(`${time} kills, ${lost} lost, ${after.length} entries`);
  }
} finally {
  await deer.end();
}
console.log(`lost ${lost} of ${times} kills`);
process.exit(lost === 0 && waited > 0 ? 0 : 1);
