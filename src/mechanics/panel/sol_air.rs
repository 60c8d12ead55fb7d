//! How hot a sheet in the sun gets: the sol-air temperature.

use crate::catalogue::{Catalogue, Surface};
use crate::check::Standing;
use crate::error::Problem;
use crate::mechanics::sheet::in_range;

use super::all;

/// Outside film, wind and radiation together, W/m2K (ASHRAE, from memory).
pub const OUTSIDE_FILM_W_M2_K: f64 = 17.0;
/// What a horizontal surface loses to the sky beyond what the film tells, `ε ΔR/h_o`, K (ASHRAE, from memory); upright: 0.
pub const ENVELOPE_RADIATION_K: f64 = 3.9;

/// How a surface lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Attitude {
    /// A roof.
    Horizontal,
    /// A side.
    Vertical,
}

impl Attitude {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Horizontal, Self::Vertical];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Horizontal => "horizontal",
            Self::Vertical => "vertical",
        }
    }

    /// `ε ΔR/h_o`, K.
    pub fn radiation_k(self) -> f64 {
        match self {
            Self::Horizontal => ENVELOPE_RADIATION_K,
            Self::Vertical => 0.0,
        }
    }
}

/// Sol-air temperature, °C: `T_s = T_o + α_s I/h_o - ε ΔR/h_o` (ASHRAE, restated by a secondary text).
pub fn sol_air_deg_c(
    air_deg_c: f64,
    absorptance: f64,
    irradiance_w_m2: f64,
    film_w_m2_k: f64,
    radiation_k: f64,
) -> f64 {
    air_deg_c + absorptance * irradiance_w_m2 / film_w_m2_k - radiation_k
}

/// What the sun makes of a sheet. An upper bound: a sheet without insulation loses heat inwards too.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct SolAir {
    /// Of the sheet, °C.
    pub temperature_deg_c: f64,
    /// Share of the sun that is taken up.
    pub absorptance: f64,
    /// Where the absorptance is from.
    pub source: String,
    /// How all is known: the film and the loss to the sky are from memory.
    pub standing: Standing,
}

impl SolAir {
    /// A sheet in the sun. The surface is a row of the catalogue, or an absorptance of the user's own.
    ///
    /// # Errors
    /// An unknown surface; temperatures, absorptance, sun or film that no sheet meets; surface and absorptance together, or
    /// neither.
    pub fn new(
        catalogue: &Catalogue,
        air_deg_c: f64,
        (surface, absorptance): (Option<&str>, Option<f64>),
        irradiance_w_m2: f64,
        lies: Attitude,
        film_w_m2_k: Option<f64>,
    ) -> Result<Self, Vec<Problem>> {
        let row: Result<Option<&Surface>, Problem> = match (surface, absorptance) {
            (Some(name), None) => catalogue.surface("surface", name).map(Some),
            (None, Some(_)) => Ok(None),
            (Some(_), Some(share)) => {
                Err(Problem::contradiction("absorptance", share, "a surface is given too; give one of them"))
            }
            (None, None) => {
                Err(Problem::missing("surface", "name a surface of the catalogue, or give its absorptance"))
            }
        };
        let (row, odd) = row.map_or_else(|odd| (None, Err(odd)), |row| (row, Ok(())));
        all([
            in_range("air", Some(air_deg_c), (-60.0, 60.0), "degC"),
            in_range("absorptance", absorptance, (0.02, 1.0), ""),
            in_range("irradiance", Some(irradiance_w_m2), (0.0, 1400.0), "W/m2"),
            in_range("film", film_w_m2_k, (5.0, 100.0), "W/m2/K"),
            odd,
        ])?;
        let own = absorptance.unwrap_or_default();
        let (absorptance, source, standing) = row.map_or_else(
            || (own, "given".to_owned(), Standing::Given),
            |r| (r.absorptance, r.source.clone(), r.standing),
        );
        let film = film_w_m2_k.unwrap_or(OUTSIDE_FILM_W_M2_K);
        Ok(Self {
            temperature_deg_c: sol_air_deg_c(air_deg_c, absorptance, irradiance_w_m2, film, lies.radiation_k()),
            absorptance,
            source,
            standing: standing.with(Standing::Memory),
        })
    }
}
