//! Money: exact decimals in an ISO 4217 currency, and prices per unit.

use std::fmt;
use std::str::FromStr;

use iso_currency::Currency;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use thiserror::Error;

/// An amount of money: exact decimal and ISO 4217 currency code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Money {
    /// The amount.
    pub amount: Decimal,
    /// Its currency.
    pub currency: Currency,
}

/// What a price is paid for; the amount held is for one of these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Per {
    /// One piece.
    Each,
    /// One metre.
    Metre,
    /// One square metre.
    SquareMetre,
    /// One kilogram.
    Kilogram,
    /// One litre.
    Litre,
    /// One hour.
    Hour,
}

impl Per {
    /// Unit as printed after the amount; empty for a piece.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Each => "",
            Self::Metre => "m",
            Self::SquareMetre => "m2",
            Self::Kilogram => "kg",
            Self::Litre => "L",
            Self::Hour => "h",
        }
    }
}

/// A price as written in a plan: `"1.85 USD/kg"`, `"0.62 USD"` (a piece), `"95 USD/h"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Price {
    /// Money for one [`Per`].
    pub money: Money,
    /// What that buys.
    pub per: Per,
}

/// Unit names, what they price, and how many of the inside unit one of them is, as a quotient of two exact decimals
/// (see `quantity` for the definitions): a minute is 1/60 h.
const UNITS: &[(&str, Per, &str, i64)] = &[
    ("each", Per::Each, "1", 1),
    ("m", Per::Metre, "1", 1),
    ("ft", Per::Metre, "0.3048", 1),
    ("m2", Per::SquareMetre, "1", 1),
    ("ft2", Per::SquareMetre, "0.09290304", 1),
    ("kg", Per::Kilogram, "1", 1),
    ("lb", Per::Kilogram, "0.45359237", 1),
    ("L", Per::Litre, "1", 1),
    ("gal", Per::Litre, "3.785411784", 1),
    ("h", Per::Hour, "1", 1),
    ("min", Per::Hour, "1", 60),
];

/// A quantity of something that has a price: `"500 kg"`, `"40 ft"`, `"2000"` pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Amount {
    /// How many of the unit, exact.
    pub quantity: Decimal,
    /// The unit.
    pub per: Per,
}

/// A string that does not read as money.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("cannot read \"{text}\" as a price: {problem}; write for example \"1.85 USD/kg\" or \"0.62 USD\"")]
pub struct MoneyError {
    /// The string as written (its first 60 characters).
    pub text: String,
    /// What is wrong with it.
    pub problem: String,
}

impl Money {
    /// No money, in a currency.
    pub fn zero(currency: Currency) -> Self {
        Self { amount: Decimal::ZERO, currency }
    }

    /// The amount rounded half away from nought to the currency's smallest coin, and printed with all its places.
    #[must_use]
    pub fn rounded(self) -> Self {
        let places = u32::from(self.currency.exponent().unwrap_or(2));
        let mut amount =
            self.amount.round_dp_with_strategy(places, rust_decimal::RoundingStrategy::MidpointAwayFromZero);
        amount.rescale(places);
        Self { amount, ..self }
    }

    /// The amount in the currency's smallest coin, rounded as [`Money::rounded`] does; none where it is too large to count.
    pub fn coins(self) -> Option<i64> {
        let places = u32::from(self.currency.exponent().unwrap_or(2));
        let coins = self.rounded().amount.checked_mul(Decimal::from(10_i64.checked_pow(places)?))?;
        coins.to_i64()
    }

    /// This many of the currency's smallest coin.
    pub fn from_coins(coins: i64, currency: Currency) -> Self {
        let places = u32::from(currency.exponent().unwrap_or(2));
        Self { amount: Decimal::new(coins, places), currency }
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount, self.currency.code())
    }
}

impl FromStr for Price {
    type Err = MoneyError;

    fn from_str(text: &str) -> Result<Self, MoneyError> {
        let fail = |problem: &str| MoneyError { text: text.chars().take(60).collect(), problem: problem.to_owned() };
        let (money, unit) = match text.split_once('/') {
            Some((money, unit)) => (money.trim(), unit.trim()),
            None => (text.trim(), "each"),
        };
        let (amount, code) =
            money.rsplit_once(char::is_whitespace).ok_or_else(|| fail("an amount and a currency code are needed"))?;
        let amount: Decimal = amount.trim().parse().map_err(|_| fail("the amount is not a decimal number"))?;
        if code.len() != 3 {
            return Err(fail("the currency is a three-letter code of ISO 4217"));
        }
        let currency =
            Currency::from_code(code).ok_or_else(|| fail(&format!("\"{code}\" is not a currency code of ISO 4217")))?;
        let (_, per, size, parts) = UNITS.iter().find(|(name, ..)| *name == unit).ok_or_else(|| {
            let names: Vec<&str> = UNITS.iter().map(|(name, ..)| *name).collect();
            fail(&format!("\"{unit}\" is no unit of price; write one of {}", names.join(", ")))
        })?;
        let size: Decimal = size.parse().map_err(|_| fail("the amount is out of range"))?;
        let amount = amount.checked_mul(Decimal::from(*parts)).and_then(|a| a.checked_div(size));
        let amount = amount.ok_or_else(|| fail("the amount is out of range"))?;
        Ok(Self { money: Money { amount, currency }, per: *per })
    }
}

impl fmt::Display for Price {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.per.unit() {
            "" => write!(f, "{}", self.money),
            unit => write!(f, "{}/{unit}", self.money),
        }
    }
}

impl FromStr for Amount {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let fail = |problem: &str| {
            let text: String = text.chars().take(60).collect();
            format!("cannot read \"{text}\" as a quantity: {problem}; write for example \"500 kg\" or \"2000\" pieces")
        };
        let (number, unit) = text.split_at(text.find(char::is_alphabetic).unwrap_or(text.len()));
        let unit = match unit.trim() {
            "" | "pieces" => "each",
            other => other,
        };
        let number: Decimal = number.trim().parse().map_err(|_| fail("it does not begin with a decimal number"))?;
        let (_, per, size, parts) = UNITS
            .iter()
            .find(|(name, ..)| *name == unit)
            .ok_or_else(|| fail(&format!("\"{unit}\" is no unit of price")))?;
        let size: Decimal = size.parse().map_err(|_| fail("it is out of range"))?;
        let quantity = number.checked_mul(size).and_then(|all| all.checked_div(Decimal::from(*parts)));
        let quantity =
            quantity.filter(|all| *all >= Decimal::ZERO).ok_or_else(|| fail("it is below nought or out of range"))?;
        Ok(Self { quantity, per: *per })
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = if self.per == Per::Each { "pieces" } else { self.per.unit() };
        write!(f, "{} {unit}", self.quantity.normalize())
    }
}

/// Written as text; the format is the one that the reader of plans knows it by.
macro_rules! as_text {
    ($type:ident, $format:literal, $($example:literal),*) => {
        impl Serialize for $type {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $type {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                String::deserialize(deserializer)?.parse().map_err(de::Error::custom)
            }
        }

        impl JsonSchema for $type {
            fn inline_schema() -> bool {
                true
            }
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($type).into()
            }
            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ "type": "string", "format": $format, "examples": [$($example),*] })
            }
        }
    };
}

as_text!(Amount, "amount", "500 kg", "2000 pieces");
as_text!(Price, "price", "1.85 USD/kg", "0.62 USD", "95 USD/h");
