//! What the air costs on the road: drag, power, fuel. Rolling, hills and starts are not in it.

use super::stability::stagnation_pressure_pa;

/// Drag `C_d A q`, N.
pub fn drag_n(drag_coefficient: f64, frontal_area_m2: f64, air_density_kg_m3: f64, speed_m_s: f64) -> f64 {
    drag_coefficient * frontal_area_m2 * stagnation_pressure_pa(air_density_kg_m3, speed_m_s)
}

/// Power at the wheels against a force, kW.
pub fn power_kw(force_n: f64, speed_m_s: f64) -> f64 {
    force_n * speed_m_s / 1000.0
}

/// What becomes of fuel between tank and wheels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Driveline {
    /// Fuel for a kilowatt-hour at the crankshaft, g/kWh.
    pub fuel_use_g_kwh: f64,
    /// Share of the engine's work that reaches the wheels.
    pub efficiency: f64,
    /// Density of the fuel, kg/m3.
    pub fuel_density_kg_m3: f64,
}

impl Driveline {
    /// Fuel against a force over 100 km, L.
    ///
    /// # Example
    /// ```
    /// use raisedbody::body::road_load::Driveline;
    /// let diesel = Driveline { fuel_use_g_kwh: 220.0, efficiency: 0.9, fuel_density_kg_m3: 840.0 };
    /// assert!((diesel.fuel_l_100km(385.0) - 3.1).abs() < 0.05);
    /// ```
    pub fn fuel_l_100km(self, force_n: f64) -> f64 {
        let crankshaft_kwh = force_n * 1e5 / 3.6e6 / self.efficiency;
        crankshaft_kwh * self.fuel_use_g_kwh / self.fuel_density_kg_m3
    }
}
