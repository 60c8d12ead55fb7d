//! One sheet of metal: thicknesses with and without coating, mass, strength, and the standing of all three.

use crate::catalogue::{Catalogue, Coating, CoatingFamily, GaugeSystem, SkinFamily};
use crate::check::{Standing, significant};
use crate::error::Problem;

use super::corrosion::coating_thickness_um;

/// Metallic coating on a sheet, per side.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetCoating {
    /// Designation: `"G90"`, `"A40"`.
    pub designation: String,
    /// What it is made of.
    pub family: CoatingFamily,
    /// Put on by current, not by dipping.
    pub electrolytic: bool,
    /// Least mass on both sides together, kg/m2; none where the standard sets none.
    pub both_sides_kg_m2: Option<f64>,
    /// Thickness on each side if the least average mass is split evenly, µm.
    pub even_um: f64,
    /// Thickness on the thinner side that the standard still permits, µm.
    pub least_um: f64,
    /// How these are known.
    pub standing: Standing,
}

/// A sheet as ordered or as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What to call it: `"18 ga A40 SS33"`.
    pub label: String,
    /// Metal: a name of the catalogue's material table.
    pub material: String,
    /// Nominal thickness, coating included, mm.
    pub thickness_mm: f64,
    /// Thickness of the metal under the coating, mm.
    pub base_mm: f64,
    /// Least thickness, coating included, mm: as measured, or what the ordered gauge's tolerance permits; none where no
    /// tolerance is published.
    pub least_mm: Option<f64>,
    /// Least thickness of the metal that the usual tolerance permits, mm; as measured where it was measured.
    pub least_base_mm: f64,
    /// Thickness that strengths are worked with, mm: see [`design_thickness_mm`].
    pub design_mm: f64,
    /// Mass, kg/m2.
    pub areal_mass_kg_m2: f64,
    /// Yield strength, MPa, where the grade guarantees one or the user gives one.
    pub fy_mpa: Option<f64>,
    /// Tensile strength, MPa, where the grade guarantees one or the user gives one.
    pub fu_mpa: Option<f64>,
    /// Coating, if any.
    pub coating: Option<SheetCoating>,
    /// Weakest standing among thickness and strength.
    pub standing: Standing,
}

/// What a user says of a sheet. Either a gauge or a thickness; a grade, or strengths from a certificate or coupon.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SheetOrder {
    /// Gauge number.
    pub gauge: Option<u32>,
    /// Measured or certified thickness, coating included, mm.
    pub thickness_mm: Option<f64>,
    /// Coating designation.
    pub coating: Option<String>,
    /// Grade name.
    pub grade: Option<String>,
    /// Yield strength from a certificate or coupon, MPa.
    pub fy_mpa: Option<f64>,
    /// Tensile strength from a certificate or coupon, MPa.
    pub fu_mpa: Option<f64>,
}

/// Thickness for strength where only the nominal and the least permitted one are known, mm.
///
/// EN 1993-1-3:2006, 3.2.4(3) and AISI S100-16, B7.1, both from memory: a tolerance of 5 % is covered by the safety
/// factors; a larger one reduces the thickness to `least / 0.95`.
pub fn design_thickness_mm(base_mm: f64, least_base_mm: f64) -> f64 {
    base_mm.min(least_base_mm / 0.95)
}

/// Mass per area of coated sheet, kg/m2: metal by its density, plus the coating.
pub fn areal_mass_kg_m2(base_mm: f64, density_kg_m3: f64, coating_kg_m2: f64) -> f64 {
    base_mm / 1000.0 * density_kg_m3 + coating_kg_m2
}

impl SheetOrder {
    /// What is wrong with the order itself, before any row is looked up.
    fn problems(&self, field: &impl Fn(&str) -> String) -> Vec<Problem> {
        let mut problems: Vec<Problem> = [
            in_range(&field("fy"), self.fy_mpa, (20.0, 2000.0), "MPa"),
            in_range(&field("fu"), self.fu_mpa, (20.0, 2000.0), "MPa"),
            in_range(&field("thickness"), self.thickness_mm, (0.2, 6.0), "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if let (Some(fy), Some(fu)) = (self.fy_mpa, self.fu_mpa)
            && fy > fu
        {
            problems.push(Problem::contradiction(
                field("fy"),
                format!("{fy} MPa"),
                format!("yield strength cannot exceed the tensile strength of {fu} MPa; check which is which"),
            ));
        }
        match (self.gauge, self.thickness_mm) {
            (Some(gauge), Some(mm)) => problems.push(Problem::contradiction(
                field("thickness"),
                format!("{mm} mm"),
                format!("gauge {gauge} is given too; give one of them"),
            )),
            (None, None) => {
                problems.push(Problem::missing(field("gauge"), "write gauge = 18 or thickness = \"1.2 mm\""));
            }
            _ => {}
        }
        problems
    }
}

impl Sheet {
    /// What it is made of, as far as rust, paint and welding go.
    pub fn family(&self) -> SkinFamily {
        SkinFamily::of(&self.material, self.coating.as_ref().map(|c| (c.family, c.electrolytic)))
    }

    /// Works a sheet out of what the user says; `path` names the field in errors.
    ///
    /// # Errors
    /// Unknown gauge, coating or grade; neither or both of gauge and thickness; a size or strength outside what sheet is; a coating
    /// whose standard does not cover this thickness.
    pub fn new(order: &SheetOrder, catalogue: &Catalogue, path: &str) -> Result<Self, Vec<Problem>> {
        let mut problems = Vec::new();
        let field = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
        let mut keep = |result: Result<(), Problem>| {
            if let Err(problem) = result {
                problems.push(problem);
            }
        };
        let coating = match order.coating.as_deref() {
            None | Some("none") => None,
            Some(name) => catalogue.coating(&field("coating"), name).map_err(|p| keep(Err(p))).ok(),
        };
        let grade = order
            .grade
            .as_deref()
            .and_then(|name| catalogue.grade(&field("grade"), name).map_err(|p| keep(Err(p))).ok());
        let material_name = grade.map_or("carbon steel", |g| g.material.as_str());
        let material = catalogue.material(&field("grade"), material_name).map_err(|p| keep(Err(p))).ok();
        if let (Some(coating), Some(material)) = (coating, material)
            && material.name != "carbon steel"
        {
            keep(Err(Problem::contradiction(
                field("coating"),
                &coating.designation,
                format!("a metallic coating goes on carbon steel, not on {}; leave it out", material.name),
            )));
        }
        order.problems(&field).into_iter().for_each(|problem| keep(Err(problem)));
        let system = gauge_system(coating, material.map(|m| m.gauge_system));
        let gauge_row =
            order.gauge.and_then(|g| catalogue.gauge(&field("gauge"), system, g).map_err(|p| keep(Err(p))).ok());
        if let Some(material) = material {
            keep(in_range(&field("grade"), Some(material.density.kg_m3()), (500.0, 20_000.0), "kg/m3"));
        }
        let (Some(material), true) = (material, problems.is_empty()) else {
            return Err(problems);
        };

        let on_sheet = coating.map(sheet_coating);
        let coating_kg_m2 = coating.and_then(|c| c.both_sides).map_or(0.0, |m| m.kg_m2());
        let coating_mm = on_sheet.as_ref().map_or(0.0, |c| 2.0 * c.even_um / 1000.0);
        let mut standing = Standing::Given;
        let (thickness_mm, least_base_mm) = match (gauge_row, order.thickness_mm) {
            (Some(row), _) => {
                standing = row.standing;
                let nominal = row.thickness.mm();
                // Without a published tolerance the nominal thickness is all there is.
                let least = row.least.map_or(nominal, |l| l.mm());
                (nominal, least - coating_mm)
            }
            (None, Some(mm)) => (mm, mm - coating_mm),
            (None, None) => (0.0, 0.0),
        };
        let base_mm = thickness_mm - coating_mm;
        // A measured thickness has no tolerance left to allow for.
        let design_mm = if gauge_row.is_some() { design_thickness_mm(base_mm, least_base_mm) } else { base_mm };
        // A row of the user's own can hold anything; what is left for the metal must be a sheet.
        if ![thickness_mm, base_mm, design_mm].iter().all(|mm| (0.15..=6.0).contains(mm)) {
            let (name, value) = match (gauge_row, order.thickness_mm) {
                (Some(row), _) => ("gauge", row.gauge.to_string()),
                (None, mm) => ("thickness", format!("{} mm", mm.unwrap_or_default())),
            };
            let problem = format!("leaves {design_mm:.3} mm of metal to count on; a sheet has 0.15 to 6 mm");
            return Err(vec![Problem::contradiction(field(name), value, problem)]);
        }
        if let Some(problem) =
            coating.and_then(|c| not_made(c, thickness_mm, gauge_row.map(|row| row.gauge), catalogue))
        {
            let name = if gauge_row.is_some() { "gauge" } else { "thickness" };
            return Err(vec![problem.with_path(field(name))]);
        }
        let fy_mpa = order.fy_mpa.or(grade.and_then(|g| g.fy).map(|f| f.mpa()));
        let fu_mpa = order.fu_mpa.or(grade.and_then(|g| g.fu).map(|f| f.mpa()));
        if let (Some(fy), Some(fu)) = (fy_mpa, fu_mpa)
            && fy > fu
        {
            // Both given were compared above: one of them is the grade's.
            let (name, value) = if order.fy_mpa.is_some() { ("fy", fy) } else { ("fu", fu) };
            let problem = format!("with the grade's other strength the yield of {fy} MPa exceeds the tensile {fu} MPa");
            return Err(vec![Problem::contradiction(field(name), format!("{value} MPa"), problem)]);
        }
        if (order.fu_mpa.is_none() || order.fy_mpa.is_none())
            && let Some(grade) = grade
        {
            standing = standing.with(grade.standing);
        }
        if let Some(on_sheet) = &on_sheet {
            standing = standing.with(on_sheet.standing);
        }
        Ok(Self {
            label: label(order, thickness_mm),
            material: material.name.clone(),
            thickness_mm,
            base_mm,
            least_mm: gauge_row.map_or(order.thickness_mm, |row| row.least.map(|least| least.mm())),
            least_base_mm,
            design_mm,
            areal_mass_kg_m2: areal_mass_kg_m2(base_mm, material.density.kg_m3(), coating_kg_m2),
            fy_mpa,
            fu_mpa,
            coating: on_sheet,
            standing,
        })
    }
}

impl Sheet {
    /// The sheet without its coating and with so much of its metal gone on one side, mm; nothing is left of one that was thinner.
    #[must_use]
    pub fn thinned(&self, lost_mm: f64) -> Self {
        let less = |mm: f64| (mm - lost_mm).max(0.0);
        Self {
            thickness_mm: less(self.base_mm),
            base_mm: less(self.base_mm),
            least_mm: Some(less(self.least_base_mm)),
            least_base_mm: less(self.least_base_mm),
            design_mm: less(self.design_mm),
            coating: None,
            ..self.clone()
        }
    }
}

/// The standard of a coating does not cover sheet of this thickness; none where it does, or where no row tells its range.
fn not_made(coating: &Coating, thickness_mm: f64, gauge: Option<u32>, catalogue: &Catalogue) -> Option<Problem> {
    let range = catalogue.coated_range(&coating.standard)?;
    // 0.2 mm stays 0.2 mm whichever unit it was written in.
    let covered = thickness_mm > range.from.mm() - 1e-9 && thickness_mm < range.below.mm() - 1e-9;
    let mm = significant(thickness_mm);
    let value = gauge.map_or_else(|| format!("{mm} mm"), |gauge| format!("{gauge} ({mm} mm)"));
    let allowed = format!(
        "{} mm and more, below {} mm: {} is made to {} only there; take such a thickness, or a coating of another standard",
        significant(range.from.mm()),
        significant(range.below.mm()),
        coating.designation,
        coating.standard
    );
    (!covered).then(|| Problem::out_of_range("", value, allowed))
}

/// Which gauge series applies: a zinc-bearing coating has its own, else the metal decides.
fn gauge_system(coating: Option<&Coating>, of_metal: Option<GaugeSystem>) -> GaugeSystem {
    if coating.is_some() { GaugeSystem::ZincCoatedSteel } else { of_metal.unwrap_or(GaugeSystem::UncoatedSteel) }
}

fn sheet_coating(row: &Coating) -> SheetCoating {
    let density = row.density.kg_m3();
    let per_side = |mass: f64| coating_thickness_um(mass * 1000.0, density);
    let even_um = row.both_sides.map_or(0.0, |m| per_side(m.kg_m2() / 2.0));
    // Where the standard states no least side, its usual share holds: 40 % of the single spot (ASTM A653, note to table 1).
    let least_um =
        row.one_side.map(|m| m.kg_m2()).or_else(|| row.single_spot.map(|m| 0.4 * m.kg_m2())).map_or(0.0, per_side);
    SheetCoating {
        designation: row.designation.clone(),
        family: row.family,
        electrolytic: row.electrolytic,
        both_sides_kg_m2: row.both_sides.map(|m| m.kg_m2()),
        even_um,
        least_um: least_um.min(even_um),
        standing: row.standing,
    }
}

fn label(order: &SheetOrder, thickness_mm: f64) -> String {
    let size = order.gauge.map_or_else(|| format!("{thickness_mm} mm"), |g| format!("{g} ga"));
    let parts = [Some(size), order.coating.clone(), order.grade.clone()];
    parts.into_iter().flatten().filter(|p| p != "none").collect::<Vec<_>>().join(" ")
}

/// A problem where a value is not a number or lies outside its bounds.
pub(crate) fn in_range(path: &str, value: Option<f64>, bounds: (f64, f64), unit: &str) -> Result<(), Problem> {
    let (least, most) = bounds;
    match value {
        Some(v) if !(least..=most).contains(&v) => {
            // 1.5 times 4.8 is 7.2, not 7.199999999999999.
            let (least, most) = (significant(least), significant(most));
            Err(Problem::out_of_range(path, format!("{v} {unit}").trim(), format!("{least} to {most} {unit}").trim()))
        }
        _ => Ok(()),
    }
}
