//! Pieces to be cut from sheets by cuts that run from edge to edge: what is asked for, and a plan of it.

mod amounts;
mod bound;
mod dive;
mod input;
mod plan;
mod programme;
mod proper;
mod reduced;
mod search;
mod solve;
mod table;
mod tree;

use serde::Serialize;

use super::Ended;

pub use input::{MOST_KINDS, MOST_PIECES};
pub use solve::{SheetEffort, cut_sheets};
pub use table::{Valued, best_pattern};

/// How a cut runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// Along the length of the sheet: it divides the width.
    Along,
    /// Across the sheet: it divides the length.
    Across,
}

/// Bad edges that are cut off before anything else, tenths of a millimetre each; where one is not nought, its kerf is lost
/// besides, and it takes a cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Trim {
    /// Off the start of the length.
    pub start_tenths: i64,
    /// Off the end of the length.
    pub end_tenths: i64,
    /// Off the lower edge of the width.
    pub lower_tenths: i64,
    /// Off the upper edge of the width.
    pub upper_tenths: i64,
}

/// Sheets of one size and price, on one machine that cuts them; lengths in tenths of a millimetre, money in the smallest coin.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetStock {
    /// Its name.
    pub name: String,
    /// Length, the way of the grain, tenths of a millimetre.
    pub length_tenths: i64,
    /// Width, tenths of a millimetre.
    pub width_tenths: i64,
    /// Price of one, in the smallest coin; nought for an offcut.
    pub price_coins: i64,
    /// How many there are; none where as many as wanted can be bought.
    pub count: Option<u32>,
    /// Edges cut off.
    pub trim: Trim,
    /// What one cut costs in time or in the supplier's charge, trimming cuts too, in the smallest coin.
    pub cut_coins: i64,
    /// Longest cut that the machine makes, tenths of a millimetre; none where any.
    pub longest_cut_tenths: Option<i64>,
    /// Depth of its throat: a cut longer than that is made in several bites where one of the two parts it makes is no wider
    /// than this, tenths of a millimetre; nought where there is no throat.
    pub throat_tenths: i64,
}

/// Pieces of one size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetPiece {
    /// Its name.
    pub name: String,
    /// Size along the length of the sheet while it is not turned, tenths of a millimetre.
    pub length_tenths: i64,
    /// Size along the width of the sheet, tenths of a millimetre.
    pub width_tenths: i64,
    /// How many are needed.
    pub count: u32,
    /// It may lie turned by a quarter.
    pub may_turn: bool,
    /// What one costs cut to size by a supplier, who keeps the waste, in the smallest coin; none where that is not offered.
    pub bought_coins: Option<i64>,
}

/// What there is, what is needed, and how it may be cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetJob {
    /// Sheets that can be had.
    pub stock: Vec<SheetStock>,
    /// Pieces that are needed.
    pub pieces: Vec<SheetPiece>,
    /// Kerf: nought on a shear, tenths of a millimetre.
    pub kerf_tenths: i64,
    /// Most stages (a stage is all cuts one way before the sheet is turned), 2 or 3, a last cut that trims a piece not
    /// counted; none where any number.
    pub stages: Option<u8>,
    /// How the first cut after trimming must run; none where either.
    pub first_cut: Option<Line>,
    /// Least length and width of a rest worth keeping, in either order, tenths of a millimetre.
    pub keep_tenths: (i64, i64),
}

/// A rectangle of a sheet and what becomes of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Part {
    /// Size along the length of the sheet, tenths of a millimetre.
    pub length_tenths: i64,
    /// Size along its width.
    pub width_tenths: i64,
    /// What becomes of it.
    pub content: Content,
}

/// What becomes of a rectangle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Content {
    /// It is a piece, of exactly this size.
    Piece {
        /// Which, by index.
        piece: usize,
        /// It lies turned by a quarter.
        turned: bool,
    },
    /// Nothing: waste, or a remnant to keep.
    Rest,
    /// Two or more parts side by side, a kerf between neighbours, from the start (or the lower edge) on. What the parts and kerfs
    /// leave over is nought; only where a rest at the end would be thinner than the kerf is it nought thin, and the last cut
    /// runs off the edge.
    Cut {
        /// How the cuts run.
        line: Line,
        /// The parts, none of them cut the same way again.
        parts: Vec<Part>,
    },
}

/// Sheets cut alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetPattern {
    /// Which stock, by index.
    pub stock: usize,
    /// How many sheets are cut so.
    pub times: u32,
    /// The sheet inside its trimmed edges.
    pub inside: Part,
}

/// A plan and how good it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetPlan {
    /// Sheets cut alike, always in the same order.
    pub patterns: Vec<SheetPattern>,
    /// Pieces bought cut to size: which, by index, and how many.
    pub bought: Vec<(usize, u32)>,
    /// Sheets, cuts and bought pieces, in the smallest coin.
    pub price_coins: i64,
    /// No plan costs less than this: proved in whole numbers.
    pub bound_coins: i64,
    /// Why the search ended.
    pub ended: Ended,
    /// Steps of the search that were taken.
    pub steps: u64,
}

/// A rest of this size is worth keeping: its longer and its shorter side are at least those of the least one.
pub(crate) fn is_kept(keep: (i64, i64), size: (i64, i64)) -> bool {
    size.0.max(size.1) >= keep.0.max(keep.1) && size.0.min(size.1) >= keep.0.min(keep.1)
}
