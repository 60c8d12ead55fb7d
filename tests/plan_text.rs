//! A plan that was read, changed and written keeps the planner's own text wherever nothing was changed, and reads back equal.
//! Random changes of both examples by proptest; no published source.

use proptest::prelude::*;
use proptest::sample::{Index, select};
use raisedbody::plan::Plan;
use rstest::rstest;
use toml::{Table, Value};

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn read(text: &str) -> Plan {
    Plan::from_text(text, ".".as_ref()).unwrap()
}

fn replaced(plan: &Plan, changes: &str) -> Plan {
    plan.replace(&changes.parse().unwrap()).unwrap()
}

/// Lines of one text that the other lacks, and the other way round.
fn differing(old: &str, new: &str) -> (Vec<String>, Vec<String>) {
    let only = |a: &str, b: &str| -> Vec<String> {
        a.lines().filter(|line| !b.lines().any(|other| other == *line)).map(str::to_owned).collect()
    };
    (only(old, new), only(new, old))
}

#[rstest]
#[case::library(LIBRARY)]
#[case::workshop(WORKSHOP)]
fn an_unchanged_plan_is_written_as_it_was_read(#[case] text: &str) {
    assert_eq!(read(text).to_text(), text);
    let there_and_back =
        replaced(&replaced(&read(text), "name = \"Other\""), &format!("name = {:?}", read(text).file().name));
    assert_eq!(there_and_back.to_text(), text);
    let windows = text.replace('\n', "\r\n");
    assert_eq!(read(&windows).to_text(), windows);
    let other = replaced(&read(&windows), "name = \"Other\"");
    assert_eq!(other.to_text(), windows.replace(&format!("{:?}", read(text).file().name), "\"Other\""));
    // A text over several lines says the same, whatever ends them.
    let other = replaced(&other, "notes = \"two\\nlines\"");
    assert_eq!(read(&other.to_text()), other);
}

#[rstest]
#[case::value("vehicle.track = \"1.96 m\"", &["track = \"1.95 m\""], &["track = \"1.96 m\""])]
#[case::beside_a_comment(
    "vehicle.overall_height = \"3.03 m\"",
    &["overall_height = \"3.02 m\"          # to the top of the roof vent"],
    &["overall_height = \"3.03 m\"          # to the top of the roof vent"]
)]
#[case::in_braces(
    "vehicle.axle_weights.rear = \"4440 kg\"",
    &["axle_weights = { front = \"2950 kg\", rear = \"4450 kg\" }"],
    &["axle_weights = { front = \"2950 kg\", rear = \"4440 kg\" }"]
)]
#[case::shorter_list("survey.seams = [1, 4, 10]",
    &["seams = [1, 4, 8, 10]               # posts on which the old skin has seams"],
    &["seams = [1, 4, 10]               # posts on which the old skin has seams"]
)]
#[case::longer_list("survey.seams = [1, 3, 4, 8, 10]",
    &["seams = [1, 4, 8, 10]               # posts on which the old skin has seams"],
    &["seams = [1, 3, 4, 8, 10]               # posts on which the old skin has seams"]
)]
#[case::new_entry("survey.right.windows = 9", &[], &["[survey.right]"])]
fn only_what_was_changed_changes(#[case] changes: &str, #[case] gone: &[&str], #[case] new: &[&str]) {
    let plan = replaced(&read(LIBRARY), changes);
    let text = plan.to_text();
    assert_eq!(read(&text), plan);
    assert_eq!(
        differing(LIBRARY, &text),
        (gone.iter().map(ToString::to_string).collect(), new.iter().map(ToString::to_string).collect())
    );
}

#[test]
fn an_item_of_a_list_goes_with_its_comment_and_no_other() {
    let mut exits = read(LIBRARY).table()["survey"]["exits"].as_array().unwrap().clone();
    let without_hatch = |exits: &[Value]| {
        let survey = Table::from_iter([("exits".to_owned(), Value::Array(exits.to_vec()))]);
        read(LIBRARY).replace(&Table::from_iter([("survey".to_owned(), Value::Table(survey))])).unwrap().to_text()
    };
    exits.remove(2);
    let text = without_hatch(&exits);
    assert!(text.contains("# made anew in the raised skin") && !text.contains("roof hatch"), "{text}");
    exits.remove(1);
    assert!(!without_hatch(&exits).contains("# made anew in the raised skin"));
}

#[test]
fn a_comment_that_a_blank_line_parts_from_what_goes_stays() {
    let text = LIBRARY
        .replace("notes = ", "# stands alone\n\n# about the notes\nnotes = ")
        .replace("[end_caps]", "# also alone\n\n# about the caps\n[end_caps]");
    let plan = read(&text).without("notes").unwrap().without("end_caps").unwrap();
    let written = plan.to_text();
    assert_eq!(read(&written), plan);
    for (comment, kept) in
        [("stands alone", true), ("also alone", true), ("about the notes", false), ("about the caps", false)]
    {
        assert_eq!(written.contains(comment), kept, "{comment}");
    }
}

#[test]
fn rows_of_a_catalogue_file_are_written_once_beside_the_plans_own() {
    let folder = tempfile::tempdir().unwrap();
    let default = |key: &str, value: &str| {
        format!("key = {key:?}\nvalue = {value:?}\nmeaning = \"x\"\nsource = \"a test\"\nstanding = \"assumed\"\n")
    };
    std::fs::write(folder.path().join("own.toml"), format!("[[default]]\n{}", default("kerf", "3 mm"))).unwrap();
    let text = format!(
        "{WORKSHOP}\n# what the shop knows\n[catalogue]\nfiles = [\"own.toml\"] # its file\n\n# ours\n[[catalogue.rows.default]]\n{}",
        default("bead_width", "4 mm")
    );
    let plan = Plan::from_text(&text, folder.path()).unwrap();
    let written = plan.to_text();
    assert_eq!(Plan::from_text(&written, "/".as_ref()).unwrap(), plan);
    assert!(!written.contains("own.toml") && written.contains("# ours") && written.contains("# what the shop knows"));
    assert_eq!((written.matches("\"kerf\"").count(), written.matches("\"bead_width\"").count()), (1, 1), "{written}");
    let again = plan.replace(&"name = \"Other\"".parse().unwrap()).unwrap();
    assert_eq!(read(&again.to_text()), again);
}

#[test]
fn a_plan_that_was_never_text_is_written_in_full() {
    let plan = read(WORKSHOP);
    let text = plan.table().to_string();
    assert_eq!(read(&text), plan);
    assert_eq!(read(&text).to_text(), text);
}

/// A step to an entry: by its key, or by the name of an item in a list.
#[derive(Debug, Clone)]
enum Step {
    Key(String),
    Named(String),
}

fn reaches(table: &Table, path: &[Step]) -> bool {
    let Some((Step::Key(first), rest)) = path.split_first() else { return false };
    let mut here = table.get(first);
    for step in rest {
        here = here.and_then(|here| match step {
            Step::Key(key) => here.get(key),
            Step::Named(name) => {
                here.as_array()?.iter().find(|item| item.get("name").and_then(Value::as_str) == Some(name))
            }
        });
    }
    here.is_some()
}

fn named(text: &str) -> Option<String> {
    let (_, rest) = text.split_once("name = \"")?;
    Some(rest.split('"').next()?.to_owned())
}

/// The text with a comment above and beside every entry, and what each stands at.
fn annotated(source: &str) -> (String, Vec<(String, Vec<Step>)>) {
    let (mut text, mut comments) = (Vec::new(), Vec::new());
    let (mut section, mut list): (Vec<Step>, Vec<Step>) = (Vec::new(), Vec::new());
    let lines: Vec<&str> = source.lines().collect();
    for (i, line) in lines.iter().enumerate() {
        let mut note = |place: &str, path: &[Step]| {
            let comment = format!("# {place} {}.", comments.len());
            comments.push((comment.clone(), path.to_vec()));
            comment
        };
        let steps = |path: &str| path.split('.').map(|key| Step::Key(key.to_owned())).collect::<Vec<_>>();
        let bare = line.split(" #").next().unwrap().trim_end();
        if let Some(path) = bare.strip_prefix("[[").and_then(|rest| rest.strip_suffix("]]")) {
            section = steps(path);
            let own = lines[i + 1..].iter().take_while(|line| !line.starts_with('[')).find_map(|line| named(line));
            section.extend(own.map(Step::Named));
            text.extend([note("above", &section), format!("{line} {}", note("behind", &section))]);
        } else if let Some(path) = bare.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')) {
            section = steps(path);
            text.extend([note("above", &section), format!("{line} {}", note("behind", &section))]);
        } else if let Some((key, value)) = bare.split_once(" = ").filter(|_| !line.starts_with([' ', '#'])) {
            let path = [section.as_slice(), &steps(key)].concat();
            text.push(note("above", &path));
            let open = value.ends_with('[');
            text.push(if open { (*line).to_owned() } else { format!("{line} {}", note("beside", &path)) });
            list = path;
        } else if let (Some(name), true, true) = (named(line), line.starts_with("  {"), bare.ends_with("},")) {
            let path = [list.as_slice(), &[Step::Named(name)]].concat();
            text.extend([format!("  {}", note("over", &path)), format!("{line} {}", note("after", &path))]);
        } else {
            text.push((*line).to_owned());
        }
    }
    (text.join("\n") + "\n", comments)
}

/// Every list and every entry of a table by its path, lists apart.
fn paths(table: &Table, path: &[String], entries: &mut Vec<Vec<String>>, lists: &mut Vec<Vec<String>>) {
    for (key, value) in table {
        let inner = [path, std::slice::from_ref(key)].concat();
        entries.push(inner.clone());
        match value {
            Value::Table(table) => paths(table, &inner, entries, lists),
            Value::Array(_) => lists.push(inner),
            _ => {}
        }
    }
}

/// A change of one list: an item taken out, put in again, changed; or all of them turned round.
fn relisted(items: &mut Vec<Value>, how: u8, at: usize, with: &str) {
    if items.is_empty() {
        return;
    }
    let at = at % items.len();
    match (how, &mut items[at]) {
        (0, _) => drop(items.remove(at)),
        (1, item) => {
            let mut twin = item.clone();
            if let Some(Value::String(name)) = twin.get_mut("name") {
                name.push_str(with);
            }
            items.insert(at, twin);
        }
        (2, Value::Table(item)) => drop(item.insert("mass".to_owned(), Value::String("12 kg".to_owned()))),
        (3, Value::Table(item)) => drop(item.remove("slack")),
        _ => items.reverse(),
    }
}

fn nested(path: &[String], value: Value) -> Table {
    path.iter()
        .rev()
        .fold(value, |value, key| Value::Table(Table::from_iter([(key.clone(), value)])))
        .as_table()
        .unwrap()
        .clone()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// 200 chains of up to eight changes, of what is allowed as many as are.
    #[test]
    fn whatever_is_changed_reads_back_equal_and_keeps_its_comments(
        source in select(vec![LIBRARY, WORKSHOP]),
        steps in prop::collection::vec((0_u8..3, 0_u8..5, any::<Index>(), 0_usize..9, "[a-z#\"\\\\\n]{1,6}"), 1..8),
    ) {
        let (text, comments) = annotated(source);
        let mut plan = read(&text);
        prop_assert_eq!(plan.to_text(), text);
        let mut turned = false;
        for (what, how, which, at, with) in steps {
            let (mut entries, mut lists) = (Vec::new(), Vec::new());
            paths(plan.table(), &[], &mut entries, &mut lists);
            let (all, list) = if what == 0 { (&lists, true) } else { (&entries, false) };
            let path = which.get(all).clone();
            let value = path[1..].iter().fold(&plan.table()[&path[0]], |value, key| &value[key]).clone();
            let changed = match (list, what, value) {
                (true, _, Value::Array(mut items)) => {
                    relisted(&mut items, how, at, &with);
                    turned |= how > 3;
                    plan.replace(&nested(&path, Value::Array(items)))
                }
                (_, 1, Value::String(_)) if path.len() == 1 => plan.replace(&nested(&path, Value::String(with))),
                (_, 1, Value::String(own)) => plan.replace(&nested(&path, Value::String(own.replace('4', "5")))),
                _ => plan.without(&path.join(".")),
            };
            let Ok(changed) = changed else { continue };
            plan = changed;
            let written = plan.to_text();
            let again = Plan::from_text(&written, ".".as_ref()).unwrap();
            prop_assert_eq!(&again, &plan);
            // Items that change places are written anew.
            for (comment, path) in comments.iter().filter(|(_, path)| reaches(plan.table(), path) && !turned) {
                prop_assert_eq!(written.matches(comment.as_str()).count(), 1, "{} at {:?} in\n{}", comment, path, written);
            }
        }
    }
}
