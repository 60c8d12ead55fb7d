//! What is added, removed and moved, and what that does to weight, centre of gravity and axle loads.

use crate::check::Standing;

/// What happens to a mass.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub enum Change {
    /// It comes onto the bus.
    Added,
    /// It leaves the bus.
    Removed,
    /// It stays but rises by so much, mm.
    Moved {
        /// How far it rises, mm.
        rise_mm: f64,
    },
}

impl Change {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Added => "added",
            Self::Removed => "removed",
            Self::Moved { .. } => "moved",
        }
    }

    /// How far the mass rises, mm; nought unless it is moved.
    pub fn rise_mm(self) -> f64 {
        match self {
            Self::Moved { rise_mm } => rise_mm,
            Self::Added | Self::Removed => 0.0,
        }
    }
}

/// What a mass belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Group {
    /// New skin with its coats.
    Skin,
    /// Inserts and backing tube.
    Frame,
    /// Rivets and sealant.
    Fastening,
    /// Windows, old skin, and what else the plan takes out.
    Strip,
    /// The roof that is lifted.
    Roof,
    /// What the plan puts in.
    FitOut,
}

impl Group {
    /// The word shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Skin => "skin",
            Self::Frame => "frame",
            Self::Fastening => "fastening",
            Self::Strip => "strip",
            Self::Roof => "roof",
            Self::FitOut => "fit-out",
        }
    }
}

/// A mass and its middle: mm forward of the rear face, left of the middle, above the ground.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct MassItem {
    /// What it is.
    pub name: String,
    /// What it belongs to.
    pub group: Group,
    /// What happens to it.
    pub change: Change,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Forward of the rear face, mm.
    pub x_mm: f64,
    /// Left of the middle, mm.
    pub y_mm: f64,
    /// Above the ground where it ends up (added), was (removed), or was before it moved, mm.
    pub z_mm: f64,
    /// How the mass is known.
    pub standing: Standing,
}

/// A whole mass and its centre of gravity.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Balance {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Forward of the rear face, mm.
    pub x_mm: f64,
    /// Left of the middle, mm.
    pub y_mm: f64,
    /// Above the ground, mm.
    pub z_mm: f64,
}

impl Balance {
    /// The balance of an empty bus from its axle weights: the lever rule about the rear axle.
    pub fn from_axles(front_kg: f64, rear_kg: f64, rear_axle_mm: f64, wheelbase_mm: f64, z_mm: f64) -> Self {
        let mass_kg = front_kg + rear_kg;
        Self { mass_kg, x_mm: rear_axle_mm + wheelbase_mm * front_kg / mass_kg, y_mm: 0.0, z_mm }
    }

    /// The balance after items are added, removed and moved: M = Σ m, each coordinate by first moments; a mass m that
    /// rises by d raises the centre by m d / M.
    #[must_use]
    pub fn after<'a>(self, items: impl IntoIterator<Item = &'a MassItem>) -> Self {
        let mut mass = self.mass_kg;
        let mut moment = [self.mass_kg * self.x_mm, self.mass_kg * self.y_mm, self.mass_kg * self.z_mm];
        for item in items {
            let signed = match item.change {
                Change::Added => item.mass_kg,
                Change::Removed => -item.mass_kg,
                Change::Moved { rise_mm } => {
                    moment[2] += item.mass_kg * rise_mm;
                    continue;
                }
            };
            mass += signed;
            for (m, at) in moment.iter_mut().zip([item.x_mm, item.y_mm, item.z_mm]) {
                *m += signed * at;
            }
        }
        Self { mass_kg: mass, x_mm: moment[0] / mass, y_mm: moment[1] / mass, z_mm: moment[2] / mass }
    }

    /// Front and rear axle load, kg, by the lever rule about the rear axle.
    ///
    /// A centre of gravity behind the rear axle lifts the front: the front load is then negative.
    ///
    /// # Example
    /// ```
    /// use raisedbody::body::masses::Balance;
    /// let bus = Balance::from_axles(2800.0, 4800.0, 2000.0, 6220.0, 1100.0);
    /// let (front, rear) = bus.axle_loads_kg(2000.0, 6220.0);
    /// assert!((front - 2800.0).abs() < 1e-9 && (rear - 4800.0).abs() < 1e-9);
    /// ```
    pub fn axle_loads_kg(self, rear_axle_mm: f64, wheelbase_mm: f64) -> (f64, f64) {
        let front = self.mass_kg * (self.x_mm - rear_axle_mm) / wheelbase_mm;
        (front, self.mass_kg - front)
    }

    /// Share of the mass that stands on the left wheels: 1/2 + y / track.
    pub fn left_share(self, track_mm: f64) -> f64 {
        0.5 + self.y_mm / track_mm
    }
}
