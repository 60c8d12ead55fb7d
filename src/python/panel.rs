//! The class `Panel`, what it answers, and the function `sol_air`.

use std::sync::{Arc, OnceLock};

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::Catalogue;
use crate::error::{Problem, by_name};
use crate::mechanics::panel::{self as core, Attitude, Bowing, Flange, FlatWeb, Restraint, Uprights};
use crate::mechanics::sheet::in_range;
use crate::quantity::Kind;

use super::forming::to_dict;
use super::input::{Arguments, Quantity, Real};
use super::joint::{call_with, given, rebuilt};
use super::output::{Dict, Recipe};

/// An argument as it was given, to ask again after pickling.
#[derive(Clone, PartialEq)]
enum Asked {
    Text(String),
    Number(f64),
}

/// The question that an answer is to.
#[derive(Clone, PartialEq)]
struct Question {
    panel: Option<Panel>,
    call: &'static str,
    with: Vec<(&'static str, Asked)>,
}

impl Question {
    fn recipe<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let kwargs = PyDict::new(py);
        for (name, value) in &self.with {
            match value {
                Asked::Text(text) => kwargs.set_item(name, text)?,
                Asked::Number(number) => kwargs.set_item(name, number)?,
            }
        }
        match &self.panel {
            Some(panel) => Recipe::of_method(&Bound::new(py, panel.clone())?, self.call, &kwargs),
            None => Recipe::of_call(self.call, &kwargs),
        }
    }
}

/// A quantity as asked.
fn asked(name: &'static str, kind: Kind, value: impl Into<Option<f64>>) -> Option<(&'static str, Asked)> {
    value.into().map(|value| (name, Asked::Text(kind.print(value))))
}

fn text<'a>(name: &'static str, value: impl Into<Option<&'a str>>) -> Option<(&'static str, Asked)> {
    value.into().map(|value| (name, Asked::Text(value.to_owned())))
}

fn number(name: &'static str, value: impl Into<Option<f64>>) -> Option<(&'static str, Asked)> {
    value.into().map(|value| (name, Asked::Number(value)))
}

/// A frozen class of plain values that remembers its question.
macro_rules! answer {
    ($(#[$doc:meta])* $name:ident { $($(#[$field_doc:meta])* $field:ident: $type:ty,)* }) => {
        $(#[$doc])*
        #[pyclass(frozen, eq, module = "raisedbody")]
        #[derive(PartialEq)]
        pub(super) struct $name {
            $($(#[$field_doc])* #[pyo3(get)] $field: $type,)*
            question: Question,
        }

        #[pymethods]
        impl $name {
            /// The values by name, each ending in its unit.
            fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
                to_dict(slf, &[$(stringify!($field)),*])
            }

            fn __repr__(slf: &Bound<'_, Self>) -> PyResult<String> {
                call_with(&to_dict(slf, &[$(stringify!($field)),*])?.0, stringify!($name))
            }

            fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
                self.question.recipe(py)
            }
        }
    };
}

answer! {
    /// When a flat panel buckles. Cannot be changed.
    PanelBuckling {
        /// Buckling coefficient: σ_cr = k π² E / (12 (1 - ν²)) (t/b)².
        k: f64,
        /// Elastic buckling stress, MPa.
        stress_mpa: f64,
        /// Where k is from.
        source: String,
        /// How firmly k is known.
        standing: String,
    }
}

answer! {
    /// When a curved panel buckles, by two rules side by side. Cannot be changed.
    CurvedBuckling {
        /// The panel laid flat, MPa.
        flat_mpa: f64,
        /// The whole cylinder, MPa: E t / (R √(3 (1 - ν²))).
        shell_mpa: f64,
        /// By Redshaw, MPa: σ_f/2 + √(σ_f²/4 + σ_c²).
        redshaw_mpa: f64,
        /// By Timoshenko, MPa: σ_f + σ_c²/(4 σ_f) up to σ_c = 2 σ_f, then σ_c.
        timoshenko_mpa: f64,
        /// Lower end of what is to be expected, MPa: 0.2 of the lower rule where the radius is above 500 thicknesses, not
        /// below the flat panel; else the lower rule.
        low_mpa: f64,
        /// Upper end, MPa: 0.6 of the lower rule, or else the higher rule.
        high_mpa: f64,
        /// Whether theory was knocked down to what tests of thin shells gave.
        knocked_down: bool,
        /// Where the rules are from.
        source: String,
        /// How firmly they are known.
        standing: String,
    }
}

answer! {
    /// A panel at a temperature difference, skin over frame. Cannot be changed.
    PanelHeat {
        /// Buckling coefficient in this restraint.
        k: f64,
        /// Difference at which the panel buckles, K.
        critical_rise_k: f64,
        /// Whether it does.
        buckled: bool,
        /// What a millimetre of the rivet line would carry if the sheet stayed flat, N/mm: E α ΔT t, held both ways over
        /// 1 - ν. Below nought the sheet pulls.
        flat_force_n_mm: f64,
        /// What it carries, N/mm: the flat force, at most σ_cr t. After buckling the true one lies between the two: across a
        /// long bulge near this, along it nearer the flat one until the sheet falls into several bulges.
        line_force_n_mm: f64,
        /// How far a long strip as wide as the shorter side bows, mm; None for a panel held one way only. A squarer panel
        /// bows up to a tenth less, and frames give way: an upper figure.
        strip_bow_mm: Option<f64>,
        /// The rule of the line force.
        rule: String,
        /// Where k is from.
        source: String,
        /// How firmly k is known.
        standing: String,
    }
}

answer! {
    /// How far a panel bows. Cannot be changed.
    PanelBow {
        /// At the middle, mm, in one bulge.
        bow_mm: f64,
        /// What small-deflection theory says of the pressure alone, mm.
        linear_mm: f64,
        /// Load number q b⁴/(E t⁴).
        load_number: f64,
        /// Heat number 12 (1 + ν) α ΔT b²/t².
        heat_number: f64,
        /// Mean pull in the sheet along a, N per mm of the edges across it; below nought it pushes.
        pull_a_n_mm: f64,
        /// Mean pull in the sheet along b, N per mm.
        pull_b_n_mm: f64,
        /// Where it is from.
        source: String,
        /// How firmly it is known.
        standing: String,
    }
}

answer! {
    /// What a panel drums at, in still air and without tension. Cannot be changed.
    PanelFrequency {
        /// First natural frequency, Hz.
        frequency_hz: f64,
        /// Frequency coefficient: 2π f b² √(ρ t / D).
        frequency_coefficient: f64,
        /// Where the coefficient is from.
        source: String,
        /// How firmly it is known.
        standing: String,
    }
}

answer! {
    /// A buckled web in shear, by NACA TN 2661. Cannot be changed.
    DiagonalTension {
        /// Nominal shear stress, MPa: S/(h_e t).
        shear_mpa: f64,
        /// Stress at which the web buckles, MPa, eq. (32).
        critical_mpa: f64,
        /// Diagonal tension factor, eq. (27): 0 unbuckled, 1 all diagonal tension.
        k: f64,
        /// Angle of the folds against the flanges, degrees, eq. (30).
        angle_deg: f64,
        /// Greatest nominal shear stress of the web, MPa, eq. (33a).
        web_mpa: f64,
        /// Mean stress of an upright, MPa, eq. (30a); compression is below nought.
        upright_mpa: f64,
        /// Greatest stress of an upright, MPa.
        upright_peak_mpa: f64,
        /// Stress of the flanges from the folds, MPa, eq. (30b).
        flange_mpa: f64,
        /// Effective length of an upright as a column, mm, eq. (35).
        upright_effective_length_mm: f64,
        /// Load of the rivets of web to flange, N/mm.
        flange_rivets_n_mm: f64,
        /// Pull that the rivets of web to upright are to hold, N/mm.
        upright_rivets_n_mm: f64,
        /// Where it is from, and what it was tested on.
        source: String,
        /// How firmly it is known.
        standing: String,
    }
}

answer! {
    /// One sheet's resistance to dents over another's. Cannot be changed.
    DentComparison {
        /// Static load that first leaves a dent, over the other sheet's: (f_y/f_y0) (t/t0)².
        load_ratio: f64,
        /// Stiffness against a hand, over the other sheet's: (t/t0)³.
        stiffness_ratio: f64,
        /// Where the rules are from.
        source: String,
        /// How firmly they are known.
        standing: String,
    }
}

answer! {
    /// A sheet in the sun. Cannot be changed.
    SolAir {
        /// Sol-air temperature, °C: an upper bound for a sheet that also loses heat inwards.
        temperature_deg_c: f64,
        /// Share of the sun that is taken up.
        absorptance: f64,
        /// Where the absorptance is from.
        source: String,
        /// How firmly all is known.
        standing: String,
    }
}

/// A rectangular panel of thin sheet between its supports. Cannot be changed.
///
/// Theory of thin elastic plates. Real edges lie between simple and clamped: ask both and take the answers as a range.
///
/// Args:
///     a: Side along the compression.
///     b: Side across it; of a curved panel the arc.
///     thickness: Metal of the sheet.
///     edges: ``"simple"`` (free to turn) or ``"clamped"``; in compression also ``"sides clamped"`` (those along it) and
///         ``"side free"`` (one of those along it not held).
///     radius: Radius of the arc b; None for a flat panel.
///     material: The metal, a name of the catalogue's material table.
///     modulus: Modulus of elasticity in place of the table's.
///     poisson: Poisson's ratio in place of the table's.
///     expansion_um_m_k: Thermal expansion in place of the table's, millionths per kelvin.
///
/// Raises:
///     InputError: Sizes or constants that no skin has; an unknown metal or hold.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> panel = rb.Panel(a="1.4 m", b="711.2 mm", thickness="0.912 mm", modulus="205 GPa")
///     >>> round(panel.compression().stress_mpa, 2)
///     1.22
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone)]
pub(super) struct Panel {
    core: core::Panel,
    material: String,
    expansion_um_m_k: f64,
    density_kg_m3: f64,
    /// What was given in place of the table's.
    own: Own,
    /// Costly to make: made once.
    bowing: Arc<OnceLock<Bowing>>,
}

#[derive(Clone, Copy, PartialEq)]
struct Own {
    modulus_mpa: Option<f64>,
    poisson: Option<f64>,
    expansion_um_m_k: Option<f64>,
}

impl PartialEq for Panel {
    fn eq(&self, other: &Self) -> bool {
        // The rest follows from these.
        (self.core, &self.material, self.own) == (other.core, &other.material, other.own)
    }
}

const PANEL: [&str; 9] =
    ["a_mm", "b_mm", "thickness_mm", "edges", "radius_mm", "material", "modulus_mpa", "poisson", "expansion_um_m_k"];

/// The core's names of a web and the panel's.
const WEB: [(&str, &str); 2] = [("clear_depth", "a"), ("clear_spacing", "b")];

impl Panel {
    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let length = |mm: f64| Kind::Length.print(mm);
        Ok(given!(
            py,
            "a" = Some(length(self.core.a_mm)),
            "b" = Some(length(self.core.b_mm)),
            "thickness" = Some(length(self.core.thickness_mm)),
            "edges" = Some(self.core.edges.name()),
            "radius" = self.core.radius_mm.map(length),
            "material" = Some(&self.material),
            "modulus" = self.own.modulus_mpa.map(|mpa| Kind::Pressure.print(mpa)),
            "poisson" = self.own.poisson,
            "expansion_um_m_k" = self.own.expansion_um_m_k,
        ))
    }

    fn asked<const N: usize>(&self, call: &'static str, with: [Option<(&'static str, Asked)>; N]) -> Question {
        Question { panel: Some(self.clone()), call, with: with.into_iter().flatten().collect() }
    }

    fn buckling(
        &self,
        call: &'static str,
        found: Result<(core::Coefficient, f64), Vec<Problem>>,
    ) -> PyResult<PanelBuckling> {
        let (coefficient, stress_mpa) = found.map_err(|problems| Arguments::default().refused(problems))?;
        Ok(PanelBuckling {
            k: coefficient.k,
            stress_mpa,
            source: coefficient.source.to_owned(),
            standing: coefficient.standing.words().to_owned(),
            question: self.asked(call, []),
        })
    }

    fn expansion_per_k(&self) -> f64 {
        self.expansion_um_m_k * 1e-6
    }

    /// The series of this panel.
    fn series(&self) -> Result<&Bowing, Vec<Problem>> {
        if let Some(ready) = self.bowing.get() {
            return Ok(ready);
        }
        let made = self.core.bowing()?;
        Ok(self.bowing.get_or_init(|| made))
    }
}

#[pymethods]
impl Panel {
    #[new]
    #[pyo3(signature = (
        *, a, b, thickness, edges = "simple", radius = None, material = "carbon steel", modulus = None, poisson = None,
        expansion_um_m_k = None
    ))]
    #[allow(clippy::too_many_arguments, reason = "keywords of their own in Python")]
    fn new(
        a: Quantity<'_>,
        b: Quantity<'_>,
        thickness: Quantity<'_>,
        edges: &str,
        radius: Option<Quantity<'_>>,
        material: &str,
        modulus: Option<Quantity<'_>>,
        poisson: Option<Real>,
        expansion_um_m_k: Option<Real>,
    ) -> PyResult<Self> {
        let (poisson, expansion_um_m_k) = (poisson.map(|own| own.0), expansion_um_m_k.map(|own| own.0));
        let mut given = Arguments::default();
        let a_mm = given.quantity("a", Kind::Length, &a)?;
        let b_mm = given.quantity("b", Kind::Length, &b)?;
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let radius_mm = given.optional("radius", Kind::Length, radius.as_ref())?;
        let modulus_mpa = given.optional("modulus", Kind::Pressure, modulus.as_ref())?;
        given.readable()?;
        let catalogue = Catalogue::standard()?;
        let row = catalogue.material("material", material);
        let hold = edges.parse::<core::Edges>();
        let (least, most) = core::EXPANSION_PER_K;
        let core = core::Panel {
            a_mm,
            b_mm,
            thickness_mm,
            // An unknown metal is told below; its row stands in until then.
            modulus_mpa: modulus_mpa.unwrap_or(row.as_ref().map_or(1e5, |row| row.modulus.mpa())),
            poisson: poisson.unwrap_or(row.as_ref().map_or(0.3, |row| row.poisson)),
            edges: hold.as_ref().map_or(core::Edges::Simple, |hold| *hold),
            radius_mm,
        };
        let mut problems = core.validate().err().unwrap_or_default();
        problems.extend(hold.err());
        problems.extend(in_range("expansion_um_m_k", expansion_um_m_k, (least * 1e6, most * 1e6), "um/m/K").err());
        match row {
            Ok(row) if problems.is_empty() => Ok(Self {
                core,
                material: material.to_owned(),
                expansion_um_m_k: expansion_um_m_k.unwrap_or(row.expansion_um_m_k),
                density_kg_m3: row.density.kg_m3(),
                own: Own { modulus_mpa, poisson, expansion_um_m_k },
                bowing: Arc::default(),
            }),
            row => {
                problems.extend(row.err());
                Err(given.refused(problems))
            }
        }
    }

    /// Side along the compression, mm.
    #[getter]
    fn a_mm(&self) -> f64 {
        self.core.a_mm
    }

    /// Side across it, mm.
    #[getter]
    fn b_mm(&self) -> f64 {
        self.core.b_mm
    }

    /// Metal of the sheet, mm.
    #[getter]
    fn thickness_mm(&self) -> f64 {
        self.core.thickness_mm
    }

    /// How the edges hold it.
    #[getter]
    fn edges(&self) -> &str {
        self.core.edges.name()
    }

    /// Radius of the arc b, mm; None for a flat panel.
    #[getter]
    fn radius_mm(&self) -> Option<f64> {
        self.core.radius_mm
    }

    /// The metal.
    #[getter]
    fn material(&self) -> &str {
        &self.material
    }

    /// Modulus of elasticity, MPa.
    #[getter]
    fn modulus_mpa(&self) -> f64 {
        self.core.modulus_mpa
    }

    /// Poisson's ratio.
    #[getter]
    fn poisson(&self) -> f64 {
        self.core.poisson
    }

    /// Thermal expansion, millionths per kelvin.
    #[getter]
    fn expansion_um_m_k(&self) -> f64 {
        self.expansion_um_m_k
    }

    /// Buckling in compression along a, flat.
    ///
    /// Returns:
    ///     Coefficient and elastic buckling stress; not limited by the metal's yield strength.
    ///
    /// Raises:
    ///     InputError: A curved panel; a shape outside the rows: a/b below 0.2 (simple) or 0.5 (clamped), outside 1 to 5
    ///         with a free side.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> square = rb.Panel(a="600 mm", b="600 mm", thickness="1.2 mm", edges="clamped")
    ///     >>> square.compression().k
    ///     10.074
    fn compression(&self) -> PyResult<PanelBuckling> {
        self.buckling("compression", self.core.compression())
    }

    /// Buckling in shear, flat.
    ///
    /// Returns:
    ///     Coefficient and elastic buckling stress.
    ///
    /// Raises:
    ///     InputError: A curved panel; edges other than simple or clamped.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> panel = rb.Panel(a="711.2 mm", b="600 mm", thickness="0.912 mm", modulus="205 GPa")
    ///     >>> round(panel.shear().k, 3), round(panel.shear().stress_mpa, 2)
    ///     (8.187, 3.5)
    fn shear(&self) -> PyResult<PanelBuckling> {
        self.buckling("shear", self.core.shear())
    }

    /// Buckling in equal compression both ways, flat.
    ///
    /// Returns:
    ///     Coefficient and elastic buckling stress.
    ///
    /// Raises:
    ///     InputError: A curved panel; edges other than simple or clamped.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> rb.Panel(a="1.2 m", b="600 mm", thickness="1.2 mm").biaxial().k
    ///     1.25
    fn biaxial(&self) -> PyResult<PanelBuckling> {
        self.buckling("biaxial", self.core.biaxial())
    }

    /// Buckling of a curved panel compressed along a, the axis of its curve, by two rules that differ by up to a third.
    ///
    /// Returns:
    ///     Both, and what is to be expected of them: thin shells buckle at 0.2 to 0.6 of theory.
    ///
    /// Raises:
    ///     InputError: A flat panel; edges other than simple; a panel shorter than wide.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> roof = rb.Panel(a="1 m", b="300 mm", thickness="0.9 mm", radius="2 m", modulus="205 GPa")
    ///     >>> curved = roof.curved_compression()
    ///     >>> round(curved.redshaw_mpa, 2), round(curved.timoshenko_mpa, 2), curved.knocked_down
    ///     (59.27, 55.83, True)
    fn curved_compression(&self) -> PyResult<CurvedBuckling> {
        let core = self.core.curved().map_err(|problems| Arguments::default().refused(problems))?;
        Ok(CurvedBuckling {
            flat_mpa: core.flat_mpa,
            shell_mpa: core.shell_mpa,
            redshaw_mpa: core.redshaw_mpa,
            timoshenko_mpa: core.timoshenko_mpa,
            low_mpa: core.expected_mpa.0,
            high_mpa: core.expected_mpa.1,
            knocked_down: core.knocked_down,
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked("curved_compression", []),
        })
    }

    /// The panel at a temperature difference, skin over frame: when it buckles, how far it bows, what its rivets carry.
    ///
    /// Args:
    ///     rise: Skin over frame since the sheet was hung; below nought the sheet is tight. See `skin_over_frame_k`.
    ///     restraint: ``"both ways"``, or ``"along a"`` where the sheet is free to grow across.
    ///
    /// Raises:
    ///     InputError: A difference that no skin meets; a curved panel; a shape or edges without a coefficient.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> side = rb.Panel(a="7.1 m", b="711.2 mm", thickness="0.912 mm", expansion_um_m_k=12)
    ///     >>> hot = side.heating("30 K")
    ///     >>> round(hot.critical_rise_k, 3), round(hot.strip_bow_mm, 2)
    ///     (0.088, 9.78)
    #[pyo3(signature = (rise, *, restraint = "both ways"))]
    fn heating(&self, rise: Quantity<'_>, restraint: &str) -> PyResult<PanelHeat> {
        let mut given = Arguments::default();
        let rise_k = given.quantity("rise", Kind::TemperatureDifference, &rise)?;
        given.readable()?;
        let restraint = by_name("restraint", "restraint", restraint, &Restraint::ALL, Restraint::name)?;
        let core =
            self.core.heated(restraint, self.expansion_per_k(), rise_k).map_err(|problems| given.refused(problems))?;
        Ok(PanelHeat {
            k: core.k,
            critical_rise_k: core.critical_rise_k,
            buckled: core.buckled,
            flat_force_n_mm: core.flat_force_n_mm,
            line_force_n_mm: core.line_force_n_mm,
            strip_bow_mm: core.strip_bow_mm,
            rule: core.rule.to_owned(),
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked(
                "heating",
                [asked("rise", Kind::TemperatureDifference, rise_k), text("restraint", restraint.name())],
            ),
        })
    }

    /// The temperature difference, skin over frame, that works on the sheet since it was hung, K.
    ///
    /// Skin and frame equally warm gain nothing; a sheet hung warmer than its frame is tight once they are even.
    ///
    /// Args:
    ///     skin: Temperature of the skin now.
    ///     frame: Temperature of the frame now.
    ///     skin_hung: Temperature of the skin when it was riveted.
    ///     frame_hung: Temperature of the frame then.
    ///     frame_material: Metal of the frame.
    ///     slip: By how much the rivets of one panel give way along a; it takes up that much of the difference.
    ///
    /// Returns:
    ///     The difference, as the skin's own expansion would make it; below nought the sheet is tight.
    ///
    /// Raises:
    ///     InputError: Temperatures that no bus meets; a slip that no rivet has; an unknown metal.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> side = rb.Panel(a="1.4 m", b="700 mm", thickness="1.2 mm")
    ///     >>> round(side.skin_over_frame_k(skin="60 degC", frame="40 degC", skin_hung="45 degC", frame_hung="20 degC"), 6)
    ///     -5.0
    #[pyo3(signature = (*, skin, frame, skin_hung, frame_hung, frame_material = "carbon steel", slip = None))]
    fn skin_over_frame_k(
        &self,
        skin: Quantity<'_>,
        frame: Quantity<'_>,
        skin_hung: Quantity<'_>,
        frame_hung: Quantity<'_>,
        frame_material: &str,
        slip: Option<Quantity<'_>>,
    ) -> PyResult<f64> {
        const AIR_DEG_C: (f64, f64) = (-80.0, 150.0);
        let mut given = Arguments::default();
        let names = ["skin", "frame", "skin_hung", "frame_hung"];
        let mut problems = Vec::new();
        let mut read = [0.0; 4];
        for ((name, value), place) in names.iter().zip([skin, frame, skin_hung, frame_hung]).zip(&mut read) {
            *place = given.quantity(name, Kind::Temperature, &value)?;
            problems.extend(in_range(name, Some(*place), AIR_DEG_C, "degC").err());
        }
        let slip_mm = given.optional("slip", Kind::Length, slip.as_ref())?;
        given.readable()?;
        problems.extend(in_range("slip", slip_mm, (0.0, 5.0), "mm").err());
        let catalogue = Catalogue::standard()?;
        let row = catalogue.material("frame_material", frame_material);
        let (Ok(row), true) = (row.clone(), problems.is_empty()) else {
            problems.extend(row.err());
            return Err(given.refused(problems));
        };
        let [skin, frame, skin_hung, frame_hung] = read;
        let of_frame = (row.expansion_um_m_k * 1e-6, frame - frame_hung);
        let mismatch = core::mismatch_strain((self.expansion_per_k(), skin - skin_hung), of_frame);
        let slip_strain = slip_mm.unwrap_or(0.0) / self.core.a_mm;
        Ok(core::skin_over_frame_k(mismatch, slip_strain, self.expansion_per_k()))
    }

    /// How far the panel bows under pressure, and at a temperature difference, its edges held in plane.
    ///
    /// Von Kármán's plate, by a Ritz series: small pressures bow by the linear law, great ones less as the sheet stretches.
    ///
    /// Args:
    ///     pressure: Pressure or suction.
    ///     rise: Skin over frame since the sheet was hung; cold makes it tight. See `skin_over_frame_k`.
    ///
    /// Raises:
    ///     InputError: A pressure or difference beyond the series; a bow too steep for the theory; a curved panel; edges
    ///         other than simple or clamped.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm", modulus="205 GPa")
    ///     >>> bow = side.bow("340 Pa")
    ///     >>> round(bow.bow_mm, 2), round(bow.linear_mm, 2)
    ///     (1.94, 10.22)
    #[pyo3(signature = (pressure = None, *, rise = None))]
    fn bow(&self, pressure: Option<Quantity<'_>>, rise: Option<Quantity<'_>>) -> PyResult<PanelBow> {
        let mut given = Arguments::default();
        let pressure_mpa = given.optional("pressure", Kind::Pressure, pressure.as_ref())?;
        let rise_k = given.optional("rise", Kind::TemperatureDifference, rise.as_ref())?;
        given.readable()?;
        let heat = (self.expansion_per_k(), rise_k.unwrap_or(0.0));
        let core = self
            .series()
            .and_then(|series| series.bow(&self.core, pressure_mpa.unwrap_or(0.0), heat))
            .map_err(|problems| given.refused(problems))?;
        Ok(PanelBow {
            bow_mm: core.bow_mm,
            linear_mm: core.linear_mm,
            load_number: core.load_number,
            heat_number: core.heat_number,
            pull_a_n_mm: core.pull_a_n_mm,
            pull_b_n_mm: core.pull_b_n_mm,
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked(
                "bow",
                [asked("pressure", Kind::Pressure, pressure_mpa), asked("rise", Kind::TemperatureDifference, rise_k)],
            ),
        })
    }

    /// First natural frequency: what the panel drums at. Air and paint lower it, tension raises it.
    ///
    /// Args:
    ///     areal_mass: Mass per area with coats and damping sheets; that of the bare metal where left out.
    ///
    /// Raises:
    ///     InputError: A mass that no skin has; a curved panel; edges other than simple or clamped.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm", modulus="205 GPa")
    ///     >>> round(side.frequency().frequency_hz, 1)
    ///     11.9
    #[pyo3(signature = (*, areal_mass = None))]
    fn frequency(&self, areal_mass: Option<Quantity<'_>>) -> PyResult<PanelFrequency> {
        let mut given = Arguments::default();
        let areal_mass_kg_m2 = given.optional("areal_mass", Kind::ArealMass, areal_mass.as_ref())?;
        given.readable()?;
        let mass_kg_m2 = areal_mass_kg_m2.unwrap_or(self.core.thickness_mm / 1000.0 * self.density_kg_m3);
        let core = self.core.drumming(mass_kg_m2).map_err(|problems| given.refused(problems))?;
        Ok(PanelFrequency {
            frequency_hz: core.frequency_hz,
            frequency_coefficient: core.lambda,
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked("frequency", [asked("areal_mass", Kind::ArealMass, areal_mass_kg_m2)]),
        })
    }

    /// The panel as a web in shear that buckles and carries on in folds: incomplete diagonal tension, NACA TN 2661.
    ///
    /// Side a is the clear depth between the flanges, side b the clear width between the uprights, b at most a. The tests
    /// were of aluminium alloy; of a stiffer metal the answer says so.
    ///
    /// Args:
    ///     shear: Shear force on the web.
    ///     depth: Between the flanges' centroids, h_e: 110 to 1500 thicknesses.
    ///     spacing: From one upright to the next: 0.2 to 1 of the depth.
    ///     upright_length: Between the flanges' rivet lines, h_U.
    ///     upright_area: Area of an upright.
    ///     fy: Yield strength of the web; beyond it the theory ends.
    ///     fu: Tensile strength of the web, for the uprights' rivets.
    ///     flange_restraint: How flanges hold the web's edges, R_h: 1 simple, 1.62 clamped.
    ///     upright_restraint: How uprights do, R_d.
    ///     upright_eccentricity: Web's middle to the upright's centroid, for uprights on one side; with upright_gyration.
    ///     upright_gyration: Radius of gyration of such an upright.
    ///     flange_area: Area of one flange; None for flanges much stiffer than the web.
    ///     c2: C2 of the flanges' bending from the paper's figure; with flange_area.
    ///
    /// Raises:
    ///     InputError: Numbers that no web has; a web unlike those tested; a web that would yield; half of a pair.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> web = rb.Panel(a="9.875 in", b="7 in", thickness="0.1043 in", modulus="10600 ksi", poisson=0.32)
    ///     >>> at = web.diagonal_tension(
    ///     ...     "34.5 kip", depth="11.58 in", spacing="7 in", upright_length="9.875 in", upright_area="0.1443 in2",
    ///     ...     upright_eccentricity="0.251 in", upright_gyration="0.182 in", fy="60 ksi", fu="62 ksi",
    ///     ...     flange_restraint=0.93, upright_restraint=1.62)
    ///     >>> round(at.shear_mpa / 6.894757, 2), round(at.k, 2)
    ///     (28.56, 0.12)
    #[pyo3(signature = (
        shear, *, depth, spacing, upright_length, upright_area, fy, fu, flange_restraint, upright_restraint,
        upright_eccentricity = None, upright_gyration = None, flange_area = None, c2 = None
    ))]
    #[allow(clippy::too_many_arguments, reason = "keywords of their own in Python")]
    fn diagonal_tension(
        &self,
        shear: Quantity<'_>,
        depth: Quantity<'_>,
        spacing: Quantity<'_>,
        upright_length: Quantity<'_>,
        upright_area: Quantity<'_>,
        fy: Quantity<'_>,
        fu: Quantity<'_>,
        flange_restraint: Real,
        upright_restraint: Real,
        upright_eccentricity: Option<Quantity<'_>>,
        upright_gyration: Option<Quantity<'_>>,
        flange_area: Option<Quantity<'_>>,
        c2: Option<Real>,
    ) -> PyResult<DiagonalTension> {
        const MM2: f64 = 1e6;
        let (flange_restraint, upright_restraint) = (flange_restraint.0, upright_restraint.0);
        let c2 = c2.map(|own| own.0);
        let mut given = Arguments::default();
        let shear_n = given.quantity("shear", Kind::Force, &shear)?;
        let depth_mm = given.quantity("depth", Kind::Length, &depth)?;
        let spacing_mm = given.quantity("spacing", Kind::Length, &spacing)?;
        let length_mm = given.quantity("upright_length", Kind::Length, &upright_length)?;
        let area_m2 = given.quantity("upright_area", Kind::Area, &upright_area)?;
        let fy_mpa = given.quantity("fy", Kind::Pressure, &fy)?;
        let fu_mpa = given.quantity("fu", Kind::Pressure, &fu)?;
        let e_mm = given.optional("upright_eccentricity", Kind::Length, upright_eccentricity.as_ref())?;
        let gyration_mm = given.optional("upright_gyration", Kind::Length, upright_gyration.as_ref())?;
        let flange_m2 = given.optional("flange_area", Kind::Area, flange_area.as_ref())?;
        given.readable()?;
        let mut problems = Vec::new();
        let mut pair = |one: (&str, Option<f64>), other: (&str, Option<f64>)| match (one.1, other.1) {
            (Some(a), Some(b)) => Some((a, b)),
            (None, None) => None,
            (missing, _) => {
                let (missing, there) = if missing.is_none() { (one.0, other.0) } else { (other.0, one.0) };
                problems.push(Problem::missing(missing, format!("it belongs with {there}; give both or neither")));
                None
            }
        };
        let eccentric = pair(("upright_eccentricity", e_mm), ("upright_gyration", gyration_mm));
        let flange = pair(("flange_area", flange_m2), ("c2", c2));
        if self.core.radius_mm.is_some() {
            let allowed = "none: TN 2661 is asked here of flat webs only";
            problems.push(Problem::out_of_range("radius", "a curved panel", allowed));
        }
        if !problems.is_empty() {
            return Err(given.refused(problems));
        }
        let web = FlatWeb {
            depth_mm,
            clear_depth_mm: self.core.a_mm,
            thickness_mm: self.core.thickness_mm,
            modulus_mpa: self.core.modulus_mpa,
            poisson: self.core.poisson,
            fy_mpa,
            fu_mpa,
            restraint: flange_restraint,
            uprights: Uprights {
                spacing_mm,
                clear_spacing_mm: self.core.b_mm,
                length_mm,
                area_mm2: area_m2 * MM2,
                eccentric,
                restraint: upright_restraint,
            },
            flange: flange.map_or(Flange::Stiff, |(m2, c2)| Flange::Of { area_mm2: m2 * MM2, c2 }),
        };
        let core = web.at(shear_n).map_err(|problems| given.refused_as(&WEB, problems))?;
        Ok(DiagonalTension {
            shear_mpa: core.shear_mpa,
            critical_mpa: core.critical_mpa,
            k: core.k,
            angle_deg: core.angle_deg,
            web_mpa: core.web_mpa,
            upright_mpa: core.upright_mpa,
            upright_peak_mpa: core.upright_peak_mpa,
            flange_mpa: core.flange_mpa,
            upright_effective_length_mm: core.upright_effective_length_mm,
            flange_rivets_n_mm: core.flange_rivets_n_mm,
            upright_rivets_n_mm: core.upright_rivets_n_mm,
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked(
                "diagonal_tension",
                [
                    asked("shear", Kind::Force, shear_n),
                    asked("depth", Kind::Length, depth_mm),
                    asked("spacing", Kind::Length, spacing_mm),
                    asked("upright_length", Kind::Length, length_mm),
                    asked("upright_area", Kind::Area, area_m2),
                    asked("fy", Kind::Pressure, fy_mpa),
                    asked("fu", Kind::Pressure, fu_mpa),
                    number("flange_restraint", flange_restraint),
                    number("upright_restraint", upright_restraint),
                    asked("upright_eccentricity", Kind::Length, e_mm),
                    asked("upright_gyration", Kind::Length, gyration_mm),
                    asked("flange_area", Kind::Area, flange_m2),
                    number("c2", c2),
                ],
            ),
        })
    }

    /// This sheet's resistance to dents over another's, by proportion; not a strength.
    ///
    /// Args:
    ///     other_thickness: Metal of the other sheet.
    ///     fy: Yield strength of this sheet.
    ///     other_fy: Yield strength of the other.
    ///
    /// Raises:
    ///     InputError: A thickness or strength that no sheet has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> side = rb.Panel(a="700 mm", b="700 mm", thickness="1.2 mm")
    ///     >>> round(side.dent("0.9 mm", fy="230 MPa", other_fy="230 MPa").load_ratio, 2)
    ///     1.78
    #[pyo3(signature = (other_thickness, *, fy, other_fy))]
    fn dent(
        &self,
        other_thickness: Quantity<'_>,
        fy: Quantity<'_>,
        other_fy: Quantity<'_>,
    ) -> PyResult<DentComparison> {
        let mut given = Arguments::default();
        let other_mm = given.quantity("other_thickness", Kind::Length, &other_thickness)?;
        let fy_mpa = given.quantity("fy", Kind::Pressure, &fy)?;
        let other_fy_mpa = given.quantity("other_fy", Kind::Pressure, &other_fy)?;
        given.readable()?;
        let core = self.core.dent(fy_mpa, (other_mm, other_fy_mpa)).map_err(|problems| given.refused(problems))?;
        Ok(DentComparison {
            load_ratio: core.load_ratio,
            stiffness_ratio: core.stiffness_ratio,
            source: core.source.to_owned(),
            standing: core.standing.words().to_owned(),
            question: self.asked(
                "dent",
                [
                    asked("other_thickness", Kind::Length, other_mm),
                    asked("fy", Kind::Pressure, fy_mpa),
                    asked("other_fy", Kind::Pressure, other_fy_mpa),
                ],
            ),
        })
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        to_dict(slf, &PANEL)
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        call_with(&self.kwargs(py)?, "Panel")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        rebuilt(slf.py(), slf.get_type().as_any(), slf.get().kwargs(slf.py())?)
    }
}

/// How hot a sheet in the sun gets: T_s = T_o + α_s I/h_o - ε ΔR/h_o.
///
/// The loss to the sky beyond the film, ε ΔR/h_o, is 3.9 K of a horizontal sheet and none of an upright one (ASHRAE, from
/// memory).
///
/// Args:
///     air: Temperature of the air.
///     irradiance: Sun on the surface: about 1000 W/m2 on a roof in summer.
///     surface: A name of the catalogue's surface table; white ranges from 0.19 to 0.66 between sources.
///     absorptance: Your own share of the sun that is taken up, in place of the surface.
///     attitude: ``"horizontal"`` or ``"vertical"``.
///     film: Outside film coefficient; 17 W/m2/K (ASHRAE, from memory) where left out.
///
/// Returns:
///     The temperature and where it is from.
///
/// Raises:
///     InputError: An unknown surface; a surface and an absorptance together, or neither; weather that no bus meets.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> roof = rb.sol_air(air="35 degC", irradiance="1000 W/m2", absorptance=0.95)
///     >>> round(roof.temperature_deg_c, 1)
///     87.0
#[pyfunction]
#[pyo3(signature = (*, air, irradiance, surface = None, absorptance = None, attitude = "horizontal", film = None))]
pub(super) fn sol_air(
    air: Quantity<'_>,
    irradiance: Quantity<'_>,
    surface: Option<&str>,
    absorptance: Option<Real>,
    attitude: &str,
    film: Option<Quantity<'_>>,
) -> PyResult<SolAir> {
    let absorptance = absorptance.map(|own| own.0);
    let mut given = Arguments::default();
    let air_deg_c = given.quantity("air", Kind::Temperature, &air)?;
    let irradiance_w_m2 = given.quantity("irradiance", Kind::Irradiance, &irradiance)?;
    let film_w_m2_k = given.optional("film", Kind::FilmCoefficient, film.as_ref())?;
    given.readable()?;
    let lies = by_name("attitude", "attitude", attitude, &Attitude::ALL, Attitude::name)?;
    let catalogue = Catalogue::standard()?;
    let core = core::SolAir::new(&catalogue, air_deg_c, (surface, absorptance), irradiance_w_m2, lies, film_w_m2_k)
        .map_err(|problems| given.refused(problems))?;
    let with = [
        asked("air", Kind::Temperature, air_deg_c),
        asked("irradiance", Kind::Irradiance, irradiance_w_m2),
        text("surface", surface),
        number("absorptance", absorptance),
        text("attitude", lies.name()),
        asked("film", Kind::FilmCoefficient, film_w_m2_k),
    ];
    Ok(SolAir {
        temperature_deg_c: core.temperature_deg_c,
        absorptance: core.absorptance,
        source: core.source,
        standing: core.standing.words().to_owned(),
        question: Question { panel: None, call: "sol_air", with: with.into_iter().flatten().collect() },
    })
}
