//! Prices as a seller writes them: for one unit, less from some quantity on, never less than a minimum.

use std::borrow::Cow;

use rust_decimal::Decimal;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

use crate::error::Problem;
use crate::money::{Amount, Money, Price};

use super::price_book::MOST;

/// A price for one unit, with its breaks and the least that is charged.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "Written", into = "Written")]
pub struct Tariff {
    /// The price below the first break.
    pub price: Price,
    /// Prices from a quantity on, for all of it; the quantities rise.
    pub breaks: Vec<Break>,
    /// The least that is charged for a line, however little it is.
    pub minimum: Option<Price>,
}

/// A price from some quantity on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Break {
    /// From this quantity on: `"500 kg"`, `"2000"` pieces.
    pub from: Amount,
    /// The whole quantity is paid at this price.
    pub price: Price,
}

/// As written: a price alone, or a table.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Written {
    Plain(Price),
    Table {
        price: Price,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        breaks: Vec<Break>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        minimum: Option<Price>,
    },
}

impl From<Written> for Tariff {
    fn from(written: Written) -> Self {
        match written {
            Written::Plain(price) => price.into(),
            Written::Table { price, breaks, minimum } => Self { price, breaks, minimum },
        }
    }
}

impl From<Tariff> for Written {
    fn from(own: Tariff) -> Self {
        if own.breaks.is_empty() && own.minimum.is_none() {
            Self::Plain(own.price)
        } else {
            Self::Table { price: own.price, breaks: own.breaks, minimum: own.minimum }
        }
    }
}

impl From<Price> for Tariff {
    fn from(price: Price) -> Self {
        Self { price, breaks: Vec::new(), minimum: None }
    }
}

impl JsonSchema for Tariff {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Tariff".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let price = Price::json_schema(generator);
        let amount = Amount::json_schema(generator);
        json_schema!({
            "type": ["string", "object"],
            "format": "price",
            "examples": ["1.85 USD/kg", "0.62 USD", "95 USD/h"],
            "additionalProperties": false,
            "required": ["price"],
            "properties": {
                "price": price,
                "breaks": {
                    "description": "Prices from a quantity on, for all of it; the quantities rise.",
                    "type": "array",
                    "items": {
                        "type": "object",
                        "additionalProperties": false,
                        "required": ["from", "price"],
                        "properties": { "from": amount, "price": price },
                    },
                },
                "minimum": price,
            },
        })
    }
}

/// What a quantity costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Charge {
    /// For one unit.
    pub unit_price: Decimal,
    /// For all of it, to the smallest coin.
    pub amount: Decimal,
    /// The break or the minimum that decided, and what a larger order would save; empty where neither is near.
    pub note: String,
}

impl Tariff {
    /// What this quantity of the price's unit costs. A break holds for the whole quantity.
    ///
    /// # Example
    /// ```
    /// use raisedbody::shop::tariff::Tariff;
    /// let sheet: Tariff = toml::from_str::<toml::Table>(
    ///     r#"p = { price = "2.35 USD/kg", breaks = [{ from = "500 kg", price = "2.10 USD/kg" }], minimum = "60 USD" }"#,
    /// ).unwrap()["p"].clone().try_into().unwrap();
    /// assert_eq!(sheet.charge(10.into()).amount.to_string(), "60.00");
    /// assert_eq!(sheet.charge(100.into()).amount.to_string(), "235.00");
    /// assert_eq!(sheet.charge(500.into()).amount.to_string(), "1050.00");
    /// assert!(sheet.charge(480.into()).note.contains("500 kg would cost 1050.00"));
    /// ```
    pub fn charge(&self, quantity: Decimal) -> Charge {
        let currency = self.price.money.currency;
        let cost = |quantity: Decimal, price: &Price| {
            Money { amount: quantity.saturating_mul(price.money.amount), currency }.rounded().amount
        };
        let reached = self.breaks.iter().rfind(|own| own.from.quantity <= quantity);
        let price = reached.map_or(&self.price, |own| &own.price);
        let mut charge = Charge { unit_price: price.money.amount, amount: cost(quantity, price), note: String::new() };
        if let Some(own) = reached {
            charge.note = format!("price from {} on", own.from);
        }
        if let Some(least) =
            self.minimum.map(|least| least.money.rounded().amount).filter(|least| *least > charge.amount)
        {
            charge.note = format!("least charge; {} by quantity", charge.amount);
            charge.amount = least;
        }
        let least = self.minimum.map_or(Decimal::ZERO, |least| least.money.rounded().amount);
        let more = self.breaks.iter().filter(|own| own.from.quantity > quantity);
        let cheapest =
            more.map(|own| (cost(own.from.quantity, &own.price).max(least), own)).min_by_key(|(cost, _)| *cost);
        if let Some((cost, own)) = cheapest.filter(|(cost, _)| *cost < charge.amount) {
            let more = format!("{} would cost {cost}", own.from);
            charge.note = if charge.note.is_empty() { more } else { format!("{}; {more}", charge.note) };
        }
        charge
    }

    /// Everything that is wrong with it, by its path in the plan: `allowed` says what it may be paid by, `unit` in words.
    pub fn problems(&self, path: &str, check: &dyn Fn(&str, &Price) -> Vec<Problem>) -> Vec<Problem> {
        let mut problems = check(path, &self.price);
        let mut last = Decimal::ZERO;
        for (i, own) in self.breaks.iter().enumerate() {
            let path = format!("{path}.breaks[{i}]");
            problems.extend(check(&format!("{path}.price"), &own.price));
            if own.from.per != self.price.per {
                let fix = format!("the price is {}; write a quantity of that unit", self.price);
                problems.push(Problem::contradiction(format!("{path}.from"), own.from, fix));
            } else if own.from.quantity <= last || own.from.quantity > MOST {
                let fix = format!("more than {last}, at most {MOST}: each break begins at more than the one before");
                problems.push(Problem::out_of_range(format!("{path}.from"), own.from, fix));
            }
            last = last.max(own.from.quantity);
        }
        problems
    }
}
