//! How long the skin lasts and what a year of it costs: the entries in numbers.

use rust_decimal::prelude::ToPrimitive as _;

use crate::check::Standing;
use crate::error::Problem;
use crate::money::Per;
use crate::plan::file::LifeEnd;
use crate::quantity::{Kind, Ratio};
use crate::shop::price_book::PriceBook;

use super::memory::OfLasting;
use super::reader::Reader;
use super::surroundings::{Zone, zones};

/// What eats at the skin, and what its life is reckoned by.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::plan) struct Lasting {
    /// What eats at each zone of the vehicle.
    pub zones: [Zone; 3],
    /// Share of its strength that a joint may lose to rust.
    pub strength_loss: f64,
    /// What a year of the skin is to be reckoned by.
    pub life: Option<LifePlan>,
}

/// Years, interest and what a renewal costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) struct LifePlan {
    pub horizon_years: u32,
    pub ends: LifeEnd,
    /// The paint counts too, where its film is tabulated.
    pub with_paint: bool,
    pub discount: f64,
    /// In the quote's currency; else as much as the quote.
    pub renewal: Option<f64>,
}

pub(super) fn lasting(r: &mut Reader<'_>, file: &OfLasting) -> Option<Lasting> {
    let zones = zones(r, file);
    let given = file.service.strength_loss.map(Ratio::value);
    let strength_loss = r.or_fallback(given, "service.strength_loss", "strength_loss", (0.01, 0.9), Kind::Ratio).0;
    let life = life(r, file);
    Some(Lasting { zones: zones?, strength_loss, life })
}

fn life(r: &mut Reader<'_>, file: &OfLasting) -> Option<LifePlan> {
    let own = file.life.as_ref()?;
    let discount = own.discount.map(Ratio::value);
    let discount = r.or_fallback(discount, "life.discount", "discount", (0.0, 0.5), Kind::Ratio).0;
    if own.renewal.is_none() {
        let source = "judgement: the whole job, more than a skin alone; write what hanging it anew costs";
        r.list("life.renewal", "as much as the quote", source, Standing::Assumed);
    }
    let renewal = own.renewal.and_then(|price| {
        let path = "life.renewal";
        if price.per != Per::Each {
            r.problems.push(Problem::contradiction(path, price, "this is the whole price of a renewal: \"3000 USD\""));
        }
        let other = Option::as_ref(&file.prices).and_then(PriceBook::currency);
        if let Some(other) = other.filter(|other| *other != price.money.currency) {
            let problem = format!("the plan's other prices are in {}; use one currency", other.code());
            r.problems.push(Problem::contradiction(path, price, problem));
        }
        let amount = price.money.amount.to_f64().filter(|amount| (0.0..=1e9).contains(amount));
        if amount.is_none() {
            r.problems.push(Problem::out_of_range(path, price, "0 to 1000000000"));
        }
        amount
    });
    Some(LifePlan { horizon_years: own.horizon, ends: own.ends, with_paint: own.with_paint, discount, renewal })
}
