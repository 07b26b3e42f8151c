// Five invented deer for looking at the readings: a fawn, a yearling, one in its prime, an old one, and
// scattered bones without a jaw. None of it is a check value.
const seen = (finding, value, site) => ({ finding, answer: { state: "seen", value }, ...(site ? { site } : {}) });
const choice = (finding, code, site) => seen(finding, { choice: code }, site);
const number = (finding, n, site) => seen(finding, { number: n }, site);
const many = (finding, ...codes) => seen(finding, { choices: codes });

const HERE = [choice("report_outcome", "found"), choice("species", "white_tailed_deer"), choice("alive", "dead")];
const WHOLE = [choice("body_state", "whole"), choice("body_frozen", "not_frozen"), choice("decay", "fresh")];

/** One half of a lower jaw: states front to back, then dentine and crest of the three molars. */
function half(side, states, dentine = [], crest = []) {
  const teeth = ["p2", "p3", "p4", "m1", "m2", "m3"];
  const through = states.filter((s) => !["not_there", "in_gum", "milk_shed"].includes(s)).length;
  const rows = states.map((state, i) => choice("tooth_state", state, { side, tooth: teeth[i] }));
  dentine.forEach((d, i) => d && rows.push(choice("dentine", d, { side, tooth: teeth[3 + i] })));
  crest.forEach((c, i) => c && rows.push(choice("crest", c, { side, tooth: teeth[3 + i] })));
  return [number("cheek_teeth_count", through, { side }), ...rows];
}

const GROWN = Array(6).fill("in_wear");
const MILK = ["milk", "milk", "milk"];

export const DEER = {
  fawn: [
    ...HERE, ...WHOLE, choice("quick_class", "fawn"), ...half("left", [...MILK, "up_unworn", "part_up", "not_there"]),
    choice("third_tooth", "three_cusps", { side: "left" }), choice("front_teeth", "first_pair_permanent"),
    many("sex_evidence", "pedicles_or_knobs"), number("chest_girth_cm", 720),
  ],
  yearling: [
    ...HERE, ...WHOLE, choice("quick_class", "older"), ...half("right", [...MILK, "in_wear", "up_unworn", "part_up"]),
    choice("third_tooth", "three_cusps", { side: "right" }), choice("front_teeth", "all_permanent"),
    many("sex_evidence", "antlers"), number("whole_weight_kg", 482), number("antler_beam_mm", 180, { side: "left" }),
  ],
  prime: [
    ...HERE, ...WHOLE, choice("quick_class", "older"),
    ...half("left", GROWN, ["twice_or_more", "wider", "narrower"], ["blunt", "blunt", "sharp"]),
    ...half("right", GROWN, ["twice_or_more", "twice_or_more", "wider"], ["gone", "rounded", "blunt"]),
    choice("third_tooth", "two_cusps_stained", { side: "left" }), choice("third_molar_back_cusp", "slopes_to_cheek", { side: "left" }),
    many("sex_evidence", "udder_or_vulva"), number("chest_girth_cm", 880), number("body_length_cm", 1520),
    choice("fetus", "there"), number("fetuses_count", 2), number("fetus_length_mm", 150, { item: 1 }),
    number("fetus_length_mm", 148, { item: 2 }), choice("marrow_bone", "femur"),
    choice("bone_opened", "open_under_a_day", { bone: "femur" }), choice("marrow_frozen", "never_frozen", { bone: "femur" }),
    choice("marrow_consistency", "gelatinous_wet", { bone: "femur" }),
  ],
  old: [
    ...HERE, choice("body_state", "part_eaten"), choice("quick_class", "older"),
    ...half("left", GROWN, ["smooth", "smooth", "smooth"], ["gone", "gone", "gone"]),
    choice("third_tooth", "two_cusps_stained", { side: "left" }), choice("third_molar_back_cusp", "level_or_below", { side: "left" }),
    many("sex_evidence", "no_pedicles"), number("chest_girth_cm", 340),
  ],
  bones: [
    ...HERE, choice("body_state", "bones_and_hair"), choice("jaw_in_view", "neither"), choice("quick_class", "older"),
    choice("pelvis_knobs", "knobs_absent"), number("hind_foot_mm", 482, { side: "left" }),
  ],
};

/** The outing that the form plays at `#demo`, one closed examination a deer, in the order of `DEER`. */
export function outing() {
  const carcasses = Object.values(DEER).map((findings) => ({ kind: "field", closed: true, findings }));
  return JSON.stringify({ person: "K7", outing: [], carcasses });
}
