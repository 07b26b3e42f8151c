//! `office open`: check files that were handed in.

use super::config::Open;
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::streams::Streams;
use crate::office::opening::{Judged, Outcome, is_picture, judge, judge_unread};
use crate::office::report::{report, summary};
use crate::record::{Digest, Photo};
use crate::words::{Language, say};
use serde::Serialize;
use std::collections::BTreeMap;

/// One file after the first look: bytes are dropped as soon as they have been judged.
struct Seen {
    file: String,
    what: What,
}

enum What {
    Photo(Digest),
    Judged(Box<Judged>),
    Unread(CliError),
}

/// Judges every file; the worst decides the exit code.
pub(super) fn run(config: &Open, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let keyring = config.archive.keyring()?;
    let mut all = Vec::new();
    for path in &config.files {
        let what = match input::read(path, streams) {
            Err(error) => What::Unread(error),
            Ok(Err(too_large)) => What::Judged(Box::new(judge_unread(&too_large))),
            Ok(Ok(bytes)) if is_picture(&bytes) => What::Photo(Digest::of(&[&bytes])),
            Ok(Ok(bytes)) => {
                let judged = judge(&bytes, &keyring);
                if config.keep && judged.outcome() != Outcome::Damaged {
                    config.archive.keep(&bytes)?;
                }
                What::Judged(Box::new(judged))
            }
        };
        all.push(Seen { file: input::name(path), what });
    }
    let photos = photos(&all);
    let mut exit = Exit::Done;
    for seen in &all {
        exit = exit.max(tell(seen, &photos, config.json, streams)?);
    }
    Ok(exit)
}

/// The photos that came along, each with the file that names it, where one does.
fn photos(all: &[Seen]) -> BTreeMap<Digest, Option<String>> {
    let named = |digest: Digest| {
        all.iter().find_map(|seen| match &seen.what {
            What::Judged(judged) => {
                let photos = judged.contents.iter().flat_map(|contents| &contents.payload.photos);
                photos.into_iter().any(|photo| photo.sha256 == digest).then(|| seen.file.clone())
            }
            _ => None,
        })
    };
    let pictures = all.iter().filter_map(|seen| match seen.what {
        What::Photo(digest) => Some(digest),
        _ => None,
    });
    pictures.map(|digest| (digest, named(digest))).collect()
}

fn tell(
    seen: &Seen,
    photos: &BTreeMap<Digest, Option<String>>,
    json: bool,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    match &seen.what {
        What::Unread(error) => Ok(streams.fail(error)),
        What::Photo(digest) => tell_photo(seen, photos.get(digest).and_then(Option::as_ref), json, streams),
        What::Judged(judged) => {
            let received = |photo: &Photo| photos.contains_key(&photo.sha256);
            if json {
                let line = Line { file: &seen.file, judgement: summary(judged) };
                streams.line(&serde_json::to_string(&line).map_err(|error| CliError::Output(error.into()))?)?;
            } else {
                let report = report(judged, Language::English, &received);
                streams.line(&format!("{}: {}", seen.file, report.outcome))?;
                for line in &report.about {
                    streams.line(&format!("  {line}"))?;
                }
                if let Some(next) = &report.next {
                    streams.line(&format!("  next: {next}"))?;
                }
            }
            Ok(judged.worst().into())
        }
    }
}

fn tell_photo(seen: &Seen, named: Option<&String>, json: bool, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    if json {
        let line = serde_json::json!({ "file": seen.file, "photo": true, "named_in": named });
        streams.line(&line.to_string())?;
    } else {
        let line = match named {
            Some(bundle) => say(Language::English, "office.open.photo", &[("bundle", bundle.as_str().into())]),
            None => say(Language::English, "office.open.photo_stray", &[]),
        };
        streams.line(&format!("{}: {line}", seen.file))?;
    }
    Ok(if named.is_some() { Exit::Done } else { Exit::Damaged })
}

#[derive(Serialize)]
struct Line<'a> {
    file: &'a str,
    #[serde(flatten)]
    judgement: crate::office::report::Summary,
}
