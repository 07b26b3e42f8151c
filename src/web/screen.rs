//! The screens and their names in the address.

use uuid::Uuid;

use crate::record::Day;

/// What is on the screen.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Screen {
    /// Where everything begins.
    Start,
    /// Who holds the phone; then on to a new outing or back to the start.
    Who,
    /// One question: the one named, or the next.
    Visit(Option<String>),
    /// Why there is no answer to this one.
    NoAnswer(String),
    /// Somebody is hurt.
    Hurt,
    /// The crew leaves at once.
    LeaveNow,
    /// After a break: where we were.
    Resume,
    /// All questions by phase.
    Steps,
    /// Stops in force.
    Stops,
    /// All answers about one examination.
    Journal(Uuid),
    /// The photos of one examination.
    Photos(Uuid),
    /// What the findings say, in short.
    Readings(Uuid),
    /// One reading in full, by its method.
    Reading(Uuid, String),
    /// Two people or two phones at one carcass.
    Pair,
    /// A carcass that another phone began.
    Join,
    /// What lies where, paced out.
    Sketch,
    /// Ageing drawn jaws at home.
    Practice,
    /// Handing over.
    HandOver,
    /// A record as moving codes for another phone: 0 is this phone's own, the others those that it carries.
    Show(usize),
    /// Taking what another phone shows.
    Take,
    /// The labels of all samples.
    Labels,
    /// Who had each sample, and handing samples on.
    Custody,
    /// What waits for the bench.
    Bench,
    /// The places whose winter is logged.
    Winter,
    /// One place's days.
    WinterLog(Uuid),
    /// One day there.
    WinterDay(Uuid, Day),
    /// One reading of it.
    WinterRead(Uuid, Day, String),
    /// Settings.
    Settings,
    /// What this is, and its cautions.
    About,
}

impl Screen {
    /// The address's hash, without the sign.
    pub(crate) fn hash(&self) -> String {
        match self {
            Self::Visit(Some(ask)) => format!("visit/{ask}"),
            Self::NoAnswer(ask) => format!("no-answer/{ask}"),
            Self::Journal(id) => format!("journal/{id}"),
            Self::Photos(id) => format!("photos/{id}"),
            Self::Readings(id) => format!("readings/{id}"),
            Self::Reading(id, method) => format!("reading/{id}/{method}"),
            Self::WinterLog(id) => format!("winter-log/{id}"),
            Self::Show(n) => format!("show/{n}"),
            Self::WinterDay(id, day) => format!("winter-day/{id}/{day}"),
            Self::WinterRead(id, day, finding) => format!("winter-read/{id}/{day}/{finding}"),
            _ => self.name().to_owned(),
        }
    }

    /// The screen's own name, for tests and styles.
    pub(crate) const fn name(&self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Who => "who",
            Self::Visit(_) => "visit",
            Self::NoAnswer(_) => "no-answer",
            Self::Hurt => "hurt",
            Self::LeaveNow => "leave-now",
            Self::Resume => "resume",
            Self::Steps => "steps",
            Self::Stops => "stops",
            Self::Journal(_) => "journal",
            Self::Photos(_) => "photos",
            Self::Readings(_) => "readings",
            Self::Reading(..) => "reading",
            Self::Sketch => "sketch",
            Self::Pair => "pair",
            Self::Join => "join",
            Self::Practice => "practice",
            Self::HandOver => "hand-over",
            Self::Show(_) => "show",
            Self::Take => "take",
            Self::Labels => "labels",
            Self::Custody => "custody",
            Self::Bench => "bench",
            Self::Winter => "winter",
            Self::WinterLog(_) => "winter-log",
            Self::WinterDay(..) => "winter-day",
            Self::WinterRead(..) => "winter-read",
            Self::Settings => "settings",
            Self::About => "about",
        }
    }

    /// From a hash, with or without the sign; an unknown one is the start.
    pub(crate) fn from_hash(hash: &str) -> Self {
        let hash = hash.trim_start_matches('#');
        let (name, rest) = hash.split_once('/').unwrap_or((hash, ""));
        let id = || Uuid::parse_str(rest).ok();
        match (name, rest) {
            ("who", "") => Self::Who,
            ("visit", "") => Self::Visit(None),
            ("visit", ask) => Self::Visit(Some(ask.to_owned())),
            ("no-answer", ask) if !ask.is_empty() => Self::NoAnswer(ask.to_owned()),
            ("hurt", "") => Self::Hurt,
            ("leave-now", "") => Self::LeaveNow,
            ("resume", "") => Self::Resume,
            ("steps", "") => Self::Steps,
            ("stops", "") => Self::Stops,
            ("journal", _) => id().map_or(Self::Start, Self::Journal),
            ("photos", _) => id().map_or(Self::Start, Self::Photos),
            ("readings", _) => id().map_or(Self::Start, Self::Readings),
            ("reading", _) => rest
                .split_once('/')
                .and_then(|(id, method)| Some(Self::Reading(Uuid::parse_str(id).ok()?, method.to_owned())))
                .unwrap_or(Self::Start),
            ("sketch", "") => Self::Sketch,
            ("practice", "") => Self::Practice,
            ("pair", "") => Self::Pair,
            ("join", "") => Self::Join,
            ("hand-over", "") => Self::HandOver,
            ("show", n) => Self::Show(n.parse().unwrap_or_default()),
            ("take", "") => Self::Take,
            ("labels", "") => Self::Labels,
            ("custody", "") => Self::Custody,
            ("bench", "") => Self::Bench,
            ("winter", "") => Self::Winter,
            ("winter-log", _) => id().map_or(Self::Winter, Self::WinterLog),
            ("winter-day" | "winter-read", _) => Self::of_a_day(rest).unwrap_or(Self::Winter),
            ("settings", "") => Self::Settings,
            ("about", "") => Self::About,
            _ => Self::Start,
        }
    }

    /// `id/day` or `id/day/finding`.
    fn of_a_day(rest: &str) -> Option<Self> {
        let mut parts = rest.splitn(3, '/');
        let id = Uuid::parse_str(parts.next()?).ok()?;
        let day = Day::parse(parts.next()?).ok()?;
        Some(match parts.next() {
            Some(finding) => Self::WinterRead(id, day, finding.to_owned()),
            None => Self::WinterDay(id, day),
        })
    }

    /// True where the screen belongs to an examination in hand.
    pub(crate) const fn is_of_the_visit(&self) -> bool {
        matches!(
            self,
            Self::Visit(_)
                | Self::NoAnswer(_)
                | Self::LeaveNow
                | Self::Resume
                | Self::Steps
                | Self::Stops
                | Self::Sketch
                | Self::Pair
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_is_found_again_by_its_hash() {
        let id = Uuid::from_u128(7);
        let ask = || "tooth_state.left.p4".to_owned();
        for screen in [
            Screen::Start,
            Screen::Who,
            Screen::Visit(None),
            Screen::Visit(Some(ask())),
            Screen::NoAnswer(ask()),
            Screen::Hurt,
            Screen::LeaveNow,
            Screen::Resume,
            Screen::Steps,
            Screen::Stops,
            Screen::Journal(id),
            Screen::Photos(id),
            Screen::Readings(id),
            Screen::Reading(id, "age.lower_jaw".to_owned()),
            Screen::Sketch,
            Screen::Practice,
            Screen::Pair,
            Screen::Join,
            Screen::HandOver,
            Screen::Show(0),
            Screen::Show(2),
            Screen::Take,
            Screen::Labels,
            Screen::Custody,
            Screen::Bench,
            Screen::Winter,
            Screen::WinterLog(id),
            Screen::WinterDay(id, Day::new(2027, 1, 5).unwrap()),
            Screen::WinterRead(id, Day::new(2027, 1, 5).unwrap(), "day_minimum_c".to_owned()),
            Screen::Settings,
            Screen::About,
        ] {
            assert_eq!(Screen::from_hash(&format!("#{}", screen.hash())), screen);
        }
        assert_eq!(Screen::from_hash("#journal/nonsense"), Screen::Start);
        assert_eq!(Screen::from_hash("#demo"), Screen::Start);
    }
}
