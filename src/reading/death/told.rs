//! The window and its bounds as statements, each with its rule, kind and mark.

use super::ids;
use crate::order::Short as _;
use crate::reading::message_ids;
use crate::reading::shape::{Basis, Estimate, Statement, Val};
use crate::record::Moment;
use crate::science::death::{Bound, Conflict, DAY_S, Instant, Rule, Silent, Window};

/// A local time, to the minute, of an offset that is said once.
pub(super) fn local(at: Instant, offset_minutes: i32) -> String {
    let Ok(moment) = Moment::from_unix(at, offset_minutes) else { return String::new() };
    let text = moment.to_string();
    let (day, rest) = text.split_once('T').unwrap_or((&text, ""));
    let time: String = rest.chars().take(5).collect();
    format!("{day} {time}")
}

/// An offset such as `-05:00`.
fn offset_text(offset_minutes: i32) -> String {
    let sign = if offset_minutes < 0 { '-' } else { '+' };
    let minutes = offset_minutes.unsigned_abs();
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

/// What is said in one offset.
pub(super) struct Say {
    pub(super) offset_minutes: i32,
}

impl Say {
    fn at(&self, at: Instant) -> Val {
        Val::Text(local(at, self.offset_minutes))
    }

    /// The headline of a window.
    pub(super) fn headline(&self, window: &Window) -> Option<Statement> {
        let high = window.high?;
        let Some(low) = window.low.filter(|low| !low.rule.is_assumed()) else {
            return Some(Statement::plain(ids::BEFORE).with("high", self.at(high.at)));
        };
        let of = |id| Statement::plain(id).with("low", self.at(low.at)).with("high", self.at(high.at));
        if low.at == high.at {
            return Some(Statement::plain(ids::SEEN).with("high", self.at(high.at)));
        }
        Some(window.middle().map_or_else(|| of(ids::BETWEEN), |at| of(ids::ABOUT).with("middle", self.at(at))))
    }

    /// Why there is no window.
    pub(super) fn conflict(&self, conflict: &Conflict) -> Statement {
        Statement::plain(ids::CONFLICT)
            .with("low", self.at(conflict.low.at))
            .with("low_rule", Val::message(ids::rule(conflict.low.rule)))
            .with("high", self.at(conflict.high.at))
            .with("high_rule", Val::message(ids::rule(conflict.high.rule)))
    }

    fn of_bound(&self, bound: &Bound, ids: [&str; 3]) -> Statement {
        let [low, high, both] = ids;
        let row = bound.rule.row();
        let id = match (bound.low, bound.high) {
            (Some(_), Some(_)) => both,
            (Some(_), None) => low,
            _ => high,
        };
        let mut said = Statement::plain(id)
            .with("rule", Val::message(ids::rule(bound.rule)))
            .with("id", Val::Text(row.id.to_owned()))
            .with("kind", Val::message(if bound.hard { ids::HARD } else { ids::SOFT }))
            .with("mark", Val::message(message_ids::mark(row.source.mark)));
        if let Some(at) = bound.low {
            said = said.with("low", self.at(at));
        }
        if let Some(at) = bound.high {
            said = said.with("high", self.at(at));
        }
        said
    }

    /// Every bound: first those that set an end, then the others, then those left out.
    pub(super) fn bounds(&self, window: &Window) -> Vec<Statement> {
        let sets = |bound: &Bound| {
            let low = window.low.is_some_and(|end| end.rule == bound.rule && bound.low == Some(end.at));
            let high = window.high.is_some_and(|end| end.rule == bound.rule && bound.high == Some(end.at));
            match (low, high) {
                (true, false) => 0,
                (false, true) => 1,
                (true, true) => 2,
                (false, false) => 3,
            }
        };
        let mut taken: Vec<(usize, &Bound)> = window.taken.iter().map(|b| (sets(b), b)).collect();
        taken.order_by_key(|(role, _)| usize::from(*role == 3));
        let mut all: Vec<Statement> = Vec::new();
        let mut add = |said: Statement| {
            if !all.contains(&said) {
                all.push(said);
            }
        };
        for (role, bound) in taken {
            let said = if bound.rule.is_assumed() {
                let low = self.at(bound.low.unwrap_or_default());
                let rule = Val::message(ids::rule(bound.rule));
                if role == 3 {
                    continue;
                }
                Statement::plain(ids::ASSUMED).with("low", low).with("rule", rule)
            } else {
                let role = ids::ROLES.get(role).copied().unwrap_or_default();
                let of = [ids::BOUND_LOW, ids::BOUND_HIGH, ids::BOUND_BOTH];
                self.of_bound(bound, of).with("role", Val::message(role))
            };
            add(said);
        }
        for dropped in window.dropped.iter().filter(|d| !d.bound.rule.is_assumed()) {
            let of = [ids::DROPPED_LOW, ids::DROPPED_HIGH, ids::DROPPED_BOTH];
            let against = Val::message(ids::rule(dropped.against));
            add(self.of_bound(&dropped.bound, of).with("against", against));
        }
        all
    }

    /// The line that says in which offset the times are.
    pub(super) fn offset(&self) -> Statement {
        Statement::plain(ids::LOCAL).with("offset", Val::Text(offset_text(self.offset_minutes)))
    }
}

/// What gives no bound, and why.
pub(super) fn silent(all: &[(Rule, Silent)]) -> Vec<Statement> {
    let mut said: Vec<Statement> = Vec::new();
    for (rule, why) in all {
        let one = Statement::plain(ids::SILENT)
            .with("rule", Val::message(ids::rule(*rule)))
            .with("id", Val::Text(rule.row().id.to_owned()))
            .with("why", Val::message(ids::silent(*why)));
        if !said.contains(&one) {
            said.push(one);
        }
    }
    said
}

/// Days before it was found, where the first end is seen and not assumed.
pub(super) fn estimate(window: &Window, found: Instant) -> Option<Estimate> {
    let (low, high) = (window.low.filter(|low| !low.rule.is_assumed())?, window.high?);
    let days = |at: Instant| (found - at) as f64 / DAY_S as f64;
    Some(Estimate {
        unit: ids::UNIT_DAYS_BEFORE.to_owned(),
        best: window.middle().map(days),
        low: Some(days(high.at)),
        high: Some(days(low.at)),
        coverage: None,
        shares: Vec::new(),
    })
}

/// What the bounds rest on, each once.
pub(super) fn sources(rules: impl Iterator<Item = Rule>) -> Vec<Basis> {
    let mut all: Vec<Basis> = Vec::new();
    for rule in rules {
        let basis = Basis::from(&rule.row().source);
        if !all.contains(&basis) {
            all.push(basis);
        }
    }
    all
}
