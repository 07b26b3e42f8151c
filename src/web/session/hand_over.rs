//! Making the bundle from this phone's own chain.

use uuid::Uuid;

use crate::bundle::key::DeviceKey;
use crate::bundle::making::{Cover, Extras, make};
use crate::bundle::payload::{FourVersions, PhoneReading};
use crate::guide::{PROTOCOL, cause_may_be_shown};
use crate::reading::{self, Given};
use crate::record::{Act, Carcass, DeviceId, ENTRY_SCHEMA, Entry, Head, Moment, Photo, REPORT_CALL_BACK, short_code};

use super::{HeldCard, Session, Source};
use crate::web::settings::Settings;

/// A bundle ready to leave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Made {
    /// Its id.
    pub(crate) id: Uuid,
    /// The signed text: one line of ASCII.
    pub(crate) text: String,
    /// A name for the file.
    pub(crate) file: String,
    /// The device that signed.
    pub(crate) device: DeviceId,
    /// Number of the last entry in it.
    pub(crate) through: u64,
    /// Entries in it.
    pub(crate) entries: usize,
    /// Photos that it names.
    pub(crate) photos: Vec<Photo>,
}

impl Session {
    /// Make a bundle of everything on this phone. Exposure notes and who may be called back
    /// stay here unless the person agreed.
    ///
    /// # Errors
    /// Why there is none, as a sentence.
    pub(crate) fn make_bundle(
        &self,
        settings: &Settings,
        with_notes: bool,
        from: &impl Source,
    ) -> Result<Made, String> {
        let seed =
            self.seed.as_ref().ok_or_else(|| "this page only shows; hand over from the one that writes".to_owned())?;
        let key = DeviceKey::from_seed(&seed.0);
        let mut runs = self.runs(with_notes);
        let own = runs.iter().rposition(|run| run.first().is_some_and(|e| e.header.device == self.device));
        let range = own.map(|place| runs.remove(place)).unwrap_or_default();
        let when = from.when();
        let id = from.id();
        let cover = Cover {
            bundle: id,
            made_at: when.at,
            zone: when.zone,
            app: env!("CARGO_PKG_VERSION").to_owned(),
            versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: PROTOCOL, science: science() },
            label: settings.label.clone(),
            crew: (!settings.crew.is_empty()).then(|| settings.crew.clone()),
            card: self.card.as_ref().map(|held| held.digest),
        };
        let entries = range.len() + runs.iter().map(Vec::len).sum::<usize>();
        let through = range.last().map(|e| e.header.seq).unwrap_or_default();
        let fold = self.bodies.fold_all();
        let photos = self.photos_to_go();
        let logs = reading::winter_log::logs(&fold);
        let given = HeldCard::given(self.card.as_ref()).with(&fold, &logs);
        let read = |c: &Carcass| {
            let given = Given { without_cause: !cause_may_be_shown(c), ..given };
            reading::all(c, &given).to_hand_over().ok()
        };
        let readings = fold.carcasses.values().filter_map(|c| read(c).map(|text| PhoneReading { carcass: c.id, text }));
        let extras =
            Extras { adopted: runs, photos: photos.clone(), readings: readings.collect(), ..Extras::default() };
        let text = make(cover, &range, extras, &key).map_err(|error| error.to_string())?;
        let file = file_name(when.at, id);
        Ok(Made { id, text, file, device: self.device, through, entries, photos })
    }

    /// Whether an exposure note or somebody to call back is among the entries.
    pub(crate) fn has_private_notes(&self) -> bool {
        self.bodies.all().iter().any(|(_, body)| is_private(&body.act))
    }

    /// All entries as unbroken runs: a gap, a fork or a lost key begins a new one.
    fn runs(&self, with_notes: bool) -> Vec<Vec<Entry>> {
        let mut runs: Vec<Vec<Entry>> = Vec::new();
        for entry in self.journal.entries() {
            let private = !with_notes && matches!(entry.body(), Ok(Some(body)) if is_private(&body.act));
            let entry = if private { entry.withhold() } else { entry.clone() };
            let follows = runs.last().and_then(|run| run.last()).is_some_and(|last| {
                let head = Head::after(last);
                entry.header.device == head.device
                    && entry.header.seq == head.seq + 1
                    && entry.header.prev == head.digest
            });
            match runs.last_mut() {
                Some(run) if follows => run.push(entry),
                _ => runs.push(vec![entry]),
            }
        }
        runs
    }
}

/// What a bundle's file is called.
pub(super) fn file_name(at: Moment, bundle: Uuid) -> String {
    let (year, month, day) = at.date();
    format!("marrowbook-{year:04}-{month:02}-{day:02}-{}.txt", short_code::short_code(bundle).to_ascii_lowercase())
}

/// Version of the methods behind the readings, as a number.
fn science() -> u32 {
    crate::science::VERSION.parse().unwrap_or_default()
}

fn is_private(act: &Act) -> bool {
    matches!(act, Act::Answer { key, .. } if matches!(key.finding.as_str(), "exposure_note" | REPORT_CALL_BACK))
}
