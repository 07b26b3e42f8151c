//! Season and export are worked out beside the page, where the browser can; else by the page itself.

use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, tell};
use crate::office::errand::{Came, Errand, What, answered};
use crate::office::zipped::Tree;
use crate::web::platform::PlatformError;
use crate::web::platform::aside::{Aside, Blobs, bytes, serve};
use crate::web::platform::clock::pause_ms;
use crate::web::platform::download::{download, offer};
use crate::web::platform::file::OutFile;

/// Where it is being worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Works {
    #[default]
    Nowhere,
    Beside,
    /// No tap is answered until it is done.
    OnThePage,
}

impl Works {
    /// What is said meanwhile, after what is being done.
    pub(super) fn told(self, doing: &str) -> Option<String> {
        match self {
            Self::Nowhere => None,
            Self::Beside => Some(tell(doing)),
            Self::OnThePage => Some(format!("{} {}", tell(doing), tell("desk.on_the_page"))),
        }
    }
}

/// What was made, and where it lies.
pub(super) enum Made {
    Beside(Blobs),
    OnThePage(Tree),
}

impl Made {
    /// Hands one of them to the browser, to be saved.
    pub(super) fn hand_out(&self, name: &str) -> Result<(), PlatformError> {
        let none = PlatformError::NotHere("the file that was made");
        match self {
            Self::Beside(blobs) => offer(name, blobs.get(name).ok_or(none)?),
            Self::OnThePage(files) => {
                let bytes = files.get(name).ok_or(none)?.to_vec();
                download(&OutFile { name: name.to_owned(), media: "application/octet-stream".to_owned(), bytes })
            }
        }
    }

    /// All of them as bytes.
    pub(super) async fn files(self) -> Result<Tree, PlatformError> {
        let blobs = match self {
            Self::Beside(blobs) => blobs,
            Self::OnThePage(files) => return Ok(files),
        };
        let mut files = BTreeMap::new();
        for (name, blob) in blobs {
            files.insert(name, Arc::from(bytes(&blob).await?));
        }
        Ok(files)
    }
}

/// In the thread beside the page: does what the page asks for.
pub(crate) fn is_beside() -> bool {
    serve(Errand::run_told)
}

/// Works it out from the archive as it is now. `None` where the page has gone.
pub(super) async fn run(desk: Desk, what: What, works: RwSignal<Works>) -> Option<Result<(Came, Made), String>> {
    works.try_set(Works::Beside);
    let of = desk.hand.try_with_untracked(|hand| (Errand { what, keyring: hand.keyring.clone() }, hand.held().all()));
    let (errand, files) = of?;
    let done = if let Ok(aside) = Aside::start().await {
        beside(aside, &errand, &files).await
    } else {
        works.try_set(Works::OnThePage);
        // So that the page says so before it is busy.
        pause_ms(60).await;
        errand.run(files).map(|(came, files)| (came, Made::OnThePage(files)))
    };
    works.try_set(Works::Nowhere);
    Some(done)
}

async fn beside(aside: Aside, errand: &Errand, files: &Tree) -> Result<(Came, Made), String> {
    let (text, blobs) = aside.ask(&errand.told()?, files).await.map_err(|error| error.to_string())?;
    Ok((answered(&text)?, Made::Beside(blobs)))
}
