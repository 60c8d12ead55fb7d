//! Files: read up to a bound, written whole or not at all.

use std::io::{Read as _, Write as _};
use std::path::Path;

use crate::error::{Error, Problem};

/// The longest text that is read: plan, catalogue file, price book, readings. A full plan takes some 20 kB, and so a thousandth of
/// it; what is longer is another file by mistake, and would only fill the memory.
pub const MOST_TEXT_BYTES: usize = 10_000_000;

/// How the neighbour that a file is first written into is called: hidden, and with an ending that no plan, page or list has.
const NEIGHBOUR: (&str, &str) = (".raisedbody-", ".part");

/// Reads a file of text; no more of it than [`MOST_TEXT_BYTES`] is ever in the memory.
///
/// # Errors
/// A file that is too long, is no text in UTF-8, or that the system does not give.
pub fn read_text(path: &Path) -> Result<String, Error> {
    let fail = |source| Error::File { action: "read", path: path.to_owned(), source };
    let mut text = String::new();
    let most = MOST_TEXT_BYTES as u64 + 1;
    let read = std::fs::File::open(path).map_err(fail)?.take(most).read_to_string(&mut text);
    // A text that is cut within a letter is too long before it is anything else.
    let length = std::fs::metadata(path).map_or(0, |about| about.len());
    if length > MOST_TEXT_BYTES as u64 {
        return Err(too_long(&path.display().to_string(), length).into());
    }
    read.map_err(fail)?;
    check_length(&path.display().to_string(), &text)?;
    Ok(text)
}

/// Refuses a text that is longer than [`MOST_TEXT_BYTES`]; `name` says which.
///
/// # Errors
/// It is.
pub fn check_length(name: &str, text: &str) -> Result<(), Problem> {
    if text.len() > MOST_TEXT_BYTES { Err(too_long(name, text.len() as u64)) } else { Ok(()) }
}

fn too_long(name: &str, bytes: u64) -> Problem {
    Problem::out_of_range(name, format!("a text of {bytes} bytes"), format!("at most {MOST_TEXT_BYTES} bytes"))
}

/// Writes a file whole or not at all: into a neighbour, then renamed over the name.
///
/// A process that is killed meanwhile leaves the file as it was, and may leave the neighbour: `.raisedbody-….part`, which nothing
/// reads and which can be deleted.
///
/// # Errors
/// The file exists and `overwrite` is false, or the system refuses.
pub fn write_whole(path: &Path, bytes: &[u8], overwrite: bool) -> Result<(), Error> {
    let fail = |source| Error::File { action: "write", path: path.to_owned(), source };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(NEIGHBOUR.0).suffix(NEIGHBOUR.1);
    // As any new file: what the user's own mask leaves of "all may read and write".
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder).map_err(fail)?;
    file.write_all(bytes).map_err(fail)?;
    file.as_file().sync_all().map_err(fail)?;
    let kept = if overwrite { file.persist(path) } else { file.persist_noclobber(path) };
    kept.map(|_| ()).map_err(|e| fail(e.error))
}
