//! Input without bounds: sizes, counts and nesting that no bus has are refused with an error that names the field, the value and what
//! is allowed, before they cost time or memory. (No published source: bounds of this library.)

use std::fs::File;
use std::time::{Duration, Instant};

use raisedbody::body::squareness::Stage;
use raisedbody::files::MOST_TEXT_BYTES;
use raisedbody::form::{MOST_ITEMS, MOST_LETTERS};
use raisedbody::mechanics::hole_line::HOLES;
use raisedbody::plan::{Axis, MOST_COMBINATIONS, Plan};
use raisedbody::{Error, error::Problem};
use rstest::rstest;
use toml::Value;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn read(text: &str) -> Result<Plan, Error> {
    Plan::from_text(text, ".".as_ref())
}

fn refused<T: std::fmt::Debug>(result: Result<T, Error>) -> Problem {
    match result {
        Err(Error::Input(problems)) => problems[0].problem.clone(),
        other => panic!("not refused: {other:?}"),
    }
}

/// Many rows, each with `#` counted up.
fn many(count: usize, row: &str) -> String {
    (0..count).map(|i| row.replace('#', &i.to_string())).collect::<Vec<_>>().join(", ")
}

#[test]
fn a_text_is_read_up_to_a_bound() {
    let most = format!("at most {MOST_TEXT_BYTES} bytes");
    let long = format!("{WORKSHOP}\n{}", "# x\n".repeat(MOST_TEXT_BYTES / 4));
    let value = format!("a text of {} bytes", long.len());
    assert_eq!(refused(read(&long)), Problem::out_of_range("text", &value, &most));
    let build = read(WORKSHOP).unwrap();
    let form = build.measure_up(Stage::BeforeCut).unwrap();
    assert_eq!(refused(form.parse_csv(&long)), Problem::out_of_range("readings", &value, &most));

    // A gigabyte that takes no room on the disk.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("long.toml");
    File::create(&path).unwrap().set_len(1_000_000_000).unwrap();
    let started = Instant::now();
    let expected = Problem::out_of_range(path.display().to_string(), "a text of 1000000000 bytes", &most);
    assert_eq!(refused(Plan::read(&path)), expected);
    assert_eq!(refused(form.read_csv(&path)), expected);
    for entry in ["catalogue.files = [\"long.toml\"]", "prices.book = \"long.toml\""] {
        let text = entry.to_owned() + "\n" + &WORKSHOP.replace("[prices]", "[other]");
        let problem = refused(Plan::from_text(&text, folder.path()));
        assert!(problem.to_string().contains(&most), "{problem}");
    }
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[rstest]
#[case::arrays("x = ", "[", "]")]
#[case::open("x = ", "[", "")]
#[case::tables("x = ", "{ a = ", "}")]
#[case::keys("x", ".a", "")]
#[case::header("[x", ".a", "]")]
fn deep_nesting_is_refused_where_it_stands(#[case] start: &str, #[case] open: &str, #[case] close: &str) {
    let text = format!("{start}{}{}", open.repeat(100_000), close.repeat(100_000));
    assert!(matches!(read(&text), Err(Error::Syntax { line: 1, .. })));
}

#[rstest]
#[case::list("fit_out", "{ name = \"x #\", mass = \"1 kg\", x = \"1 m\", z = \"1 m\" }")]
#[case::numbers("survey.seams", "#")]
#[case::laps("skin.laps", "{ post = #, over = \"front\" }")]
#[case::exits("survey.exits", "{ name = \"x #\", kept = true, place = \"rear\", bottom = \"1 m\", top = \"2 m\" }")]
#[case::rows(
    "catalogue.rows.default",
    "{ key = \"kerf\", value = \"#\", meaning = \"x\", source = \"x\", standing = \"assumed\" }"
)]
fn lists_have_a_most(#[case] path: &str, #[case] row: &str) {
    let count = 10 * MOST_ITEMS;
    let changes = format!("{path} = [{}]", many(count, row)).parse().unwrap();
    let started = Instant::now();
    let problem = refused(read(LIBRARY).unwrap().replace(&changes));
    let most = format!("at most {MOST_ITEMS} items");
    assert_eq!(problem, Problem::out_of_range(path, format!("{count} items"), most));
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[test]
fn tables_have_a_most() {
    let entries = (0..=MOST_ITEMS).map(|i| format!("k{i} = 1")).collect::<Vec<_>>().join("\n");
    let most = format!("at most {MOST_ITEMS} entries");
    let value = format!("{} entries", MOST_ITEMS + 1);
    assert_eq!(refused(read(&entries)), Problem::out_of_range("plan", &value, &most));
    let section = format!("{WORKSHOP}\n[shop]\n{entries}");
    assert_eq!(refused(read(&section)), Problem::out_of_range("shop", value, most));
}

#[rstest]
#[case::word("skin.grade")]
#[case::text("name")]
#[case::length("raise.height")]
fn a_text_of_a_megabyte_is_refused_and_not_shown(#[case] path: &str) {
    let long = "x".repeat(1_000_000);
    let changes = format!("{path} = \"{long}\"").parse().unwrap();
    let problem = refused(read(WORKSHOP).unwrap().replace(&changes));
    assert_eq!(problem, Problem::out_of_range(path, "1000000 letters", format!("at most {MOST_LETTERS}")));
}

#[test]
fn a_key_and_a_choice_of_a_megabyte_are_shown_short() {
    let long = "x".repeat(1_000_000);
    let message = read(&format!("{long} = 1\n{WORKSHOP}")).unwrap_err().to_string();
    assert!(message.contains("xxx...: no such entry") && message.len() < 1000, "{}", message.len());
    let message = read(&LIBRARY.replace("units = \"", &format!("units = \"{long}"))).unwrap_err().to_string();
    assert!(message.starts_with("units: unknown choice \"xxx") && message.len() < 1000, "{}", message.len());
}

#[test]
fn the_longest_lists_are_worked_out_in_time() {
    // What is allowed also ends.
    let row = "{ name = \"x #\", mass = \"0.001 kg\", x = \"1 m\", z = \"1 m\" }";
    let changes = format!("fit_out = [{}]", many(MOST_ITEMS, row)).parse().unwrap();
    let started = Instant::now();
    let build = read(WORKSHOP).unwrap().replace(&changes).unwrap().evaluate().unwrap();
    assert!(!build.checks.is_empty());
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[rstest]
#[case::rivets("fastening.pitch = \"0.001 mm\"", "fastening.pitch")]
#[case::windows("survey.windows = 5000", "survey.windows")]
#[case::crew("crew.hang_people = 1000000000", "crew.hang_people")]
#[case::pieces(
    "cutting.sheets = [{ length = \"3 m\", width = \"1 m\", count = 9223372036854775807 }]",
    "cutting.sheets[0].count"
)]
#[case::years("service.years = 1000000000", "service.years")]
#[case::lifting("skin.people = 9223372036854775807", "skin.people")]
#[case::spacing("survey.post_spacing = \"1 nm\"", "survey.post_spacing")]
#[case::length("vehicle.body_length = \"1e12 m\"", "vehicle.body_length")]
fn counts_have_a_most(#[case] changes: &str, #[case] path: &str) {
    let started = Instant::now();
    let problem = refused(read(LIBRARY).unwrap().replace(&changes.parse().unwrap()));
    assert_eq!(problem.path(), path, "{problem}");
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[test]
fn a_line_has_a_most_of_holes() {
    let plan = read(LIBRARY).unwrap();
    let mut line = plan.table()["hole_line"][0].as_table().unwrap().clone();
    let rows = many(HOLES.1 + 1, "{ along = \"# mm\", off = \"0 mm\" }");
    line.extend(format!("holes = [{rows}]").parse::<toml::Table>().unwrap());
    let changes = toml::Table::from_iter([("hole_line".to_owned(), Value::Array(vec![Value::Table(line)]))]);
    let started = Instant::now();
    let Err(Error::Input(problems)) = plan.replace(&changes) else { panic!("not refused") };
    assert!(problems.iter().any(|p| p.problem.path() == "hole_line[0].holes"), "{problems:?}");
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[test]
fn a_sweep_has_a_most_of_combinations() {
    let lengths = |i: u32| Value::String(format!("{i} mm"));
    let axes = ["raise.height", "fastening.pitch", "vehicle.track"]
        .map(|path| Axis::new(path, (0..10_000).map(lengths).collect()).unwrap());
    let started = Instant::now();
    let problem = refused(read(WORKSHOP).unwrap().sweep(axes.to_vec(), |_, _| Ok::<_, Error>(())));
    let most = format!("at most {MOST_COMBINATIONS} combinations");
    assert!(problem.path() == "axes" && problem.to_string().contains(&most), "{problem}");
    assert!(started.elapsed() < Duration::from_secs(60), "{:?}", started.elapsed());
}

#[rstest]
#[case::nought("schema = 0", "schema: 0 is out of range; allowed: 1 or more (line 2, column 1)")]
#[case::less("schema = -1", "schema: -1 is out of range; allowed: 1 or more (line 2, column 1)")]
#[case::missing("", "schema: missing; write schema = 1")]
#[case::text("schema = \"1\"", "schema: 1 is not a whole number (line 2, column 1)")]
#[case::newer(
    "schema = 2",
    "schema: this plan is written for schema 2; this version reads schema 1. Install a newer version"
)]
fn the_schema_is_checked(#[case] entry: &str, #[case] message: &str) {
    let text = LIBRARY.replace("schema = 1", entry);
    assert_eq!(read(&text).unwrap_err().to_string(), message);
}

#[test]
fn a_message_does_not_carry_a_megabyte_back() {
    let long = "é".repeat(1_000_000);
    let problem = Problem::unknown_name("skin.coating", "coating", &long, ["G90", "A40"]);
    let text = problem.to_string();
    assert!(text.starts_with("skin.coating: unknown coating \"éé"), "{text}");
    assert!(text.contains("é … 999800 letters … é"), "{text}");
    assert!(text.chars().count() < 400, "{text}");
    // The value itself is kept as it was written.
    assert_eq!(problem.value(), Some(long.as_str()));
    // No name is like it, and none is looked for.
    assert!(matches!(problem, Problem::UnknownName { nearest: None, .. }));
    let path = Problem::out_of_range(long, 3, "0 to 2").to_string();
    assert!(path.chars().count() < 400 && path.ends_with("3 is out of range; allowed: 0 to 2"), "{path}");
    // What is not long is told whole.
    let short = Problem::out_of_range("skin.gauge", "9".repeat(200), "0 to 40").to_string();
    assert!(short.contains(&"9".repeat(200)), "{short}");
}
