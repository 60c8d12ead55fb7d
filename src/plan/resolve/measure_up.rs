//! The measure-up in numbers: errors and tolerances in mm, posts by index.

use crate::body::raise::Raise;
use crate::body::squareness::{Errors, LEAST_ERROR_MM, MOST_ERROR_MM, Tolerances};
use crate::check::Standing;
use crate::error::Problem;
use crate::quantity::{Kind, Length};

use super::Assumption;
use super::memory::OfMeasureUp;
use super::reader::Reader;

/// What the measure-up is laid out and judged with.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct MeasureUpNumbers {
    pub errors: Errors,
    /// The weakest standing of an error.
    pub standing: Standing,
    pub tolerances: Tolerances,
    /// Posts that are measured, by index; empty where all that are lengthened are.
    pub posts: Vec<usize>,
    /// Errors that stand in for those the plan does not give.
    pub assumed: Vec<Assumption>,
}

pub(super) fn measure_up(r: &mut Reader<'_>, file: &OfMeasureUp, raise: Option<&Raise>) -> MeasureUpNumbers {
    let m = &file.measure_up;
    let listed = r.assumed.len();
    let mut standing = Standing::Given;
    let mut error = |name: &str, given: Option<Length>| {
        let field = format!("measure_up.errors.{name}");
        let bounds = (LEAST_ERROR_MM, MOST_ERROR_MM);
        let key = format!("error_{name}");
        let (mm, known) = r.or_fallback(given.map(Length::mm), &field, &key, bounds, Kind::Length);
        standing = standing.with(known);
        mm
    };
    let errors = Errors {
        height_mm: error("height", m.errors.height),
        plumb_mm: error("plumb", m.errors.plumb),
        string_mm: error("string", m.errors.string),
        string_setting_mm: error("string_setting", m.errors.string_setting),
        gap_mm: error("gap", m.errors.gap),
        diagonal_mm: error("diagonal", m.errors.diagonal),
    };
    let assumed = r.assumed.get(listed..).unwrap_or_default().to_vec();
    let mut tolerance =
        |name: &str, given: Option<Length>| r.optional_length(&format!("measure_up.{name}"), given, 0.5, 200.0);
    let all = tolerance("tolerance", m.tolerance);
    let tolerances = Tolerances {
        height_mm: tolerance("height_tolerance", m.height_tolerance).or(all),
        plumb_mm: tolerance("plumb_tolerance", m.plumb_tolerance).or(all),
        diagonal_mm: tolerance("diagonal_tolerance", m.diagonal_tolerance).or(all),
    };
    MeasureUpNumbers { errors, standing, tolerances, posts: posts(r, &m.posts, raise), assumed }
}

fn posts(r: &mut Reader<'_>, given: &[u32], raise: Option<&Raise>) -> Vec<usize> {
    let mut posts: Vec<usize> = Vec::new();
    for (i, &post) in given.iter().enumerate() {
        let path = format!("measure_up.posts[{i}]");
        let index = (post as usize).checked_sub(1);
        match (index, raise) {
            (Some(index), _) if posts.contains(&index) => {
                r.problems.push(Problem::contradiction(path, post, "this post is named twice"));
            }
            (Some(index), Some(raise)) if (raise.first_post..=raise.last_post).contains(&index) => posts.push(index),
            (_, Some(raise)) => {
                let allowed = format!("a post that is lengthened, {} to {}", raise.first_post + 1, raise.last_post + 1);
                r.problems.push(Problem::out_of_range(path, post, allowed));
            }
            // What is wrong with the raise is told there.
            (_, None) => {}
        }
    }
    if given.len() == 1 {
        let fix = "one pair of posts does not tell pitch, yaw or twist: name two or more, the outermost among them";
        r.problems.push(Problem::missing("measure_up.posts[1]", fix));
    }
    posts.sort_unstable();
    posts
}
