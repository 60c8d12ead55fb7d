//! The roof off its posts: what the cribs or jacks carry, what the braces hold, and the wind at which work stops.
//!
//! The roof is one rigid body. It stands on supports, each a strut pinned at both ends: it carries pressure only and holds
//! nothing sideways. Cut posts hold nothing. What holds the roof fore and aft, across and against turning are braces between
//! the body below the cut and the roof above it. Every result is a planning figure and none is a clearance.

mod braced;
mod statics;

pub use braced::{Extremes, Forces, Stage, Stop, StopWind, missing_bracing};
pub use statics::{drop_load_n, even_loads_n, greatest_loads_n, lagging_loads_n, shared_loads_n, tipping_margin_mm};

use super::stability::{GRAVITY_M_S2, stagnation_pressure_pa};

/// The roof that is lifted, before the lift. x is forward of the rear face, y to the left of the middle, z above the ground.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Roof {
    /// Its mass, kg.
    pub mass_kg: f64,
    /// Its centre of mass, mm.
    pub centre_mm: [f64; 3],
}

impl Roof {
    /// Its weight, N.
    pub fn weight_n(&self) -> f64 {
        self.mass_kg * GRAVITY_M_S2
    }
}

/// A crib or jack under the roof.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Support {
    /// What to call it.
    pub name: String,
    /// Forward of the rear face, mm.
    pub x_mm: f64,
    /// To the left of the middle, mm.
    pub y_mm: f64,
    /// What it stands on, above the ground, mm.
    pub foot_mm: f64,
    /// Where the roof rests on it before the lift, above the ground, mm.
    pub top_mm: f64,
    /// What its maker rates it for, N; none where not known.
    pub capacity_n: Option<f64>,
}

/// A bar, strap or chain from the body below the cut to the roof above it, pinned at both ends and without pretension.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Brace {
    /// What to call it.
    pub name: String,
    /// On the body, mm.
    pub from_mm: [f64; 3],
    /// On the roof before the lift, mm; it rises with the roof.
    pub to_mm: [f64; 3],
    /// Area of its section, mm2.
    pub area_mm2: f64,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// What it may be pulled with, N; none where not known.
    pub tension_n: Option<f64>,
    /// What it may be pressed with, N: nought for a strap or chain, which then goes slack; none where not known.
    pub compression_n: Option<f64>,
}

impl Brace {
    /// From its point on the body to its point on the roof, mm.
    pub fn run_mm(&self, rise_mm: f64) -> [f64; 3] {
        let ([x, y, z], [x0, y0, z0]) = (self.to_mm, self.from_mm);
        [x - x0, y - y0, z + rise_mm - z0]
    }

    /// Its length when the roof is up by so much, mm.
    pub fn length_mm(&self, rise_mm: f64) -> f64 {
        let [x, y, z] = self.run_mm(rise_mm);
        x.hypot(y).hypot(z)
    }

    /// How steep it then is: degrees over the level.
    pub fn angle_deg(&self, rise_mm: f64) -> f64 {
        let [x, y, z] = self.run_mm(rise_mm);
        z.atan2(x.hypot(y)).to_degrees()
    }

    /// It can be pressed: a bar, no strap.
    pub fn takes_compression(&self) -> bool {
        self.compression_n.is_some_and(|n| n > 0.0)
    }
}

/// What the wind finds of the roof, and how hard it pushes. Its middle is that of the box around the roof.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct WindFace {
    /// Side face of the roof, m2.
    pub side_m2: f64,
    /// End faces of the roof that the wind along the bus finds, both together, m2.
    pub ends_m2: f64,
    /// The roof from above, m2.
    pub plan_m2: f64,
    /// The roof along and across, mm.
    pub size_mm: [f64; 2],
    /// Middle of the faces before the lift, mm.
    pub middle_mm: [f64; 3],
    /// Push on a face in parts of the stagnation pressure.
    pub push: f64,
    /// Lift on the roof in parts of the stagnation pressure.
    pub uplift: f64,
    /// How far towards the wind the lift may act off the roof's middle, in parts of the roof's size along the wind.
    pub uplift_off: f64,
    /// Density of the air, kg/m3.
    pub air_density_kg_m3: f64,
}

impl WindFace {
    /// Lift of a wind on the whole roof, N.
    pub fn uplift_n(&self, wind_m_s: f64) -> f64 {
        stagnation_pressure_pa(self.air_density_kg_m3, wind_m_s) * self.uplift * self.plan_m2
    }
}

/// What stands against the wind besides the braces, and what the planner asks for.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Conditions {
    /// Slope of the ground along the bus, mm/mm.
    pub slope_along: f64,
    /// Slope of the ground across the bus, mm/mm.
    pub slope_across: f64,
    /// How far a support may stand out of plumb, mm/mm.
    pub out_of_plumb: f64,
    /// Friction under the supports' feet.
    pub friction: f64,
    /// Stiffness of each support, N/mm.
    pub support_n_mm: f64,
    /// How far one support may stand lower than the others, mm.
    pub lag_mm: f64,
    /// Factor on the weight where it holds the roof down.
    pub holding_down: f64,
    /// The planner's factor on every load.
    pub factor: f64,
}

/// All that holds the roof while it is off.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Lift {
    /// The roof.
    pub roof: Roof,
    /// Cribs or jacks.
    pub supports: Vec<Support>,
    /// Braces.
    pub braces: Vec<Brace>,
    /// What the wind finds.
    pub wind: WindFace,
    /// Ground, friction, stiffness, factor.
    pub conditions: Conditions,
}

impl Lift {
    /// Places of the supports, mm.
    pub fn places_mm(&self) -> Vec<[f64; 2]> {
        self.supports.iter().map(|s| [s.x_mm, s.y_mm]).collect()
    }

    /// The roof's centre as seen from above, mm.
    pub fn centre_mm(&self) -> [f64; 2] {
        let [x, y, _] = self.roof.centre_mm;
        [x, y]
    }
}

/// Heights of a lift in steps, mm, from nought up; the last step may be shorter.
pub fn heights_mm(rise_mm: f64, step_mm: f64) -> Vec<f64> {
    let mut heights: Vec<f64> =
        (0..MOST_STEPS).map(|i| i as f64 * step_mm).take_while(|z| *z < rise_mm - 0.5).collect();
    heights.push(rise_mm);
    heights
}

/// More steps than any lift is made in.
pub const MOST_STEPS: usize = 60;
