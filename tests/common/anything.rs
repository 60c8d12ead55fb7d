//! What any text at all must do as a plan, and texts that are examples with anything written into them.

use raisedbody::Error;
use raisedbody::body::squareness::Stage;
use raisedbody::drawing::{Paper, drawings, dxf, html, measure_up, packet, templates, text};
use raisedbody::error::Placed;
use raisedbody::plan::{Evaluation, Plan};

pub const LIBRARY: &str = include_str!("../../examples/mobile_library.toml");
pub const WORKSHOP: &str = include_str!("../../examples/workshop_bus.toml");
/// The workshop bus with its outline as a chain, a side of its own and features.
pub const SHAPED: &str = concat!(
    include_str!("../../examples/workshop_bus.toml"),
    r#"
[survey.outline]
start = { half_width = "1150 mm", height = "500 mm" }
pieces = [
  { to = { half_width = "1.2 m", height = "700 mm" }, radius = "400 mm", bulge = "in" },
  { to = { half_width = "1.2 m", height = "2.44 m" } },
  { to = { half_width = "900 mm", height = "2740 mm" }, radius = "300 mm", bulge = "out" },
  { to = { half_width = "0 mm", height = "2.86 m" }, from = { half_width = "900 mm", height = "2740 mm" }, radius = "3435 mm", bulge = "out" },
]

[survey.right]
windows = 7
drip_rail = "2.445 m"
exceptions = [ { window = 2, spacing = "715 mm" } ]

[[survey.features]]
name = "door"
kind = "door"
side = "right"
bottom = "500 mm"
top = "2.2 m"
rear = "6 m"
front = "6.8 m"

[[survey.features]]
name = "rub rail"
kind = "rub rail"
height = "1.2 m"
"#
);

/// What is written in place of a value: other kinds, other units, ends of ranges, signs, broken quotes.
pub const VALUES: [&str; 34] = [
    "\"0 mm\"",
    "\"-1 in\"",
    "\"1/0 in\"",
    "\"1e300 m\"",
    "\"1e-300 m\"",
    "\"nan mm\"",
    "\"25 mm\"",
    "\"711 mm\"",
    "\"2.30 m\"",
    "\"2 m\"",
    "\"20000 mm\"",
    "\"1 kg\"",
    "\"1e300 kg\"",
    "\"0 kg\"",
    "\"0 %\"",
    "\"1e9 %\"",
    "\"\"",
    "\"ü\"",
    "\"\\u0000\"",
    "0",
    "1",
    "-1",
    "30",
    "9223372036854775807",
    "nan",
    "inf",
    "true",
    "[]",
    "{}",
    "[[[]]]",
    "[1, 2, 3]",
    "1979-05-27",
    "'''",
    "{ front = \"1 kg\", rear = \"1 kg\" }",
];

/// An error says what is wrong and, in the text it was read from, where.
///
/// # Panics
/// It does not.
pub fn tells(error: &Error, written: &str) {
    match error {
        Error::Input(problems) => {
            assert!(!problems.is_empty());
            for problem in problems {
                tells_where(problem, written);
            }
        }
        Error::Syntax { line, column, message } => {
            let lines = written.split('\n').count();
            assert!((1..=lines).contains(line) && *column >= 1 && !message.is_empty(), "{line} of {lines}");
        }
        other => assert!(!other.to_string().is_empty()),
    }
}

fn tells_where(problem: &Placed, written: &str) {
    assert!(!problem.problem.path().is_empty(), "{problem}");
    let (line, column) = problem.place.unwrap_or((1, 1));
    let there = written.split('\n').nth(line - 1).map(|l| l.chars().count());
    assert!(there.is_some_and(|length| column <= length + 1), "{problem} in {written}");
}

/// A plan that reads back equal from its own text, or an error that says where.
///
/// # Panics
/// Neither.
pub fn reads(written: &str) -> Option<Plan> {
    match Plan::from_text(written, ".".as_ref()) {
        Ok(plan) => {
            assert_eq!(plan.to_text(), written, "a plan that was not changed keeps its text");
            Some(plan)
        }
        Err(error) => {
            tells(&error, written);
            None
        }
    }
}

/// No number is missing from a page or a drawing of a plan; a planner may have named something so.
fn all_there(plan: &Plan, page: &str, name: &str) {
    assert!(!page.contains("NaN") || plan.to_text().contains("NaN"), "{name}");
    assert!(!page.contains("=\"inf\"") && !page.contains("=\"-inf\""), "{name}");
}

/// A plan is evaluated, and no number is missing from its words and checks.
///
/// # Panics
/// One is.
pub fn evaluates(plan: &Plan) -> Evaluation {
    let build = plan.evaluate().unwrap();
    all_there(plan, &text::evaluation(&build), "words");
    assert!(!build.explain().is_empty());
    assert!(build.checks.iter().all(|c| c.demand.is_none_or(f64::is_finite)));
    build
}

/// An evaluation is drawn, printed and measured up, and no number is missing.
///
/// # Panics
/// One is.
pub fn draws(plan: &Plan, build: &Evaluation) {
    for own in &drawings(build) {
        all_there(plan, &own.svg, &own.name);
        assert!(own.flat.as_ref().is_none_or(|flat| dxf(flat).is_ok()), "{}", own.name);
    }
    let page = html::evaluation(build) + &packet(plan, build) + &templates(build, Paper::A4);
    all_there(plan, &page, "pages");
    assert!(!html::plan(plan).is_empty());
    // A bus too odd to lay its measure-up out is refused there.
    if let Ok(form) = plan.measure_up(Stage::AfterLift) {
        assert!(form.parse_csv(&form.to_csv().unwrap()).unwrap().is_empty());
        all_there(plan, &measure_up::form_page(&form), "form");
    }
}

/// One change to a text, at a share of its length.
#[derive(Debug, Clone)]
pub enum Edit {
    /// Another value behind some equals sign.
    Value(f64, &'static str),
    /// Other digits in place of some digits.
    Digits(f64, u32),
    /// Some line taken out.
    Without(f64),
    /// Some line written twice.
    Twice(f64),
    /// Anything at all, anywhere.
    Anything(f64, String),
}

/// The item of a list at a share of its length.
pub fn pick<T: Copy>(items: &[T], at: f64) -> Option<T> {
    items.get((items.len() as f64 * at) as usize).copied()
}

pub fn edited(text: &str, edit: &Edit) -> String {
    let mut lines: Vec<&str> = text.split('\n').collect();
    match edit {
        Edit::Value(at, value) => {
            let signs: Vec<usize> = text.match_indices("= ").map(|(i, _)| i + 2).collect();
            let Some(start) = pick(&signs, *at) else { return text.to_owned() };
            // To the end of the entry: of a string, a list or a table its closing sign.
            let rest = &text[start..];
            let close = match rest.chars().next() {
                Some('"') => rest[1..].find('"').map(|i| i + 2),
                Some('[') => rest.find(']').map(|i| i + 1),
                Some('{') => rest.find('}').map(|i| i + 1),
                _ => rest.find([',', ' ', '\n']),
            };
            let end = start + close.unwrap_or(rest.len());
            format!("{}{value}{}", &text[..start], &text[end..])
        }
        Edit::Digits(at, number) => {
            let starts: Vec<usize> = text.match_indices(|c: char| c.is_ascii_digit()).map(|(i, _)| i).collect();
            let Some(start) = pick(&starts, *at) else { return text.to_owned() };
            let length = text[start..].find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len() - start);
            format!("{}{number}{}", &text[..start], &text[start + length..])
        }
        Edit::Without(at) => {
            lines.remove((lines.len() as f64 * at) as usize);
            lines.join("\n")
        }
        Edit::Twice(at) => {
            let i = (lines.len() as f64 * at) as usize;
            lines.insert(i, lines[i]);
            lines.join("\n")
        }
        Edit::Anything(at, with) => {
            let mut start = (text.len() as f64 * at) as usize;
            while !text.is_char_boundary(start) {
                start -= 1;
            }
            format!("{}{with}{}", &text[..start], &text[start..])
        }
    }
}
