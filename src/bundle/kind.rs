//! The five kinds of signed file, told apart by the checked header member `typ`.

use std::fmt;

/// What a signed file is.
///
/// Without the check a signed card could be handed in as a bundle, or the other way round: the
/// signature would be good and the meaning wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// What a phone hands over.
    Bundle,
    /// The office's local card.
    Card,
    /// The evidence table of the causes.
    Table,
    /// Decisions of the office on conflicts and doubles.
    Decision,
    /// The office's list of enrolled devices.
    Keyring,
}

/// What a `typ` text turned out to be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Typ {
    /// One of ours, in the version that this program reads.
    Known(Kind),
    /// One of ours, in a later major version.
    Newer(Kind, u32),
    /// Anything else.
    Unknown,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 5] = [Self::Bundle, Self::Card, Self::Table, Self::Decision, Self::Keyring];

    /// The major version of every envelope that this program writes and reads.
    pub const VERSION: u32 = 1;

    /// The word that stands for the kind in `typ`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Bundle => "bundle",
            Self::Card => "card",
            Self::Table => "table",
            Self::Decision => "decision",
            Self::Keyring => "keyring",
        }
    }

    /// The header member `typ`, such as `marrowbook-bundle-1+jws`.
    pub fn typ(self) -> String {
        format!("marrowbook-{}-{}+jws", self.word(), Self::VERSION)
    }

    /// Whether the payload travels deflated (header member `zip`).
    ///
    /// Only bundles do: their entries repeat themselves, and phones hand over by mail on weak links.
    pub fn deflated(self) -> bool {
        self == Self::Bundle
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bundle => "bundle",
            Self::Card => "local card",
            Self::Table => "evidence table",
            Self::Decision => "office decision",
            Self::Keyring => "keyring",
        })
    }
}

impl Typ {
    /// Reads a `typ` text.
    pub fn parse(typ: &str) -> Self {
        let Some((word, version)) = typ
            .strip_prefix("marrowbook-")
            .and_then(|rest| rest.strip_suffix("+jws"))
            .and_then(|rest| rest.rsplit_once('-'))
        else {
            return Self::Unknown;
        };
        let Some(kind) = Kind::ALL.into_iter().find(|kind| kind.word() == word) else {
            return Self::Unknown;
        };
        // Only the one spelling of a number: "01" and "+1" are not ours.
        match version.parse::<u32>() {
            Ok(number) if number.to_string() != version => Self::Unknown,
            Ok(Kind::VERSION) => Self::Known(kind),
            Ok(number) if number > Kind::VERSION => Self::Newer(kind, number),
            _ => Self::Unknown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_reads_its_own_typ() {
        for kind in Kind::ALL {
            assert_eq!(Typ::parse(&kind.typ()), Typ::Known(kind));
        }
        assert_eq!(Kind::Bundle.typ(), "marrowbook-bundle-1+jws");
    }

    #[test]
    fn newer_versions_and_strangers_are_told_apart() {
        assert_eq!(Typ::parse("marrowbook-card-2+jws"), Typ::Newer(Kind::Card, 2));
        assert_eq!(Typ::parse("marrowbook-bundle-10+jws"), Typ::Newer(Kind::Bundle, 10));
        for typ in [
            "",
            "JWT",
            "marrowbook-bundle-0+jws",
            "marrowbook-bundle-01+jws",
            "marrowbook-bundle-+1+jws",
            "marrowbook-bundle-1",
            "marrowbook-bundle+jws",
            "Marrowbook-bundle-1+jws",
            "marrowbook-letter-1+jws",
            "marrowbook-bundle-99999999999+jws",
        ] {
            assert_eq!(Typ::parse(typ), Typ::Unknown, "{typ}");
        }
    }
}
