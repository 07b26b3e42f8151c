//! What a question is about: which reasons for no answer make sense of it.

use crate::record::Why;

/// What a step asks about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// A part of the carcass: it may be frozen, rotten, lain upon, eaten or taken away.
    Body,
    /// What lies round it: snow or the body may hide it; no part of it is gone.
    Ground,
    /// The crew, the weather, the snow as such, what was said or done: nothing hides it.
    Visit,
}

/// Reasons that are offered, the commonest in winter first.
const OFFERED: [Why; 12] = [
    Why::Frozen,
    Why::Buried,
    Why::Scavenged,
    Why::UnderBody,
    Why::Decayed,
    Why::Dark,
    Why::Cold,
    Why::Time,
    Why::Unsafe,
    Why::NotTrained,
    Why::Removed,
    Why::NotGiven,
];

impl About {
    /// Whether a reason makes sense here; what a rule or a stop writes is not asked for.
    pub fn takes(self, why: &Why) -> bool {
        match why {
            Why::Frozen | Why::Scavenged | Why::Decayed | Why::Removed => self == Self::Body,
            Why::Buried | Why::UnderBody => self != Self::Visit,
            _ => true,
        }
    }

    /// The reasons offered.
    pub fn reasons(self) -> Vec<Why> {
        OFFERED.into_iter().filter(|why| self.takes(why)).collect()
    }

    /// The reason to write with `part gone`, where that can be said at all. Frost, dark or haste takes no part away.
    pub fn gone(self, why: &Why) -> Option<Why> {
        let tells = matches!(why, Why::Scavenged | Why::Decayed | Why::Removed | Why::Other(_));
        (self == Self::Body).then(|| if tells { why.clone() } else { Why::NotGiven })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::guide::steps::step;

    /// A rule of the project's own, no outside source: only what has parts can lose one.
    #[test]
    fn a_reason_is_offered_only_where_it_makes_sense() {
        let of = |id: &str| step(id).unwrap().about;
        for id in ["snow_depth", "sinking_person", "crew_count", "air_now", "remark", "report_place", "officer_told"] {
            assert_eq!(of(id), About::Visit, "{id}");
        }
        for id in ["tracks_by", "snow_under_body", "front_track_width", "fall_over", "ev_tracks", "cover_with"] {
            assert_eq!(of(id), About::Ground, "{id}");
        }
        for id in ["jaw", "eyes", "hind_foot", "rumen", "bench_marrow_dry", "danger_signs", "wounds_outside"] {
            assert_eq!(of(id), About::Body, "{id}");
        }
        let everywhere = [Why::Dark, Why::Cold, Why::Time, Why::Unsafe, Why::NotTrained, Why::NotGiven];
        assert_eq!(About::Visit.reasons(), everywhere);
        assert_eq!(About::Ground.reasons(), [&[Why::Buried, Why::UnderBody][..], &everywhere].concat());
        assert_eq!(About::Body.reasons().len(), OFFERED.len());
    }

    #[test]
    fn a_part_is_gone_by_what_takes_parts_away() {
        assert_eq!(About::Visit.gone(&Why::Removed), None);
        assert_eq!(About::Ground.gone(&Why::NotGiven), None);
        assert_eq!(About::Body.gone(&Why::Scavenged), Some(Why::Scavenged));
        assert_eq!(About::Body.gone(&Why::Dark), Some(Why::NotGiven));
    }
}
