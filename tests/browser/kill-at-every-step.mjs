// A whole visit in which the form is killed after every answer: the page alone, or every process of the browser.
// What must hold each time: it opens on the resume card of the same carcass, the card shows the answer that was
// ticked last, no entry on disk is gone or changed, and the guide asks what it was about to ask.
//   node kill-at-every-step.mjs [EVERY]     kills after every EVERYth step (1: after each)
import { Hand, answerOne, bodies, saved, standing } from "./form.mjs";
import { VISIT, onTheWay } from "./outing.mjs";
import { phone, site } from "./phone.mjs";

/** Of so many kills one takes the whole browser. */
const WHOLE = 4;
/** A visit in which much is answered: signs, wounds, jaw, marrow, what was opened, samples. */
export const LONG_VISIT = {
  ...VISIT, snow_signs: { seen: ["blood_on_snow"] }, blood_where: { many: ["at_body"] }, cheek_teeth_count: { number: 6 },
  jaw: { each: ["in_wear", "wider", "blunt", "next"] }, third_molar_back_cusp: "pointed", premolar_wear: "light",
  wounds_outside: { seen: ["wounds_outside"] }, wounds_count: { number: 1 }, wound_region: "rump_or_hind_legs", wound_form: "tear",
  wound_bleeding: "clean_no_bruise", body_thaw: "never_thawed", hind_foot: { number: 480 }, opening_trained: "card_names_me",
  marrow_bone: "femur", bone_opened: "open_under_a_day", marrow_frozen: "never_frozen", marrow_consistency: "gelatinous_wet", rump_fat: "none",
  other_samples: { number: 1 }, sample_what: "hair", remark: { text: "Frost on the whiskers" }, heads_counted: { number: 2 },
  blades_back: { number: 2 }, contact_told_back: "done", litter_packed_out: "done", examination_closed: "complete",
};

const { examination_closed: _, ...left } = LONG_VISIT;
/** The same, left open at its end: the tile `Close` stands there then. */
export const OPEN_VISIT = left;

/** No-break spaces are set for the eye; here they are plain. */
const plain = (text) => text.replace(/[\u00a0\u202f]/g, " ").replace(/\s+/g, " ").trim();

/** Of which carcass the bar speaks, what is asked, and what the saved line says. */
const state = (page) => page.evaluate(() => ({
  code: document.querySelector(".where .code")?.textContent ?? "",
  ask: document.querySelector("main [data-ask]")?.dataset.ask ?? "",
  saved: document.querySelector("[data-saved]")?.textContent ?? "",
}));

/** The resume card as it stands. */
const card = (page) => page.evaluate(() => ({
  screen: document.querySelector("[data-screen]")?.dataset.screen ?? "",
  code: document.querySelector(".where .code")?.textContent ?? "",
  last: [...document.querySelectorAll("main ul.last > li")].map((li) => li.querySelector("strong")?.textContent ?? ""),
  text: document.querySelector("main:not([hidden])")?.innerText ?? "",
}));

/**
 * Walks a visit and kills after the steps that `isKill(n)` takes. Resolves to { steps, kills, whole, faults },
 * each fault a sentence; `most` ends the walk early.
 */
export async function killAtSteps({ isKill, most = 400, tell = () => {} }) {
  const deer = await phone();
  const faults = [];
  let [steps, kills, whole] = [0, 0, 0];
  try {
    const place = await site();
    let hand = await onTheWay(deer, place);
    for (; steps < most; steps += 1) {
      const here = await standing(hand.page);
      if (here.tiles.includes("close") || here.ask === "none") break;
      await answerOne(hand, LONG_VISIT);
      await hand.page.waitForFunction((was) => (document.querySelector("main [data-ask]")?.dataset.ask ?? "") !== was, here.ask);
      await saved(hand.page);
      if (!isKill(steps)) continue;
      const before = await state(hand.page);
      const kept = await bodies(hand.page);
      kills += 1;
      if (kills % WHOLE === 0) {
        whole += 1;
        await deer.dieAndStartAgain();
      } else {
        await deer.crashPage();
      }
      await deer.open(place.url);
      hand = new Hand(deer.page);
      await hand.page.waitForSelector("main [data-tile]");
      const shown = await card(hand.page);
      const wrong = (what) => faults.push(`step ${steps + 1}, ${here.ask}: ${what}`);
      const now = new Set(await bodies(hand.page));
      const gone = kept.filter((entry) => !now.has(entry));
      if (gone.length > 0 || kept.length === 0) wrong(`${gone.length} of ${kept.length} entries are gone or changed`);
      // After the last answer nothing is asked: there is no step to come back to.
      if (["", "none"].includes(before.ask)) {
        if (!["resume", "start"].includes(shown.screen)) wrong(`nothing is asked, and it opens on ${shown.screen}`);
        steps += 1;
        break;
      }
      if (shown.screen !== "resume") wrong(`it opens on ${shown.screen}`);
      if (shown.code !== before.code || shown.code === "") wrong(`the card is of "${shown.code}" and not of "${before.code}"`);
      // What was ticked last stands on the card as the saved line had it; a panel's signs are several answers.
      if (!shown.last.some((said) => plain(said) !== "" && plain(before.saved).toLowerCase().includes(plain(said).toLowerCase()))) {
        wrong(`ticked "${plain(before.saved)}", the card says ${JSON.stringify(shown.last)}`);
      }
      await hand.tile("carry-on");
      await hand.page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen === "visit");
      const next = await state(hand.page);
      if (next.ask !== before.ask) wrong(`asks ${next.ask} and not ${before.ask}`);
      tell(`${steps + 1} ${here.ask}: killed ${kills % WHOLE === 0 ? "the browser" : "the page"}, ${kept.length} entries kept, next ${next.ask}`);
    }
    for (const fault of deer.faults) faults.push(`fault in the page: ${fault}`);
  } finally {
    await deer.end();
  }
  return { steps, kills, whole, faults };
}

if (process.argv[1]?.endsWith("kill-at-every-step.mjs")) {
  const every = Number(process.argv[2] ?? 1);
  const { steps, kills, whole, faults } = await killAtSteps({ isKill: (n) => n % every === 0, tell: console.log });
  for (const fault of faults) console.log(fault);
  console.log(`${steps} steps of a visit, killed after ${kills} of them (${whole} times the whole browser): ${faults.length} faults`);
  process.exit(faults.length === 0 && kills > 0 ? 0 : 1);
}
