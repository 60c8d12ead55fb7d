//! The joints of a plan: lines that are alike, what each rivet carries, and the rule sets that check it.

use crate::body::rivet_lines::{LineKind, RivetLine};
use crate::check::{Check, Level, Standing};
use crate::error::{Error, Problem};
use crate::mechanics::joint::{Demand, Format, Lap, Method, Report};
use crate::mechanics::sheet::Sheet;

use super::file::File;
use super::resolve::Resolved;
use super::results::JointCase;
use super::skin_loads::{LoadCase, continuity, on_line};

/// Lines of the same kind, pitch and zone share one joint, checked for the widest skin and the worst load of any of them.
pub(super) fn joint_cases(r: &Resolved, loads: &LoadCase, lines: &[RivetLine]) -> Result<Vec<JointCase>, Error> {
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
        case.reports = reports(r, case, 0.0)?;
    }
    Ok(cases)
}

/// What a line's rivets hold the sheet to: another sheet, a post, a rail of the body, or tube framed in anew. Old sheet between
/// them is not counted on, nor is a wall taken to be stronger than the posts' steel.
fn behind(r: &Resolved, kind: LineKind) -> Option<Sheet> {
    let wall = |label: &str, wall_mm: f64, standing: Standing| {
        let post = r.post_wall.clone()?;
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
        LineKind::Post => r.post_wall.clone(),
        LineKind::Seam | LineKind::Course => Some(r.sheet.clone()),
        LineKind::Top | LineKind::Bottom => wall("rail of the body", r.walls.rail_mm, r.walls.standing),
        LineKind::End | LineKind::Opening => wall("tube behind the edge", r.backing.wall_mm, r.backing.standing),
    }
}

/// What the rule sets say of a joint whose new sheet has lost so much of its thickness, mm, on one side.
pub(super) fn reports(r: &Resolved, case: &JointCase, lost_mm: f64) -> Result<Vec<Report>, Error> {
    let Some(mut inner) = behind(r, case.kind) else { return Ok(Vec::new()) };
    let mut outer = r.sheet.clone();
    if lost_mm > 0.0 {
        // How far the old metal behind has rusted is not known; a lap of two new sheets thins on both.
        if matches!(case.kind, LineKind::Seam | LineKind::Course) {
            inner = inner.thinned(lost_mm);
        }
        outer = outer.thinned(lost_mm);
    }
    let all = |problems: Vec<Problem>| Error::Input(problems.into_iter().map(Into::into).collect());
    let mut lap = Lap::new(outer, inner, r.rivet.clone(), case.pitch_mm, r.rules.edge_mm).map_err(all)?;
    lap.choices.panel_edge = case.kind.panel_edge();
    // Aluminium has a rule set of its own; any other metal is told what the steel rules say of it.
    let methods: &[Method] = if r.sheet.material.starts_with("aluminium") {
        &[Method::En1999_1_4]
    } else {
        &[Method::En1993_1_3, Method::AisiS100(Format::Allowable)]
    };
    let standing = r.loads.standing.with(r.flatness.standing);
    let service = Demand { shear_n: case.shear_n, tension_n: case.tension_n };
    methods
        .iter()
        .map(|&method| {
            let factor = if method.level() == Level::Design { r.loads.load_factor } else { 1.0 };
            let demand = service.times(factor);
            let mut report = lap.check(demand, method).map_err(all)?;
            for check in &mut report.checks {
                check.standing = check.standing.with(standing);
            }
            Ok(report)
        })
        .collect()
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
