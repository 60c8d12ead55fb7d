//! A choice among the combinations of a sweep: those that no other beats in all that the planner wants, and what keeps each
//! from being better.

use crate::check::significant;
use crate::error::{Error, Problem, nearest};
use crate::stop::look;

use super::sweep::{Sweep, label};

/// What is wanted of a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub enum Aim {
    /// As little as can be.
    Least,
    /// As much as can be.
    Most,
}

/// A number that is to be small or large.
#[derive(Debug, Clone, PartialEq)]
pub struct Objective {
    /// Its name among the numbers of a sweep.
    pub name: String,
    /// Which of both.
    pub aim: Aim,
}

/// Bounds that a number must keep, itself among them.
#[derive(Debug, Clone, PartialEq)]
pub struct HardLimit {
    /// Its name among the numbers of a sweep.
    pub name: String,
    /// Not less than this.
    pub least: Option<f64>,
    /// Not more than this.
    pub most: Option<f64>,
}

impl HardLimit {
    fn holds(&self, value: f64) -> bool {
        self.least.is_none_or(|least| value >= least) && self.most.is_none_or(|most| value <= most)
    }

    fn words(&self) -> String {
        match (self.least, self.most) {
            (Some(least), Some(most)) => format!("{} from {least} to {most}", self.name),
            (Some(least), None) => format!("{} ≥ {least}", self.name),
            (None, Some(most)) => format!("{} ≤ {most}", self.name),
            (None, None) => self.name.clone(),
        }
    }
}

/// What keeps an option from being better in one number.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// The number that would be better.
    pub name: String,
    /// The combination that has it better; none where no combination has.
    pub row: Option<usize>,
    /// In words.
    pub words: String,
}

/// A combination that no other beats.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    /// Its row in the sweep.
    pub row: usize,
    /// What keeps it from being better, objective by objective; then the limit that keeps out what would beat it in all.
    pub stops: Vec<Stop>,
}

/// The combinations that no other beats, and why the others are out.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// What was wanted.
    pub objectives: Vec<Objective>,
    /// What had to be kept.
    pub limits: Vec<HardLimit>,
    /// Those that no other beats, best in the first objective first.
    pub chosen: Vec<Chosen>,
    /// How many are beaten by one of those.
    pub beaten: usize,
    /// How many break each limit, limit by limit; one may break several.
    pub over: Vec<usize>,
    /// How many are out for a number that is not known.
    pub unknown: usize,
    /// How many cannot be at all.
    pub impossible: usize,
}

impl Choice {
    /// Why combinations are out, and how many for each reason; one may be over several limits.
    pub fn left_out(&self) -> Vec<(String, usize)> {
        let mut all = vec![
            ("beaten".to_owned(), self.beaten),
            ("not known".to_owned(), self.unknown),
            ("cannot be".to_owned(), self.impossible),
        ];
        all.extend(self.limits.iter().zip(&self.over).map(|(limit, over)| (format!("not {}", limit.words()), *over)));
        all
    }

    /// The row in the sweep of an option.
    ///
    /// # Errors
    /// There is no such option.
    pub fn row(&self, option: usize) -> Result<usize, Error> {
        let allowed = match self.chosen.len() {
            0 => "no combination keeps every limit".to_owned(),
            count => format!("0 to {}", count - 1),
        };
        let own = self.chosen.get(option).map(|own| own.row);
        own.ok_or_else(|| Problem::out_of_range("option", option, allowed).into())
    }
}

/// Rows that no other row beats: none is at least as good in every column and better in one. All columns are wanted small.
/// Rows that are equal stay together. In the order of the rows.
///
/// Sorted by their columns one after another no later row beats an earlier one, so each is held only against those kept.
///
/// # Example
/// ```
/// use raisedbody::plan::not_beaten;
/// // Cheap and heavy, dear and light, and one that is both dear and heavy.
/// assert_eq!(not_beaten(&[vec![100.0, 60.0], vec![150.0, 40.0], vec![150.0, 60.0]]), [0, 1]);
/// ```
pub fn not_beaten(rows: &[Vec<f64>]) -> Vec<usize> {
    let order = |a: &Vec<f64>, b: &Vec<f64>| {
        // Nought has no sign here.
        a.iter()
            .zip(b)
            .map(|(a, b)| (a + 0.0).total_cmp(&(b + 0.0)))
            .find(|o| o.is_ne())
            .unwrap_or(std::cmp::Ordering::Equal)
    };
    let mut sorted: Vec<(usize, &Vec<f64>)> = rows.iter().enumerate().collect();
    sorted.sort_by(|a, b| order(a.1, b.1));
    let mut kept: Vec<&Vec<f64>> = Vec::new();
    let mut rows = Vec::new();
    for (row, own) in sorted {
        look();
        let equal = kept.last().is_some_and(|last| order(last, own).is_eq());
        if equal {
            rows.push(row);
        } else if !kept.iter().any(|other| other.iter().zip(own).all(|(a, b)| a <= b)) {
            kept.push(own);
            rows.push(row);
        }
    }
    rows.sort_unstable();
    rows
}

/// Two numbers that differ, in as many digits as it takes to see it.
fn apart(one: Option<f64>, other: Option<f64>) -> (String, String) {
    let both = |text: fn(f64) -> String| (one.map_or_else(String::new, text), other.map_or_else(String::new, text));
    let short = both(significant);
    if short.0 == short.1 { both(|value| value.to_string()) } else { short }
}

/// How many numbers a planner can weigh at once.
const MOST_OBJECTIVES: usize = 8;

impl Sweep {
    /// Those combinations that no other beats in all that is wanted, among those that keep every limit.
    ///
    /// # Errors
    /// No objective or more than eight, one given twice, a name that is no number of the sweep, a limit without a bound or
    /// with its bounds the wrong way round.
    ///
    /// # Example
    /// ```
    /// use raisedbody::error::Error;
    /// use raisedbody::plan::{Aim, Axis, Objective, Plan};
    /// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
    /// let gauges = Axis::new("skin.gauge", vec![16.into(), 18.into()]).unwrap();
    /// let sweep = plan.sweep(vec![gauges], |_, _| Ok::<_, Error>(())).unwrap();
    /// let light = Objective { name: "skin_mass_kg".to_owned(), aim: Aim::Least };
    /// assert_eq!(sweep.choose(vec![light], vec![]).unwrap().chosen[0].row, 1);
    /// ```
    pub fn choose(&self, objectives: Vec<Objective>, limits: Vec<HardLimit>) -> Result<Choice, Error> {
        self.can_choose(&objectives, &limits)?;
        let mut choice = Choice {
            chosen: Vec::new(),
            beaten: 0,
            over: vec![0; limits.len()],
            unknown: 0,
            impossible: 0,
            objectives,
            limits,
        };
        // In the running, and what only a limit keeps out; each with what is wanted of it, all made small.
        let (mut within, mut over) = (Vec::new(), Vec::new());
        for row in 0..self.len() {
            look();
            if self.row(row).is_none_or(Result::is_err) {
                choice.impossible += 1;
                continue;
            }
            let bounded: Option<Vec<f64>> = choice.limits.iter().map(|limit| self.value(row, &limit.name)).collect();
            let Some((bounded, wanted)) = bounded.zip(self.wanted(row, &choice.objectives)) else {
                choice.unknown += 1;
                continue;
            };
            let broken: Vec<usize> = (0..bounded.len()).filter(|i| !choice.limits[*i].holds(bounded[*i])).collect();
            for limit in &broken {
                choice.over[*limit] += 1;
            }
            if broken.is_empty() { within.push((row, wanted)) } else { over.push((row, wanted, broken)) }
        }
        let (rows, wanted): (Vec<usize>, Vec<Vec<f64>>) = within.into_iter().unzip();
        let mut kept: Vec<(usize, &Vec<f64>)> =
            not_beaten(&wanted).into_iter().map(|i| (rows[i], &wanted[i])).collect();
        kept.sort_by(|a, b| a.1[0].total_cmp(&b.1[0]).then(a.0.cmp(&b.0)));
        choice.beaten = rows.len() - kept.len();
        choice.chosen = kept
            .iter()
            .map(|own| {
                let mut stops: Vec<Stop> =
                    (0..choice.objectives.len()).map(|i| self.stop(&choice.objectives, i, *own, &kept)).collect();
                stops.extend(self.kept_out(&choice.limits, *own, &over));
                Chosen { row: own.0, stops }
            })
            .collect();
        Ok(choice)
    }

    fn can_choose(&self, objectives: &[Objective], limits: &[HardLimit]) -> Result<(), Error> {
        let mut problems = Vec::new();
        if objectives.is_empty() || objectives.len() > MOST_OBJECTIVES {
            let allowed = format!("1 to {MOST_OBJECTIVES} numbers");
            problems.push(Problem::out_of_range("objectives", objectives.len(), allowed));
        }
        let mut known = |field: &str, name: &str| {
            if !self.names().contains(&name) {
                let near = nearest(name, self.names().iter().copied());
                let nearest = near.map_or_else(|| self.names().join("\" or \""), str::to_owned);
                problems.push(Problem::UnknownName {
                    path: field.to_owned(),
                    value: name.to_owned(),
                    what: "number".to_owned(),
                    nearest: Some(nearest),
                });
            }
        };
        for objective in objectives {
            known("objectives", &objective.name);
        }
        for limit in limits {
            known("limits", &limit.name);
        }
        for (i, objective) in objectives.iter().enumerate() {
            if objectives.iter().take(i).any(|other| other.name == objective.name) {
                problems.push(Problem::contradiction("objectives", &objective.name, "named twice; name it once"));
            }
        }
        for limit in limits {
            let field = format!("limits, {}", limit.name);
            match (limit.least, limit.most) {
                (None, None) => problems.push(Problem::missing(field, "give its least or its most value")),
                (least, most) if [least, most].into_iter().flatten().any(|v| !v.is_finite()) => {
                    problems.push(Problem::out_of_range(field, limit.words(), "finite numbers"));
                }
                (Some(least), Some(most)) if least > most => {
                    problems.push(Problem::contradiction(field, limit.words(), "the least is above the most"));
                }
                _ => {}
            }
        }
        Error::from_problems(problems)
    }

    /// What is wanted of a combination, each made so that less is better; none where one is not known.
    fn wanted(&self, row: usize, objectives: &[Objective]) -> Option<Vec<f64>> {
        let sign = |aim| if aim == Aim::Least { 1.0 } else { -1.0 };
        objectives.iter().map(|o| Some(sign(o.aim) * self.value(row, &o.name)?)).collect()
    }

    /// What it takes to better one number: the nearest option that has it better, and what is lost there.
    fn stop(&self, objectives: &[Objective], i: usize, own: (usize, &Vec<f64>), kept: &[(usize, &Vec<f64>)]) -> Stop {
        let name = &objectives[i].name;
        let better = kept.iter().filter(|other| other.1[i] < own.1[i]);
        let Some(next) = better.max_by(|a, b| a.1[i].total_cmp(&b.1[i])) else {
            let words = format!("{name}: none within the limits has it better");
            return Stop { name: name.clone(), row: None, words };
        };
        let told = |i: usize| {
            let name = &objectives[i].name;
            let (theirs, mine) = apart(self.value(next.0, name), self.value(own.0, name));
            format!("{name} {theirs} for {mine}")
        };
        let lost: Vec<String> = (0..objectives.len()).filter(|j| next.1[*j] > own.1[*j]).map(told).collect();
        let words = format!("{} costs {} ({})", told(i), lost.join(", "), self.differs(own.0, next.0));
        Stop { name: name.clone(), row: Some(next.0), words }
    }

    /// The limit that keeps out a combination that would beat this one in all.
    fn kept_out(
        &self,
        limits: &[HardLimit],
        own: (usize, &Vec<f64>),
        over: &[(usize, Vec<f64>, Vec<usize>)],
    ) -> Option<Stop> {
        let beats = |other: &Vec<f64>| other.iter().zip(own.1).all(|(a, b)| a <= b) && other != own.1;
        let would = over.iter().filter(|(_, wanted, _)| beats(wanted));
        let (row, _, broken) = would.min_by_key(|(row, _, broken)| (broken.len(), *row))?;
        let told = |limit: &HardLimit| {
            let value = self.value(*row, &limit.name).map_or_else(String::new, significant);
            format!("{}, where it has {value}", limit.words())
        };
        let told: Vec<String> = broken.iter().filter_map(|i| limits.get(*i)).map(told).collect();
        let words = format!("{} would beat it, but for {}", self.differs(own.0, *row), told.join(" and "));
        let name = broken.first().and_then(|i| limits.get(*i)).map_or_else(String::new, |limit| limit.name.clone());
        Some(Stop { name, row: Some(*row), words })
    }

    /// The entries in which another combination differs from this one, with its values.
    fn differs(&self, own: usize, other: usize) -> String {
        let pairs = self.choices(own).into_iter().zip(self.choices(other));
        let changed = self.axes().iter().zip(pairs).filter(|(_, (a, b))| a != b);
        changed.map(|(axis, (_, b))| format!("{} {}", axis.path(), label(b))).collect::<Vec<_>>().join(", ")
    }
}
