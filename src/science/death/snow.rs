//! Layers of dated snowfalls: the strongest clock there is.

use super::{Bound, Found, HOUR_S, Instant, Rule, Silent};
use crate::order::Short as _;

/// A fall below this depth leaves no layer that can be told, mm.
const TRACE_MM: i64 = 10;
/// Falls nearer to each other than this are one layer, h.
const ONE_LAYER_H: i64 = 6;

/// One snowfall, or several that cannot be told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fall {
    /// When it ended, at the latest.
    pub to: Instant,
    /// When it began, at the earliest; `None` where nobody knows what came before.
    pub from: Option<Instant>,
    /// When it began, at the latest.
    pub begun_by: Instant,
    /// New snow, mm, where it is known.
    pub depth_mm: Option<i64>,
    /// Seen or measured to fall; a mere rise of the depth may be drift and bounds nothing hard.
    pub measured: bool,
}

impl Fall {
    /// One that somebody saw begin and end.
    pub const fn seen(from: Instant, to: Instant) -> Self {
        Self { to, from: Some(from), begun_by: from, depth_mm: None, measured: true }
    }

    fn and(self, next: Self) -> Self {
        Self {
            to: self.to.max(next.to),
            from: self.from,
            begun_by: self.begun_by,
            depth_mm: self.depth_mm.zip(next.depth_mm).map(|(a, b)| a + b),
            measured: self.measured && next.measured,
        }
    }
}

/// A layer, counted back from the look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Layer {
    Last,
    SecondLast,
    ThirdLast,
    Older,
}

impl Layer {
    const fn back(self) -> usize {
        match self {
            Self::Last => 0,
            Self::SecondLast => 1,
            Self::ThirdLast => 2,
            Self::Older => 3,
        }
    }
}

/// How far the snow over the body can be trusted as it fell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lie {
    /// Undisturbed on two or more sides.
    TwoSides,
    /// Undisturbed on one side, or drifted or scoured by wind, or nobody looked.
    Doubtful,
    /// Heaped on by an animal.
    Cached,
}

/// What the layers tell. `None` is no evidence.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[allow(clippy::struct_excessive_bools)] // one sign each
pub struct Seen {
    /// The oldest layer that lies over the body, and how it lies.
    pub over: Option<(Layer, Lie)>,
    /// The newest layer that lies under it, pressed.
    pub under: Option<Layer>,
    /// It lies on bare ground or old ice, lasting snow round it.
    pub bare_under: bool,
    /// The newest layer that tracks of the event are cut into.
    pub cut: Option<Layer>,
    /// The oldest layer that fills them.
    pub filled: Option<Layer>,
    /// A crust of rain or melt lies over the body or over its blood.
    pub crust_over: bool,
    /// The layer that holds blood or hair, none in the next.
    pub blood: Option<Layer>,
    /// Ice cast under it.
    pub melt_cast: bool,
    /// It stands on a pedestal of snow.
    pub pedestal: bool,
}

/// Dated weather that the layers are read against.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Dates {
    /// Layers, the newest first.
    layers: Vec<Fall>,
    /// Latest start of the first fall of the snow that lies round the body.
    pub lasting_from: Option<Instant>,
    /// End of the last rain or thaw before the look.
    pub thaw_ended: Option<Instant>,
}

impl Dates {
    /// From snowfalls in any order: what had not begun at the look, and what is too thin to be told,
    /// is left out; what follows within hours is one layer.
    pub fn new(falls: &[Fall], look: Instant, lasting_from: Option<Instant>, thaw_ended: Option<Instant>) -> Self {
        let begun = |f: &&Fall| f.begun_by <= f.to && f.begun_by < look;
        let mut sorted: Vec<Fall> = falls.iter().filter(begun).map(|f| Fall { to: f.to.min(look), ..*f }).collect();
        sorted.order_by_key(|f| (f.from.unwrap_or(f.begun_by), *f));
        let mut layers: Vec<Fall> = Vec::new();
        for fall in sorted {
            let gap = |last: &Fall| fall.from.unwrap_or(fall.begun_by) - last.to;
            match layers.last_mut() {
                Some(last) if gap(last) < ONE_LAYER_H * HOUR_S => *last = last.and(fall),
                _ => layers.push(fall),
            }
        }
        layers.retain(|fall| fall.depth_mm.is_none_or(|mm| mm >= TRACE_MM));
        layers.reverse();
        Self { layers, lasting_from, thaw_ended }
    }

    /// The layers, the newest first.
    pub fn layers(&self) -> &[Fall] {
        &self.layers
    }

    fn layer(&self, layer: Layer) -> Option<Fall> {
        self.layers.get(layer.back()).copied()
    }

    /// A layer that is at least so old: what is older than the third is not later than it.
    fn at_latest(&self, layer: Layer) -> Option<Fall> {
        self.layers.get(layer.back().min(Layer::ThirdLast.back())).copied()
    }
}

/// Bounds from layers.
pub fn bounds(seen: &Seen, dates: &Dates) -> Found {
    let mut found = Found::default();
    let mut put = |rule: Rule, said: Result<Bound, Silent>| match said {
        Ok(bound) => found.bound(bound),
        Err(why) => found.silent(rule, why),
    };
    let before = |rule, at: Option<Instant>, why| at.map(|at| Bound::high(rule, at, false)).ok_or(why);
    if let Some((layer, lie)) = seen.over {
        let hard = |fall: Fall| Bound::high(Rule::SnowOver, fall.to, lie == Lie::TwoSides && fall.measured);
        let said = if lie == Lie::Cached {
            Err(Silent::Cached)
        } else {
            dates.at_latest(layer).map(hard).ok_or(Silent::NoDates)
        };
        put(Rule::SnowOver, said);
    }
    if let Some(layer) = seen.under {
        put(Rule::SnowUnder, since(Rule::SnowUnder, layer, dates, true));
    }
    if let Some(layer) = seen.cut {
        put(Rule::TracksCut, since(Rule::TracksCut, layer, dates, false));
    }
    if seen.bare_under {
        put(Rule::BareUnder, before(Rule::BareUnder, dates.lasting_from, Silent::NoDates));
    }
    if let Some(layer) = seen.filled {
        put(Rule::TracksFilled, before(Rule::TracksFilled, dates.at_latest(layer).map(|f| f.to), Silent::NoDates));
    }
    if seen.crust_over {
        put(Rule::CrustOver, before(Rule::CrustOver, dates.thaw_ended, Silent::NoThaw));
    }
    if seen.pedestal {
        put(Rule::Pedestal, before(Rule::Pedestal, dates.thaw_ended, Silent::NoThaw));
    }
    if let Some(layer) = seen.blood {
        put(Rule::BloodLayer, blood(layer, dates));
    }
    if seen.melt_cast {
        put(Rule::MeltCast, Err(Silent::NoDate));
    }
    found
}

/// Not before a layer began; one older than the third cannot be dated.
fn since(rule: Rule, layer: Layer, dates: &Dates, hard: bool) -> Result<Bound, Silent> {
    let fall = dates.layer(layer).filter(|_| layer != Layer::Older).ok_or(Silent::NoDates)?;
    let from = fall.from.ok_or(Silent::NoDates)?;
    Ok(Bound::low(rule, from, hard && fall.measured))
}

/// In the life of the layer as surface: from its start to the end of the next fall.
fn blood(layer: Layer, dates: &Dates) -> Result<Bound, Silent> {
    let low = since(Rule::BloodLayer, layer, dates, false).ok().and_then(|bound| bound.low);
    let high = layer.back().checked_sub(1).and_then(|back| dates.layers.get(back)).map(|f| f.to);
    if low.is_none() && high.is_none() {
        return Err(Silent::NoDates);
    }
    Ok(Bound { rule: Rule::BloodLayer, low, high, hard: false })
}
