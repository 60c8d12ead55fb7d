//! Where to cut: every height band and every extent that a survey allows, each with the reasons against it or with its rank.
//!
//! Heights: the body is cut into bands by floor, rub rail, window bottom, window top and drip rail; the lines between them are
//! candidates too, to be turned down with their reason. Within a band nothing that is counted depends on the height, so that
//! one cut stands for it: the plan's own where the band allows it, else the middle of what is allowed, to the millimetre.
//! Extents: the whole roof, and every pair of posts with stepped and with sloped ends.

use std::fmt;

use super::features::FeatureKind;
use super::raise::{Ends, Raise};
use super::survey::Survey;

/// Where on the side a cut passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Place {
    /// Below the rub rail.
    LowerSide,
    /// The rub rail itself.
    RubRail,
    /// Between rub rail, or floor, and the windows.
    UpperSide,
    /// The lower edge of the window openings.
    Sill,
    /// Through the windows.
    Windows,
    /// The upper edge of the window openings.
    Header,
    /// Between windows and drip rail.
    AboveWindows,
    /// The drip rail itself.
    DripRail,
    /// The roof.
    Roof,
}

impl Place {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::LowerSide => "below the rub rail",
            Self::RubRail => "at the rub rail",
            Self::UpperSide => "below the windows",
            Self::Sill => "at the window bottom",
            Self::Windows => "through the windows",
            Self::Header => "at the window top",
            Self::AboveWindows => "above the windows",
            Self::DripRail => "at the drip rail",
            Self::Roof => "in the roof",
        }
    }
}

/// Why a cut cannot be made.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub enum Reason {
    /// The side below the windows would be cut: rub rail, skin and floor rail hang on it.
    BelowWindows,
    /// A rail would be cut lengthwise.
    Rail(String),
    /// The lower edge of the openings.
    Sill,
    /// The header over the windows.
    Header,
    /// The roof's bows would be cut, not the posts.
    Roof,
    /// Too little post is left below, down to the window bottom.
    StubBelow {
        /// What the splice needs, mm.
        overlap_mm: f64,
        /// Lowest cut that leaves it, mm.
        from_mm: f64,
    },
    /// Too little post is left above, up to the drip rail.
    StubAbove {
        /// What the splice needs, mm.
        overlap_mm: f64,
        /// Highest cut that leaves it, mm.
        to_mm: f64,
    },
    /// The frame of a window that is to stay, counted from 1 at the rear.
    KeptWindow(usize),
    /// A door inside the extent.
    Door(String),
    /// The extent ends within a window of the features.
    EndsInWindow(String),
    /// The extent reaches into an end cap that stays low.
    EndCap(String),
    /// The slope runs beyond the body.
    SlopeBeyondBody {
        /// How far, mm.
        by_mm: f64,
    },
    /// No sheets can be laid out, in the words of the layout.
    Sheets(String),
}

impl Reason {
    /// What is in the way, without its numbers: reasons of one kind are told together.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::BelowWindows => "side below the windows cut",
            Self::Rail(_) => "rail cut",
            Self::Sill => "window bottom cut",
            Self::Header => "header cut",
            Self::Roof => "roof bows cut",
            Self::StubBelow { .. } => "stub below too short",
            Self::StubAbove { .. } => "stub above too short",
            Self::KeptWindow(_) => "kept window in the way",
            Self::Door(_) => "door in the way",
            Self::EndsInWindow(_) => "ends in a window",
            Self::EndCap(_) => "end cap in the way",
            Self::SlopeBeyondBody { .. } => "slope beyond the body",
            Self::Sheets(_) => "no sheet large enough",
        }
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BelowWindows => {
                f.write_str("cuts the side below the windows, where skin and rails hang on the posts")
            }
            Self::Rail(name) => write!(f, "cuts {name} lengthwise"),
            Self::Sill => f.write_str("cuts along the lower edge of the window openings"),
            Self::Header => f.write_str("cuts the header at the window top"),
            Self::Roof => f.write_str("cuts the roof's bows above the drip rail, not the posts"),
            Self::StubBelow { overlap_mm, from_mm } => write!(
                f,
                "only a cut at {from_mm:.0} mm or higher leaves the overlap of {overlap_mm:.0} mm of post below it, down to \
                 the window bottom"
            ),
            Self::StubAbove { overlap_mm, to_mm } => write!(
                f,
                "only a cut at {to_mm:.0} mm or lower leaves the overlap of {overlap_mm:.0} mm of post above it, up to the \
                 drip rail"
            ),
            Self::KeptWindow(window) => write!(f, "cuts the frame of window {window}, which is kept"),
            Self::Door(name) => write!(f, "cuts the door \"{name}\", which stands in the extent"),
            Self::EndsInWindow(name) => write!(f, "the extent ends within the window \"{name}\""),
            Self::EndCap(name) => write!(f, "the extent reaches into \"{name}\", which stays low"),
            Self::SlopeBeyondBody { by_mm } => write!(f, "the slope runs {by_mm:.0} mm beyond the body"),
            Self::Sheets(words) => f.write_str(words),
        }
    }
}

/// What a raise takes and gives; the plan's own evaluation counts the same.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Figures {
    /// Joints of inserts with posts: two for each post that is lengthened.
    pub splices: usize,
    /// New skin on the bus, m2.
    pub skin_area_m2: f64,
    /// Steps or slopes where the raised roof meets what stays low.
    pub transitions: usize,
    /// Length of roof that goes up, mm.
    pub raised_length_mm: f64,
    /// Headroom under it, built up, less the height inside as it stands, mm.
    pub headroom_gained_mm: f64,
    /// Hours of one person, all tasks but the cuts of sheets and bars, which hang on what can be bought.
    pub labour_h: f64,
}

impl Figures {
    /// Hours for a metre of raised roof: what cuts are ranked by.
    pub fn labour_h_per_m(&self) -> f64 {
        self.labour_h / (self.raised_length_mm / 1000.0)
    }

    /// In nothing worse than another and in something better.
    pub fn dominates(&self, other: &Self) -> bool {
        let pairs = [
            (self.splices as f64, other.splices as f64),
            (self.skin_area_m2, other.skin_area_m2),
            (self.transitions as f64, other.transitions as f64),
            (-self.raised_length_mm, -other.raised_length_mm),
            (-self.headroom_gained_mm, -other.headroom_gained_mm),
            (self.labour_h, other.labour_h),
        ];
        pairs.iter().all(|(own, its)| own <= its) && pairs.iter().any(|(own, its)| own < its)
    }
}

/// A cut to choose from.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Cut {
    /// The raise that makes it.
    pub raise: Raise,
    /// Where it passes.
    pub place: Place,
    /// Heights between which it may lie, mm; none where it is turned down.
    pub allowed_mm: Option<(f64, f64)>,
    /// Post left below, down to the window bottom, mm.
    pub stub_below_mm: f64,
    /// Post left above, up to the drip rail, mm.
    pub stub_above_mm: f64,
    /// All that speaks against it.
    pub reasons: Vec<Reason>,
    /// What it takes and gives; none where it is turned down.
    pub figures: Option<Figures>,
    /// From 1, the best; none where it is turned down.
    pub rank: Option<usize>,
    /// No other cut is better in something and worse in nothing.
    pub undominated: bool,
    /// It is the plan's own.
    pub own: bool,
}

/// Heights that one place spans, mm; a line has one.
struct Band {
    place: Place,
    low_mm: f64,
    high_mm: f64,
}

fn bands(survey: &Survey) -> Vec<Band> {
    let h = &survey.heights;
    let band = |place, low_mm, high_mm| Band { place, low_mm, high_mm };
    let line = |place, at_mm| Band { place, low_mm: at_mm, high_mm: at_mm };
    let mut all = Vec::new();
    // A rub rail may lie below the floor.
    if let Some(rub_mm) = h.rub_rail_mm {
        if rub_mm > h.floor_mm {
            all.push(band(Place::LowerSide, h.floor_mm, rub_mm));
        }
        all.push(line(Place::RubRail, rub_mm));
    }
    all.push(band(Place::UpperSide, h.rub_rail_mm.unwrap_or(h.floor_mm).max(h.floor_mm), h.window_bottom_mm));
    all.push(line(Place::Sill, h.window_bottom_mm));
    all.push(band(Place::Windows, h.window_bottom_mm, h.window_top_mm));
    all.push(line(Place::Header, h.window_top_mm));
    all.push(band(Place::AboveWindows, h.window_top_mm, h.drip_rail_mm));
    all.push(line(Place::DripRail, h.drip_rail_mm));
    all.push(band(Place::Roof, h.drip_rail_mm, h.crown_mm));
    all
}

/// An open range of heights, mm, that a cut keeps out of.
struct Blocked {
    range_mm: (f64, f64),
    reason: Reason,
}

/// Posts and ends of a cut, with what speaks against it at some heights and at any.
struct Extent {
    raise: Raise,
    blocked: Vec<Blocked>,
    reasons: Vec<Reason>,
}

fn blocked(survey: &Survey, raise: &Raise, (rear_mm, front_mm): (f64, f64), header_mm: f64) -> Vec<Blocked> {
    let (h, overlap_mm) = (&survey.heights, raise.overlap_mm);
    let mut all = vec![
        ((f64::NEG_INFINITY, h.window_bottom_mm), Reason::BelowWindows),
        ((h.drip_rail_mm, f64::INFINITY), Reason::Roof),
        ((h.window_top_mm, h.window_top_mm + header_mm), Reason::Header),
    ];
    let kept = raise.raised_windows().filter(|&w| raise.window_kept.get(w) == Some(&true));
    all.extend(kept.map(|w| ((h.window_bottom_mm, h.window_top_mm), Reason::KeptWindow(w + 1))));
    for feature in &survey.features {
        let span = (feature.bottom_mm, feature.top_mm);
        let within = feature.rear_mm < front_mm && rear_mm < feature.front_mm;
        let holds = |x: f64| feature.rear_mm < x && x < feature.front_mm;
        let name = || feature.name.clone();
        match feature.kind {
            FeatureKind::Door if within => all.push((span, Reason::Door(name()))),
            FeatureKind::RubRail | FeatureKind::DripRail if within => all.push((span, Reason::Rail(name()))),
            FeatureKind::Window if holds(rear_mm) || holds(front_mm) => all.push((span, Reason::EndsInWindow(name()))),
            _ => {}
        }
    }
    let (from_mm, to_mm) = (h.window_bottom_mm + overlap_mm, h.drip_rail_mm - overlap_mm);
    all.push(((h.window_bottom_mm, from_mm), Reason::StubBelow { overlap_mm, from_mm }));
    all.push(((to_mm, h.drip_rail_mm), Reason::StubAbove { overlap_mm, to_mm }));
    all.into_iter().map(|(range_mm, reason)| Blocked { range_mm, reason }).collect()
}

/// Reasons that hold at any height.
fn of_extent(survey: &Survey, raise: &Raise, (rear_mm, front_mm): (f64, f64)) -> Vec<Reason> {
    if raise.ends == Ends::WholeRoof {
        return Vec::new();
    }
    let run_mm = if let Ends::Sloped { run_mm } = raise.ends { run_mm } else { 0.0 };
    let (first_mm, last_mm) = (rear_mm - run_mm, front_mm + run_mm);
    let caps = survey.features.iter().filter(|feature| feature.kind == FeatureKind::EndCap);
    let reached = caps.filter(|cap| first_mm < cap.front_mm && cap.rear_mm < last_mm);
    let mut reasons: Vec<Reason> = reached.map(|cap| Reason::EndCap(cap.name.clone())).collect();
    let by_mm = (-first_mm).max(last_mm - survey.length_mm);
    if by_mm > 0.0 {
        reasons.push(Reason::SlopeBeyondBody { by_mm });
    }
    reasons
}

/// The longest stretch of a band that nothing blocks, mm; none where all of it is blocked.
fn free((low_mm, high_mm): (f64, f64), blocked: &[Blocked], at_mm: Option<f64>) -> Option<(f64, f64)> {
    let mut pieces = vec![(low_mm, high_mm)];
    for Blocked { range_mm: (from_mm, to_mm), .. } in blocked {
        pieces = pieces
            .into_iter()
            .flat_map(|(low, high)| [(low, high.min(*from_mm)), (low.max(*to_mm), high)])
            .filter(|(low, high)| low <= high)
            .collect();
    }
    // The ends of the band are lines of their own: a stretch that is only one of them is none.
    pieces.retain(|(low, high)| low < high || (*low > low_mm && *high < high_mm));
    let has =
        |piece: &&(f64, f64)| at_mm.is_some_and(|at| piece.0 <= at && at <= piece.1 && low_mm < at && at < high_mm);
    let own = pieces.iter().find(has).copied();
    own.or_else(|| pieces.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0))))
}

/// The middle, to the millimetre where one is allowed.
fn middle_mm((low_mm, high_mm): (f64, f64)) -> f64 {
    let middle = f64::midpoint(low_mm, high_mm);
    let whole = middle.round();
    if (low_mm..=high_mm).contains(&whole) { whole } else { middle }
}

/// All cuts to choose from, not yet counted or ranked: of these heights with this raise's own ends and overlap, and with slopes
/// of `slope_run_mm`. The header over the windows is a rail of this depth.
pub fn candidates(survey: &Survey, own: &Raise, slope_run_mm: f64, header_mm: f64) -> Vec<Cut> {
    let posts = survey.posts_mm.len();
    let mut extents = vec![(0, posts.saturating_sub(1), Ends::WholeRoof)];
    for first in 0..posts {
        for last in first + 1..posts {
            extents.push((first, last, Ends::Stepped));
            extents.push((first, last, Ends::Sloped { run_mm: slope_run_mm }));
        }
    }
    let mut cuts = Vec::new();
    for (first_post, last_post, ends) in extents {
        let base = Raise { first_post, last_post, ends, ..own.clone() };
        let whole = ends == Ends::WholeRoof;
        let post = |i: usize| survey.posts_mm.get(i).copied().unwrap_or(0.0);
        let along = if whole { (0.0, survey.length_mm) } else { (post(first_post), post(last_post)) };
        let extent = Extent {
            blocked: blocked(survey, &base, along, header_mm),
            reasons: of_extent(survey, &base, along),
            raise: base,
        };
        cuts.extend(bands(survey).iter().map(|band| cut(survey, own, band, &extent)));
    }
    cuts
}

fn cut(survey: &Survey, own: &Raise, band: &Band, extent: &Extent) -> Cut {
    let h = &survey.heights;
    let (low, high) = (band.low_mm, band.high_mm);
    let is_line = low >= high;
    let own_mm = Some(own.cut_mm).filter(|z| if is_line { (*z - low).abs() < 1e-6 } else { low < *z && *z < high });
    let free = if is_line { None } else { free((low, high), &extent.blocked, own_mm) };
    let mut reasons = extent.reasons.clone();
    match band.place {
        Place::RubRail => reasons.push(Reason::Rail("the rub rail".to_owned())),
        Place::DripRail => reasons.push(Reason::Rail("the drip rail".to_owned())),
        Place::Sill => reasons.push(Reason::Sill),
        Place::Header => reasons.push(Reason::Header),
        _ => {}
    }
    if free.is_none() {
        let meets = |(from, to): &(f64, f64)| {
            from < to && if is_line { *from < low && low < *to } else { *from < high && low < *to }
        };
        reasons.extend(extent.blocked.iter().filter(|b| meets(&b.range_mm)).map(|b| b.reason.clone()));
    }
    let within = |z: &f64| free.is_none_or(|(low, high)| low <= *z && *z <= high);
    let cut_mm = own_mm.filter(within).unwrap_or_else(|| middle_mm(free.unwrap_or((low, high))));
    let raise = Raise { cut_mm, ..extent.raise.clone() };
    Cut {
        own: raise == *own,
        raise,
        place: band.place,
        allowed_mm: free.filter(|_| reasons.is_empty()),
        stub_below_mm: (cut_mm - h.window_bottom_mm).max(0.0),
        stub_above_mm: (h.drip_rail_mm - cut_mm).max(0.0),
        reasons,
        figures: None,
        rank: None,
        undominated: false,
    }
}

/// Ranks the cuts that have figures and nothing against them, and puts them first, best first.
///
/// By hours for a metre of raised roof, then fewer splices, less skin, fewer transitions, then more post left on the shorter
/// side of the cut, then as they came. A cut that another dominates always comes after it.
pub fn rank(cuts: &mut [Cut]) {
    let shorter = |cut: &Cut| cut.stub_below_mm.min(cut.stub_above_mm);
    cuts.sort_by(|a, b| match (&a.figures, &b.figures) {
        (Some(x), Some(y)) => (x.labour_h_per_m().total_cmp(&y.labour_h_per_m()))
            .then(x.splices.cmp(&y.splices))
            .then(x.skin_area_m2.total_cmp(&y.skin_area_m2))
            .then(x.transitions.cmp(&y.transitions))
            .then(shorter(b).total_cmp(&shorter(a))),
        (Some(_), None) => std::cmp::Ordering::Less,
        (None, Some(_)) => std::cmp::Ordering::Greater,
        (None, None) => std::cmp::Ordering::Equal,
    });
    let all: Vec<Figures> = cuts.iter().filter_map(|cut| cut.figures).collect();
    for (i, cut) in cuts.iter_mut().enumerate() {
        let Some(figures) = cut.figures else { continue };
        cut.rank = Some(i + 1);
        cut.undominated = !all.iter().any(|other| other.dominates(&figures));
    }
}
