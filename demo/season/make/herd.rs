//! What became of each invented deer. No share here is anybody's finding.

use super::dice::Dice;
use super::people::CREWS;

/// How many carcasses a crew finds on an outing. One crew after the other goes out.
pub(crate) const AN_OUTING: usize = 2;

/// What it died of, as nobody in the snow knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fate {
    Starved,
    Wolf,
    Coyote,
    Vehicle,
    Other,
}

/// How much of it is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Left {
    Whole,
    Part,
    Little,
    Bones,
}

/// One invented deer.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Deer {
    /// Its number, from 0.
    pub(crate) n: usize,
    /// Completed birthdays.
    pub(crate) birthdays: i64,
    pub(crate) female: bool,
    pub(crate) fate: Fate,
    pub(crate) left: Left,
    /// Days from its death to its being found.
    pub(crate) days: i64,
    /// Ten millionths of a degree north and east of the reserve's middle.
    pub(crate) north_e7: i64,
    pub(crate) east_e7: i64,
    /// Tenths of a metre from a line.
    pub(crate) from_line: i64,
}

/// All of them.
pub(crate) fn herd(count: usize) -> Vec<Deer> {
    let mut dice = Dice::new(1);
    (0..count).map(|n| deer(n, &mut dice)).collect()
}

fn deer(n: usize, dice: &mut Dice) -> Deer {
    let birthdays = match dice.below(100) {
        0..42 => 0,
        42..55 => 1,
        55..64 => 2,
        64..72 => 3,
        72..79 => 4,
        79..86 => 5,
        86..94 => 7,
        _ => 9,
    };
    let fawn = birthdays == 0;
    let fate = match dice.below(100) {
        roll if roll < if fawn { 52 } else { 30 } => Fate::Starved,
        0..70 => Fate::Wolf,
        70..82 => Fate::Coyote,
        82..90 => Fate::Vehicle,
        _ => Fate::Other,
    };
    // What an eater killed is soon eaten.
    let whole = match fate {
        Fate::Starved | Fate::Vehicle => 5,
        Fate::Other => 3,
        Fate::Wolf | Fate::Coyote => 0,
    };
    let roll = dice.below(10);
    let left = if roll < whole {
        Left::Whole
    } else if roll < whole + 3 {
        Left::Part
    } else if roll < 8 {
        Left::Little
    } else {
        Left::Bones
    };
    let days = if left == Left::Bones { dice.between(14, 40) } else { dice.between(1, 8) };
    // About half-normal: three rolls folded at the line.
    let (north_e7, east_e7) = lies(n);
    let from_line = (0..3).map(|_| dice.between(-280, 280)).sum::<i64>().abs();
    Deer {
        n,
        birthdays,
        female: dice.chance(if fawn { 50 } else { 64 }),
        fate,
        left,
        days,
        north_e7,
        east_e7,
        from_line,
    }
}

/// Where it lies. What one crew finds on one outing lies within a walk.
fn lies(n: usize) -> (i64, i64) {
    let outing = n % CREWS.len() + n / (CREWS.len() * AN_OUTING) * CREWS.len();
    let dice = |first: u64, number: usize| Dice::new(first + u64::try_from(number).unwrap_or_default());
    let (mut walk, mut own) = (dice(5_000, outing), dice(6_000, n));
    let north = walk.between(-600_000, 600_000) + own.between(-90_000, 90_000);
    let east = walk.between(-950_000, 950_000) + own.between(-130_000, 130_000);
    (north, east)
}
