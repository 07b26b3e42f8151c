//! Work of the page that takes long. What goes in and what comes out are a text and files, so that it can be done in
//! another place than the page, which answers taps meanwhile.

use serde::{Deserialize, Serialize};

use super::archive::Archive;
use super::export::held::exported;
use super::files::HeldFiles;
use super::keyring::Keyring;
use super::season::shown::Shown;
use super::season::{season_streamed, written};
use super::streamed::store::InMemory;
use super::streamed::{Bounds, Streamed};
use super::zipped::{Tree, pack};
use super::{export, season};

/// The file that an export comes to.
pub const EXPORT: &str = "export.zip";

/// What is to be done, with an archive's files beside it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Errand {
    /// Which.
    pub what: What,
    /// The devices that count.
    pub keyring: Keyring,
}

/// What can be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum What {
    /// A season: its files come with it.
    Season(season::Asked),
    /// An export: [`EXPORT`] comes with it.
    Export(export::Asked),
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Came {
    /// A season.
    Season(Box<Shown>),
    /// An export.
    Export(export::Written),
}

impl Errand {
    /// Does it.
    ///
    /// # Errors
    /// Why nothing came of it, in words.
    pub fn run(&self, archive: Tree) -> Result<(Came, Tree), String> {
        let archive = Archive::held(&HeldFiles::of(archive));
        let mut store = InMemory::default();
        let streamed = Streamed::cut(&archive, &self.keyring, None, &mut store, Bounds::default());
        let streamed = streamed.map_err(|error| error.to_string())?;
        match self.what {
            What::Season(asked) => {
                let found = season_streamed(&streamed, &asked).map_err(|error| error.to_string())?;
                let (files, manifest) = written::unsigned(&streamed.files, &self.keyring, asked, &found)?;
                let files = files.into_iter().map(|(name, bytes)| (name, bytes.into())).collect();
                Ok((Came::Season(Box::new(Shown::of(&found, manifest))), files))
            }
            What::Export(asked) => {
                let (files, written) = exported(&streamed, &asked).map_err(|error| error.to_string())?;
                let zip = pack(&files).map_err(|error| error.to_string())?;
                Ok((Came::Export(written), [(EXPORT.to_owned(), zip.into())].into()))
            }
        }
    }

    /// The same between texts, as they go from one place to another: an errand, and what [`answered`] reads.
    pub fn run_told(text: &str, archive: Tree) -> (String, Tree) {
        let done = serde_json::from_str::<Self>(text).map_err(|error| error.to_string());
        let (came, files) = match done.and_then(|errand| errand.run(archive)) {
            Ok((came, files)) => (Ok(came), files),
            Err(why) => (Err(why), Tree::new()),
        };
        // Nothing in it can fail to be written; should it, what is read of it says so.
        (serde_json::to_string(&came).unwrap_or_default(), files)
    }

    /// As a text for [`Self::run_told`].
    ///
    /// # Errors
    /// It cannot be written, in words.
    pub fn told(&self) -> Result<String, String> {
        serde_json::to_string(self).map_err(|error| error.to_string())
    }
}

/// What [`Errand::run_told`] told.
///
/// # Errors
/// Why nothing came of it, in words.
pub fn answered(text: &str) -> Result<Came, String> {
    serde_json::from_str::<Result<Came, String>>(text).map_err(|error| error.to_string())?
}
