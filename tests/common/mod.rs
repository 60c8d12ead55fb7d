//! Laps that tests are made of.

pub mod anything;
pub mod bars;

use raisedbody::catalogue::Catalogue;
use raisedbody::check::Check;
use raisedbody::mechanics::joint::{BlindRivet, Demand, Lap, Method, Report, RivetOrder};
use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
use raisedbody::plan::{Evaluation, Plan};

/// A measured sheet of carbon steel.
pub fn sheet(mm: f64, fu_mpa: f64) -> Sheet {
    let order = SheetOrder { thickness_mm: Some(mm), fu_mpa: Some(fu_mpa), ..SheetOrder::default() };
    Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

/// A measured sheet of aluminium.
pub fn aluminium(mm: f64, fu_mpa: f64) -> Sheet {
    let grade = Some("5052-H32".to_owned());
    // The grade's own yield strength could exceed a low tensile strength.
    let order =
        SheetOrder { thickness_mm: Some(mm), grade, fy_mpa: Some(20.0), fu_mpa: Some(fu_mpa), ..SheetOrder::default() };
    Sheet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

/// A rivet of its own strengths, in a hole 0.1 mm wider, with a head of 2.1 diameters.
pub fn rivet(d: f64, shear_n: f64, tension_n: f64) -> BlindRivet {
    let order = RivetOrder {
        diameter_mm: d,
        shear_n: Some(shear_n),
        tension_n: Some(tension_n),
        head_mm: Some(2.1 * d),
        hole_mm: Some(d + 0.1),
        ..RivetOrder::default()
    };
    BlindRivet::new(&order, &Catalogue::standard().unwrap(), "").unwrap()
}

/// Two sheets, and a rivet too strong to decide.
pub fn lap(outer: Sheet, inner: Sheet, d: f64, pitch_mm: f64, edge_mm: f64) -> Lap {
    Lap::new(outer, inner, rivet(d, 60_000.0, 60_000.0), pitch_mm, edge_mm).unwrap()
}

/// The checks of one load.
pub fn check(lap: &Lap, shear_n: f64, tension_n: f64, method: Method) -> Report {
    lap.check(Demand { shear_n, tension_n }, method).unwrap()
}

/// The check of this name.
pub fn find<'a>(report: &'a Report, name: &str) -> &'a Check {
    report.checks.iter().find(|c| c.name == name).unwrap_or_else(|| panic!("{name} is not among the checks"))
}

/// What it can carry.
pub fn capacity(report: &Report, name: &str) -> f64 {
    find(report, name).capacity.unwrap()
}

/// Equal to half a unit of the last digit that was worked by hand.
pub fn near(value: f64, by_hand: f64, half_digit: f64) -> bool {
    (value - by_hand).abs() <= half_digit
}

/// A plan's text without its end caps: bands and corners close its ends.
pub fn without_end_caps(text: &str) -> String {
    let start = text.find("[end_caps]").unwrap();
    let end = start + text[start..].find("[fastening]").unwrap();
    format!("{}{}", &text[..start], &text[end..])
}

/// The plan's text without its stock of sheets and bars.
pub fn without_cutting(text: &str) -> String {
    let Some((before, rest)) = text.split_once("[cutting]") else { return text.to_owned() };
    format!("{before}[{}", rest.split_once("\n[").unwrap().1)
}

/// A plan's text without its paint: one coat of primer inside and one of topcoat outside stand in.
pub fn without_paint(text: &str) -> String {
    let start = text.find("[paint]").unwrap();
    let end = start + 1 + text[start + 1..].find("\n[").unwrap();
    format!("{}{}", &text[..start], &text[end..])
}

/// An example, worked out.
pub fn evaluated(example: &str) -> Evaluation {
    Plan::read(format!("examples/{example}.toml")).unwrap().evaluate().unwrap()
}
