//! Shop dimensions: reads and prints quantities with their units, and is the only place that converts one.
//!
//! Inside the crate every number is a plain `f64` in one coherent set whose unit stands in its name
//! (`pitch_mm`, `shear_n`, `fu_mpa`). People write strings. [`Kind::parse`] turns the string into the number and
//! [`Kind::print`] turns it back; the small types [`Length`], [`Force`], … carry the number through plan files.

mod scanner;

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use thiserror::Error;

use scanner::Scanner;

/// What a number measures, and with that its unit inside the crate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Kind {
    /// Millimetres.
    Length,
    /// Square metres.
    Area,
    /// Litres.
    Volume,
    /// Kilograms.
    Mass,
    /// Kilograms per metre.
    LinearMass,
    /// Kilograms per square metre.
    ArealMass,
    /// Kilograms per cubic metre.
    Density,
    /// Newtons.
    Force,
    /// Newtons per millimetre.
    LineLoad,
    /// Megapascals.
    Pressure,
    /// Metres per second.
    Speed,
    /// Degrees Celsius.
    Temperature,
    /// Kelvins between two temperatures.
    TemperatureDifference,
    /// Watts per square metre.
    Irradiance,
    /// Watts per square metre and kelvin, between a surface and the air.
    FilmCoefficient,
    /// Hours.
    Duration,
    /// Micrometres of metal lost in a year.
    LossRate,
    /// Milligrams that settle on a square metre in a day.
    DepositionRate,
    /// Degrees of arc.
    Angle,
    /// Newton-metres per radian.
    RollStiffness,
    /// Grams of fuel per kilowatt-hour at the crankshaft.
    FuelUse,
    /// Square metres that a litre of paint covers.
    SpreadingRate,
    /// A ratio without unit, written as a plain decimal or in percent.
    Ratio,
}

/// One accepted unit: how it is written and what it is worth, as a quotient so that 17/64 in comes out exact.
struct Unit {
    names: &'static [&'static str],
    /// inside = written · worth / over + offset
    worth: f64,
    over: f64,
    offset: f64,
}

impl Unit {
    fn factor(&self) -> f64 {
        self.worth / self.over
    }
}

const fn unit(names: &'static [&'static str], worth: f64) -> Unit {
    unit_over(names, worth, 1.0)
}

const fn unit_over(names: &'static [&'static str], worth: f64, over: f64) -> Unit {
    Unit { names, worth, over, offset: 0.0 }
}

// Exact definitions, NIST SP 811 (2008) appendix B.8 and the 1959 yard and pound agreement:
// 1 in = 25.4 mm = 127/5 mm; 1 lb = 0.453 592 37 kg; standard gravity 9.806 65 m/s2, so
// 1 lbf = 4.448 221 615 260 5 N; 1 US gal = 231 in3 = 3.785 411 784 L; 1 mile = 1609.344 m.
const INCH_MM: f64 = 25.4;
const FOOT_MM: f64 = 304.8;
const POUND_KG: f64 = 0.453_592_37;
const POUND_FORCE_N: f64 = 4.448_221_615_260_5;
const GALLON_L: f64 = 3.785_411_784;
const MILE_PER_HOUR_M_S: f64 = 0.447_04;
const FOOT2_M2: f64 = 0.092_903_04;

static LENGTH: &[Unit] = &[
    unit(&["mm"], 1.0),
    unit_over(&["in", "inch", "inches", "\"", "″"], 127.0, 5.0),
    unit_over(&["ft", "foot", "feet", "'", "′"], 1524.0, 5.0),
    unit(&["cm"], 10.0),
    unit(&["m"], 1000.0),
    unit_over(&["um", "µm", "μm"], 1.0, 1000.0),
    unit_over(&["mil"], 127.0, 5000.0),
];
static AREA: &[Unit] = &[
    unit(&["m2", "m²"], 1.0),
    unit(&["ft2", "ft²", "sq ft"], FOOT2_M2),
    unit_over(&["mm2", "mm²"], 1.0, 1e6),
    unit(&["in2", "in²"], 0.000_645_16),
];
static VOLUME: &[Unit] = &[
    unit(&["L", "l"], 1.0),
    unit_over(&["mL", "ml"], 1.0, 1000.0),
    unit(&["m3", "m³"], 1000.0),
    unit(&["gal"], GALLON_L),
    unit_over(&["fl oz"], GALLON_L, 128.0),
];
static MASS: &[Unit] = &[
    unit(&["kg"], 1.0),
    unit(&["lb", "lbs"], POUND_KG),
    unit_over(&["oz"], POUND_KG, 16.0),
    unit_over(&["g"], 1.0, 1000.0),
    unit(&["t"], 1000.0),
];
static LINEAR_MASS: &[Unit] = &[unit(&["kg/m"], 1.0), unit_over(&["lb/ft"], POUND_KG, 0.3048)];
static AREAL_MASS: &[Unit] = &[
    unit(&["kg/m2", "kg/m²"], 1.0),
    unit_over(&["g/m2", "g/m²"], 1.0, 1000.0),
    unit_over(&["lb/ft2", "lb/ft²"], POUND_KG, FOOT2_M2),
    unit_over(&["oz/ft2", "oz/ft²"], POUND_KG, 16.0 * FOOT2_M2),
];
static DENSITY: &[Unit] = &[
    unit(&["kg/m3", "kg/m³"], 1.0),
    unit(&["g/cm3", "g/cm³"], 1000.0),
    unit_over(&["lb/ft3", "lb/ft³"], POUND_KG, 0.028_316_846_592),
];
static FORCE: &[Unit] =
    &[unit(&["N"], 1.0), unit(&["kN"], 1000.0), unit(&["lbf"], POUND_FORCE_N), unit(&["kip"], 1000.0 * POUND_FORCE_N)];
static LINE_LOAD: &[Unit] = &[
    unit(&["N/mm"], 1.0),
    unit_over(&["N/m"], 1.0, 1000.0),
    unit(&["kN/m"], 1.0),
    unit_over(&["lbf/in"], POUND_FORCE_N, INCH_MM),
    unit_over(&["lbf/ft"], POUND_FORCE_N, FOOT_MM),
];
static PRESSURE: &[Unit] = &[
    unit(&["MPa", "N/mm2", "N/mm²"], 1.0),
    unit_over(&["Pa"], 1.0, 1e6),
    unit_over(&["kPa"], 1.0, 1e3),
    unit(&["GPa"], 1e3),
    unit_over(&["psi"], POUND_FORCE_N, INCH_MM * INCH_MM),
    unit_over(&["ksi"], 1000.0 * POUND_FORCE_N, INCH_MM * INCH_MM),
    unit_over(&["psf"], POUND_FORCE_N, FOOT_MM * FOOT_MM),
];
static SPEED: &[Unit] = &[
    unit(&["m/s"], 1.0),
    unit_over(&["km/h"], 5.0, 18.0),
    unit(&["mph"], MILE_PER_HOUR_M_S),
    unit_over(&["kn"], 1852.0, 3600.0),
];
static TEMPERATURE: &[Unit] = &[
    unit(&["degC", "°C", "C"], 1.0),
    Unit { names: &["degF", "°F", "F"], worth: 5.0, over: 9.0, offset: -160.0 / 9.0 },
    Unit { names: &["K"], worth: 1.0, over: 1.0, offset: -273.15 },
];
// A degree Celsius of difference is a kelvin; "degC" alone would be read as a temperature.
static TEMPERATURE_DIFFERENCE: &[Unit] = &[unit(&["K"], 1.0)];
static IRRADIANCE: &[Unit] = &[unit(&["W/m2", "W/m²"], 1.0)];
static FILM_COEFFICIENT: &[Unit] =
    &[unit(&["W/m2/K", "W/m²/K", "W/m2K", "W/m²K", "W/(m2 K)", "W/(m² K)", "W/(m²·K)"], 1.0)];
static DURATION: &[Unit] =
    &[unit(&["h"], 1.0), unit_over(&["min"], 1.0, 60.0), unit_over(&["s"], 1.0, 3600.0), unit(&["d"], 24.0)];
static LOSS_RATE: &[Unit] = &[unit(&["um/a", "µm/a", "μm/a"], 1.0), unit(&["mil/a"], 25.4)];
static DEPOSITION_RATE: &[Unit] = &[unit(&["mg/m2/d", "mg/m²/d", "mg/(m2 d)", "mg/(m² d)", "mg/(m²·d)"], 1.0)];
static ANGLE: &[Unit] = &[unit(&["deg", "°"], 1.0), unit_over(&["rad"], 180.0, std::f64::consts::PI)];
static ROLL_STIFFNESS: &[Unit] = &[
    unit(&["Nm/rad", "N m/rad", "N·m/rad"], 1.0),
    unit(&["kNm/rad", "kN m/rad", "kN·m/rad"], 1000.0),
    unit_over(&["Nm/deg", "N m/deg", "N·m/deg"], 180.0, std::f64::consts::PI),
    unit_over(&["kNm/deg", "kN m/deg", "kN·m/deg"], 180_000.0, std::f64::consts::PI),
    unit_over(&["lbf in/deg"], POUND_FORCE_N * INCH_MM * 0.18, std::f64::consts::PI),
    unit_over(&["lbf ft/deg"], POUND_FORCE_N * FOOT_MM * 0.18, std::f64::consts::PI),
];
// 1 hp = 550 ft lbf/s.
static FUEL_USE: &[Unit] =
    &[unit(&["g/kWh"], 1.0), unit_over(&["lb/hph", "lb/hp h"], 1e6 * POUND_KG, 0.55 * FOOT_MM * POUND_FORCE_N)];
static SPREADING_RATE: &[Unit] = &[
    unit(&["m2/L", "m²/L", "m2/l", "m²/l"], 1.0),
    unit_over(&["ft2/gal", "ft²/gal", "sq ft/gal"], FOOT2_M2, GALLON_L),
];
static RATIO: &[Unit] = &[unit(&[""], 1.0), unit_over(&["%"], 1.0, 100.0)];

impl Kind {
    /// Every kind, in the order of this page.
    pub const ALL: [Self; 23] = [
        Self::Length,
        Self::Area,
        Self::Volume,
        Self::Mass,
        Self::LinearMass,
        Self::ArealMass,
        Self::Density,
        Self::Force,
        Self::LineLoad,
        Self::Pressure,
        Self::Speed,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Irradiance,
        Self::FilmCoefficient,
        Self::Duration,
        Self::LossRate,
        Self::DepositionRate,
        Self::Angle,
        Self::RollStiffness,
        Self::FuelUse,
        Self::SpreadingRate,
        Self::Ratio,
    ];

    fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => LENGTH,
            Self::Area => AREA,
            Self::Volume => VOLUME,
            Self::Mass => MASS,
            Self::LinearMass => LINEAR_MASS,
            Self::ArealMass => AREAL_MASS,
            Self::Density => DENSITY,
            Self::Force => FORCE,
            Self::LineLoad => LINE_LOAD,
            Self::Pressure => PRESSURE,
            Self::Speed => SPEED,
            Self::Temperature => TEMPERATURE,
            Self::TemperatureDifference => TEMPERATURE_DIFFERENCE,
            Self::Irradiance => IRRADIANCE,
            Self::FilmCoefficient => FILM_COEFFICIENT,
            Self::Duration => DURATION,
            Self::LossRate => LOSS_RATE,
            Self::DepositionRate => DEPOSITION_RATE,
            Self::Angle => ANGLE,
            Self::RollStiffness => ROLL_STIFFNESS,
            Self::FuelUse => FUEL_USE,
            Self::SpreadingRate => SPREADING_RATE,
            Self::Ratio => RATIO,
        }
    }

    /// Name in messages and in the JSON Schema's `format`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Area => "area",
            Self::Volume => "volume",
            Self::Mass => "mass",
            Self::LinearMass => "linear mass",
            Self::ArealMass => "areal mass",
            Self::Density => "density",
            Self::Force => "force",
            Self::LineLoad => "line load",
            Self::Pressure => "pressure",
            Self::Speed => "speed",
            Self::Temperature => "temperature",
            Self::TemperatureDifference => "temperature difference",
            Self::Irradiance => "irradiance",
            Self::FilmCoefficient => "film coefficient",
            Self::Duration => "duration",
            Self::LossRate => "loss rate",
            Self::DepositionRate => "deposition rate",
            Self::Angle => "angle",
            Self::RollStiffness => "roll stiffness",
            Self::FuelUse => "fuel use",
            Self::SpreadingRate => "spreading rate",
            Self::Ratio => "ratio",
        }
    }

    /// The kind of this [`name`](Self::name), if there is one.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// The unit that a parsed value is in.
    pub fn unit(self) -> &'static str {
        self.units()[0].names[0]
    }

    /// Strings that parse as this kind.
    pub fn examples(self) -> &'static [&'static str] {
        match self {
            Self::Length => &["4 1/4 in", "6 ft 3 1/2 in", "108 mm"],
            Self::Area => &["2.5 m2", "27 ft2"],
            Self::Volume => &["310 mL", "1 gal"],
            Self::Mass => &["180 kg", "400 lb"],
            Self::LinearMass => &["1.75 kg/m", "1.2 lb/ft"],
            Self::ArealMass => &["275 g/m2", "0.90 oz/ft2"],
            Self::Density => &["7850 kg/m3", "7.14 g/cm3"],
            Self::Force => &["900 N", "200 lbf"],
            Self::LineLoad => &["1.9 N/mm", "10 lbf/in"],
            Self::Pressure => &["310 MPa", "45 ksi", "1.03 kPa"],
            Self::Speed => &["75 mph", "100 km/h"],
            Self::Temperature => &["35 degC", "95 degF"],
            Self::TemperatureDifference => &["30 K"],
            Self::Irradiance => &["1000 W/m2"],
            Self::FilmCoefficient => &["17 W/m2/K"],
            Self::Duration => &["12 min", "1.5 h"],
            Self::LossRate => &["2.1 um/a"],
            Self::DepositionRate => &["60 mg/m2/d"],
            Self::Angle => &["28 deg", "0.49 rad"],
            Self::RollStiffness => &["600 kNm/rad", "10 kNm/deg"],
            Self::FuelUse => &["220 g/kWh"],
            Self::SpreadingRate => &["7 m2/L", "300 ft2/gal"],
            Self::Ratio => &["0.3", "15 %"],
        }
    }

    /// Reads a string such as `"4 1/4 in"` into this kind's inside unit.
    ///
    /// Numbers are decimal (`1.9`), a fraction (`17/64`) or mixed (`4 1/4`, `4-1/4`); feet with inches, pounds with
    /// ounces and hours with minutes may follow each other. A second statement in brackets, as [`Kind::print`] writes
    /// for the shop, is allowed and must agree with the first.
    ///
    /// # Example
    /// ```
    /// use raisedbody::quantity::Kind;
    /// assert_eq!(Kind::Length.parse("17/64 in").unwrap(), 6.746875);
    /// let error = Kind::Length.parse("4 1/4").unwrap_err();
    /// assert!(error.to_string().contains("no unit"));
    /// ```
    pub fn parse(self, text: &str) -> Result<f64, QuantityError> {
        let fail = |at: usize, problem: &str| QuantityError {
            kind: self,
            text: text.chars().take(60).collect(),
            at: at + 1,
            problem: problem.to_owned(),
        };
        if text.len() > 200 {
            return Err(fail(0, "longer than 200 characters"));
        }
        let chars: Vec<char> = text.trim_end().chars().collect();
        let Some(open) = chars.iter().position(|&c| c == '(').filter(|_| self == Self::Length) else {
            return self.parse_plain(&chars, &fail);
        };
        let main = self.parse_plain(&chars[..open], &fail)?;
        let Some((&')', inner)) = chars[open + 1..].split_last() else {
            return Err(fail(open, "no closing bracket"));
        };
        let beside = self.parse_plain(inner, &|at, problem| fail(open + 1 + at, problem))?;
        if (main - beside).abs() > INCH_MM / 64.0 {
            return Err(fail(open, "what stands in brackets is a different length"));
        }
        Ok(main)
    }

    fn parse_plain(self, chars: &[char], fail: &dyn Fn(usize, &str) -> QuantityError) -> Result<f64, QuantityError> {
        let mut scanner = Scanner { chars, at: 0 };
        scanner.skip_space();
        let below = scanner.take('-') || scanner.take('−');
        if !below {
            scanner.take('+');
        }
        let sign = if below { -1.0 } else { 1.0 };
        let mut total = 0.0;
        let mut last: Option<(&Unit, bool)> = None;
        loop {
            scanner.skip_space();
            let start = scanner.at;
            let number = scanner.number().map_err(|(at, problem)| fail(at, problem))?;
            scanner.skip_space();
            let (unit, length) = self.match_unit(&chars[scanner.at..]).map_err(|problem| fail(scanner.at, &problem))?;
            if let Some((before, before_whole)) = last {
                if unit.factor() >= before.factor() || unit.offset != 0.0 || before.offset != 0.0 {
                    return Err(fail(start, "a second part must be in a smaller unit"));
                }
                if !before_whole {
                    return Err(fail(start, "only the last part may have a fraction"));
                }
            }
            scanner.at += length;
            total += sign * number.times(unit.worth, unit.over) + unit.offset;
            if !total.is_finite() {
                return Err(fail(start, "too large a number"));
            }
            last = Some((unit, number.whole));
            scanner.skip_space();
            match scanner.peek() {
                None => return Ok(total),
                Some(c) if c.is_ascii_digit() || c == '.' => {}
                Some(_) => return Err(fail(scanner.at, "unexpected text after the unit")),
            }
        }
    }

    /// The unit that the text starts with and how many characters it takes; the longest name wins.
    fn match_unit(self, chars: &[char]) -> Result<(&'static Unit, usize), String> {
        let word: String = chars.iter().collect();
        let found = self
            .units()
            .iter()
            .flat_map(|unit| unit.names.iter().map(move |name| (unit, *name)))
            .filter(|(_, name)| {
                word.strip_prefix(name).is_some_and(|rest| {
                    // A name made of letters must not be the start of a longer word ("m" in "mph").
                    let symbol = name.chars().last().is_some_and(|c| !c.is_alphanumeric());
                    symbol || rest.chars().next().is_none_or(|c| !(c.is_alphanumeric() || "/²³°%µμ".contains(c)))
                })
            })
            .max_by_key(|(_, name)| name.len());
        if let Some((unit, name)) = found {
            return Ok((unit, name.chars().count()));
        }
        let allowed: Vec<&str> = self.units().iter().map(|u| u.names[0]).filter(|n| !n.is_empty()).collect();
        let allowed = allowed.join(", ");
        if word.trim().is_empty() {
            return Err(format!("no unit; a {} is in {allowed}", self.name()));
        }
        let typed: String = word.chars().take_while(|c| !c.is_whitespace()).collect();
        Err(format!("\"{typed}\" is no unit of {}; write one of {allowed}", self.name()))
    }

    /// Prints a value exactly: `parse(print(x)) == x` for every finite `x`.
    pub fn print(self, value: f64) -> String {
        // A very large or small number in full would be longer than anything that is read back.
        let plain = value.to_string();
        let number = if plain.len() > 40 { format!("{value:e}") } else { plain };
        match self.unit() {
            "" => number,
            unit => format!("{number} {unit}"),
        }
    }
}

/// A string that does not read as the quantity asked for.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("cannot read \"{text}\" as a {}: {problem} (at character {at}); write for example \"{}\"", kind.name(), kind.examples()[0])]
pub struct QuantityError {
    /// What was expected.
    pub kind: Kind,
    /// The string as written (its first 60 characters).
    pub text: String,
    /// Where reading stopped, counted in characters from 1.
    pub at: usize,
    /// What is wrong there.
    pub problem: String,
}

macro_rules! quantity_types {
    ($($(#[$doc:meta])* $name:ident, $kind:ident, $get:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("From a number in the unit that [`Self::", stringify!($get), "`] returns.")]
            pub const fn new(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("The number, in the unit of [`Kind::", stringify!($kind), "`].")]
            pub const fn $get(self) -> f64 {
                self.0
            }
        }

        impl FromStr for $name {
            type Err = QuantityError;
            fn from_str(text: &str) -> Result<Self, QuantityError> {
                Kind::$kind.parse(text).map(Self)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&Kind::$kind.print(self.0))
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = String::deserialize(deserializer)?;
                text.parse().map_err(de::Error::custom)
            }
        }

        impl JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({
                    "type": "string",
                    "format": Kind::$kind.name(),
                    "examples": Kind::$kind.examples(),
                })
            }
        }
    )*};
}

quantity_types! {
    /// A length, as written: `"4 1/4 in"`, `"6 ft 3 1/2 in"`, `"108 mm"`.
    Length, Length, mm;
    /// An area, as written: `"2.5 m2"`.
    Area, Area, m2;
    /// A volume, as written: `"310 mL"`.
    Volume, Volume, litres;
    /// A mass, as written: `"400 lb"`.
    Mass, Mass, kg;
    /// A mass per length, as written: `"1.75 kg/m"`.
    LinearMass, LinearMass, kg_m;
    /// A mass per area, as written: `"275 g/m2"`.
    ArealMass, ArealMass, kg_m2;
    /// A density, as written: `"7850 kg/m3"`.
    Density, Density, kg_m3;
    /// A force, as written: `"900 N"`.
    Force, Force, n;
    /// A force per length, as written: `"1.9 N/mm"`.
    LineLoad, LineLoad, n_mm;
    /// A stress or pressure, as written: `"310 MPa"`.
    Pressure, Pressure, mpa;
    /// A speed, as written: `"75 mph"`.
    Speed, Speed, m_s;
    /// A temperature, as written: `"35 degC"`.
    Temperature, Temperature, deg_c;
    /// A temperature difference, as written: `"30 K"`.
    TemperatureDifference, TemperatureDifference, k;
    /// Sun on a surface, as written: `"1000 W/m2"`.
    Irradiance, Irradiance, w_m2;
    /// Heat from a surface to the air, as written: `"17 W/m2/K"`.
    FilmCoefficient, FilmCoefficient, w_m2_k;
    /// A duration, as written: `"12 min"`.
    Duration, Duration, hours;
    /// Metal lost in a year, as written: `"2.1 um/a"`.
    LossRate, LossRate, um_a;
    /// What settles on a surface in a day, as written: `"60 mg/m2/d"`.
    DepositionRate, DepositionRate, mg_m2_d;
    /// An angle, as written: `"28 deg"`.
    Angle, Angle, deg;
    /// A stiffness in roll, as written: `"600 kNm/rad"`.
    RollStiffness, RollStiffness, n_m_rad;
    /// Fuel for an engine's work, as written: `"220 g/kWh"`.
    FuelUse, FuelUse, g_kwh;
    /// A ratio, as written: `"15 %"`.
    Ratio, Ratio, value;
}

/// How a shop wants its lengths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ShopUnits {
    /// Inches to 1/64 first, millimetres beside.
    Inches,
    /// Millimetres first, inches to 1/64 beside.
    #[default]
    Metric,
}

impl ShopUnits {
    /// A length as the shop reads it, both ways: `4-1/4 in (108.0 mm)` or `108.0 mm (4-1/4 in)`.
    ///
    /// # Example
    /// ```
    /// use raisedbody::quantity::{Kind, ShopUnits};
    /// let text = ShopUnits::Inches.length(107.95);
    /// assert_eq!(text, "4-1/4 in (108.0 mm)");
    /// assert_eq!(Kind::Length.parse(&text).unwrap(), 107.95);
    /// ```
    pub fn length(self, mm: f64) -> String {
        match self {
            Self::Inches => format!("{} ({mm:.1} mm)", inches_64(mm)),
            Self::Metric => format!("{mm:.1} mm ({})", inches_64(mm)),
        }
    }
}

/// A speed as the road knows it, both ways: `105 km/h (65 mph)`.
pub fn road_speed(m_s: f64) -> String {
    format!("{:.0} km/h ({:.0} mph)", m_s * 3.6, m_s / MILE_PER_HOUR_M_S)
}

/// A spreading rate in square feet a US gallon.
pub fn ft2_gal(m2_l: f64) -> f64 {
    m2_l * GALLON_L / FOOT2_M2
}

/// The nearest whole 1/64 in, mm.
pub fn nearest_64_mm(mm: f64) -> f64 {
    (mm / INCH_MM * 64.0).round() / 64.0 * INCH_MM
}

/// A length in inches to the nearest 1/64, in lowest terms: `17/64 in`, `4-1/4 in`.
pub fn inches_64(mm: f64) -> String {
    let sixty_fourths = (mm.abs() / INCH_MM * 64.0).round();
    if sixty_fourths >= 9e15 {
        return format!("{} in", mm / INCH_MM);
    }
    let sixty_fourths = sixty_fourths as u64;
    let sign = if mm < 0.0 && sixty_fourths > 0 { "-" } else { "" };
    let (whole, mut top) = (sixty_fourths / 64, sixty_fourths % 64);
    if top == 0 {
        return format!("{sign}{whole} in");
    }
    let mut bottom = 64;
    while top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    if whole == 0 { format!("{sign}{top}/{bottom} in") } else { format!("{sign}{whole}-{top}/{bottom} in") }
}
