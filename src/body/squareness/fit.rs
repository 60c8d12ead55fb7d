//! The roof's motion by weighted least squares (Gauss–Newton), its uncertainty, and the test of readings against each other.

use nalgebra::{DMatrix, DVector, Vector3};
use statrs::distribution::{ChiSquared, ContinuousCDF, Normal};

use crate::body::survey::Side;
use crate::error::Problem;

use super::motion::{Body, COUNT, Motion};
use super::{Layout, PARAMETERS, Parameter, Reading, ReadingKind, Readings, Stage, Target, on, other};

/// A number with its standard uncertainty, carried through from the measuring errors.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Measured {
    /// The number, mm.
    pub mm: f64,
    /// One standard deviation, mm.
    pub standard_mm: f64,
    /// Every reading that it rests on is checked by others: a slip of the tape would show.
    pub checked: bool,
}

/// Standard deviations to either side that hold 95 % of a normal distribution.
const COVERAGE: f64 = 1.959_963_984_540_054;

impl Measured {
    /// Half of the interval that holds the true value with 95 %, mm.
    pub fn within_mm(self) -> f64 {
        COVERAGE * self.standard_mm
    }

    /// The same size the other way.
    #[must_use]
    pub fn turned(self) -> Self {
        Self { mm: -self.mm, ..self }
    }
}

/// A parameter of the motion; none where the readings cannot tell it.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Estimate {
    /// Which.
    pub parameter: Parameter,
    /// Its value.
    pub value: Option<Measured>,
}

/// What became of one reading in the fit.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Residual {
    /// The reading, or the pair of diagonals compared.
    pub name: String,
    /// How far it departs from what it was before the cut and the planned raise, mm.
    pub departure_mm: f64,
    /// How far it would by the fitted motion, mm.
    pub fitted_mm: f64,
    /// Standard deviation of the departure, both readings counted, mm.
    pub error_mm: f64,
    /// Residual over its own standard deviation; none where no other reading checks this one.
    pub normalised: Option<f64>,
}

impl Residual {
    /// Departure less fitted, mm.
    pub fn residual_mm(&self) -> f64 {
        self.departure_mm - self.fitted_mm
    }
}

/// A reading that was given and could not be used.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Unused {
    /// The reading.
    pub name: String,
    /// Why.
    pub reason: String,
}

/// Both ends of both strings: unknowns that are set to nought as closely as a string is set.
const SETTINGS: usize = 4;
const UNKNOWNS: usize = COUNT + SETTINGS;

/// A direction of motion whose effect on the readings is smaller than this part of the largest is not measured by them.
const RANK_TOLERANCE: f64 = 1e-3;
/// The part of a result that may lie in such directions.
const BLIND_TOLERANCE: f64 = 1e-2;
/// A number known no better than this is not known, mm.
const COARSEST_MM: f64 = 100.0;
/// Farther than this from where it should be, a reading is not of this post, or not in this unit, mm.
const FARTHEST_MM: f64 = 300.0;
/// Chance of refusing sound readings, for each of the two tests.
const FALSE_ALARM: f64 = 0.005;
/// A reading of which less than this part is checked by the others counts as not checked.
const LEAST_REDUNDANCY: f64 = 0.01;
/// Step of the differences that stand for derivatives, mm: the motions are all but linear in it.
const STEP_MM: f64 = 0.1;

type Point = Vector3<f64>;

/// A distance as it was before, and its two points then.
#[derive(Debug, Clone, Copy)]
struct Distance {
    before_mm: f64,
    from_mm: Point,
    to_mm: Point,
    /// The second point is a mark on the floor, which stays.
    to_floor: bool,
}

#[derive(Debug, Clone, Copy)]
enum Model {
    Up(Point),
    Outward(Point, Side),
    Forward(Point),
    /// Part of the way from the rear to the front station.
    String(Point, Side, f64),
    Length(Distance),
    /// One diagonal across the bus less the other.
    Difference(Distance, Distance),
    /// An end of a string, set to nought.
    Setting(usize),
}

struct Observation {
    name: String,
    model: Model,
    measured_mm: f64,
    error_mm: f64,
}

fn setting(side: Side) -> usize {
    COUNT + if side == Side::Left { 0 } else { 2 }
}

/// What the observations are predicted with.
struct Predictor {
    body: Body,
    raise_mm: f64,
}

/// A prediction for one set of unknowns.
struct Prediction<'a> {
    raise: Vector3<f64>,
    motion: Motion,
    unknowns: &'a [f64],
}

impl Predictor {
    fn at<'a>(&self, unknowns: &'a [f64]) -> Prediction<'a> {
        Prediction { raise: Vector3::new(0.0, 0.0, self.raise_mm), motion: self.body.motion(unknowns), unknowns }
    }
}

impl Prediction<'_> {
    fn distance_mm(&self, d: &Distance) -> f64 {
        let far = if d.to_floor { Vector3::zeros() } else { self.motion.of_mm(d.to_mm) + self.raise };
        let change = self.motion.of_mm(d.from_mm) + self.raise - far;
        // The change of its square, so that only the measured length before and small products come from the survey.
        let square = d.before_mm * d.before_mm + 2.0 * (d.from_mm - d.to_mm).dot(&change) + change.norm_squared();
        square.max(0.0).sqrt()
    }

    fn of_mm(&self, model: &Model) -> f64 {
        let unknown = |i: usize| self.unknowns.get(i).copied().unwrap_or(0.0);
        match model {
            Model::Up(point) => self.motion.of_mm(*point).z,
            Model::Outward(point, side) => side.sign() * self.motion.of_mm(*point).y,
            Model::Forward(point) => self.motion.of_mm(*point).x,
            Model::String(point, side, part) => {
                let first = setting(*side);
                let string_mm = unknown(first) * (1.0 - part) + unknown(first + 1) * part;
                string_mm - side.sign() * self.motion.of_mm(*point).y
            }
            Model::Length(d) => self.distance_mm(d),
            Model::Difference(a, b) => self.distance_mm(a) - self.distance_mm(b),
            Model::Setting(i) => unknown(*i),
        }
    }
}

/// The points of the roof and the floor as the readings before the cut have them, else as surveyed.
struct Places<'a> {
    layout: &'a Layout,
    form: &'a [Reading],
    before: &'a Readings,
}

impl Places<'_> {
    fn before(&self, kind: ReadingKind, i: usize, side: Side) -> Option<f64> {
        let at = |r: &&Reading| r.kind == kind && matches!(r.target, Target::Post(j, s) if j == i && s == side);
        self.form.iter().find(at).and_then(|reading| self.before.get(&reading.name)).copied()
    }

    fn drip(&self, i: usize, side: Side) -> Option<Point> {
        let station = self.layout.stations.get(i)?;
        let x = station.x_mm + self.before(ReadingKind::PlumbAlong, i, side).unwrap_or(0.0);
        let outward = self.before(ReadingKind::PlumbAcross, i, side).map(|mm| on(side, station.floor_half_mm) + mm);
        let y = side.sign() * outward.unwrap_or(on(side, station.drip_half_mm));
        let up = self.before(ReadingKind::Height, i, side).map(|mm| self.layout.floor_mm + mm);
        Some(Vector3::new(x, y, up.unwrap_or(self.layout.drip_rail_mm)))
    }

    fn floor(&self, i: usize, side: Side) -> Option<Point> {
        let station = self.layout.stations.get(i)?;
        Some(Vector3::new(station.x_mm, side.sign() * on(side, station.floor_half_mm), self.layout.floor_mm))
    }
}

/// What the readings come to: observations, and those that could not be used.
struct Gathered {
    observations: Vec<Observation>,
    unused: Vec<Unused>,
}

fn gather(layout: &Layout, stage: Stage, after: &Readings, before: &Readings) -> Gathered {
    let form = layout.readings(stage);
    let places = Places { layout, form: &form, before };
    let (mut observations, mut unused) = (Vec::new(), Vec::new());
    let root2 = std::f64::consts::SQRT_2;
    let pair = |name: &str| after.get(name).copied().zip(before.get(name).copied());
    for reading in &form {
        let name = &reading.name;
        let Some((after_mm, before_mm)) = pair(name) else {
            for (there, missing) in [(after, "before the cut"), (before, stage.name())] {
                if there.contains_key(name) {
                    unused.push(Unused { name: name.clone(), reason: format!("not read {missing}") });
                }
            }
            continue;
        };
        let kind = reading.kind;
        match reading.target {
            Target::Post(i, side) => {
                let Some(point) = places.drip(i, side) else { continue };
                let x_mm = layout.stations.get(i).map_or(0.0, |s| s.x_mm);
                let rear_mm = layout.stations.first().map_or(0.0, |s| s.x_mm);
                let (model, planned_mm) = match kind {
                    ReadingKind::PlumbAcross => (Model::Outward(point, side), 0.0),
                    ReadingKind::PlumbAlong => (Model::Forward(point), 0.0),
                    ReadingKind::String => (Model::String(point, side, (x_mm - rear_mm) / layout.length_mm()), 0.0),
                    _ => (Model::Up(point), layout.raise_mm),
                };
                observations.push(Observation {
                    name: name.clone(),
                    model,
                    measured_mm: after_mm - before_mm - planned_mm,
                    error_mm: root2 * reading.error_mm,
                });
            }
            Target::Between((i, side), (j, far)) => {
                let (Some(from_mm), Some(to_mm)) = (places.drip(i, side), places.drip(j, far)) else { continue };
                observations.push(Observation {
                    name: name.clone(),
                    model: Model::Length(Distance { before_mm, from_mm, to_mm, to_floor: false }),
                    measured_mm: after_mm,
                    error_mm: root2 * reading.error_mm,
                });
            }
            // Both diagonals of a bow are compared with each other, once.
            Target::Down(i, Side::Left) => {
                let twin = form.iter().find(|r| r.target == Target::Down(i, Side::Right));
                match twin.and_then(|twin| crossing(&places, i, (reading, twin), &pair)) {
                    Some(observation) => observations.push(observation),
                    None => unused.push(Unused {
                        name: name.clone(),
                        reason:
                            "compared only with the other diagonal of its bow, where both and the two heights were \
                                 read before the cut"
                                .to_owned(),
                    }),
                }
            }
            Target::Down(i, Side::Right) => {
                let twin = form.iter().find(|r| r.target == Target::Down(i, Side::Left));
                if twin.is_some_and(|twin| pair(&twin.name).is_none()) {
                    let reason = "the other diagonal of its bow was not read".to_owned();
                    unused.push(Unused { name: name.clone(), reason });
                }
            }
        }
    }
    for side in Side::BOTH {
        let strung = observations.iter().any(|o| matches!(o.model, Model::String(_, s, _) if s == side));
        for (i, end) in ["rear", "front"].into_iter().enumerate().filter(|_| strung) {
            observations.push(Observation {
                name: format!("string {}, set at its {end} end", side.name()),
                model: Model::Setting(setting(side) + i),
                measured_mm: 0.0,
                error_mm: root2 * layout.errors.string_setting_mm,
            });
        }
    }
    Gathered { observations, unused }
}

/// The diagonals of a bow against each other: what the raise does to both drops out.
fn crossing(
    places: &Places<'_>,
    i: usize,
    (left, right): (&Reading, &Reading),
    pair: &dyn Fn(&str) -> Option<(f64, f64)>,
) -> Option<Observation> {
    let ((left_after, left_before), (right_after, right_before)) = (pair(&left.name)?, pair(&right.name)?);
    // How much the raise lengthens a diagonal follows from its height, which a tape survey has too coarsely.
    for side in Side::BOTH {
        places.before(ReadingKind::Height, i, side)?;
    }
    let one = |side: Side, before_mm: f64| {
        let (from_mm, to_mm) = (places.drip(i, side)?, places.floor(i, other(side))?);
        Some(Distance { before_mm, from_mm, to_mm, to_floor: true })
    };
    // A length before counts with the part of it that the length after has in it.
    let shares = [left_before / left_after, right_before / right_after].map(|s| if s.is_finite() { s } else { 1.0 });
    let variance: f64 = shares.iter().map(|share| 1.0 + share * share).sum();
    Some(Observation {
        name: format!("{} less {}", left.name, right.name),
        model: Model::Difference(one(Side::Left, left_before)?, one(Side::Right, right_before)?),
        measured_mm: left_after - right_after,
        error_mm: variance.sqrt() * left.error_mm,
    })
}

/// The motion of a roof and what it rests on.
#[derive(Debug, Clone)]
pub(super) struct Fit {
    pub body: Body,
    pub unknowns: Vec<f64>,
    /// Covariance in the directions that are measured.
    covariance: DMatrix<f64>,
    /// Directions that no reading measures, a column each.
    blind: DMatrix<f64>,
    /// What the unknowns take from each reading that no other checks, a column each, per standard deviation.
    unchecked: DMatrix<f64>,
    pub residuals: Vec<Residual>,
    pub chi_square: f64,
    pub freedoms: usize,
    pub probability: Option<f64>,
    pub unused: Vec<Unused>,
}

/// Derivatives of each prediction over its error, padded so that no direction of the unknowns is left out.
fn jacobian(predictor: &Predictor, observations: &[Observation], unknowns: &[f64]) -> DMatrix<f64> {
    let mut matrix = DMatrix::zeros(observations.len().max(UNKNOWNS), UNKNOWNS);
    for j in 0..UNKNOWNS {
        let moved = |by: f64| -> Vec<f64> {
            unknowns.iter().enumerate().map(|(i, v)| if i == j { v + by } else { *v }).collect()
        };
        let (ahead, behind) = (moved(STEP_MM), moved(-STEP_MM));
        let (ahead, behind) = (predictor.at(&ahead), predictor.at(&behind));
        for (i, o) in observations.iter().enumerate() {
            let change = ahead.of_mm(&o.model) - behind.of_mm(&o.model);
            matrix[(i, j)] = change / (2.0 * STEP_MM) / o.error_mm;
        }
    }
    matrix
}

/// A singular value decomposition split into what is measured and what is not.
struct Split {
    left: DMatrix<f64>,
    values: Vec<f64>,
    seen: DMatrix<f64>,
    blind: DMatrix<f64>,
}

fn split(matrix: DMatrix<f64>) -> Option<Split> {
    if !matrix.iter().all(|v| v.is_finite()) {
        return None;
    }
    let svd = matrix.try_svd(true, true, f64::EPSILON, 1000)?;
    let (u, v) = (svd.u?, svd.v_t?.transpose());
    let all: Vec<f64> = svd.singular_values.iter().copied().collect();
    let most = all.iter().copied().fold(0.0, f64::max);
    let (seen, blind): (Vec<usize>, Vec<usize>) = (0..all.len()).partition(|&i| all[i] > RANK_TOLERANCE * most);
    Some(Split {
        left: u.select_columns(&seen),
        values: seen.iter().map(|&i| all[i]).collect(),
        seen: v.select_columns(&seen),
        blind: v.select_columns(&blind),
    })
}

fn unsolved() -> Vec<Problem> {
    vec![Problem::contradiction(
        "readings",
        "no motion of the roof fits them",
        "look for a reading in another unit, or of another post",
    )]
}

impl Fit {
    /// Fits the readings after the lift or after tacking against those before the cut.
    pub fn new(layout: &Layout, stage: Stage, after: &Readings, before: &Readings) -> Result<Self, Vec<Problem>> {
        let mut problems = layout.reading_problems("readings", stage, after);
        problems.extend(layout.reading_problems("before", Stage::BeforeCut, before));
        if !stage.lifted() {
            let problem = "is what the others are compared with; give the readings after the lift or after tacking";
            problems.push(Problem::contradiction("stage", stage.name(), problem));
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let Gathered { observations, unused } = gather(layout, stage, after, before);
        if observations.is_empty() {
            let fix = "no reading was taken both before the cut and after; fill in the form of both stages";
            return Err(vec![Problem::missing("readings", fix)]);
        }
        let predictor = Predictor { body: Body::of(layout), raise_mm: layout.raise_mm };
        problems.extend(too_far(&predictor, &observations));
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut unknowns = vec![0.0; UNKNOWNS];
        let rows = observations.len().max(UNKNOWNS);
        let misfit = |unknowns: &[f64]| {
            let prediction = predictor.at(unknowns);
            let each = observations.iter().map(|o| (o.measured_mm - prediction.of_mm(&o.model)) / o.error_mm);
            let padded: Vec<f64> = each.chain(std::iter::repeat(0.0)).take(rows).collect();
            DVector::from_vec(padded)
        };
        // Nearly linear: three rounds are usual.
        let mut settled = None;
        for _ in 0..30 {
            let parts = split(jacobian(&predictor, &observations, &unknowns)).ok_or_else(unsolved)?;
            let mut along = parts.left.tr_mul(&misfit(&unknowns));
            along.iter_mut().zip(&parts.values).for_each(|(value, singular)| *value /= singular);
            let step = &parts.seen * along;
            unknowns.iter_mut().zip(step.iter()).for_each(|(value, by)| *value += by);
            if step.amax() < 1e-7 {
                settled = Some(parts);
                break;
            }
        }
        let parts = settled.ok_or_else(unsolved)?;
        let inverse = DMatrix::from_diagonal(&DVector::from_iterator(
            parts.values.len(),
            parts.values.iter().map(|s| 1.0 / (s * s)),
        ));
        let covariance = &parts.seen * inverse * parts.seen.transpose();
        let alone: Vec<usize> =
            (0..observations.len()).filter(|&i| 1.0 - parts.left.row(i).norm_squared() <= LEAST_REDUNDANCY).collect();
        let mut share = parts.left.select_rows(&alone).transpose();
        share.row_iter_mut().zip(&parts.values).for_each(|(mut row, singular)| row /= *singular);
        let unchecked = &parts.seen * share;
        let normed = misfit(&unknowns);
        let chi_square = normed.norm_squared();
        let freedoms = observations.len().saturating_sub(parts.values.len());
        let (unmoved, moved) = (predictor.at(&[]), predictor.at(&unknowns));
        let residuals = observations.iter().enumerate().map(|(i, o)| {
            let resting = unmoved.of_mm(&o.model);
            let redundancy = 1.0 - parts.left.row(i).norm_squared();
            let residual = normed.get(i).copied().unwrap_or(0.0);
            Residual {
                name: o.name.clone(),
                departure_mm: o.measured_mm - resting,
                fitted_mm: moved.of_mm(&o.model) - resting,
                error_mm: o.error_mm,
                normalised: (redundancy > LEAST_REDUNDANCY).then(|| residual / redundancy.sqrt()),
            }
        });
        let residuals: Vec<Residual> = residuals.collect();
        let probability = ChiSquared::new(freedoms as f64).ok().filter(|_| freedoms > 0).map(|chi| chi.sf(chi_square));
        contradictions(&residuals, probability)?;
        Ok(Self {
            body: predictor.body,
            unknowns,
            covariance,
            blind: parts.blind,
            unchecked,
            residuals,
            chi_square,
            freedoms,
            probability,
            unused,
        })
    }

    /// A length that follows from the motion, with its uncertainty; none where the readings do not tell it.
    pub fn measured(&self, length_mm: &dyn Fn(&[f64]) -> f64) -> Option<Measured> {
        let gradient = DVector::from_fn(UNKNOWNS, |j, _| {
            let at = |by: f64| {
                let mut moved = self.unknowns.clone();
                if let Some(value) = moved.get_mut(j) {
                    *value += by;
                }
                length_mm(&moved)
            };
            (at(STEP_MM) - at(-STEP_MM)) / (2.0 * STEP_MM)
        });
        if self.blind.tr_mul(&gradient).norm() > BLIND_TOLERANCE * gradient.norm() {
            return None;
        }
        let standard_mm = (gradient.transpose() * &self.covariance * &gradient)[(0, 0)].max(0.0).sqrt();
        let mm = length_mm(&self.unknowns);
        let rests_mm = self.unchecked.tr_mul(&gradient).amax();
        let checked = rests_mm <= BLIND_TOLERANCE * standard_mm;
        (mm.is_finite() && standard_mm <= COARSEST_MM).then_some(Measured { mm, standard_mm, checked })
    }

    /// Every parameter.
    pub fn estimates(&self) -> Vec<Estimate> {
        let value =
            |parameter: Parameter| self.measured(&|unknowns| unknowns.get(parameter.index()).copied().unwrap_or(0.0));
        PARAMETERS.into_iter().map(|parameter| Estimate { parameter, value: value(parameter) }).collect()
    }
}

/// Readings that are of no roof like this one.
fn too_far(predictor: &Predictor, observations: &[Observation]) -> Vec<Problem> {
    let mut problems = Vec::new();
    let unmoved = predictor.at(&[]);
    for o in observations {
        let departure_mm = o.measured_mm - unmoved.of_mm(&o.model);
        if !(-FARTHEST_MM..=FARTHEST_MM).contains(&departure_mm) {
            problems.push(Problem::contradiction(
                format!("readings.{}", o.name),
                format!("{departure_mm:+.1} mm from where it should be"),
                format!(
                    "by the reading before the cut and the planned raise; more than {FARTHEST_MM:.0} mm is a reading of \
                     another post, with another sign or in another unit, before or after: take it again"
                ),
            ));
        }
    }
    problems
}

/// Refuses readings that contradict each other beyond their errors, and names the one to take again.
fn contradictions(residuals: &[Residual], probability: Option<f64>) -> Result<(), Vec<Problem>> {
    let mut tested: Vec<(f64, &Residual)> =
        residuals.iter().filter_map(|r| r.normalised.map(|w| (w.abs(), r))).collect();
    tested.sort_by(|a, b| b.0.total_cmp(&a.0));
    let Some((worst, reading)) = tested.first().copied() else { return Ok(()) };
    // Two-sided, shared over as many readings as are tested.
    let limit = Normal::standard().inverse_cdf(1.0 - FALSE_ALARM / (2.0 * tested.len() as f64));
    let scattered = probability.is_some_and(|p| p < FALSE_ALARM);
    if worst <= limit && !scattered {
        return Ok(());
    }
    let off_mm = reading.residual_mm();
    let others: Vec<&str> =
        tested.iter().skip(1).take_while(|(w, _)| *w > limit).take(3).map(|(_, r)| r.name.as_str()).collect();
    let also = if others.is_empty() { String::new() } else { format!("; then {}", others.join(", ")) };
    let why = if worst > limit {
        format!(
            "it contradicts the other readings by {worst:.1} standard deviations, where {limit:.1} may happen by chance"
        )
    } else {
        format!(
            "the readings together scatter more than their errors allow (chance {:.1e}), and this one most",
            probability.unwrap_or(0.0)
        )
    };
    Err(vec![Problem::contradiction(
        format!("readings.{}", reading.name),
        format!("{off_mm:+.1} mm off the fit"),
        format!(
            "{why}; take it again, and look at its reading before the cut{also}. If it stands, a measuring error is set too \
             small, the body below the cut moved, or the roof is bent in another way than twist, racking, spread and sag"
        ),
    )])
}
