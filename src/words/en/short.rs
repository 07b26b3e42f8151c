//! Readings in short, and the units they are shown in.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("reading.short.class", "{class}"),
    ("reading.short.classes", "{first} to {last}: {percent} in 100 by this model"),
    ("reading.short.sure", "{percent} in 100 by this model"),
    ("reading.short.about", "About {best} alive"),
    ("reading.short.about_in_autumn", "About {best}, autumn weight"),
    ("reading.short.between", "{low} to {high} alive"),
    ("reading.short.between_in_autumn", "{low} to {high}, autumn weight"),
    ("reading.short.holds", "{low} to {high}: {percent} in 100"),
    ("reading.short.holds_unsaid", "{low} to {high}; no source says how often that holds"),
    ("reading.short.rules", "{n} rules side by side, each {percent} in 100 in its own herd"),
    ("reading.short.mark", "{n} of {all} sources from memory or our own choice"),
    ("reading.unit.lb", "lb"),
    ("reading.short.open", "Whole reading: {title}"),
    ("reading.short.sharpen", "Most worth a look now: {look}"),
    ("reading.short.sharpen_not_here", "Most worth a look: {look}. This visit does not ask it."),
    ("reading.short.none", "None of these three has an open look worth its time."),
    ("reading.short.others", "Other readings"),
    ("settings.us_units", "Readings in pounds and inches (answers stay metric)"),
];
