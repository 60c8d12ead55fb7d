//! How a roof moves and changes its shape, in ten numbers of mm.

use nalgebra::{Rotation3, Vector3};

use super::Layout;

/// A motion or change of shape of the roof against where it should be. All are mm at the drip rails: those that turn or
/// distort are told as the difference that they make over the layout's length or width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Parameter {
    /// The whole roof forward.
    Forward,
    /// The whole roof to the left.
    Left,
    /// The whole roof up beyond the planned raise, at the line between its ends.
    Up,
    /// Front end up against the rear end, over the length.
    Pitch,
    /// Left side up against the right side, over the width, midway along.
    Roll,
    /// Front end to the left against the rear end, over the length, the roof staying square.
    Yaw,
    /// Left up against right at the front end, less the same at the rear end, over the width.
    Twist,
    /// Left side ahead of the right side, over the width, the sides keeping their direction: a parallelogram in plan.
    Racking,
    /// Wider from drip rail to drip rail.
    Spread,
    /// Middle of the length below the line between the ends.
    Sag,
}

/// Every parameter, in this page's order.
pub const PARAMETERS: [Parameter; 10] = [
    Parameter::Forward,
    Parameter::Left,
    Parameter::Up,
    Parameter::Pitch,
    Parameter::Roll,
    Parameter::Yaw,
    Parameter::Twist,
    Parameter::Racking,
    Parameter::Spread,
    Parameter::Sag,
];

impl Parameter {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Forward => "forward",
            Self::Left => "left",
            Self::Up => "up",
            Self::Pitch => "pitch",
            Self::Roll => "roll",
            Self::Yaw => "yaw",
            Self::Twist => "twist",
            Self::Racking => "racking",
            Self::Spread => "spread",
            Self::Sag => "sag",
        }
    }

    /// What a value above nought means.
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Forward => "whole roof forward",
            Self::Left => "whole roof to the left",
            Self::Up => "whole roof above the planned raise, at the line between its ends",
            Self::Pitch => "front end above the rear end, over the length",
            Self::Roll => "left side above the right side, over the width, midway along",
            Self::Yaw => "front end to the left of the rear end, over the length, the roof staying square",
            Self::Twist => "left above right at the front end, less the same at the rear end, over the width",
            Self::Racking => "left side ahead of the right side, over the width, a parallelogram in plan",
            Self::Spread => "wider from drip rail to drip rail",
            Self::Sag => "middle of the length below the line between the ends",
        }
    }

    pub(super) fn index(self) -> usize {
        self as usize
    }
}

/// How many.
pub(super) const COUNT: usize = PARAMETERS.len();

/// Length, width and middle that a motion is told about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Body {
    length_mm: f64,
    width_mm: f64,
    /// Midway between the ends, on the centre line at the drip rail, mm.
    middle: Vector3<f64>,
}

impl Body {
    pub(super) fn of(layout: &Layout) -> Self {
        let rear_mm = layout.stations.first().map_or(0.0, |s| s.x_mm);
        let (length_mm, width_mm) = (layout.length_mm(), layout.width_mm());
        let middle = Vector3::new(rear_mm + length_mm / 2.0, 0.0, layout.drip_rail_mm);
        Self { length_mm, width_mm, middle }
    }

    /// The motion that these parameters make.
    pub(super) fn motion(&self, parameters: &[f64]) -> Motion {
        let mut p = [0.0; COUNT];
        p.iter_mut().zip(parameters).for_each(|(own, given)| *own = *given);
        let of = |parameter: Parameter| p.get(parameter.index()).copied().unwrap_or(0.0);
        // Front up turns against the right-handed sense about the axis to the left.
        let turn = Rotation3::from_euler_angles(
            of(Parameter::Roll) / self.width_mm,
            -of(Parameter::Pitch) / self.length_mm,
            of(Parameter::Yaw) / self.length_mm,
        );
        let whole_mm = Vector3::new(of(Parameter::Forward), of(Parameter::Left), of(Parameter::Up));
        Motion { body: *self, turn, whole_mm, p }
    }
}

/// A motion, with what holds for all points worked out.
pub(super) struct Motion {
    body: Body,
    turn: Rotation3<f64>,
    whole_mm: Vector3<f64>,
    p: [f64; COUNT],
}

impl Motion {
    /// How far a point of the roof is from where it should be, mm: shape first, about the middle, then turned as a whole.
    pub(super) fn of_mm(&self, point_mm: Vector3<f64>) -> Vector3<f64> {
        let p = |parameter: Parameter| self.p.get(parameter.index()).copied().unwrap_or(0.0);
        let from_middle = point_mm - self.body.middle;
        let (along, across) = (from_middle.x / self.body.length_mm, from_middle.y / self.body.width_mm);
        let shape = Vector3::new(
            p(Parameter::Racking) * across,
            p(Parameter::Spread) * across - p(Parameter::Twist) * along * from_middle.z / self.body.width_mm,
            p(Parameter::Twist) * along * across - p(Parameter::Sag) * (1.0 - 4.0 * along * along),
        );
        self.turn * (from_middle + shape) - from_middle + self.whole_mm
    }
}
