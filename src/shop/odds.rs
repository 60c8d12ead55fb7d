//! How sure a quote is: its lines drawn over and over by what may turn out otherwise, and the price that holds in most cases.

use std::ops::Range;

use rand::SeedableRng;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, LogNormal, Pert, Triangular};
use rayon::prelude::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::{FromPrimitive, ToPrimitive};
use statrs::distribution::{Beta, ContinuousCDF, Normal};
use statrs::statistics::Distribution as _;

use iso_currency::Currency;

use crate::error::Problem;

use super::quote::{Basis, Line, Quote};

/// Draws that one stream of random numbers makes: every block has a stream of its own, whichever thread works it out.
const BLOCK: usize = 4096;
/// Fewer tell little, more tell nothing new.
pub const DRAWS: Range<usize> = 100..20_000_001;
/// Share of a lognormal's cases below its low share, and above its high one.
const TAIL: f64 = 0.1;

/// How the shares are spread, 1 for as quoted.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Shape {
    /// Straight up from the least to the likeliest share, straight down to the greatest.
    Triangular {
        /// The least.
        least: f64,
        /// The likeliest.
        likely: f64,
        /// The greatest.
        most: f64,
    },
    /// The beta distribution of network planning: mean (least + 4 likely + most) / 6. Malcolm, Roseboom, Clark and Fazar 1959,
    /// Operations Research 7(5), 646-669; shapes 1 + 4 (likely - least) / (most - least) and 1 + 4 (most - likely) / (most - least).
    #[serde(rename = "PERT")]
    Pert {
        /// The least.
        least: f64,
        /// The likeliest.
        likely: f64,
        /// The greatest.
        most: f64,
    },
    /// One case in ten is below the low share, one above the high one.
    Lognormal {
        /// The low share.
        low: f64,
        /// The high share.
        high: f64,
    },
}

impl Shape {
    /// The word of the plan.
    pub fn words(self) -> &'static str {
        match self {
            Self::Triangular { .. } => "triangular",
            Self::Pert { .. } => "PERT",
            Self::Lognormal { .. } => "lognormal",
        }
    }

    /// Mean and standard deviation of the logarithm.
    fn logarithm(low: f64, high: f64) -> (f64, f64) {
        let z = Normal::standard().inverse_cdf(1.0 - TAIL);
        (f64::midpoint(low.ln(), high.ln()), (high.ln() - low.ln()) / (2.0 * z))
    }

    /// Shapes of the beta distribution between least and greatest.
    fn beta(least: f64, likely: f64, most: f64) -> Option<Beta> {
        let width = most - least;
        Beta::new(1.0 + 4.0 * (likely - least) / width, 1.0 + 4.0 * (most - likely) / width).ok()
    }

    /// Its mean.
    pub fn mean(self) -> f64 {
        match self {
            Self::Triangular { least, likely, most } => (least + likely + most) / 3.0,
            Self::Pert { least, likely, most } => (least + 4.0 * likely + most) / 6.0,
            Self::Lognormal { low, high } => {
                let (mu, sigma) = Self::logarithm(low, high);
                (mu + sigma * sigma / 2.0).exp()
            }
        }
    }

    /// Its standard deviation.
    pub fn sd(self) -> f64 {
        match self {
            // Half the sum of the squared differences, over 18: nothing is lost where the three lie close together.
            Self::Triangular { least: a, likely: m, most: b } => {
                (((b - a).powi(2) + (m - a).powi(2) + (b - m).powi(2)) / 36.0).sqrt()
            }
            Self::Pert { least, likely, most } => {
                let beta = Self::beta(least, likely, most).and_then(|own| own.std_dev());
                (most - least) * beta.unwrap_or(0.0)
            }
            Self::Lognormal { low, high } => {
                let (_, sigma) = Self::logarithm(low, high);
                self.mean() * (sigma * sigma).exp_m1().sqrt()
            }
        }
    }

    /// The share that so many of all cases do not exceed.
    pub fn quantile(self, share: f64) -> f64 {
        match self {
            Self::Triangular { least: a, likely: m, most: b } => {
                let up = (m - a) / (b - a);
                if b <= a {
                    a
                } else if share < up {
                    a + (share * (b - a) * (m - a)).sqrt()
                } else {
                    b - ((1.0 - share) * (b - a) * (b - m)).sqrt()
                }
            }
            Self::Pert { least, likely, most } => {
                let beta = Self::beta(least, likely, most).map_or(0.0, |own| own.inverse_cdf(share));
                least + (most - least) * beta
            }
            Self::Lognormal { low, high } => {
                let (mu, sigma) = Self::logarithm(low, high);
                (mu + sigma * Normal::standard().inverse_cdf(share)).exp()
            }
        }
    }

    /// What draws from it; a range without width draws always the same.
    fn sampler(self) -> Sampler {
        let all = match self {
            Self::Triangular { least, likely, most } => {
                Triangular::new(least, most, likely).ok().map(Sampler::Triangular)
            }
            Self::Pert { least, likely, most } => Pert::new(least, most).with_mode(likely).ok().map(Sampler::Pert),
            Self::Lognormal { low, high } => {
                let (mu, sigma) = Self::logarithm(low, high);
                LogNormal::new(mu, sigma).ok().map(Sampler::Lognormal)
            }
        };
        all.unwrap_or_else(|| Sampler::Always(self.mean()))
    }
}

enum Sampler {
    Always(f64),
    Triangular(Triangular<f64>),
    Pert(Pert<f64>),
    Lognormal(LogNormal<f64>),
}

impl Sampler {
    fn draw(&self, rng: &mut ChaCha8Rng) -> f64 {
        match self {
            Self::Always(share) => *share,
            Self::Triangular(own) => own.sample(rng),
            Self::Pert(own) => own.sample(rng),
            Self::Lognormal(own) => own.sample(rng),
        }
    }
}

/// Something that makes lines cost more or less.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Cause {
    /// What it is.
    pub name: String,
    /// Lines, what they are priced by, stages or kinds.
    pub of: Vec<String>,
    /// Each line turns out for itself; else all together.
    pub each: bool,
    /// How its shares are spread.
    pub shape: Shape,
}

/// What one cause does to the price.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Driver {
    /// The cause, and the line where each line turns out for itself.
    pub name: String,
    /// How many lines it acts on.
    pub lines: usize,
    /// The share of the price's variance that goes with it: the squared correlation of its draws with those of the price. Where
    /// causes multiply, a small rest belongs to no one of them.
    pub of_variance: f64,
    /// How much it moves the price by itself, from the case that one in ten is below to the one that one in ten is above; the
    /// others at their means.
    pub swing: f64,
}

/// A quote drawn many times over.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Odds {
    /// ISO 4217 code.
    pub currency: &'static str,
    /// The total as quoted.
    pub quoted: Decimal,
    /// Where the random numbers start.
    pub seed: u64,
    /// Totals from the least to the greatest.
    #[serde(skip)]
    pub totals: Vec<f64>,
    /// Hours of one person from the least to the greatest.
    #[serde(skip)]
    pub hours: Vec<f64>,
    /// Mean of the totals.
    pub mean: f64,
    /// Standard deviation of the totals.
    pub sd: f64,
    /// The causes, the one that drives the spread most first.
    pub drivers: Vec<Driver>,
    /// What has no price and is in no draw.
    pub open_items: Vec<String>,
}

impl Odds {
    /// The total that holds in this share of all cases: the least one that so many draws do not exceed, up to the smallest coin.
    ///
    /// # Errors
    /// A share that is not between nought and one.
    pub fn price(&self, share: f64) -> Result<Decimal, Problem> {
        let total = at(&self.totals, share)?;
        let places = Currency::from_code(self.currency).and_then(|own| own.exponent()).map_or(2, u32::from);
        let exact = Decimal::from_f64(total).unwrap_or_default();
        // A total of binary fractions of a coin above a whole coin is that coin.
        Ok(exact
            .round_dp(places + 4)
            .round_dp_with_strategy(places, rust_decimal::RoundingStrategy::ToPositiveInfinity))
    }

    /// The hours that suffice in this share of all cases.
    ///
    /// # Errors
    /// A share that is not between nought and one.
    pub fn hours_at(&self, share: f64) -> Result<f64, Problem> {
        at(&self.hours, share)
    }

    /// The share of all cases in which the quoted total suffices.
    pub fn holds(&self) -> f64 {
        let quoted = self.quoted.to_f64().unwrap_or_default() * (1.0 + 1e-12);
        self.totals.partition_point(|total| *total <= quoted) as f64 / self.totals.len() as f64
    }
}

/// The inverse of the empirical distribution function of values that rise.
fn at(values: &[f64], share: f64) -> Result<f64, Problem> {
    if !(share > 0.0 && share < 1.0) {
        return Err(Problem::out_of_range("share", share, "more than 0 and less than 1: 0.8 for four cases in five"));
    }
    let place = (share * values.len() as f64).ceil() as usize;
    Ok(values.get(place.clamp(1, values.len()) - 1).copied().unwrap_or(f64::NAN))
}

/// A cause with the lines it acts on.
struct Factor {
    name: String,
    shape: Shape,
    lines: Vec<usize>,
}

fn names(line: &Line) -> [&str; 4] {
    [&line.name, &line.priced_by, line.stage.words(), line.basis.words()]
}

fn factors(quote: &Quote, causes: &[Cause]) -> Result<Vec<Factor>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut factors = Vec::new();
    let drawn = || quote.lines.iter().enumerate().filter(|(_, line)| line.basis != Basis::Share);
    for (i, cause) in causes.iter().enumerate() {
        for (k, name) in cause.of.iter().enumerate() {
            if !drawn().any(|(_, line)| names(line).contains(&name.as_str())) {
                let mut known: Vec<&str> = drawn().flat_map(|(_, line)| names(line)).collect();
                known.sort_unstable();
                known.dedup();
                problems.push(Problem::unknown_name(format!("odds[{i}].of[{k}]"), "line of the quote", name, known));
            }
        }
        let acts_on = |line: &Line| cause.of.iter().any(|name| names(line).contains(&name.as_str()));
        let lines: Vec<usize> = drawn().filter(|(_, line)| acts_on(line)).map(|(i, _)| i).collect();
        if cause.each && lines.len() > 1 {
            factors.extend(lines.into_iter().map(|i| Factor {
                name: format!("{}: {}", cause.name, quote.lines[i].name),
                shape: cause.shape,
                lines: vec![i],
            }));
        } else {
            factors.push(Factor { name: cause.name.clone(), shape: cause.shape, lines });
        }
    }
    if problems.is_empty() { Ok(factors) } else { Err(problems) }
}

/// Sums over draws, of differences from what is quoted: they stay exact enough where the spread is small.
#[derive(Clone)]
struct Sums {
    y: f64,
    yy: f64,
    /// Of each factor: x, xx, xy.
    x: Vec<[f64; 3]>,
}

/// Draws the quote over and over: each cause a share, the same for all its lines, or one for each; overhead, margin and tax follow
/// as shares. Every draw is the same however many threads work; `go_on` is asked now and then.
///
/// # Errors
/// No cause, one that names no line of the quote, too few or too many draws; or what `go_on` ended the work with.
///
/// # Example
/// ```
/// use raisedbody::error::Error;
/// use raisedbody::plan::Plan;
/// use raisedbody::shop::odds::odds;
/// let plan = Plan::read("examples/mobile_library.toml").unwrap();
/// let quote = plan.evaluate().unwrap().quote.unwrap();
/// let odds = odds(&quote, plan.causes(), (20_000, 1), |_, _| Ok::<_, Error>(())).unwrap();
/// assert!(odds.price(0.5).unwrap() < odds.price(0.9).unwrap());
/// ```
pub fn odds<E: From<crate::error::Error>>(
    quote: &Quote,
    causes: &[Cause],
    (draws, seed): (usize, u64),
    mut go_on: impl FnMut(usize, usize) -> Result<(), E>,
) -> Result<Odds, E> {
    let refused = |problem: Problem| E::from(problem.into());
    if causes.is_empty() {
        let fix = "say what may turn out otherwise: [[odds]] with name, of, shape and its shares";
        return Err(refused(Problem::missing("odds", fix)));
    }
    if !DRAWS.contains(&draws) {
        let allowed = format!("{} to {}", DRAWS.start, DRAWS.end - 1);
        return Err(refused(Problem::out_of_range("draws", draws, allowed)));
    }
    let factors = factors(quote, causes)
        .map_err(|problems| E::from(crate::error::Error::Input(problems.into_iter().map(Into::into).collect())))?;
    let job = Drawn::new(quote, &factors);
    let mut totals = vec![0.0; draws];
    let mut hours = vec![0.0; draws];
    let mut sums = Sums { y: 0.0, yy: 0.0, x: vec![[0.0; 3]; factors.len()] };
    let batch = BLOCK * 64;
    for (b, (totals, hours)) in totals.chunks_mut(batch).zip(hours.chunks_mut(batch)).enumerate() {
        go_on(b * batch, draws)?;
        let blocks = totals.par_chunks_mut(BLOCK).zip(hours.par_chunks_mut(BLOCK)).enumerate();
        let own: Vec<Sums> = blocks.map(|(i, (totals, hours))| job.block(seed, b * 64 + i, totals, hours)).collect();
        // One after another: the sum does not hang on which block was ready first.
        for own in own {
            sums.y += own.y;
            sums.yy += own.yy;
            for (all, own) in sums.x.iter_mut().zip(own.x) {
                (0..3).for_each(|k| all[k] += own[k]);
            }
        }
    }
    go_on(draws, draws)?;
    totals.par_sort_unstable_by(f64::total_cmp);
    hours.par_sort_unstable_by(f64::total_cmp);
    let n = draws as f64;
    let variance = |xx: f64, x: f64| (xx / n - (x / n) * (x / n)).max(0.0);
    let of_price = variance(sums.yy, sums.y);
    let mut drivers: Vec<Driver> = factors
        .iter()
        .zip(&sums.x)
        .map(|(factor, [x, xx, xy])| {
            let covariance = xy / n - (x / n) * (sums.y / n);
            let both = variance(*xx, *x) * of_price;
            Driver {
                name: factor.name.clone(),
                lines: factor.lines.len(),
                of_variance: if both > 0.0 { covariance * covariance / both } else { 0.0 },
                swing: job.at_means(factor, &factors)
                    * (factor.shape.quantile(1.0 - TAIL) - factor.shape.quantile(TAIL)),
            }
        })
        .collect();
    drivers.sort_by(|a, b| b.of_variance.total_cmp(&a.of_variance).then_with(|| a.name.cmp(&b.name)));
    Ok(Odds {
        currency: quote.currency,
        quoted: quote.total,
        seed,
        mean: job.quoted + sums.y / n,
        sd: of_price.sqrt(),
        totals,
        hours,
        drivers,
        open_items: quote.open_items.clone(),
    })
}

/// A quote as it is drawn.
struct Drawn {
    /// Of the lines that any cause acts on: amount with its part of overhead, margin and tax, and hours.
    lines: Vec<(f64, f64)>,
    /// The same of all other lines together.
    rest: (f64, f64),
    /// What draws, and the lines it acts on.
    samplers: Vec<(Sampler, Vec<usize>)>,
    quoted: f64,
}

impl Drawn {
    fn new(quote: &Quote, factors: &[Factor]) -> Self {
        let number = |amount: Decimal| amount.to_f64().unwrap_or_default();
        let base: Decimal = quote.lines.iter().filter(|l| l.basis != Basis::Share).map(|l| l.amount).sum();
        let quoted = number(quote.total);
        // Overhead, margin and tax are shares: they grow as the lines do.
        let with_shares = if base.is_zero() { 1.0 } else { quoted / number(base) };
        let of = |line: &Line| {
            let hours = if line.basis == Basis::Labour { number(line.quantity) } else { 0.0 };
            (number(line.amount) * with_shares, hours)
        };
        let mut place = vec![None; quote.lines.len()];
        // Tasks without a rate take their hours all the same.
        let (mut lines, mut rest) = (Vec::new(), (0.0, number(quote.open_hours)));
        for (i, line) in quote.lines.iter().enumerate().filter(|(_, line)| line.basis != Basis::Share) {
            let (amount, hours) = of(line);
            if factors.iter().any(|factor| factor.lines.contains(&i)) {
                place[i] = Some(lines.len());
                lines.push((amount, hours));
            } else {
                rest = (rest.0 + amount, rest.1 + hours);
            }
        }
        let samplers = factors
            .iter()
            .map(|factor| (factor.shape.sampler(), factor.lines.iter().filter_map(|&i| place[i]).collect()))
            .collect();
        Self { lines, rest, samplers, quoted }
    }

    fn block(&self, seed: u64, block: usize, totals: &mut [f64], hours: &mut [f64]) -> Sums {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(block as u64);
        let mut sums = Sums { y: 0.0, yy: 0.0, x: vec![[0.0; 3]; self.samplers.len()] };
        let mut share = vec![1.0; self.lines.len()];
        let mut drawn = vec![0.0; self.samplers.len()];
        for (total, hours) in totals.iter_mut().zip(hours) {
            share.fill(1.0);
            for ((sampler, lines), x) in self.samplers.iter().zip(&mut drawn) {
                *x = sampler.draw(&mut rng);
                for &line in lines {
                    share[line] *= *x;
                }
            }
            (*total, *hours) = self.rest;
            for ((amount, own), share) in self.lines.iter().zip(&share) {
                *total += amount * share;
                *hours += own * share;
            }
            let y = *total - self.quoted;
            sums.y += y;
            sums.yy += y * y;
            for (sums, x) in sums.x.iter_mut().zip(&drawn) {
                let x = x - 1.0;
                sums[0] += x;
                sums[1] += x * x;
                sums[2] += x * y;
            }
        }
        sums
    }

    /// What a cause's lines cost where every other cause is at its mean.
    fn at_means(&self, factor: &Factor, factors: &[Factor]) -> f64 {
        let mut amounts: Vec<f64> = self.lines.iter().map(|(amount, _)| *amount).collect();
        for (other, (_, lines)) in factors.iter().zip(&self.samplers) {
            if !std::ptr::eq(other, factor) {
                for &line in lines {
                    amounts[line] *= other.shape.mean();
                }
            }
        }
        let own = factors.iter().position(|other| std::ptr::eq(other, factor));
        let lines = own.and_then(|i| self.samplers.get(i)).map_or(&[][..], |(_, lines)| lines.as_slice());
        lines.iter().map(|&line| amounts[line]).sum()
    }
}
