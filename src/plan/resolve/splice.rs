//! How inserts are joined to the posts: where they go, what holds them, and how exact their sections are.

use crate::body::splices::{Fit, Shape, SplicePart, nest};
use crate::body::survey::Side;
use crate::catalogue::SectionShape;
use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{self, FeatureSide, SpliceFit, SpliceJoint};
use crate::quantity::{Kind, Length};

use super::Section;
use super::memory::OfFraming;
use super::reader::Reader;

const FU_MPA: (f64, f64) = (100.0, 1500.0);

/// What holds an insert.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) enum Joint {
    PlugWelds {
        hole_mm: Option<f64>,
        weld_fu_mpa: Option<f64>,
    },
    /// Those of `fastening`.
    Rivets,
}

/// How inserts are joined to the posts.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Splice {
    pub fit: Fit,
    pub joint: Option<Joint>,
    /// Fasteners in each line.
    pub in_line: Option<usize>,
    pub end_mm: Option<f64>,
    pub insert_fu_mpa: Option<f64>,
    /// Most posts; none where their section is not in the plan.
    pub post: Option<SplicePart>,
    /// Posts measured otherwise, by index, with their side where it is only one.
    pub others: Vec<(usize, Option<Side>, SplicePart)>,
    pub insert: SplicePart,
    /// Weakest standing of the sections' sizes.
    pub standing: Standing,
}

/// None where the plan says nothing of splices, or something cannot be read.
pub(super) fn splice(
    r: &mut Reader<'_>,
    file: &OfFraming,
    (post, insert): (Option<&Section>, Option<&Section>),
) -> Option<Splice> {
    let s = file.raise.splice.as_ref()?;
    let before = r.problems.len();
    let fit = fit(r, s.fit);
    let joint = joint(r, s);
    let in_line = s.in_line.map(|n| {
        if !(2..=10).contains(&n) {
            r.problems.push(Problem::out_of_range(
                "raise.splice.in_line",
                n,
                "2 to 10: a single one lets the post turn",
            ));
        }
        n as usize
    });
    let end_mm = r.optional_length("raise.splice.end", s.end, 3.0, 200.0);
    let insert_fu_mpa =
        s.insert_fu.map(|fu| r.bound("raise.splice.insert_fu", fu.mpa(), FU_MPA.0, FU_MPA.1, Kind::Pressure));
    let (outer, inner) = match fit {
        Fit::Inside => ("corner_high", "corner_low"),
        Fit::Over => ("corner_low", "corner_high"),
    };
    let posts_known = post.is_some() || !s.other_posts.is_empty();
    let mut standing = insert.map_or(Standing::Assumed, |insert| insert.standing);
    let mut exactness =
        |r: &mut Reader<'_>, of: &str, (tolerance, corner): (Option<Length>, Option<Length>), key: &str| {
            let field = format!("raise.splice.{of}_tolerance");
            let given = tolerance.map(Length::mm);
            let (tolerance_mm, a) = r.or_fallback(given, &field, "section_tolerance", (0.0, 5.0), Kind::Length);
            let field = format!("raise.splice.{of}_corner");
            let (corner, b) = match corner {
                Some(radius) => (Corner::Mm(r.length(&field, radius, 0.0, 50.0)), Standing::Given),
                None => {
                    let (walls, standing) = r.fallback(&field, key, (0.0, 10.0), Kind::Ratio);
                    (Corner::Walls(walls), standing)
                }
            };
            standing = standing.with(a).with(b);
            (tolerance_mm, corner)
        };
    let of_post = posts_known.then(|| exactness(r, "post", (s.post_tolerance, s.post_corner), outer));
    let of_insert = exactness(r, "insert", (s.insert_tolerance, s.insert_corner), inner);
    let mut others = Vec::new();
    for (i, other) in s.other_posts.iter().enumerate() {
        let path = format!("raise.splice.other_posts[{i}]");
        let posts = file.survey.windows as usize + 1;
        let index = (other.post as usize).checked_sub(1).filter(|post| *post < posts);
        if index.is_none() {
            let allowed = format!("1 to {posts}, counted from the rear");
            r.problems.push(Problem::out_of_range(format!("{path}.post"), other.post, allowed));
        }
        let side = match other.side {
            FeatureSide::Left => Some(Side::Left),
            FeatureSide::Right => Some(Side::Right),
            FeatureSide::Both => None,
        };
        let twice = |(known, its, _): &(usize, Option<Side>, SplicePart)| {
            Some(*known) == index && its.is_none_or(|its| side.is_none_or(|side| side == its))
        };
        if others.iter().any(twice) {
            let problem = "this post is measured twice on one side; leave one of them out";
            r.problems.push(Problem::contradiction(format!("{path}.post"), other.post, problem));
        }
        let measured = r.section(&format!("{path}.measured"), &other.measured, true);
        if let (Some(index), Some(section), Some(exact)) = (index, measured, of_post) {
            standing = standing.with(section.standing);
            others.push((index, side, part(&section, exact)));
        }
    }
    let post = post.zip(of_post).map(|(section, exact)| {
        standing = standing.with(section.standing);
        part(section, exact)
    });
    let insert = part(insert?, of_insert);
    let mut parts = post.iter().chain(others.iter().map(|(_, _, part)| part));
    // Every post is told of the same thing: once is enough.
    if let Some(problem) = parts.find_map(|post| nest(post, &insert, fit).err()) {
        r.problems.push(problem);
    }
    (r.problems.len() == before).then_some(Splice {
        fit,
        joint,
        in_line,
        end_mm,
        insert_fu_mpa,
        post,
        others,
        insert,
        standing,
    })
}

/// The outside radius of a section's corners.
#[derive(Clone, Copy)]
enum Corner {
    Mm(f64),
    /// In wall thicknesses.
    Walls(f64),
}

fn part(section: &Section, (tolerance_mm, corner): (f64, Corner)) -> SplicePart {
    let (shape, [depth_mm, width_mm, flange_mm]) = section.sizes;
    SplicePart {
        shape: match shape {
            SectionShape::RectangularTube => Shape::Tube,
            SectionShape::Hat => Shape::Hat,
        },
        depth_mm,
        width_mm,
        flange_mm,
        wall_mm: section.wall_mm,
        corner_mm: match corner {
            Corner::Mm(mm) => mm,
            Corner::Walls(walls) => walls * section.wall_mm,
        },
        tolerance_mm,
    }
}

fn fit(r: &mut Reader<'_>, given: Option<SpliceFit>) -> Fit {
    match given {
        Some(SpliceFit::Inside) => Fit::Inside,
        Some(SpliceFit::Over) => Fit::Over,
        None => {
            r.note("raise.splice.fit", "splice_fit");
            let row = r.keep(r.catalogue.fallback("splice_fit")).map(|row| row.value.clone());
            match row.as_deref() {
                Some("over") => Fit::Over,
                Some("inside") | None => Fit::Inside,
                Some(other) => {
                    r.problems.push(Problem::unknown_name("default splice_fit", "fit", other, ["inside", "over"]));
                    Fit::Inside
                }
            }
        }
    }
}

fn joint(r: &mut Reader<'_>, s: &file::Splice) -> Option<Joint> {
    let hole_mm = r.optional_length("raise.splice.hole", s.hole, 3.0, 30.0);
    let weld_fu_mpa = s.weld_fu.map(|fu| r.bound("raise.splice.weld_fu", fu.mpa(), 300.0, 900.0, Kind::Pressure));
    if s.joint == Some(SpliceJoint::PlugWelds) {
        return Some(Joint::PlugWelds { hole_mm, weld_fu_mpa });
    }
    for (name, given) in [("hole", s.hole.is_some()), ("weld_fu", s.weld_fu.is_some())] {
        if given {
            let path = format!("raise.splice.{name}");
            let written = r.written(&path, "");
            let problem = "only plug welds have it: write joint = \"plug welds\", or leave it out";
            r.problems.push(Problem::contradiction(path, written, problem));
        }
    }
    s.joint.map(|_| Joint::Rivets)
}
