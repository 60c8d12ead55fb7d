//! Stability on the wheels: rigid, on springs, in a crosswind, and the levels that others have asked for.

use crate::check::Standing;
use crate::error::Problem;

/// Standard gravity, m/s2.
pub const GRAVITY_M_S2: f64 = 9.806_65;

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

/// A real vehicle tips at about this part of the lateral acceleration that tips a rigid one: on average a quarter less for
/// tractor-tankers (abstract of SAE 2003-01-3385, read).
pub const SHARE_OF_RIGID: f64 = 0.75;

/// Stagnation pressure ½ ρ v², Pa.
pub fn stagnation_pressure_pa(air_density_kg_m3: f64, speed_m_s: f64) -> f64 {
    0.5 * air_density_kg_m3 * speed_m_s * speed_m_s
}

/// How a vehicle stands on its wheels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// Between the mid-lines of the wheels of an axle; of the pairs for twin tyres, mm.
    pub track_mm: f64,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Height of the centre of gravity, mm.
    pub cg_height_mm: f64,
    /// How far the centre of gravity stands to one side of the middle, mm; the vehicle tips to that side.
    pub cg_offset_mm: f64,
}

impl Stance {
    fn weight_n(self) -> f64 {
        self.mass_kg * GRAVITY_M_S2
    }
}

/// Springs, anti-roll bars and tyres of all axles taken together: a body that leans about one axis. Small angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollSprings {
    /// Moment for a lean of one radian, Nm/rad.
    pub stiffness_n_m_rad: f64,
    /// Height of the axis, mm.
    pub axis_height_mm: f64,
}

impl RollSprings {
    /// Height of the centre of gravity over the axis, m.
    fn arm_m(self, stance: Stance) -> f64 {
        (stance.cg_height_mm - self.axis_height_mm) / 1000.0
    }

    /// Stiffness left after the weight has had its share, `K − W h_s`, Nm/rad.
    ///
    /// # Errors
    /// Nothing is left: the body does not stand upright on these springs.
    fn left_n_m_rad(self, stance: Stance) -> Result<f64, Problem> {
        let taken = stance.weight_n() * self.arm_m(stance);
        let left = self.stiffness_n_m_rad - taken;
        if left > 0.0 && left.is_finite() {
            return Ok(left);
        }
        Err(Problem::out_of_range(
            "vehicle.roll_stiffness",
            format!("{} Nm/rad", self.stiffness_n_m_rad),
            format!(
                "above {taken:.0} Nm/rad, the weight times the height of its centre over the roll axis: below that the \
                 vehicle does not stand upright"
            ),
        ))
    }

    /// Roll rate `W h_s / (K − W h_s)`, radians of lean for a lateral acceleration of 1 g.
    ///
    /// # Errors
    /// `K ≤ W h_s`.
    pub fn roll_rate_rad_g(self, stance: Stance) -> Result<f64, Problem> {
        Ok(stance.weight_n() * self.arm_m(stance) / self.left_n_m_rad(stance)?)
    }

    /// `K / (K − W h_s)`: how much more a lean becomes because the weight follows it.
    fn amplification(self, stance: Stance) -> Result<f64, Problem> {
        Ok(self.stiffness_n_m_rad / self.left_n_m_rad(stance)?)
    }

    /// Steady lateral acceleration at which the inner wheels carry nothing, g:
    /// `(T/2 − |y| K/(K − W h_s)) / (h + W h_s²/(K − W h_s))`; in the middle this is `(T/2h) / (1 + R (1 − h_r/h))`.
    ///
    /// Lash, the order in which wheels lift, and tyre crush are left out: the real threshold is lower.
    ///
    /// # Errors
    /// `K ≤ W h_s`.
    ///
    /// # Example
    /// ```
    /// use raisedbody::body::stability::{RollSprings, Stance};
    /// let bus = Stance { track_mm: 1950.0, mass_kg: 7780.0, cg_height_mm: 1142.8, cg_offset_mm: 0.0 };
    /// let springs = RollSprings { stiffness_n_m_rad: 600e3, axis_height_mm: 650.0 };
    /// assert!((springs.rollover_threshold_g(bus).unwrap() - 0.829).abs() < 5e-4);
    /// ```
    pub fn rollover_threshold_g(self, stance: Stance) -> Result<f64, Problem> {
        let offset_mm = stance.cg_offset_mm.abs() * self.amplification(stance)?;
        let arm_mm = stance.cg_height_mm - self.axis_height_mm;
        let lever_mm = stance.cg_height_mm + arm_mm * self.roll_rate_rad_g(stance)?;
        Ok((stance.track_mm / 2.0 - offset_mm) / lever_mm)
    }
}

/// A wind square to the side of a vehicle at rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideWind {
    /// Area of the side, m2.
    pub area_m2: f64,
    /// Height of the middle of that area, where the force is taken to act, mm.
    pub centre_mm: f64,
    /// Side-force coefficient.
    pub coefficient: f64,
    /// Density of the air, kg/m3.
    pub air_density_kg_m3: f64,
}

impl SideWind {
    /// Wind speed at which the wheels on the side it comes from carry nothing, m/s; nought where they carry nothing
    /// without any wind.
    ///
    /// Rigid: `F z = W (T/2 − |y|)`. On springs the lean is in it: `F (h_r + n (z − h_r) A) = W (T/2 − |y| A)`, with
    /// `A = K/(K − W h_s)` and the overshoot n: 1 for a steady wind, up to 2 for a sudden gust, whose lean swings past that
    /// of a steady wind as strong.
    ///
    /// A rigid body on level ground has no balance left once a side is unloaded, for tilting only brings the weight
    /// nearer the far wheels: a steady wind of this speed overturns it. A gust that lasts a moment need not.
    ///
    /// # Errors
    /// `K ≤ W h_s`.
    pub fn unloading_m_s(self, stance: Stance, springs: Option<RollSprings>, overshoot: f64) -> Result<f64, Problem> {
        let (amplification, lever_mm) = match springs {
            None => (1.0, self.centre_mm),
            Some(springs) => {
                let amplification = springs.amplification(stance)?;
                let over_mm = self.centre_mm - springs.axis_height_mm;
                (amplification, springs.axis_height_mm + overshoot * over_mm * amplification)
            }
        };
        if lever_mm <= 0.0 {
            // The wind leans the body against itself.
            return Ok(f64::INFINITY);
        }
        let restoring = stance.weight_n() * (stance.track_mm / 2.0 - stance.cg_offset_mm.abs() * amplification);
        let force_n = restoring.max(0.0) / lever_mm;
        Ok((2.0 * force_n / (self.air_density_kg_m3 * self.coefficient * self.area_m2)).sqrt())
    }
}

/// What a yardstick is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Tilt angle of the rigid vehicle, degrees.
    TiltAngle,
    /// Rollover threshold on springs, g.
    RolloverThreshold,
}

/// A level of stability that someone has asked of some vehicles. None of them binds a converted bus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Yardstick {
    /// Where it stands.
    pub source: &'static str,
    /// What is compared.
    pub measure: Measure,
    /// The level, in the unit of the measure.
    pub level: f64,
    /// Whom it binds.
    pub binds: &'static str,
    /// The place it is of, by its short name in the catalogue; none where it is of no one place.
    pub place: Option<&'static str>,
    /// How it is known.
    pub standing: Standing,
}

/// Published levels of stability.
pub const YARDSTICKS: [Yardstick; 6] = [
    Yardstick {
        source: "UN R107 Annex 3",
        measure: Measure::TiltAngle,
        level: 28.0,
        binds: "new buses at type approval",
        place: None,
        standing: Standing::Memory,
    },
    Yardstick {
        source: "United Kingdom, single deck (dft.gov.uk, project S300A/VC)",
        measure: Measure::TiltAngle,
        level: 35.0,
        binds: "new single-deck buses of the United Kingdom",
        place: Some("GB"),
        standing: Standing::Read,
    },
    Yardstick {
        source: "United Kingdom, double deck (dft.gov.uk, project S300A/VC)",
        measure: Measure::TiltAngle,
        level: 28.0,
        binds: "new double-deck buses of the United Kingdom",
        place: Some("GB"),
        standing: Standing::Read,
    },
    Yardstick {
        source: "UN R111, tilt table",
        measure: Measure::TiltAngle,
        level: 23.0,
        binds: "tank vehicles",
        place: None,
        standing: Standing::Memory,
    },
    Yardstick {
        source: "UN R111, calculated, 4 m/s2",
        measure: Measure::RolloverThreshold,
        level: 4.0 / GRAVITY_M_S2,
        binds: "tank vehicles",
        place: None,
        standing: Standing::Memory,
    },
    Yardstick {
        source: "least threshold used by regulators (Billing and Patten, NRC Canada)",
        measure: Measure::RolloverThreshold,
        level: 0.40,
        binds: "tank trucks",
        place: None,
        standing: Standing::Read,
    },
];
