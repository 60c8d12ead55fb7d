//! `check_laps`: the checks of many laps at once, over arrays that broadcast.

use numpy::ndarray::ArrayD;
use numpy::{
    AllowTypeChange, IntoPyArray, PyArrayDescrMethods, PyArrayLikeDyn, PyUntypedArray, PyUntypedArrayMethods,
    ndarray::ArrayViewD,
};
use pyo3::exceptions::{PyOverflowError, PyTypeError, PyValueError};
use pyo3::prelude::*;
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier as name};

use crate::error::Problem;
use crate::mechanics::joint::{Choices, Method, bulk};

use super::errors::of_argument;
use super::input::{Real, Tuple, shown};
use super::interrupts::away;

/// An array of numbers, or anything that makes one.
pub(super) struct FloatsIn<'py>(PyArrayLikeDyn<'py, f64, AllowTypeChange>);

impl<'py> FromPyObject<'_, 'py> for FloatsIn<'py> {
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = name!("numpy.typing", "ArrayLike");

    fn extract(obj: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        // NumPy would drop the imaginary part.
        let complex = |own: &Bound<'_, PyAny>| own.cast::<PyUntypedArray>().is_ok_and(|own| own.dtype().kind() == b'c');
        let made = |obj: &Bound<'py, PyAny>| obj.py().import("numpy")?.call_method1("asarray", (obj,));
        let array = if obj.is_instance_of::<PyUntypedArray>() { Ok(obj.to_owned()) } else { made(&obj) };
        if array.is_ok_and(|own| complex(&own)) {
            return Err(PyTypeError::new_err("real numbers are asked for, not complex ones"));
        }
        obj.extract().map(Self).map_err(|error: PyErr| {
            let py = obj.py();
            if error.is_instance_of::<PyOverflowError>(py) || error.is_instance_of::<PyValueError>(py) {
                let problem =
                    format!("no numbers can be made of this ({error}); give a number, or an array of numbers");
                return of_argument(Problem::Unreadable { path: String::new(), value: shown(&obj), problem });
            }
            error
        })
    }
}

impl FloatsIn<'_> {
    pub(super) fn view(&self) -> ArrayViewD<'_, f64> {
        self.0.as_array()
    }
}

/// The outcome of many laps; it reaches Python as a `raisedbody.LapChecks`.
pub(super) struct Outcomes {
    method: Method,
    core: bulk::Outcomes,
}

impl<'py> IntoPyObject<'py> for Outcomes {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;

    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = name!("raisedbody.laps", "LapChecks");

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        let codes = |array: ArrayD<u8>| array.into_pyarray(py);
        let verdicts: Vec<&str> = bulk::VERDICTS.iter().map(|v| v.words()).collect();
        py.import("raisedbody.laps")?.getattr("LapChecks")?.call1((
            self.method.name(),
            self.core.utilisation.into_pyarray(py),
            codes(self.core.governing),
            codes(self.core.verdict),
            bulk::names(self.method).to_vec(),
            verdicts,
        ))
    }
}

/// Checks many laps of two sheets and one line at once, on all cores; other Python threads run meanwhile.
///
/// Every argument is a number or an array; they broadcast as NumPy's do. NaN stands for what is not known. A cell that no
/// lap can be, or that lies outside the rule's range, gets that verdict and NaN for its utilisation, never an exception.
///
/// Args:
///     outer_mm: Design thickness of the sheet under the head, mm.
///     inner_mm: Design thickness of the other sheet, mm; the same as `outer_mm` where left out.
///     outer_fu_mpa: Tensile strength of the sheet under the head, MPa.
///     inner_fu_mpa: Tensile strength of the other sheet, MPa; the same as `outer_fu_mpa` where left out.
///     diameter_mm: Nominal rivet diameter, mm.
///     hole_mm: Hole, mm.
///     head_mm: Head diameter, mm.
///     rivet_shear_n: Least shear load of one rivet, N.
///     rivet_tension_n: Least tension load of one rivet, N.
///     pitch_mm: Spacing along the line, mm.
///     edge_mm: The line to the sheet's edge, mm.
///     shear_n: Load of one rivet in the plane of the sheets, N, at the level of the method.
///     tension_n: Load of one rivet away from the sheets, N.
///     panel_edge: The lines run along a panel's edge.
///     steady_tension: The load away from the sheets stays on, instead of coming and going as wind does.
///     lower_anchor: Reading of AISI S100 J4.3.1: ``"equal parts"`` or ``"real parts"``.
///     holes_may_stretch: Leave out AISI S100 J3.3.2, bearing with hole deformation considered.
///     handbook_bearing_mpa: Bearing strengths from a handbook, MPa, at edge distances of 1.5 and of 2.0 diameters.
///     aluminium_rivets: The rivets' bodies are of aluminium, or not known (EN 1999-1-4).
///     method: A name as `Lap.check` takes it; the metals are taken to be such that it covers them.
///
/// Returns:
///     Utilisation, governing check and verdict of every cell, in the shape the arguments broadcast to.
///
/// Raises:
///     InputError: Arrays that do not broadcast (the first that does not fit is named), or an unknown method.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> laps = rb.check_laps(
///     ...     outer_mm=[[0.9], [1.2]], outer_fu_mpa=360, diameter_mm=4.8, hole_mm=4.9, head_mm=10.1,
///     ...     rivet_shear_n=6000, rivet_tension_n=4400, pitch_mm=[10, 50], edge_mm=12, shear_n=900,
///     ... )
///     >>> laps.verdict.tolist()
///     [["outside the rule's range", 'passes'], ["outside the rule's range", 'passes']]
#[pyfunction]
#[pyo3(signature = (
    *, outer_mm, inner_mm = None, outer_fu_mpa, inner_fu_mpa = None, diameter_mm, hole_mm, head_mm, rivet_shear_n,
    rivet_tension_n, pitch_mm, edge_mm, shear_n = None, tension_n = None, panel_edge = false, steady_tension = false,
    lower_anchor = "equal parts", holes_may_stretch = false, handbook_bearing_mpa = None, aluminium_rivets = true,
    method = "EN 1993-1-3"
))]
#[allow(clippy::too_many_arguments, clippy::fn_params_excessive_bools, reason = "each is a keyword in Python")]
pub(super) fn check_laps(
    py: Python<'_>,
    outer_mm: FloatsIn<'_>,
    inner_mm: Option<FloatsIn<'_>>,
    outer_fu_mpa: FloatsIn<'_>,
    inner_fu_mpa: Option<FloatsIn<'_>>,
    diameter_mm: FloatsIn<'_>,
    hole_mm: FloatsIn<'_>,
    head_mm: FloatsIn<'_>,
    rivet_shear_n: FloatsIn<'_>,
    rivet_tension_n: FloatsIn<'_>,
    pitch_mm: FloatsIn<'_>,
    edge_mm: FloatsIn<'_>,
    shear_n: Option<FloatsIn<'_>>,
    tension_n: Option<FloatsIn<'_>>,
    panel_edge: bool,
    steady_tension: bool,
    lower_anchor: &str,
    holes_may_stretch: bool,
    handbook_bearing_mpa: Option<Tuple<(Real, Real)>>,
    aluminium_rivets: bool,
    method: &str,
) -> PyResult<Outcomes> {
    let method: Method = method.parse()?;
    let nought = ArrayD::zeros(Vec::new());
    let inputs = bulk::Inputs {
        outer_mm: outer_mm.view(),
        inner_mm: inner_mm.as_ref().unwrap_or(&outer_mm).view(),
        outer_fu_mpa: outer_fu_mpa.view(),
        inner_fu_mpa: inner_fu_mpa.as_ref().unwrap_or(&outer_fu_mpa).view(),
        diameter_mm: diameter_mm.view(),
        hole_mm: hole_mm.view(),
        head_mm: head_mm.view(),
        rivet_shear_n: rivet_shear_n.view(),
        rivet_tension_n: rivet_tension_n.view(),
        pitch_mm: pitch_mm.view(),
        edge_mm: edge_mm.view(),
        shear_n: shear_n.as_ref().map_or_else(|| nought.view(), FloatsIn::view),
        tension_n: tension_n.as_ref().map_or_else(|| nought.view(), FloatsIn::view),
        aluminium_rivets,
        choices: Choices {
            panel_edge,
            steady_tension,
            lower_anchor: lower_anchor.parse()?,
            holes_may_stretch,
            handbook_bearing_mpa: handbook_bearing_mpa.map(|Tuple((near, far))| [near.0, far.0]),
        },
    };
    let core = away(py, || bulk::check(method, &inputs))??;
    Ok(Outcomes { method, core })
}
