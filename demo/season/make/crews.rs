//! Five crews, their outings of a winter, and a stranger's phone.

use marrowbook::bundle::DeviceKey;
use marrowbook::record::{Answer, Moment, Side, Site, Subject, Tooth, Value, Why, links};
use uuid::Uuid;

use super::dice::Dice;
use super::herd::{AN_OUTING, Deer, Left, herd};
use super::look::{Seen, dentine, look, place, teeth_in_view};
use super::people::CREWS;
use super::phone::{Chain, Phone, after, id, seconds_after};
use super::samples::{Taken, bring, take};
use super::{Made, bench, winter};

/// Carcasses that crews of the reserve found; one more is found twice, three more lie on a stranger's phone.
const FOUND: usize = 60;
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
    for (number, crew) in (0_u8..).zip(&CREWS) {
        phones.push(Phone::new(number, crew.label, crew.name, crew.out[0])?);
    }
    if let Some(first) = phones.first_mut() {
        first.slips = true;
    }
    let mut examined = Vec::new();
    let mut outings = vec![(None, Uuid::nil()); CREWS.len()];
    for deer in all.iter().take(FOUND) {
        let crew = deer.n % CREWS.len();
        let turn = deer.n / CREWS.len();
        let (Some(phone), Some(outing)) = (phones.get_mut(crew), outings.get_mut(crew)) else { continue };
        // An outing each fortnight from the new year on.
        let day = i64::try_from(turn / AN_OUTING * 13 + crew * 2)?;
        let start = after(moment("2027-01-03T08:20:00-06:00")?, day * 24 * 60)?;
        if outing.0 != Some(turn / AN_OUTING) {
            *outing = (Some(turn / AN_OUTING), begin_outing(phone, crew, turn / AN_OUTING, start)?);
        }
        let at = after(start, 95 + 110 * i64::try_from(turn % AN_OUTING)?)?;
        let seen = examine(phone, deer, Some((crew, outing.1)), at)?;
        if deer.n % 10 == 3 {
            reported(phone, deer, seen.exam, at)?;
        }
        examined.push(seen);
    }
    special(&mut phones, &all, &mut examined)?;
    let mut chains = Vec::new();
    for phone in phones {
        chains.push(phone.written()?);
    }
    let handed = hand_in(&mut chains, all.get(FOUND..).unwrap_or_default())?;
    let enrolled = chains.into_iter().map(|chain| (chain.label, chain.key)).collect();
    let taken = examined.into_iter().map(|seen| seen.taken).collect();
    Ok(Winter { handed, enrolled, taken, carcasses: FOUND + 4 })
}

/// Three crews search along lines; one goes where somebody has found one; one does now this, now that.
fn begin_outing(phone: &mut Phone, crew: usize, turn: usize, at: Moment) -> Made<Uuid> {
    if crew == 4 && turn == 3 {
        // Its battery had died of the cold: for an hour its clock stood where such a phone begins.
        phone.clock_stands_at(moment("2027-01-01T00:02:00-06:00")?, at, 60);
    }
    let outing = id(at, &mut phone.dice);
    let subject = Subject::Outing(outing);
    let mut said = 0;
    let mut say = |finding: &str, site: Site, answer: Answer| {
        said += 20;
        phone.say(subject, (finding, site, answer), seconds_after(at, said)?)
    };
    say("crew_count", Site::NONE, Answer::number(2))?;
    let out = CREWS.get(crew).map(|crew| crew.out.join(" ")).unwrap_or_default();
    say("people_out", Site::NONE, Answer::Seen { value: Value::Text(out) })?;
    say("air_temperature_c", Site::NONE, Answer::number(winter::morning_c(at)))?;
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

/// What came of a visit.
struct Examined {
    carcass: Uuid,
    exam: Uuid,
    at: Moment,
    taken: Taken,
}

/// One answer after the other, half a minute apart.
fn one_by_one(phone: &mut Phone, subject: Subject, said: Vec<Seen>, at: Moment) -> Made<Moment> {
    let mut now = at;
    for one in said {
        // One slip of the thumb: ten times the snow, seen at once and put right.
        let replaces = match &one {
            ("snow_over_body_cm", site, Answer::Seen { value: Value::Number(cm) }) if phone.slips => {
                phone.slips = false;
                vec![phone.say(subject, (one.0, *site, Answer::number(cm * 10)), now)?]
            }
            _ => Vec::new(),
        };
        now = seconds_after(now, phone.dice.between(15, 45))?;
        phone.correct(subject, one, now, replaces)?;
    }
    Ok(now)
}

/// An examination in the field, one on the bench where something was taken for it, and the way to the gatehouse.
fn examine(phone: &mut Phone, deer: &Deer, outing: Option<(usize, Uuid)>, at: Moment) -> Made<Examined> {
    let (carcass, exam) = (id(at, &mut phone.dice), id(seconds_after(at, 5)?, &mut phone.dice));
    let may = phone.may;
    let refer = |id| Answer::Seen { value: Value::Ref(id) };
    let mut said: Vec<Seen> =
        vec![(links::CARCASS, Site::NONE, refer(carcass)), ("examination_kind", Site::NONE, Answer::choice("field"))];
    if let Some((crew, outing)) = outing {
        said.push((links::OUTING, Site::NONE, refer(outing)));
        if crew < 3 {
            let line = u16::try_from(deer.n % 2 + 1)?;
            said.push(("found_from_line_count", Site::NONE, Answer::number(line.into())));
            said.push(("from_line_m", Site::item(line), Answer::number(deer.from_line)));
        }
    }
    let species = match deer.n {
        17 => Answer::choice("other_deer"),
        33 => Answer::CantTell { why: Why::Scavenged },
        _ => Answer::choice("white_tailed_deer"),
    };
    said.push(("species", Site::NONE, species));
    let here = place(deer, 0, 6 + u32::try_from(deer.n % 9)?);
    said.push(("place", Site::NONE, Answer::Seen { value: Value::Place(here) }));
    let clear = after(at, -(deer.days + 2 + i64::try_from(deer.n % 5)?) * 24 * 60 - 45)?;
    let clear = Some(clear).filter(|_| deer.left != Left::Bones && deer.n % 4 != 3);
    let mut dice = Dice::new(1_000 + u64::try_from(deer.n)?);
    said.extend(look(deer, may, at, clear, &mut dice));
    let (taken, things) = take(deer, may, exam);
    said.extend(things);
    let done = if dice.chance(90) { "complete" } else { "left_early" };
    said.push(("examination_closed", Site::NONE, Answer::choice(done)));
    one_by_one(phone, Subject::Examination(exam), said, at)?;
    let on_the_bench = bench::look(deer, may, &mut dice);
    if !on_the_bench.is_empty() {
        let later = after(at, 3 * 24 * 60 + 200)?;
        let mut said: Vec<Seen> = vec![
            (links::CARCASS, Site::NONE, refer(carcass)),
            ("examination_kind", Site::NONE, Answer::choice("bench")),
        ];
        said.extend(on_the_bench);
        let of_bench = Subject::Examination(id(later, &mut phone.dice));
        one_by_one(phone, of_bench, said, later)?;
    }
    bring(phone, &taken, after(at, 3 * 24 * 60 + 5 * 60)?)?;
    Ok(Examined { carcass, exam, at, taken })
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
        seconds_after(at, 50)?,
    )?;
    Ok(())
}

/// A second opinion, a carcass reported twice, and a place where nothing lay.
fn special(phones: &mut [Phone], all: &[Deer], examined: &mut Vec<Examined>) -> Made<()> {
    let [_, second, .., gate, weekend] = phones else { return Ok(()) };
    let refer = |id| Answer::Seen { value: Value::Ref(id) };
    // Somebody of another crew looked at the same cleaned jaw, and saw another class.
    let worn = |deer: &&Deer| deer.n.is_multiple_of(CREWS.len()) && deer.birthdays > 1 && teeth_in_view(deer);
    let of_ridge =
        all.iter().filter(worn).find(|deer| examined.get(deer.n).is_some_and(|seen| seen.taken.jaw.is_some()));
    if let Some((deer, seen)) = of_ridge.and_then(|deer| Some((deer, examined.get(deer.n)?))) {
        let at = after(seen.at, 3 * 24 * 60 + 4 * 60)?;
        let other = dentine(deer.birthdays + 3);
        let said: Vec<Seen> = vec![
            (links::CARCASS, Site::NONE, refer(seen.carcass)),
            ("examination_kind", Site::NONE, Answer::choice("bench")),
            ("dentine", Site::tooth(Side::Left, Tooth::M1), Answer::choice(other)),
        ];
        let bench = Subject::Examination(id(at, &mut second.dice));
        one_by_one(second, bench, said, at)?;
    }
    if let Some(at) = examined.get(23).map(|seen| seen.at) {
        let at = after(at, 3 * 24 * 60 + 35)?;
        let (carcass, exam) = (id(at, &mut gate.dice), id(after(at, 1)?, &mut gate.dice));
        let said: Vec<Seen> = vec![
            (links::CARCASS, Site::NONE, refer(carcass)),
            ("examination_kind", Site::NONE, Answer::choice("field")),
            ("report_outcome", Site::NONE, Answer::choice("not_found")),
            ("examination_closed", Site::NONE, Answer::choice("record_only")),
        ];
        one_by_one(gate, Subject::Examination(exam), said, at)?;
    }
    if let (Some(deer), Some(at)) = (all.get(12), examined.get(12).map(|seen| seen.at)) {
        // The same animal, seen two days later by others who did not know.
        let again = Deer { n: FOUND + 12, north_e7: deer.north_e7 + 900, days: deer.days + 2, ..*deer };
        examined.push(examine(weekend, &again, None, after(at, 2 * 24 * 60 + 75)?)?);
    }
    Ok(())
}

/// As mail breaks long lines.
fn wrapped(text: &str) -> String {
    let all: Vec<char> = text.chars().collect();
    all.chunks(76).map(|line| line.iter().collect::<String>()).collect::<Vec<_>>().join("\r\n")
}

/// What reaches the office: overlapping, wrapped, damaged, whole, one inside another, and from a phone that nobody knows.
fn hand_in(chains: &mut [Chain], strange: &[Deer]) -> Made<Vec<(String, Vec<u8>)>> {
    let [first, second, third, gate, weekend] = chains else { return Ok(Vec::new()) };
    let (february, april) = (moment("2027-02-20T18:05:00-06:00")?, moment("2027-04-12T17:40:00-05:00")?);
    let of_third = third.hand_over(None, after(february, -35)?, Vec::new())?;
    let last = weekend.hand_over(None, after(april, 3 * 24 * 60 - 260)?, Vec::new())?;
    let middle = last.len() / 2;
    let changed: String =
        last.chars().enumerate().map(|(n, c)| if n == middle { if c == 'A' { 'B' } else { 'A' } } else { c }).collect();
    let of_second = second.hand_over(None, after(february, 24 * 60 + 80)?, Vec::new())?;
    let cut = of_second.get(..of_second.len() / 2).unwrap_or_default().to_owned();
    let mut stranger = Phone::new(9, "black", "passers-by", "X1")?;
    for deer in strange {
        let day = i64::try_from(deer.n - FOUND)?;
        examine(&mut stranger, deer, None, after(moment("2027-02-20T13:10:00-06:00")?, day * 24 * 60)?)?;
    }
    let mut stranger = stranger.written()?;
    let since = Some(moment("2027-01-25T00:00:00-06:00")?);
    let files = [
        ("ridge february.txt", first.hand_over(None, february, vec![of_third])?),
        ("ridge april.txt", first.hand_over(None, april, Vec::new())?),
        ("lake february.txt", of_second),
        ("lake february (1).txt", cut),
        ("lake april.txt", second.hand_over(since, after(april, 45)?, Vec::new())?),
        ("flowage april.txt", third.hand_over(None, after(april, 24 * 60 + 15)?, Vec::new())?),
        ("gate by mail.txt", wrapped(&gate.hand_over(None, after(april, 2 * 24 * 60 - 400)?, Vec::new())?)),
        ("weekend.txt", changed),
        ("weekend again.txt", last),
        ("found on the desk.txt", stranger.hand_over(None, after(april, -4 * 24 * 60 + 190)?, Vec::new())?),
    ];
    Ok(files.into_iter().map(|(name, text)| (name.to_owned(), text.into_bytes())).collect())
}
