//! Five crews, their outings of a winter, and a stranger's phone.

use marrowbook::bundle::DeviceKey;
use marrowbook::record::{Answer, Moment, Side, Site, Subject, Tooth, Value, links};
use uuid::Uuid;

use super::dice::Dice;
use super::herd::{Deer, Left, herd};
use super::look::{look, place};
use super::phone::{Phone, after, id};
use super::samples::{Taken, take};
use super::{Made, bench};

/// Carcasses that crews of the reserve found; one more is found twice, three more lie on a stranger's phone.
const FOUND: usize = 60;
/// Label, crew and person of each phone.
const CREWS: [(&str, &str, &str); 5] = [
    ("blue", "ridge", "K7"),
    ("red", "lake", "B2"),
    ("green", "flowage", "D4"),
    ("yellow", "gate", "M3"),
    ("white", "weekend", "P5"),
];
/// Who was out, as each crew wrote it down.
const OUT: [&str; 5] = [
    "Ada Fenn, Ole Birk (invented)",
    "Tom Alder, Ruth Pike (invented)",
    "Iris Quarrel, Jon Ash (invented)",
    "Nell Harrow, Finn Moss (invented)",
    "Sam Oster, Lea Thorn (invented)",
];

/// What a winter came to.
pub(crate) struct Winter {
    /// Files as handed in, by name.
    pub(crate) handed: Vec<(String, Vec<u8>)>,
    /// Phones that the office enrolled: name and key.
    pub(crate) enrolled: Vec<(&'static str, DeviceKey)>,
    /// What crews took along.
    pub(crate) taken: Vec<Taken>,
    /// How many carcasses there are.
    pub(crate) carcasses: usize,
}

fn moment(text: &str) -> Made<Moment> {
    Ok(Moment::parse(text)?)
}

/// All of it.
pub(crate) fn all() -> Made<Winter> {
    let all = herd(FOUND + 3);
    let mut phones = Vec::new();
    for (number, (label, crew, person)) in (0_u8..).zip(CREWS) {
        phones.push(Phone::new(number, label, crew, person)?);
    }
    let mut examined: Vec<(Uuid, Uuid, Moment)> = Vec::new();
    let mut taken = Vec::new();
    let mut outings = vec![(None, Uuid::nil()); CREWS.len()];
    for deer in all.iter().take(FOUND) {
        let crew = deer.n % CREWS.len();
        let turn = deer.n / CREWS.len();
        let (Some(phone), Some(outing)) = (phones.get_mut(crew), outings.get_mut(crew)) else { continue };
        // Two carcasses an outing, an outing each fortnight from the new year on.
        let day = i64::try_from(turn / 2 * 13 + crew * 2)?;
        let start = after(moment("2027-01-03T08:20:00-06:00")?, day * 24 * 60)?;
        if outing.0 != Some(turn / 2) {
            *outing = (Some(turn / 2), begin_outing(phone, crew, turn / 2, start)?);
        }
        let at = after(start, 95 + 110 * i64::try_from(turn % 2)?)?;
        let (carcass, exam, at) = examine(phone, deer, crew, Some(outing.1), at)?;
        taken.push(take(phone, deer, exam, at)?);
        if deer.n % 10 == 3 {
            reported(phone, deer, exam, at)?;
        }
        examined.push((carcass, exam, at));
    }
    special(&mut phones, &all, &examined)?;
    let handed = hand_in(&mut phones, all.get(FOUND..).unwrap_or_default())?;
    let enrolled = phones.into_iter().map(|phone| (phone.label, phone.key)).collect();
    Ok(Winter { handed, enrolled, taken, carcasses: FOUND + 4 })
}

/// Three crews search along lines; one goes where somebody has found one; one does now this, now that.
fn begin_outing(phone: &mut Phone, crew: usize, turn: usize, at: Moment) -> Made<Uuid> {
    let outing = id(at, &mut phone.dice);
    let subject = Subject::Outing(outing);
    let mut say = |finding: &str, site: Site, answer: Answer| phone.say(subject, (finding, site, answer), at);
    say("crew_count", Site::NONE, Answer::number(2))?;
    say(
        "people_out",
        Site::NONE,
        Answer::Seen { value: Value::Text(OUT.get(crew).copied().unwrap_or_default().to_owned()) },
    )?;
    say("air_temperature_c", Site::NONE, Answer::number(-9 - i64::try_from(turn)?))?;
    if crew == 3 || (crew == 4 && turn % 2 == 1) {
        say("outing_kind", Site::NONE, Answer::choice("response"))?;
        return Ok(outing);
    }
    say("outing_kind", Site::NONE, Answer::choice("search"))?;
    if crew == 4 {
        say("search_route", Site::NONE, Answer::choice("trails"))?;
        return Ok(outing);
    }
    say("search_route", Site::NONE, Answer::choice("lines"))?;
    say("search_strip_m", Site::NONE, Answer::number(60))?;
    say("search_lines_count", Site::NONE, Answer::number(2))?;
    for (line, metres) in [(1, 2_400 + 150 * i64::try_from(turn)?), (2, 3_100)] {
        say("search_line_m", Site::item(line), Answer::number(metres))?;
    }
    // One line was cut short by the dark.
    let cut = crew == 1 && turn == 2;
    say("search_walked", Site::NONE, Answer::choice(if cut { "not_all" } else { "all_to_the_end" }))?;
    if cut {
        say("search_walked_m", Site::item(1), Answer::number(2_700))?;
        say("search_walked_m", Site::item(2), Answer::number(1_900))?;
    }
    Ok(outing)
}

/// An examination in the field, and one on the bench where something was taken. Carcass, field examination, when.
fn examine(
    phone: &mut Phone,
    deer: &Deer,
    crew: usize,
    outing: Option<Uuid>,
    at: Moment,
) -> Made<(Uuid, Uuid, Moment)> {
    let carcass = id(at, &mut phone.dice);
    let exam = id(after(at, 1)?, &mut phone.dice);
    let subject = Subject::Examination(exam);
    let refer = |id| Answer::Seen { value: Value::Ref(id) };
    phone.say(subject, (links::CARCASS, Site::NONE, refer(carcass)), at)?;
    phone.say(subject, ("examination_kind", Site::NONE, Answer::choice("field")), at)?;
    if let Some(outing) = outing {
        phone.say(subject, (links::OUTING, Site::NONE, refer(outing)), at)?;
        if crew < 3 {
            let line = u16::try_from(deer.n % 2 + 1)?;
            phone.say(subject, ("found_from_line_count", Site::NONE, Answer::number(line.into())), at)?;
            phone.say(subject, ("from_line_m", Site::item(line), Answer::number(deer.from_line)), at)?;
        }
    }
    let species = match deer.n {
        17 => Answer::choice("other_deer"),
        33 => Answer::CantTell { why: marrowbook::record::Why::Scavenged },
        _ => Answer::choice("white_tailed_deer"),
    };
    phone.say(subject, ("species", Site::NONE, species), at)?;
    let here = place(deer, 0, 6 + u32::try_from(deer.n % 9)?);
    phone.say(subject, ("place", Site::NONE, Answer::Seen { value: Value::Place(here) }), at)?;
    let clear = after(at, -(deer.days + 2 + i64::try_from(deer.n % 5)?) * 24 * 60)?;
    let clear = Some(clear).filter(|_| deer.left != Left::Bones && deer.n % 4 != 3);
    let mut dice = Dice::new(1_000 + u64::try_from(deer.n)?);
    for (minute, seen) in (0..).zip(look(deer, at, clear, &mut dice)) {
        phone.say(subject, seen, after(at, minute)?)?;
    }
    if bench::taken(deer) {
        let later = after(at, 3 * 24 * 60 + 200)?;
        let bench_exam = id(later, &mut phone.dice);
        let subject = Subject::Examination(bench_exam);
        phone.say(subject, (links::CARCASS, Site::NONE, refer(carcass)), later)?;
        phone.say(subject, ("examination_kind", Site::NONE, Answer::choice("bench")), later)?;
        for (minute, seen) in (0..).zip(bench::look(deer, &mut dice)) {
            phone.say(subject, seen, after(later, minute)?)?;
        }
    }
    Ok((carcass, exam, at))
}

/// Somebody on the trail had seen it the day before, and told what they and their dog did.
fn reported(phone: &mut Phone, deer: &Deer, exam: Uuid, at: Moment) -> Made<()> {
    let seen = after(at, -22 * 60)?;
    let report = id(seen, &mut phone.dice);
    let subject = Subject::Report(report);
    let dog = deer.n % 20 == 3;
    for (finding, answer) in [
        ("report_seen_by", Answer::choice("trail_user")),
        ("report_seen_at", Answer::Seen { value: Value::Instant(seen) }),
        ("report_state", Answer::choice("dead")),
        ("report_touched", Answer::choice(if deer.n == 33 { "touched" } else { "not_touched" })),
        ("report_dog", Answer::choice(if dog { "dog_touched" } else { "no_dog" })),
        ("report_call_back", Answer::Seen { value: Value::Text("as on the gatehouse's list (invented)".to_owned()) }),
        ("report_triage", Answer::choice("send_crew")),
    ] {
        phone.say(subject, (finding, Site::NONE, answer), after(seen, 60)?)?;
    }
    phone.say(
        Subject::Examination(exam),
        (links::REPORT, Site::NONE, Answer::Seen { value: Value::Ref(report) }),
        at,
    )?;
    Ok(())
}

/// A correction, a second opinion, a carcass reported twice, and a place where nothing lay.
fn special(phones: &mut [Phone], all: &[Deer], examined: &[(Uuid, Uuid, Moment)]) -> Made<()> {
    let [first, second, .., gate, weekend] = phones else { return Ok(()) };
    if let Some((_, exam, at)) = examined.get(5) {
        let subject = Subject::Examination(*exam);
        let slip = first.say(subject, ("snow_over_body_cm", Site::NONE, Answer::number(130)), after(*at, 60)?)?;
        let right = ("snow_over_body_cm", Site::NONE, Answer::number(13));
        first.correct(subject, right, after(*at, 62)?, vec![slip])?;
        // Somebody of another crew looked at the same jaw.
        let other = ("dentine", Site::tooth(Side::Left, Tooth::M1), Answer::choice("smooth"));
        second.say(subject, other, after(*at, 45)?)?;
    }
    if let (Some(deer), Some((_, _, at))) = (all.get(12), examined.get(12)) {
        // The same animal, seen two days later by others who did not know.
        let again = Deer { n: FOUND + 12, north_e7: deer.north_e7 + 900, days: deer.days + 2, ..*deer };
        examine(weekend, &again, 4, None, after(*at, 2 * 24 * 60 + 75)?)?;
    }
    if let Some((_, _, at)) = examined.get(23) {
        let at = after(*at, 3 * 24 * 60)?;
        let (carcass, exam) = (id(at, &mut gate.dice), id(after(at, 1)?, &mut gate.dice));
        let subject = Subject::Examination(exam);
        gate.say(subject, (links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(carcass) }), at)?;
        gate.say(subject, ("examination_kind", Site::NONE, Answer::choice("field")), at)?;
        gate.say(subject, ("report_outcome", Site::NONE, Answer::choice("not_found")), at)?;
        gate.say(subject, ("examination_closed", Site::NONE, Answer::choice("record_only")), after(at, 4)?)?;
    }
    Ok(())
}

/// As mail breaks long lines.
fn wrapped(text: &str) -> String {
    let all: Vec<char> = text.chars().collect();
    all.chunks(76).map(|line| line.iter().collect::<String>()).collect::<Vec<_>>().join("\r\n")
}

/// What reaches the office: overlapping, wrapped, damaged, whole, one inside another, and from a phone that nobody knows.
fn hand_in(phones: &mut [Phone], strange: &[Deer]) -> Made<Vec<(String, Vec<u8>)>> {
    let [first, second, third, gate, weekend] = phones else { return Ok(Vec::new()) };
    let (february, april) = (moment("2027-02-20T18:00:00-06:00")?, moment("2027-04-12T18:00:00-05:00")?);
    let of_third = third.hand_over(0, 60, february, Vec::new())?;
    let last = weekend.hand_over(0, 100, april, Vec::new())?;
    let middle = last.len() / 2;
    let changed: String =
        last.chars().enumerate().map(|(n, c)| if n == middle { if c == 'A' { 'B' } else { 'A' } } else { c }).collect();
    let of_second = second.hand_over(0, 70, february, Vec::new())?;
    let cut = of_second.get(..of_second.len() / 2).unwrap_or_default().to_owned();
    let mut stranger = Phone::new(9, "black", "passers-by", "X1")?;
    for deer in strange {
        let day = i64::try_from(deer.n - FOUND)?;
        examine(&mut stranger, deer, 4, None, after(february, day * 24 * 60)?)?;
    }
    let files = [
        ("ridge february.txt", first.hand_over(0, 65, february, vec![of_third])?),
        ("ridge april.txt", first.hand_over(0, 100, april, Vec::new())?),
        ("lake february.txt", of_second),
        ("lake february (1).txt", cut),
        ("lake april.txt", second.hand_over(40, 100, april, Vec::new())?),
        ("flowage april.txt", third.hand_over(0, 100, april, Vec::new())?),
        ("gate by mail.txt", wrapped(&gate.hand_over(0, 100, april, Vec::new())?)),
        ("weekend.txt", changed),
        ("weekend again.txt", last),
        ("found on the desk.txt", stranger.hand_over(0, 100, april, Vec::new())?),
    ];
    Ok(files.into_iter().map(|(name, text)| (name.to_owned(), text.into_bytes())).collect())
}
