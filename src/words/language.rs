//! The languages, and what each of them asks of numbers.

/// A language with a catalogue.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// English: what all others are translated from.
    #[default]
    English,
    /// French, as a wildlife technician in Quebec would write it.
    French,
    /// Spanish, as it is written in North America.
    Spanish,
}

impl Language {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::English, Self::French, Self::Spanish];

    /// Code of the language (ISO 639-1), as the page's `lang` and the phone's settings have it.
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::French => "fr",
            Self::Spanish => "es",
        }
    }

    /// The language of a code or a browser's tag, such as `fr-CA`; `None` for another.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let code = tag.split('-').next().unwrap_or_default();
        Self::ALL.into_iter().find(|language| language.code().eq_ignore_ascii_case(code))
    }

    /// Its name in its own tongue, which is never translated.
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::French => "Fran\u{e7}ais",
            Self::Spanish => "Espa\u{f1}ol",
        }
    }

    /// Whether a count takes the form for one. Unicode CLDR 45, plural rules of whole numbers: English and
    /// Spanish `i = 1`, French `i = 0,1`. (French and Spanish have a third form for whole millions, which
    /// nothing here counts.)
    pub const fn takes_one(self, n: i64) -> bool {
        match self {
            Self::English | Self::Spanish => n == 1,
            Self::French => n == 0 || n == 1,
        }
    }

    /// What stands between whole and part of a number. Unicode CLDR 45, symbols: a comma in `fr` and `fr-CA`; a
    /// point in `es-US`, `es-MX` and `es-419`, which is the Spanish of North America.
    pub const fn decimal_mark(self) -> char {
        match self {
            Self::English | Self::Spanish => '.',
            Self::French => ',',
        }
    }

    /// What stands between a name and its value. French sets a no-break space before a colon; before `;`, `?` and `!`
    /// the French of Quebec sets none (Office québécois de la langue française, from memory).
    pub const fn colon(self) -> &'static str {
        match self {
            Self::French => "\u{a0}: ",
            Self::English | Self::Spanish => ": ",
        }
    }

    /// A name and its value.
    pub fn named(self, name: &str, value: &str) -> String {
        [name, self.colon(), value].concat()
    }

    /// A printed number with this language's decimal mark.
    pub fn number(self, printed: String) -> String {
        match self {
            Self::French => printed.replace('.', ","),
            Self::English | Self::Spanish => printed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_browsers_tag_names_a_language() {
        assert_eq!(Language::of_tag("fr-CA"), Some(Language::French));
        assert_eq!(Language::of_tag("FR"), Some(Language::French));
        assert_eq!(Language::of_tag("en-US"), Some(Language::English));
        assert_eq!(Language::of_tag("de"), None);
        assert_eq!(Language::of_tag(""), None);
        for language in Language::ALL {
            assert_eq!(Language::of_tag(language.code()), Some(language));
        }
    }

    #[test]
    fn a_name_and_its_value_are_joined_as_the_language_joins_them() {
        let said = Language::ALL.map(|language| language.named("Age", "2"));
        assert_eq!(said, ["Age: 2", "Age\u{a0}: 2", "Age: 2"]);
    }

    #[test]
    fn a_number_has_the_mark_of_its_language() {
        let said = Language::ALL.map(|language| language.number("0.45".to_owned()));
        assert_eq!(said, ["0.45", "0,45", "0.45"]);
    }
}
