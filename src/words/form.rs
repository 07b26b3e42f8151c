//! Putting values into a message.

use super::Language;

/// A value for a message.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// A whole number; decides between one and many.
    Count(i64),
    /// Words or an already printed number.
    Text(String),
}

impl From<&str> for Arg {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<String> for Arg {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<i64> for Arg {
    fn from(count: i64) -> Self {
        Self::Count(count)
    }
}

/// Fill `{name}` and `{name?one|many}`. A name without a value stays as it stands.
pub fn fill(language: Language, text: &str, args: &[(&str, Arg)]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let Some((inside, tail)) = after.split_once('}') else {
            out.push('{');
            rest = after;
            continue;
        };
        let (name, forms) = inside.split_once('?').map_or((inside, None), |(n, f)| (n, Some(f)));
        match (args.iter().find(|(n, _)| *n == name).map(|(_, v)| v), forms) {
            (Some(Arg::Count(n)), Some(forms)) => out.push_str(plural(language, *n, forms)),
            (Some(Arg::Count(n)), None) => out.push_str(&n.to_string()),
            (Some(Arg::Text(t)), _) => out.push_str(t),
            (None, _) => {
                out.push('{');
                out.push_str(inside);
                out.push('}');
            }
        }
        rest = tail;
    }
    out.push_str(rest);
    out
}

fn plural(language: Language, n: i64, forms: &str) -> &str {
    let (one, many) = forms.split_once('|').unwrap_or((forms, forms));
    if language.takes_one(n) { one } else { many }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fills_names_and_plurals() {
        let one = [("n", Arg::Count(1)), ("who", Arg::from("K7"))];
        assert_eq!(fill(Language::English, "{who}: {n} {n?tooth|teeth}", &one), "K7: 1 tooth");
        assert_eq!(fill(Language::English, "{n} {n?tooth|teeth}", &[("n", Arg::Count(6))]), "6 teeth");
        assert_eq!(fill(Language::English, "a {gap} {", &[]), "a {gap} {");
    }
}
