//! Where the pieces of a sheet lie, and whether cuts from edge to edge can part them.

use serde::Serialize;

use super::sheets::{Content, Line, Part};

/// A rectangle of a sheet, tenths of a millimetre from its start and from its lower edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Rect {
    /// From the start to its nearer end.
    pub along_tenths: i64,
    /// From the lower edge to its lower edge.
    pub up_tenths: i64,
    /// Size along the length of the sheet.
    pub length_tenths: i64,
    /// Size along its width.
    pub width_tenths: i64,
}

impl Rect {
    /// Nearer and farther end, counted the way that cuts of this kind divide.
    fn span(&self, line: Line) -> (i64, i64) {
        match line {
            Line::Across => (self.along_tenths, self.along_tenths + self.length_tenths),
            Line::Along => (self.up_tenths, self.up_tenths + self.width_tenths),
        }
    }
}

/// A piece or a rest and where it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Placed {
    /// Which piece, by index, and whether it lies turned; none for a rest.
    pub piece: Option<(usize, bool)>,
    /// Where.
    pub rect: Rect,
}

/// All pieces and rests of a part whose corner lies at the given place, in the order of cutting; a rest without an area is
/// left out.
pub fn placed(part: &Part, kerf_tenths: i64, (along_tenths, up_tenths): (i64, i64)) -> Vec<Placed> {
    let Part { length_tenths, width_tenths, content } = part;
    let rect = Rect { along_tenths, up_tenths, length_tenths: *length_tenths, width_tenths: *width_tenths };
    match content {
        Content::Piece { piece, turned } => vec![Placed { piece: Some((*piece, *turned)), rect }],
        Content::Rest if *length_tenths <= 0 || *width_tenths <= 0 => Vec::new(),
        Content::Rest => vec![Placed { piece: None, rect }],
        Content::Cut { line, parts } => {
            let mut at = (along_tenths, up_tenths);
            let mut all = Vec::new();
            for own in parts {
                all.extend(placed(own, kerf_tenths, at));
                match line {
                    Line::Across => at.0 += own.length_tenths + kerf_tenths,
                    Line::Along => at.1 += own.width_tenths + kerf_tenths,
                }
            }
            all
        }
    }
}

/// Whether cuts from edge to edge, each of this kerf, can part these pieces. A cut that parts some of them never spoils another,
/// so that the first one found is taken.
///
/// # Example
/// ```
/// use raisedbody::shop::cutting::{Rect, is_guillotine};
/// let rect = |along_tenths, up_tenths, length_tenths, width_tenths| {
///     Rect { along_tenths, up_tenths, length_tenths, width_tenths }
/// };
/// // Four pieces round a fifth: no cut from edge to edge passes between them.
/// let pinwheel = [rect(0, 0, 3, 2), rect(3, 0, 2, 3), rect(2, 3, 3, 2), rect(0, 2, 2, 3), rect(2, 2, 1, 1)];
/// assert!(!is_guillotine(&pinwheel, 0));
/// assert!(is_guillotine(&pinwheel[..2], 0));
/// ```
pub fn is_guillotine(pieces: &[Rect], kerf_tenths: i64) -> bool {
    if pieces.len() < 2 {
        return true;
    }
    for line in [Line::Across, Line::Along] {
        let mut own = pieces.to_vec();
        own.sort_by_key(|rect| rect.span(line));
        let mut reach = i64::MIN;
        for i in 0..own.len() {
            let (near, far) = own[i].span(line);
            if i > 0 && near >= reach + kerf_tenths {
                let (left, right) = own.split_at(i);
                return is_guillotine(left, kerf_tenths) && is_guillotine(right, kerf_tenths);
            }
            reach = reach.max(far);
        }
    }
    false
}
