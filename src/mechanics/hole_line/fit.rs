//! The true line through old holes, with the measuring error carried through.

use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::error::Problem;

use super::{HoleLine, ONE_SIDED_95, OldHole};

/// Leans beyond which off-line distances are no longer distances from the line: at this one they are 0.5 % too long.
const MOST_SLOPE: f64 = 0.1;
/// A departure so large that chance makes one like it in any hole of the line in 5 of 100 lines is a stray.
const STRAY: f64 = 0.05;

/// What a hole leaves to the edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeLeft {
    /// As measured, mm.
    pub mm: f64,
    /// Standard error of that, mm: of the hole and of the edge.
    pub error_mm: f64,
}

impl EdgeLeft {
    /// What is left at least, with 95 %, mm.
    pub fn least_mm(&self) -> f64 {
        self.mm - ONE_SIDED_95 * self.error_mm
    }
}

/// One old hole against the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Departure {
    /// Off the line, mm; above nought towards the edge.
    pub off_line_mm: f64,
    /// Standard error of that from measuring, mm.
    pub error_mm: f64,
    /// What it leaves to the edge, where there is one.
    pub edge: Option<EdgeLeft>,
    /// Too far off to belong to the others: measured wrong, or to be marked as spoilt.
    pub stray: bool,
}

/// A straight line fitted through the sound holes.
#[derive(Debug, Clone, PartialEq)]
pub struct LineFit {
    /// Off-line distance gained per distance along.
    pub slope: f64,
    /// Its standard error.
    pub slope_error: f64,
    /// Weighted middle of the holes, mm along; there height and slope of the line are independent.
    pub centre_mm: f64,
    /// Off the datum at the centre, mm.
    pub offset_mm: f64,
    /// Its standard error, mm.
    pub offset_error_mm: f64,
    /// Every hole, spoilt ones too, against the line.
    pub departures: Vec<Departure>,
    /// Waviness of the sound holes: root of the mean square off the line, mm.
    pub rms_mm: f64,
    /// The largest distance of a sound hole off the line, mm.
    pub peak_mm: f64,
    /// Waviness that the tape's error does not explain, mm; none with two holes only.
    pub wander_mm: Option<f64>,
    /// The sound hole farthest off the line.
    pub worst: usize,
    /// The sound hole that leaves least to the edge with 95 %, where there is an edge.
    pub nearest_edge: Option<usize>,
    /// Sum of the squares of departures over errors.
    pub chi_square: f64,
    /// Holes beyond the two that a line needs.
    pub freedoms: usize,
}

impl LineFit {
    /// The line's place off the datum, mm.
    pub fn at_mm(&self, along_mm: f64) -> f64 {
        self.offset_mm + self.slope * (along_mm - self.centre_mm)
    }

    /// Standard error of that, mm.
    pub fn error_at_mm(&self, along_mm: f64) -> f64 {
        self.offset_error_mm.hypot(self.slope_error * (along_mm - self.centre_mm))
    }

    /// Covariance of the place at nought along (mm²) and slope: the three different numbers of the matrix.
    pub fn covariance_at_zero(&self) -> [f64; 3] {
        let slope2 = self.slope_error.powi(2);
        [self.error_at_mm(0.0).powi(2), -self.centre_mm * slope2, slope2]
    }
}

impl HoleLine {
    /// Fits the true line: least squares of the off-line distances, each weighted by `1 / (u_off² + m² u_along²)`, with u
    /// the standard errors and m the slope (the effective variance). Spoilt holes count for nothing.
    ///
    /// Errors of the result are those of measuring: the line through the holes as they truly are lies within them. That the
    /// holes wander is told by the waviness.
    ///
    /// # Errors
    /// As of [`HoleLine::validate`]; a line that leans more than 1 in 10 against its datum.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::hole_line::{HoleLine, OldHole, OldMetal};
    /// let off_mm = [0.2, -0.1, 0.4, 0.1, 0.3];
    /// let hole = |i: usize| OldHole { along_mm: 500.0 * i as f64, off_mm: off_mm[i], spoilt: false, off_error_mm: None };
    /// let line = HoleLine {
    ///     holes: (0..5).map(hole).collect(),
    ///     along_error_mm: 0.5,
    ///     off_error_mm: 0.3,
    ///     old_metal: OldMetal::Stays,
    ///     edge: None,
    ///     stretch_mm: (0.0, 2000.0),
    ///     end_play_mm: 5.0,
    ///     pitch_mm: 100.0,
    ///     pitches_mm: (40.0, 130.0),
    ///     clearance_mm: 6.0,
    ///     hole_mm: 6.5,
    /// };
    /// let fit = line.fit().unwrap();
    /// assert_eq!(format!("{:.6} {:.3} {:.2}", fit.slope, fit.at_mm(0.0), fit.peak_mm), "0.000080 0.100 0.24");
    /// ```
    pub fn fit(&self) -> Result<LineFit, Vec<Problem>> {
        self.validate()?;
        self.fitted().map_err(|problem| vec![problem])
    }

    pub(super) fn fitted(&self) -> Result<LineFit, Problem> {
        let sound: Vec<(usize, &OldHole)> = self.holes.iter().enumerate().filter(|(_, h)| !h.spoilt).collect();
        let mut line = Weighted::default();
        // The slope is in the weights; it is small, so that they settle at once.
        for _ in 0..50 {
            let before = line.slope;
            let along2 = (before * self.along_error_mm).powi(2);
            let variance = |h: &OldHole| self.off_error_mm(h).powi(2) + along2;
            line = Weighted::through(sound.iter().map(|(_, h)| (h.along_mm, h.off_mm, 1.0 / variance(h))));
            if (line.slope - before).abs() <= 1e-15 + 1e-13 * line.slope.abs() {
                break;
            }
        }
        if line.slope.abs() > MOST_SLOPE {
            let problem = format!(
                "the line leans {:.2} in 1 against its datum: set the datum along the holes, within 1 in 10",
                line.slope
            );
            return Err(Problem::contradiction("holes", format!("{} holes", self.holes.len()), problem));
        }
        let along2 = (line.slope * self.along_error_mm).powi(2);
        let variance = |h: &OldHole| self.off_error_mm(h).powi(2) + along2;
        let off = |h: &OldHole| h.off_mm - line.at(h.along_mm);
        let scatter: f64 = sound.iter().map(|(_, h)| off(h).powi(2) / variance(h)).sum();
        let n = sound.len();
        let count = n as f64;
        let limit = if n > 3 {
            let t = StudentsT::new(0.0, 1.0, count - 3.0).ok();
            t.map_or(f64::INFINITY, |t| t.inverse_cdf(1.0 - STRAY / (2.0 * count)))
        } else {
            f64::INFINITY
        };
        let departures: Vec<Departure> = self
            .holes
            .iter()
            .map(|h| {
                let of_line = line.variance(h.along_mm);
                // A hole that made the line shares its error with it.
                let error2 = if h.spoilt { variance(h) + of_line } else { (variance(h) - of_line).max(0.0) };
                Departure {
                    off_line_mm: off(h),
                    error_mm: error2.sqrt(),
                    edge: self.edge.map(|edge| EdgeLeft {
                        mm: edge.off_mm - h.off_mm,
                        error_mm: self.off_error_mm(h).hypot(edge.error_mm),
                    }),
                    stray: !h.spoilt && studentised(off(h), variance(h), of_line, scatter, count) > limit,
                }
            })
            .collect();
        let farthest = sound.iter().max_by(|a, b| off(a.1).abs().total_cmp(&off(b.1).abs()));
        let least_mm = |i: usize| departures.get(i).and_then(|d| d.edge).map_or(f64::INFINITY, |e| e.least_mm());
        let nearest = sound.iter().map(|(i, _)| *i).min_by(|a, b| least_mm(*a).total_cmp(&least_mm(*b)));
        let squares: f64 = sound.iter().map(|(_, h)| off(h).powi(2)).sum();
        let mean_variance = sound.iter().map(|(_, h)| variance(h)).sum::<f64>() / count;
        let wander = (n > 2).then(|| (squares / (count - 2.0) - mean_variance).max(0.0).sqrt());
        Ok(LineFit {
            slope: line.slope,
            slope_error: line.sxx.recip().sqrt(),
            centre_mm: line.centre,
            offset_mm: line.offset,
            offset_error_mm: line.sum.recip().sqrt(),
            rms_mm: (squares / count).sqrt(),
            peak_mm: farthest.map_or(0.0, |(_, h)| off(h).abs()),
            wander_mm: wander,
            worst: farthest.map_or(0, |(i, _)| *i),
            nearest_edge: nearest.filter(|_| self.edge.is_some()),
            chi_square: scatter,
            freedoms: n - 2,
            departures,
        })
    }
}

/// Sums of a weighted straight line.
#[derive(Debug, Clone, Copy, Default)]
struct Weighted {
    slope: f64,
    offset: f64,
    centre: f64,
    /// Sum of the weights.
    sum: f64,
    /// Sum of weight times squared distance from the centre.
    sxx: f64,
}

impl Weighted {
    /// Through (x, y, weight).
    fn through(points: impl Iterator<Item = (f64, f64, f64)> + Clone) -> Self {
        let sum: f64 = points.clone().map(|(_, _, w)| w).sum();
        let centre = points.clone().map(|(x, _, w)| w * x).sum::<f64>() / sum;
        let offset = points.clone().map(|(_, y, w)| w * y).sum::<f64>() / sum;
        let sxx: f64 = points.clone().map(|(x, _, w)| w * (x - centre).powi(2)).sum();
        let sxy: f64 = points.map(|(x, y, w)| w * (x - centre) * (y - offset)).sum();
        Self { slope: sxy / sxx, offset, centre, sum, sxx }
    }

    fn at(&self, x: f64) -> f64 {
        self.offset + self.slope * (x - self.centre)
    }

    fn variance(&self, x: f64) -> f64 {
        self.sum.recip() + (x - self.centre).powi(2) / self.sxx
    }
}

/// A residual over its own error, with the scatter of all the others as the measure (externally studentised).
fn studentised(residual: f64, variance: f64, of_line: f64, scatter: f64, count: f64) -> f64 {
    let free = 1.0 - of_line / variance;
    if count <= 3.0 || free <= 1e-9 {
        return 0.0;
    }
    let own = residual * residual / (variance * free);
    let others = (scatter - own).max(0.0) / (count - 3.0);
    if others <= 1e-12 * own { if own > 1.0 { f64::INFINITY } else { 0.0 } } else { (own / others).sqrt() }
}
