//! Forces along a member: axial force, shear and bending moment at any place, and the largest moment.

use super::Run;
use super::loads::Own;

/// Forces in a member at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndForces {
    /// Tension above nought, N.
    pub axial_n: f64,
    /// Slope of the moment along the member, N.
    pub shear_n: f64,
    /// Bending moment, N·mm: above nought where the right-hand side of the member's run is stretched.
    pub moment_n_mm: f64,
}

/// Forces along a member.
#[derive(Debug, Clone, PartialEq)]
pub struct Actions {
    length_mm: f64,
    /// Along, across and moment that the start node exerts on the member.
    start: [f64; 3],
    loads: Vec<Own>,
}

impl Actions {
    /// From the forces that the nodes exert on the member, in the frame's directions.
    pub(super) fn new(run: &Run, ends: [f64; 6], loads: Vec<Own>) -> Self {
        let (x, y) = (ends[0], ends[1]);
        let start = [x * run.cos + y * run.sin, y * run.cos - x * run.sin, ends[2]];
        Self { length_mm: run.length_mm, start, loads }
    }

    /// Length of the member, mm.
    pub fn length_mm(&self) -> f64 {
        self.length_mm
    }

    /// At a place, in parts of the length from the start (0 to 1; beyond, the nearer end). At a point load: before it.
    pub fn at(&self, part: f64) -> EndForces {
        let x = part.clamp(0.0, 1.0) * self.length_mm;
        let [along, across, moment] = self.start;
        let (mut axial_n, mut shear_n, mut moment_n_mm) = (-along, across, across * x - moment);
        for load in &self.loads {
            let (force_along, force_across, arm) = match *load {
                Own::Point { x: at, along, across } if at < x => (along, across, x - at),
                Own::Spread { a, b, along, across } if a < x => {
                    let covered = x.min(b) - a;
                    (along * covered, across * covered, x - a - 0.5 * covered)
                }
                _ => continue,
            };
            axial_n -= force_along;
            shear_n += force_across;
            moment_n_mm += force_across * arm;
        }
        EndForces { axial_n, shear_n, moment_n_mm }
    }

    /// Mean of the axial forces at both ends, N.
    pub fn mean_axial_n(&self) -> f64 {
        f64::midpoint(self.at(0.0).axial_n, self.at(1.0).axial_n)
    }

    /// Where the bending moment is largest in size, in parts of the length, and the forces there.
    ///
    /// Between loads the shear is a straight line, so the moment peaks at an end, at a load, or where that line crosses
    /// nought: all of them are looked at.
    pub fn largest_moment(&self) -> (f64, EndForces) {
        let mut places = vec![0.0, self.length_mm];
        for load in &self.loads {
            match *load {
                Own::Point { x, .. } => places.push(x),
                Own::Spread { a, b, .. } => places.extend([a, b]),
            }
        }
        places.sort_by(f64::total_cmp);
        let between: Vec<f64> = places.windows(2).filter_map(|pair| self.shear_crosses(pair[0], pair[1])).collect();
        places.extend(between);
        let mut most = (0.0, self.at(0.0));
        for x in places {
            let part = x / self.length_mm;
            let here = self.at(part);
            if here.moment_n_mm.abs() > most.1.moment_n_mm.abs() {
                most = (part, here);
            }
        }
        most
    }

    /// Where the shear crosses nought between two neighbouring places, mm from the start.
    fn shear_crosses(&self, from: f64, to: f64) -> Option<f64> {
        // Just inside, clear of point loads.
        let inside = |x: f64| self.at(x / self.length_mm).shear_n;
        let (a, b) = (from + 1e-9 * (to - from), to);
        let (first, last) = (inside(a), inside(b));
        (first * last < 0.0).then(|| a + (b - a) * first / (first - last))
    }
}
