//! The roof on its supports and braces at one height: a rigid body on springs, some of which let go.

mod wind;

use nalgebra::{Cholesky, Const, Matrix3, Matrix6, SymmetricEigen, Vector3, Vector6};

use crate::error::Problem;

use super::Lift;
use super::statics::settled_loads_n;

use wind::MOST_WIND_M_S;
pub use wind::{Extremes, StopWind};

/// Turning is counted in mm at this arm, so that it compares with moving, mm.
const ARM_MM: f64 = 1000.0;

/// A brace counts as a diagonal in a direction from this share of its length on; about 6 degrees.
const LEAST_LEAN: f64 = 0.1;

/// What is left of the stiffness of a spring that let go: enough to place a roof that nothing pushes, too little to hold it.
const SLACK: f64 = 1e-6;

/// Rounds after which a balance is given up.
const ROUNDS: usize = 240;

/// The ways a rigid body moves, in words.
const WAYS: [&str; 6] = ["fore and aft", "across", "up or down", "by rolling", "by pitching", "by turning on the spot"];

/// Directions that the wind blows to: forwards, backwards, to the left, to the right.
pub(super) const WINDS: [([f64; 2], &str); 4] =
    [([1.0, 0.0], "forwards"), ([-1.0, 0.0], "backwards"), ([0.0, 1.0], "to the left"), ([0.0, -1.0], "to the right")];

/// What stops work.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub enum Stop {
    /// A support that carried lifts off.
    LiftsOff(String),
    /// The wind lifts more than the roof weighs; braces are not counted on to hold it down.
    Uplift,
    /// A support is overloaded.
    Support(String),
    /// A brace is pulled too hard.
    Tension(String),
    /// A brace is pressed too hard.
    Compression(String),
    /// A support's foot slides.
    Slides(String),
    /// Nothing holds the roof in some way.
    RunsAway(&'static str),
    /// The weight over its height is more than the braces hold upright.
    LeansOver,
    /// Nothing, up to the strongest wind that is worked out.
    Nothing,
}

impl Stop {
    /// In words.
    pub fn words(&self) -> String {
        match self {
            Self::LiftsOff(name) => format!("{name} lifts off"),
            Self::Uplift => "the wind lifts more than the roof weighs".to_owned(),
            Self::Support(name) => format!("{name} is overloaded"),
            Self::Tension(name) => format!("brace {name} is pulled beyond its rating"),
            Self::Compression(name) => format!("brace {name} is pressed beyond its rating"),
            Self::Slides(name) => format!("the foot of {name} slides"),
            Self::RunsAway(way) => format!("nothing holds the roof: it moves {way}"),
            Self::LeansOver => "the roof leans over: its weight is more than the braces hold upright".to_owned(),
            Self::Nothing => format!("nothing up to {MOST_WIND_M_S} m/s, the most that is worked out"),
        }
    }
}

/// Forces under one load case.
#[derive(Debug, Clone, PartialEq)]
pub struct Forces {
    /// On each support, N.
    pub supports_n: Vec<f64>,
    /// In each brace, N; tension above nought.
    pub braces_n: Vec<f64>,
    /// How far the roof's centre moves along and across, mm.
    pub sway_mm: [f64; 2],
    /// How far each support leans: the way of its top over its length.
    pub leans: Vec<[f64; 2]>,
    /// Stiffness of what holds.
    elastic: Matrix6<f64>,
}

/// The weight on the supports in still air.
#[derive(Debug, Clone, PartialEq)]
struct Sharing {
    /// The support that stands low.
    low: Option<usize>,
    /// On the weight.
    weight: f64,
    /// Load of each support, N; below nought what it lacks to touch the roof.
    dead_n: Vec<f64>,
    /// What the weight takes of the stiffness.
    leaning: Matrix6<f64>,
}

/// A spring of the rigid body: its direction as a row, its stiffness, and what that is to the body.
#[derive(Debug, Clone, PartialEq)]
struct Spring {
    row: Vector6<f64>,
    n_mm: f64,
    stiffness: Matrix6<f64>,
}

impl Spring {
    fn new(row: Vector6<f64>, n_mm: f64) -> Self {
        Self { row, n_mm, stiffness: row * row.transpose() * n_mm }
    }
}

/// The lift at one height of the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage<'a> {
    lift: &'a Lift,
    rise_mm: f64,
    /// All level and unfactored first; then for the least and the most of the weight all level, and each support low in turn.
    sharings: Vec<Sharing>,
    /// Arm of each support's top from the centre, mm.
    arms_mm: Vec<Vector3<f64>>,
    /// Length of each support, mm.
    lengths_mm: Vec<f64>,
    supports: Vec<Spring>,
    braces: Vec<Spring>,
}

/// Row of a direction at an arm: how much it feels of each way of moving.
fn row(direction: Vector3<f64>, arm_mm: &Vector3<f64>) -> Vector6<f64> {
    let turning = arm_mm.cross(&direction) / ARM_MM;
    Vector6::new(direction.x, direction.y, direction.z, turning.x, turning.y, turning.z)
}

/// What the supports hold nothing against and no brace does: directions without a diagonal, in words; empty where each has
/// one. A strap counts only for the way it is pulled.
pub fn missing_bracing(lift: &Lift, rise_mm: f64) -> Vec<&'static str> {
    let holds = |direction: [f64; 2]| {
        lift.braces.iter().any(|brace| {
            let ([x, y, _], length) = (brace.run_mm(rise_mm), brace.length_mm(rise_mm));
            let share = (x * direction[0] + y * direction[1]) / length;
            share >= LEAST_LEAN || (brace.takes_compression() && share <= -LEAST_LEAN)
        })
    };
    let lacks = WINDS.map(|(direction, _)| !holds(direction));
    let mut words = Vec::new();
    for (pair, both) in [([0, 1], "fore and aft"), ([2, 3], "across")] {
        if pair.iter().all(|i| lacks[*i]) {
            words.push(both);
        } else {
            words.extend(pair.into_iter().filter(|i| lacks[*i]).map(|i| WINDS[i].1));
        }
    }
    words
}

/// What the weight on the supports takes from the stiffness: each is a strut that leans, and its top swings about the roof's
/// centre.
///
/// A strut of length h under P: −P/h sideways. A turn θ lifts a point at arm r by `½ (θ_z θ·r − r_z θ²)` more than its first
/// order says.
fn weight_matrix(arms_mm: &[Vector3<f64>], lengths_mm: &[f64], loads_n: &[f64]) -> Matrix6<f64> {
    let mut all = Matrix6::zeros();
    for ((arm, length), load) in arms_mm.iter().zip(lengths_mm).zip(loads_n) {
        for side in [Vector3::x(), Vector3::y()] {
            let row = row(side, arm);
            all -= row * row.transpose() * (load / length);
        }
        let z = Vector3::z();
        let swing = 0.5 * (z * arm.transpose() + arm * z.transpose()) - Matrix3::identity() * arm.z;
        let mut turning = all.fixed_view_mut::<3, 3>(3, 3);
        turning -= swing * (load / (ARM_MM * ARM_MM));
    }
    all
}

/// Every way in which the supports may share the weight.
fn sharings(lift: &Lift, arms_mm: &[Vector3<f64>], lengths_mm: &[f64]) -> Result<Vec<Sharing>, Problem> {
    let (places, c) = (lift.places_mm(), &lift.conditions);
    let sharing = |weight: f64, low: Option<usize>| -> Result<Sharing, Problem> {
        let mut low_mm = vec![0.0; places.len()];
        if let Some(own) = low.and_then(|low| low_mm.get_mut(low)) {
            *own = c.lag_mm;
        }
        let weight_n = weight * lift.roof.weight_n();
        let dead_n = settled_loads_n(weight_n, lift.centre_mm(), &places, &low_mm, c.support_n_mm)?;
        let carried: Vec<f64> = dead_n.iter().map(|n| n.max(0.0)).collect();
        let leaning = weight_matrix(arms_mm, lengths_mm, &carried);
        Ok(Sharing { low, weight, dead_n, leaning })
    };
    let mut all = vec![sharing(1.0, None)?];
    for weight in [c.holding_down, c.factor] {
        all.push(sharing(weight, None)?);
        if c.lag_mm > 0.0 {
            for low in 0..places.len() {
                all.push(sharing(weight, Some(low))?);
            }
        }
    }
    Ok(all)
}

impl<'a> Stage<'a> {
    /// The lift when the roof is up by so much.
    ///
    /// # Errors
    /// As [`tipping_margin_mm`](super::tipping_margin_mm); a support whose top is not above its foot; no diagonals in some
    /// direction, or none that keep the roof from turning.
    pub fn new(lift: &'a Lift, rise_mm: f64) -> Result<Self, Problem> {
        let centre = Vector3::from(lift.roof.centre_mm);
        let tops = lift.supports.iter().map(|s| Vector3::new(s.x_mm, s.y_mm, s.top_mm));
        let arms_mm: Vec<Vector3<f64>> = tops.map(|top| top - centre).collect();
        let lengths_mm: Vec<f64> = lift.supports.iter().map(|s| s.top_mm + rise_mm - s.foot_mm).collect();
        if let Some((support, length)) = lift.supports.iter().zip(&lengths_mm).find(|(_, length)| **length < 1.0) {
            let problem = "its top must lie above its foot; check the two heights";
            return Err(Problem::contradiction(
                format!("lift.supports, {}", support.name),
                format!("{length:.0} mm"),
                problem,
            ));
        }
        let spring = |arm: &Vector3<f64>| Spring::new(row(Vector3::z(), arm), lift.conditions.support_n_mm);
        let supports = arms_mm.iter().map(spring).collect();
        let braces = lift.braces.iter().map(|brace| {
            let length = brace.length_mm(rise_mm);
            let direction = Vector3::from(brace.run_mm(rise_mm)) / length;
            let arm = Vector3::from(brace.to_mm) - centre;
            Spring::new(row(direction, &arm), brace.area_mm2 * brace.modulus_mpa / length)
        });
        let braces = braces.collect();
        let sharings = sharings(lift, &arms_mm, &lengths_mm)?;
        let stage = Self { lift, rise_mm, sharings, arms_mm, lengths_mm, supports, braces };
        let lacks = missing_bracing(lift, rise_mm);
        if !lacks.is_empty() {
            let problem = format!(
                "no diagonal holds the roof {} when it is up by {rise_mm:.0} mm, and cut posts and supports hold nothing \
                 sideways; brace it fore and aft and across, a strap both ways",
                lacks.join(" and ")
            );
            return Err(Problem::contradiction("lift.braces", format!("{} braces", lift.braces.len()), problem));
        }
        stage.held_every_way()?;
        Ok(stage)
    }

    /// Whether a small push or turn any way finds something that holds.
    fn held_every_way(&self) -> Result<(), Problem> {
        let small = 1e-3 * self.lift.roof.weight_n();
        for way in [0, 1, 5] {
            for sign in [1.0, -1.0] {
                let mut push = Vector6::zeros();
                push[way] = sign * small;
                if let Err(Stop::RunsAway(way)) = self.balance(&push, 0, false) {
                    let problem = format!(
                        "with the roof up by {:.0} mm it can still move {way}: lay out the braces so that they hold that too",
                        self.rise_mm
                    );
                    return Err(Problem::contradiction(
                        "lift.braces",
                        format!("{} braces", self.braces.len()),
                        problem,
                    ));
                }
            }
        }
        Ok(())
    }

    /// Balances the roof under a push (force, N, and moment over the arm, N) and its weight, shared as this sharing has it.
    ///
    /// Straps that would be pressed go slack and supports that would pull let go, until no more change. With `second_order`
    /// the weight on leaning supports then pushes further, and straps and supports settle anew.
    fn balance(&self, push: &Vector6<f64>, sharing: usize, second_order: bool) -> Result<Forces, Stop> {
        let Some(Sharing { weight, dead_n, leaning: leans_by, .. }) = self.sharings.get(sharing) else {
            return Err(Stop::RunsAway("without its weight"));
        };
        let braces = &self.lift.braces;
        let carried = self.lift.roof.weight_n() * weight;
        // Below this a force is rounding, and changes no state.
        let least = 1e-9 * carried;
        let mut standing: Vec<bool> = dead_n.iter().map(|n| *n > 0.0).collect();
        let mut taut = vec![true; braces.len()];
        let mut leaning = None;
        let mut elastic = self.elastic(&standing, &taut);
        for round in 0..ROUNDS {
            let mut cholesky = sound(&elastic).ok_or_else(|| Stop::RunsAway(softest_way(&elastic)))?;
            if let Some(leaning) = leaning {
                // What balances without leaning and not with it leans over.
                cholesky = Cholesky::new(elastic + leaning).ok_or(Stop::LeansOver)?;
            }
            let mut force = *push;
            force[2] -= carried;
            for ((spring, dead), _) in self.supports.iter().zip(dead_n).zip(&standing).filter(|(_, on)| **on) {
                force += spring.row * *dead;
            }
            let moved = cholesky.solve(&force);
            let stretched = |spring: &Spring| spring.n_mm * spring.row.dot(&moved);
            let supports_n: Vec<f64> =
                self.supports.iter().zip(dead_n).map(|(spring, dead)| dead - stretched(spring)).collect();
            let braces_n: Vec<f64> = self.braces.iter().map(stretched).collect();
            let mut stands: Vec<bool> = supports_n.iter().map(|n| *n > least).collect();
            let mut pulls: Vec<bool> =
                braces.iter().zip(&braces_n).map(|(brace, n)| brace.takes_compression() || *n >= -least).collect();
            if stands != standing || pulls != taut {
                if round > ROUNDS / 4 {
                    // All at once they chase each other: one at a time.
                    let mut changed = false;
                    for (old, new) in standing.iter().zip(&mut stands).chain(taut.iter().zip(&mut pulls)) {
                        *new = if changed { *old } else { *new };
                        changed |= old != new;
                    }
                }
                (standing, taut) = (stands, pulls);
                elastic = self.elastic(&standing, &taut);
                continue;
            }
            if second_order && leaning.is_none() {
                leaning = Some(*leans_by);
                continue;
            }
            // What only the remains of springs that let go hold, nothing holds.
            let slack = |all: &[Spring], on: &[bool]| {
                let off = all.iter().zip(on).filter(|(_, on)| !**on);
                off.map(|(spring, _)| (SLACK * stretched(spring)).abs()).fold(0.0, f64::max)
            };
            if slack(&self.supports, &standing).max(slack(&self.braces, &taut)) > 1e-2 * push.norm() + least {
                return Err(Stop::RunsAway(WAYS.get(moved.icamax()).copied().unwrap_or("away")));
            }
            let only = |values: Vec<f64>, on: &[bool], least: &dyn Fn(usize) -> f64| -> Vec<f64> {
                let all = values.into_iter().zip(on).enumerate();
                all.map(|(i, (value, on))| if *on { value.max(least(i)) } else { 0.0 }).collect()
            };
            // A strap that nothing strains is not pressed by rounding either.
            let pressed = |i: usize| if braces[i].takes_compression() { f64::NEG_INFINITY } else { 0.0 };
            let leans = self
                .arms_mm
                .iter()
                .zip(&self.lengths_mm)
                .map(|(arm, length)| [Vector3::x(), Vector3::y()].map(|side| row(side, arm).dot(&moved) / length));
            return Ok(Forces {
                supports_n: only(supports_n, &standing, &|_| 0.0),
                braces_n: only(braces_n, &taut, &pressed),
                sway_mm: [moved[0], moved[1]],
                leans: leans.collect(),
                elastic,
            });
        }
        Err(Stop::RunsAway("without settling"))
    }

    /// Stiffness of the springs that hold, with a trace of those that let go: what is slack both ways still gives a place.
    fn elastic(&self, standing: &[bool], taut: &[bool]) -> Matrix6<f64> {
        let all = self.supports.iter().zip(standing).chain(self.braces.iter().zip(taut));
        all.fold(Matrix6::zeros(), |k, (spring, on)| k + spring.stiffness * if *on { 1.0 } else { SLACK })
    }

    /// How many times the roof's weight leans it over, by the braces that a small push tightens; none where they hold nothing.
    ///
    /// Linearised: elastic stiffness and λ times what the weight takes of it is singular. The least over pushes to the four
    /// corners.
    pub fn leaning_factor(&self) -> Option<f64> {
        let small = 0.01 * self.lift.roof.weight_n();
        let leaning = &self.sharings.first()?.leaning;
        let corners = [[1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]].map(|[x, y]| {
            let push = Vector6::new(x * small, y * small, 0.0, 0.0, 0.0, 0.0);
            let lower = Cholesky::new(self.balance(&push, 0, false).ok()?.elastic)?.l();
            let half = lower.solve_lower_triangular(leaning)?;
            let whole = lower.solve_lower_triangular(&half.transpose())?;
            let softening = -SymmetricEigen::new(whole).eigenvalues.min();
            Some(if softening > 0.0 { 1.0 / softening } else { f64::INFINITY })
        });
        let least = corners.into_iter().try_fold(f64::INFINITY, |least, factor| Some(least.min(factor?)))?;
        least.is_finite().then_some(least)
    }

    /// Load of each support in still air, all level and unfactored, N; below nought what it lacks to touch the roof.
    pub fn dead_n(&self) -> &[f64] {
        self.sharings.first().map_or(&[], |sharing| &sharing.dead_n)
    }
}

/// Factored, where it is not next to singular: among springs of about one stiffness a mechanism leaves a pivot that is next
/// to nothing.
fn sound(elastic: &Matrix6<f64>) -> Option<Cholesky<f64, Const<6>>> {
    let largest = elastic.diagonal().max();
    Cholesky::new(*elastic).filter(|c| c.l_dirty().diagonal().iter().all(|pivot| pivot * pivot > 1e-10 * largest))
}

/// The way of moving that finds least stiffness, in words.
fn softest_way(elastic: &Matrix6<f64>) -> &'static str {
    let eigen = SymmetricEigen::new(*elastic);
    let softest = eigen.eigenvectors.column(eigen.eigenvalues.imin()).into_owned();
    WAYS.get(softest.icamax()).copied().unwrap_or("away")
}
