//! The price book: what things cost, in one currency, as a file or as a part of a plan.

use std::path::Path;

use iso_currency::Currency;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use toml::Table;

use crate::error::{Error, Problem};
use crate::form::{DAY, Document, is_day, schema_of};
use crate::money::{Amount, Per, Price};
use crate::quantity::Ratio;

use super::hours::TASKS;
use super::tariff::Tariff;

/// What things cost, in one currency. A price is for one unit, or a table with `breaks` by quantity and a `minimum`; what is left out
/// is an open item of the quote.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceBook {
    /// A file of this form, beside the plan: its entries hold wherever there is none here.
    #[serde(default)]
    pub book: Option<String>,
    /// Last day on which these prices hold: `"2026-12-31"`.
    #[serde(default)]
    #[schemars(example = "2026-12-31")]
    pub valid_until: Option<String>,
    /// True where the prices are invented for an example.
    #[serde(default)]
    pub invented: bool,
    /// Sheet cut to size, per kilogram or per square metre.
    #[serde(default)]
    pub sheet: Option<Tariff>,
    /// Supplier's charge for cutting one sheet to size.
    #[serde(default)]
    pub sheet_cutting: Option<Tariff>,
    /// Insert section, per metre.
    #[serde(default)]
    pub insert: Option<Tariff>,
    /// Backing tube, per metre.
    #[serde(default)]
    pub tube: Option<Tariff>,
    /// One rivet.
    #[serde(default)]
    pub rivet: Option<Tariff>,
    /// One plug of an old hole.
    #[serde(default)]
    pub plug: Option<Tariff>,
    /// One pilot bit.
    #[serde(default)]
    pub pilot_bit: Option<Tariff>,
    /// Sealant, per litre.
    #[serde(default)]
    pub sealant: Option<Tariff>,
    /// Primer, per litre.
    #[serde(default)]
    pub primer: Option<Tariff>,
    /// Tape or adhesive on posts, per metre.
    #[serde(default)]
    pub tape: Option<Tariff>,
    /// New drip rail, per metre.
    #[serde(default)]
    pub drip_rail: Option<Tariff>,
    /// Channel over windows and doors, per metre.
    #[serde(default)]
    pub channel: Option<Tariff>,
    /// Labour, per hour of one person.
    #[serde(default)]
    pub labour: Option<Price>,
    /// Trades with rates of their own.
    #[serde(default)]
    pub trades: Vec<Trade>,
    /// Deliveries.
    #[serde(default)]
    pub freight: Vec<Freight>,
    /// Whatever else is paid for.
    #[serde(default)]
    pub extra: Vec<Extra>,
    /// Added on all lines: materials, labour, freight, extras.
    #[serde(default)]
    pub overhead: Option<Ratio>,
    /// Added on all that.
    #[serde(default)]
    pub margin: Option<Ratio>,
    /// Tax on the whole.
    #[serde(default)]
    pub tax: Option<Ratio>,
}

/// A trade with its own rate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Trade {
    /// What it is called.
    #[schemars(example = &"welder")]
    pub name: String,
    /// Per hour of one person.
    #[schemars(example = "95 USD/h")]
    pub rate: Price,
    /// The tasks it does, by their names in the list of hours.
    pub tasks: Vec<String>,
}

/// A delivery.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Freight {
    /// From whom.
    #[schemars(example = "sheet yard")]
    pub name: String,
    /// For the delivery, or per kilogram of the sheet and bars that are ordered.
    pub price: Tariff,
}

/// Something else that is paid for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Extra {
    /// What it is.
    #[schemars(example = &"engineer's review")]
    pub name: String,
    /// For one unit.
    pub price: Tariff,
    /// How much of it; one where it is priced by the piece.
    #[serde(default)]
    pub quantity: Option<Amount>,
    /// The stage that it belongs to; the whole job where left out.
    #[serde(default)]
    pub stage: Stage,
}

/// Stages of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Stage {
    /// Windows out, roof up and safe.
    Lift,
    /// Posts and inserts.
    Frame,
    /// Sheets, rivets, sealant.
    Skin,
    /// Primer and paint.
    Paint,
    /// What belongs to no stage.
    #[default]
    Job,
}

impl Stage {
    /// All in their order.
    pub const ALL: [Self; 5] = [Self::Lift, Self::Frame, Self::Skin, Self::Paint, Self::Job];

    /// The words shown to the user.
    pub fn words(self) -> &'static str {
        match self {
            Self::Lift => "strip and lift",
            Self::Frame => "posts and inserts",
            Self::Skin => "new skin",
            Self::Paint => "priming and painting",
            Self::Job => "whole job",
        }
    }
}

/// Far above any price or quantity, and far below where exact decimals end, their product too.
pub(crate) const MOST: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);

/// Its units of payment, and in words.
type PaidBy = (&'static [Per], &'static str);

const EACH: PaidBy = (&[Per::Each], "for one");
const METRE: PaidBy = (&[Per::Metre], "per m or ft");
const LITRE: PaidBy = (&[Per::Litre], "per L or gal");
const HOUR: PaidBy = (&[Per::Hour], "per h");
const ANY: PaidBy =
    (&[Per::Each, Per::Metre, Per::SquareMetre, Per::Kilogram, Per::Litre, Per::Hour], "for one unit of any kind");

impl PriceBook {
    /// Reads a price book from a file.
    ///
    /// # Errors
    /// A file that cannot be read, text that is not TOML, or every problem of its form.
    pub fn read(path: &Path) -> Result<Self, Error> {
        Self::parse(&crate::files::read_text(path)?)
    }

    /// Reads a price book's text.
    ///
    /// # Errors
    /// Text that is not TOML, or every problem of its form.
    pub fn parse(text: &str) -> Result<Self, Error> {
        Self::with_entries(text).map(|(book, _)| book)
    }

    /// The same, with the entries as written.
    pub(crate) fn with_entries(text: &str) -> Result<(Self, Table), Error> {
        let document = Document::parse(text)?;
        let book: Self = document.read(&schema_of::<Self>())?;
        if let Some(other) = &book.book {
            let problem = "a price book names no other book; write its prices here";
            return Err(Problem::contradiction("book", other, problem).into());
        }
        let problems = book.problems("", book.currency().unwrap_or(Currency::XXX));
        if !problems.is_empty() {
            return Err(Error::Input(document.placed(as_written(problems, &document))));
        }
        Ok((book, document.table))
    }

    /// Prices of things by their entries, with what each is paid by.
    fn entries(&self) -> [(&'static str, Option<&Tariff>, PaidBy); 12] {
        let sheet: PaidBy = (&[Per::Kilogram, Per::SquareMetre], "per kg or m2");
        [
            ("sheet", self.sheet.as_ref(), sheet),
            ("sheet_cutting", self.sheet_cutting.as_ref(), (&[Per::Each], "for one sheet")),
            ("insert", self.insert.as_ref(), METRE),
            ("tube", self.tube.as_ref(), METRE),
            ("rivet", self.rivet.as_ref(), (&[Per::Each], "for one rivet")),
            ("plug", self.plug.as_ref(), (&[Per::Each], "for one plug")),
            ("pilot_bit", self.pilot_bit.as_ref(), EACH),
            ("sealant", self.sealant.as_ref(), LITRE),
            ("primer", self.primer.as_ref(), LITRE),
            ("tape", self.tape.as_ref(), METRE),
            ("drip_rail", self.drip_rail.as_ref(), METRE),
            ("channel", self.channel.as_ref(), METRE),
        ]
    }

    /// The currency of the first price that there is.
    pub fn currency(&self) -> Option<Currency> {
        let things = self.entries().into_iter().filter_map(|(_, own, _)| own.map(|own| own.price));
        let trades = self.trades.iter().map(|own| own.rate);
        let lists = self.freight.iter().map(|own| own.price.price).chain(self.extra.iter().map(|own| own.price.price));
        things.chain(self.labour).chain(trades).chain(lists).next().map(|price| price.money.currency)
    }

    /// The rate of a task and whose it is: a trade's, or that of labour.
    pub fn rate(&self, task: &str) -> (Option<Price>, &str) {
        let trade = self.trades.iter().find(|trade| trade.tasks.iter().any(|own| own == task));
        trade.map_or((self.labour, "labour"), |trade| (Some(trade.rate), &trade.name))
    }

    /// Negative prices, mixed currencies, units that do not fit, breaks out of order, tasks that there are not; `path` stands
    /// before each entry.
    pub fn problems(&self, path: &str, currency: Currency) -> Vec<Problem> {
        let check = |(allowed, words): PaidBy| {
            move |path: &str, price: &Price| price_problems(path, *price, (allowed, words), currency)
        };
        let mut problems = Vec::new();
        if let Some(day) = self.valid_until.as_deref().filter(|day| !is_day(day)) {
            problems.push(Problem::out_of_range(format!("{path}valid_until"), format!("\"{day}\""), DAY));
        }
        let mut tariff = |path: &str, own: &Tariff, paid_by: PaidBy| {
            problems.extend(own.problems(path, &check(paid_by)));
            if let Some(least) = &own.minimum {
                problems.extend(check((&[Per::Each], "for the whole line"))(&format!("{path}.minimum"), least));
            }
        };
        for (name, own, paid_by) in self.entries() {
            if let Some(own) = own {
                tariff(&format!("{path}{name}"), own, paid_by);
            }
        }
        for (i, own) in self.freight.iter().enumerate() {
            let paid_by = (&[Per::Each, Per::Kilogram][..], "for the delivery, or per kg");
            tariff(&format!("{path}freight[{i}].price"), &own.price, paid_by);
        }
        for (i, own) in self.extra.iter().enumerate() {
            tariff(&format!("{path}extra[{i}].price"), &own.price, ANY);
        }
        for (i, own) in self.extra.iter().enumerate() {
            let (path, price) = (format!("{path}extra[{i}].quantity"), own.price.price);
            match own.quantity {
                Some(quantity) if quantity.per != price.per => {
                    let problem = format!("the price is {price}; write a quantity of that unit");
                    problems.push(Problem::contradiction(path, quantity, problem));
                }
                Some(quantity) if quantity.quantity > MOST => {
                    problems.push(Problem::out_of_range(path, quantity, format!("at most {MOST}")));
                }
                None if price.per != Per::Each => {
                    let fix = format!("how much of it, at {price}: write quantity = \"8 {}\"", price.per.unit());
                    problems.push(Problem::missing(path, fix));
                }
                _ => {}
            }
        }
        if let Some(labour) = &self.labour {
            problems.extend(check(HOUR)(&format!("{path}labour"), labour));
        }
        problems.extend(self.trade_problems(path, &check(HOUR)));
        for (name, share) in [("overhead", self.overhead), ("margin", self.margin), ("tax", self.tax)] {
            if let Some(share) = share.map(Ratio::value).filter(|share| !(0.0..=5.0).contains(share)) {
                problems.push(Problem::out_of_range(format!("{path}{name}"), share, "0 to 500 %"));
            }
        }
        problems
    }

    fn trade_problems(&self, path: &str, rate: &dyn Fn(&str, &Price) -> Vec<Problem>) -> Vec<Problem> {
        let mut problems = Vec::new();
        for (i, trade) in self.trades.iter().enumerate() {
            problems.extend(rate(&format!("{path}trades[{i}].rate"), &trade.rate));
            for (k, task) in trade.tasks.iter().enumerate() {
                let path = format!("{path}trades[{i}].tasks[{k}]");
                if !TASKS.contains(&task.as_str()) {
                    problems.push(Problem::unknown_name(path, "task", task, TASKS));
                } else if let Some(other) = self.trades[..i].iter().find(|other| other.tasks.contains(task)) {
                    let problem = format!("{} does this already; name each task once", other.name);
                    problems.push(Problem::contradiction(path, task, problem));
                }
            }
        }
        problems
    }
}

/// Problems with their prices as they are written: by the foot, not by the metre.
pub(crate) fn as_written(problems: Vec<Problem>, document: &Document) -> Vec<Problem> {
    let written = |problem: &Problem| document.written(problem.path()).filter(|text| text.parse::<Price>().is_ok());
    let told = |problem: Problem| match written(&problem) {
        Some(text) => problem.with_value(text),
        None => problem,
    };
    problems.into_iter().map(told).collect()
}

/// What is wrong with one price.
pub(crate) fn price_problems(path: &str, price: Price, paid_by: PaidBy, currency: Currency) -> Vec<Problem> {
    let mut problems = Vec::new();
    if price.money.amount.is_sign_negative() && !price.money.amount.is_zero() {
        problems.push(Problem::out_of_range(path, price, "nought or more"));
    }
    if price.money.amount > MOST {
        problems.push(Problem::out_of_range(path, price, format!("at most {MOST} for one unit")));
    }
    if !paid_by.0.contains(&price.per) {
        problems.push(Problem::contradiction(path, price, format!("this price is {}", paid_by.1)));
    }
    if price.money.currency != currency {
        let problem = format!("the plan's other prices are in {}; use one currency", currency.code());
        problems.push(Problem::contradiction(path, price, problem));
    }
    problems
}
