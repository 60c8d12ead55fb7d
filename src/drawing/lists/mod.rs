//! The lists of an evaluation by name: what a job packet prints and a spreadsheet opens.

mod cell;
mod registry;

use std::io;
use std::path::{Path, PathBuf};

use crate::error::{Error, Problem};
use crate::plan::{Evaluation, write_whole};

pub use cell::{is_number, safe_cell};

use registry::{KINDS, Kind};

/// A list of an evaluation, as the shop reads it.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Its name, by which it is asked for: `order`, `lift steps`.
    pub name: &'static str,
    /// What it holds.
    pub title: &'static str,
    /// A heading for each column.
    pub headings: Vec<&'static str>,
    /// Its rows, a cell for each heading.
    pub rows: Vec<Vec<String>>,
    /// Columns of numbers for a spreadsheet, where the rows have sizes as the shop reads them: a heading that ends in its
    /// unit where it has one, and a number for each row.
    pub numbers: Vec<(&'static str, Vec<Option<f64>>)>,
    /// What there is to say where it has no rows.
    pub empty: &'static str,
}

/// The names of all lists, in the order of the work.
///
/// # Example
/// ```
/// use raisedbody::drawing::lists;
/// assert!(lists::names().any(|name| name == "order"));
/// ```
pub fn names() -> impl Iterator<Item = &'static str> {
    KINDS.iter().map(|kind| kind.name)
}

/// A list by its name; it may have no rows.
///
/// # Errors
/// There is no such list: the nearest name is suggested.
///
/// # Example
/// ```
/// use raisedbody::drawing::lists;
/// use raisedbody::plan::Plan;
/// let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
/// let inserts = lists::list(&build, "inserts").unwrap();
/// assert_eq!(inserts.rows[0][0], "L2");
/// assert!(lists::list(&build, "schedule").unwrap().rows.is_empty());
/// assert!(lists::list(&build, "shopping").is_err());
/// ```
pub fn list(e: &Evaluation, name: &str) -> Result<List, Problem> {
    let kind = KINDS.iter().find(|kind| kind.name == name);
    kind.map(|kind| kind.list(e)).ok_or_else(|| Problem::unknown_name("list", "list", name, names()))
}

/// Every list.
pub fn lists(e: &Evaluation) -> Vec<List> {
    KINDS.iter().map(|kind| kind.list(e)).collect()
}

impl Kind {
    fn list(&self, e: &Evaluation) -> List {
        let content = (self.content)(e);
        List {
            name: self.name,
            title: self.title,
            headings: content.headings,
            rows: content.rows,
            numbers: content.numbers,
            empty: self.empty,
        }
    }
}

impl List {
    /// The list as comma-separated values by RFC 4180: headings, then the rows, each with its numbers. A spreadsheet takes no
    /// cell of it for a formula ([`safe_cell`]).
    ///
    /// # Errors
    /// None but of the writer itself.
    pub fn csv(&self) -> Result<String, Error> {
        let failed = |source: io::Error| Error::File { action: "write", path: self.file_name().into(), source };
        let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::<u8>::new());
        let headings = self.headings.iter().chain(self.numbers.iter().map(|(heading, _)| heading));
        out.write_record(headings.map(|heading| safe_cell(heading).into_owned())).map_err(|e| failed(e.into()))?;
        for (i, row) in self.rows.iter().enumerate() {
            let number = |(_, values): &(_, Vec<Option<f64>>)| {
                values.get(i).copied().flatten().map_or_else(String::new, |value| value.to_string())
            };
            let cells = row.iter().map(|cell| safe_cell(cell).into_owned()).chain(self.numbers.iter().map(number));
            out.write_record(cells).map_err(|e| failed(e.into()))?;
        }
        let bytes = out.into_inner().map_err(|e| failed(e.into_error()))?;
        String::from_utf8(bytes).map_err(|e| failed(io::Error::new(io::ErrorKind::InvalidData, e)))
    }

    /// The file that it is written to in a folder of lists.
    pub fn file_name(&self) -> String {
        format!("{}.csv", self.name)
    }
}

/// Writes every list into a folder, which is made where it is not there: a file each, those without rows too. Where one is there
/// and `overwrite` is false, none is written.
///
/// # Errors
/// A file is there and `overwrite` is false, or the system refuses.
pub fn write(e: &Evaluation, folder: &Path, overwrite: bool) -> Result<Vec<PathBuf>, Error> {
    let file = |list: List| Ok((folder.join(list.file_name()), list.csv()?));
    let files = lists(e).into_iter().map(file).collect::<Result<Vec<_>, Error>>()?;
    if let Some((path, text)) = files.iter().find(|(path, _)| !overwrite && path.exists()) {
        // Refuses, with the system's own error.
        write_whole(path, text.as_bytes(), false)?;
    }
    let refused = |source| Error::File { action: "write", path: folder.to_owned(), source };
    std::fs::create_dir_all(folder).map_err(refused)?;
    for (path, text) in &files {
        write_whole(path, text.as_bytes(), overwrite)?;
    }
    Ok(files.into_iter().map(|(path, _)| path).collect())
}
