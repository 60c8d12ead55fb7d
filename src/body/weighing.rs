//! Height of the centre of gravity of the empty vehicle from a weighing: one axle lifted, or the whole tilted.

use crate::error::Problem;

/// Readings with one axle lifted. Springs are blocked and brakes off, so that body and axles turn as one rigid piece and
/// every wheel carries straight down.
///
/// Level, the axles stand `wheelbase_mm` apart; lifted, the vehicle turns by the angle θ, and the centre of gravity, which
/// lies c above the wheel centres of the low axle, moves towards that axle by c sin θ. Moments about the lifted wheels
/// then give c; no angle is taken as small.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleLift {
    /// Level, on the axle that stays low, kg.
    pub level_low_kg: f64,
    /// Level, on the axle that is lifted, kg.
    pub level_raised_kg: f64,
    /// Lifted, on the axle that stays low, kg.
    pub lifted_low_kg: f64,
    /// Between the axles, level, mm.
    pub wheelbase_mm: f64,
    /// How far the lifted wheel centres rise, mm.
    pub lift_mm: f64,
    /// Ground to wheel centre of the low axle, mm.
    pub low_radius_mm: f64,
    /// Ground to wheel centre of the lifted axle while level, mm.
    pub raised_radius_mm: f64,
}

/// The lifted stance.
struct Lifted {
    /// Sine and cosine of the angle that the vehicle has turned by.
    sine: f64,
    cosine: f64,
    /// Between the axles along the ground, mm.
    reach_mm: f64,
}

impl AxleLift {
    fn lifted(&self) -> Result<Lifted, Problem> {
        let step_mm = self.raised_radius_mm - self.low_radius_mm;
        let between_mm = self.wheelbase_mm.hypot(step_mm);
        let risen_mm = step_mm + self.lift_mm;
        if !(self.lift_mm > 0.0 && risen_mm < between_mm) {
            let allowed = format!("above 0 mm, below {:.0} mm: the vehicle would stand on end", between_mm - step_mm);
            return Err(Problem::out_of_range(
                "vehicle.weighing.axle_lift.lift",
                format!("{} mm", self.lift_mm),
                allowed,
            ));
        }
        let turn = (risen_mm / between_mm).asin() - step_mm.atan2(self.wheelbase_mm);
        let reach_mm = ((between_mm - risen_mm) * (between_mm + risen_mm)).sqrt();
        Ok(Lifted { sine: turn.sin(), cosine: turn.cos(), reach_mm })
    }

    /// Everything that no vehicle can weigh.
    pub fn problems(&self) -> Vec<Problem> {
        let mass_kg = self.level_low_kg + self.level_raised_kg;
        let mut problems = Vec::new();
        let loads = [("vehicle.axle_weights", self.level_low_kg), ("vehicle.axle_weights", self.level_raised_kg)];
        for (path, kg) in loads {
            if !(kg > 0.0 && kg.is_finite()) {
                problems.push(Problem::out_of_range(path, format!("{kg} kg"), "above 0 kg"));
            }
        }
        if problems.is_empty() && !(self.lifted_low_kg > 0.0 && self.lifted_low_kg < mass_kg) {
            problems.push(Problem::out_of_range(
                "vehicle.weighing.axle_lift.low_axle_load",
                format!("{} kg", self.lifted_low_kg),
                format!("above 0 kg, below the whole vehicle's {mass_kg:.0} kg"),
            ));
        }
        problems.extend(self.lifted().err());
        problems
    }

    /// Height of the centre of gravity above the ground, mm: `r + (a cos θ − a′) / sin θ`, with
    /// `a = L m_raised / M` forward of the low axle when level and `a′ = L′ (M − m_lifted) / M` when lifted.
    ///
    /// With equal wheels this is `r + L (m_lifted − m_low) / (M tan θ)`, `sin θ = lift / L`.
    ///
    /// # Errors
    /// Loads or a lift that no vehicle can have.
    ///
    /// # Example
    /// ```
    /// use raisedbody::body::weighing::AxleLift;
    /// let weighing = AxleLift {
    ///     level_low_kg: 4450.0, level_raised_kg: 2950.0, lifted_low_kg: 4540.0, wheelbase_mm: 5280.0,
    ///     lift_mm: 600.0, low_radius_mm: 480.0, raised_radius_mm: 480.0,
    /// };
    /// assert!((weighing.cg_height_mm().unwrap() - 1041.0).abs() < 1.0);
    /// ```
    pub fn cg_height_mm(&self) -> Result<f64, Problem> {
        if let Some(first) = self.problems().into_iter().next() {
            return Err(first);
        }
        let Lifted { sine, cosine, reach_mm } = self.lifted()?;
        let mass_kg = self.level_low_kg + self.level_raised_kg;
        let level_mm = self.wheelbase_mm * self.level_raised_kg / mass_kg;
        let lifted_mm = reach_mm * (mass_kg - self.lifted_low_kg) / mass_kg;
        Ok(self.low_radius_mm + (level_mm * cosine - lifted_mm) / sine)
    }

    /// How far one kilogram on the lifted reading moves the height, mm/kg: L′ / (M sin θ). A higher lift makes it less.
    pub fn height_error_mm_per_kg(&self) -> Result<f64, Problem> {
        let Lifted { sine, reach_mm, .. } = self.lifted()?;
        Ok(reach_mm / ((self.level_low_kg + self.level_raised_kg) * sine))
    }

    /// Least and greatest height, mm, when each of the three readings may be off by so much.
    ///
    /// The height rises or falls steadily with each reading, so that the ends lie where every reading is off in full.
    pub fn cg_range_mm(&self, scale_error_kg: f64) -> Result<(f64, f64), Problem> {
        let mut range = (f64::INFINITY, f64::NEG_INFINITY);
        for signs in 0..8_u8 {
            let off = |reading: u8| if signs >> reading & 1 == 0 { -scale_error_kg } else { scale_error_kg };
            let height_mm = Self {
                level_low_kg: self.level_low_kg + off(0),
                level_raised_kg: self.level_raised_kg + off(1),
                lifted_low_kg: self.lifted_low_kg + off(2),
                ..*self
            }
            .cg_height_mm()?;
            range = (range.0.min(height_mm), range.1.max(height_mm));
        }
        Ok(range)
    }
}

/// Height of the centre of gravity, mm, of a rigid vehicle whose upper wheels are unloaded at this tilt: (T/2) / tan φ.
///
/// Springs and tyres lean first, so that a real vehicle tips at a smaller angle: the true height is no greater.
///
/// # Errors
/// An angle at which no vehicle tips.
pub fn cg_height_from_tilt_mm(track_mm: f64, tilt_deg: f64) -> Result<f64, Problem> {
    if !(tilt_deg > 0.0 && tilt_deg < 90.0) {
        let allowed = "above 0 deg, below 90 deg";
        return Err(Problem::out_of_range("vehicle.weighing.tilt_angle", format!("{tilt_deg} deg"), allowed));
    }
    Ok(track_mm / 2.0 / tilt_deg.to_radians().tan())
}
