//! Every piece, hole, metre and litre, counted once: mass, order list, hours and price all read it.

use std::collections::BTreeMap;

use crate::shared::Shared;

use super::backers::{Backer, backers};
use super::raise::{Raise, RaisedBody};
use super::rivet_lines::{LineKind, RivetLine};
use super::skins::{EndPanel, Sheet, SheetRules, Skins};
use super::survey::{Side, Survey};
use crate::mechanics::paint::{Bead, Coat, cartridges};

/// Which way the grain lies: the rolling direction, which is that of the length of stock sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Along the bus, and across it at the ends.
    Level,
    /// Up the side.
    Upright,
    /// The blank may turn.
    Either,
}

impl Grain {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Level, Self::Upright, Self::Either];

    /// The word of the plan.
    pub fn name(self) -> &'static str {
        match self {
            Self::Level => "level",
            Self::Upright => "upright",
            Self::Either => "either",
        }
    }

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Level => "level, the blank must not turn",
            Self::Upright => "upright, the blank must not turn",
            Self::Either => "either way, the blank may turn",
        }
    }
}

/// Where the finished face goes, of sheet whose faces differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum FinishedFace {
    /// It shows.
    Outside,
    /// It lies on the frame.
    Inside,
    /// Both faces are alike.
    Alike,
}

impl FinishedFace {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Outside, Self::Inside, Self::Alike];

    /// The word of the plan.
    pub fn name(self) -> &'static str {
        match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
            Self::Alike => "alike",
        }
    }

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Outside => "finished face outside",
            Self::Inside => "finished face inside",
            Self::Alike => "both faces alike",
        }
    }
}

/// The edge of an end panel that shows, where the factory edge belongs: it lies over what is below.
pub const PANEL_EDGE: &str = "lower";

/// Where a coat goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CoatSide {
    /// On the inside of the new skin, and on the bare steel of inserts and backing tube.
    Inside,
    /// On that bare steel alone, where the skin stays as it is.
    Frame,
    /// On the new skin outside, what laps hide left out.
    Outside,
}

impl CoatSide {
    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Frame => "inserts and tube",
            Self::Outside => "outside",
        }
    }
}

/// A coat to put on.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatOrder {
    /// What it is.
    pub name: String,
    /// Where it goes.
    pub side: CoatSide,
    /// Film, solids and loss.
    pub coat: Coat,
}

/// What a coat takes.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct CoatTakeoff {
    /// What it is.
    pub name: String,
    /// Where it goes.
    pub side: CoatSide,
    /// Area that it covers, m2.
    pub area_m2: f64,
    /// Film, solids and loss.
    pub coat: Coat,
    /// Paint, loss included, litres.
    pub paint_l: f64,
}

/// What a takeoff needs to know beyond the layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowances {
    /// Which way the grain lies.
    pub grain: Grain,
    /// Where the finished face goes.
    pub finished_face: FinishedFace,
    /// Rivets bought beyond those counted, as a share.
    pub spares: f64,
    /// Sealant in a lap.
    pub lap_bead: Bead,
    /// Sealant along its edge besides.
    pub edge_bead: Option<Bead>,
    /// Sealant bought beyond that applied, as a share.
    pub sealant_waste: f64,
    /// Content of a cartridge of sealant, litres; none where sealant is bought by the litre.
    pub cartridge_l: Option<f64>,
    /// Coats in the order in which they go on, those inside first.
    pub coats: Vec<CoatOrder>,
    /// Faces of the new skin that are pretreated.
    pub pretreated_faces: u32,
    /// Surface of a metre of insert and of backing tube that is bare steel, m2/m.
    pub bare_m2_m: (f64, f64),
}

/// Blanks that are cut alike.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Blanks {
    /// Length, mm.
    pub length_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
    /// How many.
    pub count: usize,
    /// Which way the grain lies once they hang.
    pub grain: Grain,
    /// Where the finished face goes.
    pub finished_face: FinishedFace,
    /// The edge that shows, "lower" or "rear", where the straight factory edge belongs; none where any edge may have it.
    pub factory_edge: Option<&'static str>,
    /// Names of the sheets cut so.
    pub ids: Vec<String>,
}

impl Blanks {
    /// Grain, face and factory edge in words.
    pub fn words(&self) -> String {
        let edge = self
            .factory_edge
            .map_or_else(|| "factory edge anywhere".to_owned(), |edge| format!("factory edge: {edge}"));
        format!("grain {}; {}; {edge}", self.grain.words(), self.finished_face.words())
    }
}

/// Lengths of bar of one kind.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Bars {
    /// Length of each piece, mm, longest first.
    pub pieces_mm: Vec<f64>,
    /// All pieces together, m.
    pub total_m: f64,
}

/// Work on lines over old holes that no rivet line has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize)]
pub struct OldHoles {
    /// Holes drilled.
    pub drilled: usize,
    /// Holes riveted, old ones used again included.
    pub riveted: usize,
    /// Old holes plugged.
    pub plugged: usize,
}

impl std::iter::Sum for OldHoles {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), |a, b| Self {
            drilled: a.drilled + b.drilled,
            riveted: a.riveted + b.riveted,
            plugged: a.plugged + b.plugged,
        })
    }
}

/// All quantities of a raise.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Takeoff {
    /// Sheet blanks by size and factory edge, largest first.
    pub blanks: Shared<Vec<Blanks>>,
    /// Sheets in all.
    pub sheets: usize,
    /// Area of the blanks, m2.
    pub sheet_area_m2: f64,
    /// Area of new skin on the bus, laps counted twice, m2.
    pub skin_area_m2: f64,
    /// Holes, each with a rivet.
    pub rivets: usize,
    /// Rivets to buy, spares included.
    pub rivets_ordered: usize,
    /// Work on lines over old holes besides.
    pub old_holes: OldHoles,
    /// Rivets to buy for those, spares included.
    pub old_line_rivets_ordered: usize,
    /// Length of all rivet lines, m.
    pub line_length_m: f64,
    /// Pieces that lengthen the posts.
    pub inserts: Shared<Bars>,
    /// Posts lengthened, both sides.
    pub posts_lengthened: usize,
    /// Tube behind sheet edges that have no structure behind them.
    pub backing: Shared<Bars>,
    /// The same piece by piece.
    pub backers: Shared<Vec<Backer>>,
    /// Windows taken out, both sides.
    pub windows_removed: usize,
    /// Length of lap and edge that is sealed, m.
    pub sealed_length_m: f64,
    /// Sealant, waste included, litres.
    pub sealant_l: f64,
    /// Cartridges that hold it; none where it is bought by the litre.
    pub cartridges: Option<u32>,
    /// What each coat takes, in the order in which they go on.
    pub coats: Vec<CoatTakeoff>,
    /// Faces of the new skin that are pretreated, m2.
    pub pretreated_area_m2: f64,
    /// Area primed where nothing else is said: the inside of the new skin, m2, and the bare steel of inserts and backing tube.
    pub primed_area_m2: f64,
    /// Of that, bare steel, m2.
    pub bare_area_m2: f64,
    /// Area that takes topcoat: the new skin outside, what laps hide left out, m2.
    pub topcoat_area_m2: f64,
    /// Cut edges that are touched up, m: all edges of all blanks.
    pub cut_edges_m: f64,
    /// Skin on posts, where it may be bonded, m.
    pub on_posts_m: f64,
    /// Upper edge of the skin along both sides, beneath the drip rail, m.
    pub drip_rail_m: f64,
    /// Upper edge of windows and doors that stay, m.
    pub channel_m: f64,
}

/// What the layout of the sheets asks for, wherever the rivets are.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Pieces {
    blanks: Shared<Vec<Blanks>>,
    sheets: usize,
    sheet_area_m2: f64,
    skin_area_m2: f64,
    inserts: Shared<Bars>,
    posts_lengthened: usize,
    backing: Shared<Bars>,
    backers: Shared<Vec<Backer>>,
    windows_removed: usize,
    bare_area_m2: f64,
    topcoat_area_m2: f64,
    cut_edges_m: f64,
    /// Drip rail over panels of the ends that lie on a side, and over caps up to the end face.
    drip_rail_m: [f64; 2],
    channel_m: f64,
}

impl Pieces {
    /// Counts them.
    pub(crate) fn count(
        survey: &Survey,
        raise: &Raise,
        raised: &RaisedBody,
        (skins, rules): (&Skins, &SheetRules),
        allow: &Allowances,
    ) -> Self {
        let blanks = blanks(skins, allow);
        let sheet_area_m2 = blanks.iter().map(|b| b.length_mm * b.height_mm * b.count as f64 / 1e6).sum();
        let on_bus_m2 = skins.sheets.iter().map(Sheet::area_m2).sum::<f64>()
            + skins.ends.iter().map(EndPanel::area_m2).sum::<f64>();
        let backers = backers(survey, raise, skins, rules);
        let inserts: Vec<f64> = super::splices::inserts(raise, raised).iter().map(|insert| insert.length_mm).collect();
        let posts_lengthened = inserts.len();
        let inserts = bars(inserts);
        let backing = bars(backers.iter().map(|b| b.length_mm).collect());
        let bare_area_m2 = inserts.total_m * allow.bare_m2_m.0 + backing.total_m * allow.bare_m2_m.1;
        let margin_mm = 2.0 * rules.edge_mm;
        // Two of the new sheets over each other: what is beneath shows nowhere.
        let hidden = skins.laps.iter().filter(|lap| skins.is_new(&lap.over) && skins.is_new(&lap.under));
        let hidden_m2 = hidden.map(|lap| (lap.length_mm + margin_mm) * margin_mm / 1e6).sum::<f64>();
        let cut_edges_m = blanks.iter().map(|b| 2.0 * (b.length_mm + b.height_mm) * b.count as f64 / 1000.0).sum();
        let stays = skins.runs.iter().filter(|run| run.above.is_some());
        let patches = || Side::BOTH.into_iter().flat_map(|side| skins.patches(side)).map(|(sheet, _)| sheet);
        let on_side = skins.ends.iter().filter(|p| p.side.is_some() && p.taper_mm.is_none());
        let wings = skins.ends.iter().flat_map(|p| &p.wrap).flat_map(|w| &w.wings);
        Self {
            sheets: blanks.iter().map(|b| b.count).sum(),
            blanks: blanks.into(),
            sheet_area_m2,
            skin_area_m2: on_bus_m2,
            inserts: inserts.into(),
            posts_lengthened,
            backing: backing.into(),
            backers: backers.into(),
            windows_removed: 2 * raised.windows_deleted,
            bare_area_m2,
            topcoat_area_m2: on_bus_m2 - hidden_m2,
            cut_edges_m,
            drip_rail_m: [
                on_side.map(|p| (p.length_mm - margin_mm) / 1000.0).sum::<f64>(),
                wings.map(|w| w.reach_mm / 1000.0).sum::<f64>(),
            ],
            channel_m: stays
                .map(|run| (survey.posts_mm[run.last_post] - survey.posts_mm[run.first_post]) / 1000.0)
                .sum::<f64>()
                - patches().map(|patch| (patch.length_mm() - rules.edge_mm) / 1000.0).sum::<f64>(),
        }
    }
}

impl Takeoff {
    /// Counts everything; `lots` are the holes for each length of rivet, which are bought each with its own spares; `old_holes`
    /// come on top of the lines.
    pub fn count(
        survey: &Survey,
        raise: &Raise,
        raised: &RaisedBody,
        skins: &Skins,
        rules: &SheetRules,
        counted: (&[RivetLine], &[usize], OldHoles),
        allow: &Allowances,
    ) -> Self {
        Self::with_rivets(&Pieces::count(survey, raise, raised, (skins, rules), allow), counted, allow)
    }

    /// The same, what does not depend on the rivets being counted already.
    pub(crate) fn with_rivets(
        pieces: &Pieces,
        (lines, lots, old_holes): (&[RivetLine], &[usize], OldHoles),
        allow: &Allowances,
    ) -> Self {
        let rivets: usize = lines.iter().map(|l| l.holes_mm.len()).sum();
        let metres = |keep: &dyn Fn(&RivetLine) -> bool| {
            lines.iter().filter(|l| keep(l)).map(|l| l.length_mm() / 1000.0).sum::<f64>()
        };
        let sealed_length_m = metres(&|l| l.kind != LineKind::Post);
        let primed_area_m2 = pieces.skin_area_m2 + pieces.bare_area_m2;
        let of_ends_m = pieces.drip_rail_m;
        let bead = |bead: &Bead| bead.litres(sealed_length_m, allow.sealant_waste);
        let sealant_l = bead(&allow.lap_bead) + allow.edge_bead.as_ref().map_or(0.0, bead);
        let coat = |order: &CoatOrder| {
            let area_m2 = match order.side {
                CoatSide::Inside => primed_area_m2,
                CoatSide::Frame => pieces.bare_area_m2,
                CoatSide::Outside => pieces.topcoat_area_m2,
            };
            let (name, side, coat) = (order.name.clone(), order.side, order.coat);
            CoatTakeoff { name, side, area_m2, coat, paint_l: coat.litres(area_m2) }
        };
        Self {
            sheets: pieces.sheets,
            blanks: pieces.blanks.clone(),
            sheet_area_m2: pieces.sheet_area_m2,
            skin_area_m2: pieces.skin_area_m2,
            rivets,
            rivets_ordered: lots.iter().map(|holes| with_spares(*holes, allow.spares)).sum(),
            old_holes,
            old_line_rivets_ordered: with_spares(old_holes.riveted, allow.spares),
            line_length_m: metres(&|_| true),
            inserts: pieces.inserts.clone(),
            posts_lengthened: pieces.posts_lengthened,
            backing: pieces.backing.clone(),
            backers: pieces.backers.clone(),
            windows_removed: pieces.windows_removed,
            sealed_length_m,
            sealant_l,
            cartridges: allow.cartridge_l.and_then(|content_l| cartridges(sealant_l, content_l).ok()),
            coats: allow.coats.iter().map(coat).collect(),
            pretreated_area_m2: pieces.skin_area_m2 * f64::from(allow.pretreated_faces),
            primed_area_m2,
            bare_area_m2: pieces.bare_area_m2,
            topcoat_area_m2: pieces.topcoat_area_m2,
            cut_edges_m: pieces.cut_edges_m,
            on_posts_m: metres(&|l| matches!(l.kind, LineKind::Post | LineKind::Seam)),
            drip_rail_m: metres(&|l| l.kind == LineKind::Top) + of_ends_m[0] + of_ends_m[1],
            channel_m: pieces.channel_m,
        }
    }
}

impl Takeoff {
    /// Paint to buy by name, litres, in the order of its first coat: a paint that goes on twice is bought once.
    pub fn paints_l(&self) -> Vec<(&str, f64)> {
        let mut paints: Vec<(&str, f64)> = Vec::new();
        for coat in &self.coats {
            match paints.iter_mut().find(|(name, _)| *name == coat.name) {
                Some((_, litres)) => *litres += coat.paint_l,
                None => paints.push((&coat.name, coat.paint_l)),
            }
        }
        paints
    }
}

/// Rivets to buy for so many holes.
pub fn with_spares(holes: usize, spares: f64) -> usize {
    (holes as f64 * (1.0 + spares) - 1e-6).ceil() as usize
}

fn blanks(skins: &Skins, allow: &Allowances) -> Vec<Blanks> {
    // Sizes are rounded up to a tenth of a millimetre, finer than any shear; a millionth over is rounding.
    let mut groups: BTreeMap<(i64, i64, Option<&'static str>), Vec<String>> = BTreeMap::new();
    let key = |mm: f64| (mm * 10.0 - 1e-5).ceil() as i64;
    for sheet in &skins.sheets {
        let own = (key(sheet.length_mm()), key(sheet.height_mm()), skins.showing_edge(sheet));
        groups.entry(own).or_default().push(sheet.id.clone());
    }
    for end in &skins.ends {
        // A cap's edges curve in the flat: none of them stays the mill's.
        let own = (key(end.length_mm), key(end.height_mm), end.wrap.is_none().then_some(PANEL_EDGE));
        groups.entry(own).or_default().push(end.id.clone());
    }
    groups
        .into_iter()
        .rev()
        .map(|((length, height, factory_edge), ids)| Blanks {
            length_mm: length as f64 / 10.0,
            height_mm: height as f64 / 10.0,
            count: ids.len(),
            grain: allow.grain,
            finished_face: allow.finished_face,
            factory_edge,
            ids,
        })
        .collect()
}

fn bars(mut pieces_mm: Vec<f64>) -> Bars {
    pieces_mm.sort_by(|a, b| b.total_cmp(a));
    Bars { total_m: pieces_mm.iter().sum::<f64>() / 1000.0, pieces_mm }
}
