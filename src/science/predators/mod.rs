//! Who bit, who walked, who left droppings: from measures to odds over animals.
//!
//! Each measure has a normal model an animal and a flat part for slips of the tape or of the pen, so that
//! one wrong figure never decides. Odds of any two animals are capped, and where the best two lie close the
//! measure says that it cannot tell.

use crate::order::Short as _;

pub mod canines;
pub mod scat;
pub mod sources;
pub mod talons;
pub mod tracks;
#[cfg(test)]
mod tests;

/// An animal whose measures are modelled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)]
pub enum Animal {
    Coyote,
    Wolf,
    Dog,
    Bobcat,
    Lynx,
    Cougar,
    Bear,
    RedFox,
    GrayFox,
    Fisher,
    Marten,
}

impl Animal {
    /// All, deer's predators first.
    pub const ALL: [Self; 11] = [
        Self::Coyote,
        Self::Wolf,
        Self::Dog,
        Self::Bobcat,
        Self::Lynx,
        Self::Cougar,
        Self::Bear,
        Self::RedFox,
        Self::GrayFox,
        Self::Fisher,
        Self::Marten,
    ];

    /// Stable name.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Coyote => "coyote",
            Self::Wolf => "wolf",
            Self::Dog => "dog",
            Self::Bobcat => "bobcat",
            Self::Lynx => "lynx",
            Self::Cougar => "cougar",
            Self::Bear => "bear",
            Self::RedFox => "red_fox",
            Self::GrayFox => "gray_fox",
            Self::Fisher => "fisher",
            Self::Marten => "marten",
        }
    }

    /// Kills deer of half a year and more. Foxes, fisher and marten eat what lies dead.
    pub const fn kills_deer(self) -> bool {
        (self as usize) < Self::RedFox as usize
    }
}

/// Share of figures that are slips. Expert judgement.
const SLIP: f64 = 0.1;
/// Below these odds between the best two a measure cannot tell. Ours.
pub const TELLS_FROM: f64 = 3.0;

/// A model: animal, mean, standard deviation.
type Model = (Animal, f64, f64);

/// Density of a normal variable.
fn normal_density(x: f64, mean: f64, sd: f64) -> f64 {
    let z = (x - mean) / sd;
    libm::exp(-0.5 * z * z) / (sd * libm::sqrt(core::f64::consts::TAU))
}

/// Density with the flat part over a span of `span`; `more_sd` is the measuring error.
fn robust_density(x: f64, (_, mean, sd): Model, more_sd: f64, span: f64) -> f64 {
    (1.0 - SLIP) * normal_density(x, mean, libm::sqrt(sd * sd + more_sd * more_sd)) + SLIP / span
}

/// Likelihoods of one measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Likelihoods {
    /// Density by animal, most first; ties in the order of [`Animal::ALL`].
    pub each: Vec<(Animal, f64)>,
}

impl Likelihoods {
    fn of(x: f64, models: &[Model], more_sd: f64, span: f64) -> Self {
        let mut each: Vec<(Animal, f64)> =
            models.iter().map(|model| (model.0, robust_density(x, *model, more_sd, span))).collect();
        each.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        Self { each }
    }

    /// Holds the odds of any two of these animals within `most` to one: who lies further below is lifted.
    fn cap(&mut self, most: f64, among: fn(Animal) -> bool) {
        let top = self.each.iter().filter(|(animal, _)| among(*animal)).map(|(_, f)| *f).fold(0.0, f64::max);
        for (_, density) in self.each.iter_mut().filter(|(animal, _)| among(*animal)) {
            *density = density.max(top / most);
        }
        self.each.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    }

    /// Density of one animal.
    pub fn density(&self, animal: Animal) -> Option<f64> {
        self.each.iter().find(|(a, _)| *a == animal).map(|(_, f)| *f)
    }

    /// Odds of one animal over another.
    pub fn odds(&self, of: Animal, over: Animal) -> Option<f64> {
        Some(self.density(of)? / self.density(over)?)
    }

    /// Shares where all animals were equally likely before, most first.
    pub fn shares(&self) -> Vec<(Animal, f64)> {
        let sum: f64 = self.each.iter().map(|(_, f)| f).sum();
        self.each.iter().map(|(animal, f)| (*animal, f / sum)).collect()
    }

    /// The best animal and its odds over the second; `None` where they lie within [`TELLS_FROM`].
    pub fn told(&self) -> Option<(Animal, f64)> {
        let [(best, first), (_, second), ..] = self.each.as_slice() else { return None };
        let odds = first / second;
        (odds >= TELLS_FROM).then_some((*best, odds))
    }

    /// Animals within [`TELLS_FROM`] of the best.
    pub fn candidates(&self) -> Vec<Animal> {
        let top = self.each.first().map_or(0.0, |(_, f)| *f);
        self.each.iter().filter(|(_, f)| top / f < TELLS_FROM).map(|(animal, _)| *animal).collect()
    }
}
