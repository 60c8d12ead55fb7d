//! How far a flat panel bows under pressure and heat, its edges held in plane or giving way: von Kármán's plate by Ritz.
//!
//! With lengths in `b` (the shorter side) and the bow in `t`, only two numbers are left: the load `Q = q b⁴/(E t⁴)` and the
//! heat `Θ = 12 (1 + ν) α ΔT b²/t²` (the plate buckles at `Θ = π² k`, `k` of equal compression both ways). The energy over
//! `D t²/b²` is `½ c·(K - Θ G) c + 6 U(c) - 12 (1 - ν²) Q f·c`: bending, heat, stretching of the middle plane, work. The
//! displacements in the plane enter squared only and are solved for beforehand, which leaves `U` as a form of the products
//! of two terms of `c`. A frame that gives way lets each pair of edges come nearer evenly, as springs; what they give is solved
//! for beforehand too ([`Bowing::giving`]).

use std::f64::consts::PI;

use nalgebra::{DMatrix, DVector};

use crate::check::{Standing, significant};
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::heating::heat_in_range;
use super::{Edges, Panel, all};

/// Longest panel that is worked as a plate, longer over shorter side; beyond it counts as a strip without end, which differs by 1 %.
pub const LONGEST: f64 = 5.0;
/// Greatest bow over the shorter side: beyond it the slopes are no longer moderate, as von Kármán has them.
const STEEPEST: f64 = 0.1;
/// Greatest load for which the series has converged to 3 %.
const MOST_LOAD: f64 = 5_000.0;
/// The same where the frame holds next to nothing, for there the bow has more to tell along its edges: up to three times as long
/// as wide, and beyond.
const MOST_LOAD_GIVING: [f64; 2] = [1_000.0, 300.0];
/// The longer panels of the two.
const LONG_GIVING: f64 = 3.0;
/// Greatest heat for which the series has one answer: beyond it real sheet may fall into several bulges.
const MOST_HEAT: f64 = 600.0;
/// The coldest that is worked.
const LEAST_HEAT: f64 = -5_000.0;
/// A frame that holds less gives way almost freely.
const LITTLE_HOLD: f64 = 0.2;
const PRESSURE_MPA: (f64, f64) = (0.0, 0.1);

/// A polynomial term of the series and its derivatives at one place.
#[derive(Clone, Copy, Default)]
struct Term {
    value: f64,
    slope: f64,
    bend: f64,
}

/// `(1 - x²)^power P_n(x)`, `P_n` Legendre's polynomial.
fn term(power: i32, n: usize, x: f64) -> Term {
    let (mut before, mut now) = (Term { value: 1.0, ..Term::default() }, Term { value: x, slope: 1.0, bend: 0.0 });
    for k in 1..n {
        let (a, b) = ((2 * k + 1) as f64 / (k + 1) as f64, k as f64 / (k + 1) as f64);
        let next = Term {
            value: a * x * now.value - b * before.value,
            slope: a * (now.value + x * now.slope) - b * before.slope,
            bend: a * (2.0 * now.slope + x * now.bend) - b * before.bend,
        };
        (before, now) = (now, next);
    }
    let p = if n == 0 { before } else { now };
    let edge = 1.0 - x * x;
    let power_f = f64::from(power);
    let e = edge.powi(power);
    let de = -2.0 * power_f * x * edge.powi(power - 1);
    let dde = if power == 1 { -2.0 } else { -4.0 * edge + 8.0 * x * x };
    Term {
        value: e * p.value,
        slope: de * p.value + e * p.slope,
        bend: dde * p.value + 2.0 * de * p.slope + e * p.bend,
    }
}

/// Gauss-Legendre places and weights on 0 to 1.
fn gauss(n: usize) -> Vec<(f64, f64)> {
    let legendre = |x: f64| {
        let (mut before, mut now) = (1.0, x);
        for k in 1..n {
            let k = k as f64;
            (before, now) = (now, ((2.0 * k + 1.0) * x * now - k * before) / (k + 1.0));
        }
        (now, n as f64 * (x * now - before) / (x * x - 1.0))
    };
    let root = |i: usize| {
        let mut x = (PI * (i as f64 + 0.75) / (n as f64 + 0.5)).cos();
        for _ in 0..50 {
            let (value, slope) = legendre(x);
            x -= value / slope;
        }
        let slope = legendre(x).1;
        (f64::midpoint(1.0, x), 1.0 / ((1.0 - x * x) * slope * slope))
    };
    (0..n).map(root).collect()
}

/// The forms of one shape, hold and Poisson's ratio; costly to make, quick to ask.
#[derive(Debug, Clone, PartialEq)]
pub struct Bowing {
    aspect: f64,
    clamped: bool,
    poisson: f64,
    bending: DMatrix<f64>,
    /// Mean square slopes, along the longer and the shorter side.
    slopes: [DMatrix<f64>; 2],
    heat: DMatrix<f64>,
    load: DVector<f64>,
    centre: DVector<f64>,
    pairs: Vec<(usize, usize)>,
    stretching: DMatrix<f64>,
    /// How much of what the sheet would draw in or grow its frame holds.
    hold: f64,
}

impl Bowing {
    /// The forms of a plate by its shape (longer over shorter side), simple or clamped.
    ///
    /// # Errors
    /// A shape below 1 or above 2000; a Poisson's ratio that no metal has.
    pub fn new(aspect: f64, clamped: bool, poisson: f64) -> Result<Self, Vec<Problem>> {
        all([
            in_range("aspect", Some(aspect), (1.0, 2000.0), ""),
            in_range("poisson", Some(poisson), (0.0, 0.49), ""),
        ])?;
        if aspect > LONGEST {
            return Ok(Self::strip(clamped, poisson));
        }
        // A longer plate has more to tell along its length.
        let along = if aspect <= 2.0 { 4 } else { 5 };
        Ok(Self::plate(aspect, clamped, poisson, (along, 3)))
    }

    /// A strip without end: one term of a series across, nothing changes along it.
    fn strip(clamped: bool, poisson: f64) -> Self {
        let (power, n) = (if clamped { 2 } else { 1 }, 6);
        let pairs = pairs_of(n);
        let (mut bending, mut slope) = (DMatrix::zeros(n, n), DMatrix::zeros(n, n));
        let mut load = DVector::zeros(n);
        for (y, weight) in gauss(16) {
            let terms: Vec<Term> = (0..n).map(|i| term(power, 2 * i, y)).collect();
            for (i, one) in terms.iter().enumerate() {
                load[i] += weight * one.value;
                for (j, other) in terms.iter().enumerate() {
                    bending[(i, j)] += weight * 16.0 * one.bend * other.bend;
                    slope[(i, j)] += weight * 4.0 * one.slope * other.slope;
                }
            }
        }
        let of = |p: usize| pairs.get(p).map_or(0.0, |&(i, j)| slope[(i, j)] / 2.0 * times((i, j)));
        let stretching = DMatrix::from_fn(pairs.len(), pairs.len(), |p, q| of(p) * of(q));
        let centre = DVector::from_fn(n, |i, _| term(power, 2 * i, 0.0).value);
        let slopes = [DMatrix::zeros(n, n), slope.clone()];
        Self {
            aspect: f64::INFINITY,
            clamped,
            poisson,
            bending,
            slopes,
            heat: slope,
            load,
            centre,
            pairs,
            stretching,
            hold: 1.0,
        }
    }

    fn plate(aspect: f64, clamped: bool, poisson: f64, (nx, ny): (usize, usize)) -> Self {
        let power = if clamped { 2 } else { 1 };
        let n = nx * ny;
        let pairs = pairs_of(n);
        let (in_x, in_y) = (nx + 2, ny + 2);
        let in_plane = 2 * in_x * in_y;
        let (px, py) = (gauss(2 * nx + 6), gauss(2 * ny + 6));
        let (sx, sy) = (2.0 / aspect, 2.0);
        let mut bending = DMatrix::zeros(n, n);
        let mut slopes = [DMatrix::zeros(n, n), DMatrix::zeros(n, n)];
        let mut load = DVector::zeros(n);
        let mut flat = DMatrix::zeros(3 * px.len() * py.len(), in_plane);
        let mut bowed = DMatrix::zeros(3 * px.len() * py.len(), pairs.len());
        let shear = f64::midpoint(1.0, -poisson).sqrt();
        let across = (1.0 - poisson * poisson).sqrt();
        // Rows whose squares add up to the energy of strains along, across and in shear.
        let rows = |[e1, e2, g]: [f64; 3]| [e1 + poisson * e2, across * e2, shear * g];
        let mut row = 0;
        for &(x, wx) in &px {
            let tx: Vec<Term> = (0..nx).map(|i| term(power, 2 * i, x)).collect();
            let (odd_x, even_x): (Vec<Term>, Vec<Term>) =
                (0..in_x).map(|i| (term(1, 2 * i + 1, x), term(1, 2 * i, x))).unzip();
            for &(y, wy) in &py {
                let ty: Vec<Term> = (0..ny).map(|i| term(power, 2 * i, y)).collect();
                let (odd_y, even_y): (Vec<Term>, Vec<Term>) =
                    (0..in_y).map(|i| (term(1, 2 * i + 1, y), term(1, 2 * i, y))).unzip();
                // All four quarters.
                let weight = wx * wy * aspect;
                let bow = |i: usize| {
                    (tx.get(i / ny).copied().unwrap_or_default(), ty.get(i % ny).copied().unwrap_or_default())
                };
                let slope = |i: usize| {
                    let (f, g) = bow(i);
                    [sx * f.slope * g.value, sy * f.value * g.slope]
                };
                for i in 0..n {
                    let (f, g) = bow(i);
                    load[i] += weight * f.value * g.value;
                    let curvature = |i: usize| {
                        let (f, g) = bow(i);
                        [sx * sx * f.bend * g.value, sy * sy * f.value * g.bend, sx * sy * f.slope * g.slope]
                    };
                    let (c, [s1, s2]) = (curvature(i), slope(i));
                    for j in 0..n {
                        let (d, [r1, r2]) = (curvature(j), slope(j));
                        let plain = c[0] * d[0] + c[1] * d[1] + poisson * (c[0] * d[1] + c[1] * d[0]);
                        bending[(i, j)] += weight * (plain + 2.0 * (1.0 - poisson) * c[2] * d[2]);
                        slopes[0][(i, j)] += weight * s1 * r1;
                        slopes[1][(i, j)] += weight * s2 * r2;
                    }
                }
                let root = weight.sqrt();
                let write = |matrix: &mut DMatrix<f64>, column: usize, strains: [f64; 3]| {
                    for (k, value) in rows(strains).into_iter().enumerate() {
                        matrix[(row + k, column)] = root * value;
                    }
                };
                for i in 0..in_x {
                    for j in 0..in_y {
                        let at = i * in_y + j;
                        let (f, g) = (odd_x[i], even_y[j]);
                        write(&mut flat, at, [sx * f.slope * g.value, 0.0, sy * f.value * g.slope]);
                        let (f, g) = (even_x[i], odd_y[j]);
                        write(&mut flat, in_x * in_y + at, [0.0, sy * f.value * g.slope, sx * f.slope * g.value]);
                    }
                }
                for (p, &(i, j)) in pairs.iter().enumerate() {
                    let ([s1, s2], [r1, r2], m) = (slope(i), slope(j), times((i, j)) / 2.0);
                    write(&mut bowed, p, [m * s1 * r1, m * s2 * r2, m * (s1 * r2 + s2 * r1)]);
                }
                row += 3;
            }
        }
        let both = flat.tr_mul(&bowed);
        let mut stretching = bowed.tr_mul(&bowed);
        if let Some(factor) = flat.tr_mul(&flat).cholesky() {
            stretching -= both.tr_mul(&factor.solve(&both));
        }
        let heat = &slopes[0] + &slopes[1];
        let middle = |i: usize| term(power, 2 * i, 0.0).value;
        let centre = DVector::from_fn(n, |i, _| middle(i / ny) * middle(i % ny));
        Self { aspect, clamped, poisson, bending, slopes, heat, load, centre, pairs, stretching, hold: 1.0 }
    }

    /// The same panel in a frame that holds only this much of what the sheet would draw in or grow: 1 edges held in plane, 0 edges
    /// that stay straight but move freely.
    ///
    /// Of the mean strains of the bow, `ē` along and across, the frame gives `1 - h` of their mean and
    /// `d = (1 - h)(1 - ν)/((1 - h)(1 - ν) + h (1 + ν))` of half their difference: the least energy of sheet and springs, the
    /// springs alike both ways and such that of an even growth `h` is held. Derived. A strip without end is then an upper figure
    /// of a long panel: straight edges stiffen what lies near its ends.
    ///
    /// # Errors
    /// A share below 0 or above 1; a series made for another share already.
    pub fn giving(mut self, hold: f64) -> Result<Self, Vec<Problem>> {
        all([in_range("hold", Some(hold), (0.0, 1.0), "")])?;
        if self.hold.to_bits() != 1.0_f64.to_bits() {
            let problem = "this series gives way already; make it anew";
            return Err(vec![Problem::contradiction("hold", hold, problem)]);
        }
        self.hold = hold;
        let area = self.area();
        let mean = |way: usize| {
            let slopes = self.slopes.get(way);
            let of = |&(i, j): &(usize, usize)| slopes.map_or(0.0, |own| own[(i, j)]) * times((i, j)) / (2.0 * area);
            DVector::from_iterator(self.pairs.len(), self.pairs.iter().map(of))
        };
        let (along, across) = (mean(0), mean(1));
        let (both, apart) = (&along + &across, along - across);
        let poisson = self.poisson;
        self.stretching -= &both * both.transpose() * (area / 2.0 * (1.0 + poisson) * (1.0 - hold));
        self.stretching -= &apart * apart.transpose() * (area / 2.0 * (1.0 - poisson) * self.given_apart());
        Ok(self)
    }

    /// Share of the difference between both ways that the frame gives.
    fn given_apart(&self) -> f64 {
        let (gives, holds) = ((1.0 - self.hold) * (1.0 - self.poisson), self.hold * (1.0 + self.poisson));
        gives / (gives + holds)
    }

    /// Area in squares of the shorter side; of a strip one such square.
    fn area(&self) -> f64 {
        if self.aspect.is_finite() { self.aspect } else { 1.0 }
    }

    /// `c` in the bow of small deflection, `w = c q b⁴/(E t³)`.
    pub fn linear_coefficient(&self) -> f64 {
        let shape = self.bending.clone().cholesky().map_or_else(|| self.load.clone(), |k| k.solve(&self.load));
        12.0 * (1.0 - self.poisson.powi(2)) * self.centre.dot(&shape)
    }

    /// Terms of the series at a load and a heat.
    fn settle(&self, load_number: f64, heat_number: f64) -> Option<DVector<f64>> {
        let n = self.load.len();
        let straight = &self.bending - &self.heat * heat_number;
        let pull = &self.load * (12.0 * (1.0 - self.poisson.powi(2)) * load_number);
        let products =
            |c: &DVector<f64>| DVector::from_iterator(self.pairs.len(), self.pairs.iter().map(|&(i, j)| c[i] * c[j]));
        let energy = |c: &DVector<f64>| {
            let s = products(c);
            0.5 * c.dot(&(&straight * c)) + 6.0 * s.dot(&(&self.stretching * &s)) - pull.dot(c)
        };
        if load_number == 0.0 && straight.clone().cholesky().is_some() {
            return Some(DVector::zeros(n));
        }
        // One shape alone gives a cubic; its outermost root is a start on the side of the load.
        let shape = self.bending.clone().cholesky()?.solve(&self.load);
        let shape = &shape / self.centre.dot(&shape);
        let s = products(&shape);
        let (linear, cubic) = (shape.dot(&(&straight * &shape)), 24.0 * s.dot(&(&self.stretching * &s)).max(0.0));
        let pulled = (pull.dot(&shape) / cubic).cbrt();
        // A strip whose edges move freely does not stretch at all.
        let start =
            if linear > 0.0 { pulled.min(pull.dot(&shape) / linear) } else { (-linear / cubic).sqrt() + pulled };
        // A little at least: flat is a balance too, but no stable one.
        let mut c = &shape * start.max(0.1);
        for _ in 0..300 {
            let s = products(&c);
            let v = &self.stretching * &s;
            let mut by = DMatrix::zeros(self.pairs.len(), n);
            let mut second = straight.clone();
            for (p, &(i, j)) in self.pairs.iter().enumerate() {
                by[(p, i)] += c[j];
                by[(p, j)] += c[i];
                second[(i, j)] += 12.0 * v[p];
                second[(j, i)] += 12.0 * v[p];
            }
            let slope = &straight * &c + by.tr_mul(&v) * 12.0 - &pull;
            second += by.tr_mul(&(&self.stretching * &by)) * 12.0;
            let scale = second.diagonal().amax();
            let mut shift = 0.0;
            let factor = loop {
                let shifted = &second + DMatrix::identity(n, n) * shift;
                match shifted.cholesky() {
                    Some(factor) => break factor,
                    None if shift > 10.0 * scale => return None,
                    None => shift = (10.0 * shift).max(1e-9 * scale),
                }
            };
            let step = -factor.solve(&slope);
            let (from, gain) = (energy(&c), slope.dot(&step));
            // The last digits of a series of high polynomials are noise.
            if step.amax() <= 1e-8 * (1e-6 + c.amax()) || gain.abs() <= 1e-13 * from.abs() {
                return Some(c);
            }
            let mut part = 1.0;
            while part > 1e-8 && energy(&(&c + &step * part)) > from + 1e-4 * part * gain {
                part /= 2.0;
            }
            if part <= 1e-8 {
                // As low as the last digits let it.
                return Some(c);
            }
            c += step * part;
        }
        None
    }

    /// The bow of a panel of this shape under pressure and at a temperature difference, skin over frame.
    ///
    /// # Errors
    /// A panel of another shape or hold; pressure, expansion or difference that no skin meets; a bow too steep for the
    /// theory, or a load or heat beyond what the series tells.
    pub fn bow(
        &self,
        panel: &Panel,
        pressure_mpa: f64,
        (expansion_per_k, rise_k): (f64, f64),
    ) -> Result<Bow, Vec<Problem>> {
        let own_shape =
            (self.aspect.is_infinite() && panel.aspect() > LONGEST) || (self.aspect - panel.aspect()).abs() < 1e-9;
        if !own_shape
            || self.clamped != (panel.edges == Edges::Clamped)
            || self.poisson.to_bits() != panel.poisson.to_bits()
        {
            let problem = "another shape, hold or Poisson's ratio than the series was made for; make it for this panel";
            return Err(vec![Problem::contradiction("a", format!("{} mm", panel.a_mm), problem)]);
        }
        all([in_range("pressure", Some(pressure_mpa.abs()), PRESSURE_MPA, "MPa")])?;
        heat_in_range(expansion_per_k, rise_k)?;
        let (t, b) = (panel.thickness_mm, panel.short_mm());
        let load_number = pressure_mpa.abs() * b.powi(4) / (panel.modulus_mpa * t.powi(4));
        let heat_number = self.hold * 12.0 * (1.0 + panel.poisson) * expansion_per_k * rise_k * (b / t).powi(2);
        // What the caller can turn, in the caller's units.
        let held = |name: &str, number: f64, (least, most): (f64, f64), (own, unit): (f64, &str), what: &str| {
            if (least..=most).contains(&number) {
                return Ok(());
            }
            let bound = if number > most { most } else { least };
            let allowed = format!("up to {} {unit} on this panel, {what}", significant(bound / number * own));
            Err(Problem::out_of_range(name, format!("{own} {unit}"), allowed))
        };
        let [giving, giving_long] = MOST_LOAD_GIVING;
        let (most_load, series_end) = if self.hold < LITTLE_HOLD && self.aspect > LONG_GIVING {
            (giving_long, "where q b⁴/(E t⁴) is 300 and the series ends for long edges that hardly hold")
        } else if self.hold < LITTLE_HOLD {
            (giving, "where q b⁴/(E t⁴) is 1000 and the series ends for edges that hardly hold")
        } else {
            (MOST_LOAD, "where q b⁴/(E t⁴) is 5000 and the series ends")
        };
        // A strip whose edges move freely is a beam: nothing ends there but the slopes.
        let most_load = if self.aspect.is_infinite() { MOST_LOAD } else { most_load };
        all([
            held("pressure", load_number, (0.0, most_load), (pressure_mpa.abs(), "MPa"), series_end),
            held(
                "rise",
                heat_number,
                (LEAST_HEAT, MOST_HEAT),
                (rise_k, "K"),
                "where the series ends; beyond it only the bow of a strip is told, an upper figure",
            ),
        ])?;
        let unsettled = || {
            let problem = "the bow did not settle; split the load";
            vec![Problem::contradiction("pressure", format!("{pressure_mpa} MPa"), problem)]
        };
        let c = self.settle(load_number, heat_number).ok_or_else(unsettled)?;
        let bow_mm = (t * self.centre.dot(&c)).abs();
        if bow_mm > STEEPEST * b {
            let allowed = format!("a bow up to {STEEPEST} of the shorter side, here {} mm", significant(STEEPEST * b));
            return Err(vec![Problem::out_of_range("pressure", format!("{} mm of bow", significant(bow_mm)), allowed)]);
        }
        let [e1, e2] = [0, 1].map(|way: usize| {
            let square = self.slopes.get(way).map_or(0.0, |slopes| c.dot(&(slopes * &c)));
            square / 2.0 / self.area() * (t / b).powi(2)
        });
        let (mean, apart) = (f64::midpoint(e1, e2) - expansion_per_k * rise_k, (e1 - e2) / 2.0);
        let mean_n_mm = panel.modulus_mpa * t / (1.0 - panel.poisson) * self.hold * mean;
        let apart_n_mm = panel.modulus_mpa * t / (1.0 + panel.poisson) * (1.0 - self.given_apart()) * apart;
        let (along, across) = (mean_n_mm + apart_n_mm, mean_n_mm - apart_n_mm);
        let (pull_a_n_mm, pull_b_n_mm) = if panel.a_mm >= panel.b_mm { (along, across) } else { (across, along) };
        Ok(Bow {
            bow_mm,
            linear_mm: linear_bow_mm(self.linear_coefficient(), panel, pressure_mpa.abs()),
            load_number,
            heat_number,
            pull_a_n_mm,
            pull_b_n_mm,
            source: match (self.aspect.is_finite(), self.hold < 1.0) {
                (true, false) => PLATE,
                (false, false) => STRIP,
                (_, true) => GIVING,
            },
            standing: Standing::Memory,
        })
    }
}

const PLATE: &str = "von Kármán's plate worked out here by a Ritz series, edges held in plane; within 3 % of Roark, Table \
    11.11, square, from memory";
const STRIP: &str = "von Kármán's plate as a strip without end, worked out here by a Ritz series, edges held in plane; linear \
    coefficients of Timoshenko's tables 8 and 35, from memory";

const GIVING: &str = "von Kármán's plate or strip worked out here by a Ritz series, edges straight and drawn in against springs: \
    derived; within 2 % of Levy, NACA Report 737, square, edges moving freely, from memory";

/// Bow of small deflection, mm: `w = c q b⁴/(E t³)`, `b` the shorter side (Timoshenko, Theory of Plates and Shells, tables 8
/// and 35).
pub fn linear_bow_mm(coefficient: f64, panel: &Panel, pressure_mpa: f64) -> f64 {
    coefficient * pressure_mpa * panel.short_mm().powi(4) / (panel.modulus_mpa * panel.thickness_mm.powi(3))
}

fn pairs_of(n: usize) -> Vec<(usize, usize)> {
    (0..n).flat_map(|i| (i..n).map(move |j| (i, j))).collect()
}

/// How often a product stands in the square of the sum.
fn times((i, j): (usize, usize)) -> f64 {
    if i == j { 1.0 } else { 2.0 }
}

/// How far a panel bows, in one bulge. Deep after buckling by heat real sheet may fall into several, which are shallower.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Bow {
    /// At the middle, mm.
    pub bow_mm: f64,
    /// What small-deflection theory says of the pressure alone, mm; too much where it is more than half a thickness.
    pub linear_mm: f64,
    /// `q b⁴/(E t⁴)`.
    pub load_number: f64,
    /// `12 (1 + ν) α ΔT b²/t²`, of what the frame holds.
    pub heat_number: f64,
    /// Mean pull in the sheet along `a`, N per mm of an edge across it; below nought it pushes.
    pub pull_a_n_mm: f64,
    /// The same along `b`.
    pub pull_b_n_mm: f64,
    /// Where it is from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

impl Panel {
    /// The series of this panel's shape.
    ///
    /// # Errors
    /// A curved panel; edges not alike.
    pub fn bowing(&self) -> Result<Bowing, Vec<Problem>> {
        self.flat("the bow")?;
        let clamped = self.edges.alike("the bow").map_err(|p| vec![p])?;
        Bowing::new(self.aspect(), clamped, self.poisson)
    }
}
