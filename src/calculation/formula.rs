//! Formulas as they stand in checks (`F_b,Rd = min(α d, e1/1.2) f_u t / γ_M2, α by t1/t`) typeset in HTML and LaTeX.
//!
//! A letter is a symbol, with what follows `_`, or digits right after it, for its index; two letters or more are a word,
//! or a function where they name one.

use std::fmt::Write as _;
use std::iter::Peekable;
use std::str::Chars;

/// A piece of a formula.
#[derive(Debug, PartialEq)]
enum Piece {
    Symbol { base: String, index: String },
    Function(String),
    Word(String),
    Other(char),
}

const FUNCTIONS: [&str; 5] = ["min", "max", "exp", "ln", "tan"];

fn pieces(formula: &str) -> Vec<Piece> {
    let mut chars = formula.chars().peekable();
    let mut pieces = Vec::new();
    while let Some(&c) = chars.peek() {
        if c.is_alphabetic() && c != 'Σ' {
            pieces.push(name(&mut chars));
        } else {
            pieces.push(Piece::Other(c));
            chars.next();
        }
    }
    as_article(&mut pieces);
    pieces
}

/// The characters from here on for which `is` holds.
fn take(chars: &mut Peekable<Chars<'_>>, is: impl Fn(char) -> bool) -> String {
    let mut taken = String::new();
    while let Some(c) = chars.next_if(|c| is(*c)) {
        taken.push(c);
    }
    taken
}

fn name(chars: &mut Peekable<Chars<'_>>) -> Piece {
    let letters = take(chars, char::is_alphabetic);
    let mut ahead = chars.clone();
    let mark = take(&mut ahead, |c| c == '\'');
    if ahead.peek() == Some(&'_') && letters.chars().count() == 1 {
        ahead.next();
        let mut index = take(&mut ahead, in_index);
        // A comma belongs to the index where a letter follows it at once: "F_b,Rd", but not "t_1, t_2".
        let mut further = ahead.clone();
        if further.next() == Some(',') && further.peek().is_some_and(|c| c.is_alphabetic()) {
            index.push(',');
            index.push_str(&take(&mut further, in_index));
            ahead = further;
        }
        *chars = ahead;
        return Piece::Symbol { base: letters + &mark, index };
    }
    if FUNCTIONS.contains(&letters.as_str()) {
        return Piece::Function(letters);
    }
    let mut ahead = chars.clone();
    let digits = take(&mut ahead, |c| c.is_ascii_digit());
    // A clause such as J4.3.1 is a word.
    let clause = ahead.peek() == Some(&'.') && ahead.clone().nth(1).is_some_and(|c| c.is_ascii_digit());
    if letters.chars().count() == 1 && (!clause || digits.is_empty()) {
        *chars = ahead;
        return Piece::Symbol { base: letters, index: digits };
    }
    Piece::Word(letters + &take(chars, |c| c.is_alphanumeric() || matches!(c, '\'' | '-') || (clause && c == '.')))
}

/// A raised figure is a power, not part of the index.
fn in_index(c: char) -> bool {
    c.is_alphanumeric() && !matches!(c, '²' | '³')
}

/// "a" between words is no symbol.
fn as_article(pieces: &mut [Piece]) {
    for i in 0..pieces.len() {
        let is_a = pieces.get(i) == Some(&Piece::Symbol { base: "a".to_owned(), index: String::new() });
        let word = |at: Option<usize>| at.and_then(|at| pieces.get(at)).is_some_and(|p| matches!(p, Piece::Word(_)));
        if is_a && word(i.checked_add(2)) && (i < 2 || word(i.checked_sub(2))) {
            pieces[i] = Piece::Word("a".to_owned());
        }
    }
}

/// As a fragment of HTML.
pub(super) fn html(formula: &str) -> String {
    let mut out = String::new();
    let safe = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    for piece in pieces(formula) {
        // Writing to a string cannot fail.
        let _ = match piece {
            Piece::Symbol { base, index } if index.is_empty() => write!(out, "<i>{base}</i>"),
            Piece::Symbol { base, index } => write!(out, "<i>{base}</i><sub>{index}</sub>"),
            Piece::Function(name) | Piece::Word(name) => write!(out, "{}", safe(&name)),
            Piece::Other(c) => write!(out, "{}", safe(&c.to_string())),
        };
    }
    out
}

/// As LaTeX in mathematics mode.
pub(super) fn latex(formula: &str) -> String {
    let mut out = String::new();
    // What closes each bracket that is open.
    let mut open: Vec<char> = Vec::new();
    let pieces = pieces(formula);
    let mut rest = pieces.iter().peekable();
    while let Some(piece) = rest.next() {
        // Writing to a string cannot fail.
        let _ = match piece {
            Piece::Symbol { base, index } => {
                let base: String = base.chars().map(letter).collect();
                let index: String = index.chars().map(letter).collect();
                if index.is_empty() { write!(out, "{base}") } else { write!(out, "{base}_{{\\mathrm{{{index}}}}}") }
            }
            Piece::Function(name) => write!(out, "\\{name}"),
            Piece::Word(word) => write!(out, "\\text{{{}}}", escaped(word)),
            Piece::Other('√') if rest.peek() == Some(&&Piece::Other('(')) => {
                rest.next();
                open.push('}');
                write!(out, "\\sqrt{{")
            }
            Piece::Other('(') => {
                open.push(')');
                write!(out, "(")
            }
            Piece::Other(')') => write!(out, "{}", open.pop().unwrap_or(')')),
            Piece::Other(' ') => write!(out, "\\ "),
            Piece::Other(c) => write!(out, "{}", sign(*c)),
        };
    }
    // A root that was never closed would not typeset.
    out.extend(open.into_iter().filter(|&c| c == '}'));
    out
}

/// Text outside mathematics: what LaTeX would take for a command, escaped, and the signs that checks use.
pub(super) fn escaped(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\\' => "\\textbackslash{}".to_owned(),
            '~' => "\\textasciitilde{}".to_owned(),
            '^' => "\\textasciicircum{}".to_owned(),
            '&' | '%' | '$' | '#' | '_' | '{' | '}' => format!("\\{c}"),
            _ if c.is_ascii() => c.to_string(),
            _ => match sign(c) {
                set if set.starts_with("\\text") => set,
                set => format!("\\ensuremath{{{}}}", if c.is_alphabetic() { letter(c) } else { set }),
            },
        })
        .collect()
}

fn letter(c: char) -> String {
    let name = match c {
        'α' => "alpha",
        'β' => "beta",
        'γ' => "gamma",
        'δ' => "delta",
        'ε' => "varepsilon",
        'η' => "eta",
        'λ' => "lambda",
        'μ' | 'µ' => "mu",
        'ν' => "nu",
        'π' => "pi",
        'ρ' => "rho",
        'σ' => "sigma",
        'τ' => "tau",
        'φ' => "phi",
        'Δ' => "Delta",
        'Ω' => "Omega",
        _ if c.is_ascii() => return c.to_string(),
        _ => return format!("\\text{{{c}}}"),
    };
    format!("\\{name} ")
}

fn sign(c: char) -> String {
    let name = match c {
        '·' => "\\cdot ",
        '×' => "\\times ",
        '−' => "-",
        '≤' => "\\leq ",
        '≥' => "\\geq ",
        '→' => "\\to ",
        '±' => "\\pm ",
        '°' => "^{\\circ}",
        '²' => "^{2}",
        '³' => "^{3}",
        'Σ' => "\\sum ",
        '√' => "\\surd ",
        '%' => "\\%",
        '–' | '—' => return "\\textendash{}".to_owned(),
        _ if c.is_ascii() => return c.to_string(),
        _ => return format!("\\text{{{c}}}"),
    };
    name.to_owned()
}

#[cfg(test)]
mod tests {
    use super::{escaped, html, latex};
    use rstest::rstest;

    #[rstest]
    #[case("F_b,Rd = α d / γ_M2", "<i>F</i><sub>b,Rd</sub> = <i>α</i> <i>d</i> / <i>γ</i><sub>M2</sub>")]
    #[case("t_1, t_2", "<i>t</i><sub>1</sub>, <i>t</i><sub>2</sub>")]
    #[case("e1 ≥ 2 d at a panel edge", "<i>e</i><sub>1</sub> ≥ 2 <i>d</i> at a panel edge")]
    #[case("a − r", "<i>a</i> − <i>r</i>")]
    #[case("d'_w < 3", "<i>d'</i><sub>w</sub> &lt; 3")]
    #[case("P_n (J3.3.1)", "<i>P</i><sub>n</sub> (J3.3.1)")]
    fn typeset_html(#[case] formula: &str, #[case] expected: &str) {
        assert_eq!(html(formula), expected);
    }

    #[rstest]
    #[case("√(t2³ d) F_u2", "\\sqrt{t_{\\mathrm{2}}^{3}\\ d}\\ F_{\\mathrm{u2}}")]
    #[case("min(a, (b))", "\\min(a,\\ (b))")]
    #[case("F_u ≤ 5 %", "F_{\\mathrm{u}}\\ \\leq \\ 5\\ \\%")]
    #[case("√(a", "\\sqrt{a}")]
    #[case("V_M²", "V_{\\mathrm{M}}^{2}")]
    #[case("by test", "\\text{by}\\ \\text{test}")]
    fn typeset_latex(#[case] formula: &str, #[case] expected: &str) {
        assert_eq!(latex(formula), expected);
    }

    #[test]
    fn plain_text_cannot_start_a_command() {
        assert_eq!(
            escaped("5 % of a_b & \\c {d} ≤ 3"),
            "5 \\% of a\\_b \\& \\textbackslash{}c \\{d\\} \\ensuremath{\\leq } 3"
        );
    }
}
