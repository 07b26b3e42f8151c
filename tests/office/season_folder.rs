//! An archive with invented carcasses of one winter, made from fixed keys.
#![allow(dead_code)]

use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;

use marrowbook::bundle::{DeviceKey, Extras, Fingerprint, make};
use marrowbook::record::{
    Act, Answer, Body, Bone, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Place, PlaceSource, Salt, Side, Site,
    Subject, Tooth, Value, Versions, links, uuid_v7,
};
use uuid::Uuid;

use super::kit;
use super::ran::{Office, Ran, folder};

pub(crate) const PASSPHRASE: &str = "acorn basin cedar dolphin";

pub(crate) fn carcass(n: u8) -> Uuid {
    uuid_v7(1_802_618_640_000, [n; 10])
}

/// One invented deer.
pub(crate) struct Deer {
    pub(crate) n: u8,
    /// Nothing but its place and species is told.
    pub(crate) bare: bool,
    pub(crate) species: &'static str,
    /// How far it lies from where its number puts it.
    pub(crate) metres_north: i64,
    /// Line of the search, and tenths of a metre from it.
    pub(crate) line: Option<(u16, i64)>,
    /// Its jaw was taken, and nobody wrote a label.
    pub(crate) jaw_taken: bool,
}

impl Deer {
    pub(crate) fn of(n: u8) -> Self {
        Self { n, bare: false, species: "white_tailed_deer", metres_north: 0, line: None, jaw_taken: false }
    }

    /// Its looks hang on this, so that a twin looks alike.
    fn like(&self) -> i64 {
        i64::from(if self.n == 40 { 1 } else { self.n })
    }

    fn place(&self) -> Place {
        let like = self.like();
        Place {
            lat_e7: 471_234_567 + like * 173_113 % 900_000 + self.metres_north * 90,
            lon_e7: -920_765_432 + like * 371_717 % 1_500_000,
            accuracy_m_95: Some(12),
            source: PlaceSource::Device,
        }
    }

    pub(crate) fn place_deg(&self) -> (f64, f64) {
        let place = self.place();
        (place.lat_e7 as f64 / 1e7, place.lon_e7 as f64 / 1e7)
    }
}

/// An outing.
pub(crate) struct Outing {
    pub(crate) kind: &'static str,
    pub(crate) route: &'static str,
    pub(crate) strip_m: Option<i64>,
    pub(crate) lines_m: Vec<i64>,
}

/// A crew's chain in the making.
struct Chain {
    head: Head,
    entries: Vec<Entry>,
}

fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

impl Chain {
    fn act(&mut self, act: Act, at: Moment) {
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: PersonCode::new("K7").unwrap(),
            at,
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let salt = u8::try_from(self.entries.len() % 251).unwrap();
        let entry = self.head.next(&body, Salt([salt; 16])).unwrap();
        self.head = Head::after(&entry);
        self.entries.push(entry);
    }

    fn put(&mut self, subject: Subject, finding: &str, site: Site, answer: Answer, at: Moment) {
        let key = Key { subject, finding: finding.into(), site, observer: PersonCode::new("K7").unwrap() };
        self.act(Act::Answer { key, answer, supersedes: Vec::new() }, at);
    }
}

fn outing_id() -> Uuid {
    uuid_v7(1_802_618_600_000, [7; 10])
}

fn deer(chain: &mut Chain, deer: &Deer, outing: bool) {
    let examination = uuid_v7(1_802_618_650_000, [deer.n; 10]);
    let like = deer.like();
    let day = 1 + like % 27;
    let at = moment(&format!("2027-02-{day:02}T10:00:00-05:00"));
    let mut put = |finding: &str, site: Site, answer: Answer| {
        chain.put(Subject::Examination(examination), finding, site, answer, at);
    };
    let seen = |value| Answer::Seen { value };
    put(links::CARCASS, Site::NONE, seen(Value::Ref(carcass(deer.n))));
    put("examination_kind", Site::NONE, Answer::choice("field"));
    put("species", Site::NONE, Answer::choice(deer.species));
    if deer.jaw_taken {
        put("jaw_taken", Site::NONE, Answer::choice("whole_jaw"));
    }
    put("arrived_at", Site::NONE, seen(Value::Instant(at)));
    put("place", Site::NONE, seen(Value::Place(deer.place())));
    if outing {
        put(links::OUTING, Site::NONE, seen(Value::Ref(outing_id())));
    }
    if let Some((line, tenths)) = deer.line {
        put("from_line_m", Site::item(line), Answer::number(tenths));
    }
    if deer.bare {
        return;
    }
    let days = 2 + like % 5;
    let back = day - days;
    let clear = if back >= 1 { format!("02-{back:02}") } else { format!("01-{:02}", 31 + back) };
    let clear = moment(&format!("2027-{clear}T09:00:00-05:00"));
    put("place_clear_at", Site::NONE, seen(Value::Instant(clear)));
    put("blood_on_snow", Site::NONE, if like % 3 == 0 { Answer::choice("there") } else { Answer::NotSeen });
    put("chase_or_struggle_marks", Site::NONE, if like % 4 == 0 { Answer::choice("there") } else { Answer::NotSeen });
    if like % 2 == 0 {
        put("tracks_by", Site::NONE, seen(Value::choices(["coyote"])));
        put("sex_evidence", Site::NONE, seen(Value::choices(["udder_or_vulva"])));
    } else {
        put("sex_evidence", Site::NONE, seen(Value::choices(["pedicles_or_knobs"])));
    }
    let third = if like % 3 == 0 { "three_cusps" } else { "two_cusps_stained" };
    put("third_tooth", Site::side(Side::Left), Answer::choice(third));
    put("cheek_teeth_count", Site::side(Side::Left), Answer::number(if like % 3 == 0 { 5 } else { 6 }));
    let dentine = ["narrower", "as_wide", "wider", "twice_as_wide"][usize::try_from(like % 4).unwrap()];
    if like % 3 != 0 {
        put("dentine", Site::tooth(Side::Left, Tooth::M1), Answer::choice(dentine));
    }
    let femur = Site::bone(Bone::Femur);
    let marrow = ["solid_waxy", "gelatinous_opaque", "watery"][usize::try_from(like % 3).unwrap()];
    put("marrow_consistency", femur, Answer::choice(marrow));
    put("marrow_frozen", femur, Answer::choice("never_frozen"));
    put("marrow_colour", femur, Answer::choice(if like % 3 == 0 { "white" } else { "red" }));
    put("bone_opened", femur, Answer::choice("intact"));
}

/// A crew's bundle, `pairs` joined by an alias.
pub(crate) fn bundle(key: &DeviceKey, crew: &str, all: &[Deer], pairs: &[[Uuid; 2]]) -> String {
    bundle_with(key, crew, all, pairs, None)
}

/// The same with an outing.
pub(crate) fn bundle_with(
    key: &DeviceKey,
    crew: &str,
    all: &[Deer],
    pairs: &[[Uuid; 2]],
    outing: Option<&Outing>,
) -> String {
    let mut chain = Chain { head: Head::start(key.public().id()), entries: Vec::new() };
    if let Some(outing) = outing {
        let at = moment("2027-02-01T08:00:00-05:00");
        let subject = Subject::Outing(outing_id());
        chain.put(subject, "outing_kind", Site::NONE, Answer::choice(outing.kind), at);
        chain.put(subject, "search_route", Site::NONE, Answer::choice(outing.route), at);
        if let Some(m) = outing.strip_m {
            chain.put(subject, "search_strip_m", Site::NONE, Answer::number(m), at);
        }
        for (line, m) in (1_u16..).zip(&outing.lines_m) {
            chain.put(subject, "search_line_m", Site::item(line), Answer::number(*m), at);
        }
    }
    for one in all {
        deer(&mut chain, one, outing.is_some());
    }
    for pair in pairs {
        chain.act(Act::Alias { carcasses: *pair }, moment("2027-02-20T10:00:00-05:00"));
    }
    let mut cover = kit::cover();
    cover.crew = Some(crew.to_owned());
    make(cover, &chain.entries, Extras::default(), key).unwrap()
}

/// An office with its key; the phones of the kit but the stranger are enrolled.
pub(crate) struct Archive {
    office: Office,
}

impl Archive {
    pub(crate) fn new(name: &str) -> Self {
        let mut office = Office::new(folder(name));
        office.passphrase = Some(PASSPHRASE.into());
        assert_eq!(office.run(&["key", "new"]).code, 0);
        for (label, key) in [("blue phone", kit::phone()), ("red phone", kit::lost_phone())] {
            let words = Fingerprint::of(key.public().id()).to_string();
            let ran = office.run(&["enrol", "--fingerprint", &words, "--name", label]);
            assert_eq!(ran.code, 0, "{ran:?}");
        }
        Self { office }
    }

    pub(crate) fn folder(&self) -> &str {
        self.office.folder.to_str().unwrap()
    }

    pub(crate) fn put(&self, name: &str, bytes: &[u8]) -> String {
        self.office.put(name, bytes)
    }

    /// Opens a bundle and keeps it.
    pub(crate) fn keep(&self, name: &str, bundle: &str) {
        let file = self.office.put(name, bundle.as_bytes());
        let ran = self.office.run(&["open", "--keep", &file]);
        assert!(matches!(ran.code, 0 | 3), "{ran:?}");
        fs::remove_file(file).unwrap();
    }

    pub(crate) fn received(&self) -> Vec<PathBuf> {
        let mut files: Vec<PathBuf> =
            fs::read_dir(self.office.folder.join("received")).unwrap().map(|e| e.unwrap().path()).collect();
        files.sort();
        files
    }

    /// Four weeks of an invented log, kept with its units.
    pub(crate) fn winter_log(&self, name: &str) {
        let mut text = "date,tmin,snow depth\n".to_owned();
        for day in 1..=28 {
            writeln!(text, "2027-02-{day:02},{},{}", day % 9 - 4, 10 + day % 7).unwrap();
        }
        let file = self.office.put(name, text.as_bytes());
        let units = ["--temperature", "f", "--snow", "in", "--place", "North gate"];
        let ran = self.office.run(&[&["winter", "--keep", &file][..], &units].concat());
        assert_eq!(ran.code, 0, "{ran:?}");
    }

    pub(crate) fn out(&self, name: &str) -> String {
        self.office.folder.join("out").join(name).to_str().unwrap().to_owned()
    }

    pub(crate) fn run(&self, args: &[&str]) -> Ran {
        self.office.run(args)
    }
}
