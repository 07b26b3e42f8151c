//! The content security policy that goes into a page.
//!
//! A static host sends no headers of ours, so the policy is a `<meta>`. Inline scripts are allowed by
//! the digest of their text (CSP Level 3, section 2.3.1); a nonce fixed at build time would be no
//! protection at all.

use std::path::Path;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

use super::StampError;

/// `page` with the policy right after `<head>`, before anything that it has to govern.
pub(super) fn with_policy(path: &Path, page: &str) -> Result<String, StampError> {
    if page.contains("Content-Security-Policy") {
        return Err(StampError::AlreadyStamped { path: path.to_owned() });
    }
    let Some((before, after)) = page.split_once("<head>") else {
        return Err(StampError::NoHead { path: path.to_owned() });
    };
    let policy = policy_for(&inline_scripts(page));
    Ok(format!("{before}<head>\n<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">{after}"))
}

fn policy_for(scripts: &[&str]) -> String {
    use std::fmt::Write;
    let mut script_src = String::from("'self' 'wasm-unsafe-eval'");
    for script in scripts {
        let digest = STANDARD.encode(Sha256::digest(script.as_bytes()));
        // Writing to a string cannot fail.
        let _ = write!(script_src, " 'sha256-{digest}'");
    }
    format!(
        "default-src 'none'; script-src {script_src}; style-src 'self'; img-src 'self' blob: data:; \
         connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'"
    )
}

/// The text of every script that is written in the page itself. Trunk's output is regular enough for
/// this; a script that it missed would be blocked, which the browser tests see.
fn inline_scripts(page: &str) -> Vec<&str> {
    let mut scripts = Vec::new();
    let mut rest = page;
    while let Some((_, from_tag)) = rest.split_once("<script") {
        let Some((attributes, from_text)) = from_tag.split_once('>') else {
            break;
        };
        let Some((text, after)) = from_text.split_once("</script>") else {
            break;
        };
        if !attributes.split_ascii_whitespace().any(|word| word.starts_with("src=")) {
            scripts.push(text);
        }
        rest = after;
    }
    scripts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digest_is_the_one_of_the_standard() {
        // The CSP standard's own example of a hash source, recomputed with `openssl dgst -sha256 -binary`.
        let page = "<head></head><script>alert('Hello, world.');</script>";
        let stamped = with_policy(Path::new("x.html"), page).unwrap();
        assert!(stamped.contains("'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"));
    }

    #[test]
    fn only_scripts_in_the_page_are_listed_each_by_its_own_text() {
        let page = "<script src=\"a.js\"></script><script type=\"module\">\none\n</script><script>two</script>";
        assert_eq!(inline_scripts(page), ["\none\n", "two"]);
    }

    #[test]
    fn policy_comes_before_what_it_governs_and_forbids_the_rest() {
        let page = "<html><head><script>a</script></head></html>";
        let stamped = with_policy(Path::new("x.html"), page).unwrap();
        assert!(stamped.find("Content-Security-Policy") < stamped.find("<script>"));
        assert!(stamped.contains("default-src 'none'"));
        assert!(!stamped.contains("unsafe-inline") && !stamped.contains("'unsafe-eval'"));
    }
}
