//! What can be wrong with an input: every problem names its field, the value as written, what is allowed, and the fix.

use std::borrow::Cow;
use std::fmt;
use std::path::PathBuf;

use thiserror::Error;

/// One thing wrong with an input.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum Problem {
    /// A key that the form does not have.
    #[error("{}: no such entry{}", short(.path), suggest(.nearest.as_deref()))]
    UnknownKey {
        /// Where.
        path: String,
        /// The entry that was probably meant.
        nearest: Option<String>,
    },
    /// An entry that must be there.
    #[error("{}: missing; {fix}", short(.path))]
    Missing {
        /// Where.
        path: String,
        /// What to write.
        fix: String,
    },
    /// A value that cannot be read.
    #[error("{}: {}", short(.path), middle_out(.problem, LONGEST_TOLD))]
    Unreadable {
        /// Where.
        path: String,
        /// The value as written.
        value: String,
        /// What is wrong and what to write.
        problem: String,
    },
    /// A value outside what is allowed.
    #[error("{}: {} is out of range; allowed: {allowed}", short(.path), short(.value))]
    OutOfRange {
        /// Where.
        path: String,
        /// The value as written.
        value: String,
        /// What is allowed.
        allowed: String,
    },
    /// A name that is in no list known here.
    #[error("{}: unknown {what} \"{}\"{}", short(.path), short(.value), suggest(.nearest.as_deref()))]
    UnknownName {
        /// Where.
        path: String,
        /// The name as written.
        value: String,
        /// What it should name.
        what: String,
        /// The name that was probably meant, or those allowed.
        nearest: Option<String>,
    },
    /// Two values that cannot both be right.
    #[error("{}: {}: {}", short(.path), short(.value), middle_out(.problem, LONGEST_TOLD))]
    Contradiction {
        /// Where.
        path: String,
        /// The value as written.
        value: String,
        /// What it contradicts and how to mend it.
        problem: String,
    },
}

/// Letters of a value that a message tells: it is shown again to be found, not to be read whole.
const LONGEST_SHOWN: usize = 200;

/// Letters of what is wrong with it: the longest lists of what may be written are shorter.
const LONGEST_TOLD: usize = 4000;

/// A value or a path as a message shows it: a long one without its middle.
pub(crate) fn short(text: &str) -> Cow<'_, str> {
    middle_out(text, LONGEST_SHOWN)
}

fn middle_out(text: &str, longest: usize) -> Cow<'_, str> {
    // No text has more letters than bytes.
    if text.len() <= longest || text.chars().count() <= longest {
        return Cow::Borrowed(text);
    }
    let count = text.chars().count();
    let half = longest / 2;
    let at = |letter: usize| text.char_indices().nth(letter).map_or(text.len(), |(place, _)| place);
    Cow::Owned(format!("{} … {} letters … {}", &text[..at(half)], count - 2 * half, &text[at(count - half)..]))
}

fn suggest(nearest: Option<&str>) -> String {
    nearest.map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"))
}

impl Problem {
    /// The field: a path such as `skin.gauge` or `fit_out[2].mass`.
    pub fn path(&self) -> &str {
        match self {
            Self::UnknownKey { path, .. }
            | Self::Missing { path, .. }
            | Self::Unreadable { path, .. }
            | Self::OutOfRange { path, .. }
            | Self::UnknownName { path, .. }
            | Self::Contradiction { path, .. } => path,
        }
    }

    /// The value as written, where there is one.
    pub fn value(&self) -> Option<&str> {
        match self {
            Self::UnknownKey { .. } | Self::Missing { .. } => None,
            Self::Unreadable { value, .. }
            | Self::OutOfRange { value, .. }
            | Self::UnknownName { value, .. }
            | Self::Contradiction { value, .. } => Some(value),
        }
    }

    /// The same problem with its value told in other words; unchanged where it has none.
    #[must_use]
    pub fn with_value(mut self, written: String) -> Self {
        match &mut self {
            Self::UnknownKey { .. } | Self::Missing { .. } => {}
            Self::Unreadable { value, .. }
            | Self::OutOfRange { value, .. }
            | Self::UnknownName { value, .. }
            | Self::Contradiction { value, .. } => *value = written,
        }
        self
    }

    /// The same problem of a field that goes by another name.
    #[must_use]
    pub fn with_path(mut self, name: impl Into<String>) -> Self {
        match &mut self {
            Self::UnknownKey { path, .. }
            | Self::Missing { path, .. }
            | Self::Unreadable { path, .. }
            | Self::OutOfRange { path, .. }
            | Self::UnknownName { path, .. }
            | Self::Contradiction { path, .. } => *path = name.into(),
        }
        self
    }

    /// A value outside what is allowed.
    pub fn out_of_range(path: impl Into<String>, value: impl fmt::Display, allowed: impl Into<String>) -> Self {
        Self::OutOfRange { path: path.into(), value: value.to_string(), allowed: allowed.into() }
    }

    /// Two values that cannot both be right.
    pub fn contradiction(path: impl Into<String>, value: impl fmt::Display, problem: impl Into<String>) -> Self {
        Self::Contradiction { path: path.into(), value: value.to_string(), problem: problem.into() }
    }

    /// A missing entry.
    pub fn missing(path: impl Into<String>, fix: impl Into<String>) -> Self {
        Self::Missing { path: path.into(), fix: fix.into() }
    }

    /// A name in none of the lists; the nearest of `known` is suggested.
    pub fn unknown_name<'a>(
        path: impl Into<String>,
        what: &str,
        value: &str,
        known: impl IntoIterator<Item = &'a str>,
    ) -> Self {
        Self::UnknownName {
            path: path.into(),
            value: value.to_owned(),
            what: what.to_owned(),
            nearest: nearest(value, known).map(str::to_owned),
        }
    }
}

/// The one of a few things that goes by this name.
///
/// # Errors
/// There is none: the nearest name is suggested, or all of them where none is near.
pub fn by_name<T: Copy>(
    path: &str,
    what: &str,
    value: &str,
    all: &[T],
    name: fn(T) -> &'static str,
) -> Result<T, Problem> {
    all.iter().copied().find(|&thing| name(thing) == value).ok_or_else(|| {
        let names: Vec<&str> = all.iter().map(|&thing| name(thing)).collect();
        Problem::UnknownName {
            path: path.to_owned(),
            value: value.to_owned(),
            what: what.to_owned(),
            nearest: Some(nearest(value, names.iter().copied()).map_or_else(|| names.join("\" or \""), str::to_owned)),
        }
    })
}

/// The name most like `word`, if any is like it at all.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // What is far longer than any name is like none, and would take long to be held against all of them.
    if word.len() > LONGEST_SHOWN {
        return None;
    }
    let lower = word.to_lowercase();
    known
        .into_iter()
        .map(|name| (strsim::jaro_winkler(&lower, &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness > 0.6)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// A problem and where it stands in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// What is wrong.
    pub problem: Problem,
    /// Line and column, both from 1, where the input was a text.
    pub place: Option<(usize, usize)>,
}

impl fmt::Display for Placed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.problem)?;
        match self.place {
            Some((line, column)) => write!(f, " (line {line}, column {column})"),
            None => Ok(()),
        }
    }
}

impl From<Problem> for Placed {
    fn from(problem: Problem) -> Self {
        Self { problem, place: None }
    }
}

/// Why a plan, a catalogue file or a joint could not be used.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum Error {
    /// A file could not be read or written.
    #[error("cannot {action} {}: {source}", middle_out(&path.display().to_string(), LONGEST_TOLD))]
    File {
        /// `read` or `write`.
        action: &'static str,
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// The text is not TOML.
    #[error("not valid TOML at line {line}, column {column}: {message}")]
    Syntax {
        /// Line from 1.
        line: usize,
        /// Column from 1.
        column: usize,
        /// What the parser said.
        message: String,
    },
    /// Written for a later version of this library.
    #[error(
        "schema: this plan is written for schema {found}; this version reads schema {supported}. Install a newer version"
    )]
    NewerSchema {
        /// The plan's schema.
        found: i64,
        /// The newest that is read here.
        supported: i64,
    },
    /// The input can be read but not used; every independent problem is listed.
    #[error("{}", list(.0))]
    Input(Vec<Placed>),
}

fn list(problems: &[Placed]) -> String {
    match problems {
        [one] => one.to_string(),
        many => {
            let lines: Vec<String> = many.iter().map(|p| format!("  {p}")).collect();
            format!("{} problems\n{}", many.len(), lines.join("\n"))
        }
    }
}

impl From<Problem> for Error {
    fn from(problem: Problem) -> Self {
        Self::Input(vec![problem.into()])
    }
}

impl Error {
    /// An input error where there is any problem, else nothing.
    pub fn from_problems(problems: Vec<Problem>) -> Result<(), Self> {
        if problems.is_empty() { Ok(()) } else { Err(Self::Input(problems.into_iter().map(Placed::from).collect())) }
    }
}
