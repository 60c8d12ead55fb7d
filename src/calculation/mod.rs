//! A hand calculation: formula in the rule's symbols, numbers with units, result, clause, standing; as text, HTML and
//! LaTeX.

mod formula;

use std::fmt::Write as _;
use std::str::FromStr;

use maud::{Markup, PreEscaped, html};

use crate::check::{Standing, Term, significant};
use crate::error::{Problem, by_name};

/// What a calculation is written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Form {
    /// Plain text.
    #[default]
    Text,
    /// A fragment of HTML.
    Html,
    /// A fragment of LaTeX for any document class; it needs no package but `amsmath`.
    Latex,
}

impl Form {
    /// Every form.
    pub const ALL: [Self; 3] = [Self::Text, Self::Html, Self::Latex];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Html => "html",
            Self::Latex => "latex",
        }
    }
}

impl FromStr for Form {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("form", "form", text, &Self::ALL, Self::name)
    }
}

/// One calculation, ready to be written.
#[derive(Debug, Clone, PartialEq)]
pub struct Calculation<'a> {
    /// What is worked out, and where.
    pub title: String,
    /// Rule set and clause.
    pub clause: &'a str,
    /// The formula, in the rule's symbols; may be empty.
    pub formula: &'a str,
    /// The numbers put into it.
    pub terms: &'a [Term],
    /// Result, verdict and notes, a line each.
    pub results: Vec<String>,
    /// The weakest standing of what went in.
    pub standing: Standing,
}

/// A term's value; its unit follows where there is one.
fn value_of(term: &Term) -> String {
    if term.value.is_nan() { "not known".to_owned() } else { significant(term.value) }
}

impl Calculation<'_> {
    /// Writes it.
    pub fn write(&self, form: Form) -> String {
        match form {
            Form::Text => self.text(),
            Form::Html => self.html().into_string(),
            Form::Latex => self.latex(),
        }
    }

    fn text(&self) -> String {
        let mut out = String::new();
        // Writing to a string cannot fail.
        let _ = writeln!(out, "{}  [{}]", self.title, self.clause);
        if !self.formula.is_empty() {
            let _ = writeln!(out, "  {}", self.formula);
        }
        for term in self.terms {
            let _ = writeln!(out, "{}", format!("    {} = {} {}", term.symbol, value_of(term), term.unit).trim_end());
        }
        for line in &self.results {
            let _ = writeln!(out, "  {line}");
        }
        let _ = writeln!(out, "  numbers {}", self.standing.words());
        out
    }

    fn html(&self) -> Markup {
        let typeset = |formula: &str| PreEscaped(formula::html(formula));
        html! {
            section {
                h4 { (self.title) " " small { "[" (self.clause) "]" } }
                @if !self.formula.is_empty() { p { (typeset(self.formula)) } }
                @if !self.terms.is_empty() {
                    table {
                        @for term in self.terms {
                            tr { td { (typeset(term.symbol)) } td { (value_of(term)) } td { (term.unit) } }
                        }
                    }
                }
                @for line in &self.results { p { (line) } }
                p { small { "numbers " (self.standing.words()) } }
            }
        }
    }

    fn latex(&self) -> String {
        let mut out = String::new();
        // Writing to a string cannot fail.
        let _ = writeln!(out, "\\paragraph{{{}}} [{}]", formula::escaped(&self.title), formula::escaped(self.clause));
        if !self.formula.is_empty() {
            let _ = writeln!(out, "\\[ {} \\]", formula::latex(self.formula));
        }
        if !self.terms.is_empty() {
            let _ = writeln!(out, "\\begin{{tabular}}{{lrl}}");
            for term in self.terms {
                let unit = formula::escaped(term.unit);
                let _ = writeln!(out, "${}$ & {} & {unit} \\\\", formula::latex(term.symbol), value_of(term));
            }
            let _ = writeln!(out, "\\end{{tabular}}\\par");
        }
        for line in &self.results {
            let _ = writeln!(out, "{}\\par", formula::escaped(line));
        }
        let _ = writeln!(out, "numbers {}\\par", self.standing.words());
        out
    }
}

/// Several calculations, one after another.
pub fn write_all<'a>(calculations: impl IntoIterator<Item = Calculation<'a>>, form: Form) -> String {
    let parts: Vec<String> = calculations.into_iter().map(|c| c.write(form)).collect();
    parts.join("\n")
}
