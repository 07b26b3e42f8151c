// The second carcass of a day, all eaten, told from the first screen to the end of its record with a hand that counts
// its taps; a photo counts one. The plan is invented; that it holds without a card is the point.
import assert from "node:assert/strict";
import { test } from "node:test";
import { Hand, answerOne, saved, standing, walk } from "./form.mjs";
import { VISIT } from "./outing.mjs";
import { withPhone } from "./phone.mjs";

const PHONE = {
  viewport: { width: 360, height: 740 }, screen: { width: 360, height: 740 }, permissions: ["geolocation"],
  geolocation: { latitude: 47.95, longitude: -91.45, accuracy: 8 },
};
const FIRST = {
  ...VISIT, due_back: { number: 2359 }, place: "here", photo_scene: { none: "not-looked" }, animals_about: { seen: [] }, others_dead_or_sick: { seen: [] },
  people_on_body: { seen: [] }, people_round_body: { seen: [] }, tags: { seen: [] }, examination_closed: "record_only",
};
const SCRAPS = {
  land_leave: "reserve_or_public", ground_again: "none-of-these", place: "here", times_known: "save", alive: "bones_and_hair",
  species: "white_tailed_deer", look_round_again: "none-of-these", record_length: "short_record", snow_over_body: "none",
  snow_readable: "sharp", snow_signs: { seen: ["hair_scattered"] }, tracks_by: { many: ["coyote"] }, droppings_by: "save",
  bird_signs: { many: ["whitewash"] }, round_the_body: { seen: ["bones_scattered"] }, quick_class: "older",
  rumen_lying_out: { none: "not-seen" }, bones_fed_on: "ribs_or_blades_gnawed",
};
/** The last question of the record; what follows is leaving. */
const LAST = "bones_fed_on";

test("a scavenged carcass is told in 25 taps from the first screen, a photo counted", { timeout: 400_000 }, () => withPhone(PHONE, async (phone, place) => {
  const { page } = phone;
  await phone.open(place.url);
  const hand = new Hand(page);
  await page.waitForSelector('main [data-tile="outing"]');
  await hand.tile("outing");
  await page.waitForSelector('main [data-field="who"]');
  await hand.type('main [data-field="who"]', "M1");
  await hand.tile("go");
  await page.waitForSelector("main [data-ask]");
  await walk(hand, FIRST, { until: ({ ask }) => ask === "none" });
  await saved(page);
  await page.goto(`${place.url}#start`);
  await page.waitForSelector('main [data-tile="new-carcass"]');
  let taps = 0;
  const told = [];
  const press = hand.press.bind(hand);
  hand.press = (selector) => { taps += 1; return press(selector); };
  await hand.tile("new-carcass");
  for (let asked = ""; asked !== LAST;) {
    await page.waitForFunction((was) => (document.querySelector("main [data-ask]")?.dataset.ask ?? was) !== was, asked);
    const here = await standing(page);
    asked = here.ask;
    await phone.picture(`taps-${asked}`);
    const before = taps;
    if (asked.startsWith("photo_scene")) {
      const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.locator('[data-tile="camera"]').tap()]);
      taps += 1;
      const picture = await page.screenshot({ type: "jpeg" });
      await chooser.setFiles({ name: "scene.jpg", mimeType: "image/jpeg", buffer: picture });
    } else {
      const known = here.grade === "confirm" || (SCRAPS[asked] ?? SCRAPS[asked.replace(/\..*$/, "")]) !== undefined;
      assert.ok(known, `${asked} is asked, which the plan does not know`);
      await answerOne(hand, SCRAPS);
    }
    told.push(`${asked} ${taps - before}`);
  }
  await saved(page);
  console.log(`${taps} taps: ${told.join(", ")}`);
  assert.ok(taps <= 25, `${taps} taps`);
  assert.deepEqual(phone.faults, []);
}));
