// A phone with an open visit, and a newer form that is published meanwhile: what the tests of updates share, and the
// same with a form that was really built earlier.
//   node tests/browser/updates.mjs CLONE [NAME]     CLONE is the repository as it was, with its dist built: that form gets
//       the one in dist (or MARROWBOOK_DIST) in the middle of a visit. With NAME its journal is kept as
//       tests/browser/released/NAME.json for every run to come.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import * as today from "./form.mjs";
import { OPEN_VISIT } from "./kill-at-every-step.mjs";
import { DIST, ROOT, phone } from "./phone.mjs";
import { FOLDER, takeOut } from "./released.mjs";
import { serve } from "../tools/serve.mjs";

const { Hand, answerOne, bodies, saved, standing, walk } = today;

/** Goes out with the invented card and walks a visit up to its snow. `form` and `root` are those of an earlier form. */
export async function intoAVisit(hand, { form = today, root = ROOT } = {}) {
  const { answerOne, loadCard, walk } = form;
  await hand.page.waitForSelector("main [data-tile]");
  await loadCard(hand, readFileSync(join(root, "demo/card.txt"), "utf8"));
  await hand.page.waitForSelector('main [data-tile="outing"]');
  await hand.tile("outing");
  await hand.tile("person-K7");
  await hand.page.waitForSelector("main [data-ask]");
  await walk(hand, OPEN_VISIT, { until: ({ ask }) => ask === "snow_depth" });
  await answerOne(hand, OPEN_VISIT);
  await saved(hand.page);
}

/** What must stay: the entries as they lie there, the carcass, and what is asked next. */
export async function stand(page) {
  const code = await page.evaluate(() => document.querySelector(".where .code")?.textContent ?? "");
  return { kept: await bodies(page), code, ask: (await standing(page)).ask };
}

/** Opens the resume card and goes on; gives back what is asked. */
export async function carryOn(hand) {
  await hand.page.waitForSelector('main [data-tile="carry-on"]');
  await hand.tile("carry-on");
  await hand.page.waitForFunction(() => document.querySelector("[data-screen]")?.dataset.screen === "visit");
  return stand(hand.page);
}

/** What of `before` is not there any more in `after`. */
export const gone = (before, after) => before.kept.filter((entry) => !new Set(after.kept).has(entry));

/** Waits until a newer version lies ready beside the one that runs. */
export const newerWaits = (page) => page.waitForFunction(() => document.documentElement.dataset.update === "ready");

/** The person's own tap on `Update`. */
export async function takeUpdate(hand, url) {
  await hand.page.goto(`${url}#start`);
  await hand.page.waitForSelector('[data-act="update"]');
  await Promise.all([hand.page.waitForEvent("load"), hand.act("update")]);
}

const build = (page) => page.evaluate(() => document.documentElement.dataset.build);

async function play(clone, name) {
  const earlier = resolve(clone);
  // That form is worked as its own tests worked it.
  const form = await import(pathToFileURL(join(earlier, "tests/browser/form.mjs")).href);
  const root = mkdtempSync(join(tmpdir(), "marrowbook-update-"));
  const faults = [];
  const deer = await phone();
  let server;
  try {
    cpSync(join(earlier, "dist"), root, { recursive: true });
    server = await serve({ root });
    const { page } = deer;
    const hand = new Hand(page);
    const earlierHand = new form.Hand(page);
    await deer.open(server.url);
    await deer.offlineReady();
    await intoAVisit(earlierHand, { form, root: earlier });
    await page.waitForFunction(() => document.documentElement.dataset.build);
    const [old, before] = [await build(page), await stand(page)];
    console.log(`earlier form ${old}: ${before.kept.length} entries, next ${before.ask}`);
    if (name) {
      const made = { what: `the phone of a form built earlier (${name}), in the middle of a visit`, ...await takeOut(page) };
      writeFileSync(join(FOLDER, `${name}.json`), `${JSON.stringify(made, null, 1)}\n`);
    }
    rmSync(root, { recursive: true });
    cpSync(DIST, root, { recursive: true });
    await page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration()).update(); });
    await newerWaits(page);
    await form.answerOne(earlierHand, OPEN_VISIT);
    await saved(page);
    const asked = await stand(page);
    await page.reload();
    await deer.formIsUp();
    const same = await carryOn(hand);
    if (await build(page) !== old) faults.push("another version runs, and nobody asked for it");
    if (gone(before, same).length) faults.push(`entries are gone before the update: ${gone(before, same).length}`);
    if (same.ask !== asked.ask) faults.push(`the earlier form asks ${same.ask} after ${asked.ask}`);
    await takeUpdate(hand, server.url);
    await deer.formIsUp();
    const after = await carryOn(hand);
    await page.waitForFunction((was) => (document.documentElement.dataset.build ?? was) !== was, old);
    if (gone(asked, after).length) faults.push(`entries are gone after the update: ${gone(asked, after).length} of ${asked.kept.length}`);
    if (after.code !== before.code) faults.push(`the carcass was ${before.code} and is ${after.code}`);
    console.log(`newer form ${await build(page)}: ${after.kept.length} entries, next ${after.ask} (the earlier one asked ${asked.ask})`);
    await server.stop();
    await walk(hand, OPEN_VISIT);
    await hand.tile("close");
    await page.waitForSelector("[data-card]");
    console.log(`closed with ${(await bodies(page)).length} entries, the server gone`);
    faults.push(...deer.faults);
  } finally {
    await deer.end();
    await server?.stop();
    rmSync(root, { recursive: true, force: true });
  }
  for (const fault of faults) console.log(fault);
  console.log(`update from ${earlier}: ${faults.length} faults`);
  return faults.length;
}

if (process.argv[1]?.endsWith("updates.mjs")) process.exit(await play(process.argv[2], process.argv[3]) === 0 ? 0 : 1);
