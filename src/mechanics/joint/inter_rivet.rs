//! A sheet pressed along a riveted line bulges between rivets like a short wide column.
//!
//! Wrinkling, the other way such a sheet fails, drags the flange along and needs the offset of the rivets and their
//! strength in tension: it is not covered here.

use std::f64::consts::PI;
use std::str::FromStr;

use crate::check::Standing;
use crate::error::{Problem, by_name};

use super::super::sheet::in_range;
use super::{STRENGTH_MPA, WALL_MM};

/// How firmly a fastener holds the sheet's slope: the coefficient c of the column formula.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum EndFixity {
    /// Flat head or bolt: 4, clamped.
    FlatHead,
    /// Spot weld: 3.5.
    SpotWeld,
    /// Round, brazier or universal head: 3.
    RoundHead,
    /// Countersunk, on the side of the tension head: 1.5.
    CountersunkTension,
    /// Countersunk, with a head made for shear: 1.
    CountersunkShear,
    /// Hollow blind rivet: 1.5, an assumption; no published value was found.
    #[default]
    HollowBlind,
    /// Effective length in parts of the pitch, K: c = 1 / K². EN 1993-1-8 takes 0.6.
    EffectiveLength(f64),
    /// The user's own coefficient.
    Own(f64),
}

impl EndFixity {
    /// Every fixity that has its own coefficient.
    pub const NAMED: [Self; 6] = [
        Self::FlatHead,
        Self::SpotWeld,
        Self::RoundHead,
        Self::CountersunkTension,
        Self::CountersunkShear,
        Self::HollowBlind,
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::FlatHead => "flat head",
            Self::SpotWeld => "spot weld",
            Self::RoundHead => "round head",
            Self::CountersunkTension => "countersunk tension",
            Self::CountersunkShear => "countersunk shear",
            Self::HollowBlind => "hollow blind",
            Self::EffectiveLength(_) => "effective length",
            Self::Own(_) => "own coefficient",
        }
    }

    /// The coefficient c.
    pub fn coefficient(self) -> f64 {
        match self {
            Self::FlatHead => 4.0,
            Self::SpotWeld => 3.5,
            Self::RoundHead => 3.0,
            Self::CountersunkTension | Self::HollowBlind => 1.5,
            Self::CountersunkShear => 1.0,
            Self::EffectiveLength(k) => 1.0 / k.powi(2),
            Self::Own(c) => c,
        }
    }

    /// How the coefficient is known.
    pub fn standing(self) -> Standing {
        match self {
            Self::FlatHead | Self::SpotWeld | Self::RoundHead | Self::CountersunkTension | Self::CountersunkShear => {
                Standing::Memory
            }
            Self::HollowBlind => Standing::Assumed,
            Self::EffectiveLength(_) | Self::Own(_) => Standing::Given,
        }
    }

    /// Where the coefficient comes from.
    pub fn source(self) -> &'static str {
        match self {
            Self::RoundHead => "aircraft structures textbooks, from memory; ESDU 02.01.09 takes 3 for snap heads",
            Self::FlatHead | Self::SpotWeld | Self::CountersunkTension | Self::CountersunkShear => {
                "aircraft structures textbooks, from memory"
            }
            Self::HollowBlind => {
                "judgement: as a countersunk head; no published value was found, so test or give your own"
            }
            Self::EffectiveLength(_) | Self::Own(_) => "given by the user",
        }
    }
}

impl FromStr for EndFixity {
    type Err = Problem;
    fn from_str(text: &str) -> Result<Self, Problem> {
        by_name("fixity", "fixity", text, &Self::NAMED, Self::name)
    }
}

/// Whether the sheet between rivets bends as a plate or as a strip free to narrow; texts differ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bending {
    /// A wide plate of this Poisson's ratio: with 1 − ν².
    Plate(f64),
    /// A strip: without, about a tenth lower.
    Strip,
}

/// The line and its sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InterRivet {
    /// How the rivets hold the sheet.
    pub fixity: EndFixity,
    /// Plate or strip.
    pub bending: Bending,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Yield strength in compression, MPa; caps the stress.
    pub fy_mpa: f64,
    /// Sheet, mm.
    pub thickness_mm: f64,
}

impl InterRivet {
    /// Refuses numbers that no sheet has; the other functions take the sizes as they are.
    ///
    /// # Errors
    /// Coefficient beyond 0.25 (free end) to 6 or an effective length beyond 0.41 to 2, Poisson's ratio, modulus, strength or thickness out of range.
    pub fn validate(&self) -> Result<(), Vec<Problem>> {
        let nu = match self.bending {
            Bending::Plate(nu) => Some(nu),
            Bending::Strip => None,
        };
        let problems: Vec<Problem> = [
            // Squared, a negative length would look like a good one.
            match self.fixity {
                EndFixity::EffectiveLength(k) => in_range("fixity", Some(k), (0.41, 2.0), ""),
                fixity => in_range("fixity", Some(fixity.coefficient()), (0.25, 6.0), ""),
            },
            in_range("poisson", nu, (0.0, 0.5), ""),
            in_range("modulus", Some(self.modulus_mpa), (1e4, 1e6), "MPa"),
            in_range("fy", Some(self.fy_mpa), STRENGTH_MPA, "MPa"),
            in_range("thickness", Some(self.thickness_mm), WALL_MM, "mm"),
        ]
        .into_iter()
        .filter_map(Result::err)
        .collect();
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    /// c π² E / 12, with or without 1 − ν²: the stress at a pitch of one thickness, MPa.
    fn constant_mpa(&self) -> f64 {
        let poisson = match self.bending {
            Bending::Plate(nu) => 1.0 - nu.powi(2),
            Bending::Strip => 1.0,
        };
        self.fixity.coefficient() * PI.powi(2) * self.modulus_mpa / (12.0 * poisson)
    }

    /// Elastic buckling stress between rivets, MPa: F<sub>ir</sub> = c π² E / (12 (1 − ν²)) (t / s)².
    ///
    /// Aircraft practice, from memory. Elastic: the textbooks' factor for yielding, η = E<sub>t</sub> / E, is 1 here.
    pub fn elastic_mpa(&self, pitch_mm: f64) -> f64 {
        self.constant_mpa() * (self.thickness_mm / pitch_mm).powi(2)
    }

    /// Buckling stress between rivets, MPa: elastic, at most the yield strength.
    ///
    /// Near yield the cut-off is a little high: real sheet softens before it.
    ///
    /// # Example
    /// ```
    /// use raisedbody::mechanics::joint::inter_rivet::{Bending, EndFixity, InterRivet};
    /// let mut line = InterRivet {
    ///     fixity: EndFixity::RoundHead,
    ///     bending: Bending::Plate(0.3),
    ///     modulus_mpa: 205_000.0,
    ///     fy_mpa: 350.0,
    ///     thickness_mm: 1.2,
    /// };
    /// assert_eq!(format!("{:.1}", line.stress_mpa(50.0)), "320.2");
    /// line.bending = Bending::Strip;
    /// assert_eq!(format!("{:.1}", line.stress_mpa(50.0)), "291.4");
    /// ```
    pub fn stress_mpa(&self, pitch_mm: f64) -> f64 {
        self.elastic_mpa(pitch_mm).min(self.fy_mpa)
    }

    /// The largest pitch at which a stress does not buckle the sheet, mm: the same formula turned round.
    ///
    /// None where the stress is above yield: no pitch helps.
    pub fn pitch_mm(&self, stress_mpa: f64) -> Option<f64> {
        (stress_mpa > 0.0 && stress_mpa <= self.fy_mpa)
            .then(|| self.thickness_mm * (self.constant_mpa() / stress_mpa).sqrt())
    }

    /// How firmly all this is known: the formula is from memory, the coefficient may be weaker.
    pub fn standing(&self) -> Standing {
        Standing::Memory.with(self.fixity.standing())
    }
}

/// Longest spacing by the stress in a compression sheet, mm: 1.16 t √(E / f<sub>c</sub>).
///
/// AISI S100-16 I1.3(b), from memory; I1.3(a) is the pitch that shear asks for, a matter of the joint's strength. Euler
/// with an effective length of 0.6 s and a safety factor of 1.67 gives 1.17.
pub fn aisi_stress_spacing_mm(modulus_mpa: f64, stress_mpa: f64, thickness_mm: f64) -> f64 {
    1.16 * thickness_mm * (modulus_mpa / stress_mpa).sqrt()
}

/// Longest spacing by the free strip beside the line, mm: 3 w, which need not be below 1.11 t √(E / F<sub>y</sub>).
///
/// AISI S100-16 I1.3(c), from memory. Its second floor, 1.33 t √(E / F<sub>y</sub>) for w / t ≥ 0.50 √(E / F<sub>y</sub>),
/// never decides: there 3 w is 1.5 t √(E / F<sub>y</sub>) or more.
pub fn aisi_strip_spacing_mm(modulus_mpa: f64, fy_mpa: f64, thickness_mm: f64, flat_width_mm: f64) -> f64 {
    (3.0 * flat_width_mm).max(1.11 * thickness_mm * (modulus_mpa / fy_mpa).sqrt())
}

/// Pitch under which EN 1993-1-8 asks no check of buckling between fasteners, mm: 9 ε t, ε = √(235 / f<sub>y</sub>).
///
/// EN 1993-1-8:2005, table 3.3, note, from memory. Above it the sheet is a strut of length 0.6 p<sub>1</sub>
/// (`EndFixity::EffectiveLength(0.6)`).
pub fn en_1993_1_8_unchecked_mm(fy_mpa: f64, thickness_mm: f64) -> f64 {
    9.0 * (235.0 / fy_mpa).sqrt() * thickness_mm
}
