//! What may turn out otherwise than quoted, in numbers; the day of the quote.

use crate::error::Problem;
use crate::plan::file::{self, ShapeOfOdds};
use crate::quantity::{Kind, Ratio};
use crate::shop::odds::{Cause, Shape};

use super::memory::OfQuoting;
use super::reader::Reader;

/// Shares beyond these are no quote any more.
const SHARES: (f64, f64) = (0.01, 100.0);

pub(super) fn odds(r: &mut Reader<'_>, file: &OfQuoting) -> Vec<Cause> {
    if let Some(day) = &file.quote.date {
        r.is_day("quote.date", day);
    }
    let mut causes: Vec<Cause> = Vec::new();
    for (i, own) in file.odds.iter().enumerate() {
        let path = format!("odds[{i}]");
        if own.name.trim().is_empty() {
            r.problems.push(Problem::missing(format!("{path}.name"), "say what it is: \"a bad week\""));
        }
        if let Some(other) = causes.iter().find(|other| other.name == own.name) {
            let problem = "two causes have this name; give each its own";
            r.problems.push(Problem::contradiction(format!("{path}.name"), &other.name, problem));
        }
        if own.of.is_empty() {
            let fix = "name lines of the quote, such as \"drill holes\", or \"labour\" for all of it";
            r.problems.push(Problem::missing(format!("{path}.of"), fix));
        }
        if let Some(shape) = shape(r, &path, own) {
            causes.push(Cause { name: own.name.clone(), of: own.of.clone(), each: own.each, shape });
        }
    }
    causes
}

fn shape(r: &mut Reader<'_>, path: &str, own: &file::Cause) -> Option<Shape> {
    let before = r.problems.len();
    let three = [("least", own.least), ("likely", own.likely), ("most", own.most)];
    let two = [("low", own.low), ("high", own.high)];
    let (wanted, other): (&[_], &[_]) =
        if own.shape == ShapeOfOdds::Lognormal { (&two, &three) } else { (&three, &two) };
    for (name, given) in other {
        if let Some(given) = given {
            let problem = match own.shape {
                ShapeOfOdds::Lognormal => "a lognormal shape has low and high; leave this out",
                _ => "this shape has least, likely and most; leave this out",
            };
            let value = Kind::Ratio.print(given.value());
            r.problems.push(Problem::contradiction(format!("{path}.{name}"), value, problem));
        }
    }
    let mut read = |(name, given): &(&str, Option<Ratio>)| match given {
        Some(given) => Some(r.bound(&format!("{path}.{name}"), given.value(), SHARES.0, SHARES.1, Kind::Ratio)),
        None => {
            let fix = format!("a share of what the quote says: write {name} = \"110 %\"");
            r.problems.push(Problem::missing(format!("{path}.{name}"), fix));
            None
        }
    };
    let shares: Option<Vec<f64>> = wanted.iter().map(&mut read).collect::<Vec<_>>().into_iter().collect();
    let shares = shares.filter(|_| r.problems.len() == before)?;
    if let Some((i, _)) = shares.windows(2).enumerate().find(|(_, pair)| pair[0] > pair[1]) {
        let (name, value) = (wanted[i + 1].0, Kind::Ratio.print(shares[i + 1]));
        let other = r.written(&format!("{path}.{}", wanted[i].0), &Kind::Ratio.print(shares[i]));
        let problem = format!("it is below {other}, which is {}; let them rise", wanted[i].0);
        r.problems.push(Problem::contradiction(format!("{path}.{name}"), value, problem));
        return None;
    }
    match (own.shape, shares.as_slice()) {
        (ShapeOfOdds::Triangular, &[least, likely, most]) => Some(Shape::Triangular { least, likely, most }),
        (ShapeOfOdds::Pert, &[least, likely, most]) => Some(Shape::Pert { least, likely, most }),
        (ShapeOfOdds::Lognormal, &[low, high]) => Some(Shape::Lognormal { low, high }),
        _ => None,
    }
}
