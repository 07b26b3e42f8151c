// Twelve invented deer, told first as somebody saw them and only then put through the form: what lies there, in
// plain words; what is true of it; and the tile that a person in mittens took on each screen. None of it is a check
// value: the stories were made up before the form was opened, to see whether it lets them be told.

/** What a crew says before it leaves, the same on every outing; the hour it is due back is the story's. */
const OUT = {
  people_out: { text: "K7 B2" }, crew_count: { number: 2 }, roles: "recorder_and_handler", contact_told: "done",
  backup_told: "done", late_action_agreed: "done", due_back: { when: [0, "1930"] }, air_temperature: { number: "-8" },
  wind: { number: 10 }, wind_read_at: "forecast_or_mast", permit: { text: "QR-DEMO-17" }, blades_out: { number: 2 },
  gear_gloves: "done", snowfalls_dated: { number: 0 },
};
/** One dated fall of snow: days before the visit and hour, begun and ended. */
const fall = (began, ended) => ({ snowfalls_dated: { number: 1 }, "snowfall_began_at.1": { when: began }, "snowfall_ended_at.1": { when: ended } });
/** A deer where nothing alarming is about; each story says what is otherwise. */
const PLAIN = {
  ...OUT, land_leave: "reserve_or_public", ground: { seen: [] }, road_and_people: { seen: [] }, report_outcome: "found",
  place: { text: "47.95 -91.45" }, walk_out: { number: 35 }, arrived: "now", times_known: "save", alive: "dead",
  species: "white_tailed_deer", animals_about: { seen: [] }, others_dead_or_sick: { seen: [] }, people_on_body: { seen: [] },
  people_round_body: { seen: [] }, tags: { seen: [] }, danger_signs: { seen: [] }, own_tracks: "done", body_state: "whole",
  snow_over_body: "none", snow_readable: "sharp", snow_under_body: "old_snow", body_buried: "on_top", snow_crust: "none",
  snow_signs: { seen: [] }, tracks_by: "save", droppings_by: "save", bird_signs: "save", round_the_body: { seen: [] },
  track_edges: "crisp", quick_class: "older", decay: "fresh", body_frozen: "frozen_solid", sex_evidence: { many: ["no_pedicles"] },
  death_place: "woods_or_trail", road_distance: "over_500_m", rump_stained: { seen: [] }, scene_photographed: "done",
  search_people: { seen: [] }, touching_allowed: "card_names_me", thumb_to_finger: "easy", insects: { seen: [] },
  bones_broken: "save", leg_disease: "save", body_thaw: "never_thawed", body_looked_over: "both_sides",
  wounds_outside: { seen: [] }, hide_marks: { seen: [] }, bruising: "save", remark: "none", opening_trained: "card_names_me",
  examination_closed: "complete", litter_packed_out: "done", heads_counted: { number: 2 }, blades_back: { number: 2 },
  contact_told_back: "done",
};
/** The same without a card: nobody may touch, and codes are typed. */
const NO_CARD = { ...PLAIN, people_out: { text: "M1 M2" }, permit: "none" };
const LEFT = { examination_closed: "left_early", left_early: "unsafe_here" };

export const STORIES = [
  {
    name: "yard-fawn", at: "2027-02-20T10:40:00-05:00", card: true,
    story: `A cedar yard under 95 cm of snow, packed trails between the trees. A small deer lies curled on its brisket
in a bed under a cedar, legs folded, as if asleep, hard as wood. A thin even layer of new snow lies over its back and over
the ground alike: it snowed from the evening of the 18th, eight o'clock, to the morning of the 19th, six o'clock, and
the deer lay there before. Only tracks of deer and of a hare. No blood, no hair, no hole in it. Hips and spine stand out.
Short face; the third cheek tooth has three bumps. Two knobs under the skin of the head. It died in the night to the 18th.`,
    truth: { died: "2027-02-18T05:00:00-05:00", young: true, cause: /hunger|starvation/ },
    stops: [],
    plan: { ...PLAIN, ...fall([2, "2000"], [1, "0600"]), danger_signs: { seen: ["very_thin"] }, snow_over_body: "dusting",
      snow_over_body_depth: { number: 4 }, snow_readable: "snowed_over", snow_under_body: "melted_to_ice", snow_depth: { number: 95 },
      fall_over: "last_fall", fall_over_lie: "two_sides", fall_under: "second_last_fall", tracks_by: { many: ["deer"] },
      round_the_body: { seen: ["browse_or_beds_by_body"] }, body_position: "on_chest", quick_class: "fawn",
      sex_evidence: { many: ["pedicles_or_knobs"] }, death_place: "bed_under_cover", body_looked_over: "upper_side_only", bruising: { none: "cant-tell" },
      hind_foot: { number: 410 }, parts_frozen: { seen: ["leg_frozen_hard", "neck_frozen_hard", "thigh_frozen_hard", "trunk_frozen_hard"] },
      sex_handled: { many: ["pedicles_or_knobs", "scrotum_or_penis"] }, jaw_in_view: "left", "cheek_teeth_count.left": { number: 4 },
      "third_tooth.left": "three_cusps", "jaw.left": { teeth: ["milk", "milk", "milk", "up_unworn", "not_there", "not_there"] } },
  },
  {
    name: "lake-wolf", at: "2027-02-05T12:20:00-05:00", card: true,
    story: `On the ice of a lake, 40 cm thick by the auger. Ribs, spine, head and hide of a grown doe in a trampled ring, the
stomach thrown aside two metres off. Blood and tufts of hair along 60 m of running tracks to the place. Big dog-like prints,
10 cm wide and 12 long, four animals, sharp; ravens and a fox's track. The hide at the hams is torn and dark red below. Snow
fell until six in the evening of the 3rd; all tracks are on it. A skier crossed here at three in the afternoon of the 4th
and saw nothing. A thigh bone is cracked: white firm marrow, still frozen. Killed at ten in the evening of the 4th.`,
    truth: { died: "2027-02-04T22:00:00-05:00", young: false, cause: /wolf/ },
    stops: ["E01"],
    plan: { ...PLAIN, ...fall([2, "0400"], [2, "1800"]), ground: { seen: ["on_or_near_ice"] }, E01: { reopen: "40 cm measured by auger along our path" },
      clear_ice: { number: 40 }, white_ice: { number: 0 }, ice_items: { many: ["measured_every_few_steps", "picks", "rope", "second_person"] },
      times_known: { many: ["place_without_body"] }, place_clear_at: { when: [1, "1500"] }, animals_about: { seen: ["birds_feeding_now"] },
      body_state: "mostly_eaten", snow_signs: { seen: ["blood_on_snow", "drag_marks", "hair_scattered", "chase_or_struggle_marks"] },
      blood_where: { many: ["trail_to_body", "sprayed", "at_body"] }, drag_length: { number: 5 }, tracks_by: { many: ["wolf", "fox"] },
      track_toes: { number: 4 }, front_track_width: { number: 100 }, front_track_length: { number: 120 },
      bird_signs: { many: ["whitewash", "birds_present"] }, round_the_body: { seen: ["bones_scattered"] }, event_tracks_cut: "last_fall",
      body_position: "scattered", rumen_lying_out: "pulled_out", parts_eaten: { many: ["all"] }, death_place: "on_or_in_ice",
      feeding_began: "rump_or_hams", bones_fed_on: "long_bones_crushed", wounds_outside: { seen: ["wounds_outside"] },
      wounds_count: { number: 1 }, "wound_region.1": "rump_or_hind_legs", "wound_form.1": "tear", "wound_bleeding.1": "diffuse_or_stained",
      sex_called: "female", jaw_in_view: "neither" },
  },
  {
    name: "fed-on", at: "2027-03-12T09:50:00-05:00", card: true,
    story: `Below a spruce a grown doe lies in her bed, legs under her. Something ate in from under the tail; one ham is gone.
Small dog-like prints, 6 cm wide, come and go. No blood on the snow but a smear at the hole, no chase, no trampling. The hide
round the bites is pale inside: it did not bleed. Spine and hips sharp. Thigh marrow red and like wet jelly. No fat at kidney
and heart. The stomach is packed with twigs and needles. Snow stopped on the 9th at noon and there is none on her or in the
bed. She died on the 10th at seven in the morning; coyotes came on the 11th.`,
    truth: { died: "2027-03-10T07:00:00-05:00", young: false, cause: /starvation/ },
    stops: [],
    plan: { ...PLAIN, ...fall([3, "0200"], [3, "1200"]), danger_signs: { seen: ["blood_at_openings", "very_thin"] }, body_state: "part_eaten",
      snow_under_body: "melted_to_ice", snow_crust: "holds_predator_only", snow_depth: { number: 55 }, tracks_by: { many: ["coyote"] },
      track_toes: { number: 4 }, front_track_width: { number: 60 }, front_track_length: { number: 70 }, fall_under: "last_fall",
      round_the_body: { seen: ["browse_or_beds_by_body"] }, body_position: "on_chest", body_frozen: "part_frozen",
      parts_eaten: { many: ["rump"] }, death_place: "bed_under_cover", feeding_began: "rump_or_hams", bones_fed_on: "intact",
      wounds_outside: { seen: ["wounds_outside"] }, wounds_count: { number: 1 }, "wound_region.1": "rump_or_hind_legs",
      "wound_form.1": "tear", "wound_bleeding.1": "clean_no_bruise", sex_handled: { many: ["udder_or_vulva"] }, jaw_in_view: "left",
      "cheek_teeth_count.left": { number: 6 }, "third_tooth.left": "two_cusps_stained", "jaw.left": { each: ["in_wear", "wider", "blunt", "next"] },
      marrow_bone: "femur", "bone_opened.femur": "intact",
      "marrow_frozen.femur": "never_frozen", "marrow_consistency.femur": "gelatinous_wet" },
  },
  {
    name: "road-deer", at: "2026-11-20T13:10:00-05:00", card: true,
    story: `In alders, 80 m from a county road: a young buck with two spikes, whole, warm under the arm, legs stiff. One hind leg
swings where it should not. Hair is rubbed off down one side and there is a graze with grit in it; no hole, no bite. Its own
track comes from the road, one hoof dragging, drops of blood; at the road grey hair and a bit of headlight. 5 cm of wet
snow. Opened: blood under the skin of that whole side, three ribs broken, thick fat on the rump, kidney wrapped.
It was hit at six in the morning.`,
    truth: { died: "2026-11-20T07:00:00-05:00", young: false, cause: /vehicle/ },
    stops: [],
    plan: { ...PLAIN, air_temperature: { number: 1 }, snow_depth: { number: 5 }, snow_under_body: "new_snow", snow_signs: { seen: ["blood_on_snow"] },
      blood_where: { many: ["trail_to_body"] }, blood_state: "liquid_or_smears", tracks_by: { many: ["deer"] }, body_frozen: "not_frozen",
      limp: { seen: [] }, eyes: "clear_and_round", sex_evidence: { many: ["antlers"] }, road_distance: "within_500_m",
      bones_broken: { many: ["leg", "ribs"] }, wounds_outside: { seen: ["wounds_outside"] }, wounds_count: { number: 1 },
      "wound_region.1": "rump_or_hind_legs", "wound_form.1": "scrape", "wound_bleeding.1": "diffuse_or_stained",
      bruising: { many: ["shoulder_or_chest", "belly_or_flank", "rump_or_hind_legs"] }, antler_beam: { number: 150 },
      stiffness: "all_over", warmth: { seen: ["body_warm"] }, sex_handled: { many: ["antlers", "scrotum_or_penis"] }, jaw_in_view: "neither",
      bruise_under_skin: "wide", rump_fat: "thick" },
  },
  {
    name: "shot-buck", at: "2026-11-24T15:00:00-05:00", card: false,
    story: `The rifle season has three days to run. A heavy buck with eight points lies on its side at the edge of a cutting, whole. A
small round hole behind one shoulder, a ragged one as wide as two thumbs on the other side, blood down the ribs, frothy blood at the
nose. A trail of blood from the cutting, boot prints 60 m off that turned round. It was shot the evening before.`,
    truth: { died: "2026-11-23T16:30:00-05:00", young: false, cause: /people/ },
    stops: ["L04"],
    plan: { ...NO_CARD, ...LEFT, people_on_body: { seen: ["bullet_or_arrow_wound"] }, people_round_body: { seen: ["boot_or_drag_trail"] },
      danger_signs: { seen: ["blood_at_openings"] }, evidence_note: { text: "Round hole behind the left shoulder, ragged hole on the right" },
      evidence_rules: "done", officer_told: "no_signal", snow_signs: { seen: ["blood_on_snow"] }, blood_where: { many: ["trail_to_body", "at_body"] },
      tracks_by: { many: ["deer"] }, body_position: "on_left_side", body_frozen: { none: "not-looked" }, sex_evidence: { many: ["antlers"] } },
  },
  {
    name: "through-ice", at: "2027-01-10T11:00:00-05:00", card: false,
    story: `A river with black moving water and a shelf of ice. A doe hangs half out of a hole eight metres from the bank, coat one
sheet of ice, head on the shelf, chest and hind end under. Hoof scratches and broken edges all round the hole. Nobody can walk there;
we look through field glasses from the bank. Nothing has eaten of it. She went in two days ago.`,
    truth: { died: "2027-01-08T09:00:00-05:00", young: false, cause: /accident/ },
    stops: ["E01", "E03"],
    plan: { ...NO_CARD, ...LEFT, ground: { seen: ["on_or_near_ice", "moving_or_open_water"] }, snow_signs: { seen: ["chase_or_struggle_marks"] },
      tracks_by: { many: ["deer"] }, body_position: "on_chest", body_frozen: { none: "not-looked" }, death_place: "on_or_in_ice",
      sex_called: "female", touching_allowed: { none: "not-looked" } },
  },
  {
    name: "dogs", at: "2027-03-03T10:00:00-05:00", card: true,
    story: `Behind cabins, against a wire fence: a grown doe, whole, hide torn at both hams, ears and flank, many small bites, almost
nothing eaten, much blood. Prints of two dogs, one big and one small, blunt claws, wandering from the cabins and back to them;
beside them the boot prints of the woman who told the office; the run can be followed for half a kilometre. Bites bled below the skin. Two unborn fawns. It happened at five the day before.`,
    truth: { died: "2027-03-02T17:00:00-05:00", young: false, cause: /dog/ },
    stops: [],
    plan: { ...PLAIN, snow_signs: { seen: ["blood_on_snow", "hair_scattered", "chase_or_struggle_marks"] }, blood_where: { many: ["at_body", "sprayed"] },
      tracks_by: { many: ["dog"] }, tracks_main: "large_canid", track_toes: { number: 4 }, front_track_width: { number: 85 },
      front_track_length: { number: 90 }, body_position: "on_left_side", body_frozen: "part_frozen", sex_evidence: { many: ["udder_or_vulva"] },
      death_place: "fence_cliff_or_snag", road_distance: "within_500_m", wounds_outside: { seen: ["wounds_outside"] }, wounds_count: { number: 2 },
      "wound_region.1": "rump_or_hind_legs", "wound_form.1": "tear", "wound_bleeding.1": "clot_at_hole", "wound_region.2": "head",
      "wound_form.2": "tear", "wound_bleeding.2": "clot_at_hole", bruising: { many: ["rump_or_hind_legs"] }, jaw_in_view: "neither" },
  },
  {
    name: "old-jaw", at: "2027-01-30T11:30:00-05:00", card: true,
    story: `An old buck, antlers cast, lies whole on his side in a thicket, bones showing, hard in the legs. The right lower jaw has a
lump like a fist; it is bent, an old break that grew together crooked; food is packed in the cheek, and the cheek teeth are worn to the
gum, flat as plates. No bite, no blood. 60 cm of snow; the last fell to the 25th, and none is on him. Kidney and heart bare, marrow
red jelly. He died on the 27th.`,
    truth: { died: "2027-01-27T04:00:00-05:00", young: false, cause: /starvation|disease|accident/ },
    stops: [],
    plan: { ...PLAIN, ...fall([6, "2000"], [5, "1200"]), danger_signs: { seen: ["very_thin"] }, snow_depth: { number: 60 }, snow_readable: "trampled",
      fall_under: "last_fall", body_position: "on_left_side", body_frozen: "part_frozen", sex_evidence: { many: ["pedicles_or_knobs"] },
      sex_handled: { many: ["pedicles_or_knobs", "scrotum_or_penis"] }, jaw_in_view: "right", "cheek_teeth_count.right": { number: 6 },
      "third_tooth.right": "two_cusps_stained", "jaw.right": { teeth: ["in_wear", "in_wear", "in_wear", "smooth", "in_wear", "smooth", "gone", "in_wear", "smooth", "gone", "in_wear", "smooth", "gone"] },
      "third_molar_back_cusp.right": "level_or_below", "premolar_wear.right": "stumps", jaw_trouble: { many: ["swelling", "broken", "sides_differ"] } },
  },
  {
    name: "sick-doe", at: "2027-01-15T13:00:00-05:00", card: true,
    story: `By a creek a thin doe, whole. A trail user told the office four days ago of a deer there, walking in circles, head low, drooling.
Slobber is frozen in a beard on her chin; coat rough; ribs show; no wound. Fifty metres on another thin deer stands and does not run.
Found dead today; alive on the 11th, noon.`,
    truth: { died: "2027-01-13T12:00:00-05:00", young: false, cause: /disease|starvation/ },
    stops: ["H17"],
    plan: { ...PLAIN, ...LEFT, times_known: { many: ["seen_alive"] }, seen_alive_at: { when: [4, "1200"] }, others_dead_or_sick: { seen: ["sick_live_animal"] },
      remark: { text: "Thin doe, slobber frozen on her chin; another thin deer 50 m off does not run" } },
  },
  {
    name: "cached-fawn", at: "2027-01-22T09:20:00-05:00", card: false,
    story: `A mound of snow, spruce needles and plucked hair under a windfall, one small hoof sticking out. A drag mark of 25 m leads to it.
Round prints as wide as a fist, no claws, fresh this morning. What shows of the fawn: the throat with four deep holes, the ribs opened.`,
    truth: { died: "2027-01-21T20:00:00-05:00", young: true, cause: /cougar|bobcat/ },
    stops: ["E07", "E09"],
    plan: { ...NO_CARD, ...LEFT, animals_about: { seen: ["cached_over", "fresh_mammal_tracks_now"] }, cover_with: { many: ["snow_raked", "leaves_or_soil", "plucked_hair"] },
      remark: { text: "Fawn; round prints without claws; four deep holes in the throat" } },
  },
  {
    name: "spring-bones", at: "2027-04-20T14:00:00-04:00", card: true,
    story: `Snow is gone but for the north slopes. A mat of deer hair two metres across, a spine with ribs, one leg, a skull, both lower jaws, all
chewed and scattered over 20 m. Old droppings with hair. Nothing soft is left. The teeth are sharp with narrow brown lines, all six there,
the third with two bumps. Nobody knows when; some time in February.`,
    truth: { died: "2027-02-15T12:00:00-05:00", young: false, cause: null },
    stops: [],
    plan: { ...PLAIN, body_state: "bones_and_hair", snow_readable: "melted_or_blown", snow_under_body: "bare_ground", snow_depth: { number: 0 },
      tracks_by: { none: "cant-tell" }, droppings_by: { many: ["not_named"] }, round_the_body: { seen: ["bones_scattered"] },
      rumen_lying_out: { none: "part-gone" }, decay: "bones_only", sex_called: { none: "cant-tell" }, bone_weathering: "stage_0",
      spring_signs: { seen: ["hair_mat_left"] }, bones_fed_on: "ribs_or_blades_gnawed", hind_foot: { number: 480 }, pelvis_knobs: { none: "cant-tell" },
      jaw_in_view: "left", "cheek_teeth_count.left": { number: 6 }, "third_tooth.left": "two_cusps_stained",
      "jaw.left": { each: ["in_wear", "narrower", "sharp", "next"] }, "third_molar_back_cusp.left": "pointed", "premolar_wear.left": "light" },
  },
  {
    name: "hard-frozen", at: "2027-01-08T10:00:00-05:00", card: false,
    story: `A grown deer lies on its side in open hardwoods, half under snow, hard as a board. Nothing can be seen on it: no blood, no hole, nothing
eaten, no tracks but squirrel. We have no leave to touch it.`,
    truth: { died: "2027-01-05T12:00:00-05:00", young: false, cause: null },
    stops: [],
    plan: { ...NO_CARD, snow_over_body: "part_covered", snow_over_body_depth: { number: 15 }, snow_readable: "snowed_over", body_buried: "part_buried",
      snow_depth: { number: 45 }, fall_over_lie: "two_sides", body_position: "on_left_side", body_frozen: { none: "not-looked" },
      touching_allowed: { none: "not-looked" }, examination_closed: "record_only" },
  },
];
