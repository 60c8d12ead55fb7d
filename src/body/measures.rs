//! Areas, volume and headroom of the body before and after a raise.

use super::outline::CrossSection;
use super::raise::{Ends, Raise, RaisedBody};
use super::survey::Survey;

/// The body in numbers.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Measures {
    /// Area that the wind meets, above the ground clearance, without fittings on the roof, m2.
    pub frontal_area_m2: f64,
    /// Outside volume above the floor, m3.
    pub enclosed_volume_m3: f64,
    /// Both sides up to the drip rail, from where the outline begins, window openings and doors included, m2.
    pub side_skin_m2: f64,
    /// Roof from drip rail to drip rail, m2.
    pub roof_skin_m2: f64,
    /// Clear height over the edge of the aisle, mm; none where the side or its lining stands in the way.
    pub aisle_headroom_mm: Option<f64>,
}

/// The body before and after a raise.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct BodyMeasures {
    /// Lower edge of the sides above the ground, mm: frontal areas are counted from here up.
    pub skirt_mm: f64,
    /// Width of the aisle, mm.
    pub aisle_mm: f64,
    /// As it stands.
    pub before: Measures,
    /// After the raise, floor and ceiling built up.
    pub after: Measures,
}

impl BodyMeasures {
    /// Volume and skins are those of a prism: the section runs through from the rear to the front face, so that the
    /// rounding of end caps is not taken off and the end faces are no part of the skins.
    ///
    /// Where part of the roof goes up, its sides and its volume count between the lengthened posts, and sloped ends by
    /// half. The ceiling as it stands is even in thickness, as much as it is on the centre line.
    pub fn of(survey: &Survey, raise: &Raise, raised: &RaisedBody, skirt_mm: f64, aisle_mm: f64) -> Self {
        let (floor_mm, drip_mm) = (survey.heights.floor_mm, survey.heights.drip_rail_mm);
        let length_m = survey.length_mm / 1000.0;
        let raised_m = raised_length_mm(survey, raise) / 1000.0;
        let (old, new) = (&survey.section, &raised.section);
        let sides_m = |section: &CrossSection, top_mm: f64| section.length_mm(f64::NEG_INFINITY, top_mm) / 1000.0;
        let lining_mm = old.roof_thickness_mm(floor_mm + survey.inside_height_mm);
        let roof_skin_m2 = old.length_mm(drip_mm, f64::INFINITY) / 1000.0 * length_m;
        let before = Measures {
            frontal_area_m2: old.frontal_area_m2(skirt_mm),
            enclosed_volume_m3: old.area_m2(floor_mm) * length_m,
            side_skin_m2: sides_m(old, drip_mm) * length_m,
            roof_skin_m2,
            aisle_headroom_mm: old.clear_height_mm(aisle_mm / 2.0, floor_mm, lining_mm),
        };
        let higher_m = sides_m(new, raised.heights.drip_rail_mm) - sides_m(old, drip_mm);
        let after = Measures {
            frontal_area_m2: new.frontal_area_m2(skirt_mm),
            enclosed_volume_m3: before.enclosed_volume_m3 + (new.area_m2(floor_mm) - old.area_m2(floor_mm)) * raised_m,
            side_skin_m2: before.side_skin_m2 + higher_m * raised_m,
            roof_skin_m2,
            aisle_headroom_mm: new.clear_height_mm(
                aisle_mm / 2.0,
                floor_mm + raise.floor_build_up_mm,
                lining_mm + raise.ceiling_build_up_mm,
            ),
        };
        Self { skirt_mm, aisle_mm, before, after }
    }
}

/// Length of the roof that goes up, sloped ends by half, mm.
pub fn raised_length_mm(survey: &Survey, raise: &Raise) -> f64 {
    let post = |i: usize| survey.posts_mm.get(i).copied().unwrap_or(0.0);
    let between_mm = post(raise.last_post) - post(raise.first_post);
    match raise.ends {
        Ends::WholeRoof => survey.length_mm,
        Ends::Stepped => between_mm,
        // Half of one run at each end.
        Ends::Sloped { run_mm } => (between_mm + run_mm).min(survey.length_mm),
    }
}
