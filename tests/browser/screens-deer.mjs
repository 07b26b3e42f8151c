// An invented outing that opens every question of the form at once, so that each of its screens can be looked at:
// one deer whose record is closed, one that is on the way with nearly everything to be asked, one that people have
// shot. None of it is a check value.
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DEER } from "./five-deer.mjs";
import { ROOT } from "./phone.mjs";

const seen = (finding, value, site) => ({ finding, answer: { state: "seen", value }, ...(site ? { site } : {}) });
const choice = (finding, code, site) => seen(finding, { choice: code }, site);
const number = (finding, n, site) => seen(finding, { number: n }, site);
const many = (finding, ...codes) => seen(finding, { choices: codes });
/** So many days ago, at an hour of this phone. */
function ago(days, hour) {
  const date = new Date(Date.now() - days * 86_400_000).toLocaleDateString("sv-SE", { timeZone: "America/Toronto" });
  return { instant: `${date}T${String(hour).padStart(2, "0")}:00:00-05:00` };
}

const HERE = [choice("report_outcome", "found"), choice("species", "white_tailed_deer"), choice("alive", "dead")];

/** Read in every way: age, sex, weight, condition, food, time of death, cause. */
const CLOSED = [
  ...DEER.prime, seen("arrived_at", ago(0, 0)), seen("place_clear_at", ago(12, 9)), many("times_known", "place_without_body"),
  choice("body_buried", "on_top"), choice("touching_allowed", "card_names_me"), choice("snow_readable", "sharp"), choice("snow_over_body", "part_covered"),
  choice("fall_over", "last_fall"), choice("fall_over_lie", "two_sides"), choice("chase_or_struggle_marks", "there"),
  choice("blood_on_snow", "there"), many("blood_where", "at_body", "trail_to_body"), many("tracks_by", "wolf"),
  choice("tracks_main", "large_canid"), choice("track_edges", "crisp"), number("front_track_width_mm", 98),
  number("front_track_length_mm", 112), choice("jaw_taken", "whole_jaw"), choice("sample_what", "jaw", { item: 1 }),
  seen("sample_number", { text: "QR-27-014-JAW" }, { item: 1 }),
];

/** Frozen only in part, opened by somebody who may, with young, wounds, samples and a bone. */
const OPEN = [
  ...HERE, choice("body_state", "part_eaten"), choice("body_frozen", "not_frozen"), choice("body_buried", "on_top"), choice("quick_class", "older"),
  choice("snow_over_body", "part_covered"), choice("snow_under_body", "new_snow"), number("snow_over_body_cm", 15), choice("blood_on_snow", "there"),
  choice("touching_allowed", "card_names_me"), choice("opening_trained", "card_names_me"), choice("thumb_to_finger", "easy"),
  many("tracks_by", "wolf", "fox"), choice("tracks_main", "large_canid"), many("droppings_by", "wolf"), many("sex_evidence", "antlers"),
  many("times_known", "place_without_body", "seen_alive"), choice("jaw_in_view", "both"),
  ...["left", "right"].flatMap((side) => [number("cheek_teeth_count", 6, { side }), choice("third_tooth", "two_cusps_stained", { side })]),
  choice("marrow_bone", "femur"), choice("bone_opened", "open_under_a_day", { bone: "femur" }), choice("fetus", "there"), number("fetuses_count", 1),
  number("wounds_count", 1), choice("wounds_outside", "there"), choice("wound_form", "tear", { item: 1 }), choice("jaw_taken", "whole_jaw"),
  number("other_samples_count", 1), choice("moving_or_open_water", "there"),
];

/** Shot: hands off, an officer is called. */
const SHOT = [
  ...HERE, choice("body_state", "whole"), choice("quick_class", "older"), choice("bullet_or_arrow_wound", "there"), choice("boot_or_drag_trail", "there"),
];

/** A folder to be served under `demo/`, with the invented reserve's card. */
export function demoFolder() {
  const folder = mkdtempSync(join(tmpdir(), "marrowbook-screens-"));
  const { outing } = JSON.parse(readFileSync(join(ROOT, "demo/outing.json"), "utf8"));
  const falls = [number("snowfalls_dated_count", 1), seen("snowfall_began_at", ago(5, 6), { item: 1 }), seen("snowfall_ended_at", ago(4, 20), { item: 1 })];
  const carcasses = [CLOSED, SHOT, OPEN].map((findings) => ({ kind: "field", closed: findings === CLOSED, findings }));
  writeFileSync(join(folder, "card.txt"), readFileSync(join(ROOT, "demo/card.txt")));
  writeFileSync(join(folder, "outing.json"), JSON.stringify({ person: "K7", outing: [...outing, ...falls], carcasses }));
  return folder;
}
