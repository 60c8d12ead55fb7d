//! Stiffness of one member in space.

use nalgebra::{Matrix3, SMatrix, SVector, Vector3};

use super::Member;

pub(super) type Matrix = SMatrix<f64, 12, 12>;
pub(super) type Vector = Vector3<f64>;

/// Length of a member and its own axes, a row each.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Run {
    pub length_mm: f64,
    axes: Matrix3<f64>,
}

/// Sine of the angle from upright below which a member counts as upright.
const UPRIGHT: f64 = 1e-3;

impl Run {
    /// None where a node is not a number, or `up` gives no direction across the member.
    pub fn new(from: [f64; 3], to: [f64; 3], up: Option<[f64; 3]>) -> Option<Self> {
        let along = Vector::from(to) - Vector::from(from);
        let length_mm = along.norm();
        let x = along / length_mm;
        let default = if x.x.hypot(x.y) < UPRIGHT { Vector::x() } else { Vector::z() };
        let up = up.map_or(default, Vector::from);
        let across = x.cross(&up);
        // Not a number compares with nothing.
        if !(across.norm() > 1e-6 * up.norm() && across.norm().is_finite()) {
            return None;
        }
        let z = across.normalize();
        let y = z.cross(&x);
        Some(Self { length_mm, axes: Matrix3::from_rows(&[x.transpose(), y.transpose(), z.transpose()]) })
    }

    /// From the frame's axes to the member's own.
    fn turn(&self) -> Matrix {
        let mut turn = Matrix::zeros();
        for block in 0..4 {
            turn.fixed_view_mut::<3, 3>(3 * block, 3 * block).copy_from(&self.axes);
        }
        turn
    }

    fn in_frame(&self, own: &Matrix) -> Matrix {
        let turn = self.turn();
        turn.transpose() * own * turn
    }

    /// Stiffness in the member's own axes by elementary beam theory: x, y, z, about x, about y, about z, start then end.
    fn own_stiffness(&self, member: &Member) -> Matrix {
        let l = self.length_mm;
        let mut k = Matrix::zeros();
        pair(&mut k, 0, member.area_mm2 * member.modulus_mpa / l);
        if let Some(b) = &member.bending {
            pair(&mut k, 3, b.torsion_mm4 * b.shear_modulus_mpa / l);
            for plane in [Plane::XY, Plane::XZ] {
                let second = if plane == Plane::XY { b.second_moment_z_mm4 } else { b.second_moment_y_mm4 };
                let ei = second * member.modulus_mpa;
                plane.add(&mut k, [12.0 * ei / l.powi(3), 6.0 * ei / (l * l), 4.0 * ei / l, 2.0 * ei / l]);
            }
        }
        k
    }

    /// Stiffness in the frame's axes.
    pub fn stiffness(&self, member: &Member) -> Matrix {
        self.in_frame(&self.own_stiffness(member))
    }

    /// What an axial force (N, tension above nought) adds to the stiffness, in the frame's axes: the consistent geometric
    /// stiffness of a cubic deflection for a beam, that of a string for a bar (Przemieniecki, Theory of Matrix Structural
    /// Analysis, from memory).
    pub fn geometric(&self, member: &Member, axial_n: f64) -> Matrix {
        let (l, n) = (self.length_mm, axial_n);
        let mut k = Matrix::zeros();
        if member.bending.is_some() {
            for plane in [Plane::XY, Plane::XZ] {
                plane.add(&mut k, [1.2 * n / l, 0.1 * n, 2.0 * n * l / 15.0, -n * l / 30.0]);
            }
        } else {
            pair(&mut k, 1, n / l);
            pair(&mut k, 2, n / l);
        }
        self.in_frame(&k)
    }

    /// Forces of the nodes on both ends: in the member's own axes, and in the frame's.
    pub fn end_forces(&self, member: &Member, start: &[f64; 6], end: &[f64; 6]) -> ([f64; 12], [f64; 12]) {
        let moved = SVector::<f64, 12>::from_fn(|i, _| if i < 6 { start[i] } else { end[i - 6] });
        let turn = self.turn();
        let own = self.own_stiffness(member) * (turn * moved);
        let frame = turn.transpose() * own;
        (own.into(), frame.into())
    }
}

/// A stiffness between the same direction at both ends.
fn pair(k: &mut Matrix, i: usize, stiffness: f64) {
    k[(i, i)] += stiffness;
    k[(i + 6, i + 6)] += stiffness;
    k[(i, i + 6)] -= stiffness;
    k[(i + 6, i)] -= stiffness;
}

/// A plane in which a member bends.
#[derive(Clone, Copy, PartialEq)]
enum Plane {
    XY,
    XZ,
}

impl Plane {
    /// Adds the four numbers that a bending stiffness consists of: across, mixed, near and far turning.
    fn add(self, k: &mut Matrix, [across, mixed, near, far]: [f64; 4]) {
        // A turn about y lowers what lies ahead: its mixed terms change sign.
        let (shift, turn, mixed) = match self {
            Self::XY => (1, 5, mixed),
            Self::XZ => (2, 4, -mixed),
        };
        pair(k, shift, across);
        for (i, j, value) in [
            (shift, turn, mixed),
            (shift, turn + 6, mixed),
            (shift + 6, turn, -mixed),
            (shift + 6, turn + 6, -mixed),
            (turn, turn + 6, far),
        ] {
            k[(i, j)] += value;
            k[(j, i)] += value;
        }
        k[(turn, turn)] += near;
        k[(turn + 6, turn + 6)] += near;
    }
}
