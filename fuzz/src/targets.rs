//! One function a target: what must hold of any bytes.

use std::cell::Cell;
use std::sync::OnceLock;

use raisedbody::body::squareness::Stage;
use raisedbody::catalogue::{Catalogue, Rows};
use raisedbody::money::{Amount, Price};
use raisedbody::plan::{MeasureUp, Plan, bar_cuts, sheet_cuts};
use raisedbody::quantity::Kind;
use raisedbody::shop::cutting::bar_faults::bar_faults;
use raisedbody::shop::cutting::sheet_faults::sheet_faults;
use raisedbody::shop::cutting::steps::{step_faults, steps};
use raisedbody::shop::price_book::PriceBook;
use toml::Table;

use crate::anything::{LIBRARY, WORKSHOP, draws, evaluates, reads, tells};

/// The text as it comes, or with signs for what is no text.
fn text(data: &[u8]) -> String {
    String::from_utf8_lossy(data).into_owned()
}

/// A text in two, at its first form feed.
fn halves(data: &[u8]) -> (String, String) {
    let text = text(data);
    let (first, second) = text.split_once('\u{c}').unwrap_or((&text, ""));
    (first.to_owned(), second.to_owned())
}

/// Quantities, prices and amounts: finite, and the same again when printed and read.
pub fn quantities(data: &[u8]) {
    let text = text(data);
    for kind in Kind::ALL {
        match kind.parse(&text) {
            Ok(value) => {
                assert!(value.is_finite(), "{text:?} as {}", kind.name());
                assert_eq!(kind.parse(&kind.print(value)).unwrap().to_bits(), value.to_bits(), "{text:?}");
            }
            Err(error) => assert!(error.at >= 1 && error.at <= text.chars().count() + 1, "{error}"),
        }
    }
    if let Ok(price) = text.parse::<Price>() {
        assert_eq!(price.to_string().parse::<Price>().unwrap(), price);
        assert!(price.money.coins().is_none_or(|coins| coins.to_string().len() < 20));
    }
    if let Ok(amount) = text.parse::<Amount>() {
        assert_eq!(amount.to_string().parse::<Amount>().unwrap(), amount);
    }
}

/// A plan's text: read whole, or told where it cannot be.
pub fn plan(data: &[u8]) {
    reads(&text(data));
}

/// Without the search for its cut list, which would take nearly all of the time; `cutting` tries that by itself.
fn uncut(plan: Plan) -> Plan {
    plan.without("cutting").unwrap_or(plan)
}

/// A plan that can be read is evaluated.
pub fn evaluate(data: &[u8]) {
    if let Some(plan) = reads(&text(data)) {
        evaluates(&uncut(plan));
    }
}

/// A plan that can be read is evaluated, drawn, and printed.
pub fn draw(data: &[u8]) {
    if let Some(plan) = reads(&text(data)).map(uncut) {
        draws(&plan, &evaluates(&plan));
    }
}

/// Changes to an example (before a form feed) and an entry taken out (behind it): what comes out reads back equal.
pub fn change(data: &[u8]) {
    static BASES: OnceLock<[Plan; 2]> = OnceLock::new();
    let bases =
        BASES.get_or_init(|| [LIBRARY, WORKSHOP].map(|text| uncut(Plan::from_text(text, ".".as_ref()).unwrap())));
    let (changes, path) = halves(data);
    let Ok(changes) = changes.parse::<Table>() else { return };
    for base in bases {
        let changed = match base.replace(&changes) {
            Ok(changed) => changed,
            Err(error) => {
                assert!(!error.to_string().is_empty());
                continue;
            }
        };
        let smaller = changed.without(path.trim()).ok();
        for own in [Some(&changed), smaller.as_ref()].into_iter().flatten() {
            assert_eq!(&Plan::from_text(&own.to_text(), ".".as_ref()).unwrap(), own, "{}", own.to_text());
        }
        evaluates(smaller.as_ref().unwrap_or(&changed));
    }
}

/// Rows of a catalogue: read, added, and a plan with them evaluated.
pub fn rows(data: &[u8]) {
    let text = text(data);
    match Rows::parse(&text) {
        Ok(rows) => {
            let all = Catalogue::standard().unwrap().extended(&rows);
            assert!(all.overrides().iter().all(|says| !says.is_empty()));
            let Ok(table) = text.parse::<Table>() else { return };
            let own = Table::from_iter([(
                "catalogue".to_owned(),
                Table::from_iter([("rows".to_owned(), table.into())]).into(),
            )]);
            static BASE: OnceLock<Plan> = OnceLock::new();
            let base = BASE.get_or_init(|| Plan::from_text(WORKSHOP, ".".as_ref()).unwrap());
            if let Ok(plan) = base.replace(&own) {
                evaluates(&plan);
            }
        }
        Err(error) => tells(&error, &text),
    }
}

/// A price book: read, and the same book again when written.
pub fn prices(data: &[u8]) {
    let text = text(data);
    match PriceBook::parse(&text) {
        Ok(book) => assert_eq!(PriceBook::parse(&toml::to_string(&book).unwrap()).unwrap(), book),
        Err(error) => tells(&error, &text),
    }
}

/// Readings of a measure-up before the cut (before a form feed) and after the lift (behind it): a fit of finite moves.
pub fn readings(data: &[u8]) {
    static FORMS: OnceLock<[MeasureUp; 2]> = OnceLock::new();
    let forms = FORMS.get_or_init(|| {
        let plan = Plan::from_text(WORKSHOP, ".".as_ref()).unwrap();
        [Stage::BeforeCut, Stage::AfterLift].map(|stage| plan.measure_up(stage).unwrap())
    });
    let (before, after) = halves(data);
    let read = |form: &MeasureUp, text: &str| {
        form.parse_csv(text).inspect_err(|error| assert!(!error.to_string().is_empty())).ok()
    };
    let (Some(before), Some(after)) = (read(&forms[0], &before), read(&forms[1], &after)) else { return };
    if let Ok(fit) = forms[1].fit(&after, &before) {
        assert!(fit.chi_square.is_finite() && fit.probability.is_none_or(|share| (0.0..=1.0).contains(&share)));
        assert!(
            fit.parameters
                .iter()
                .filter_map(|own| own.value)
                .all(|own| own.mm.is_finite() && own.standard_mm.is_finite())
        );
        assert!(fit.checks.iter().all(|check| check.demand.is_none_or(f64::is_finite)));
    }
}

/// Sheets or bars cut by themselves, the search broken off after some steps: a plan in which the checkers find no fault.
pub fn cutting(data: &[u8]) {
    let Ok(job) = text(data).parse::<Table>() else { return };
    let asked = Cell::new(0);
    let go_on = || {
        asked.set(asked.get() + 1);
        asked.get() < 40
    };
    if job.contains_key("blanks") || job.contains_key("sheets") {
        if let Ok(cuts) = sheet_cuts(&job, &go_on) {
            assert_eq!(sheet_faults(&cuts.job, &cuts.plan), Vec::<String>::new());
            for pattern in &cuts.plan.patterns {
                let own = steps(&cuts.job.stock[pattern.stock], cuts.job.kerf_tenths, pattern);
                assert_eq!(step_faults(&cuts.job, pattern, &own), Vec::<String>::new());
            }
        }
    } else if let Ok(cuts) = bar_cuts(&job, &go_on) {
        assert_eq!(bar_faults(&cuts.job, &cuts.plan), Vec::<String>::new());
    }
}
