//! From drafts to entry bodies: subject, person, supersedes, time and versions are added here.

use uuid::Uuid;

use crate::order::Short as _;
use crate::record::{
    Act, Body, CustodyStep, Digest, ENTRY_SCHEMA, EntryId, Flaw, Fold, Keeping, Key, Moment, PersonCode, Scope,
    Subject, Versions, find, validate,
};

use super::{Draft, PROTOCOL};

/// Who writes, about what, when.
#[derive(Clone, Debug)]
pub struct Context {
    /// The crew's day out.
    pub outing: Uuid,
    /// The examination in hand; or the winter log, while a day of it is written.
    pub examination: Uuid,
    /// The report in hand; the outing's id stands in where there is none.
    pub report: Option<Uuid>,
    /// Who looked.
    pub observer: PersonCode,
    /// Who typed.
    pub typed_by: PersonCode,
    /// Local time.
    pub at: Moment,
    /// Zone name.
    pub zone: String,
    /// Milliseconds since the examination was begun on this device.
    pub since_start_ms: Option<u64>,
    /// Digest of the card in force.
    pub card: Option<Digest>,
}

impl Context {
    fn key(&self, draft: &Draft) -> Result<Key, Flaw> {
        let def = find(draft.finding).ok_or_else(|| Flaw::UnknownFinding { finding: draft.finding.to_owned() })?;
        let subject = match def.scope {
            Scope::Outing => Subject::Outing(self.outing),
            Scope::Examination => Subject::Examination(self.examination),
            Scope::Report => Subject::Report(self.report.unwrap_or(self.outing)),
            Scope::WinterLog => Subject::WinterLog(self.examination),
        };
        Ok(Key { subject, finding: draft.finding.into(), site: draft.site, observer: self.observer.clone() })
    }

    fn body(&self, act: Act, step: Option<&str>) -> Body {
        Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: self.typed_by.clone(),
            at: self.at,
            zone: self.zone.clone(),
            since_start_ms: self.since_start_ms,
            versions: Versions { protocol: PROTOCOL, step: step.map(str::to_owned), card: self.card },
        }
    }
}

/// The bodies that write these drafts. A single finding's answer supersedes what the same observer
/// said before on that key; a repeated finding's reading stands beside the earlier ones. What a rule
/// or the leaving wrote there gives way to either, whoever held the phone: nobody said it.
///
/// # Errors
/// The first draft that cannot be true of its finding; none is written then.
pub fn compose(fold: &Fold, drafts: &[Draft], context: &Context) -> Result<Vec<Body>, Flaw> {
    drafts
        .iter()
        .map(|draft| {
            let key = context.key(draft)?;
            let def = validate(&key, &draft.answer)?;
            let mut supersedes = unasked(fold, &key);
            if def.keeping == Keeping::Single {
                supersedes.extend(fold.superseded_by(&key));
            }
            supersedes.order();
            supersedes.dedup();
            let act = Act::Answer { key, answer: draft.answer.clone(), supersedes };
            Ok(context.body(act, Some(draft.step)))
        })
        .collect()
}

fn unasked(fold: &Fold, key: &Key) -> Vec<EntryId> {
    let standing = fold.sheet(key.subject).map(|sheet| sheet.question(key.finding.as_str(), key.site).standing);
    standing.into_iter().flatten().filter(|s| super::view::is_unasked(s)).map(|s| s.id).collect()
}

/// The body that takes entries back.
pub fn withdraw(entries: Vec<EntryId>, context: &Context) -> Body {
    context.body(Act::Withdraw { supersedes: entries }, None)
}

/// What is said of a sample when it changes hands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Handing {
    /// Where.
    pub place: String,
    /// The number read off the seal.
    pub seal: String,
    /// Whether the seal was whole, where somebody looked.
    pub seal_intact: Option<bool>,
    /// State of the thing.
    pub condition: String,
    /// Container, reason, remarks.
    pub note: String,
}

/// The body that says that a sample changed hands.
pub fn custody(
    sample: &str,
    step: CustodyStep,
    from: Option<PersonCode>,
    to: PersonCode,
    handing: &Handing,
    context: &Context,
) -> Body {
    let Handing { place, seal, seal_intact, condition, note } = handing.clone();
    context.body(
        Act::Custody { sample: sample.to_owned(), step, from, to, place, seal, seal_intact, condition, note },
        None,
    )
}
