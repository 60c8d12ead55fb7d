//! Cells that a spreadsheet takes for what they are: text stays text, numbers stay numbers.

use std::borrow::Cow;

/// What starts a formula in a spreadsheet, full-width forms included (OWASP, CSV Injection,
/// owasp.org/www-community/attacks/CSV_Injection).
const SIGNS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// A line or a cell may end at these where a spreadsheet parts cells otherwise than by commas; what follows starts anew.
const PARTING: [char; 4] = [';', '\t', '\r', '\n'];

/// A plain number: digits with at most a sign, a point and an exponent.
pub fn is_number(cell: &str) -> bool {
    let plain = |c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.' | 'e' | 'E');
    cell.chars().all(plain) && cell.parse::<f64>().is_ok()
}

/// Not seen, so a spreadsheet may pass over it: blanks, marks of order and of direction.
fn unseen(c: char) -> bool {
    c.is_whitespace()
        || c.is_control()
        || matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}')
}

/// The cell with an apostrophe before whatever a spreadsheet could take for a formula: at its start, also after blanks, and after
/// a sign at which another spreadsheet starts a new cell. A plain number stays as it is.
///
/// # Example
/// ```
/// use raisedbody::drawing::lists::safe_cell;
/// assert_eq!(safe_cell("=HYPERLINK(\"x\")"), "'=HYPERLINK(\"x\")");
/// assert_eq!(safe_cell("-5.2"), "-5.2");
/// ```
pub fn safe_cell(cell: &str) -> Cow<'_, str> {
    if is_number(cell) {
        return Cow::Borrowed(cell);
    }
    let mut safe = String::new();
    let mut at_start = true;
    if cell.starts_with(&PARTING[1..]) || cell.trim_start_matches(unseen).starts_with(SIGNS) {
        safe.push('\'');
        at_start = false;
    }
    for c in cell.chars() {
        if at_start && SIGNS.contains(&c) {
            safe.push('\'');
        }
        at_start = PARTING.contains(&c) || (at_start && unseen(c));
        safe.push(c);
    }
    if safe == cell { Cow::Borrowed(cell) } else { Cow::Owned(safe) }
}
