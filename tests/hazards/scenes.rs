//! A table of ordinary and dangerous scenes, with every stop and confirm that each should raise.

use std::collections::BTreeSet;

use marrowbook::guide::{Grade, hazards};

use crate::scene::{Scene, card};

/// Name, answers on top of a crew that is ready, what should fire (advise too), and where that is
/// read from. An empty expectation is an ordinary day: anything that fires is a false alarm.
pub(crate) const SCENES: &[(&str, &str, &str, &str)] = &[
    // Ordinary days.
    ("fresh deer, nothing odd", "", "", "common practice, no source"),
    (
        "winter-killed fawn on the chest, snowed over",
        "body_position=on_chest snow_over_body=covered quick_class=fawn",
        "",
        "this project's rule: snowfall over a body is no cache",
    ),
    (
        "raked over with snow alone",
        "cached_over=there cover_with=snow_raked",
        "",
        "this project's rule: litter, soil or hair mixed in",
    ),
    ("frozen solid", "body_frozen=frozen_solid", "H23", "frozen bodies are not cut: from memory"),
    (
        "frozen through, limp cannot be told",
        "body_frozen=frozen_solid limp_not_frozen=?",
        "H23",
        "stiffness in the cold tells nothing: from memory",
    ),
    (
        "blood at the nose, road kill on the shoulder",
        "blood_at_openings=there road_edge=there",
        "E06",
        "23 CFR 634 by the road; blood explained by the road",
    ),
    (
        "wheel tracks beside the same road",
        "road_edge=there vehicle_tracks_to_body=there",
        "E06",
        "common practice, no source",
    ),
    (
        "coyote kill, wounds seen, blood at the mouth",
        "wounds_outside=there blood_at_openings=there",
        "",
        "blood explained by a wound",
    ),
    ("ravens on it", "birds_feeding_now=there", "E09A", "this project's rule: ravens advise"),
    ("old droppings of a coyote", "droppings_by=coyote", "H11 H12", "Idaho Fish and Game, Hydatid Disease"),
    ("old droppings of a bear", "droppings_by=bear", "H12", "droppings are bagged with care whatever left them"),
    ("several dead deer in one yard", "other_dead_grazers=there", "", "common practice, no source"),
    ("a mangy fox seen far off", "mangy_carnivore=there", "H22", "Colorado Parks and Wildlife; NYSDEC"),
    ("thaw at -1 C", "air_temperature_c=-1", "H20", "Schulze, Jordan and Hung 2001: questing down to -0.6 C"),
    ("cold noon at -15 C, full snow", "air_temperature_c=-15", "G01", "Environment Canada bands: -10 to -27 C"),
    ("back at a deer known since Monday", "known_carcass_revisited=there", "E08", "Montana hunter education"),
    ("flies in the coat", "flat_flies=there", "H21", "Auburn University; review of deer keds 2020"),
    ("nobody could say whether it is frozen", "body_frozen=?", "G26", "a fist test stands in: no source"),
    (
        "nobody looked for anything",
        "blood_at_openings=! dead_bird_or_scavenger=! cached_over=! bullet_or_arrow_wound=!",
        "",
        "not looked is never read as not there, nor as there",
    ),
    (
        "everything looked for, nothing there",
        "blood_at_openings=- swollen_belly=- dead_bird_or_scavenger=- cached_over=- on_or_near_ice=- road_lane=-",
        "",
        "common practice, no source",
    ),
    // Carcass.
    ("thin, chin dry", "very_thin=there wet_chin=-", "H04", "NIH/NIAID 2019: those that look ill look weak and thin"),
    ("in flesh, wet at the chin", "very_thin=- wet_chin=there", "H04", "NIH/NIAID 2019"),
    ("looked at, neither thin nor wet", "very_thin=- wet_chin=-", "", "common practice, no source"),
    ("nobody looked whether it is thin", "very_thin=! wet_chin=!", "", "not looked is never read as there"),
    ("a witness saw it stumble", "witness_behaviour=stumbling", "H04", "Indiana Board of Animal Health"),
    ("tame and circling, no wound", "witness_behaviour=circling+unafraid", "H05 H04", "Indiana Board of Animal Health"),
    (
        "the same with a wound",
        "witness_behaviour=circling+unafraid wounds_outside=there",
        "H04",
        "Indiana Board of Animal Health; a clear wound softens",
    ),
    (
        "bleeding at the nose, swollen, not frozen",
        "blood_at_openings=there swollen_belly=there",
        "H06",
        "Oklahoma State University CVHS; North Dakota Game and Fish",
    ),
    (
        "bleeding, limp, not frozen",
        "blood_at_openings=there limp_not_frozen=there",
        "H06",
        "Oklahoma State University CVHS",
    ),
    (
        "bleeding, frozen, said to be limp",
        "blood_at_openings=there limp_not_frozen=there body_frozen=part_frozen",
        "H07",
        "stiffness in the cold tells nothing: from memory",
    ),
    (
        "bleeding, frozen, other grazers dead",
        "blood_at_openings=there body_frozen=frozen_solid other_dead_grazers=there",
        "H06 H23",
        "NDSU Extension V561",
    ),
    ("blood at the nose only", "blood_at_openings=there", "H07", "as above, softer alone"),
    ("swollen only", "swollen_belly=there", "H08", "from memory"),
    ("dead raven beside the deer", "dead_bird_or_scavenger=there", "H16", "Canadian Wildlife Health Cooperative"),
    ("dead hare beside the deer", "dead_small_mammal=there", "H16 H15", "CDC, Tularemia; this project's rule: a stop"),
    ("eagle staggering near by", "sick_live_animal=there", "H17", "Canadian Wildlife Health Cooperative"),
    ("shaved vein and tape", "drug_or_bait_sign=there", "H18", "US Fish and Wildlife Service, pentobarbital"),
    ("bullet hole", "bullet_or_arrow_wound=there", "L04 H19", "Utah DWR 2018; Hunt et al., lead fragments"),
    ("one hole, cause unknown", "wounds_outside=there wound_form@1=single_hole", "H19", "Hunt et al., lead fragments"),
    ("talon holes", "wounds_outside=there wound_form@1=talon_holes", "", "common practice, no source"),
    ("ticks on the hair", "live_ticks=there", "H20", "University of Rhode Island"),
    ("bare ground under it", "snow_under_body=bare_ground", "H20", "University of Rhode Island"),
    ("somebody is cut", "exposure_note=cut_on_rib", "H24", "NIOSH 2012-123"),
    ("glove torn, skin whole", "glove_torn=replaced_no_cut", "H25", "no source"),
    ("glove torn, skin cut", "glove_torn=skin_cut", "H24 H25", "NIOSH 2012-123"),
    ("lumps on the rib wall", "lumps_inside=there", "H09", "MMWR 68, 2019"),
    ("clear bladder in the lung", "clear_bladder_inside=there", "H10", "Idaho Fish and Game, Hydatid Disease"),
    ("pregnant doe opened", "fetus=there", "H13", "Washington State University"),
    ("urine on the gloves", "urine_contact=there", "H14", "Dubay et al. 2015"),
    ("belly hard under a fist", "body_frozen=? belly_dents_under_fist=hard", "H23", "from memory"),
    ("head parts wanted by one whom the card names", "head_work_wanted=there", "H03A", "this project's rule"),
    // Place.
    ("on the lake", "on_or_near_ice=there", "E01", "Minnesota DNR"),
    ("on ice by an inlet", "on_or_near_ice=there moving_or_open_water=there", "E03 E01", "Minnesota DNR"),
    ("under a 35 degree slope", "slope_here_deg=20 slope_above_deg=35", "E04", "Gallatin NF Avalanche Center"),
    ("cracks shooting from the skis", "slide_or_cracking_snow=there", "E04", "Gallatin NF Avalanche Center"),
    ("hung tops above", "hung_or_broken_trees=there", "E05", "University of Kentucky FORFS 12-03"),
    ("in the lane", "road_edge=there road_lane=there", "E06L", "23 CFR 634; MUTCD 2023"),
    (
        "covered with leaves and hair",
        "cached_over=there cover_with=leaves_or_soil+plucked_hair",
        "E07",
        "Alberta Parks",
    ),
    ("covered, with what was not said", "cached_over=there", "E07", "Alberta Parks; on the safe side"),
    ("a cougar watching", "predator_in_sight=there", "E07", "Alberta Parks"),
    ("a growl", "growl_or_movement=there", "E09", "from memory"),
    ("tracks newer than the snowfall", "fresh_mammal_tracks_now=there", "E09", "from memory"),
    ("a child along", "child_or_lone_worker=there", "E10", "Parks Canada"),
    // Law.
    ("ear tag of a study", "study_tag_or_collar=there", "L01", "Wisconsin DNR 2017"),
    ("tag that says not to eat it", "do_not_eat_tag=there", "L02", "from memory"),
    ("pet collar", "owner_or_livestock_tag=there", "L03", "no source"),
    ("snare", "snare_or_trap=there", "L04", "Utah DWR 2018"),
    ("head gone, all else whole", "head_or_antlers_missing_only=there", "L04", "Idaho Fish and Game 2023"),
    ("wheels to it, far from any road", "vehicle_tracks_to_body=there", "L04", "Utah DWR 2018"),
    ("a boot with bones in it", "human_remains_or_clothing=there", "L05", "Knox County Sheriff 2014"),
    ("eagle feather", "eagle_or_hawk_part=there", "L06", "California DFW 2018"),
    ("alive after all", "alive=alive", "L07", "from memory"),
    ("private land, nobody asked", "land_leave=private_no_leave", "G18", "Georgia WRD 2017"),
    // How deer die and what is done to them: what each scene should raise, and what it must not.
    (
        "shot and lost, hole and track of a bullet under the hide",
        "wounds_outside=there wounds_count=1 wound_form@1=single_hole projectile_or_wound_track=there",
        "L04 H19",
        "cause-and-time-of-death.md rule 1 and E8; Hunt et al., lead fragments",
    ),
    (
        "old healed shot in a coyote kill, nothing found",
        "projectile_or_wound_track=- tracks_by=coyote",
        "",
        "Nettles et al. 1976",
    ),
    (
        "butchered: fillets gone, spine and ribs whole, skin cut at the skull",
        "clean_knife_cuts=there body_state=mostly_eaten",
        "L04",
        "Taras 2018: a Juneau case blamed on wolves (check row 30)",
    ),
    (
        "a straight knife cut among the wounds",
        "wounds_outside=there wound_form@1=cut_straight",
        "L04",
        "Taras 2018, knife-straight hide edges",
    ),
    (
        "boot and drag trail of strangers up to it",
        "boot_or_drag_trail=there",
        "L04",
        "cause-and-time-of-death.md rule 1",
    ),
    (
        "poached at night: head gone, shells",
        "head_or_antlers_missing_only=there spotlight_or_shooting_litter=there",
        "L04",
        "Idaho Fish and Game 2023",
    ),
    ("meat cut off neatly, spine and ribs left", "meat_cut_off_neatly=there", "L04", "Taras 2018"),
    ("a hunter's gut pile, no deer", "gut_pile_cut_out=there", "L08", "this project's rule: the lead knows the season"),
    (
        "poisoned bait and dead ravens",
        "drug_or_bait_sign=there dead_bird_or_scavenger=there",
        "H18 H16",
        "CWHC; USFWS sheet",
    ),
    (
        "road kill in the ditch, broken legs, blood loose inside",
        "road_edge=there bones_broken=leg+pelvis blood_in_cavity=there death_place=roadside_or_yard",
        "E06",
        "Stoian et al.: fractures and ruptures of a hit deer",
    ),
    (
        "road kill that walked 200 m, no blood at openings",
        "road_distance=within_500_m bones_broken=ribs organ_rupture=there body_position=on_left_side",
        "",
        "common practice, no source",
    ),
    (
        "hung in a fence, scraped by wire",
        "death_place=fence_cliff_or_snag wounds_outside=there wound_form@1=scrape bones_broken=leg",
        "",
        "cause-and-time-of-death.md 3.1, ACC",
    ),
    (
        "drowned, washed up on the bank, foam in the windpipe",
        "lungs=froth_blood_water death_place=on_or_in_ice chase_or_struggle_marks=-",
        "",
        "cause-and-time-of-death.md 3.1, ACC",
    ),
    (
        "broke through ice and lies at the edge of the hole",
        "on_or_near_ice=there moving_or_open_water=there death_place=on_or_in_ice",
        "E03 E01",
        "Minnesota DNR",
    ),
    (
        "run down by dogs at the houses, rump torn, little eaten",
        "tracks_by=dog chase_or_struggle_marks=there wounds_outside=there wound_form@1=tear blood_on_snow=there",
        "",
        "warden accounts (reference 2.3)",
    ),
    (
        "eagle on a fawn, talon holes, feathers from ravens only",
        "quick_class=fawn wounds_outside=there wound_form@1=talon_holes bird_signs=feathers+whitewash",
        "",
        "Texas A&M AgriLife, eagles",
    ),
    (
        "cougar cache: dragged, buried in litter and sheared hair",
        "cached_over=there cover_with=leaves_or_soil+plucked_hair drag_marks=there tracks_by=cougar",
        "E07",
        "Alberta Parks; Texas A&M AgriLife, cougars",
    ),
    (
        "bobcat: snow raked over part of it, plucked hair about",
        "cached_over=there cover_with=snow_raked hair_state=plucked_clean tracks_by=bobcat_or_lynx",
        "",
        "Labisky and Boulay 1998; this project's rule: litter, soil or hair mixed in",
    ),
    (
        "bobcat: snow and plucked hair raked over it",
        "cached_over=there cover_with=snow_raked+plucked_hair tracks_by=bobcat_or_lynx",
        "E07",
        "Labisky and Boulay 1998; Alberta Parks",
    ),
    (
        "late bear on it: buried, fresh prints",
        "cached_over=there cover_with=leaves_or_soil+sticks fresh_mammal_tracks_now=there tracks_by=bear",
        "E07 E09",
        "Alberta Parks",
    ),
    (
        "coyote kill on the lake shore trail, old prints",
        "tracks_by=coyote blood_on_snow=there blood_where=sprayed chase_or_struggle_marks=there wounds_outside=there \
         wound_form@1=paired_holes wound_bleeding@1=clot_at_hole body_state=part_eaten parts_eaten=belly+rump",
        "",
        "Patterson and Messier 2003",
    ),
    (
        "wolf pack long gone: bones crushed and scattered",
        "tracks_by=wolf body_state=bones_and_hair bones_scattered=there bones_fed_on=long_bones_crushed",
        "",
        "Mech et al. 1971 (NC-52)",
    ),
    (
        "foxes and ravens at a starved fawn",
        "tracks_by=fox bird_signs=whitewash+birds_present birds_feeding_now=there quick_class=fawn body_position=on_chest",
        "E09A",
        "Texas A&M AgriLife, foxes; this project's rule: birds advise",
    ),
    (
        "starved in its bed, legs tucked, jelly for fat",
        "body_position=on_chest death_place=bed_under_cover rump_fat=none inside_fat=none_or_gel",
        "",
        "cause-and-time-of-death.md 3.1, STARV",
    ),
    (
        "buck with pus at the antler bases",
        "sex_called=male pedicle_pus_or_pits=there",
        "",
        "Karns et al. 2009; an outside look only",
    ),
    ("solid lungs with pus, no lumps", "lungs=solid_or_pus lumps_inside=-", "", "cause-and-time-of-death.md 3.1, DIS"),
    (
        "twelve deer at a heap of corn, runny dung",
        "other_dead_grazers=there rump_stained=there rumen_mostly=grain_or_fruit",
        "",
        "cause-and-time-of-death.md check row 31: no stop needed",
    ),
    (
        "thin, wet chin, runny dung, circling seen",
        "very_thin=there wet_chin=there rump_stained=there witness_behaviour=circling",
        "H05 H04",
        "Indiana Board of Animal Health; NIH/NIAID 2019",
    ),
    // Day and crew.
    (
        "thumb does not reach the little finger",
        "thumb_to_finger=not_easy",
        "H26",
        "Chapman et al. 2025; test from memory",
    ),
    ("somebody mumbles", "cold_signs=mumble", "G25", "Wilderness magazine (New Zealand)"),
    ("alone", "roles=alone crew_count=1", "G09", "no source"),
    ("hands dirty", "hands=dirty", "G23", "no source"),
    ("a blade short", "blades_out_count=3 blades_back_count=2", "G19", "no source"),
    ("a jaw in a bag without a number", "jaw_taken=whole_jaw", "G27", "no source"),
    ("a head short", "heads_counted_count=1", "G20", "no source"),
    ("nobody told", "contact_told=-", "G22", "CCOHS lone-work plan"),
    ("gloves left at home", "gloves_on=-", "H01", "CDC, Hunters Risks (brucellosis)"),
    ("no glasses", "eyes_and_mask_on=-", "H02", "AAHA, Performing a Necropsy"),
    ("no blade, no tube", "gear_blades_and_sharps_tube=-", "G24", "no source"),
];

#[test]
fn every_scene_raises_what_it_should_and_nothing_else() {
    let (mut false_stops, mut missed_stops, mut other) = (Vec::new(), Vec::new(), Vec::new());
    for (name, answers, expected, source) in SCENES {
        let mut scene = Scene::ready();
        scene.say(answers);
        let expected: BTreeSet<&str> = expected.split_whitespace().collect();
        for id in &expected {
            assert!(hazards::find(id).is_some(), "{name}: no hazard {id}");
        }
        let fired: BTreeSet<&str> = scene.ids(Grade::Advise).into_iter().collect();
        let stops = |id: &str| hazards::find(id).unwrap().grade >= Grade::Stop;
        for id in fired.difference(&expected) {
            if stops(id) { &mut false_stops } else { &mut other }.push(format!("{name}: {id} fires ({source})"));
        }
        for id in expected.difference(&fired) {
            if stops(id) { &mut missed_stops } else { &mut other }.push(format!("{name}: {id} is silent ({source})"));
        }
    }
    println!("{} scenes: {} false stops, {} missed stops", SCENES.len(), false_stops.len(), missed_stops.len());
    assert!(false_stops.is_empty(), "false stops: {false_stops:#?}");
    assert!(missed_stops.is_empty(), "missed stops: {missed_stops:#?}");
    assert!(other.is_empty(), "advice and confirms: {other:#?}");
    let ordinary = SCENES.iter().filter(|(_, _, expected, _)| expected.is_empty()).count();
    assert!(SCENES.len() >= 100 && ordinary >= 20, "{} scenes, {ordinary} quiet", SCENES.len());
}

/// Every row of the table fires somewhere: in a scene, or in one of those that need another card,
/// clock or weather.
#[test]
fn every_hazard_fires_somewhere() {
    let mut fired: BTreeSet<&str> = BTreeSet::new();
    let mut take = |scene: &Scene| fired.extend(scene.ids(Grade::Advise));
    for (_, answers, _, _) in SCENES {
        take(Scene::ready().say(answers));
    }
    for air_c in [-30, -42, -50, -58] {
        take(Scene::ready().say(&format!("air_temperature_c={air_c}")));
    }
    for clock in ["14:05", "15:30", "17:40"] {
        let mut scene = Scene::ready();
        scene.now = crate::scene::moment(&format!("2027-02-14T{clock}:00-05:00"));
        take(&scene);
    }
    take(&Scene::empty());
    take(&crate::people::scene(crate::people::LIKELY));
    let mut scene = Scene::ready();
    scene.card.as_mut().unwrap().valid_to = scene.now;
    scene.now = crate::scene::moment("2027-02-14T11:00:01-05:00");
    take(&scene);
    let mut scene = Scene::ready();
    scene.card.as_mut().unwrap().permits.clear();
    scene.card.as_mut().unwrap().limits.min_crew_count = Some(3);
    scene.person("D4").take_back("permit_number");
    take(scene.say("head_work_wanted=there on_or_near_ice=there"));
    let mut scene = Scene::ready();
    scene.say("on_or_near_ice=there");
    let ice = hazards::find("E01").unwrap();
    let drafts = scene.with(|v| marrowbook::guide::reopen(v, ice, "drilled by the lead")).unwrap();
    scene.write(&drafts);
    take(&scene);
    let silent: Vec<_> = hazards::all().map(|h| h.id).filter(|id| !fired.contains(id)).collect();
    assert!(silent.is_empty(), "never fires: {silent:?}");
}

#[test]
fn the_anthrax_flag_of_the_card_counts_as_a_second_sign() {
    // North Dakota Game and Fish: bleeding at mouth, nose and anus; the flag is the office's.
    let mut scene = Scene::ready();
    scene.say("blood_at_openings=there body_frozen=frozen_solid");
    assert!(scene.fires("H07") && !scene.fires("H06"));
    let mut flagged = card();
    flagged.flags.anthrax_history = true;
    scene.card = Some(flagged);
    assert!(scene.fires("H06") && !scene.fires("H07"));
}
