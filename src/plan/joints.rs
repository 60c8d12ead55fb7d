//! The joints of a plan: lines that are alike, what each rivet carries, and the rule sets that check it.

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::check::{Check, Level, Standing};
use crate::error::{Error, Problem};
use crate::mechanics::joint::{BlindRivet, Demand, Format, Lap, Method};
use crate::mechanics::sheet::Sheet;

use super::file::File;
use super::resolve::Resolved;
use super::results::JointCase;
use super::skin_loads::{LoadCase, continuity, on_line};

/// Lines of the same kind, pitch and zone share one joint, checked for the widest skin and the worst load of any of them. No
/// rule set has checked them yet.
pub(super) fn joint_cases(r: &Resolved, loads: &LoadCase, lines: &[RivetLine]) -> Vec<JointCase> {
    let mut cases: Vec<JointCase> = Vec::new();
    for line in lines {
        let own = on_line(r, loads, line);
        let alike =
            |c: &&mut JointCase| c.kind == line.kind && c.zone == own.zone && (c.pitch_mm - line.pitch_mm).abs() < 0.05;
        match cases.iter_mut().find(alike) {
            Some(case) => {
                case.lines.push(line.id.clone());
                case.tributary_mm = case.tributary_mm.max(line.tributary_mm);
                if own.load.total_n_mm > case.line_load.total_n_mm {
                    case.line_load = own.load;
                }
            }
            None => cases.push(JointCase {
                kind: line.kind,
                lines: vec![line.id.clone()],
                pitch_mm: line.pitch_mm,
                tributary_mm: line.tributary_mm,
                zone: own.zone,
                suction_pa: own.suction_pa,
                air_case: own.air_case,
                line_load: own.load,
                shear_n: 0.0,
                tension_n: 0.0,
                reports: Vec::new(),
            }),
        }
    }
    for case in &mut cases {
        case.shear_n = case.line_load.total_n_mm * case.pitch_mm;
        case.tension_n = case.suction_pa * 1e-6 * case.tributary_mm * case.pitch_mm * continuity(r, case.kind);
    }
    cases
}

/// How much of the joints is used, by the rule sets of each family; none where one of them is not known, or there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct JointUse {
    pub en: Option<f64>,
    pub aisi: Option<f64>,
}

/// The worst use of any joint, without the words of its reports.
pub(super) fn joint_use(r: &Resolved, cases: &[JointCase]) -> Result<JointUse, Error> {
    let mut laps: Vec<(LineKind, Option<Lap>)> = Vec::new();
    let (mut en, mut aisi) = (Some(0.0_f64), Some(0.0_f64));
    for case in cases {
        let at = match laps.iter().position(|(kind, _)| *kind == case.kind) {
            Some(at) => at,
            None => {
                laps.push((case.kind, lap(r, case, 0.0)?));
                laps.len() - 1
            }
        };
        let Some((_, Some(lap))) = laps.get_mut(at) else { return Ok(JointUse { en: None, aisi: None }) };
        lap.pitch_mm = case.pitch_mm;
        for (method, demand) in asked(r, case) {
            let own = lap.utilisation(demand, method).map_err(all)?;
            let most = if matches!(method, Method::AisiS100(_)) { &mut aisi } else { &mut en };
            *most = most.zip(own).map(|(most, own)| most.max(own));
        }
    }
    let used = |most: Option<f64>| most.filter(|most| *most > 0.0);
    Ok(JointUse { en: used(en), aisi: used(aisi) })
}

/// Checks each joint by each rule set.
pub(super) fn explain(r: &Resolved, cases: &mut [JointCase]) -> Result<(), Error> {
    let standing = r.loads.standing.with(r.flatness.standing);
    for case in cases {
        let Some(lap) = lap(r, case, 0.0)? else { continue };
        let check = |(method, demand)| {
            let mut report = lap.check(demand, method).map_err(all)?;
            for check in &mut report.checks {
                check.standing = check.standing.with(standing);
            }
            Ok(report)
        };
        case.reports = asked(r, case).map(check).collect::<Result<_, Error>>()?;
    }
    Ok(())
}

/// How much of a joint is used by each rule set that checks it, with so much of the sheet's thickness gone, mm.
pub(super) fn used_when_thinned(r: &Resolved, case: &JointCase, lost_mm: f64) -> Result<Vec<Option<f64>>, Error> {
    let Some(lap) = lap(r, case, lost_mm)? else { return Ok(Vec::new()) };
    asked(r, case).map(|(method, demand)| lap.utilisation(demand, method).map_err(all)).collect()
}

fn all(problems: Vec<Problem>) -> Error {
    Error::Input(problems.into_iter().map(Into::into).collect())
}

/// What a line's rivets hold the sheet to: another sheet, a post, a rail of the body, or tube framed in anew. Old sheet between
/// them is not counted on, nor is a wall taken to be stronger than the posts' steel.
fn behind(r: &Resolved, kind: LineKind) -> Option<Sheet> {
    let wall = |label: &str, wall_mm: f64, standing: Standing| {
        let post = r.post_wall.as_deref()?.clone();
        let standing = post.standing.with(standing);
        let label = label.to_owned();
        Some(Sheet {
            label,
            thickness_mm: wall_mm,
            base_mm: wall_mm,
            least_base_mm: wall_mm,
            design_mm: wall_mm,
            standing,
            ..post
        })
    };
    match kind {
        LineKind::Post => r.post_wall.as_deref().cloned(),
        LineKind::Seam | LineKind::Course => Some(Sheet::clone(&r.sheet)),
        LineKind::Top | LineKind::Bottom => wall("rail of the body", r.walls.rail_mm, r.walls.standing),
        LineKind::End | LineKind::Opening => wall("tube behind the edge", r.backing.wall_mm, r.backing.standing),
    }
}

/// The lap that a joint is; none where what is behind the sheet is not known. The new sheet has lost so much of its thickness,
/// mm, on one side.
fn lap(r: &Resolved, case: &JointCase, lost_mm: f64) -> Result<Option<Lap>, Error> {
    let Some(mut inner) = behind(r, case.kind) else { return Ok(None) };
    let mut sheet = Sheet::clone(&r.sheet);
    if lost_mm > 0.0 {
        // How far the old metal behind has rusted is not known; a lap of two new sheets thins on both.
        if matches!(case.kind, LineKind::Seam | LineKind::Course) {
            inner = inner.thinned(lost_mm);
        }
        sheet = sheet.thinned(lost_mm);
    }
    let mut lap = Lap::new(sheet, inner, BlindRivet::clone(&r.rivet), case.pitch_mm, r.rules.edge_mm).map_err(all)?;
    lap.choices.panel_edge = case.kind.panel_edge();
    Ok(Some(lap))
}

/// The rule sets that check a joint, and what each asks one rivet to carry.
fn asked(r: &Resolved, case: &JointCase) -> impl Iterator<Item = (Method, Demand)> {
    // Aluminium has a rule set of its own; any other metal is told what the steel rules say of it.
    let methods: &[Method] = if r.sheet.material.starts_with("aluminium") {
        &[Method::En1999_1_4]
    } else {
        &[Method::En1993_1_3, Method::AisiS100(Format::Allowable)]
    };
    let (service, load_factor) = (Demand { shear_n: case.shear_n, tension_n: case.tension_n }, r.loads.load_factor);
    methods.iter().map(move |&method| {
        let factor = if method.level() == Level::Design { load_factor } else { 1.0 };
        (method, service.times(factor))
    })
}

/// Of each joint the check that governs it, by each rule set.
pub(super) fn joint_checks(joints: &[JointCase], file: &File) -> Vec<Check> {
    let mut checks = Vec::new();
    for joint in joints {
        let subject = joint.subject(file.units);
        for report in &joint.reports {
            if let Some(check) = report.governing() {
                let mut check = check.clone().at(subject.clone());
                check.name = format!("joint by {}, {}", report.method, check.name).into();
                checks.push(check);
            }
        }
        if joint.reports.is_empty() {
            checks.push(
                Check::compare("joint", "", (None, None, "N"), Level::Design, Standing::Given)
                    .at(subject)
                    .because("the posts' section is not in the plan: measure a post and its wall (survey.post)"),
            );
        }
    }
    checks
}
