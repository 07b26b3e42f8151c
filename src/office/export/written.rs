//! All forms of an export, written as they are made: carcass after carcass, then outings, then reports. No more is held
//! than the parts of the archive that are worked on, and the rows that wait for their group of a Parquet file.

use std::collections::BTreeMap;
use std::io::Write;

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::findings::{Beside, Linked, beside};
use super::gathered::{From, numbers, tables};
#[cfg(feature = "cli")]
use super::parquet;
#[cfg(feature = "cli")]
use super::table::Table;
use super::{Asked, ExportError, Out, Tables, dwc, geojson, lines, package};
use crate::card::Card;
use crate::office::season::rows::row;
use crate::office::streamed::Streamed;
use crate::reading::{Given, winter_log};
use crate::record::{Digest, Digesting, Fold, Moment, Sheet};

/// What was written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Written {
    /// Carcasses.
    pub carcasses: usize,
    /// Standing answers.
    pub answers: usize,
    /// Files.
    pub files: usize,
}

/// Texts of some carcasses, or of some outings or reports, ready to be put behind each other.
#[derive(Default)]
struct Texts {
    csv: [Vec<u8>; 5],
    features: Vec<u8>,
    lines: Vec<u8>,
    dwc: [Vec<u8>; 2],
    /// The tables, for the form that is written by columns.
    #[cfg(feature = "cli")]
    tables: Vec<[Table; 5]>,
    carcasses: usize,
    examinations: usize,
    answers: usize,
    linked: Linked,
}

impl Texts {
    fn take(&mut self, tables: Tables) -> Result<(), ExportError> {
        for (text, table) in self.csv.iter_mut().zip(tables.all()) {
            text.extend(package::rows(table)?);
        }
        self.features.extend(geojson::features(&tables)?);
        self.lines.extend(lines::lines(&tables)?);
        for (text, lines) in self.dwc.iter_mut().zip(dwc::lines(&tables)) {
            text.extend(lines);
        }
        self.carcasses += tables.carcasses.rows.len();
        self.examinations += tables.examinations.rows.len();
        self.answers += tables.findings.rows.len();
        #[cfg(feature = "cli")]
        let Tables { carcasses, examinations, findings, readings, shares, .. } = tables;
        #[cfg(feature = "cli")]
        self.tables.push([carcasses, examinations, findings, readings, shares]);
        Ok(())
    }
}

/// Writes every form.
///
/// # Errors
/// See [`ExportError`]. What was begun is left half written: whoever gave `out` takes it away again.
pub fn write(streamed: &Streamed, asked: &Asked, out: &mut dyn Out) -> Result<Written, ExportError> {
    let card = streamed.files.cards.today(Moment::EPOCH);
    let of_phones = winter_log::logs(&streamed.winter_logs()?);
    let crews = numbers(&streamed.files);
    let making = Making { asked, card: card.map(|given| given.card), crews: &crews };
    let none = Fold::default();
    let empty = tables(&making.from(&none));
    let (mut forms, mut linked) = (None, Linked::default());
    let mut put = |texts: Texts, out: &mut dyn Out| -> Result<Linked, ExportError> {
        let forms = match &mut forms {
            Some(forms) => forms,
            // Nothing is begun before there is something to write.
            none if texts.examinations > 0 => none.insert(Forms::begin(&empty, out)?),
            _ => return Ok(texts.linked),
        };
        forms.take(texts, out)
    };
    streamed.carcasses(
        |folded| {
            let given = Given { card, ..Given::default() }.with(&folded, &of_phones);
            let mut texts = Texts::default();
            for carcass in folded.carcasses.values() {
                let row = row(carcass, &given, &streamed.files.crews);
                if asked.winter.is_none() || row.winter == asked.winter {
                    texts.take(tables(&From { rows: vec![&row], ..making.from(&folded) }))?;
                    // All of them are written where no winter was asked for.
                    if asked.winter.is_some() {
                        texts.linked.take(carcass);
                    }
                }
            }
            Ok(texts)
        },
        |texts: Result<Texts, ExportError>| {
            let more = put(texts?, out)?;
            linked.outings.extend(more.outings);
            linked.reports.extend(more.reports);
            Ok::<_, ExportError>(())
        },
    )?;
    let of_sheets = |folded: &Fold, kind: Beside, sheets: &BTreeMap<Uuid, Sheet>| {
        let mut texts = Texts::default();
        for (id, sheet) in sheets {
            let findings = beside(&making.from(folded), kind, *id, sheet, &linked);
            texts.take(Tables { findings, ..empty.clone() })?;
        }
        Ok(texts)
    };
    let mut take = |texts: Result<Texts, ExportError>| put(texts?, out).map(drop);
    streamed.outings(|folded| of_sheets(&folded, Beside::Outing, &folded.outings), &mut take)?;
    streamed.reports(|folded| of_sheets(&folded, Beside::Report, &folded.reports), &mut take)?;
    forms.ok_or(ExportError::Nothing)?.end(&empty, out)
}

/// What all carcasses are made into rows with.
struct Making<'a> {
    asked: &'a Asked,
    card: Option<&'a Card>,
    crews: &'a BTreeMap<&'a str, usize>,
}

impl<'a> Making<'a> {
    /// With nothing in it yet.
    fn from<'b>(&self, folded: &'b Fold) -> From<'b>
    where
        'a: 'b,
    {
        From { asked: self.asked, folded, card: self.card, rows: Vec::new(), crews: self.crews }
    }
}

/// A file with what its description says of it.
struct Described {
    file: Box<dyn Write + Send>,
    bytes: u64,
    digest: Digesting,
}

impl Described {
    fn begin(name: &str, head: &[u8], out: &mut dyn Out) -> Result<Self, ExportError> {
        let file = out.file(name).map_err(ExportError::Out)?;
        let mut begun = Self { file, bytes: 0, digest: Digest::bit_by_bit() };
        begun.put(head)?;
        Ok(begun)
    }

    fn put(&mut self, bytes: &[u8]) -> Result<(), ExportError> {
        self.bytes += bytes.len() as u64;
        self.digest.take(bytes);
        self.file.write_all(bytes).map_err(ExportError::Out)
    }

    fn end(mut self) -> Result<(u64, Digest), ExportError> {
        self.file.flush().map_err(ExportError::Out)?;
        Ok((self.bytes, self.digest.done()))
    }
}

/// Every form in the making.
struct Forms {
    csv: Vec<Described>,
    geojson: Described,
    /// What stands behind the last feature.
    after: Vec<u8>,
    lines: Described,
    dwc: Vec<Described>,
    #[cfg(feature = "cli")]
    parquet: parquet::Files,
    written: Written,
}

impl Forms {
    fn begin(empty: &Tables, out: &mut dyn Out) -> Result<Self, ExportError> {
        let csv =
            empty.all().into_iter().map(|table| Described::begin(&package::name(table), &package::head(table)?, out));
        let csv = csv.collect::<Result<Vec<_>, _>>()?;
        let (before, after) = geojson::ends(empty)?;
        let dwc = dwc::NAMES.into_iter().zip(dwc::heads()).map(|(name, head)| Described::begin(name, &head, out));
        let dwc = dwc.collect::<Result<_, _>>()?;
        Ok(Self {
            csv,
            geojson: Described::begin(geojson::NAME, &before, out)?,
            after,
            dwc,
            lines: Described::begin(lines::NAME, &[], out)?,
            #[cfg(feature = "cli")]
            parquet: parquet::Files::begin(empty),
            written: Written::default(),
        })
    }

    #[cfg_attr(not(feature = "cli"), allow(unused_variables))]
    fn take(&mut self, texts: Texts, out: &mut dyn Out) -> Result<Linked, ExportError> {
        for (file, text) in self.csv.iter_mut().zip(&texts.csv).chain(self.dwc.iter_mut().zip(&texts.dwc)) {
            file.put(text)?;
        }
        if let Some(features) = texts.features.strip_suffix(b",") {
            if self.written.carcasses > 0 {
                self.geojson.put(b",")?;
            }
            self.geojson.put(features)?;
        }
        self.lines.put(&texts.lines)?;
        self.written.carcasses += texts.carcasses;
        self.written.answers += texts.answers;
        #[cfg(feature = "cli")]
        for tables in texts.tables {
            self.parquet.take(tables, out)?;
        }
        Ok(texts.linked)
    }

    fn end(mut self, empty: &Tables, out: &mut dyn Out) -> Result<Written, ExportError> {
        self.geojson.put(&self.after)?;
        let mut files = self.csv.len() + self.dwc.len();
        #[cfg(feature = "cli")]
        {
            files += self.parquet.end()?;
        }
        for file in self.dwc.into_iter().chain([self.geojson, self.lines]) {
            file.end()?;
        }
        files += 2;
        let csv = self.csv.into_iter().map(Described::end).collect::<Result<Vec<_>, _>>()?;
        // Last of all: where they are, the rest is there too.
        for (name, bytes) in [dwc::about(), package::description(empty, &csv)?] {
            let mut file = out.file(&name).map_err(ExportError::Out)?;
            file.write_all(&bytes).and_then(|()| file.flush()).map_err(ExportError::Out)?;
            files += 1;
        }
        Ok(Written { files, ..self.written })
    }
}
