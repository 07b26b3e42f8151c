//! Comments are for who reads the source: phones load styles and scripts without them.

use std::path::Path;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use sha2::{Digest, Sha384};

use super::{StampError, files, read_text, write};

/// Takes comments out of styles and scripts; a page that names a file with its digest gets the new digest.
pub(super) fn lean(folder: &Path) -> Result<(), StampError> {
    let names = files::names_in(folder)?;
    let is = |name: &str, end: &str| Path::new(name).extension().is_some_and(|own| own == end);
    let mut digests = Vec::new();
    for name in &names {
        let take = match name {
            name if is(name, "css") => style,
            name if is(name, "js") && name != super::TEMPLATE => script,
            _ => continue,
        };
        let path = folder.join(name);
        let before = read_text(&path)?;
        let after = take(&before);
        digests.push((digest(&before), digest(&after)));
        write(&path, &after)?;
    }
    for name in names.iter().filter(|name| is(name, "html")) {
        let path = folder.join(name);
        let page = read_text(&path)?;
        write(&path, &digests.iter().fold(page, |page, (before, after)| page.replace(before, after)))?;
    }
    Ok(())
}

/// As Subresource Integrity writes it.
fn digest(text: &str) -> String {
    format!("sha384-{}", BASE64_STANDARD.encode(Sha384::digest(text.as_bytes())))
}

/// A style without what stands between `/*` and `*/`. No string of ours holds either.
fn style(text: &str) -> String {
    let mut rest = text;
    let mut kept = String::new();
    while let Some((before, after)) = rest.split_once("/*") {
        kept.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    lines(&kept, |_| true)
}

/// A script without the lines that are comments from their first sign on. Where a text in backticks runs over several
/// lines, such a line may be part of it: then all stays.
pub(super) fn script(text: &str) -> String {
    if text.lines().any(|line| line.matches('`').count() % 2 == 1) {
        return text.to_owned();
    }
    let mut within = false;
    lines(text, |line| {
        within |= line.starts_with("/**");
        let kept = !within && !line.starts_with("//");
        within &= !line.ends_with("*/");
        kept
    })
}

/// The lines that say something, without the room before them.
fn lines(text: &str, mut keep: impl FnMut(&str) -> bool) -> String {
    let said = text.lines().map(str::trim).filter(|line| !line.is_empty() && keep(line));
    said.flat_map(|line| [line, "\n"]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn styles_and_scripts_say_the_same_without_comments() {
        assert_eq!(
            style("/* a\n b */\np { color: red; } /* c */\n\nq { top: 0; }"),
            "p { color: red; }\nq { top: 0; }\n"
        );
        assert_eq!(style("p {} /* never closed"), "p {}\n");
        assert_eq!(script("/**\n * of a tool\n */\nget a() {\n  /** one line */\n}\n"), "get a() {\n}\n");
        let spans = "const a = `one\n// no comment\n`;\n";
        assert_eq!(script(spans), spans);
        let of_ours = "// why\nconst at = \"https://a\"; // stays\n  // gone\n  act();\n";
        assert_eq!(script(of_ours), "const at = \"https://a\"; // stays\nact();\n");
    }

    #[test]
    fn a_digest_is_written_as_pages_name_it() {
        // FIPS 180-4, SHA-384 of "abc" (cb00753f...), in base64 as W3C Subresource Integrity writes it.
        let of_abc = "sha384-ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn";
        assert_eq!(digest("abc"), of_abc);
    }
}
