//! The devices that the office has enrolled, with the dates on which they were retired.
//!
//! A retired device stays on the ring: what it handed over before keeps its standing.

use super::own_chain::LABEL;
use super::plain::{hides, steers};
use crate::bundle::Fingerprint;
use crate::record::{Deciders, DeviceId, Moment, read_strict};
use serde::{Deserialize, Serialize};

/// The version of the keyring's form.
const FORMAT: u32 = 1;

/// The most characters of a device's name.
const NAME_CHARS: usize = 40;

/// Words of its fingerprint by which another office's key is named, where nobody named it.
const WORDS_OF_OFFICE: usize = 2;

/// One enrolled device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Enrolment {
    /// What the office calls the device.
    pub label: String,
    /// The fingerprint that was compared.
    pub fingerprint: Fingerprint,
    /// The whole device id, where the office had it (from a file or a QR code) and not only the words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub device: Option<DeviceId>,
    /// When it was enrolled.
    pub enrolled_at: Moment,
    /// When it was retired: lost, stolen, given back. Bundles made later are not taken as its own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired_at: Option<Moment>,
}

/// Whether what a device decides counts, by the name that the office gave it: the office's own key, or that of another
/// office whose archive was put together with this one's, enrolled as `the office of` and its name.
pub fn decides(label: &str) -> bool {
    label == LABEL || label.strip_prefix(LABEL).is_some_and(|rest| rest.starts_with(" of "))
}

/// All devices that were ever enrolled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Keyring {
    /// Version of this form: 1.
    #[cfg_attr(feature = "cli", schemars(extend("const" = 1)))]
    format: u32,
    /// In order of enrolment.
    devices: Vec<Enrolment>,
}

impl Default for Keyring {
    fn default() -> Self {
        Self { format: FORMAT, devices: Vec::new() }
    }
}

/// What the ring says of a device at a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing<'a> {
    /// Enrolled, and not retired by then.
    Enrolled(&'a Enrolment),
    /// Enrolled, and retired before then.
    Retired(&'a Enrolment),
    /// Not on the ring.
    Unknown,
}

/// Why the ring was not changed or not read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KeyringError {
    /// The device is on the ring already.
    #[error("this device is enrolled already, as \"{0}\"")]
    Already(String),
    /// Another device in use has that name.
    #[error("the name \"{0}\" belongs to another device in use")]
    NameTaken(String),
    /// No name, or a long one.
    #[error("a device's name has 1 to {NAME_CHARS} characters on one line")]
    Name,
    /// A mark that is not seen, or that makes a name look like another.
    #[error(
        "a device's name holds no mark that cannot be seen or that turns the direction of writing (U+{:04X} is one): it \
         would read as another name",
        u32::from(*.0)
    )]
    NameMark(char),
    /// The office's own key bears another name.
    #[error("the office's own key is on the keyring as \"{0}\", a name under which its decisions count for nothing")]
    OfficeElsewhere(String),
    /// The office's own name.
    #[error("\"{LABEL}\" is the name of the office's own key, whose decisions count; a phone takes another")]
    OfficeName,
    /// The key that signs this very archive.
    #[error(
        "this is the office's own key: its decisions, results and marks since then would stop counting; where it was lost \
         or others may know it, make another office key first"
    )]
    OwnKey,
    /// A day that has not come.
    #[error("{0} has not come yet: choose today or a day before")]
    NotYet(Moment),
    /// No device in use has that name.
    #[error("no device in use is called \"{0}\"")]
    NoSuchDevice(String),
    /// The text is no keyring.
    #[error("the keyring cannot be read: {0}")]
    Form(String),
    /// A later form.
    #[error("the keyring is of form {0}; this program reads up to form {FORMAT}")]
    Newer(u32),
}

impl Keyring {
    /// Reads a ring from its text.
    ///
    /// # Errors
    /// Not strict JSON of the ring's form, or a later form.
    pub fn read(text: &str) -> Result<Self, KeyringError> {
        #[derive(Deserialize)]
        struct Form {
            format: u32,
        }
        let form = |error: crate::record::JsonError| KeyringError::Form(error.reason);
        let Form { format } = read_strict(text).map_err(form)?;
        if format > FORMAT {
            return Err(KeyringError::Newer(format));
        }
        read_strict(text).map_err(form)
    }

    /// Writes the ring as text that a person can read.
    ///
    /// # Errors
    /// Never in practice: the ring holds only text and small numbers.
    pub fn write(&self) -> Result<String, KeyringError> {
        let text = serde_json::to_string_pretty(self).map_err(|error| KeyringError::Form(error.to_string()))?;
        Ok(text + "\n")
    }

    /// Every device that was ever enrolled, in order of enrolment.
    pub fn devices(&self) -> &[Enrolment] {
        &self.devices
    }

    /// Enrols a crew's device: as [`Self::enrol`], but never under the name of the office's own key.
    ///
    /// # Errors
    /// As there, or the name is the office's.
    pub fn enrol_phone(
        &mut self,
        label: &str,
        fingerprint: Fingerprint,
        device: Option<DeviceId>,
        at: Moment,
    ) -> Result<&Enrolment, KeyringError> {
        let is_office = label.split_whitespace().map(str::to_lowercase).eq(LABEL.split(' '));
        if is_office { Err(KeyringError::OfficeName) } else { self.enrol(label, fingerprint, device, at) }
    }

    /// Enrols the office's own key; true where it was not on the ring. Nobody need compare words, since it is unlocked.
    ///
    /// # Errors
    /// Another device in use is called the office, or the key is on the ring under a name that does not decide.
    pub fn enrol_office(&mut self, device: DeviceId, at: Moment) -> Result<bool, KeyringError> {
        match self.enrol(LABEL, Fingerprint::of(device), Some(device), at) {
            Ok(_) => Ok(true),
            Err(KeyringError::Already(name)) if decides(&name) => Ok(false),
            Err(KeyringError::Already(name)) => Err(KeyringError::OfficeElsewhere(name)),
            Err(error) => Err(error),
        }
    }

    /// Enrols a device. A retired one may be enrolled again, under a fresh entry.
    ///
    /// # Errors
    /// It is in use already, or the name is taken or unfit.
    pub fn enrol(
        &mut self,
        label: &str,
        fingerprint: Fingerprint,
        device: Option<DeviceId>,
        at: Moment,
    ) -> Result<&Enrolment, KeyringError> {
        let label = named(label)?;
        if let Some(known) = self.in_use().find(|known| known.fingerprint == fingerprint) {
            return Err(KeyringError::Already(known.label.clone()));
        }
        if self.in_use().any(|known| known.label == label) {
            return Err(KeyringError::NameTaken(label.to_owned()));
        }
        let enrolment = Enrolment { label: label.to_owned(), fingerprint, device, enrolled_at: at, retired_at: None };
        Ok(self.devices.push_mut(enrolment))
    }

    /// Takes in all devices of another ring that are not on this one, as they stand there, the retired ones too. What is
    /// called the office there and is not `own` becomes the office of its words: its decisions count on.
    ///
    /// # Errors
    /// A name is unfit, or belongs to another device in use. Nothing is taken in then.
    pub fn take_over(&mut self, other: &Self, own: DeviceId) -> Result<(), KeyringError> {
        let mut all = self.clone();
        for one in &other.devices {
            let mut one = Enrolment { label: named(&one.label)?.to_owned(), ..one.clone() };
            if one.label == LABEL && one.fingerprint != Fingerprint::of(own) {
                let words = one.fingerprint.to_string();
                let first: Vec<&str> = words.split(' ').take(WORDS_OF_OFFICE).collect();
                one.label = format!("{LABEL} of {}", first.join(" "));
            }
            let in_use = one.retired_at.is_none();
            if all.devices.contains(&one) || in_use && all.in_use().any(|known| known.fingerprint == one.fingerprint) {
                continue;
            }
            if in_use && all.in_use().any(|known| known.label == one.label) {
                return Err(KeyringError::NameTaken(one.label));
            }
            all.devices.push(one);
        }
        *self = all;
        Ok(())
    }

    /// Retires the device of that name from a time on, unless it is the office's `own` key, and says what was retired.
    ///
    /// # Errors
    /// No device in use has that name, it is the key that signs the archive, or that time has not come.
    pub fn retire(
        &mut self,
        label: &str,
        at: Moment,
        now: Moment,
        own: Option<DeviceId>,
    ) -> Result<&Enrolment, KeyringError> {
        if at > now {
            return Err(KeyringError::NotYet(at));
        }
        let label = label.trim();
        let device = self.devices.iter_mut().find(|known| known.retired_at.is_none() && known.label == label);
        let device = device.ok_or_else(|| KeyringError::NoSuchDevice(label.to_owned()))?;
        if own.is_some_and(|own| device.fingerprint == Fingerprint::of(own)) {
            return Err(KeyringError::OwnKey);
        }
        device.retired_at = Some(at);
        Ok(device)
    }

    /// What the ring says of a device that made something at a time (by its own clock).
    ///
    /// A device enrolled after it made its first bundles is taken as enrolled for those too: it is
    /// the key that was compared, not the date.
    pub fn standing(&self, device: DeviceId, made_at: Moment) -> Standing<'_> {
        let of_device = |known: &&Enrolment| match known.device {
            Some(known) => known == device,
            None => known.fingerprint == Fingerprint::of(device),
        };
        let all: Vec<&Enrolment> = self.devices.iter().filter(of_device).collect();
        let good = all.iter().find(|known| known.retired_at.is_none_or(|retired| made_at <= retired));
        match (good, all.last()) {
            (Some(known), _) => Standing::Enrolled(known),
            (None, Some(known)) => Standing::Retired(known),
            (None, None) => Standing::Unknown,
        }
    }

    /// Whose decisions count, by the names under which devices were enrolled; and whether there is one beside them that
    /// was enrolled by its words alone.
    pub fn deciders(&self) -> (Deciders, bool) {
        let named = || self.devices.iter().filter(|known| decides(&known.label));
        (Deciders::these(named().filter_map(|known| known.device)), named().any(|known| known.device.is_none()))
    }

    fn in_use(&self) -> impl Iterator<Item = &Enrolment> {
        self.devices.iter().filter(|known| known.retired_at.is_none())
    }
}

/// A name as it goes on the ring.
fn named(label: &str) -> Result<&str, KeyringError> {
    let label = label.trim();
    if label.is_empty() || label.chars().count() > NAME_CHARS || label.chars().any(char::is_control) {
        return Err(KeyringError::Name);
    }
    match label.chars().find(|c| steers(*c) || hides(*c)) {
        Some(mark) => Err(KeyringError::NameMark(mark)),
        None => Ok(label),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::DeviceKey;

    fn id(seed: u8) -> DeviceId {
        DeviceKey::from_seed(&[seed; 32]).public().id()
    }

    fn day(day: u8) -> Moment {
        Moment::parse(&format!("2027-02-{day:02}T12:00:00-05:00")).unwrap()
    }

    fn enrol(ring: &mut Keyring, label: &str, seed: u8) -> Result<(), KeyringError> {
        ring.enrol(label, Fingerprint::of(id(seed)), Some(id(seed)), day(1)).map(|_| ())
    }

    #[test]
    fn retired_devices_keep_what_they_made_before() {
        let mut ring = Keyring::default();
        assert_eq!(ring.standing(id(1), day(2)), Standing::Unknown);
        enrol(&mut ring, "blue phone", 1).unwrap();
        assert_eq!(ring.retire("blue phone", day(11), day(10), None), Err(KeyringError::NotYet(day(11))));
        ring.retire("blue phone", day(10), day(10), None).unwrap();
        assert!(matches!(ring.standing(id(1), day(9)), Standing::Enrolled(_)));
        assert!(matches!(ring.standing(id(1), day(10)), Standing::Enrolled(_)));
        assert!(matches!(ring.standing(id(1), day(11)), Standing::Retired(_)));
        // found again and enrolled afresh, under the old name
        enrol(&mut ring, "blue phone", 1).unwrap();
        assert!(matches!(ring.standing(id(1), day(11)), Standing::Enrolled(_)));
        assert_eq!(ring.devices().len(), 2);
    }

    #[test]
    fn names_and_devices_stand_once() {
        let mut ring = Keyring::default();
        enrol(&mut ring, "  blue phone ", 1).unwrap();
        assert_eq!(enrol(&mut ring, "red phone", 1), Err(KeyringError::Already("blue phone".into())));
        assert_eq!(enrol(&mut ring, "blue phone", 2), Err(KeyringError::NameTaken("blue phone".into())));
        for name in ["", "  ", "a\nb", &"x".repeat(41)] {
            assert_eq!(enrol(&mut ring, name, 3), Err(KeyringError::Name));
        }
        // Marks of the bidirectional algorithm (Unicode Standard Annex 9, table of 2.1 to 2.6), and marks without width.
        for mark in ['\u{202e}', '\u{2066}', '\u{61c}', '\u{200f}', '\u{200b}', '\u{2060}', '\u{feff}', '\u{ad}'] {
            let said = enrol(&mut ring, &format!("blue{mark} phone"), 3);
            assert_eq!(said, Err(KeyringError::NameMark(mark)));
            let number = format!("U+{:04X}", u32::from(mark));
            assert!(said.unwrap_err().to_string().contains(&number), "the mark is named, not shown");
        }
        assert_eq!(enrol(&mut ring, "t\u{e9}l\u{e9}phone \u{5d0}\u{5d1}", 3), Ok(()), "letters of any script");
        assert_eq!(
            ring.retire("red phone", day(2), day(10), None),
            Err(KeyringError::NoSuchDevice("red phone".into()))
        );
    }

    /// What it decides would count for nothing, and nobody would know why.
    #[test]
    fn the_office_s_own_key_under_another_name_is_told() {
        let mut ring = Keyring::default();
        enrol(&mut ring, "desk", 1).unwrap();
        assert_eq!(ring.enrol_office(id(1), day(2)), Err(KeyringError::OfficeElsewhere("desk".into())));
        ring.retire("desk", day(2), day(10), None).unwrap();
        assert_eq!(ring.enrol_office(id(1), day(2)), Ok(true));
        assert_eq!(ring.enrol_office(id(1), day(3)), Ok(false));
    }

    #[test]
    fn another_ring_is_taken_in_whole_or_not_at_all() {
        let mut theirs = Keyring::default();
        enrol(&mut theirs, LABEL, 5).unwrap();
        enrol(&mut theirs, "blue phone", 1).unwrap();
        enrol(&mut theirs, "red phone", 2).unwrap();
        theirs.retire("red phone", day(3), day(10), None).unwrap();
        let mut ours = Keyring::default();
        ours.enrol_office(id(6), day(1)).unwrap();
        ours.take_over(&theirs, id(6)).unwrap();
        assert!(matches!(ours.standing(id(1), day(9)), Standing::Enrolled(_)));
        assert!(matches!(ours.standing(id(2), day(2)), Standing::Enrolled(_)));
        assert!(matches!(ours.standing(id(2), day(4)), Standing::Retired(_)));
        let Standing::Enrolled(office) = ours.standing(id(5), day(4)) else { panic!() };
        assert!(decides(&office.label) && office.label != LABEL, "{}", office.label);
        assert_eq!(ours.enrol_office(id(6), day(2)), Ok(false), "its own name stays its own");
        let once = ours.clone();
        ours.take_over(&theirs, id(6)).unwrap();
        assert_eq!(ours, once, "twice is once");
        // The same key's own ring: nothing is renamed.
        let mut anew = Keyring::default();
        anew.take_over(&theirs, id(5)).unwrap();
        assert_eq!(anew, theirs);
        for (label, seed, why) in [
            ("blue phone", 7, KeyringError::NameTaken("blue phone".into())),
            ("blue\u{202e} phone", 8, KeyringError::NameMark('\u{202e}')),
        ] {
            let mut bad = Keyring::default();
            enrol(&mut bad, "green phone", 3).unwrap();
            enrol(&mut bad, "x", seed).unwrap();
            // A ring that somebody wrote by hand asks nobody for its names.
            let text = bad.write().unwrap().replace("\"x\"", &format!("\"{label}\""));
            assert_eq!(ours.take_over(&Keyring::read(&text).unwrap(), id(6)), Err(why));
            assert_eq!(ours, once);
        }
    }

    /// What bears the office's name decides: no phone gets it.
    #[test]
    fn no_phone_is_called_the_office() {
        let mut ring = Keyring::default();
        for name in [LABEL, " The  Office "] {
            let said = ring.enrol_phone(name, Fingerprint::of(id(1)), Some(id(1)), day(1));
            assert_eq!(said, Err(KeyringError::OfficeName), "{name}");
        }
        assert!(decides(LABEL) && decides("the office of North Moor"), "archives of two offices put together");
        assert!(!["blue phone", "the office's phone", "the offices of", "of the office"].into_iter().any(decides));
        assert!(ring.enrol_phone("the office's phone", Fingerprint::of(id(1)), Some(id(1)), day(1)).is_ok());
    }

    #[test]
    fn words_alone_are_enough_and_the_whole_id_is_better() {
        let mut ring = Keyring::default();
        ring.enrol("words", Fingerprint::of(id(1)), None, day(1)).unwrap();
        assert!(matches!(ring.standing(id(1), day(2)), Standing::Enrolled(_)));
        // a device with the same words and another id is not the one whose id was taken
        let mut ring = Keyring::default();
        ring.enrol("whole", Fingerprint::of(id(1)), Some(id(2)), day(1)).unwrap();
        assert_eq!(ring.standing(id(1), day(2)), Standing::Unknown);
    }

    #[test]
    fn text_round_trips_and_broken_text_is_named() {
        let mut ring = Keyring::default();
        enrol(&mut ring, "blue phone", 1).unwrap();
        ring.retire("blue phone", day(10), day(10), None).unwrap();
        let text = ring.write().unwrap();
        assert_eq!(Keyring::read(&text).unwrap(), ring);
        assert_eq!(Keyring::read(&text.replace("\"format\": 1", "\"format\": 2")), Err(KeyringError::Newer(2)));
        assert!(matches!(Keyring::read(&text.replace("label", "lable")), Err(KeyringError::Form(_))));
        assert!(matches!(Keyring::read("{\"format\":1,\"format\":1}"), Err(KeyringError::Form(_))));
    }
}
