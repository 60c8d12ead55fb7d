//! One bend: how much sheet it takes, how sharp it may be, how far its outer face is stretched.

use crate::catalogue::{BendLimit, Catalogue, KFactor};
use crate::check::{Check, Level, Standing, significant, term};
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::{K, RADIUS_MM, THICKNESS_MM};

/// Sheet in a bend, mm: `BA = (π/180) A (R + K t)`, the length of the neutral axis (Machinery's Handbook).
pub fn bend_allowance_mm(angle_deg: f64, radius_mm: f64, thickness_mm: f64, k: f64) -> f64 {
    angle_deg.to_radians() * (radius_mm + k * thickness_mm)
}

/// From the tangent point to where the outside faces would meet, mm: `OSSB = (R + t) tan(A/2)`; none from 180 degrees on.
pub fn outside_setback_mm(angle_deg: f64, radius_mm: f64, thickness_mm: f64) -> Option<f64> {
    (angle_deg < 180.0).then(|| (radius_mm + thickness_mm) * (angle_deg.to_radians() / 2.0).tan())
}

/// What two outside dimensions together exceed the flat by, mm: `BD = 2 OSSB - BA`; none from 180 degrees on.
pub fn bend_deduction_mm(angle_deg: f64, radius_mm: f64, thickness_mm: f64, k: f64) -> Option<f64> {
    let setback_mm = outside_setback_mm(angle_deg, radius_mm, thickness_mm)?;
    Some(2.0 * setback_mm - bend_allowance_mm(angle_deg, radius_mm, thickness_mm, k))
}

/// Stretch of the outer face: `1 / (1 + 2 R/t)`, plane sections about an axis at mid-thickness.
pub fn outer_strain(radius_mm: f64, thickness_mm: f64) -> f64 {
    1.0 / (1.0 + 2.0 * radius_mm / thickness_mm)
}

/// Sharpest inside radius by the reduction of area in a tension test, mm: `t (50/r - 1)`, `r` in percent, not below nought
/// (from memory).
///
/// # Errors
/// A thickness that no sheet has; a reduction outside 1 to 100 percent.
pub fn least_radius_by_reduction_mm(thickness_mm: f64, reduction_percent: f64) -> Result<f64, Vec<Problem>> {
    all([
        in_range("thickness", Some(thickness_mm), THICKNESS_MM, "mm"),
        in_range("reduction", Some(reduction_percent), (1.0, 100.0), "%"),
    ])?;
    Ok((thickness_mm * (50.0 / reduction_percent - 1.0)).max(0.0))
}

/// Every problem of several tests, or none.
pub(super) fn all<const N: usize>(tests: [Result<(), Problem>; N]) -> Result<(), Vec<Problem>> {
    let problems: Vec<Problem> = tests.into_iter().filter_map(Result::err).collect();
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}

/// Where the neutral axis of a bend lies, and where that is from.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct NeutralAxis {
    /// From the inside face, in thicknesses.
    pub k: f64,
    /// Where it comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// The neutral axis of a bend: the user's own K, else the table of the metal, else the rule for gentle bends.
///
/// Inside the table K is interpolated between the radii and then the thicknesses beside it.
///
/// # Errors
/// A K of the user's own that none is; a bend that neither the table nor the rule covers: give K.
pub fn neutral_axis(
    catalogue: &Catalogue,
    material: &str,
    (thickness_mm, radius_mm): (f64, f64),
    own_k: Option<f64>,
) -> Result<NeutralAxis, Problem> {
    if let Some(k) = own_k {
        in_range("k", own_k, K, "")?;
        return Ok(NeutralAxis { k, source: "given".to_owned(), standing: Standing::Given });
    }
    if let Some(axis) = in_table(&catalogue.rows().k_factor, material, thickness_mm, radius_mm) {
        return Ok(axis);
    }
    let ratio = radius_mm / thickness_mm;
    let metal = material.split(' ').next().unwrap_or_default();
    let rules = || {
        let fits = |from: f64, to: Option<f64>| ratio >= from * (1.0 - 1e-9) && to.is_none_or(|to| ratio < to);
        let rules = catalogue.rows().k_rule.iter();
        rules.filter(move |r| (r.metal == "any" || r.metal == metal) && fits(r.from_ratio, r.to_ratio))
    };
    if let Some(rule) = rules().find(|r| r.stands_in) {
        let k = f64::midpoint(rule.low, rule.high);
        return Ok(NeutralAxis { k, source: rule.source.clone(), standing: rule.standing });
    }
    let told = rules().next().map_or_else(String::new, |r| {
        let range = if r.low < r.high { format!("{} to {}", r.low, r.high) } else { r.low.to_string() };
        format!(", such as {range} ({}, {})", r.source, r.standing.words())
    });
    let fix = format!(
        "no K is known for an inside radius of {} mm in {} mm of {material}: outside the table nothing is extrapolated; give K \
         from a test bend{told}",
        significant(radius_mm),
        significant(thickness_mm)
    );
    Err(Problem::missing("k", fix))
}

/// K out of the rows of a metal, between whose thicknesses and radii the bend lies.
fn in_table(rows: &[KFactor], material: &str, thickness_mm: f64, radius_mm: f64) -> Option<NeutralAxis> {
    let own: Vec<&KFactor> = rows.iter().filter(|r| r.material == material).collect();
    let between = |values: &mut dyn Iterator<Item = f64>, at: f64| {
        let (mut below, mut above) = (None::<f64>, None::<f64>);
        for value in values {
            // 0.06 in is 1.524 mm, whichever way it was written.
            if value <= at + 1e-6 && below.is_none_or(|b| value > b) {
                below = Some(value);
            }
            if value >= at - 1e-6 && above.is_none_or(|a| value < a) {
                above = Some(value);
            }
        }
        below.zip(above)
    };
    let share = |(low, high): (f64, f64), at: f64| if high - low > 1e-6 { (at - low) / (high - low) } else { 0.0 };
    let (thin, thick) = between(&mut own.iter().map(|r| r.thickness.mm()), thickness_mm)?;
    let along = |t: f64| {
        let row = |r: &&&KFactor| (r.thickness.mm() - t).abs() < 1e-9;
        let (low, high) = between(&mut own.iter().filter(row).map(|r| r.radius.mm()), radius_mm)?;
        let at = |radius: f64| own.iter().filter(row).find(|r| (r.radius.mm() - radius).abs() < 1e-9);
        let (a, b) = (at(low)?, at(high)?);
        Some((a.k + (b.k - a.k) * share((low, high), radius_mm), a.standing.with(b.standing), a.source.clone()))
    };
    let ((k0, s0, source), (k1, s1, _)) = (along(thin)?, along(thick)?);
    let k = k0 + (k1 - k0) * share((thin, thick), thickness_mm);
    Some(NeutralAxis { k, source, standing: s0.with(s1) })
}

/// The row of the sharpest bend of a grade or coating; none where there is none for sheet of this thickness.
pub fn bend_limit<'a>(catalogue: &'a Catalogue, of: &str, thickness_mm: f64) -> Option<&'a BendLimit> {
    let rows = catalogue.rows().bend_limit.iter();
    rows.filter(|r| r.of == of).find(|r| r.up_to.is_none_or(|most| thickness_mm <= most.mm() + 1e-9))
}

/// A bend.
#[derive(Debug, Clone, PartialEq)]
pub struct Bend {
    /// Sheet, mm.
    pub thickness_mm: f64,
    /// Inside radius, mm.
    pub radius_mm: f64,
    /// How far it turns, degrees: 90 for a square corner.
    pub angle_deg: f64,
    /// Its neutral axis.
    pub axis: NeutralAxis,
}

impl Bend {
    /// A bend, its K as by [`neutral_axis`].
    ///
    /// # Errors
    /// Sizes that no bend has, all at once; a K that is not known.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::Catalogue;
    /// use raisedbody::mechanics::forming::Bend;
    /// let catalogue = Catalogue::standard().unwrap();
    /// // A square bend of 0.120 in inside radius in cold-rolled sheet of 0.060 in.
    /// let bend = Bend::new(&catalogue, "carbon steel", 1.524, 3.048, 90.0, None).unwrap();
    /// assert!((bend.allowance_mm() / 25.4 - 0.2321).abs() < 5e-5);
    /// ```
    pub fn new(
        catalogue: &Catalogue,
        material: &str,
        thickness_mm: f64,
        radius_mm: f64,
        angle_deg: f64,
        k: Option<f64>,
    ) -> Result<Self, Vec<Problem>> {
        all([
            in_range("thickness", Some(thickness_mm), THICKNESS_MM, "mm"),
            in_range("radius", Some(radius_mm), RADIUS_MM, "mm"),
            in_range("angle", Some(angle_deg), (0.1, 360.0), "deg"),
            in_range("k", k, K, ""),
            catalogue.material("material", material).map(|_| ()),
        ])?;
        let axis = neutral_axis(catalogue, material, (thickness_mm, radius_mm), k).map_err(|p| vec![p])?;
        Ok(Self { thickness_mm, radius_mm, angle_deg, axis })
    }

    /// Sheet in the bend, mm.
    pub fn allowance_mm(&self) -> f64 {
        bend_allowance_mm(self.angle_deg, self.radius_mm, self.thickness_mm, self.axis.k)
    }

    /// Outside setback, mm.
    pub fn setback_mm(&self) -> Option<f64> {
        outside_setback_mm(self.angle_deg, self.radius_mm, self.thickness_mm)
    }

    /// Bend deduction, mm.
    pub fn deduction_mm(&self) -> Option<f64> {
        bend_deduction_mm(self.angle_deg, self.radius_mm, self.thickness_mm, self.axis.k)
    }

    /// Stretch of the outer face.
    pub fn strain(&self) -> f64 {
        outer_strain(self.radius_mm, self.thickness_mm)
    }

    /// The inside radius against the sharpest one of a grade or coating (`"SS33"`, `"zinc coating"`).
    pub fn radius_check(&self, catalogue: &Catalogue, of: &str) -> Check {
        let row = bend_limit(catalogue, of, self.thickness_mm);
        let ratio = row.map(|r| r.high_ratio);
        let sides = (ratio.map(|ratio| ratio * self.thickness_mm), Some(self.radius_mm), "mm");
        let clause = row.map_or_else(String::new, |r| r.source.clone());
        let standing = row.map_or(Standing::Given, |r| r.standing.with(Standing::Given));
        let check = Check::compare("bend, inside radius", clause, sides, Level::Stated, standing).at(of);
        match ratio {
            Some(ratio) => check.by(
                "c t ≤ R",
                [term("c", ratio, ""), term("t", self.thickness_mm, "mm"), term("R", self.radius_mm, "mm")],
            ),
            None => check.because(format!("no sharpest bend of {of} is known in this thickness: bend a strip to see")),
        }
    }
}
