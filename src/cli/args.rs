//! The arguments as typed.

use clap::{Parser, Subcommand};
use std::path::PathBuf;

/// Opens and checks what crews hand over, and works out the readings again.
///
/// Exit codes: 0 done (open: every file intact and enrolled), 1 could not be done, 2 arguments not
/// understood, 3 a device is not enrolled, 4 a file is damaged or altered, 5 a file was made by a
/// newer version. With several files the worst decides: 4 before 1 before 5 before 3.
#[derive(Debug, Parser)]
#[command(name = "office", version, disable_help_subcommand = true)]
pub(super) struct Args {
    /// The archive folder: keyring and files as received [default: marrowbook-archive here, or what
    /// the variable MARROWBOOK_ARCHIVE names].
    #[arg(long, global = true, value_name = "FOLDER")]
    pub archive: Option<PathBuf>,
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Check files that were handed in: intact and enrolled, intact but unknown device, damaged or
    /// altered, or made by a newer version.
    Open {
        /// Bundles as received and the photos that came with them, or folders of both; `-` reads standard input.
        /// A photo is matched by its digest, wherever it lies and whatever it is called.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Also keep every file that is not damaged in the archive, as received, and the photos that one of them
        /// names.
        #[arg(long)]
        keep: bool,
        /// Print one JSON object a file, one a line.
        #[arg(long)]
        json: bool,
    },
    /// Take a device into the keyring, after comparing its fingerprint with the one on its screen.
    Enrol {
        /// A bundle that the device handed over.
        #[arg(value_name = "FILE", required_unless_present = "fingerprint", conflicts_with = "fingerprint")]
        file: Option<PathBuf>,
        /// Instead of a file: the eight words or digit groups on the phone's screen, or the text of
        /// its QR code.
        #[arg(long, value_name = "WORDS")]
        fingerprint: Option<String>,
        /// The eight words (or digit groups) read from the phone's own screen, to be compared with
        /// the file's.
        #[arg(long, value_name = "WORDS", conflicts_with = "fingerprint")]
        words: Option<String>,
        /// What the office calls the device.
        #[arg(long, value_name = "NAME")]
        name: String,
    },
    /// Recompute the readings of every carcass from its answers and print them as JSON, one carcass a
    /// line, with today's local card; says where a phone's own readings differ, and whether its answers,
    /// methods, card or evidence table explain it. Takes bundles, and plain tables of findings
    /// (see: office schema marrowbook-findings-1).
    Read {
        /// Signed local cards beside those that the archive keeps, the phones' own and today's, as often as
        /// wanted.
        #[arg(long = "card", value_name = "FILE")]
        cards: Vec<PathBuf>,
        /// Bundles and tables; `-` reads standard input.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// Pool what the rumens of several deer held, month by month: aggregate percentage, aggregate volume and
    /// frequency, with ranges by drawing whole deer again. Takes bundles and tables of findings.
    Diet {
        /// Bundles and tables; `-` reads standard input.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Print one JSON object.
        #[arg(long)]
        json: bool,
    },
    /// The scene sketch of every carcass that has one, to scale: a GeoJSON file (with the body's position where one
    /// was taken; without it in metres from the body) and an SVG drawing.
    Sketch {
        /// Bundles and tables; `-` reads standard input.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// The folder for the files [default: here].
        #[arg(long, value_name = "FOLDER", default_value = ".", hide_default_value = true)]
        out: PathBuf,
        /// What a compass needle shows there, in degrees east of true north (west negative). Bearings read from
        /// a needle are turned by it; without it they stay as read.
        #[arg(long, value_name = "DEG", allow_hyphen_values = true)]
        declination: Option<String>,
    },
    /// A label for everything that was taken, text and code, ten on a sheet: one page of HTML to be printed. A thing
    /// that left its carcass without a label has the number that its phone gave it.
    Labels {
        /// Bundles and tables [default: all that the archive holds].
        #[arg(value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Only of this carcass, by its short code or id.
        #[arg(long, value_name = "CARCASS")]
        carcass: Option<String>,
        /// Where the page goes.
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        /// US letter instead of A4.
        #[arg(long)]
        letter: bool,
    },
    /// One carcass of the archive for paper, as a vet, an officer or a court could read it: photos, sketch, readings
    /// with what they rest on, every answer with who gave it and what replaced it, custody, laboratory, and the
    /// files with their digests and signatures. One page of HTML to be printed.
    Report {
        /// The carcass's short code or id.
        #[arg(value_name = "CARCASS")]
        carcass: String,
        /// Where the page goes.
        #[arg(long, value_name = "FILE")]
        out: PathBuf,
        /// US letter instead of A4.
        #[arg(long)]
        letter: bool,
    },
    /// The protocol on two sheets of paper, both sides, for the day the phone dies: one page of HTML to be
    /// printed. Its numbers are those of the phone's steps.
    Paper {
        /// Where the page goes.
        #[arg(value_name = "FILE")]
        out: PathBuf,
        /// US letter instead of A4.
        #[arg(long)]
        letter: bool,
    },
    /// List the devices of the keyring: name, when each was enrolled or retired, and its fingerprint words.
    Phones {
        /// Print one JSON object a device.
        #[arg(long)]
        json: bool,
    },
    /// Mark a device as lost or given back: what it makes later is not taken as its own.
    Retire {
        /// What the office calls the device.
        #[arg(value_name = "NAME")]
        name: String,
        /// Since when, such as 2027-02-14T18:00:00-05:00 [default: now].
        #[arg(long, value_name = "TIME")]
        since: Option<String>,
    },
    /// The office's own signing key: it signs local cards and the keyring.
    Key {
        #[command(subcommand)]
        what: KeyCommand,
    },
    /// Sign a local card, so that phones can load it; prints the signed card.
    Card {
        /// The card as JSON.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// An evidence table, signed by this office, that the card is to carry.
        #[arg(long, value_name = "FILE")]
        table: Option<PathBuf>,
        /// Write it there instead.
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Work out winter severity indices from daily logs: CSV files, and the logs and deaths in bundles.
    /// Units are proposed from the file and taken only once a person has confirmed them: at the prompt,
    /// or with --temperature and --snow. Files of one place are joined; days on which two disagree are named.
    Winter {
        /// CSV files with a header (date, tmin, snow depth, ...) and bundles; `-` reads standard input. Without
        /// any: the logs and bundles that the archive keeps.
        #[arg(value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Also keep each CSV in the archive, byte for byte, with the units that were confirmed; then all that the
        /// archive keeps is read. A file that lies there already is no news.
        #[arg(long, requires = "files")]
        keep: bool,
        /// What was confirmed of a file when it was kept was wrong: this stands in its place.
        #[arg(long, requires = "keep")]
        correct: bool,
        /// Which index, as often as wanted: wisconsin, minnesota, new_york, vermont, new_hampshire,
        /// michigan_total_snow, ontario_snow_depth, ontario_days_over_50_cm, quebec_niva, maine,
        /// michigan_verme [default: those whose agency names the season].
        #[arg(long, value_name = "NAME")]
        index: Vec<String>,
        /// The year in which the winter begins: 2026 for 2026-27 [default: that of the last day logged].
        #[arg(long, value_name = "YEAR")]
        winter: Option<i32>,
        /// First day, for an index whose source names none.
        #[arg(long, value_name = "DATE")]
        from: Option<String>,
        /// Last day, for an index whose source names none.
        #[arg(long, value_name = "DATE")]
        to: Option<String>,
        /// The last day that is over: days after it are to come, not missing [default: last day logged].
        #[arg(long, value_name = "DATE")]
        through: Option<String>,
        /// Unit of the temperatures: c, f, tenths-c, or, where whole degrees F were converted and
        /// rounded, c-from-f, tenths-c-from-f.
        #[arg(long, value_name = "UNIT")]
        temperature: Option<String>,
        /// Unit of the snow: cm, mm, in, or mm-from-in where inches were converted and rounded.
        #[arg(long, value_name = "UNIT")]
        snow: Option<String>,
        /// Order of dates such as 2/3/2027: month-first or day-first.
        #[arg(long, value_name = "ORDER")]
        dates: Option<String>,
        /// The place, where the CSV has no column for it [default: the file's name].
        #[arg(long, value_name = "NAME")]
        place: Option<String>,
        /// What was pushed into the snow for the sinking depth: quebec, copper, deer-tracks or other.
        #[arg(long, value_name = "GAUGE")]
        gauge: Option<String>,
        /// Print one JSON object an index, one a line.
        #[arg(long)]
        json: bool,
        /// Also draw the winter against the deaths.
        #[arg(long, value_name = "FILE")]
        svg: Option<PathBuf>,
        /// Draw in degrees F and inches.
        #[arg(long)]
        us_units: bool,
    },
    /// The evidence table of the causes of death: print the program's own, check or sign one.
    Table {
        #[command(subcommand)]
        what: TableCommand,
    },
    /// Laboratories: list the samples with what they wait for, note what was sent, read a laboratory's sheet of
    /// results. Or, for one carcass, enter what a laboratory sent back (rings of cementum, DNA of a swab), an age or
    /// a day of death known otherwise, or a record of the kill (photo, camera, collar, witness). All of it is
    /// written as the office's own, signed with its key and kept in the archive.
    Lab(Box<LabArgs>),
    /// Whom to call after a positive or suspect result, with what each touched, and the answers owed to reporter,
    /// landowner, owner of a tag, and agencies; calls made are signed entries.
    Calls {
        #[command(subcommand)]
        what: super::calls::CallsCommand,
    },
    /// How well each reader calls the wear class of jaws of known age (tags, rings of cementum), and the
    /// table for the local card that follows from it.
    Reader {
        /// Tables of findings to read instead of the archive's files.
        #[arg(value_name = "TABLE")]
        tables: Vec<PathBuf>,
        /// Print one JSON object a reader, one a line, all together first.
        #[arg(long, conflicts_with = "onto")]
        json: bool,
        /// Write the table of all readers together into this card's JSON, with the next serial; sign it
        /// with office card.
        #[arg(long, value_name = "CARD")]
        onto: Option<PathBuf>,
    },
    /// The season: from the archive folder to tables, plots and a signed manifest of everything that was used. What is not
    /// intact, or not of an enrolled device, counts in no figure and is named.
    /// Daily logs that are no phone's are those that office winter --keep has kept.
    Season(super::season::SeasonArgs),
    /// Settle by a signed decision of the office what the season lists: one animal reported twice, answers that differ.
    Decide {
        #[command(subcommand)]
        what: super::decide::DecideCommand,
    },
    /// The archive in open forms for other programs: CSV with a Frictionless data package, GeoJSON, a Darwin Core
    /// archive, newline-delimited JSON, Parquet by season. Places are blurred and names left out unless asked for.
    Export(super::export::ExportArgs),
    /// Print a JSON Schema (draft 2020-12); without a name, list the names.
    Schema {
        /// Which.
        #[arg(value_name = "NAME")]
        name: Option<String>,
    },
}

#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(super) struct LabArgs {
    #[command(subcommand)]
    pub what: Option<super::lab_parcels::LabCommand>,
    /// The carcass: its id, or the six-letter code on the phone.
    #[arg(value_name = "CARCASS", required = true)]
    pub carcass: Option<String>,
    /// Code of who enters it.
    #[arg(long, value_name = "CODE", required = true)]
    pub by: Option<String>,
    /// Completed birthdays by rings of cementum.
    #[arg(long, value_name = "N")]
    pub years: Option<i64>,
    /// The laboratory's certainty: A, B or C.
    #[arg(long, value_name = "GRADE", requires = "years")]
    pub grade: Option<String>,
    /// The laboratory.
    #[arg(long, value_name = "NAME", requires = "years")]
    pub lab: Option<String>,
    /// The tooth that was cut: first_incisor, other_incisor, canine or cheek_tooth.
    #[arg(long, value_name = "TOOTH", requires = "years")]
    pub tooth: Option<String>,
    /// The sample's number.
    #[arg(long, value_name = "NUMBER", requires = "years")]
    pub sample: Option<String>,
    /// When the laboratory reported, such as 2027-04-02T12:00:00-05:00.
    #[arg(long, value_name = "TIME", requires = "years")]
    pub reported: Option<String>,
    /// Completed birthdays known from the animal, not from its teeth.
    #[arg(long, value_name = "N", requires = "how")]
    pub known_age: Option<i64>,
    /// How: tagged_as_fawn, kept_from_birth or other_record.
    #[arg(long, value_name = "HOW", requires = "known_age")]
    pub how: Option<String>,
    /// When it died, known from a collar or a witness.
    #[arg(long, value_name = "TIME")]
    pub died: Option<String>,
    /// Animal whose DNA the laboratory typed from a swab: coyote, wolf, bobcat_or_lynx, cougar, dog, bear;
    /// none, where it found no predator.
    #[arg(long, value_name = "ANIMAL", requires = "dna_from")]
    pub dna: Option<String>,
    /// Where that swab came from: clot_wound (a wound with blood clotted in the flesh: only such a swab speaks
    /// of who killed), clean_wound, wound_not_known or elsewhere.
    #[arg(long, value_name = "PLACE", requires = "dna")]
    pub dna_from: Option<String>,
    /// The laboratory that typed it.
    #[arg(long, value_name = "NAME", requires = "dna")]
    pub dna_lab: Option<String>,
    /// The swab's number.
    #[arg(long, value_name = "NUMBER", requires = "dna")]
    pub dna_sample: Option<String>,
    /// When that laboratory reported, such as 2027-04-02T12:00:00-05:00.
    #[arg(long, value_name = "TIME", requires = "dna")]
    pub dna_reported: Option<String>,
    /// Animal on record at the kill itself: coyote, wolf, bobcat_or_lynx, cougar, dog, bear.
    #[arg(long, value_name = "ANIMAL", requires_all = ["killer_how", "killer_by"])]
    pub killer: Option<String>,
    /// Kind of that record: photo_or_camera, collar_record or witness.
    #[arg(long, value_name = "HOW", requires = "killer")]
    pub killer_how: Option<String>,
    /// Who saw it: the code of a person, a camera or a collar, never a name.
    #[arg(long, value_name = "CODE", requires = "killer")]
    pub killer_by: Option<String>,
    /// Of a tagged deer: whole days from its last catching to its death, as its owner says.
    #[arg(long, value_name = "N")]
    pub handled_days: Option<i64>,
    /// It corrects what the office entered before.
    #[arg(long, conflicts_with = "another")]
    pub correct: bool,
    /// It stands beside what the office entered before: another tooth, another laboratory.
    #[arg(long)]
    pub another: bool,
}

#[derive(Debug, Subcommand)]
pub(super) enum KeyCommand {
    /// Make the office key, once, wrapped by a passphrase.
    New,
    /// Print the fingerprint that crews compare when they load a card.
    Show,
}

#[derive(Debug, Subcommand)]
pub(super) enum TableCommand {
    /// Print the program's own table as JSON, to start from.
    Export,
    /// Check a table, JSON or signed: prints its name and digest, or names the row that cannot be used.
    Check {
        /// The table.
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Sign a table, once it holds; prints the signed file. A local card then carries it: office card --table.
    Sign {
        /// The table as JSON.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// Write it there instead.
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
}
