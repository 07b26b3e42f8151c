//! Where a run reads from and writes to.

use super::config::Refusal;
use super::error::CliError;
use super::exit::Exit;
use crate::office::plain::by_number;
use crate::record::Moment;
use std::io::{self, BufRead, BufReader, IsTerminal, Read, Write};
use std::time::{SystemTime, UNIX_EPOCH};

/// Standard input, output and error of one run, and what else it takes from the machine.
pub struct Streams<'a> {
    /// Standard input.
    pub input: Box<dyn Read + 'a>,
    /// Standard output: results.
    pub out: Box<dyn Write + 'a>,
    /// Standard error: what went wrong, and questions.
    pub err: Box<dyn Write + 'a>,
    /// Whether a person sits at the input.
    pub asks_person: bool,
    /// The office key's passphrase, where it was given beforehand (in the variable
    /// `MARROWBOOK_PASSPHRASE`).
    pub passphrase: Option<String>,
    /// Now.
    pub now: Moment,
}

impl Streams<'_> {
    /// The process's own.
    pub fn of_process() -> Self {
        let since_1970 = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_secs();
        let now = i64::try_from(since_1970).ok().and_then(|seconds| Moment::from_unix(seconds, 0).ok());
        Self {
            input: Box::new(io::stdin()),
            out: Box::new(io::stdout()),
            err: Box::new(io::stderr()),
            asks_person: io::stdin().is_terminal(),
            passphrase: std::env::var("MARROWBOOK_PASSPHRASE").ok(),
            now: now.unwrap_or(Moment::EPOCH),
        }
    }

    /// Writes one line of result. What others wrote may be in it: it orders no terminal and begins no line of its own.
    pub(super) fn line(&mut self, line: &str) -> Result<(), CliError> {
        writeln!(self.out, "{}", by_number(line)).map_err(CliError::Output)
    }

    /// Writes a text of several lines that is the program's own.
    pub(super) fn own_text(&mut self, text: &str) -> Result<(), CliError> {
        writeln!(self.out, "{text}").map_err(CliError::Output)
    }

    /// Says something beside the results.
    pub(super) fn note(&mut self, note: &str) {
        let _ = writeln!(self.err, "office: {}", by_number(note));
    }

    /// Asks a question that only `yes` answers; `false` where nobody can be asked.
    pub(super) fn confirmed(&mut self, question: &str) -> Result<bool, CliError> {
        if !self.asks_person {
            return Ok(false);
        }
        write!(self.err, "{question} ").and_then(|()| self.err.flush()).map_err(CliError::Output)?;
        let mut answer = String::new();
        BufReader::new(&mut self.input).read_line(&mut answer).map_err(CliError::Output)?;
        Ok(answer.trim().eq_ignore_ascii_case("yes"))
    }

    /// The office key's passphrase: as given beforehand, or asked for without showing it.
    pub(super) fn passphrase(&mut self, question: &str) -> Result<String, CliError> {
        match &self.passphrase {
            Some(given) => Ok(given.clone()),
            None if self.asks_person => rpassword::prompt_password(format!("{question} ")).map_err(CliError::Output),
            None => Err(CliError::NoPassphrase),
        }
    }

    /// Says why the arguments were not taken, or gives the help that was asked for.
    pub(super) fn refuse(&mut self, refusal: &Refusal) -> Exit {
        match refusal {
            Refusal::Parser(error) if !error.use_stderr() => {
                let _ = write!(self.out, "{error}");
                Exit::Done
            }
            Refusal::Parser(error) => {
                let _ = write!(self.err, "{error}");
                Exit::Usage
            }
            Refusal::Value { argument, reason } => {
                let _ = writeln!(self.err, "office: {argument}: {}", by_number(reason));
                Exit::Usage
            }
        }
    }

    /// Says what went wrong and what to do next.
    pub(super) fn fail(&mut self, error: &CliError) -> Exit {
        // A reader that has gone away (a closed pipe) is no failure to speak of.
        if !matches!(error, CliError::Output(cause) if cause.kind() == io::ErrorKind::BrokenPipe) {
            let _ = writeln!(self.err, "office: {}", by_number(&error.to_string()));
            if let Some(next) = error.next() {
                let _ = writeln!(self.err, "  next: {}", by_number(next));
            }
        }
        error.exit()
    }
}
