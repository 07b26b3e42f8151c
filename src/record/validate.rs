//! Whether an answer can be true of its finding. What fails is said; it is never silently changed.

use super::{Answer, FindingDef, Key, Place, Scope, Shape, Site, Sites, Subject, Value, find, find_office};

/// What is wrong with an answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Flaw {
    /// Not in the finding table (of a newer phone, perhaps): kept, not used.
    #[error("`{finding}` is not a finding that this version knows")]
    UnknownFinding {
        /// The code.
        finding: String,
    },
    /// Asked of the wrong kind of subject.
    #[error("`{finding}` is not asked of that kind of subject")]
    WrongSubject {
        /// The code.
        finding: String,
    },
    /// The place does not fit the finding.
    #[error("`{finding}` is not found at that place")]
    WrongSite {
        /// The code.
        finding: String,
    },
    /// Another form of value is asked for.
    #[error("`{finding}` does not take that form of value")]
    WrongShape {
        /// The code.
        finding: String,
    },
    /// The option is not one of the finding's.
    #[error("`{option}` is not an option of `{finding}`")]
    UnknownOption {
        /// The code.
        finding: String,
        /// The option.
        option: String,
    },
    /// The number cannot be true.
    #[error("{value} lies outside {min} to {max} for `{finding}` (stored integers)")]
    OutOfRange {
        /// The code.
        finding: String,
        /// What was given.
        value: i64,
        /// Smallest that can be true.
        min: i64,
        /// Largest that can be true.
        max: i64,
    },
    /// The text is too long.
    #[error("the text for `{finding}` has more than {max} characters")]
    TooLong {
        /// The code.
        finding: String,
        /// Most characters.
        max: usize,
    },
    /// Not one to so many codes of plants apart by one blank.
    #[error("`{finding}` takes 1 to {max} codes of plants, small letters, apart by one blank")]
    NoPlants {
        /// The code.
        finding: String,
        /// Most codes.
        max: usize,
    },
    /// The place is not on the globe.
    #[error("latitude or longitude for `{finding}` is off the globe")]
    OffTheGlobe {
        /// The code.
        finding: String,
    },
}

/// Check an answer against its finding's definition.
///
/// # Errors
/// The first flaw found.
pub fn validate(key: &Key, answer: &Answer) -> Result<&'static FindingDef, Flaw> {
    validate_as(find(key.finding.as_str()), key, answer)
}

/// The same where the office writes, which has findings of its own.
///
/// # Errors
/// See [`Flaw`].
pub fn validate_office(key: &Key, answer: &Answer) -> Result<&'static FindingDef, Flaw> {
    let finding = key.finding.as_str();
    validate_as(find_office(finding).or_else(|| find(finding)), key, answer)
}

fn validate_as(def: Option<&'static FindingDef>, key: &Key, answer: &Answer) -> Result<&'static FindingDef, Flaw> {
    let name = || key.finding.as_str().to_owned();
    let def = def.ok_or_else(|| Flaw::UnknownFinding { finding: name() })?;
    let scope = match key.subject {
        Subject::Outing(_) => Scope::Outing,
        Subject::Report(_) => Scope::Report,
        Subject::Examination(_) => Scope::Examination,
        Subject::WinterLog(_) => Scope::WinterLog,
    };
    if scope != def.scope {
        return Err(Flaw::WrongSubject { finding: name() });
    }
    if !fits(def.sites, key.site) {
        return Err(Flaw::WrongSite { finding: name() });
    }
    if let Some(value) = answer.value() {
        check_value(def, value)?;
    }
    Ok(def)
}

fn fits(sites: Sites, site: Site) -> bool {
    if sites == Sites::Day {
        return site == Site { day: site.day, ..Site::NONE } && site.day.is_some();
    }
    site.day.is_none() && fits_animal(sites, site)
}

fn fits_animal(sites: Sites, site: Site) -> bool {
    match sites {
        Sites::Day => false,
        Sites::None => site.is_none(),
        Sites::Side => site.tooth.is_none() && site.bone.is_none() && site.item.is_none(),
        Sites::Tooth => site.tooth.is_some() && site.side.is_some() && site.bone.is_none() && site.item.is_none(),
        Sites::Bone => site.bone.is_some() && site.tooth.is_none() && site.item.is_none(),
        Sites::Item => site.item.is_some_and(|n| n > 0) && site.tooth.is_none() && site.bone.is_none(),
    }
}

fn check_value(def: &FindingDef, value: &Value) -> Result<(), Flaw> {
    let finding = || def.code.to_owned();
    let known = |option: &String| {
        if def.options().contains(&option.as_str()) {
            Ok(())
        } else {
            Err(Flaw::UnknownOption { finding: finding(), option: option.clone() })
        }
    };
    match (def.shape, value) {
        (Shape::Presence | Shape::Choice(_), Value::Choice(option)) => known(option),
        (Shape::Choices(_), Value::Choices(all)) if !all.is_empty() => all.iter().try_for_each(known),
        (Shape::Number { min, max, .. }, Value::Number(n)) => {
            if (min..=max).contains(n) {
                Ok(())
            } else {
                Err(Flaw::OutOfRange { finding: finding(), value: *n, min, max })
            }
        }
        (Shape::Text(max), Value::Text(text)) => {
            if text.chars().count() <= max {
                Ok(())
            } else {
                Err(Flaw::TooLong { finding: finding(), max })
            }
        }
        (Shape::Plants(most), Value::Text(text)) => plants(def, text, most),
        (Shape::Place, Value::Place(Place { lat_e7, lon_e7, .. })) => {
            if lat_e7.abs() <= 900_000_000 && lon_e7.abs() <= 1_800_000_000 {
                Ok(())
            } else {
                Err(Flaw::OffTheGlobe { finding: finding() })
            }
        }
        (Shape::Instant, Value::Instant(_)) | (Shape::Photo, Value::Photo(_)) | (Shape::Ref, Value::Ref(_)) => Ok(()),
        _ => Err(Flaw::WrongShape { finding: finding() }),
    }
}

/// Codes of plants: a newer phone may know more of them, so that only their form is checked.
fn plants(def: &FindingDef, text: &str, most: usize) -> Result<(), Flaw> {
    let code = |word: &str| {
        (1..=40).contains(&word.len())
            && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
    };
    let fits = text.split(' ').count() <= most && text.split(' ').all(code);
    if fits { Ok(()) } else { Err(Flaw::NoPlants { finding: def.code.to_owned(), max: most }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plants_are_one_to_ten_codes_known_or_not() {
        let def = find("rumen_points").unwrap();
        let check = |text: &str| check_value(def, &Value::Text(text.to_owned()));
        assert_eq!(check("spruce pine plant_of_a_newer_form"), Ok(()));
        for bad in ["", " ", "spruce  pine", "Spruce", "spruce, pine", "a a a a a a a a a a a"] {
            assert!(matches!(check(bad), Err(Flaw::NoPlants { max: 10, .. })), "{bad:?}");
        }
        let percent = find("rumen_plant_percent").unwrap();
        assert!(check_value(percent, &Value::Number(100)).is_ok());
        assert!(matches!(check_value(percent, &Value::Number(101)), Err(Flaw::OutOfRange { .. })));
        let depth = find("snow_depth_cm").unwrap();
        assert!(matches!(check_value(depth, &Value::Number(-1)), Err(Flaw::OutOfRange { .. })));
    }

    /// Latitudes end at 90 degrees, longitudes at 180 (RFC 7946, section 4, by WGS 84); each by itself is enough.
    #[test]
    fn a_place_lies_on_the_globe_in_both_its_numbers() {
        let def = find("place").unwrap();
        let check = |lat_e7: i64, lon_e7: i64| {
            let source = crate::record::PlaceSource::Typed;
            check_value(def, &Value::Place(Place { lat_e7, lon_e7, accuracy_m_95: None, source }))
        };
        assert_eq!(check(-900_000_000, 1_800_000_000), Ok(()));
        for (lat, lon) in [(900_000_001, 0), (0, -1_800_000_001)] {
            assert!(matches!(check(lat, lon), Err(Flaw::OffTheGlobe { .. })), "{lat} {lon}");
        }
    }
}
