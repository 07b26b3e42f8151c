//! Why something that was seen gives no bound.

/// Why a rule gives no bound here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Silent {
    /// It has no date of its own, but says that the body lies where it died.
    NoDate,
    /// The snowfall has no date: neither the crew nor the log tells when it fell.
    NoDates,
    /// No daily temperatures are known.
    NoLog,
    /// The log of temperatures does not reach back far enough, or has a gap.
    LogTooShort,
    /// Snow was heaped on by an animal: it is no snowfall.
    Cached,
    /// The frozen body is stiff from frost.
    FrozenStiff,
    /// The thigh's temperature is needed: frost stiffens too.
    NeedsThigh,
    /// Limp may mean before stiffness or after it.
    LimpUndecided,
    /// Air at 0 C or below keeps eyes clear.
    ColdEyes,
    /// Birds may take the eyes at once.
    Pecked,
    /// Liquid blood tells only in air below -5 C.
    TooMildForBlood,
    /// The air's temperature is needed.
    NeedsAir,
    /// Warmer than a body can be at death.
    TooWarm,
    /// The body is colder than the air: it does not cool.
    ColderThanAir,
    /// After the first four hours nose and ear say nothing.
    NoseTooLate,
    /// Frozen at the point measured: it no longer cools as this rule has it.
    FrozenThere,
    /// A thaw lay between.
    Thawed,
    /// Snow on the body keeps the frost out.
    UnderSnow,
    /// The number of animals is needed.
    NeedsCount,
    /// For one of those who ate no daily intake is known.
    UnknownEater,
    /// Decay says this of a body that was never frozen only.
    WasFrozen,
    /// Something gnawed at it: flesh was taken, not rotted.
    Gnawed,
    /// Nothing so warm in the log.
    NeverWarm,
    /// No thaw or rain is known of before the look.
    NoThaw,
}
