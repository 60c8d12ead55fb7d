//! The words of each choice: one each, read back by those that read them, the same in files; what is from memory says so.

use std::fmt::Debug;
use std::str::FromStr;

use raisedbody::body::cuts::Place;
use raisedbody::body::panels::Part;
use raisedbody::body::squareness::{Decision, PARAMETERS, Parameter, Step};
use raisedbody::calculation::Form;
use raisedbody::catalogue::{DrillKind, PaintPreparation, Sacrifice};
use raisedbody::check::Standing;
use raisedbody::error::{Problem, by_name};
use raisedbody::mechanics::corrosion::Reading;
use raisedbody::mechanics::hole_line::OldMetal;
use raisedbody::mechanics::joint::aisi_s100::LowerAnchor;
use raisedbody::mechanics::joint::by_test::{ConnectionKind, Distribution};
use raisedbody::mechanics::joint::efficiency::{Bearing, Limits};
use raisedbody::mechanics::joint::inter_rivet::EndFixity;
use raisedbody::mechanics::joint::turned::Sheets;
use raisedbody::mechanics::joint::{Format, spacing};
use raisedbody::mechanics::panel::{Attitude, Restraint};
use raisedbody::mechanics::section::{Edge, Face, Rule};
use raisedbody::shop::odds::Shape;
use serde::Serialize;

/// Each has one of these names, is what is read from it, and a word that is none of them is told them.
fn read_back<T>(all: &[T], name: fn(T) -> &'static str, names: &[&str])
where
    T: Copy + Debug + PartialEq + FromStr<Err = Problem>,
{
    read_back_by(T::from_str, all, name, names);
}

fn read_back_by<T: Copy + Debug + PartialEq>(
    read: impl Fn(&str) -> Result<T, Problem>,
    all: &[T],
    name: fn(T) -> &'static str,
    names: &[&str],
) {
    assert_eq!(all.iter().map(|own| name(*own)).collect::<Vec<_>>(), names);
    for own in all {
        assert_eq!(read(name(*own)), Ok(*own));
    }
    let told = read("qqqq").unwrap_err().to_string();
    assert!(names.iter().all(|name| told.contains(name)), "{told}");
}

/// Each has words of its own.
fn told_apart(words: &[&str]) {
    assert!(words.iter().all(|own| !own.trim().is_empty()));
    assert!((1..words.len()).all(|i| !words[..i].contains(&words[i])), "{words:?}");
}

#[test]
fn names_are_read_back() {
    read_back(&Form::ALL, Form::name, &["text", "html", "latex"]);
    read_back(&DrillKind::ALL, DrillKind::name, &["fraction", "number", "letter", "metric"]);
    read_back(&OldMetal::ALL, OldMetal::name, &["stays", "covered"]);
    let restraint = |text: &str| by_name("restraint", "way", text, &Restraint::ALL, Restraint::name);
    read_back_by(restraint, &Restraint::ALL, Restraint::name, &["along a", "both ways"]);
    let attitude = |text: &str| by_name("attitude", "attitude", text, &Attitude::ALL, Attitude::name);
    read_back_by(attitude, &Attitude::ALL, Attitude::name, &["horizontal", "vertical"]);
}

#[test]
fn names_of_joints_are_read_back() {
    read_back(&LowerAnchor::ALL, LowerAnchor::name, &["equal parts", "real parts"]);
    let connections = ["bolt", "screw, tilting and bearing", "screw, other", "fillet weld", "not listed"];
    read_back(&ConnectionKind::ALL, ConnectionKind::name, &connections);
    read_back(&Distribution::ALL, Distribution::name, &["normal", "log-normal"]);
    read_back(&Format::ALL, Format::name, &["allowable", "factored"]);
    read_back(&Sheets::ALL, Sheets::name, &["outer", "inner", "both"]);
    for rule in [Bearing::En1993_1_3, Bearing::AisiS100] {
        assert_eq!(rule.name().unwrap().parse(), Ok(rule));
    }
    // A tested lap is a load, which no name tells.
    assert_eq!(Bearing::Tested(3000.0).name(), None);
}

#[test]
fn names_of_sections_are_read_back() {
    read_back(&Rule::ALL, Rule::name, &["EN 1993-1-5", "AISI S100"]);
    read_back(&Edge::ALL, Edge::name, &["internal", "outstand, tip", "outstand, root"]);
    read_back(&Face::ALL, Face::name, &["away", "skin"]);
}

/// EN 1993-1-5:2006, Table 4.1 is of internal parts, Table 4.2 of outstands; AISI S100-16, Appendix 1 has 1.1 for stiffened and
/// 1.2 for unstiffened elements. Both from memory, and told so.
#[test]
fn widths_name_their_clause() {
    for (edge, table, clause) in
        [(Edge::Internal, "4.1", "1.1"), (Edge::OutstandTip, "4.2", "1.2"), (Edge::OutstandRoot, "4.2", "1.2")]
    {
        assert_eq!(Rule::En1993_1_5.clause(edge), format!("EN 1993-1-5:2006 4.4 and Table {table}"));
        assert_eq!(Rule::AisiS100.clause(edge), format!("AISI S100-16 Appendix 1, {clause}"));
    }
    assert!(Rule::ALL.iter().all(|rule| rule.standing() == Standing::Memory));
}

#[test]
fn files_say_the_same() {
    fn same<T: Copy + Serialize>(all: &[T], words: fn(T) -> &'static str) {
        told_apart(&all.iter().map(|own| words(*own)).collect::<Vec<_>>());
        for own in all {
            assert_eq!(serde_json::to_value(own).unwrap(), words(*own));
        }
    }
    same(&[Part::Side, Part::Patch, Part::End], Part::words);
    same(&[Sacrifice::Yes, Sacrifice::Weak, Sacrifice::No], Sacrifice::name);
    same(&[PaintPreparation::None, PaintPreparation::Pretreatment, PaintPreparation::Etch], PaintPreparation::name);
}

#[test]
fn shapes_of_odds_are_those_of_the_plan() {
    let shapes = [
        Shape::Triangular { least: 0.9, likely: 1.0, most: 1.2 },
        Shape::Pert { least: 0.9, likely: 1.0, most: 1.2 },
        Shape::Lognormal { low: 0.9, high: 1.2 },
    ];
    let schema = std::fs::read_to_string("schema/plan.schema.json").unwrap();
    for shape in shapes {
        assert!(schema.contains(&format!("\"{}\"", shape.words())), "{}", shape.words());
        // Beside its numbers, a file has the same word.
        let file = serde_json::to_value(shape).unwrap();
        assert_eq!(file.as_object().unwrap().keys().collect::<Vec<_>>(), [shape.words()]);
    }
}

#[test]
fn no_two_things_are_told_alike() {
    told_apart(&Step::ALL.map(Step::words));
    told_apart(&PARAMETERS.map(Parameter::name));
    told_apart(&PARAMETERS.map(Parameter::meaning));
    told_apart(&Reading::ALL.map(Reading::words));
    told_apart(&[Decision::Go, Decision::NoGo, Decision::MeasureAgain].map(Decision::words));
    told_apart(&[Limits::RivetShear, Limits::Bearing, Limits::TestedLap].map(Limits::words));
    told_apart(&[spacing::Side::Least, spacing::Side::Most].map(spacing::Side::words));
    let places = [
        Place::LowerSide,
        Place::RubRail,
        Place::UpperSide,
        Place::Sill,
        Place::Windows,
        Place::Header,
        Place::AboveWindows,
        Place::DripRail,
        Place::Roof,
    ];
    told_apart(&places.map(Place::words));
}

/// A source that is somebody's memory is told as such wherever its standing is, and nowhere else.
#[test]
fn end_fixities_from_memory_say_so() {
    let own = [EndFixity::EffectiveLength(0.6), EndFixity::Own(2.0)];
    for fixity in EndFixity::NAMED.into_iter().chain(own) {
        let source = fixity.source();
        assert_eq!(fixity.standing() == Standing::Memory, source.contains("from memory"), "{source}");
        assert_eq!(fixity.standing() == Standing::Given, source == "given by the user", "{source}");
        assert_eq!(fixity.standing() == Standing::Assumed, source.starts_with("judgement"), "{source}");
    }
}
