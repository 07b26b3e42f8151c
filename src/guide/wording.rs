//! Message ids of what the tables name, and places in words.

use crate::record::{Site, Why};
use crate::words::{Arg, Language, raw, say};

/// The message that names a finding. A hazard's statement goes by the hazard's headline.
pub fn finding_label(finding: &str) -> String {
    match finding.strip_prefix("confirm_") {
        Some(hazard) => format!("hazard.{hazard}.head"),
        None => format!("finding.{finding}"),
    }
}

/// The message of an option: the finding's own text for it where there is one, else the common one.
pub fn option_label(language: Language, finding: &str, option: &str) -> String {
    if finding == "reopened" {
        return format!("hazard.{option}.head");
    }
    let own = format!("option.{finding}.{option}");
    if raw(language, &own).is_some() { own } else { format!("option.{option}") }
}

/// A reason in words; the crew's own words stand as typed.
pub fn why_words(language: Language, why: &Why) -> String {
    match why {
        Why::Other(own) if !own.trim().is_empty() => own.clone(),
        _ => say(language, &format!("why.{}", why.code()), &[]),
    }
}

/// A place in words, such as `Left, Third cheek tooth (P4)`; empty where there is none.
pub fn site_words(language: Language, at: Site) -> String {
    let name = |kind: &str, code: &str| say(language, &format!("{kind}.{code}"), &[]);
    let side = at.side.map(|side| name("side", side.code()));
    let tooth = at.tooth.map(|tooth| name("tooth", &tooth.name().to_ascii_lowercase()));
    let bone = at.bone.map(|bone| name("bone", bone.code()));
    if let Some(day) = at.day {
        return day.to_string();
    }
    let n = at.item.map(|n| Arg::Count(i64::from(n)));
    let (id, args): (&str, Vec<(&str, Arg)>) = match (side, tooth, bone, n) {
        (Some(side), Some(tooth), _, _) => ("site.side_tooth", vec![("side", side.into()), ("tooth", tooth.into())]),
        (None, Some(tooth), _, _) => ("site.tooth", vec![("tooth", tooth.into())]),
        (Some(side), None, Some(bone), _) => ("site.side_bone", vec![("side", side.into()), ("bone", bone.into())]),
        (None, None, Some(bone), _) => ("site.bone", vec![("bone", bone.into())]),
        (Some(side), None, None, None) => ("site.side", vec![("side", side.into())]),
        (_, None, None, Some(n)) => ("site.item", vec![("n", n)]),
        (None, None, None, None) => return String::new(),
    };
    say(language, id, &args)
}
