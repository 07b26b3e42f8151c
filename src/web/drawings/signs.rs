//! Signs of how a deer died and who ate, where a picture decides: bruise against stain, who bit and who
//! ate where, what teeth did to bones, cover scraped together against fallen snow. Drawn from a table.

use super::body::{resting, whole};
use super::canvas::{Canvas, Ink, Point};

const WIDTH: f64 = 140.0;
const HEIGHT: f64 = 84.0;

/// What the strokes lie on.
#[derive(Clone, Copy)]
enum Ground {
    Paper,
    /// A deer on its side, head to the right.
    Deer,
    /// A deer on its chest.
    Resting,
    /// Hide cut and folded back from the flesh, two holes through both.
    Flesh(Blood),
}

/// What the flesh looks like round the holes.
#[derive(Clone, Copy)]
enum Blood {
    Clot,
    Stain,
    Pale,
}

/// A path, and whether it is a closed shape.
type Stroke = (Ink, bool, &'static str);

struct Drawn {
    finding: &'static str,
    option: &'static str,
    ground: Ground,
    strokes: &'static [Stroke],
}

const fn of(finding: &'static str, option: &'static str, ground: Ground, strokes: &'static [Stroke]) -> Drawn {
    Drawn { finding, option, ground, strokes }
}

/// Two round holes side by side, as teeth leave them.
macro_rules! bite {
    ($at:literal) => {
        (
            Ink::Solid,
            true,
            concat!("M", $at, "m-6.5 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0zM", $at, "m1.5 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0z"),
        )
    };
}

/// A ring that leads the eye.
macro_rules! ring {
    ($at:literal) => {
        (Ink::Line, false, concat!("M", $at, "m-11 0a11 11 0 1 0 22 0a11 11 0 1 0 -22 0"))
    };
}

const GROUND_LINE: Stroke = (Ink::Snow, true, "M0 62q18 -5 35 0t35 0t35 0t35 0L140 84L0 84Z");
/// A leg and an ear that stick out of a heap.
const OUT: Stroke = (Ink::Body, true, "M14 66L8 60L2 58L0 52L10 55L20 60ZM102 36L112 20L114 36Z");
const HEAP: Stroke =
    (Ink::Body, true, "M14 70C18 54 34 40 54 34C72 28 94 28 106 38C118 48 126 58 128 70C100 75 40 75 14 70Z");

const TABLE: &[Drawn] = &[
    of("wound_bleeding", "clot_at_hole", Ground::Flesh(Blood::Clot), &[]),
    of("wound_bleeding", "diffuse_or_stained", Ground::Flesh(Blood::Stain), &[]),
    of("wound_bleeding", "clean_no_bruise", Ground::Flesh(Blood::Pale), &[]),
    of("bruise_under_skin", "clot_at_hole", Ground::Flesh(Blood::Clot), &[]),
    of("bruise_under_skin", "diffuse_or_thawed", Ground::Flesh(Blood::Stain), &[]),
    of("wound_zone_main", "throat", Ground::Deer, &[bite!("99 42"), ring!("99 42")]),
    of("wound_zone_main", "nape_or_skull", Ground::Deer, &[bite!("104 29"), ring!("104 29")]),
    of(
        "wound_zone_main",
        "rump_hind_leg_or_flank",
        Ground::Deer,
        &[bite!("29 37"), ring!("29 37"), bite!("38 57"), ring!("38 57")],
    ),
    of(
        "wound_zone_main",
        "many_zones_mutilated",
        Ground::Deer,
        &[
            bite!("30 40"),
            bite!("50 50"),
            bite!("62 34"),
            bite!("80 46"),
            bite!("98 34"),
            bite!("116 34"),
            (Ink::Line, false, "M40 32l8 5l-3 4l9 4M72 52l6 -5l2 4l7 -6M86 31l4 6l5 -2l3 7"),
        ],
    ),
    of(
        "feeding_began",
        "rump_or_hams",
        Ground::Deer,
        &[
            (
                Ink::Ground,
                true,
                "M24 26L30 30L36 24L42 30L50 26L50 36L46 42L52 48L46 58L38 54L32 60L28 50L22 52L26 42L18 38L24 34Z",
            ),
            (Ink::Line, false, "M32 36L42 40M31 44L41 47"),
        ],
    ),
    of(
        "feeding_began",
        "behind_ribs",
        Ground::Deer,
        &[
            (
                Ink::Ground,
                true,
                "M34 40L40 36L45 40L51 37L57 43L55 48L59 53L54 62L48 58L42 63L37 57L31 58L34 50L30 46Z",
            ),
            (Ink::Body, true, "M42 58C36 62 36 72 46 74C56 76 58 70 52 66C50 63 52 60 48 58Z"),
            (Ink::Line, false, "M66 30Q60 42 66 55M75 30Q69 42 75 55M84 30Q79 41 84 52"),
        ],
    ),
    of(
        "feeding_began",
        "shoulder_or_neck",
        Ground::Deer,
        &[
            (
                Ink::Ground,
                true,
                "M74 30L80 34L87 29L92 34L99 29L102 36L98 40L101 46L92 45L88 51L83 46L76 49L78 41L72 38Z",
            ),
            (Ink::Line, false, "M80 38L96 36M80 43L92 41"),
        ],
    ),
    of(
        "feeding_began",
        "eyes_mouth_anus",
        Ground::Deer,
        &[
            (
                Ink::Solid,
                true,
                "M116 31a3.2 3.2 0 1 0 6.4 0a3.2 3.2 0 1 0 -6.4 0zM126 36L134 35L132 42L124 42ZM17 41a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z",
            ),
            (Ink::Line, false, "M10 41a11 11 0 1 0 22 0a11 11 0 1 0 -22 0M110 36a15 15 0 1 0 30 0a15 15 0 1 0 -30 0"),
        ],
    ),
    of(
        "bones_fed_on",
        "long_bones_crushed",
        Ground::Paper,
        &[
            (
                Ink::Bone,
                true,
                "M8 34C2 26 10 18 18 22C22 14 34 18 32 26L58 30L50 35L62 38L48 42L56 46L32 46C34 54 22 58 18 50C10 54 2 46 8 38Z",
            ),
            (
                Ink::Bone,
                true,
                "M132 34C138 26 130 18 122 22C118 14 106 18 108 26L86 28L92 34L80 37L90 41L84 46L108 46C106 54 118 58 122 50C130 54 138 46 132 38Z",
            ),
            (
                Ink::Bone,
                true,
                "M60 54L76 50L70 58ZM64 64L80 66L78 71ZM42 62L56 66L46 70ZM88 58L100 60L92 65ZM66 20L76 22L68 26Z",
            ),
        ],
    ),
    of(
        "bones_fed_on",
        "ribs_or_blades_gnawed",
        Ground::Paper,
        &[
            (Ink::Bone, true, "M10 12L74 12L74 20L10 20Z"),
            (
                Ink::Bone,
                true,
                "M16 20C12 36 14 46 20 56L23 52L24 58L28 53C22 44 20 34 23 20ZM34 20C30 34 32 42 37 50L40 46L42 51L45 46C39 38 38 32 41 20ZM52 20C48 36 50 48 56 60L59 55L60 61L64 56C58 46 56 36 59 20Z",
            ),
            (
                Ink::Bone,
                true,
                "M92 14L104 10L134 50L128 54L130 60L123 58L122 65L116 60L112 68L107 60L101 64L98 56L92 58Z",
            ),
            (Ink::Fine, false, "M100 18L114 52"),
        ],
    ),
    of(
        "bones_fed_on",
        "intact",
        Ground::Paper,
        &[
            (
                Ink::Bone,
                true,
                "M8 22C2 14 10 6 18 10C22 2 34 6 32 14L108 14C106 6 118 2 122 10C130 6 138 14 132 22C138 30 130 38 122 34C118 42 106 38 108 30L32 30C34 38 22 42 18 34C10 38 2 30 8 22Z",
            ),
            (Ink::Line, false, "M22 48Q14 62 26 78M40 48Q32 62 44 78M58 48Q50 62 62 78"),
            (Ink::Bone, true, "M84 48L94 46L130 74C118 82 98 82 86 76Z"),
            (Ink::Fine, false, "M92 52L112 76"),
        ],
    ),
    of("snow_over_body", "none", Ground::Resting, &[GROUND_LINE]),
    of(
        "snow_over_body",
        "dusting",
        Ground::Resting,
        &[
            GROUND_LINE,
            (
                Ink::Line,
                false,
                "M30 38h2m6 -3h2m7 1h2m8 1h2m7 -1h2m6 -3h2m-44 7h2m7 2h2m8 -1h2m8 0h2m8 -1h2m-42 9h2m10 1h2m10 -1h2m9 2h2",
            ),
        ],
    ),
    of(
        "snow_over_body",
        "part_covered",
        Ground::Resting,
        &[
            GROUND_LINE,
            (
                Ink::Snow,
                true,
                "M22 50C18 34 30 27 46 28C60 30 74 29 86 28C94 32 92 42 84 44C70 40 52 46 40 43C32 44 26 48 22 50Z",
            ),
        ],
    ),
    of(
        "snow_over_body",
        "covered",
        Ground::Resting,
        &[
            (
                Ink::Snow,
                true,
                "M0 66C12 62 18 30 44 26C66 24 78 24 88 8C100 0 116 8 120 18C124 40 128 62 140 66L140 84L0 84Z",
            ),
            (
                Ink::Hidden,
                false,
                "M24 58C20 40 32 34 46 35C60 37 74 36 84 34L92 20L98 14L117 22L116 27L102 29L98 46C97 56 90 62 78 62",
            ),
        ],
    ),
    of(
        "cover_with",
        "snow_raked",
        Ground::Paper,
        &[
            OUT,
            (Ink::Snow, true, HEAP.2),
            (
                Ink::Line,
                false,
                "M8 80L24 58M20 82L36 52M36 83L50 46M54 83L64 44M74 83L78 44M92 83L92 48M110 82L104 50M126 80L114 56",
            ),
        ],
    ),
    of(
        "cover_with",
        "leaves_or_soil",
        Ground::Paper,
        &[
            OUT,
            HEAP,
            (
                Ink::Solid,
                true,
                "M30 60q6 -8 12 -2q-6 7 -12 2zM52 46q7 -7 12 0q-7 6 -12 0zM74 40q5 -8 11 -1q-5 7 -11 1zM94 50q7 -7 12 0q-7 6 -12 0zM60 62q6 -8 12 -2q-6 7 -12 2zM84 62q7 -7 12 0q-7 6 -12 0zM108 62q6 -7 12 -1q-6 6 -12 1zM16 78q6 -7 12 -1q-6 6 -12 1zM112 79q6 -7 12 -1q-6 6 -12 1zM44 70q6 -5 10 -1q-5 5 -10 1z",
            ),
            (
                Ink::Solid,
                true,
                "M44 52h3v3h-3zM70 52h3v3h-3zM84 50h3v3h-3zM50 62h3v3h-3zM78 68h3v3h-3zM98 68h3v3h-3zM32 68h3v3h-3zM64 74h3v3h-3zM100 42h3v3h-3z",
            ),
        ],
    ),
    of(
        "cover_with",
        "sticks",
        Ground::Paper,
        &[
            OUT,
            HEAP,
            (
                Ink::Solid,
                true,
                "M8 62L92 24L94 28L10 66ZM30 34L132 58L131 62L29 38ZM22 74L80 34L83 37L25 78ZM58 76L118 32L121 35L61 80ZM40 46L70 76L67 79L37 49ZM84 30L124 72L121 75L81 33Z",
            ),
        ],
    ),
    of(
        "cover_with",
        "plucked_hair",
        Ground::Paper,
        &[
            OUT,
            HEAP,
            (
                Ink::Line,
                false,
                "M26 64l8 -10m-5 12l10 -9m-5 11l12 -6M48 50l9 -10m-5 12l11 -8m-6 11l12 -5M76 46l8 -11m-4 13l11 -9m-6 12l12 -6M58 70l8 -10m-5 12l10 -9m-5 11l12 -6M90 66l8 -10m-5 12l10 -9m-5 11l12 -6M104 54l7 -9m-4 11l10 -8M6 80l8 -8m-5 10l10 -7M118 80l8 -9m-5 11l10 -8",
            ),
        ],
    ),
];

/// The drawing for an option of a sign that is in the table.
pub fn svg(finding: &str, option: &str) -> Option<String> {
    let drawn = TABLE.iter().find(|row| row.finding == finding && row.option == option)?;
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    match drawn.ground {
        Ground::Paper => {}
        Ground::Deer => whole(&mut sheet),
        Ground::Resting => resting(&mut sheet),
        Ground::Flesh(blood) => flesh(&mut sheet, blood),
    }
    for (ink, closed, d) in drawn.strokes {
        sheet.curve(*ink, d, *closed);
    }
    Some(sheet.svg())
}

/// Flesh under hide that was cut and folded up; both are holed twice.
fn flesh(sheet: &mut Canvas, blood: Blood) {
    let meat: [Point; 4] = [(6.0, 26.0), (134.0, 26.0), (128.0, 80.0), (12.0, 80.0)];
    sheet.area(Ink::Body, &meat);
    let holes: [Point; 2] = [(44.0, 53.0), (96.0, 53.0)];
    if matches!(blood, Blood::Stain) {
        // As dark here as there: it has no middle.
        sheet.hatch(Ink::MarkLine, &meat, 5.0);
    }
    for hole in holes {
        if matches!(blood, Blood::Clot) {
            // Dark in the middle and thinning out: the edge of a bruise is not sharp.
            sheet.stipple(Ink::Mark, &blob(hole, 25.0), 5.5, 0.9);
            sheet.stipple(Ink::Mark, &blob(hole, 20.0), 3.6, 1.2);
            sheet.area(Ink::Mark, &blob(hole, 14.0));
        }
        sheet.disc(Ink::Ground, hole, 4.6);
        sheet.disc(Ink::Mark, hole, 2.6);
    }
    sheet.area(Ink::Ground, &[(6.0, 26.0), (16.0, 4.0), (124.0, 4.0), (134.0, 26.0)]);
    let mut hair = String::from("M16 4");
    for n in 0..16 {
        hair.push_str(if n == 0 { "m2 12" } else { "m2.6 8" });
        hair.push_str("l4 -8");
    }
    sheet.curve(Ink::Fine, &hair, false);
    for (x, _) in holes {
        sheet.disc(Ink::Solid, (x, 15.0), 2.6);
    }
}

/// An uneven round.
fn blob((x, y): Point, radius: f64) -> Vec<Point> {
    (0..14)
        .map(|n| {
            let turn = f64::from(n) / 7.0 * std::f64::consts::PI;
            let reach = radius * (0.9 + 0.1 * libm::cos(3.0 * turn + x));
            (x + reach * libm::cos(turn), y + reach * libm::sin(turn))
        })
        .collect()
}
