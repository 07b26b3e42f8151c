//! `office open`: check files that were handed in.

use super::config::Open;
use super::error::CliError;
use super::exit::Exit;
use super::handed_in;
use super::input;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::keyring::Keyring;
use crate::office::opening::{Judged, Outcome, is_picture, judge, judge_unread};
use crate::office::photos::named;
use crate::office::report::{report, summary};
use crate::record::{Digest, Photo};
use crate::words::{Language, say_office};
use serde::Serialize;
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

/// One file after the first look: bytes are dropped as soon as they have been judged.
struct Seen {
    path: PathBuf,
    file: String,
    what: What,
}

enum What {
    Photo(Digest),
    Judged(Box<Judged>),
    Unread(CliError),
}

/// The photos at hand: those handed in now, each with the file that names it, where one does; and those that the
/// archive keeps.
struct Photos {
    here: BTreeMap<Digest, Option<String>>,
    kept: BTreeMap<Digest, PathBuf>,
}

impl Photos {
    fn has(&self, photo: &Photo) -> bool {
        self.here.contains_key(&photo.sha256) || self.kept.contains_key(&photo.sha256)
    }
}

/// Judges every file; the worst decides the exit code.
pub(super) fn run(config: &Open, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let keyring = config.archive.keyring()?;
    let mut all = Vec::new();
    let mut passed_over = Vec::new();
    for handed in handed_in::all(&config.files)? {
        let path = handed.path;
        let what = match input::read(&path, streams) {
            Err(error) => What::Unread(error),
            Ok(Err(_)) if handed.found => {
                passed_over.push(input::name(&path));
                continue;
            }
            Ok(Err(too_large)) => What::Judged(Box::new(judge_unread(&too_large))),
            Ok(Ok(bytes)) if handed.found && !handed_in::is_ours(&path, &bytes) => {
                passed_over.push(input::name(&path));
                continue;
            }
            Ok(Ok(bytes)) if is_picture(&bytes) => What::Photo(Digest::of(&[&bytes])),
            Ok(Ok(bytes)) => {
                let judged = judge(&bytes, &keyring);
                if config.keep && judged.outcome() != Outcome::Damaged {
                    config.archive.keep(&bytes)?;
                }
                What::Judged(Box::new(judged))
            }
        };
        all.push(Seen { file: input::name(&path), path, what });
    }
    let photos = photos(&all, &config.archive, &keyring)?;
    if config.keep {
        keep_photos(&all, &photos, &config.archive)?;
    }
    let mut exit = Exit::Done;
    for seen in &all {
        exit = exit.max(tell(seen, &photos, config.json, streams)?);
    }
    for file in passed_over {
        streams.note(&say_office(Language::English, "office.open.passed_over", &[("file", file.into())]));
    }
    Ok(exit)
}

fn photos(all: &[Seen], archive: &Archive, keyring: &Keyring) -> Result<Photos, CliError> {
    let mut names: BTreeMap<Digest, String> = BTreeMap::new();
    for seen in all {
        if let What::Judged(judged) = &seen.what {
            for photo in named(judged) {
                names.entry(photo.sha256).or_insert_with(|| seen.file.clone());
            }
        }
    }
    let pictures: Vec<Digest> = all
        .iter()
        .filter_map(|seen| match seen.what {
            What::Photo(digest) => Some(digest),
            _ => None,
        })
        .collect();
    // A photo may come after the bundle that names it, which is in the archive then.
    if pictures.iter().any(|digest| !names.contains_key(digest)) {
        for path in archive.received()? {
            let Ok(bytes) = fs::read(&path) else { continue };
            for photo in named(&judge(&bytes, keyring)) {
                names.entry(photo.sha256).or_insert_with(|| input::name(&path));
            }
        }
    }
    let here = pictures.into_iter().map(|digest| (digest, names.get(&digest).cloned())).collect();
    Ok(Photos { here, kept: archive.photos()? })
}

/// Keeps the photos that a signed file names; the others are nobody's.
fn keep_photos(all: &[Seen], photos: &Photos, archive: &Archive) -> Result<(), CliError> {
    for seen in all {
        let What::Photo(digest) = seen.what else { continue };
        if !matches!(photos.here.get(&digest), Some(Some(_))) {
            continue;
        }
        let bytes = fs::read(&seen.path).map_err(|error| CliError::File { file: seen.file.clone(), error })?;
        // The file may have been changed since it was looked at.
        if Digest::of(&[&bytes]) == digest {
            archive.keep_photo(&bytes)?;
        }
    }
    Ok(())
}

fn tell(seen: &Seen, photos: &Photos, json: bool, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    match &seen.what {
        What::Unread(error) => Ok(streams.fail(error)),
        What::Photo(digest) => tell_photo(seen, photos.here.get(digest).and_then(Option::as_ref), json, streams),
        What::Judged(judged) => {
            let received = |photo: &Photo| photos.has(photo);
            if json {
                let line = Line { file: &seen.file, judgement: summary(judged, &received) };
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
            Some(bundle) => say_office(Language::English, "office.open.photo", &[("bundle", bundle.as_str().into())]),
            None => say_office(Language::English, "office.open.photo_stray", &[]),
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
