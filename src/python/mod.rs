//! The Python module `raisedbody._core`: every function converts, calls the core, and converts back.

// The arguments of a Python function are handed over by value.
#![allow(clippy::needless_pass_by_value)]
// The comments here are Python docstrings.
#![allow(clippy::doc_markdown, clippy::doc_link_with_quotes)]
// A property of an object stays one when its value happens to be the same for all.
#![allow(clippy::unused_self)]

mod batch;
mod body;
mod bulk;
mod by_test;
mod cap_blank;
mod catalogue;
mod comparison;
mod corrosion;
mod cuts;
mod cutting;
mod drawing;
mod efficiency;
mod end_caps;
mod errors;
mod evaluation;
mod flatness;
mod forming;
mod frame;
mod galvanic;
mod grip;
mod group;
mod hole_line;
mod input;
mod interrupts;
mod joint;
mod lap;
mod lift;
mod mass;
mod measure_up;
mod output;
mod page;
mod paint;
mod panel;
mod panics;
mod plan;
mod quote;
mod report;
mod schedule;
mod section;
mod space_frame;
mod spacing;
mod splices;
mod sweep;
mod tables;
mod turned;

#[pyo3::pymodule]
mod _core {
    use pyo3::prelude::*;

    #[pymodule_init]
    fn init(py: Python<'_>) -> PyResult<()> {
        super::interrupts::watch_forks(py)?;
        super::panics::install(py)
    }

    #[pymodule_export]
    #[allow(non_upper_case_globals, reason = "the name that Python expects")]
    const __version__: &str = env!("CARGO_PKG_VERSION");

    #[pymodule_export]
    use super::body::Body;
    #[pymodule_export]
    use super::bulk::check_laps;
    #[pymodule_export]
    use super::by_test::{Coupons, TestResult, Tested};
    #[pymodule_export]
    use super::cap_blank::{CapBlank, Corner};
    #[pymodule_export]
    use super::catalogue::{catalogue_table, inches, parse};
    #[pymodule_export]
    use super::comparison::{Comparison, compare};
    #[pymodule_export]
    use super::corrosion::{first_year_losses, layer_lives, losses_over_years, yearly_cost};
    #[pymodule_export]
    use super::cuts::{Cut, Cuts};
    #[pymodule_export]
    use super::cutting::{BarCuts, CutList, SheetCuts};
    #[pymodule_export]
    use super::drawing::Drawing;
    #[pymodule_export]
    use super::efficiency::{Seam, SeamBenchmark, SeamEfficiency};
    #[pymodule_export]
    use super::end_caps::EndCaps;
    #[pymodule_export]
    use super::evaluation::Evaluation;
    #[pymodule_export]
    use super::forming::{Bend, Frustum, RollSetting, Springback, ThreeRoll, least_bend_radius_mm};
    #[pymodule_export]
    use super::frame::{Frame, FrameLoad, FrameResult};
    #[pymodule_export]
    use super::galvanic::{GalvanicPair, unpainted_allowed};
    #[pymodule_export]
    use super::grip::{
        DrillChoice, LengthChoice, choose_drill, choose_length, head_clearance, hole_checks, rivet_diameter_checks,
    };
    #[pymodule_export]
    use super::group::{GroupForces, PlasticBounds, RivetGroup, prying_ratio, suction_per_rivet_n};
    #[pymodule_export]
    use super::hole_line::{Drilling, HoleLine, HoleLineFit, HoleLinePlan, Jigs, jigs};
    #[pymodule_export]
    use super::joint::{BlindRivet, Sheet};
    #[pymodule_export]
    use super::lap::Lap;
    #[pymodule_export]
    use super::lift::Lift;
    #[pymodule_export]
    use super::mass::Mass;
    #[pymodule_export]
    use super::measure_up::{MeasureUp, Squareness};
    #[pymodule_export]
    use super::page::Page;
    #[pymodule_export]
    use super::paint::{
        cartridges_count, duplex_life, paint_durability, sealant_volume_l, spreading_rate_ft2_gal, spreading_rate_m2_l,
        wet_film_um,
    };
    #[pymodule_export]
    use super::panel::{
        CurvedBuckling, DentComparison, DiagonalTension, Panel, PanelBow, PanelBuckling, PanelFrequency, PanelHeat,
        SolAir, sol_air,
    };
    #[pymodule_export]
    use super::panics::{give_up, panic_place};
    #[pymodule_export]
    use super::plan::Plan;
    #[pymodule_export]
    use super::quote::{Odds, Quote};
    #[pymodule_export]
    use super::report::{Check, Report, Reports};
    #[pymodule_export]
    use super::schedule::{Schedule, Task, hanging_order};
    #[pymodule_export]
    use super::section::{EffectiveSection, Section, effective_width, skin_strips};
    #[pymodule_export]
    use super::space_frame::{SpaceFrame, SpaceFrameResult, SpaceLoad};
    #[pymodule_export]
    use super::spacing::{InterRivet, Spacing, Wander, wander};
    #[pymodule_export]
    use super::splices::Splices;
    #[pymodule_export]
    use super::sweep::{Choice, Sweep};
    #[pymodule_export]
    use super::turned::Turned;
}
