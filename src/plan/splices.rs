//! A plan's splices: each insert with its nesting, step, shim, bends and bar, what its fasteners carry, and the checks on it.

use serde::Serialize;

use crate::body::raise::RaisedBody;
use crate::body::splices::{
    Fit, Insert, Leaning, Nesting, Pattern, Shim, SpliceActions, SplicePart, inserts, leaning, nest, shim,
};
use crate::catalogue::{Catalogue, GaugeSystem};
use crate::check::{Check, Level, Standing, Verdict, term};
use crate::error::Problem;
use crate::mechanics::joint::weld::PlugWeld;
use crate::mechanics::joint::{BlindRivet, Demand, Lap, Method};
use crate::mechanics::sheet::Sheet;

use super::bows::BowSummary;
use super::cut_list::BarCuts;
use super::resolve::{Joint, Resolved, Splice};

/// An insert with all that is known of its place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PostSplice {
    /// The piece.
    pub insert: Insert,
    /// Bends at its lower and its upper end, degrees, raised straight up.
    pub bends_deg: [f64; 2],
    /// The lean is more than the room in the post lets it tilt: it is sawn through three walls at both bends, folded, welded.
    pub folded: Option<bool>,
    /// How it nests; none where the splice or the post's section is not in the plan.
    pub nesting: Option<Nesting>,
    /// Sheet laid on what stands back; none where there is no step or none is thin enough.
    pub shim: Option<Shim>,
    /// The bar it is cut from, by index; none where it is longer than a bar and joined from several.
    pub bar: Option<usize>,
}

/// Fasteners of the splices and what they carry.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SpliceFasteners {
    /// Their places in one splice.
    pub pattern: Pattern,
    /// What one post carries at the cut under the loads times the load factor, however the feet are held; none where it is not known.
    pub actions: Option<SpliceActions>,
    /// Load of the fastener that carries most, the load factor in it, N.
    pub most_n: Option<f64>,
}

/// All splices of a plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SpliceSummary {
    /// Every insert, left side first, rear to front.
    pub posts: Vec<PostSplice>,
    /// The sides' lean, raised straight up and following it.
    pub leaning: Leaning,
    /// Where the inserts go; none where the plan says nothing of splices.
    pub fit: Option<Fit>,
    /// Welds or rivets; none where their places are not in the plan.
    pub fasteners: Option<SpliceFasteners>,
    /// What to know.
    pub notes: Vec<String>,
}

impl SpliceSummary {
    /// Joints of an insert with a post: two for each insert.
    pub fn count(&self) -> usize {
        2 * self.posts.len()
    }
}

/// Works the splices out.
pub(super) fn splices(
    r: &Resolved,
    raised: &RaisedBody,
    (bows, cut): (Option<&BowSummary>, Option<&BarCuts>),
    catalogue: &Catalogue,
) -> Result<SpliceSummary, Vec<Problem>> {
    let (_, [insert_depth_mm, ..]) = r.insert.sizes;
    let leaning = leaning(&r.survey, &r.raise, insert_depth_mm);
    let pieces = inserts(&r.raise, raised);
    let bars = cut.map(BarCuts::bar_of).unwrap_or_default();
    let gauges: Vec<(u32, f64)> = catalogue
        .rows()
        .gauge
        .iter()
        .filter(|row| row.system == GaugeSystem::ZincCoatedSteel)
        .map(|row| (row.gauge, row.thickness.mm()))
        .collect();
    let mut posts = Vec::new();
    for insert in pieces {
        let [left, right] = leaning.sides;
        let lean = if insert.side == left.side { left } else { right };
        let nesting = match r.splice.as_ref().and_then(|s| Some((s, s.post_at(&insert)?))) {
            Some((s, post)) => Some(nest(&post, &s.insert, s.fit).map_err(|problem| vec![problem])?),
            None => None,
        };
        posts.push(PostSplice {
            bends_deg: [lean.kink_lower_deg, lean.kink_upper_deg],
            folded: nesting.map(|n| lean.tilt_mm > n.depth.least_mm().max(0.0)),
            shim: nesting.and_then(|n| shim(n.step_mm, &gauges)),
            nesting,
            bar: bars.get(&insert.id).copied(),
            insert,
        });
    }
    let fasteners = r.splice.as_ref().and_then(|s| pattern(r, s, &posts)).map(|pattern| {
        let all = bows.into_iter().flat_map(|bows| &bows.answers).map(|answer| answer.splice_design);
        // A bow that buckles has no forces, and then the others are no answer.
        let loaded: Option<Vec<_>> = all.map(|actions| Some((actions?, pattern.most_n(actions?).ok()?))).collect();
        let worst = loaded.into_iter().flatten().max_by(|a, b| a.1.total_cmp(&b.1));
        SpliceFasteners { pattern, actions: worst.map(|w| w.0), most_n: worst.map(|w| w.1) }
    });
    let notes = notes(r, &posts, &leaning);
    Ok(SpliceSummary { posts, leaning, fit: r.splice.as_ref().map(|s| s.fit), fasteners, notes })
}

impl Splice {
    /// The section of the post that this insert lengthens.
    fn post_at(&self, insert: &Insert) -> Option<SplicePart> {
        let own = self
            .others
            .iter()
            .find(|(post, side, _)| *post == insert.post && side.is_none_or(|side| side == insert.side));
        own.map(|(_, _, part)| *part).or(self.post)
    }
}

/// Places of the fasteners; the fewest walls that any post has count for all.
fn pattern(r: &Resolved, s: &Splice, posts: &[PostSplice]) -> Option<Pattern> {
    let walls = posts.iter().filter_map(|post| post.nesting).map(|nesting| nesting.walls_beside).min()?;
    Some(Pattern { in_line: s.in_line?, walls, overlap_mm: r.raise.overlap_mm, end_mm: s.end_mm? })
}

fn notes(r: &Resolved, posts: &[PostSplice], leaning: &Leaning) -> Vec<String> {
    let mut notes = Vec::new();
    let welds = r.splice.as_ref().is_some_and(|s| matches!(s.joint, Some(Joint::PlugWelds { .. })));
    if welds {
        notes.push(
            "grind zinc and paint off both faces around each plug before welding, and coat the bare steel again: zinc \
             makes fume and porous welds, and no primer reaches the lap from outside"
                .to_owned(),
        );
    }
    if posts.iter().filter_map(|post| post.nesting).any(|nesting| nesting.closed) {
        notes.push(
            "a closed tube holds water: drill a drain of 6 mm at the lower end of each, on the face away from the skin, \
             and wax it inside; dress the tube's own weld seam where it would hold the parts apart"
                .to_owned(),
        );
    }
    let too_wide_mm = leaning.roof_too_wide_mm();
    // Less than a tenth of a millimetre is rounding.
    if too_wide_mm > 0.1 {
        let aside = leaning.middle_to_left_mm();
        let shifted = if aside.abs() > 0.1 {
            let side = if aside > 0.0 { "left" } else { "right" };
            format!(", and its middle {:.1} mm too far from that of the posts, which moves to the {side}", aside.abs())
        } else {
            String::new()
        };
        notes.push(format!(
            "raised straight up, as this plan is worked out, the roof keeps its {:.0} mm and each insert bends at both \
             cuts; following the lean there is no bend, but the roof is {too_wide_mm:.1} mm wider than the posts it is to \
             stand on{shifted}: narrow the roof by that much, or spread the posts back, which is a straight-up raise",
            leaning.roof_width_mm
        ));
    }
    notes
}

const ABSENT: &str = "the splice is not in the plan: say what goes where and what holds it (raise.splice)";
const NO_POST: &str = "the posts' section is not in the plan: measure a post and its wall (survey.post)";

/// Nesting of each kind of post, room for the fasteners, and their strength.
pub(super) fn checks(r: &Resolved, summary: &SpliceSummary) -> Vec<Check> {
    let blank = |name: &'static str, unit, level, reason: &str| {
        Check::compare(name, "", (None, None, unit), level, Standing::Given).because(reason)
    };
    let Some(s) = &r.splice else { return vec![blank("splice nesting", "mm", Level::Stated, ABSENT)] };
    let mut checks = nesting_checks(s, summary);
    let unknown: Vec<&PostSplice> = summary.posts.iter().filter(|post| post.nesting.is_none()).collect();
    if !unknown.is_empty() {
        checks.push(blank("splice nesting", "mm", Level::Stated, NO_POST).at(place(&unknown, summary.posts.len())));
    }
    match &summary.fasteners {
        Some(fasteners) => {
            checks.extend(overlap_check(r, s, &fasteners.pattern));
            checks.push(strength_check(r, s, fasteners).unwrap_or_else(|reason| {
                let sides = (fasteners.most_n, None, "N");
                Check::compare("splice strength", "", sides, Level::Design, Standing::Given).because(reason)
            }));
        }
        None => {
            let reason = match (unknown.len() == summary.posts.len(), s.in_line, s.end_mm) {
                (true, ..) => NO_POST,
                (_, None, _) => "how many fasteners stand in a line is not in the plan (raise.splice.in_line)",
                _ => "how far the first fastener stands from the post's end is not in the plan (raise.splice.end)",
            };
            checks.push(blank("splice strength", "N", Level::Design, reason));
        }
    }
    checks
}

/// `posts 1 to 10, both sides`, or each post by its insert's name.
fn place(posts: &[&PostSplice], of: usize) -> String {
    let numbers = || posts.iter().map(|post| post.insert.post + 1);
    match (numbers().min(), numbers().max()) {
        (Some(first), Some(last)) if posts.len() == of => format!("posts {first} to {last}, both sides"),
        _ => {
            let each = posts.iter().map(|post| format!("post {}, {}", post.insert.post + 1, post.insert.side.name()));
            each.collect::<Vec<_>>().join("; ")
        }
    }
}

/// Posts that nest alike are checked together.
fn nesting_checks(s: &Splice, summary: &SpliceSummary) -> Vec<Check> {
    let mut kinds: Vec<(Nesting, Vec<&PostSplice>)> = Vec::new();
    for post in &summary.posts {
        let Some(nesting) = post.nesting else { continue };
        match kinds.iter_mut().find(|(known, _)| *known == nesting) {
            Some((_, posts)) => posts.push(post),
            None => kinds.push((nesting, vec![post])),
        }
    }
    let mut checks = Vec::new();
    for (nesting, posts) in kinds {
        let at = place(&posts, summary.posts.len());
        let (inner, outer) = match s.fit {
            Fit::Inside => ("insert", "post"),
            Fit::Over => ("post", "insert"),
        };
        let mut add = |name: &'static str, needed: f64, there: f64, formula: &'static str| {
            let sides = (Some(needed), Some(there), "mm");
            let check = Check::compare(name, "geometry, tolerances against it", sides, Level::Stated, s.standing);
            let check = check.at(at.clone()).by(formula, []);
            let interference = needed - there;
            checks.push(if check.verdict == Verdict::Fails {
                let fix = format!(
                    "the {inner} is {interference:.2} mm too large for the {outer}: choose another section for the insert \
                     (raise.insert), or measure both and their corners"
                );
                check.because(fix)
            } else {
                check
            });
        };
        let size = "size and tolerance of the inner part ≤ hollow of the outer part less its tolerance";
        add("splice nesting, beside", nesting.beside.needed_mm, nesting.beside.there_mm, size);
        add("splice nesting, depth", nesting.depth.needed_mm, nesting.depth.there_mm, size);
        if let Some(corner) = nesting.corner {
            let formula = "r_o + √((k − c_x)² + (k − c_y)²) ≤ r_i, k = r_i − r_o";
            add("splice nesting, corners", corner.reach_mm, corner.radius_mm, formula);
        }
    }
    checks
}

/// The overlap against what its fasteners need one after another.
fn overlap_check(r: &Resolved, s: &Splice, pattern: &Pattern) -> Option<Check> {
    let (diameter_mm, diameters, clause) = match s.joint? {
        Joint::PlugWelds { hole_mm, .. } => (hole_mm?, 4.0, "AISC 360 J2.3b, plug welds 4 holes apart"),
        Joint::Rivets => (r.rivet.diameter_mm, 3.0, "EN 1993-1-3:2006 Table 8.1, rivets 3 diameters apart"),
    };
    let needed_mm = pattern.needed_mm(diameters * diameter_mm);
    let sides = (Some(needed_mm), Some(pattern.overlap_mm), "mm");
    Some(Check::compare("splice overlap", clause, sides, Level::Stated, Standing::Memory).by(
        "2 e + (n − 1) p ≤ overlap",
        [
            term("e", pattern.end_mm, "mm"),
            term("n", pattern.in_line as f64, ""),
            term("p", diameters * diameter_mm, "mm"),
        ],
    ))
}

/// What a verdict leaves out, or what mends it.
fn said(check: Check) -> Check {
    match check.verdict {
        Verdict::Passes => check.because(LEFT_OUT),
        Verdict::Fails => check.because(format!(
            "lengthen the overlap (raise.overlap), set more in a line (raise.splice.in_line), or farther from the ends; {LEFT_OUT}"
        )),
        _ => check,
    }
}

const LEFT_OUT: &str = "fasteners alone, under the loads across the bus; those along it, twisting, prying, crushing of thin walls and fatigue are left out";

/// The fastener that carries most; the reason where it cannot be assessed.
fn strength_check(r: &Resolved, s: &Splice, fasteners: &SpliceFasteners) -> Result<Check, String> {
    let pattern = &fasteners.pattern;
    let spacing_mm = pattern.spacing_mm().filter(|mm| *mm > 0.0);
    let spacing_mm =
        spacing_mm.ok_or("the fasteners have no room in the overlap (raise.splice.in_line, raise.overlap)")?;
    let (demand_n, actions) = fasteners.most_n.zip(fasteners.actions).ok_or(
        "the moment at the splices is not known: the posts' section is not in the plan (survey.post), or a bow buckles",
    )?;
    let joint = s.joint.ok_or("what holds the inserts is not in the plan (raise.splice.joint)")?;
    let post = r.post_wall.as_ref().ok_or(NO_POST)?;
    let insert_fu = s.insert_fu_mpa.ok_or(
        "the inserts' tensile strength is not in the plan: take it from the certificate (raise.splice.insert_fu)",
    )?;
    let terms = vec![
        term("γ_F", r.loads.load_factor, ""),
        term("F", demand_n, "N"),
        term("M", actions.moment_n_mm, "N·mm"),
        term("V", actions.shear_n, "N"),
        term("N", actions.axial_n, "N"),
        term("n", pattern.count() as f64, ""),
    ];
    let standing = s.standing.with(r.frames.standing).with(post.standing).with(Standing::Memory);
    match joint {
        Joint::PlugWelds { hole_mm, weld_fu_mpa } => {
            let hole_mm = hole_mm.ok_or("the plug welds' hole is not in the plan (raise.splice.hole)")?;
            let weld_fu_mpa = weld_fu_mpa.ok_or(
                "the filler's tensile strength is not in the plan: see its certificate (raise.splice.weld_fu)",
            )?;
            let weld = PlugWeld {
                hole_mm,
                thickness_mm: r.insert.wall_mm.min(post.thickness_mm),
                fu_mpa: insert_fu.min(post.fu_mpa.ok_or(NO_POST)?),
                weld_fu_mpa,
                edge_mm: pattern.end_mm,
            };
            let clause = "EN 1993-1-3:2006 8.5.3, arc spots, by analogy";
            let of = |capacity| {
                let sides = (Some(demand_n), capacity, "N");
                Check::compare("splice strength, plug weld", clause, sides, Level::Design, standing)
                    .by("F ≤ least of weld, sheet around it and edge, over γ_M2 = 1.25, F by M, V and N under γ_F times the loads", terms.clone())
            };
            Ok(match weld.validate() {
                Ok(()) => said(of(Some(weld.shear_n()))),
                Err(problems) => {
                    let why: Vec<String> = problems.iter().map(ToString::to_string).collect();
                    of(None).demoted(Verdict::OutsideRange, why.join("; "))
                }
            })
        }
        Joint::Rivets => {
            let insert = Sheet {
                label: format!("insert, {}", r.insert.label),
                thickness_mm: r.insert.wall_mm,
                base_mm: r.insert.wall_mm,
                least_base_mm: r.insert.wall_mm,
                design_mm: r.insert.wall_mm,
                fu_mpa: Some(insert_fu),
                standing: r.insert.standing,
                ..Sheet::clone(post)
            };
            let (outer, inner) = match s.fit {
                Fit::Inside => (Sheet::clone(post), insert),
                Fit::Over => (insert, Sheet::clone(post)),
            };
            let listed =
                |problems: Vec<Problem>| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ");
            let lap =
                Lap::new(outer, inner, BlindRivet::clone(&r.rivet), spacing_mm, pattern.end_mm).map_err(listed)?;
            let demand = Demand { shear_n: demand_n, tension_n: 0.0 };
            let report = lap.check(demand, Method::En1993_1_3).map_err(listed)?;
            let governing = report.governing().ok_or("no rule checks this rivet")?;
            let mut check = governing.clone();
            check.name = format!("splice strength, {}", governing.name).into();
            check.standing = check.standing.with(standing);
            check.terms.extend(terms);
            Ok(said(check))
        }
    }
}
