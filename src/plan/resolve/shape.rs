//! The shape of the body: cross-section, what differs from side to side, and features.

use crate::body::features::{Feature, FeatureKind};
use crate::body::outline::{At, Bulge, CrossSection, Frame, Outline, Taped};
use crate::body::survey::{Heights, Side, post_stations};
use crate::check::Standing;
use crate::error::Problem;
use crate::plan::file::{self, Lean};
use crate::quantity::{Kind, Length};

use super::Assumption;
use super::memory::OfSurvey;
use super::reader::Reader;

/// Names of both sides and what the plan says of each.
fn sides(file: &OfSurvey) -> [(Side, Option<&file::OneSide>); 2] {
    [(Side::Left, file.survey.left.as_ref()), (Side::Right, file.survey.right.as_ref())]
}

/// How closely the body was taped, mm, where anything taped twice is compared; otherwise nothing depends on it.
pub(super) fn tape_mm(r: &mut Reader<'_>, file: &OfSurvey) -> f64 {
    let s = &file.survey;
    let compared = s.last_post_to_front.is_some()
        || s.outline.is_some()
        || s.left.is_some()
        || s.right.is_some()
        || !s.features.is_empty();
    if !compared {
        return 0.0;
    }
    r.or_fallback(s.tape_error.map(Length::mm), "survey.tape_error", "tape_error", (0.0, 200.0), Kind::Length).0
}

/// The lean of one side as taped.
#[derive(Clone, PartialEq)]
pub(super) struct TapedLean {
    path: String,
    inset_and_drop_mm: Option<(f64, f64)>,
}

/// The lean of the left and of the right side.
pub(super) fn leans(r: &mut Reader<'_>, file: &OfSurvey) -> [TapedLean; 2] {
    let mut read = |path: String, lean: Option<Lean>| {
        let inset_and_drop_mm = lean.map(|lean| {
            let drop_mm = r.length(&format!("{path}.drop"), lean.drop, 50.0, 3000.0);
            (r.length(&format!("{path}.inset"), lean.inset, 0.0, 500.0), drop_mm)
        });
        TapedLean { path, inset_and_drop_mm }
    };
    let common = read("survey.lean".to_owned(), file.survey.lean);
    sides(file).map(|(side, one)| match one.and_then(|one| one.lean) {
        Some(lean) => read(format!("survey.{}.lean", side.name()), Some(lean)),
        None => common.clone(),
    })
}

/// The lean of each side per mm of height, left first, and the cross-section; none where one contradicts the survey.
pub(super) fn section(
    r: &mut Reader<'_>,
    file: &OfSurvey,
    (leans, chain): (&[TapedLean; 2], Option<&Chain>),
    width_mm: f64,
    heights: &Heights,
    tape_mm: f64,
) -> Option<(Option<[f64; 2]>, CrossSection)> {
    let before = r.problems.len();
    let [left, right] = leans;
    let each: &[&TapedLean] = if left == right { &[left] } else { &[left, right] };
    if file.survey.outline.is_some() {
        for lean in each.iter().filter(|lean| lean.inset_and_drop_mm.is_some()) {
            let written = r.written(&lean.path, "a lean");
            let problem = "survey.outline has the sides' lean in it; leave one of the two out";
            r.problems.push(Problem::contradiction(&lean.path, written, problem));
        }
        let (start, taped) = chain?;
        let frame = Frame {
            half_width_mm: width_mm / 2.0,
            floor_mm: heights.floor_mm,
            drip_rail_mm: heights.drip_rail_mm,
            crown_mm: file.survey.crown.is_some().then_some(heights.crown_mm),
            tape_mm,
        };
        let half = r.keep_all(Outline::from_chain(*start, taped, &frame))?;
        return (r.problems.len() == before).then(|| (None, CrossSection { left: half.clone(), right: half }));
    }
    for lean in each {
        let Some((inset_mm, drop_mm)) = lean.inset_and_drop_mm else {
            r.assumed.push(Assumption {
                field: lean.path.clone(),
                value: "upright".to_owned(),
                source:
                    "no lean is taped: hold a plumb line from the drip rail and tape the inset at the window bottom"
                        .to_owned(),
                standing: Standing::Assumed,
            });
            continue;
        };
        let meet_mm = heights.window_bottom_mm + width_mm / 2.0 * drop_mm / inset_mm;
        if meet_mm <= heights.drip_rail_mm {
            r.problems.push(Problem::contradiction(
                format!("{}.inset", lean.path),
                format!("{inset_mm:.0} mm"),
                format!(
                    "over a drop of {drop_mm:.0} mm the side reaches the centre line at {meet_mm:.0} mm, below the drip \
                     rail at {:.0} mm, and closes the roof; tape inset and drop again",
                    heights.drip_rail_mm
                ),
            ));
        }
    }
    let leans = [left, right].map(|lean| lean.inset_and_drop_mm.map_or(0.0, |(inset_mm, drop_mm)| inset_mm / drop_mm));
    let [left, right] = leans.map(|lean| Outline::from_heights(width_mm / 2.0, heights, lean));
    (r.problems.len() == before).then_some((Some(leans), CrossSection { left, right }))
}

fn place(r: &mut Reader<'_>, path: &str, place: file::Place) -> At {
    let half_mm = r.length(&format!("{path}.half_width"), place.half_width, 0.0, 1700.0);
    At::new(half_mm, r.length(&format!("{path}.height"), place.height, 0.0, 5000.0))
}

/// Start and pieces of a chain as taped.
pub(super) type Chain = (At, Vec<Taped>);

/// The chain of the plan; none where there is none or it cannot be read.
pub(super) fn chain(r: &mut Reader<'_>, file: &OfSurvey) -> Option<Chain> {
    let outline = file.survey.outline.as_ref()?;
    let before = r.problems.len();
    let start = place(r, "survey.outline.start", outline.start);
    let mut taped = Vec::new();
    for (i, piece) in outline.pieces.iter().enumerate() {
        let path = format!("survey.outline.pieces[{i}]");
        let to = place(r, &format!("{path}.to"), piece.to);
        let from = piece.from.map(|from| place(r, &format!("{path}.from"), from));
        let radius_mm = r.optional_length(&format!("{path}.radius"), piece.radius, 1.0, 100_000.0);
        let arc = match (radius_mm, piece.bulge) {
            (Some(radius), Some(file::Bulge::Out)) => Some((radius, Bulge::Out)),
            (Some(radius), Some(file::Bulge::In)) => Some((radius, Bulge::In)),
            (None, None) => None,
            (Some(_), None) => {
                let fix = "an arc bulges one way: write bulge = \"out\" or \"in\"";
                r.problems.push(Problem::missing(format!("{path}.bulge"), fix));
                None
            }
            (None, Some(_)) => {
                let fix = "only an arc bulges: write its radius, or leave bulge out for a straight line";
                r.problems.push(Problem::missing(format!("{path}.radius"), fix));
                None
            }
        };
        taped.push(Taped { from, to, arc });
    }
    if r.problems.len() == before { Some((start, taped)) } else { None }
}

/// What the plan says of one side against what holds for both: posts stand opposite each other and the sheets are laid
/// out alike, so that windows, posts and heights may differ by the tape's error only.
pub(super) fn side_problems(
    r: &mut Reader<'_>,
    file: &OfSurvey,
    length_mm: f64,
    posts_mm: &[f64],
    heights: &Heights,
    tape_mm: f64,
) {
    for (side, one) in sides(file) {
        let Some(one) = one else { continue };
        let path = |entry: &str| format!("survey.{}.{entry}", side.name());
        if let Some(windows) = one.windows.filter(|windows| *windows != file.survey.windows) {
            let problem = format!(
                "survey.windows is {}: posts are laid out opposite each other, as many on either side; count again, or \
                 enter a window without a partner as a feature",
                file.survey.windows
            );
            r.problems.push(Problem::contradiction(path("windows"), windows, problem));
        }
        if let Some(exceptions) = &one.exceptions {
            side_posts(r, file, (side, exceptions), length_mm, posts_mm, tape_mm);
        }
        let pairs = [
            ("window_bottom", one.window_bottom, heights.window_bottom_mm),
            ("window_top", one.window_top, heights.window_top_mm),
            ("drip_rail", one.drip_rail, heights.drip_rail_mm),
        ];
        for (name, own, common_mm) in pairs {
            let Some(own_mm) = own.map(|z| r.length(&path(name), z, 100.0, 5000.0)) else { continue };
            if (own_mm - common_mm).abs() > tape_mm {
                let problem = format!(
                    "survey.{name} is {common_mm:.0} mm, more than the tape's error of {tape_mm:.0} mm away: sheets are laid \
                     out alike on both sides; tape it again"
                );
                r.problems.push(Problem::contradiction(path(name), format!("{own_mm:.0} mm"), problem));
            }
        }
        let Some(rub_mm) = one.rub_rail.map(|z| r.length(&path("rub_rail"), z, 100.0, 5000.0)) else { continue };
        if rub_mm >= heights.window_bottom_mm {
            let problem = format!("must lie below survey.window_bottom at {:.0} mm", heights.window_bottom_mm);
            r.problems.push(Problem::contradiction(path("rub_rail"), format!("{rub_mm:.0} mm"), problem));
        } else if let Some(common_mm) = heights.rub_rail_mm
            && file.skin.lower_edge == file::LowerEdge::RubRail
            && (rub_mm - common_mm).abs() > tape_mm
        {
            let problem = format!(
                "survey.rub_rail is {common_mm:.0} mm and the skin ends there, alike on both sides; write skin.lower_edge = \
                 \"window bottom\", or tape it again"
            );
            r.problems.push(Problem::contradiction(path("rub_rail"), format!("{rub_mm:.0} mm"), problem));
        }
    }
}

/// The posts of one side against the common row.
fn side_posts(
    r: &mut Reader<'_>,
    file: &OfSurvey,
    (side, exceptions): (Side, &[file::Exception]),
    length_mm: f64,
    posts_mm: &[f64],
    tape_mm: f64,
) {
    let s = &file.survey;
    let path = format!("survey.{}.exceptions", side.name());
    let mut gaps = Vec::new();
    for (i, e) in exceptions.iter().enumerate() {
        gaps.push((e.window, r.length(&format!("{path}[{i}].spacing"), e.spacing, 200.0, 2500.0)));
    }
    let own = match post_stations(length_mm, s.first_post.mm(), s.windows, s.post_spacing.mm(), &gaps, None) {
        Ok(own) => own,
        Err(problems) => {
            r.problems.extend(problems.into_iter().map(|problem| {
                let own_path = match problem.path().strip_prefix("survey.exceptions") {
                    Some(rest) => format!("{path}{rest}"),
                    None => path.clone(),
                };
                problem.with_path(own_path)
            }));
            return;
        }
    };
    let unlike = own.iter().zip(posts_mm).enumerate().find(|(_, (own, common))| (*own - *common).abs() > tape_mm);
    if let Some((i, (own_mm, common_mm))) = unlike {
        let problem = format!(
            "it stands at {common_mm:.0} mm by survey.exceptions, more than the tape's error of {tape_mm:.0} mm away: posts \
             are laid out opposite each other; tape both sides again"
        );
        r.problems.push(Problem::contradiction(path, format!("post {} at {own_mm:.0} mm", i + 1), problem));
    }
}

/// Features as listed, and a rub rail for each side that has its own.
pub(super) fn features(r: &mut Reader<'_>, file: &OfSurvey, length_mm: f64) -> Option<Vec<Feature>> {
    let before = r.problems.len();
    let listed: Vec<Feature> =
        file.survey.features.iter().enumerate().filter_map(|(i, f)| feature(r, i, f, length_mm)).collect();
    let own_rails = sides(file).into_iter().filter_map(|(side, one)| {
        let z_mm = one?.rub_rail?.mm();
        Some(Feature {
            name: format!("rub rail, {}", side.name()),
            kind: FeatureKind::RubRail,
            side: Some(side),
            bottom_mm: z_mm,
            top_mm: z_mm,
            rear_mm: 0.0,
            front_mm: length_mm,
        })
    });
    let all = listed.into_iter().chain(own_rails).collect();
    if r.problems.len() == before { Some(all) } else { None }
}

fn feature(r: &mut Reader<'_>, i: usize, given: &file::Feature, length_mm: f64) -> Option<Feature> {
    let path = |entry: &str| format!("survey.features[{i}].{entry}");
    let kind = match given.kind {
        file::FeatureKind::RubRail => FeatureKind::RubRail,
        file::FeatureKind::DripRail => FeatureKind::DripRail,
        file::FeatureKind::Window => FeatureKind::Window,
        file::FeatureKind::Door => FeatureKind::Door,
        file::FeatureKind::EndCap => FeatureKind::EndCap,
        file::FeatureKind::Fitting => FeatureKind::Fitting,
    };
    let side = match given.side {
        file::FeatureSide::Left => Some(Side::Left),
        file::FeatureSide::Right => Some(Side::Right),
        file::FeatureSide::Both => None,
    };
    let height_mm = r.optional_length(&path("height"), given.height, 0.0, 5000.0);
    let bottom_mm = r.optional_length(&path("bottom"), given.bottom, 0.0, 5000.0);
    let top_mm = r.optional_length(&path("top"), given.top, 0.0, 5000.0);
    // A little behind or ahead of the body is for the survey to judge by the tape's error.
    let rear_mm = r.optional_length(&path("rear"), given.rear, -5000.0, 25_000.0);
    let front_mm = r.optional_length(&path("front"), given.front, -5000.0, 25_000.0);
    let mut missing = |entry: &str, fix: String| r.problems.push(Problem::missing(path(entry), fix));
    let heights = match (height_mm, bottom_mm, top_mm) {
        (Some(z), None, None) if kind.has_one_height() => Some((z, z)),
        (None, Some(low), Some(high)) => Some((low, high)),
        (Some(z), None, None) => {
            let problem = format!("a {} has a lower and an upper edge; write bottom and top instead", kind.words());
            r.problems.push(Problem::contradiction(path("height"), format!("{z:.0} mm"), problem));
            None
        }
        (Some(z), ..) => {
            let problem = "bottom and top say it otherwise; write the height, or both edges".to_owned();
            r.problems.push(Problem::contradiction(path("height"), format!("{z:.0} mm"), problem));
            None
        }
        (None, None, None) if kind.has_one_height() => {
            missing("height", "write its height, or bottom and top".to_owned());
            None
        }
        (None, low, _) => {
            let entry = if low.is_none() { "bottom" } else { "top" };
            missing(entry, format!("a {} goes from a lower to an upper edge: write bottom and top", kind.words()));
            None
        }
    };
    let along = match (rear_mm, front_mm) {
        (None, None) if kind.runs_along() => Some((0.0, length_mm)),
        (Some(rear), Some(front)) => Some((rear, front)),
        (rear, _) => {
            let entry = if rear.is_none() { "rear" } else { "front" };
            let fix = "write rear and front, both measured forward from the rear face of the body".to_owned();
            r.problems.push(Problem::missing(path(entry), fix));
            None
        }
    };
    for (range, first, last, one_height) in
        [(heights, "bottom", "top", height_mm.is_some()), (along, "rear", "front", false)]
    {
        if let Some((low, high)) = range.filter(|(low, high)| !one_height && low >= high) {
            let problem = format!("must be more than {first} at {low:.0} mm; the two look exchanged");
            r.problems.push(Problem::contradiction(path(last), format!("{high:.0} mm"), problem));
            return None;
        }
    }
    let ((bottom_mm, top_mm), (rear_mm, front_mm)) = (heights?, along?);
    Some(Feature { name: given.name.clone(), kind, side, bottom_mm, top_mm, rear_mm, front_mm })
}
