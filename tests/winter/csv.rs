//! Logs as CSV: what is wrong is named by its line, good lines are kept, units wait for a person's word.
//! The forms of the files are those that weather services and spreadsheets write.

use std::collections::BTreeSet;

use marrowbook::office::winter::cells::DateOrder;
use marrowbook::office::winter::report::{lines, plain};
use marrowbook::office::winter::table::{Confirmed, Draft, NoLog, Open, Table};
use marrowbook::office::winter::text::NoTable;
use marrowbook::office::winter::units::{From, SnowUnit, TemperatureUnit};
use marrowbook::science::winter::agency::find;
use marrowbook::science::winter::index::{Asked, Bounds};
use marrowbook::science::winter::log::{Gauge, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use marrowbook::words::Language;

use crate::days::{cm, date, fahrenheit, inches};

fn draft(text: &str) -> Draft {
    Draft::read(text.as_bytes()).unwrap()
}

/// Read with the units that the file itself proposes.
fn table(text: &str) -> Table {
    let draft = draft(text);
    let told = draft.as_proposed();
    assert_eq!(draft.open(&told), [], "{text}");
    draft.table(&told)
}

fn said(table: &Table) -> Vec<String> {
    table.notes.iter().map(|note| note.say(Language::English)).collect()
}

const GOOD: &str = "date,tmin (F),snow depth (in)\n2027-01-05,-3,18\n2027-01-06,4,17.5\n";

#[test]
fn a_plain_file_is_read() {
    let table = table(GOOD);
    assert_eq!((table.kept, table.dropped, table.notes.len()), (2, 0, 0));
    let day = table.logs[0].day(date(2027, 1, 5));
    assert_eq!((day.minimum, day.depth), (Some(Said::one(fahrenheit(-3))), Some(Said::one(inches(18)))));
}

#[test]
fn the_header_may_stand_in_another_order_with_other_names() {
    let other =
        "Snow on Grnd (cm),Station Name,Min Temp (\u{b0}C),Data Quality,Date/Time\n30,Cedar flat,-12.5,,2027-01-05\n";
    let table = table(other);
    assert_eq!(table.logs[0].place, "Cedar flat");
    let day = table.logs[0].day(date(2027, 1, 5));
    assert_eq!(day.minimum, Some(Said::one(Temperature::from_hundredths_c(-1_250))));
    assert_eq!(day.depth, Some(Said::one(cm(30))));
    assert_eq!(said(&table), ["columns not used: Data Quality"]);
}

#[test]
fn a_byte_order_mark_is_taken_off_and_said() {
    let table = table(&format!("\u{feff}{GOOD}"));
    assert_eq!(table.kept, 2);
    assert_eq!(said(&table), ["a byte order mark was taken off before reading"]);
}

#[test]
fn decimal_commas_with_semicolons_and_windows_line_ends() {
    let table = table("date;tmin (C);snow depth (cm)\r\n2027-01-05;-17,8;45,5\r\n05.02.2027;\u{2212}3,5;20\r\n");
    let log = &table.logs[0];
    assert_eq!(log.day(date(2027, 1, 5)).minimum, Some(Said::one(Temperature::from_hundredths_c(-1_780))));
    assert_eq!(log.day(date(2027, 1, 5)).depth, Some(Said::one(Depth::from_thousandths_cm(45_500))));
    assert_eq!(log.day(date(2027, 2, 5)).minimum, Some(Said::one(Temperature::from_hundredths_c(-350))));
}

/// As `grep -n` (GNU grep 3.8) numbers them.
#[test]
fn lines_are_the_files_own_whatever_ends_them() {
    let table = table("date,tmin (F),snow depth (in)\r\n\r\n2027-01-05,-3,18\r\n\r\nsoon,4,17.5\r\n");
    assert!(said(&table)[0].starts_with("line 5: `soon` is no date"), "{:?}", said(&table));
}

#[test]
fn decimal_commas_between_commas_are_named_by_line() {
    let table = table("date,tmin (C),snow depth (cm)\n2027-01-05,-17,8,45\n2027-01-06,-3,20\n");
    assert_eq!((table.kept, table.dropped), (1, 1));
    let said = said(&table);
    assert!(
        said[0].starts_with("line 2: 4 cells where the header has 3") && said[0].contains("semicolons"),
        "{said:?}"
    );
}

#[test]
fn an_older_encoding_is_read_and_said() {
    let mut bytes = b"date,tmin (".to_vec();
    bytes.extend([0xb0]);
    bytes.extend(b"C)\n2027-01-05,-3\n");
    let draft = Draft::read(&bytes).unwrap();
    assert_eq!(draft.temperature.unwrap().unit, TemperatureUnit::Celsius);
    assert!(said(&draft.table(&draft.as_proposed()))[0].contains("ISO 8859-1"));
}

#[test]
fn mixed_units_are_named_by_line_and_the_rest_is_kept() {
    let table = table(
        "date,tmin (F),snow depth (cm)\n2027-01-05,-3,40\n2027-01-06,-16 C,41\n2027-01-07,5,16 in\n2027-01-08,6,42 cm\n",
    );
    assert_eq!(table.kept, 4, "the good cells of those lines are kept");
    assert_eq!(
        said(&table),
        [
            "line 3: minimum temperature `-16 C` names another unit than its column and is left out",
            "line 4: snow depth `16 in` names another unit than its column and is left out",
        ]
    );
    let log = &table.logs[0];
    assert_eq!(log.day(date(2027, 1, 6)).minimum, None);
    assert_eq!(log.day(date(2027, 1, 6)).depth, Some(Said::one(cm(41))));
    assert_eq!(log.day(date(2027, 1, 8)).depth, Some(Said::one(cm(42))));
    let two = Draft::read(b"date,tmin (F),tmax (C)\n2027-01-05,1,2\n");
    assert!(matches!(two, Err(NoLog::Mixed(_))), "two units in the header");
}

#[test]
fn a_cell_that_names_its_columns_unit_stands() {
    let inches_here =
        table("date,tmin (F),snow depth (in)\n2027-01-05,1,5 in\n2027-01-06,2,13 cm\n2027-01-07,3,6 inches\n");
    assert_eq!(said(&inches_here), ["line 3: snow depth `13 cm` names another unit than its column and is left out"]);
    assert_eq!(inches_here.logs[0].day(date(2027, 1, 5)).depth, Some(Said::one(inches(5))));
}

#[test]
fn a_depth_that_changes_as_units_do_is_pointed_at() {
    let table = table("date,snow depth (cm)\n2027-01-05,50\n2027-01-06,51\n2027-01-07,20\n2027-01-08,21\n");
    assert_eq!(table.kept, 4);
    assert!(said(&table)[0].starts_with("line 4: the depth goes from 51.0 to 20.0 cm"), "{:?}", said(&table));
}

#[test]
fn gaps_and_duplicate_days_are_named_by_line() {
    let text = "date,tmin (F)\n2027-01-05,-3\n2027-01-06,4\n2027-01-10,6\n2027-01-06,9\n2027-01-05,-3\n";
    let table = table(text);
    assert_eq!(
        said(&table),
        [
            "line 3: after this line 3 days are missing: 2027-01-07 to 2027-01-09",
            "line 5: 2027-01-06 stands on line 3 with other readings; both are kept, and the figures' ends hold both",
            "line 6: 2027-01-05 stands on line 2 with the same readings; it counts once",
        ]
    );
    assert_eq!(table.logs[0].days.len(), 3);
    assert_eq!(table.logs[0].day(date(2027, 1, 6)).minimum, Some(Said { low: fahrenheit(4), high: fahrenheit(9) }));
}

/// What only looks like a number is never read as one.
#[test]
fn a_sign_or_a_point_inside_is_no_number() {
    for odd in ["1.-5", "1.+5", "1-5", "1.2.3", "--5", "+-5", ".", "-"] {
        let table = table(&format!("date,tmin (C),snow depth (cm)\n2027-01-05,{odd},10\n2027-01-06,-4,11\n"));
        assert_eq!(table.logs[0].day(date(2027, 1, 5)).minimum, None, "{odd}");
    }
}

#[test]
fn what_cannot_be_true_is_left_out_by_line() {
    let text = "date,tmin (C),tmax (C),snow depth (cm)\n2027-01-05,-3,-1,-5\n2027-01-06,4,-6,10\n2027-01-07,-99,1,10\nsoon,1,2,3\n\
                2027-02-30,1,2,3\n2027-01-08,cold,2,3\n2027-01-09,M,,T\n2027-01-10,-9999,1,2000\n";
    let table = table(text);
    let said = said(&table);
    let begins = [
        "line 2: snow depth `-5` is below zero",
        "line 3: the minimum is above the maximum",
        "line 4: minimum temperature `-99` cannot be true",
        "line 5: `soon` is no date",
        "line 6: `2027-02-30` is no date",
        "line 7: minimum temperature `cold` is no number",
        "line 9: snow depth `2000` cannot be true",
    ];
    assert_eq!(said.len(), begins.len(), "{said:#?}");
    for (line, begin) in said.iter().zip(begins) {
        assert!(line.starts_with(begin), "{line} / {begin}");
    }
    let log = &table.logs[0];
    assert_eq!(log.day(date(2027, 1, 9)).depth, Some(Said::one(Depth::default())), "a trace is nothing to measure");
    assert_eq!(log.day(date(2027, 1, 9)).minimum, None, "M is missing, not zero");
    assert_eq!(log.day(date(2027, 1, 10)).minimum, None);
    assert_eq!(log.day(date(2027, 1, 6)).depth, Some(Said::one(cm(10))), "the rest of a bad line is kept");
    assert_eq!((table.kept, table.dropped), (6, 2));
}

#[test]
fn units_are_proposed_and_never_taken_without_a_word() {
    let none = draft("date,tmin,snow depth\n2027-01-05,-3,18\n");
    assert_eq!((none.temperature, none.snow), (None, None));
    assert_eq!(none.open(&none.as_proposed()), [Open::Temperature, Open::Snow]);
    assert_eq!(none.table(&none.as_proposed()).logs, [], "what was not told is not read");
    let header = draft(GOOD);
    assert_eq!(header.temperature.map(|p| (p.unit, p.from)), Some((TemperatureUnit::Fahrenheit, From::Header)));
    assert_eq!(header.open(&Confirmed::default()), [Open::Temperature, Open::Snow], "a proposal is no word");
    let summer = draft("date,tmin\n2027-07-05,61\n");
    assert_eq!(summer.temperature.map(|p| (p.unit, p.from)), Some((TemperatureUnit::Fahrenheit, From::Numbers)));
    let tenths = draft("date,tmin\n2027-01-05,-178\n2027-01-06,-3\n");
    assert_eq!(tenths.temperature.map(|p| p.unit), Some(TemperatureUnit::TenthsCelsius));
}

#[test]
fn a_unit_told_against_the_file_stands_and_is_said() {
    let draft = draft(GOOD);
    let told = Confirmed { temperature: Some(TemperatureUnit::Celsius), ..draft.as_proposed() };
    let table = draft.table(&told);
    assert_eq!(table.logs[0].day(date(2027, 1, 6)).minimum, Some(Said::one(Temperature::from_hundredths_c(400))));
    assert!(said(&table)[0].starts_with("LOOK: you said temperatures in `c`; the file itself says `f`"));
}

#[test]
fn celsius_converted_from_whole_fahrenheit_is_seen_and_read_back_exactly() {
    // -17.8 C is 0 F rounded; read as Celsius it would be -0.04 F.
    let converted = [-17.8, -17.2, -16.7, -16.1, -15.6, -15.0, -14.4, -13.9, -13.3, -12.8, -12.2];
    let rows: String = converted.iter().enumerate().map(|(n, c)| format!("2027-01-{:02},{c}\n", n + 1)).collect();
    let draft = draft(&format!("date,tmin (C)\n{rows}"));
    assert_eq!(draft.temperature.map(|p| p.unit), Some(TemperatureUnit::CelsiusFromFahrenheit));
    let log = draft.table(&draft.as_proposed()).logs.remove(0);
    for n in 0..11_u8 {
        assert_eq!(log.day(date(2027, 1, n + 1)).minimum, Some(Said::one(fahrenheit(i64::from(n)))));
    }
    let vermont = find("vermont").unwrap();
    let of = |told: &Confirmed| {
        lines(&draft.table(told).logs, &[vermont], &Asked::winter(2026)).remove(0).outcome.unwrap().parts[0].bounds.low
    };
    assert_eq!(of(&draft.as_proposed()), 0.0, "0 F is not below zero");
    let measured = Confirmed { temperature: Some(TemperatureUnit::Celsius), ..draft.as_proposed() };
    assert_eq!(of(&measured), 1.0, "-17.8 C, if read on a Celsius thermometer, is");
    // One reading that no whole degree F gives: measured in Celsius after all.
    let draft = self::draft(&format!("date,tmin (C)\n{rows}2027-01-20,-17.5\n"));
    assert_eq!(draft.temperature.map(|p| p.unit), Some(TemperatureUnit::Celsius));
    // Every whole degree F there and back.
    for f in -60..100_i64 {
        let tenths = (f - 32) * 50;
        let rounded = (tenths.abs() * 2 + 9) / 18 * tenths.signum();
        assert_eq!(TemperatureUnit::CelsiusFromFahrenheit.read(rounded * 100), Some(fahrenheit(f)), "{f} F");
    }
}

/// An inch is 25.4 mm (international yard and pound, 1959). Each tenth of an inch, converted to whole millimetres, is
/// read back; millimetres that no tenth gives are no number of such a log.
#[test]
fn millimetres_out_of_tenths_of_an_inch_are_read_back_exactly() {
    let read = |mm: i64| SnowUnit::MillimetresFromInches.read(mm * 1_000);
    let mut given = BTreeSet::new();
    for tenths in 1..=300_i64 {
        let mm = (tenths * 254 + 50) / 100;
        assert_eq!(read(mm), Some(Depth::from_hundredths_in(tenths * 10)), "{mm} mm");
        given.insert(mm);
    }
    for mm in (1..=762).filter(|mm| !given.contains(mm)) {
        assert_eq!(read(mm), None, "{mm} mm");
    }
    // Only whole inches prove anything: a column of millimetres that tenths would give as well is what its header says.
    let log = |all: &[i64]| {
        let rows: Vec<String> = all.iter().zip(1..).map(|(mm, day)| format!("2027-01-{day:02},{mm}\n")).collect();
        draft(&format!("date,snow depth (mm)\n{}", rows.concat())).snow.map(|p| p.unit)
    };
    let tenths = [12, 16, 23, 27, 34, 38, 45, 49, 56, 58, 63, 67].map(|tenths| (tenths * 254 + 50) / 100);
    assert_eq!(log(&tenths), Some(SnowUnit::Millimetres));
    let inches: Vec<i64> = (1..=12).map(|inches| (inches * 254 + 5) / 10).collect();
    assert_eq!(log(&inches), Some(SnowUnit::MillimetresFromInches));
}

#[test]
fn millimetres_converted_from_inches_count_at_eighteen_inches() {
    let rows: String = (8..22).map(|n: i64| format!("2027-01-{:02},{}\n", n, (n * 254 + 5) / 10)).collect();
    let draft = draft(&format!("date,snwd (mm)\n{rows}"));
    assert_eq!(draft.snow.map(|p| p.unit), Some(SnowUnit::MillimetresFromInches));
    let log = draft.table(&draft.as_proposed()).logs.remove(0);
    assert_eq!(log.day(date(2027, 1, 18)).depth, Some(Said::one(inches(18))), "457 mm are 18 in");
}

#[test]
fn dates_that_may_be_read_two_ways_have_to_be_told() {
    let doubtful = draft("date,tmin (F)\n1/5/2027,1\n2/5/2027,2\n");
    assert_eq!(doubtful.dates, None);
    assert_eq!(doubtful.open(&doubtful.as_proposed()), [Open::Dates]);
    let told = Confirmed { dates: Some(DateOrder::DayFirst), ..doubtful.as_proposed() };
    assert!(doubtful.table(&told).logs[0].days.contains_key(&date(2027, 5, 1)));
    assert_eq!(draft("date,tmin (F)\n1/5/2027,1\n1/25/2027,2\n").dates, Some(DateOrder::MonthFirst));
    assert_eq!(draft("date,tmin (F)\n5/1/2027,1\n25/1/2027,2\n").dates, Some(DateOrder::DayFirst));
    let parts = table("year,month,day,tmin (F)\n2027,1,5,-3\n");
    assert!(parts.logs[0].days.contains_key(&date(2027, 1, 5)));
}

#[test]
fn what_is_no_log_is_refused_with_what_to_do() {
    let why = |bytes: &[u8]| Draft::read(bytes).unwrap_err().say(Language::English);
    assert!(why(b"tmin,snow depth\n1,2\n").contains("no column is a date. Found: tmin, snow depth"));
    assert!(why(b"date,wind\n2027-01-05,2\n").contains("no column is a reading"));
    assert!(
        why(b"date,tmin,minimum temperature (F)\n2027-01-05,2,2\n").contains("`tmin` and `minimum temperature (F)`")
    );
    assert!(why(b"PK\x03\x04\0\0").contains("export the sheet as CSV"));
    assert!(why(b"\xff\xfed\0").contains("CSV UTF-8"));
    assert_eq!(Draft::read(b" \n\n"), Err(NoLog::Table(NoTable::Empty)));
}

#[test]
fn sinking_depths_carry_the_gauge_that_was_named() {
    let draft = draft("date,sinking depth (cm)\n2027-01-05,30\n");
    assert!(draft.has.sink);
    let told = Confirmed { gauge: Some(Gauge::Quebec), place: "A".to_owned(), ..draft.as_proposed() };
    assert_eq!(draft.table(&told).logs[0].gauge, Some(Gauge::Quebec));
}

#[test]
fn another_program_gives_the_same_figures_over_an_invented_winter() {
    // tests/reference/make_winter.py: exact fractions in Python over the same two files. The logs are invented.
    let files: [&[u8]; 2] = [
        include_bytes!("../reference/winter-synthetic-f-in.csv"),
        include_bytes!("../reference/winter-synthetic-converted.csv"),
    ];
    let drafts = files.map(|bytes| Draft::read(bytes).unwrap());
    assert_eq!(drafts[1].temperature.map(|p| p.unit), Some(TemperatureUnit::CelsiusFromFahrenheit));
    assert_eq!(drafts[1].snow.map(|p| p.unit), Some(SnowUnit::MillimetresFromInches));
    let logs: Vec<_> = drafts.iter().flat_map(|draft| draft.table(&draft.as_proposed()).logs).collect();
    let wanted: Vec<_> = plain().chain(find("michigan_total_snow")).collect();
    let found = lines(&logs, &wanted, &Asked::winter(2030));
    let mut rows = 0;
    for row in include_str!("../reference/winter.csv").lines().skip(2) {
        let cells: Vec<&str> = row.split(',').collect();
        let line = found.iter().find(|l| l.place == cells[0] && l.index.id == cells[1]).unwrap();
        let severity = line.outcome.as_ref().unwrap();
        let expected = Bounds { low: cells[2].parse().unwrap(), high: cells[3].parse().ok() };
        assert!((severity.value.low - expected.low).abs() < 1e-9, "{row}: {:?}", severity.value);
        assert_eq!(severity.value.high, expected.high, "{row}");
        for (part, missing) in severity.parts.iter().zip(&cells[4..]) {
            assert_eq!(part.missing.to_string(), *missing, "{row}");
        }
        rows += 1;
    }
    assert_eq!(rows, 10);
}
