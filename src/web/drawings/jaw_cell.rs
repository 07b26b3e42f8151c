//! One place of the tooth row as it stands: the tooth, the gap or the hole, told by shape and pattern.

use super::canvas::{Canvas, Ink, Point};
use super::tooth::{Crest, Crown, cusps};
use crate::record::Tooth;

const WIDTH: f64 = 48.0;
const HEIGHT: f64 = 70.0;
const GUM: f64 = 50.0;
const TALL: f64 = 46.0;

/// What stands in one place of the row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Place {
    /// Not asked yet.
    Open,
    /// Asked, and one of the four answers without a value.
    Without,
    /// An option of `tooth_state`, and the crest's option where it is known.
    State {
        /// Option of `tooth_state`.
        state: String,
        /// Option of `crest`.
        crest: Option<String>,
    },
}

/// The drawing of a place. `mirrored`: the front of the jaw lies to the right.
pub fn svg(tooth: Tooth, place: &Place, mirrored: bool) -> String {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    sheet.area(Ink::Gum, &[(0.0, GUM), (WIDTH, GUM), (WIDTH, HEIGHT), (0.0, HEIGHT)]);
    sheet.mirror(mirrored);
    match place {
        Place::Open => {
            edge(&mut sheet, &[(0.0, GUM), (WIDTH, GUM)]);
            sheet.line(Ink::Hidden, &crown(tooth, false, Crest::Sharp).outline());
            sheet.word((WIDTH / 2.0, GUM - 9.0), 22.0, "?");
        }
        Place::Without => {
            edge(&mut sheet, &[(0.0, GUM), (WIDTH, GUM)]);
            let outline = crown(tooth, false, Crest::Sharp).outline();
            sheet.line(Ink::Hidden, &outline);
            sheet.hatch(Ink::Fine, &outline, 6.0);
        }
        Place::State { state, crest } => stands(&mut sheet, tooth, state, crest.as_deref()),
    }
    sheet.svg()
}

fn stands(sheet: &mut Canvas, tooth: Tooth, state: &str, crest: Option<&str>) {
    let flat = [(0.0, GUM), (WIDTH, GUM)];
    let whole = crown(tooth, false, Crest::Sharp);
    let milk = crown(tooth, true, Crest::SlightlyBlunt);
    match state {
        "in_gum" => {
            edge(sheet, &[(0.0, GUM), (14.0, GUM), (24.0, GUM - 4.0), (34.0, GUM), (WIDTH, GUM)]);
            sheet.line(Ink::Hidden, &Crown { gum: HEIGHT - 1.0, height: 16.0, ..whole }.outline());
        }
        "part_up" => {
            edge(sheet, &flat);
            Crown { height: TALL * 0.5, ..whole }.draw(sheet, false);
        }
        "up_unworn" => {
            edge(sheet, &flat);
            whole.draw(sheet, false);
        }
        "in_wear" => {
            edge(sheet, &flat);
            let crest = crest.and_then(Crest::from_code).unwrap_or(Crest::SlightlyBlunt);
            crown(tooth, false, crest).draw(sheet, true);
        }
        "milk" => {
            edge(sheet, &flat);
            milk.draw(sheet, false);
            sheet.stipple(Ink::Mark, &milk.outline(), 6.0, 1.0);
        }
        "milk_loose" => {
            edge(sheet, &flat);
            let tilted: Vec<Point> =
                milk.outline().iter().map(|(x, y)| (*x, y - 7.0 - (x - WIDTH / 2.0) * 0.25)).collect();
            sheet.area(Ink::Enamel, &tilted);
            sheet.stipple(Ink::Mark, &tilted, 6.0, 1.0);
            sheet.line(Ink::Hidden, &Crown { gum: HEIGHT - 1.0, height: 16.0, ..whole }.outline());
        }
        "milk_shed" => {
            edge(sheet, &[(0.0, GUM), (9.0, GUM), (13.0, GUM + 6.0), (35.0, GUM + 6.0), (39.0, GUM), (WIDTH, GUM)]);
            Crown { gum: HEIGHT, height: 12.0, ..whole }.draw(sheet, false);
        }
        "lost_in_life" => {
            // Healed over: the edge sinks in a smooth curve.
            edge(
                sheet,
                &[
                    (0.0, GUM),
                    (8.0, GUM + 1.0),
                    (16.0, GUM + 6.0),
                    (24.0, GUM + 8.0),
                    (32.0, GUM + 6.0),
                    (40.0, GUM + 1.0),
                    (WIDTH, GUM),
                ],
            );
        }
        "lost_after_death" => {
            edge(sheet, &flat);
            for x in [10.0, 27.0] {
                sheet.area(Ink::Dentine, &[(x, GUM), (x + 11.0, GUM), (x + 8.0, GUM + 17.0), (x + 3.0, GUM + 17.0)]);
            }
        }
        "not_there" => {
            edge(sheet, &flat);
            sheet.line(Ink::Line, &[(18.0, GUM - 12.0), (30.0, GUM - 24.0)]);
            sheet.line(Ink::Line, &[(30.0, GUM - 12.0), (18.0, GUM - 24.0)]);
        }
        // An option of a newer version: written, but not known how to draw.
        _ => {
            edge(sheet, &flat);
            sheet.word((WIDTH / 2.0, GUM - 9.0), 22.0, "\u{2026}");
        }
    }
}

/// The edge of gum or bone; what lies above it is air.
fn edge(sheet: &mut Canvas, line: &[Point]) {
    let mut air = line.to_vec();
    air.extend([(WIDTH, GUM - 6.0), (0.0, GUM - 6.0)]);
    sheet.area(Ink::Air, &air);
    sheet.line(Ink::Line, line);
}

fn crown(tooth: Tooth, milk: bool, crest: Crest) -> Crown {
    // The front teeth are smaller, though every place has the same width to be tapped.
    let width = match tooth {
        Tooth::P2 => 30.0,
        Tooth::P3 => 36.0,
        Tooth::M3 => 46.0,
        _ if milk => 46.0,
        _ => 42.0,
    };
    let height = match tooth {
        Tooth::P2 => TALL * 0.78,
        Tooth::P3 => TALL * 0.9,
        _ => TALL,
    };
    let height = if milk { height * 0.66 } else { height };
    Crown { left: (WIDTH - width) / 2.0, width, gum: GUM, height, cusps: cusps(tooth, milk), crest }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::find;
    use std::collections::BTreeSet;

    #[test]
    fn every_state_has_a_drawing_of_its_own_on_every_tooth() {
        for tooth in Tooth::CHEEK {
            let mut seen = BTreeSet::from([svg(tooth, &Place::Open, false), svg(tooth, &Place::Without, false)]);
            for option in find("tooth_state").unwrap().options() {
                let place = Place::State { state: (*option).to_owned(), crest: None };
                assert!(seen.insert(svg(tooth, &place, false)), "{tooth:?} {option} looks like another state");
            }
        }
    }
}
