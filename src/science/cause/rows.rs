//! The likelihood cells, as `tests/reference/make_cause_table.py` wrote them: change that, not this.
//!
//! Tenths of a percent of each state given each cause, causes in column order, and the grade of each
//! cell: P, J and Q rest on a source as `super::table::Grade` says, E is expert judgement.

use super::table::{RowData, StateData};

const fn state(code: &'static str, tenths: [u16; 12], grades: &'static str) -> StateData {
    StateData { code, tenths, grades }
}

/// One row an observation, O01 to O25.
pub(super) static ROWS: [RowData; 25] = [
    RowData {
        number: 1,
        code: "bite_haemorrhage",
        block: 1,
        minutes: 15,
        class: 2,
        not_seen: Some(2),
        states: &[
            state("focal_clot", [780, 800, 800, 820, 740, 780, 20, 40, 30, 20, 20, 20], "QQQQQQEEEEEE"),
            state("diffuse_stain", [120, 120, 100, 100, 140, 120, 250, 600, 350, 250, 250, 350], "EEEEEEEQEEEE"),
            state("none", [100, 80, 100, 80, 120, 100, 730, 360, 620, 730, 730, 630], "EEEEEEQEEQQE"),
        ],
    },
    RowData {
        number: 2,
        code: "wound_zone",
        block: 1,
        minutes: 10,
        class: 1,
        not_seen: Some(4),
        states: &[
            state("throat", [550, 220, 600, 300, 80, 80, 10, 20, 30, 10, 10, 20], "QEQQEEEEEEEE"),
            state("nape_or_skull", [80, 80, 300, 550, 40, 420, 10, 30, 30, 10, 10, 30], "EEQQEEEEEEEE"),
            state("hindquarters_or_flank", [150, 450, 20, 30, 450, 100, 10, 60, 40, 10, 10, 50], "QQEEQEEEEEEE"),
            state("many_zones", [100, 150, 20, 40, 350, 280, 10, 60, 20, 10, 10, 40], "EEEEQEEEEEEE"),
            state("none_found", [120, 100, 60, 80, 80, 120, 960, 830, 880, 960, 960, 860], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 3,
        code: "chase_sign",
        block: 4,
        minutes: 5,
        class: 0,
        not_seen: Some(1),
        states: &[
            state("clear", [750, 850, 350, 300, 850, 400, 40, 120, 150, 60, 40, 200], "QQQEQEEEEEEE"),
            state("none", [250, 150, 650, 700, 150, 600, 960, 880, 850, 940, 960, 800], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 4,
        code: "blood_on_snow",
        block: 1,
        minutes: 3,
        class: 0,
        not_seen: Some(2),
        states: &[
            state("spray_or_trail", [600, 700, 350, 350, 750, 550, 20, 200, 550, 20, 20, 120], "QQEQEQEEEEEE"),
            state("seep_only", [280, 220, 400, 400, 180, 300, 330, 450, 300, 330, 330, 380], "EEEEEEEEEEEE"),
            state("none", [120, 80, 250, 250, 70, 150, 650, 350, 150, 650, 650, 500], "EEEEEEQEEQEE"),
        ],
    },
    RowData {
        number: 5,
        code: "posture",
        block: 4,
        minutes: 1,
        class: 0,
        not_seen: None,
        states: &[
            state("bedded", [30, 20, 50, 30, 30, 20, 500, 100, 150, 400, 300, 80], "EEEEEEQEEQEE"),
            state("sprawled", [320, 230, 450, 370, 670, 330, 300, 650, 600, 400, 500, 720], "EEEEEEEEEEEE"),
            state("twisted_or_scattered", [650, 750, 500, 600, 300, 650, 200, 250, 250, 200, 200, 200], "QQQQEQEEEEEE"),
        ],
    },
    RowData {
        number: 6,
        code: "covered",
        block: 2,
        minutes: 1,
        class: 0,
        not_seen: Some(1),
        states: &[
            state("yes", [40, 30, 520, 750, 10, 550, 60, 50, 50, 60, 60, 40], "EEPQEQEEEEEE"),
            state("no", [960, 970, 480, 250, 990, 450, 940, 950, 950, 940, 940, 960], "EEPEEEEEEEEE"),
        ],
    },
    RowData {
        number: 7,
        code: "dragged",
        block: 2,
        minutes: 3,
        class: 0,
        not_seen: Some(1),
        states: &[
            state("yes", [100, 120, 310, 700, 50, 500, 80, 80, 80, 80, 80, 60], "EEPQEEEEEEEE"),
            state("no", [900, 880, 690, 300, 950, 500, 920, 920, 920, 920, 920, 940], "EEPEEEEEEEEE"),
        ],
    },
    RowData {
        number: 8,
        code: "hair",
        block: 2,
        minutes: 3,
        class: 0,
        not_seen: None,
        states: &[
            state("plucked_piles", [80, 60, 330, 600, 40, 80, 100, 80, 80, 100, 100, 60], "EEPQEEEEEEEE"),
            state("tufts", [770, 820, 470, 330, 660, 670, 450, 450, 450, 450, 450, 440], "EEEEEEEEEEEE"),
            state("little_or_none", [150, 120, 200, 70, 300, 250, 450, 470, 470, 450, 450, 500], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 9,
        code: "bone_damage",
        block: 2,
        minutes: 5,
        class: 1,
        not_seen: None,
        states: &[
            state("long_bones_crushed", [100, 550, 20, 120, 50, 350, 60, 120, 80, 60, 60, 60], "QQQQEEEEEEEE"),
            state("ribs_gnawed", [650, 350, 330, 550, 300, 450, 390, 380, 370, 390, 390, 340], "EEEEEEEEEEEE"),
            state("intact", [250, 100, 650, 330, 650, 200, 550, 500, 550, 550, 550, 600], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 10,
        code: "rumen_place",
        block: 2,
        minutes: 3,
        class: 0,
        not_seen: None,
        states: &[
            state("pulled_out_whole", [450, 400, 550, 700, 50, 150, 200, 200, 250, 200, 200, 150], "QEEQEEEEEEEE"),
            state("opened_spilled", [200, 350, 260, 80, 150, 350, 100, 150, 120, 100, 100, 100], "EEEEEEEEEEEE"),
            state("in_place", [300, 150, 170, 190, 780, 350, 680, 630, 600, 680, 680, 730], "EEPEEEEEEEEE"),
            state("gone", [50, 100, 20, 30, 20, 150, 20, 20, 30, 20, 20, 20], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 11,
        code: "feeding_start",
        block: 2,
        minutes: 5,
        class: 1,
        not_seen: Some(4),
        states: &[
            state("rump_or_hams", [400, 450, 550, 120, 500, 120, 220, 220, 220, 220, 220, 180], "EQQEQEEEEEEE"),
            state("flank_or_viscera", [400, 400, 120, 550, 80, 450, 220, 220, 220, 220, 220, 180], "QQEQEEEEEEEE"),
            state("shoulder_neck_ribs", [80, 60, 230, 250, 60, 250, 60, 60, 80, 60, 60, 60], "EEEEEEEEEEEE"),
            state("eyes_mouth_anus", [40, 20, 40, 30, 60, 60, 250, 220, 200, 250, 250, 250], "EEEEEEEEEEEE"),
            state("not_fed_on", [80, 70, 60, 50, 300, 120, 250, 280, 280, 250, 250, 330], "EEEEQEEEEEEE"),
        ],
    },
    RowData {
        number: 12,
        code: "marrow_look",
        block: 3,
        minutes: 20,
        class: 2,
        not_seen: None,
        states: &[
            state("depleted", [200, 36, 250, 150, 250, 250, 880, 100, 80, 500, 150, 150], "QJEEEEQQEEQE"),
            state("intermediate", [300, 386, 350, 300, 350, 350, 100, 250, 220, 280, 350, 300], "EEEEEEEEEEEE"),
            state("good", [500, 578, 400, 550, 400, 400, 20, 650, 700, 220, 500, 550], "QQEEEEEQEEQE"),
        ],
    },
    RowData {
        number: 13,
        code: "body_fat",
        block: 3,
        minutes: 15,
        class: 2,
        not_seen: None,
        states: &[
            state("none_or_gel", [250, 358, 300, 200, 300, 300, 920, 120, 100, 500, 180, 180], "EJEEEEQEEEEE"),
            state("some", [450, 225, 450, 450, 450, 450, 70, 430, 400, 350, 450, 450], "EEEEEEEEEEEE"),
            state("plenty", [300, 417, 250, 350, 250, 250, 10, 450, 500, 150, 370, 370], "EJEEEEEEEEQE"),
        ],
    },
    RowData {
        number: 14,
        code: "rupture",
        block: 5,
        minutes: 15,
        class: 2,
        not_seen: Some(1),
        states: &[
            state("yes", [40, 80, 30, 300, 80, 400, 20, 920, 80, 20, 20, 400], "EEEQEEEQEEEE"),
            state("no", [960, 920, 970, 700, 920, 600, 980, 80, 920, 980, 980, 600], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 15,
        code: "projectile",
        block: 5,
        minutes: 10,
        class: 1,
        not_seen: Some(1),
        states: &[
            state("yes", [20, 20, 20, 20, 20, 20, 20, 20, 880, 20, 20, 20], "PPPPPPPPEPPP"),
            state("no", [980, 980, 980, 980, 980, 980, 980, 980, 120, 980, 980, 980], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 16,
        code: "road_distance",
        block: 4,
        minutes: 1,
        class: 0,
        not_seen: None,
        states: &[
            state("under_50_m", [100, 80, 80, 60, 200, 80, 80, 750, 250, 100, 200, 120], "EEEEEEEEEEEE"),
            state("under_500_m", [350, 270, 320, 290, 500, 320, 370, 200, 400, 400, 550, 380], "EEEEEEEEEEEE"),
            state("over_500_m", [550, 650, 600, 650, 300, 600, 550, 50, 350, 500, 250, 500], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 17,
        code: "rumen_contents",
        block: 6,
        minutes: 10,
        class: 2,
        not_seen: None,
        states: &[
            state("browse", [820, 840, 820, 840, 780, 840, 700, 760, 760, 700, 60, 820], "EEEEEEEEEEEE"),
            state("grain_or_fruit", [80, 50, 80, 60, 120, 60, 50, 160, 180, 80, 700, 80], "EEEEEEEEEEQE"),
            state("near_empty_or_bark", [90, 100, 90, 90, 90, 90, 240, 70, 50, 210, 20, 90], "EEEEEEEEEEEE"),
            state("ornamental", [10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 220, 10], "EEEEEEEEEEQE"),
        ],
    },
    RowData {
        number: 18,
        code: "tracks",
        block: 4,
        minutes: 5,
        class: 0,
        not_seen: Some(6),
        states: &[
            state("large_canid", [20, 840, 20, 20, 280, 20, 40, 30, 30, 40, 30, 30], "EEEEEEEEEEEE"),
            state("medium_canid", [830, 80, 150, 120, 480, 100, 380, 330, 320, 380, 330, 320], "EEEEEEEEEEEE"),
            state("felid", [20, 10, 720, 760, 10, 20, 60, 40, 40, 60, 40, 40], "EEEEEEEEEEEE"),
            state("bear", [10, 10, 10, 10, 10, 760, 20, 20, 20, 20, 20, 20], "EEEEEEEEEEEE"),
            state("human_or_vehicle", [20, 10, 10, 10, 120, 10, 20, 160, 260, 20, 100, 40], "EEEEEEEEEEEE"),
            state("fox_fisher_bird", [80, 30, 70, 60, 60, 60, 300, 270, 200, 300, 300, 320], "EEEEEEEEEEEE"),
            state("none", [20, 20, 20, 20, 40, 30, 180, 150, 130, 180, 180, 230], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 19,
        code: "canine_spacing",
        block: 1,
        minutes: 5,
        class: 1,
        not_seen: None,
        states: &[
            state("under_20_mm", [10, 10, 60, 10, 50, 10, 200, 200, 200, 200, 200, 200], "QQQQEQEEEEEE"),
            state("mm_20_27", [130, 20, 780, 20, 150, 30, 200, 200, 200, 200, 200, 200], "QQQQEQEEEEEE"),
            state("mm_28_36", [760, 150, 140, 130, 350, 160, 200, 200, 200, 200, 200, 200], "QQQQEQEEEEEE"),
            state("mm_37_45", [90, 520, 10, 440, 300, 420, 200, 200, 200, 200, 200, 200], "QQQQEQEEEEEE"),
            state("over_45_mm", [10, 300, 10, 400, 150, 380, 200, 200, 200, 200, 200, 200], "QQQQEQEEEEEE"),
        ],
    },
    RowData {
        number: 20,
        code: "lungs",
        block: 6,
        minutes: 15,
        class: 2,
        not_seen: None,
        states: &[
            state("solid_or_pus", [30, 30, 30, 30, 30, 30, 80, 20, 20, 420, 30, 20], "EEEEEEEEEQEE"),
            state("froth_or_water", [200, 180, 200, 150, 180, 120, 70, 230, 250, 80, 120, 400], "EEEEEEEEEEEE"),
            state("normal", [770, 790, 770, 820, 790, 850, 850, 750, 730, 500, 850, 580], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 21,
        code: "head_abscess",
        block: 6,
        minutes: 15,
        class: 2,
        not_seen: Some(1),
        states: &[
            state("yes", [10, 10, 10, 10, 10, 10, 10, 10, 10, 60, 10, 10], "EEEEEEEEEPEE"),
            state("no", [990, 990, 990, 990, 990, 990, 990, 990, 990, 940, 990, 990], "EEEEEEEEEPEE"),
        ],
    },
    RowData {
        number: 22,
        code: "diarrhoea",
        block: 6,
        minutes: 1,
        class: 0,
        not_seen: Some(1),
        states: &[
            state("yes", [40, 40, 40, 40, 40, 40, 120, 40, 40, 250, 550, 40], "EEEEEEEEEEQE"),
            state("no", [960, 960, 960, 960, 960, 960, 880, 960, 960, 750, 450, 960], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 23,
        code: "place",
        block: 4,
        minutes: 1,
        class: 0,
        not_seen: None,
        states: &[
            state("under_shelter", [80, 50, 220, 100, 50, 120, 550, 80, 150, 400, 300, 30], "EEEEEEEEEEEE"),
            state("ice_or_water", [250, 280, 40, 30, 150, 40, 50, 30, 80, 100, 40, 550], "QEEEEEEEEEEQ"),
            state("woods_or_trail", [600, 630, 680, 800, 550, 780, 280, 280, 520, 350, 300, 80], "EEEEEEEEEEEE"),
            state("roadside_or_yard", [50, 20, 40, 40, 200, 40, 100, 580, 200, 130, 350, 40], "EEEEEEEEEEEE"),
            state("fence_or_cliff", [20, 20, 20, 30, 50, 20, 20, 30, 50, 20, 10, 300], "EEEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 24,
        code: "age_class",
        block: 7,
        minutes: 10,
        class: 1,
        not_seen: None,
        states: &[
            state("fawn", [480, 171, 600, 350, 420, 500, 580, 350, 200, 250, 400, 380], "QJQEEEQEEEEE"),
            state("years_1_8", [320, 735, 280, 450, 380, 300, 170, 570, 720, 550, 450, 470], "EJEEEEEEEEEE"),
            state("years_9_up", [200, 94, 120, 200, 200, 200, 250, 80, 80, 200, 150, 150], "QJEEEEEEEEEE"),
        ],
    },
    RowData {
        number: 25,
        code: "claw_rakes",
        block: 1,
        minutes: 5,
        class: 1,
        not_seen: Some(1),
        states: &[
            state("yes", [10, 10, 550, 650, 10, 600, 10, 20, 10, 10, 10, 30], "EEQQEEEEEEEE"),
            state("no", [990, 990, 450, 350, 990, 400, 990, 980, 990, 990, 990, 970], "EEEEEEEEEEEE"),
        ],
    },
];

/// Bounds of the cells of grade J: row, state from 0, cause from 0, low and high in tenths of a percent.
pub(super) static BOUNDS: [(u8, u8, u8, u16, u16); 6] = [
    (12, 0, 1, 8, 78),
    (13, 0, 1, 207, 523),
    (13, 2, 1, 258, 583),
    (24, 0, 1, 122, 225),
    (24, 1, 1, 673, 794),
    (24, 2, 1, 58, 137),
];

/// Shares of all deaths before anything is seen, in thousandths, sets A, B and C.
pub(super) static PRIORS: [[u16; 12]; 3] = [
    [450, 0, 40, 0, 40, 5, 180, 100, 70, 50, 25, 40],
    [220, 300, 30, 0, 20, 10, 180, 80, 60, 40, 20, 40],
    [190, 0, 10, 0, 30, 2, 190, 190, 120, 200, 30, 38],
];
