//! Static stability of a rigid body on its wheels.

/// Static stability factor T / (2 h), without unit.
pub fn static_stability_factor(track_mm: f64, cg_height_mm: f64) -> f64 {
    track_mm / (2.0 * cg_height_mm)
}

/// Angle of a tilting platform at which a rigid vehicle would tip: atan((T/2 − |y|) / h), degrees.
///
/// `cg_offset_mm` is how far the centre of gravity stands to one side of the middle; the vehicle tips to that side.
///
/// Suspension and tyres let the body lean first, so that a real vehicle tips earlier; this is an upper bound.
pub fn rigid_tilt_angle_deg(track_mm: f64, cg_height_mm: f64, cg_offset_mm: f64) -> f64 {
    ((track_mm / 2.0 - cg_offset_mm.abs()) / cg_height_mm).atan().to_degrees()
}

/// Stagnation pressure ½ ρ v², Pa.
pub fn stagnation_pressure_pa(air_density_kg_m3: f64, speed_m_s: f64) -> f64 {
    0.5 * air_density_kg_m3 * speed_m_s * speed_m_s
}
