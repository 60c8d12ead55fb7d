//! Many quotes beside single evaluations: row by row equal, a bad row stops no other, the same on any number of threads.

use raisedbody::error::Error;
use raisedbody::plan::{Depth, JobColumn, Plan, QuotedJob, job_numbers};
use rstest::rstest;
use toml::{Table, Value};

use crate::common::without_cutting;

fn plan(name: &str) -> Plan {
    Plan::read(format!("examples/{name}.toml")).unwrap()
}

/// A batch leaves the cut list out: beside it stands the plan without stock.
fn without_stock(name: &str) -> Plan {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    Plan::from_text(&without_cutting(&text), "examples".as_ref()).unwrap()
}

fn column(path: &str, values: &[&str]) -> JobColumn {
    let value = |text: &&str| match text.parse::<i64>() {
        _ if text.is_empty() => None,
        Ok(number) => Some(Value::from(number)),
        Err(_) => Some(Value::from(*text)),
    };
    JobColumn { path: path.to_owned(), values: values.iter().map(value).collect() }
}

fn quoted(plan: &Plan, columns: &[JobColumn], depth: Depth) -> Vec<Result<QuotedJob, String>> {
    plan.quote_jobs(columns, columns[0].values.len(), depth, |_, _| Ok::<_, Error>(())).unwrap()
}

fn jobs() -> Vec<JobColumn> {
    vec![
        column("raise.height", &["400 mm", "12 in", "", "350 mm", "400 mm", "9 m", "400 mm"]),
        column("skin.gauge", &["18", "16", "", "99", "18", "18", "20"]),
        column("fastening.pitch", &["4 in", "", "", "3 in", "1 mm", "4 in", "76 mm"]),
        column("service.salted", &["", "", "", "", "", "", ""]),
        column("name", &["a", "b", "", "d", "e", "f", "g"]),
    ]
}

/// What a row changes.
fn changes(columns: &[JobColumn], row: usize) -> Table {
    let mut all = Table::new();
    for column in columns {
        let Some(value) = column.values[row].clone() else { continue };
        match column.path.split_once('.') {
            Some((section, entry)) => {
                let part = all.entry(section).or_insert_with(|| Value::Table(Table::new()));
                part.as_table_mut().unwrap().insert(entry.to_owned(), value);
            }
            None => {
                all.insert(column.path.clone(), value);
            }
        }
    }
    all
}

#[rstest]
fn rows_are_those_of_single_evaluations(
    #[values("mobile_library", "workshop_bus")] name: &str,
    #[values(Depth::Quote, Depth::Whole)] depth: Depth,
) {
    let (base, columns) = (plan(name), jobs());
    let single = if depth == Depth::Whole { plan(name) } else { without_stock(name) };
    let mut good = 0;
    for (row, job) in quoted(&base, &columns, depth).into_iter().enumerate() {
        match (job, single.replace(&changes(&columns, row)).and_then(|own| own.evaluate())) {
            (Ok(job), Ok(build)) => {
                good += 1;
                for ((name, value), own) in job_numbers().iter().zip(&job.numbers).zip(&build.metrics) {
                    assert_eq!((*name, *value), (own.name, own.value), "row {row}");
                }
                assert_eq!(job.price, build.quote.as_ref().map(|quote| (quote.total, quote.currency)));
                if depth == Depth::Whole {
                    assert_eq!((job.verdict, job.checks), (build.verdict(), build.checks.len()));
                } else {
                    // Each check that a quote makes is one of the evaluation's, with the same verdict.
                    assert!(job.checks > 10 && job.checks < build.checks.len());
                    let failing: Vec<String> = (build.checks.iter())
                        .filter(|check| check.verdict == raisedbody::check::Verdict::Fails)
                        .map(|check| format!("{}, {}", check.name, check.subject))
                        .collect();
                    assert!(job.failing.iter().all(|own| failing.contains(own)), "{:?} in {failing:?}", job.failing);
                }
            }
            (Err(words), Err(error)) => assert_eq!(words, error.to_string()),
            (job, build) => panic!("row {row}: {job:?} beside {:?}", build.map(|e| e.name)),
        }
    }
    assert!(good >= 3, "{good}");
}

#[test]
fn the_order_of_rows_and_threads_change_nothing() {
    let (base, columns) = (plan("mobile_library"), jobs());
    let backwards: Vec<JobColumn> = (columns.iter())
        .map(|own| JobColumn { path: own.path.clone(), values: own.values.iter().rev().cloned().collect() })
        .collect();
    let forth = quoted(&base, &columns, Depth::Quote);
    let mut back = quoted(&base, &backwards, Depth::Quote);
    back.reverse();
    assert_eq!(forth, back);
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    assert_eq!(pool.install(|| quoted(&base, &columns, Depth::Quote)), forth);
}

#[test]
fn many_bad_rows_each_say_why() {
    let base = plan("workshop_bus");
    let values = |n: usize| (0..3000).map(|i| Some(Value::from(i64::try_from(i % n).unwrap() + 90))).collect();
    let jobs = quoted(&base, &[JobColumn { path: "skin.gauge".to_owned(), values: values(7) }], Depth::Quote);
    assert!(jobs.iter().all(|job| job.as_ref().unwrap_err().contains("skin.gauge")));
}

#[rstest]
#[case(vec![column("skin.gage", &["16"])], 1, "skin.gage: no such entry; did you mean \"gauge\"?".to_owned())]
#[case(vec![column("skinn.gauge", &[""])], 1, "skinn: no such entry".to_owned())]
#[case(vec![column("skin.gauge", &["16"]), column("skin.gauge", &["16"])], 1, "this changes what skin.gauge changes".to_owned())]
#[case(vec![column("skin.gauge", &["16"])], 2, "a value for each of 2 rows".to_owned())]
#[case(vec![column("prices.book", &["b.toml"])], 1, "a price book is read with its plan".to_owned())]
#[case(vec![column("catalogue.rows", &["1"])], 1, "rows of the catalogue".to_owned())]
#[case(vec![column("hole_line[0].pitch", &["1 in"])], 1, "name an entry by its path".to_owned())]
fn what_is_no_column(#[case] columns: Vec<JobColumn>, #[case] count: usize, #[case] words: String) {
    let base = plan("mobile_library");
    let error = base.quote_jobs(&columns, count, Depth::Quote, |_, _| Ok::<_, Error>(())).unwrap_err().to_string();
    assert!(error.contains(&words), "{error}");
}

/// A book would have to be read from a file: a row that brings one says so.
#[test]
fn a_row_brings_no_price_book() {
    let book = Value::Table("book = \"examples/prices.toml\"".parse().unwrap());
    let column = JobColumn { path: "prices".to_owned(), values: vec![Some(book), None] };
    let jobs = quoted(&plan("workshop_bus"), &[column], Depth::Quote);
    assert!(jobs[0].as_ref().unwrap_err().contains("a price book is read with its plan"));
    assert!(jobs[1].is_ok());
}

#[test]
fn no_rows_are_no_quotes_and_no_columns_are_the_plan_itself() {
    let base = plan("workshop_bus");
    assert!(quoted(&base, &[column("skin.gauge", &[])], Depth::Quote).is_empty());
    let jobs = base.quote_jobs(&[], 2, Depth::Quote, |_, _| Ok::<_, Error>(())).unwrap();
    assert_eq!(jobs[0], jobs[1]);
    assert!(jobs[0].is_ok());
}

#[test]
fn it_ends_when_told_to() {
    let base = plan("workshop_bus");
    let stop = |_: usize, _: usize| Err(Error::from(raisedbody::error::Problem::missing("enough", "stop")));
    let error = base.quote_jobs(&[column("skin.gauge", &["16"])], 1, Depth::Quote, stop).unwrap_err();
    assert!(error.to_string().contains("enough"));
}
