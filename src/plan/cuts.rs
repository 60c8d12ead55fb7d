//! The cuts that a plan could have made instead of its own, counted as its own evaluation counts, and ranked.

use std::collections::BTreeMap;

use toml::{Table, Value};

use crate::body::cuts::{Cut, Figures, Reason, candidates, rank};
use crate::body::raise::{Ends, Raise};
use crate::body::rivet_lines::set_out;
use crate::body::skins::lay_out;
use crate::body::takeoff::Takeoff;
use crate::error::{Error, Problem};
use crate::form::Document;
use crate::quantity::{Kind, ShopUnits};
use crate::shop::hours;

use super::Plan;
use super::relaid::relay;
use super::resolve::{EndCapPlan, Resolved};

/// How cuts are ranked, in words.
pub const RANKED_BY: &str = "hours for a metre of raised roof, then fewer splices, less skin, fewer transitions, then more \
                             post left on the shorter side of the cut";

/// Every cut to choose from: those that can be made, best first, then those turned down.
#[derive(Debug, Clone, PartialEq)]
pub struct Cuts {
    /// The cuts.
    pub all: Vec<Cut>,
    /// How lengths are printed.
    pub units: ShopUnits,
    /// Run of the sloped ends among them, mm.
    pub slope_run_mm: f64,
    /// Depth of the header over the windows, mm.
    pub header_mm: f64,
    /// The plan's own ends are sloped by that run; else it is a default.
    pub own_slope: bool,
}

impl Cuts {
    /// Those that can be made, best first.
    pub fn ranked(&self) -> impl Iterator<Item = &Cut> {
        self.all.iter().filter(|cut| cut.rank.is_some())
    }

    /// The plan's own.
    pub fn own(&self) -> Option<&Cut> {
        self.all.iter().find(|cut| cut.own)
    }

    /// How many cuts are turned down for each kind of reason; one cut may have several.
    pub fn turned_down(&self) -> BTreeMap<&'static str, usize> {
        let mut counts = BTreeMap::new();
        for cut in &self.all {
            let mut kinds: Vec<&str> = cut.reasons.iter().map(Reason::kind).collect();
            kinds.sort_unstable();
            kinds.dedup();
            for kind in kinds {
                *counts.entry(kind).or_insert(0) += 1;
            }
        }
        counts
    }
}

impl Plan {
    /// Every height and extent at which this bus could be cut for the plan's raise: each with the reasons against it, or with
    /// its splices, new skin, transitions, headroom and hours (but for the cuts of sheets and bars), counted as
    /// [`evaluate`](Self::evaluate) counts, and its rank.
    ///
    /// # Errors
    /// A default of the plan's own catalogue rows that cannot be used.
    ///
    /// # Example
    /// ```
    /// use raisedbody::plan::Plan;
    /// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    /// let cuts = plan.cuts().unwrap();
    /// let best = cuts.ranked().next().unwrap();
    /// assert!(plan.with_cut(best).unwrap().evaluate().is_ok());
    /// ```
    pub fn cuts(&self) -> Result<Cuts, Error> {
        let r = self.resolved.as_ref();
        let (slope_run_mm, own_slope) = match r.raise.ends {
            Ends::Sloped { run_mm } => (run_mm, true),
            _ => (self.catalogue.fallback_value("slope_run", Kind::Length)?, false),
        };
        if !(50.0..=4000.0).contains(&slope_run_mm) {
            let value = Kind::Length.print(slope_run_mm);
            return Err(Problem::out_of_range("default slope_run", value, "50 mm to 4 m").into());
        }
        let header_mm = self.catalogue.fallback_value("header_depth", Kind::Length)?;
        let mut all = candidates(&r.survey, &r.raise, slope_run_mm, header_mm);
        for cut in all.iter_mut().filter(|cut| cut.reasons.is_empty()) {
            match figures(r, &cut.raise) {
                Ok(figures) => cut.figures = Some(figures),
                Err(problem) => {
                    cut.reasons.push(Reason::Sheets(problem.to_string()));
                    cut.allowed_mm = None;
                }
            }
        }
        rank(&mut all);
        Ok(Cuts { all, units: self.file.units, slope_run_mm, own_slope, header_mm })
    }

    /// This plan with another cut.
    ///
    /// # Errors
    /// A cut that is turned down; as for [`Plan::read`] where it is one of another plan.
    pub fn with_cut(&self, cut: &Cut) -> Result<Self, Error> {
        if !cut.reasons.is_empty() {
            let why: Vec<String> = cut.reasons.iter().map(ToString::to_string).collect();
            let value = format!("{} mm", cut.raise.cut_mm);
            return Err(Problem::contradiction("raise.cut", value, why.join("; ")).into());
        }
        let mut document = Document::from(self.document.table.clone());
        let entry = document.table.entry("raise").or_insert_with(|| Value::Table(Table::new()));
        if let Value::Table(raise) = entry {
            let length = |mm: f64| Value::String(format!("{mm} mm"));
            let post = |index: usize| Value::Integer(i64::try_from(index + 1).unwrap_or(i64::MAX));
            raise.insert("cut".to_owned(), length(cut.raise.cut_mm));
            raise.insert("first_post".to_owned(), post(cut.raise.first_post));
            raise.insert("last_post".to_owned(), post(cut.raise.last_post));
            raise.remove("slope_run");
            let ends = match cut.raise.ends {
                Ends::WholeRoof => "whole roof",
                Ends::Stepped => "stepped",
                Ends::Sloped { run_mm } => {
                    raise.insert("slope_run".to_owned(), length(run_mm));
                    "sloped"
                }
            };
            raise.insert("ends".to_owned(), Value::String(ends.to_owned()));
        }
        Self::from_document(document, self.source.clone())
    }
}

/// Counts a raise as the evaluation does.
fn figures(r: &Resolved, raise: &Raise) -> Result<Figures, Problem> {
    let caps = r.end_caps.as_deref().map(EndCapPlan::sheets).unwrap_or_default();
    let skins = lay_out(&r.survey, raise, &r.rules, &caps)?;
    let raised = raise.apply(&r.survey);
    let mut lines = set_out(&r.survey, raise, &skins, r.rules.edge_mm, r.pitch_mm);
    relay(&r.drilled.old_lines, &mut lines).map_err(|mut problems| problems.swap_remove(0))?;
    let counted = (lines.as_slice(), [].as_slice(), r.drilled.own_holes());
    let takeoff = Takeoff::count(&r.survey, raise, &raised, &skins, &r.rules, counted, &r.allowances);
    let post = |i: usize| r.survey.posts_mm.get(i).copied().unwrap_or(0.0);
    let whole = raise.ends == Ends::WholeRoof;
    Ok(Figures {
        splices: 2 * takeoff.posts_lengthened,
        skin_area_m2: takeoff.skin_area_m2,
        transitions: if whole { 0 } else { 2 },
        raised_length_mm: if whole { r.survey.length_mm } else { post(raise.last_post) - post(raise.first_post) },
        headroom_gained_mm: raised.headroom_mm - r.survey.inside_height_mm,
        labour_h: hours::tasks(&takeoff, hours::ShopCuts::default(), &r.times).iter().map(|task| task.hours).sum(),
    })
}
