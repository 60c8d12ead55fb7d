//! The class `Evaluation`.

use std::path::PathBuf;

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::drawing::{Paper, drawing, drawing_names, html, lists, packet, templates, text};
use crate::plan::{self as core, CAUTIONS};

use super::body::Body;
use super::cutting::CutList;
use super::drawing::Drawing;
use super::end_caps::EndCaps;
use super::flatness;
use super::hole_line::{Drilling, HoleLinePlan};
use super::interrupts::away;
use super::lift::Lift;
use super::mass::Mass;
use super::output::{Columns, Dict, Many, Recipe, quoted};
use super::page::Page;
use super::paint;
use super::plan::Plan;
use super::quote::{self, Quote};
use super::report::check_columns;
use super::schedule::Schedule;
use super::splices::Splices;
use super::tables;

/// A plan worked out: checks, layout, masses, order, hours and price; `Plan.evaluate` makes it. Cannot be changed.
///
/// Printed, it is the whole evaluation as text; in a notebook it shows verdicts, a side view, mass and price. Its tables
/// are `Table` objects, which any dataframe library takes; a column of quantities ends in its unit.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
///     >>> build.rivets > 300, build.overall_height_mm
///     (True, 3110.0)
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct Evaluation {
    plan: Plan,
    core: core::Evaluation,
}

impl Evaluation {
    pub fn new(plan: Plan, core: core::Evaluation) -> Self {
        Self { plan, core }
    }

    pub fn core(&self) -> &core::Evaluation {
        &self.core
    }
}

/// How a part of a plan's evaluation is pickled: evaluated again, then read from this attribute.
pub(super) fn part_of<'py>(py: Python<'py>, plan: &Plan, attribute: &str) -> PyResult<Recipe<'py>> {
    let call = py.import("operator")?.getattr("attrgetter")?.call1((attribute,))?;
    let evaluation = Bound::new(py, Evaluation::new(plan.clone(), away(py, || plan.0.evaluate())??))?;
    Ok(Recipe { call, with: PyTuple::new(py, [evaluation])? })
}

#[pymethods]
impl Evaluation {
    /// The plan that was evaluated.
    #[getter]
    fn plan(&self) -> Plan {
        self.plan.clone()
    }

    /// The plan's name.
    #[getter]
    fn name(&self) -> &str {
        &self.core.name
    }

    /// The worst verdict: ``"passes"``, ``"not assessed"``, ``"outside the rule's range"`` or ``"fails"``.
    #[getter]
    fn verdict(&self) -> &str {
        self.core.verdict().words()
    }

    /// How many checks have each verdict.
    #[getter]
    fn verdict_counts<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        for (verdict, count) in self.core.verdict_counts() {
            dict.set_item(verdict.words(), count)?;
        }
        Ok(Dict(dict))
    }

    /// Every check; of each joint the one that governs it by each rule set. Each row carries its unit, NaN stands for
    /// what is not known. Columns: name, subject, clause, demand, capacity, unit, utilisation, level, verdict, reason,
    /// standing.
    #[getter]
    fn checks(&self) -> Columns {
        check_columns(&self.core.checks)
    }

    /// Every joint by every rule set: kind, zone, lines, pitch_mm, what a millimetre of the line carries in the plane of the
    /// skin (racking_n_mm, shock_n_mm, temperature_n_mm, line_n_mm all together), suction_pa, shear_n and tension_n of one
    /// rivet (service loads) with what they mostly come from, method, level, verdict, governing, utilisation.
    #[getter]
    fn joints(&self) -> Columns {
        tables::joints(&self.core)
    }

    /// Every load on the skins: load, place, case, value, unit.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> loads = rb.Plan.read("examples/mobile_library.toml").evaluate().skin_loads
    ///     >>> print(loads["place"][0], loads["case"][0], round(loads["value"][0]), loads["unit"][0])
    ///     behind the front edge on the road 1170 Pa
    #[getter]
    fn skin_loads(&self) -> Columns {
        flatness::skin_loads(&self.core)
    }

    /// Every panel of the sides, patches and ends between what holds it, in the hottest sun and the deepest cold: panel, part
    /// ("side", "patch", "end"), side (empty across an end), course (0 for patches and ends), width_mm, height_mm, zone,
    /// suction_pa and when it pulls, how far the panel bows under that suction, how it lies in the sun ("in tension", "flat",
    /// "may oil-can", "oil-cans where held"), sun_k (skin over frame since hanging), the difference at which it buckles, bow by
    /// heat and push across a rivet line, the same for the cold, the tone it drums at. Low and high are the ends of a range:
    /// edges free to turn to clamped, the frame holding the least to the most; the flat of an end cap's face is held by its
    /// bends from not at all to wholly. Bow by heat and by suction do not simply add up. NaN and a reason where a panel is
    /// outside the rules; "not assessed", with what is missing, where its edges are not known.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> panels = rb.Plan.read("examples/mobile_library.toml").evaluate().flatness
    ///     >>> print(panels["panel"][0], panels["sun"][0])
    ///     L-A P1-P2 in tension
    #[getter]
    fn flatness(&self, py: Python<'_>) -> PyResult<Columns> {
        away(py, || flatness::panels(&self.core))
    }

    /// What would keep panels flat, a row for each size and remedy: width_mm, height_mm, panels_count, remedy, the difference
    /// at which the panel then buckles, its bow in the hottest sun, value_low and value_high with their unit (K to hang warmer,
    /// mm of spacing or radius), note.
    #[getter]
    fn flatness_advice(&self) -> Columns {
        flatness::advice(&self.core)
    }

    /// The frames across the bus, a row for each way in which the floor may hold the posts' feet: sway stiffness before and
    /// after, sway under a gust with the roof's weight, stresses, splice moment, roof load of the school-bus rule. Empty
    /// where the posts' section is not in the plan.
    #[getter]
    fn bows(&self) -> Columns {
        tables::bows(&self.core)
    }

    /// The roof off its posts: supports, braces, steps and the wind at which work stops; None where the plan has no lift.
    #[getter]
    fn lift(&self) -> Option<Lift> {
        self.core.lift.clone().map(|core| Lift::new(self.plan.clone(), core))
    }

    /// What is cut from which sheet and bar, and how good that is.
    #[getter]
    fn cut_list(&self) -> CutList {
        CutList::new(self.plan.clone(), self.core.cut_list.clone())
    }

    /// Every mass that changes: name, group, change, mass_kg, x_mm, y_mm, z_mm, rise_mm, standing.
    #[getter]
    fn masses(&self) -> Columns {
        tables::masses(&self.core)
    }

    /// Weight, centre of gravity, axle loads and stability, before and after.
    #[getter]
    fn mass(&self) -> Mass {
        Mass { plan: self.plan.clone(), core: self.core.mass.clone() }
    }

    /// Mass, centre of gravity, axle loads, stability, crosswind and running cost before and after. Each row carries its
    /// unit; low and high are the ends of a range of inputs, NaN stands for what is not known. Columns: name, unit,
    /// before_low, before_high, after_low, after_high, change_low, change_high, standing, note.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> effects = rb.Plan.read("examples/mobile_library.toml").evaluate().effects
    ///     >>> drag = list(effects["name"]).index("drag")
    ///     >>> bool(effects["after_low"][drag] > effects["before_low"][drag])
    ///     True
    #[getter]
    fn effects(&self) -> Columns {
        tables::effects(&self.core)
    }

    /// What the new height touches besides: lamps, labels, notices. Columns: about, text, standing, source.
    #[getter]
    fn reminders(&self) -> Columns {
        tables::reminders(&self.core)
    }

    /// What the cut goes through, moves or passes by, a row for each thing with the one action it gets. Columns: name, kind,
    /// relation, action, lengthen_mm, note.
    #[getter]
    fn ledger(&self) -> Columns {
        tables::ledger(&self.core)
    }

    /// Emergency exits by place: place, before, after.
    #[getter]
    fn exits(&self) -> Columns {
        tables::exits(&self.core)
    }

    /// The questions before the first cut: entry, question, state, settled, valid_until, note.
    #[getter]
    fn gate(&self) -> Columns {
        tables::gate(&self.core)
    }

    /// Whether every question is settled for the day of the cut and no check stands in the way. No clearance: those who stand
    /// under the roof give that on the day.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> rb.Plan.read("examples/workshop_bus.toml").evaluate().ready_to_cut
    ///     False
    #[getter]
    fn ready_to_cut(&self) -> bool {
        self.core.gate.ready_to_cut()
    }

    /// What the plan says of itself before the first cut, and what is open.
    #[getter]
    fn readiness(&self) -> String {
        self.core.gate.words()
    }

    /// Cross-section, areas, volume and headroom at the aisle, before and after.
    #[getter]
    fn body(&self) -> Body {
        Body::new(self.plan.clone(), &self.core)
    }

    /// How the inserts nest in the posts, the list they are cut from, and what leaning sides ask.
    #[getter]
    fn splices(&self) -> Splices {
        Splices::new(self.plan.clone(), self.core.splices.clone(), self.core.units)
    }

    /// Drilling jigs, drilling tables, drill and bits.
    #[getter]
    fn drilling(&self) -> Drilling {
        Drilling::new(self.plan.clone(), self.core.drilling.clone())
    }

    /// The new line over each line of old holes in the plan, by its name.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> lines = rb.Plan.read("examples/mobile_library.toml").evaluate().hole_lines
    ///     >>> list(lines)
    ///     ['rub rail, left']
    #[getter]
    fn hole_lines<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        for old in &self.core.old_lines {
            dict.set_item(&old.name, HoleLinePlan::new(old))?;
        }
        Ok(Dict(dict))
    }

    /// The sheets that wrap the corners of the raised band: flats, bend marks, radii to roll to, wedges; None where the plan says
    /// nothing of them.
    #[getter]
    fn end_caps(&self) -> Option<EndCaps> {
        let units = self.core.units;
        self.core.end_caps.clone().map(|core| EndCaps::new(self.plan.clone(), core, units))
    }

    /// What to order: item, supplier (empty where the plan does not say), quantity, unit, note.
    #[getter]
    fn order(&self) -> Columns {
        tables::order(&self.core)
    }

    /// Rivet lines: id, side, kind, ends, length_mm, pitch_mm (the widest on the line), tributary_mm, holes_count,
    /// old_line: the line of old holes whose plan stands in place of even holes ("" where none).
    #[getter]
    fn lines(&self) -> Columns {
        tables::lines(&self.core)
    }

    /// Sheets on the sides: id, side, course (1 is the top), posts, edges and sizes in mm, area_m2, mass_kg, the people to
    /// lift it, the holes through it, and the edge that shows ("lower", "rear", "any"): there belongs the straight factory edge.
    /// patch_beside is the door or window that a patch stands beside, empty for any other sheet.
    #[getter]
    fn sheets(&self) -> Columns {
        tables::sheets(&self.core)
    }

    /// Blanks that are cut alike: count, length_mm (along the bus, or across it), height_mm, grain (``"level"``, ``"upright"`` or
    /// ``"either"``: only then may the blank turn; it is the length of stock sheet), finished_face (``"outside"``, ``"inside"``
    /// or ``"alike"``), factory_edge (``"lower"``, ``"rear"`` or ``"any"``), sheets (their names).
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> plan = rb.Plan.read("examples/workshop_bus.toml").replace(skin={"finished_face": "outside"})
    ///     >>> next(iter(plan.evaluate().blanks.rows()))["finished_face"]
    ///     'outside'
    #[getter]
    fn blanks(&self) -> Columns {
        tables::blanks(&self.core)
    }

    /// Every lap: over and under (a sheet, a panel or what stays of the body), kind ("upright", "level", "across"), side,
    /// post where it stands on one, length_mm, and fault: where water would be led ("" where it runs off).
    #[getter]
    fn laps(&self) -> Columns {
        tables::laps(&self.core)
    }

    /// What each way of choosing seams costs: policy, sheets_count, seams_count, new_seams_count (where the old skin has
    /// none), seam_length_m, shortest_mm, longest_mm, heaviest_kg, people.
    #[getter]
    fn seam_policies(&self) -> Columns {
        tables::seam_policies(&self.core)
    }

    /// Rivets by what they go through: sheets_count (new ones), behind, holes_count, grip_mm, length (or code, where the
    /// catalogue knows the rivet's grips), note, standing.
    #[getter]
    fn rivet_lots(&self) -> Columns {
        tables::rivet_lots(&self.core)
    }

    /// Framing behind sheet edges that have no structure behind them: behind, side, from_mm (forward of the rear face, or
    /// left of the middle, round a cap's corners along the sheet), z_mm above the ground (of an upright its middle), length_mm.
    #[getter]
    fn backers(&self) -> Columns {
        tables::backers(&self.core)
    }

    /// Panels that close the ends of the raised part: id, side, blank sizes, area_m2, middle.
    #[getter]
    fn end_panels(&self) -> Columns {
        tables::ends(&self.core)
    }

    /// Work: name, quantity, unit, labour_h, standing of the time for one unit.
    #[getter]
    fn tasks(&self) -> Columns {
        tables::tasks(&self.core)
    }

    /// In which order sheets and end panels are hung: place, sheet, side (empty across the bus), course (1 is the top; NaN for
    /// an end panel), after (what must hang before it), reason.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> rb.Plan.read("examples/workshop_bus.toml").evaluate().hanging_order["sheet"].tolist()[2:5]
    ///     ['rear slope', 'L-A1', 'L-A2']
    #[getter]
    fn hanging_order(&self) -> Columns {
        tables::hanging_order(&self.core)
    }

    /// Who does what on which day; None where the plan has no crew.
    #[getter]
    fn schedule(&self) -> Option<Schedule> {
        self.core.schedule.clone().map(Schedule::of)
    }

    /// Everything assumed, common practice or from memory: field, value, standing, source.
    #[getter]
    fn assumed(&self) -> Columns {
        tables::assumed(&self.core)
    }

    /// How long coating and then steel last in each zone of the vehicle, without paint: ranges in years.
    #[getter]
    fn outlook(&self) -> Columns {
        tables::outlook(&self.core)
    }

    /// Each joint by each rule set again, with the sheet that rust leaves, without paint: how far the sheet may thin until the
    /// joint has lost the share of its strength that it may lose (`service.strength_loss`), after how many years, and how much
    /// of its strength is used after the years wanted (`service.years`).
    #[getter]
    fn thinned(&self) -> Columns {
        tables::thinned(&self.core)
    }

    /// What a year of the skin costs, least and most, as the plan's `[life]` asks: one row, none without it or without prices.
    #[getter]
    fn life_cost(&self) -> Columns {
        tables::life_cost(&self.core)
    }

    /// Metals in contact: rivet body with skin, mandrel with body, skin with posts and tube, and those of the plan. Columns: name,
    /// first, second, exposure, index_least_v and index_most_v (difference of anodic indices), limit_v of the exposure,
    /// gap_least_v and gap_most_v (potentials in sea water apart, over gap_sources_count series), eaten (a metal, ``"may be
    /// either"`` or ``"neither"``), area_ratio (wetted cathode over anode), areas in words, warning of what the index does not
    /// see, remedies, verdict by the index, missing (what to write where a pair is not assessed), assumed (the entry whose default
    /// stands in for a surface), standing.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> plan = rb.Plan.read("examples/workshop_bus.toml").replace(fastening={"plating": "zinc plating"})
    ///     >>> pairs = plan.evaluate().pairs
    ///     >>> pairs["name"][0].item(), round(pairs["index_most_v"][0].item(), 2), pairs["verdict"][0].item()
    ///     ('rivet body, skin', 0.05, 'passes')
    #[getter]
    fn pairs(&self) -> Columns {
        tables::pairs(&self.core)
    }

    /// Details that decide where the skin starts to rust: detail (lap, hem, cut edge, drilled hole, old hole, weld), zone,
    /// category, treat (prime, seal or coat it; else it may stay), advice, quantity with its unit (NaN where none is counted),
    /// source, standing.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> details = rb.Plan.read("examples/workshop_bus.toml").evaluate().details
    ///     >>> bool(details["treat"][details["detail"] == "cut edge"].all())
    ///     True
    #[getter]
    fn details(&self) -> Columns {
        tables::details(&self.core)
    }

    /// What each coat takes, in the order in which they go on: coat, side ("inside" with the bare steel of inserts and tube,
    /// "inserts and tube" where the skin stays bare inside, "outside"), area_m2, film_um dry, wet_film_um, solids_ratio,
    /// loss_ratio, theoretical_m2_l, practical_m2_l, paint_l with its loss, unit_price and amount (NaN where no price is
    /// known) in currency, standing, note.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> paint = rb.Plan.read("examples/workshop_bus.toml").evaluate().paint
    ///     >>> [(str(coat), float(film)) for coat, film in zip(paint["coat"], paint["film_um"])]
    ///     [('primer', 60.0), ('topcoat', 50.0)]
    #[getter]
    fn paint(&self) -> Columns {
        paint::coats(&self.core)
    }

    /// What ISO 12944 says of the paint outside, zone by zone: zone, category, film_um, durability ("low" to "very high",
    /// "below the lowest", "not tabulated"; "not assessed" where the skin is not hot-dip zinc), from_years and to_years to the
    /// first major maintenance (NaN where open), from_years_1998 and to_years_1998 (what the same word once stood for),
    /// standing, note. No number beyond the table is worked out, and none is a guarantee.
    #[getter]
    fn paint_outlook(&self) -> Columns {
        paint::outlook(&self.core)
    }

    /// The price in lines, by stage, with its odds and its letter; None where the plan has no prices.
    #[getter]
    fn quote(slf: Py<Self>) -> Option<Quote> {
        slf.get().core.quote.is_some().then(|| Quote::new(slf))
    }

    /// What may turn out otherwise than quoted, as the plan's ``odds`` say, a row for each: cause, of (what it acts on), each, shape,
    /// then shares of what is quoted: mean, sd, and those that 10, 50 and 90 cases in a hundred do not exceed (p10, p50, p90).
    #[getter]
    fn causes(&self) -> Columns {
        quote::causes(&self.core.causes)
    }

    /// The total price with its currency, exact; None where the plan has no prices. Open items are not in it.
    #[getter]
    fn price(&self) -> Option<String> {
        self.core.quote.as_ref().map(|q| q.total_text())
    }

    /// What has no price yet.
    #[getter]
    fn price_open_items(&self) -> Many<String> {
        Many(self.core.quote.as_ref().map_or_else(Vec::new, |q| q.open_items.clone()))
    }

    /// Hours of one person, all tasks.
    #[getter]
    fn labour_h(&self) -> f64 {
        self.core.hours()
    }

    /// Rows of the plan's own that add to the catalogue or replace its rows.
    #[getter]
    fn overrides(&self) -> Many<String> {
        Many(self.core.overrides.clone())
    }

    /// Cautions that go with every evaluation.
    #[getter]
    fn cautions(&self) -> Many<&'static str> {
        Many(CAUTIONS.to_vec())
    }

    /// Overall height after the raise, mm.
    #[getter]
    fn overall_height_mm(&self) -> f64 {
        self.core.raised.heights.overall_mm
    }

    /// Clear height inside when floor and ceiling are built up, mm.
    #[getter]
    fn headroom_mm(&self) -> f64 {
        self.core.raised.headroom_mm
    }

    /// Rivets, one for each hole.
    #[getter]
    fn rivets(&self) -> usize {
        self.core.takeoff.rivets
    }

    /// Sheets, end panels included.
    #[getter]
    fn sheets_count(&self) -> usize {
        self.core.takeoff.sheets
    }

    /// Greatest suction on the skin, Pa; `skin_loads` has it by zone.
    #[getter]
    fn suction_pa(&self) -> f64 {
        self.core.loads.suction_pa()
    }

    /// Names of all drawings, for `drawing`: ``"left"``, ``"right"``, ``"rear"``, ``"front"``, ``"cross-section"``,
    /// ``"supports"``, ``"frame"``, ``"laps left"``, ``"laps right"``, ``"blank "`` with the name of a sheet or panel, ``"line "``
    /// with that of a rivet line, ``"jig "`` with that of a jig, ``"cut "`` with that of a stock sheet, ``"bars inserts"``,
    /// ``"bars backing tube"``, ``"schedule"``. What the plan says nothing of has none.
    #[getter]
    fn drawings(&self) -> Many<String> {
        Many(drawing_names(&self.core))
    }

    /// A drawing: to scale, with its dimensions, sides and blanks as seen from outside.
    ///
    /// Args:
    ///     name: One of `drawings`.
    ///
    /// Returns:
    ///     The drawing; it shows itself in a notebook.
    ///
    /// Raises:
    ///     InputError: There is no drawing of this name.
    #[pyo3(signature = (name, /))]
    fn drawing(&self, py: Python<'_>, name: &str) -> PyResult<Drawing> {
        Ok(away(py, || drawing(&self.core, name).and_then(Drawing::of))??)
    }

    /// The job packet: one page that holds all that the job needs on paper, from the verdicts to the blank records. It stands
    /// alone, and prints on A4 and on Letter.
    ///
    /// Returns:
    ///     The page.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> build = rb.Plan.read("examples/mobile_library.toml").evaluate()
    ///     >>> build.packet().name
    ///     'Travelling library, job packet'
    fn packet(&self, py: Python<'_>) -> PyResult<Page> {
        let html = away(py, || packet(&self.plan.0, &self.core))?;
        Ok(Page::of(format!("{}, job packet", self.core.name), html))
    }

    /// Paper templates in full size: every drilling jig, and the bend marks of every end cap, as strips over several pages, each
    /// with a length to check by a steel rule. Print at 100 %.
    ///
    /// Args:
    ///     paper: ``"A4"`` or ``"Letter"``, lying on its long side.
    ///
    /// Returns:
    ///     The page; a sentence in place of strips where the plan has neither jigs nor caps.
    ///
    /// Raises:
    ///     InputError: Another paper.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    ///     >>> build.templates(paper="Letter").name
    ///     'Workshop bus, templates in full size, Letter'
    #[pyo3(signature = (*, paper = "A4"))]
    fn templates(&self, py: Python<'_>, paper: &str) -> PyResult<Page> {
        let paper: Paper = paper.parse()?;
        let html = away(py, || templates(&self.core, paper))?;
        Ok(Page::of(format!("{}, templates in full size, {}", self.core.name, paper.name()), html))
    }

    /// The names of the lists that `csv` gives and `write_lists` writes, in the order of the work.
    #[getter]
    fn lists(&self) -> Many<&'static str> {
        Many(lists::names().collect())
    }

    /// A list as comma-separated values: as the shop reads it, then columns of plain numbers where it has sizes. A spreadsheet
    /// takes no cell of it for a formula: text that starts like one has an apostrophe before it.
    ///
    /// Args:
    ///     name: One of `lists`.
    ///
    /// Returns:
    ///     Headings and rows, parted by commas; without rows where the plan has nothing of the kind.
    ///
    /// Raises:
    ///     InputError: There is no such list.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> build = rb.Plan.read("examples/workshop_bus.toml").evaluate()
    ///     >>> build.csv("exits").splitlines()
    ///     ['emergency exits,before,after', 'place not told,2,2']
    #[pyo3(signature = (name, /))]
    fn csv(&self, py: Python<'_>, name: &str) -> PyResult<String> {
        Ok(away(py, || lists::list(&self.core, name)?.csv())??)
    }

    /// Writes every list into a folder as ``<name>.csv`` (UTF-8), each whole or not at all; the folder is made where it is not there.
    ///
    /// Args:
    ///     folder: The folder.
    ///     overwrite: Whether files of these names are replaced. Where one is there and this is false, none is written.
    ///
    /// Raises:
    ///     PlanFileExistsError: A file is there and `overwrite` is false (also a `FileExistsError`).
    ///     PlanFileError: A file cannot be written (also an `OSError`).
    #[pyo3(signature = (folder, overwrite = false))]
    fn write_lists(&self, py: Python<'_>, folder: PathBuf, overwrite: bool) -> PyResult<()> {
        away(py, || lists::write(&self.core, &folder, overwrite))??;
        Ok(())
    }

    /// Every check as a hand calculation; of each joint all its checks.
    fn explain(&self) -> String {
        self.core.explain()
    }

    /// The main numbers and all tables as plain values; None for what is not known.
    fn to_dict<'py>(slf: &Bound<'py, Self>) -> PyResult<Dict<'py>> {
        let (py, this) = (slf.py(), slf.get());
        let dict = PyDict::new(py);
        for name in [
            "name",
            "verdict",
            "readiness",
            "overall_height_mm",
            "headroom_mm",
            "rivets",
            "sheets_count",
            "labour_h",
            "price",
        ] {
            dict.set_item(name, slf.getattr(name)?)?;
        }
        dict.set_item("mass", Mass::to_dict(&Bound::new(py, this.mass())?)?)?;
        dict.set_item("body", Body::to_dict(&Bound::new(py, this.body())?)?)?;
        dict.set_item("splices", Splices::to_dict(&Bound::new(py, this.splices())?)?)?;
        dict.set_item("cut_list", CutList::to_dict(&Bound::new(py, this.cut_list())?)?)?;
        let lift = this.lift().map(|lift| Lift::to_dict(&Bound::new(py, lift)?)).transpose()?;
        dict.set_item("lift", lift)?;
        let caps = this.end_caps().map(|caps| EndCaps::to_dict(&Bound::new(py, caps)?)).transpose()?;
        dict.set_item("end_caps", caps)?;
        let schedule = this.schedule().map(|s| Schedule::to_dict(&Bound::new(py, s)?)).transpose()?;
        dict.set_item("schedule", schedule)?;
        dict.set_item("drilling", Drilling::to_dict(&Bound::new(py, this.drilling())?)?)?;
        let hole_lines = PyDict::new(py);
        for old in &this.core.old_lines {
            hole_lines.set_item(&old.name, HoleLinePlan::to_dict(&Bound::new(py, HoleLinePlan::new(old))?)?)?;
        }
        dict.set_item("hole_lines", hole_lines)?;
        let own = Self::quote(slf.clone().unbind());
        dict.set_item("quote", own.map(|own| own.to_dict(py)).transpose()?)?;
        let e = &this.core;
        let all = [
            ("checks", check_columns(&e.checks)),
            ("joints", tables::joints(e)),
            ("skin_loads", flatness::skin_loads(e)),
            ("flatness", this.flatness(py)?),
            ("flatness_advice", flatness::advice(e)),
            ("bows", tables::bows(e)),
            ("masses", tables::masses(e)),
            ("effects", tables::effects(e)),
            ("reminders", tables::reminders(e)),
            ("ledger", tables::ledger(e)),
            ("exits", tables::exits(e)),
            ("gate", tables::gate(e)),
            ("order", tables::order(e)),
            ("lines", tables::lines(e)),
            ("sheets", tables::sheets(e)),
            ("blanks", tables::blanks(e)),
            ("laps", tables::laps(e)),
            ("seam_policies", tables::seam_policies(e)),
            ("backers", tables::backers(e)),
            ("rivet_lots", tables::rivet_lots(e)),
            ("end_panels", tables::ends(e)),
            ("tasks", tables::tasks(e)),
            ("hanging_order", tables::hanging_order(e)),
            ("outlook", tables::outlook(e)),
            ("thinned", tables::thinned(e)),
            ("life_cost", tables::life_cost(e)),
            ("pairs", tables::pairs(e)),
            ("details", tables::details(e)),
            ("paint", paint::coats(e)),
            ("paint_outlook", paint::outlook(e)),
            ("causes", quote::causes(&e.causes)),
            ("assumed", tables::assumed(e)),
        ];
        for (name, columns) in all {
            dict.set_item(name, columns.rows(py)?)?;
        }
        Ok(Dict(dict))
    }

    fn __str__(&self, py: Python<'_>) -> PyResult<String> {
        away(py, || text::evaluation(&self.core))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("<Evaluation of {}: {}>", quoted(py, self.name())?, self.verdict()))
    }

    fn _repr_html_(&self, py: Python<'_>) -> PyResult<String> {
        away(py, || html::evaluation(&self.core))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let call = py.import("operator")?.getattr("methodcaller")?.call1(("evaluate",))?;
        Ok(Recipe { call, with: PyTuple::new(py, [Bound::new(py, self.plan.clone())?])? })
    }
}
