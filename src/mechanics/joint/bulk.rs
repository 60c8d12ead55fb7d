//! The same checks over arrays that broadcast against each other: a verdict, a utilisation and a governing check a cell.
//!
//! One kernel runs over all cells and calls the very functions that single checks explain.

use ndarray::{ArrayD, ArrayViewD, CowArray, IxDyn};
use rayon::prelude::*;

use crate::check::Verdict;
use crate::error::Problem;
use crate::stop::look;

use super::{Choices, Method, Numbers, Outcome, aisi_s100, en_1993_1_3, en_1999_1_4, handbook};

/// Numbers of many laps of two sheets and one line, of metals that the rule set is written for, with protruding heads.
///
/// Arrays broadcast, aligned at their last axes. Not a number stands for what is not known.
#[derive(Debug, Clone)]
pub struct Inputs<'a> {
    /// Design thickness of the sheet under the head, mm.
    pub outer_mm: ArrayViewD<'a, f64>,
    /// Design thickness of the other sheet, mm.
    pub inner_mm: ArrayViewD<'a, f64>,
    /// Tensile strength of the sheet under the head, MPa.
    pub outer_fu_mpa: ArrayViewD<'a, f64>,
    /// Tensile strength of the other sheet, MPa.
    pub inner_fu_mpa: ArrayViewD<'a, f64>,
    /// Nominal rivet diameter, mm.
    pub diameter_mm: ArrayViewD<'a, f64>,
    /// Hole, mm.
    pub hole_mm: ArrayViewD<'a, f64>,
    /// Head diameter, mm.
    pub head_mm: ArrayViewD<'a, f64>,
    /// Least shear load of the rivet, N.
    pub rivet_shear_n: ArrayViewD<'a, f64>,
    /// Least tension load of the rivet, N.
    pub rivet_tension_n: ArrayViewD<'a, f64>,
    /// Spacing along the line, mm.
    pub pitch_mm: ArrayViewD<'a, f64>,
    /// Line to sheet edge, mm.
    pub edge_mm: ArrayViewD<'a, f64>,
    /// Load of one rivet in the plane of the sheets, N.
    pub shear_n: ArrayViewD<'a, f64>,
    /// Load of one rivet away from the sheets, N.
    pub tension_n: ArrayViewD<'a, f64>,
    /// The rivets' bodies are of aluminium, or not known: EN 1999-1-4 has strengths of its own for them.
    pub aluminium_rivets: bool,
    /// Where a rule leaves a choice, the same for all.
    pub choices: Choices,
}

/// Number of arrays in [`Inputs`].
const ARRAYS: usize = 13;

/// Cells worked at a time: their inputs fit the first-level cache.
const BLOCK: usize = 256;

/// Most cells of one call; their results take 1 GB, and a core some six seconds. An endless request is an error, not the end of the
/// program.
const MOST_CELLS: usize = 100_000_000;

/// Cells handed to a thread at a time.
const SHARE: usize = 16 * 1024;

/// Cells between two looks whether to go on: shares enough for many threads, and a fraction of a second for one.
const BATCH: usize = 64 * SHARE;

/// What became of each cell, in the shape that the inputs broadcast to.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcomes {
    /// Highest demand over capacity among the strengths; not a number outside the rule's range or where a value is
    /// missing.
    pub utilisation: ArrayD<f64>,
    /// Index into [`names`] of the check that decides.
    pub governing: ArrayD<u8>,
    /// Index into [`VERDICTS`].
    pub verdict: ArrayD<u8>,
}

/// Verdicts by the code that [`Outcomes::verdict`] holds.
pub const VERDICTS: [Verdict; 4] = [Verdict::Passes, Verdict::NotAssessed, Verdict::OutsideRange, Verdict::Fails];

/// Names of a rule set's checks, in the order of [`Outcomes::governing`].
pub fn names(method: Method) -> &'static [&'static str] {
    method.names()
}

/// Checks every cell by one rule set, on all cores.
///
/// # Errors
/// Arrays that do not broadcast against each other, or that make more than a milliard of cells; handbook strengths that
/// are none.
pub fn check(method: Method, inputs: &Inputs<'_>) -> Result<Outcomes, Problem> {
    if let Some(problem) = inputs.choices.problems().into_iter().next() {
        return Err(problem);
    }
    let arrays = inputs.arrays();
    let shape = broadcast_shape(&arrays)?;
    let grid = Grid::new(&arrays, &shape);
    let cells = shape.iter().try_fold(1, |cells: usize, &length| cells.checked_mul(length));
    let Some(cells) = cells.filter(|&cells| cells <= MOST_CELLS) else {
        let allowed = format!("at most {MOST_CELLS} cells in one call; work in parts");
        return Err(Problem::out_of_range("shape", format!("{shape:?}"), allowed));
    };
    let mut out = Flat { utilisation: vec![0.0; cells], governing: vec![0; cells], verdict: vec![0; cells] };
    // One arm a rule set, so that each kernel is compiled as a whole.
    match method {
        Method::En1993_1_3 => grid.run(&mut out, inputs, |n| en_1993_1_3::compare(n).outcome(n)),
        Method::En1999_1_4 => grid.run(&mut out, inputs, |n| en_1999_1_4::compare(n).outcome(n)),
        Method::AisiS100(format) => grid.run(&mut out, inputs, |n| aisi_s100::compare(n, format).outcome(n)),
        Method::AisiS100Bolts(format) => {
            grid.run(&mut out, inputs, |n| aisi_s100::bolts::compare(n, format).outcome(n));
        }
        Method::Handbook => grid.run(&mut out, inputs, |n| handbook::compare(n).outcome(n)),
    }
    let shaped = |_: ndarray::ShapeError| Problem::missing("shape", "report this: the output does not fit its shape");
    let shape = IxDyn(&shape);
    Ok(Outcomes {
        utilisation: ArrayD::from_shape_vec(shape.clone(), out.utilisation).map_err(shaped)?,
        governing: ArrayD::from_shape_vec(shape.clone(), out.governing).map_err(shaped)?,
        verdict: ArrayD::from_shape_vec(shape, out.verdict).map_err(shaped)?,
    })
}

impl Inputs<'_> {
    fn arrays(&self) -> [(&'static str, CowArray<'_, f64, IxDyn>); ARRAYS] {
        [
            ("outer_mm", self.outer_mm.as_standard_layout()),
            ("inner_mm", self.inner_mm.as_standard_layout()),
            ("outer_fu_mpa", self.outer_fu_mpa.as_standard_layout()),
            ("inner_fu_mpa", self.inner_fu_mpa.as_standard_layout()),
            ("diameter_mm", self.diameter_mm.as_standard_layout()),
            ("hole_mm", self.hole_mm.as_standard_layout()),
            ("head_mm", self.head_mm.as_standard_layout()),
            ("rivet_shear_n", self.rivet_shear_n.as_standard_layout()),
            ("rivet_tension_n", self.rivet_tension_n.as_standard_layout()),
            ("pitch_mm", self.pitch_mm.as_standard_layout()),
            ("edge_mm", self.edge_mm.as_standard_layout()),
            ("shear_n", self.shear_n.as_standard_layout()),
            ("tension_n", self.tension_n.as_standard_layout()),
        ]
    }
}

/// The shape all arrays broadcast to: aligned at the last axis, where lengths are equal or one of them is 1.
fn broadcast_shape(arrays: &[(&'static str, CowArray<'_, f64, IxDyn>)]) -> Result<Vec<usize>, Problem> {
    let mut shape: Vec<usize> = Vec::new();
    for (name, array) in arrays {
        let own = array.shape();
        while shape.len() < own.len() {
            shape.insert(0, 1);
        }
        let start = shape.len() - own.len();
        for (have, &want) in shape[start..].iter_mut().zip(own) {
            if *have == 1 {
                *have = want;
            } else if want != 1 && want != *have {
                return Err(Problem::contradiction(
                    *name,
                    format!("{own:?}"),
                    "does not broadcast against the other arrays: lengths must be equal, or 1",
                ));
            }
        }
    }
    Ok(shape)
}

/// The inputs as flat slices with the steps that broadcasting takes through them, axes merged where they run on.
struct Grid<'a> {
    data: [&'a [f64]; ARRAYS],
    lengths: Vec<usize>,
    steps: Vec<[usize; ARRAYS]>,
}

/// What is the same for every cell.
#[derive(Clone, Copy)]
struct Fixed {
    aluminium_rivet: bool,
    choices: Choices,
}

struct Flat {
    utilisation: Vec<f64>,
    governing: Vec<u8>,
    verdict: Vec<u8>,
}

impl<'a> Grid<'a> {
    fn new(arrays: &'a [(&'static str, CowArray<'_, f64, IxDyn>); ARRAYS], shape: &[usize]) -> Self {
        let mut data: [&[f64]; ARRAYS] = [&[]; ARRAYS];
        let mut steps = vec![[0; ARRAYS]; shape.len()];
        for (i, (_, array)) in arrays.iter().enumerate() {
            data[i] = array.as_slice().unwrap_or(&[]);
            let start = shape.len() - array.ndim();
            let mut step = 1;
            for (axis, &length) in array.shape().iter().enumerate().rev() {
                steps[start + axis][i] = if length == 1 { 0 } else { step };
                step *= length;
            }
        }
        let mut merged = Self { data, lengths: vec![1], steps: vec![[0; ARRAYS]] };
        for (&length, step) in shape.iter().zip(&steps).rev() {
            // An axis that simply carries on where the inner one ends becomes part of it.
            let inner = merged.lengths.len() - 1;
            let runs_on = (0..ARRAYS).all(|i| step[i] == merged.steps[inner][i] * merged.lengths[inner]);
            if merged.lengths[inner] == 1 {
                merged.lengths[inner] = length;
                merged.steps[inner] = *step;
            } else if runs_on || length == 1 {
                merged.lengths[inner] *= length;
            } else {
                merged.lengths.push(length);
                merged.steps.push(*step);
            }
        }
        merged
    }

    /// Offsets of a row (a run along the innermost axis) in each array.
    fn row(&self, mut row: usize) -> [usize; ARRAYS] {
        let mut offsets = [0; ARRAYS];
        for (&length, steps) in self.lengths.iter().zip(&self.steps).skip(1) {
            let index = row % length;
            row /= length;
            for (offset, step) in offsets.iter_mut().zip(steps) {
                *offset += index * step;
            }
        }
        offsets
    }

    fn run(&self, out: &mut Flat, inputs: &Inputs<'_>, kernel: impl Fn(&Numbers) -> Outcome + Sync) {
        let fixed = Fixed { aluminium_rivet: inputs.aluminium_rivets, choices: inputs.choices };
        let batches = out.utilisation.chunks_mut(BATCH).zip(out.governing.chunks_mut(BATCH));
        for (batch, ((utilisation, governing), verdict)) in batches.zip(out.verdict.chunks_mut(BATCH)).enumerate() {
            look();
            let shares = utilisation.par_chunks_mut(SHARE).zip(governing.par_chunks_mut(SHARE));
            shares.zip(verdict.par_chunks_mut(SHARE)).enumerate().for_each(
                |(share, ((utilisation, governing), verdict))| {
                    self.run_share(batch * BATCH + share * SHARE, utilisation, governing, verdict, &kernel, fixed);
                },
            );
        }
    }

    fn run_share(
        &self,
        start: usize,
        utilisation: &mut [f64],
        governing: &mut [u8],
        verdict: &mut [u8],
        kernel: &impl Fn(&Numbers) -> Outcome,
        fixed: Fixed,
    ) {
        let row_length = self.lengths[0];
        let mut constants = vec![[0.0; BLOCK]; ARRAYS];
        let mut done = 0;
        while done < utilisation.len() {
            let (row, column) = ((start + done) / row_length, (start + done) % row_length);
            let count = BLOCK.min(row_length - column).min(utilisation.len() - done);
            let offsets = self.row(row);
            for (i, constant) in constants.iter_mut().enumerate() {
                if self.steps[0][i] == 0 {
                    constant[..count].fill(self.data[i][offsets[i]]);
                }
            }
            let lanes: [&[f64]; ARRAYS] = std::array::from_fn(|i| match self.steps[0][i] {
                0 => &constants[i][..count],
                _ => &self.data[i][offsets[i] + column..][..count],
            });
            let here = done..done + count;
            let out = (&mut utilisation[here.clone()], &mut governing[here.clone()], &mut verdict[here]);
            run_block(lanes, out, kernel, fixed);
            done += count;
        }
    }
}

fn run_block(
    lanes: [&[f64]; ARRAYS],
    (utilisation, governing, verdict): (&mut [f64], &mut [u8], &mut [u8]),
    kernel: &impl Fn(&Numbers) -> Outcome,
    fixed: Fixed,
) {
    let count = utilisation.len();
    let [outer, inner, outer_fu, inner_fu, diameter, hole, head, shear, tension, pitch, edge, v, t] =
        lanes.map(|lane| &lane[..count]);
    let (governing, verdict) = (&mut governing[..count], &mut verdict[..count]);
    for i in 0..count {
        let cell = kernel(&Numbers {
            outer_mm: outer[i],
            inner_mm: inner[i],
            outer_fu_mpa: outer_fu[i],
            inner_fu_mpa: inner_fu[i],
            diameter_mm: diameter[i],
            hole_mm: hole[i],
            head_mm: head[i],
            rivet_shear_n: shear[i],
            rivet_tension_n: tension[i],
            pitch_mm: pitch[i],
            edge_mm: edge[i],
            shear_n: v[i],
            tension_n: t[i],
            rows: 1.0,
            aluminium_rivet: fixed.aluminium_rivet,
            choices: fixed.choices,
        });
        utilisation[i] = cell.utilisation;
        governing[i] = cell.governing;
        verdict[i] = cell.verdict;
    }
}
