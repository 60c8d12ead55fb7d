//! Two metals in contact: which is eaten, whether the anodic index permits it, and what the areas do.
//!
//! Three kinds of knowledge are asked and none is taken for another: the anodic index with its limit by exposure (after
//! MIL-STD-1250A), potentials in sea water by several series, and orders from anodic to cathodic (after MIL-STD-889). Sources
//! differ: the gap between steel and aluminium goes from 0.03 to 0.4 V. So a gap is a range over the series, each compared
//! within itself, and where they do not agree on the anode either metal may be eaten.
//!
//! The index says nothing of the areas. With oxygen as the cathode's fuel the attack on the anode goes with wetted cathode area
//! over wetted anode area (from memory; MIL-STD-1250A tells the effect as inverse): a small anode in a large cathode is eaten
//! fast even where the index is content.

use crate::catalogue::{Catalogue, Exposure, SurfaceState};
use crate::check::{Check, Level, Standing, Verdict, significant, term};
use crate::error::Problem;

use super::sheet::in_range;

/// Names of the rules of the anodic index.
pub const CLAUSE: &str = "MIL-STD-889 and MIL-STD-1250A, difference of anodic indices";

/// Cathode over anode area up to which a rule of thumb is content: an anode of at least 100 times the cathode's area.
pub const THUMB_RATIO: f64 = 0.01;

const THUMB_SOURCE: &str = "rule of thumb, anode at least 100 times the cathode, restated by a secondary text: \
     rfmaterials.com/pointers";
const MIL_1250: &str = "MIL-STD-1250A: emilspec.com MIL-STD-1250 page 28";
const WETTED: &str =
    "only wetted area counts, restated by a secondary text (snowest.com thread 276351); the proportion from memory";

const INDEX_V: (f64, f64) = (-5.0, 5.0);
const AREA_M2: (f64, f64) = (1e-9, 1e6);

/// What one series or order says of one metal.
#[derive(Debug, Clone, PartialEq)]
struct Entry {
    series: String,
    /// Volts, or place in the order.
    range: (f64, f64),
    source: String,
    standing: Standing,
}

impl Entry {
    /// Adds a row to those of its series.
    fn add(all: &mut Vec<Self>, series: &str, (least, most): (f64, f64), source: &str, standing: Standing) {
        if let Some(own) = all.iter_mut().find(|e| e.series == series) {
            own.range = (own.range.0.min(least), own.range.1.max(most));
            own.standing = own.standing.with(standing);
        } else {
            let (series, source) = (series.to_owned(), source.to_owned());
            all.push(Self { series, range: (least, most), source, standing });
        }
    }
}

/// A metal or plating as its contact sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Metal {
    /// Its name, with its state where one was asked for: `"stainless steel 304, passive"`.
    pub name: String,
    /// Anodic index, least and greatest, volts; none where no source has one.
    pub index_v: Option<(f64, f64)>,
    /// Where the index comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
    potentials: Vec<Entry>,
    places: Vec<Entry>,
}

impl Metal {
    /// A metal of the catalogue by name; with `", active"` or `", passive"` after it only in that state. `path` names the field
    /// in errors.
    ///
    /// # Errors
    /// An unknown metal, the nearest is named; a state that no series tells of this metal; an index that none is.
    ///
    /// # Example
    /// ```
    /// use raisedbody::catalogue::Catalogue;
    /// use raisedbody::mechanics::galvanic::Metal;
    /// let catalogue = Catalogue::standard().unwrap();
    /// let lug = Metal::named(&catalogue, "a", "copper").unwrap();
    /// assert_eq!(lug.index_v, Some((0.35, 0.35)));
    /// assert!(Metal::named(&catalogue, "a", "coper").unwrap_err().to_string().contains("did you mean \"copper\""));
    /// ```
    pub fn named(catalogue: &Catalogue, path: &str, name: &str) -> Result<Self, Problem> {
        let asked = [SurfaceState::Active, SurfaceState::Passive]
            .into_iter()
            .find_map(|state| Some((name.strip_suffix(state.name())?.strip_suffix(", ")?, state)));
        let row = catalogue.galvanic_metal(path, asked.map_or(name, |(plain, _)| plain))?;
        let index_v = row.index_v.map(|least| (least, row.index_most_v.unwrap_or(least)));
        for bound in index_v.iter().flat_map(|(least, most)| [*least, *most]) {
            in_range(path, Some(bound), INDEX_V, "V")?;
        }
        let rows = catalogue.rows();
        let of = |metals: &[String], own: Option<SurfaceState>| {
            // A row without a state holds for both.
            metals.contains(&row.name) && asked.is_none_or(|(_, state)| own.is_none_or(|own| own == state))
        };
        let (mut potentials, mut places) = (Vec::new(), Vec::new());
        for r in rows.sea_potential.iter().filter(|r| of(&r.metals, r.state)) {
            Entry::add(&mut potentials, &r.series, (r.least_v, r.most_v), &r.source, r.standing);
        }
        for r in rows.galvanic_order.iter().filter(|r| of(&r.metals, r.state)) {
            Entry::add(&mut places, &r.series, (f64::from(r.first), f64::from(r.last)), &r.source, r.standing);
        }
        if let Some((plain, state)) = asked {
            let told = rows.sea_potential.iter().any(|r| r.state == Some(state) && r.metals.contains(&row.name))
                || rows.galvanic_order.iter().any(|r| r.state == Some(state) && r.metals.contains(&row.name));
            if !told {
                let problem = format!("no series tells {plain} {} from {plain}; write \"{plain}\"", state.name());
                return Err(Problem::contradiction(path, name, problem));
            }
        }
        let name = asked.map_or_else(|| row.name.clone(), |(_, state)| format!("{}, {}", row.name, state.name()));
        Ok(Self { name, index_v, source: row.source.clone(), standing: row.standing, potentials, places })
    }
}

/// How large the two surfaces are that water wets.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Wetted {
    /// Nothing is known of them.
    #[default]
    NotKnown,
    /// The first is a fastener, small beside the second; their areas are not known.
    Fastener,
    /// Two faces over each other, alike in size.
    Faces,
    /// Areas of the first and the second, m2.
    Areas(f64, f64),
}

/// Which of the two is eaten.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub enum Eaten {
    /// The first.
    #[serde(rename = "first")]
    First,
    /// The second.
    #[serde(rename = "second")]
    Second,
    /// Sources disagree, or do not tell: it may be either.
    #[serde(rename = "may be either")]
    Either,
    /// Both are of one metal.
    #[serde(rename = "neither")]
    Neither,
}

impl Eaten {
    /// The same with first and second changed over.
    #[must_use]
    pub fn swapped(self) -> Self {
        match self {
            Self::First => Self::Second,
            Self::Second => Self::First,
            other => other,
        }
    }
}

/// What one source says of a pair.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct SourceView {
    /// The series or order.
    pub series: String,
    /// Potential of the second over that of the first, least and greatest, volts; none where the source is an order.
    pub second_over_first_v: Option<(f64, f64)>,
    /// Which it says is eaten; none where it puts them level.
    pub eaten: Option<Eaten>,
    /// Where it comes from.
    pub source: String,
    /// How it is known.
    pub standing: Standing,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Remedy {
    /// What.
    pub text: String,
    /// Where it comes from.
    pub source: &'static str,
    /// How it is known.
    pub standing: Standing,
}

/// Two metals in contact.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The first.
    pub first: Metal,
    /// The second.
    pub second: Metal,
    /// How they are exposed.
    pub exposure: Exposure,
    /// The areas that water wets.
    pub wetted: Wetted,
    /// Difference of anodic indices, least and greatest, volts; none where an index is missing.
    pub index_difference_v: Option<(f64, f64)>,
    /// Limit of the exposure, volts.
    pub limit_v: f64,
    /// How the limit is known.
    pub limit_standing: Standing,
    /// Gap between the potentials whichever way round, least and greatest over all series, volts; none where no series has both.
    pub gap_v: Option<(f64, f64)>,
    /// Series behind the gap.
    pub gap_sources: usize,
    /// Which is eaten.
    pub eaten: Eaten,
    /// Wetted cathode area over wetted anode area; none where areas or anode are not known.
    pub area_ratio: Option<f64>,
    /// What each source says.
    pub views: Vec<SourceView>,
}

/// Wetted cathode area over wetted anode area, to which the attack on the anode is in proportion.
pub fn area_ratio(cathode_m2: f64, anode_m2: f64) -> f64 {
    cathode_m2 / anode_m2
}

/// Which of two ranges lies wholly below the other; none where they touch.
fn lower(first: (f64, f64), second: (f64, f64)) -> Option<Eaten> {
    if first.1 < second.0 {
        Some(Eaten::First)
    } else if second.1 < first.0 {
        Some(Eaten::Second)
    } else {
        None
    }
}

/// Size of a difference known to lie between two, whichever its sign.
fn size((least, most): (f64, f64)) -> (f64, f64) {
    if least <= 0.0 && most >= 0.0 {
        (0.0, most.max(-least))
    } else {
        (least.abs().min(most.abs()), least.abs().max(most.abs()))
    }
}

/// Hundredths that cancel leave dust: 1.25 - 1.2 is not 0.05 in binary.
fn clean(volts: f64) -> f64 {
    (volts * 1e6).round() / 1e6
}

fn difference(first: (f64, f64), second: (f64, f64)) -> (f64, f64) {
    (clean(second.0 - first.1), clean(second.1 - first.0))
}

impl Pair {
    /// Works two metals in contact out.
    ///
    /// # Errors
    /// Areas that no contact has.
    pub fn of(
        catalogue: &Catalogue,
        (first, second): (Metal, Metal),
        exposure: Exposure,
        wetted: Wetted,
    ) -> Result<Self, Vec<Problem>> {
        let limit = catalogue.galvanic_limit("exposure", exposure).map_err(|p| vec![p])?;
        let areas = match wetted {
            Wetted::Areas(first, second) => Some((first, second)),
            _ => None,
        };
        let area = |name: &str, m2: Option<f64>| in_range(name, m2, AREA_M2, "m2").err();
        let tests = [area("area_first", areas.map(|a| a.0)), area("area_second", areas.map(|a| a.1))];
        let mut problems: Vec<Problem> = tests.into_iter().flatten().collect();
        problems.extend(in_range("exposure", Some(limit.limit_v), (0.0, 5.0), "V").err());
        if !problems.is_empty() {
            return Err(problems);
        }
        let same = first.name == second.name;
        let index_difference_v = if same {
            Some((0.0, 0.0))
        } else {
            first.index_v.zip(second.index_v).map(|(a, b)| size(difference(a, b)))
        };
        let views = if same { Vec::new() } else { views(&first, &second) };
        let eaten = if same { Eaten::Neither } else { verdict(&views) };
        let gaps: Vec<(f64, f64)> = views.iter().filter_map(|v| v.second_over_first_v).map(size).collect();
        let gap_v = gaps.iter().copied().reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        let ratio = match (eaten, areas) {
            (Eaten::First, Some((a, b))) => Some(area_ratio(b, a)),
            (Eaten::Second, Some((a, b))) => Some(area_ratio(a, b)),
            _ => None,
        };
        Ok(Self {
            first,
            second,
            exposure,
            wetted,
            index_difference_v,
            limit_v: limit.limit_v,
            limit_standing: limit.standing,
            gap_v,
            gap_sources: gaps.len(),
            eaten,
            area_ratio: ratio,
            views,
        })
    }

    /// Name of the metal that is eaten, or what is known of it.
    pub fn eaten_name(&self) -> &str {
        match self.eaten {
            Eaten::First => &self.first.name,
            Eaten::Second => &self.second.name,
            Eaten::Either => "may be either",
            Eaten::Neither => "neither",
        }
    }

    /// The weakest standing among indices, limit and what the sources say.
    pub fn standing(&self) -> Standing {
        self.views.iter().fold(self.index_standing(), |standing, view| standing.with(view.standing))
    }

    fn index_standing(&self) -> Standing {
        self.first.standing.with(self.second.standing).with(self.limit_standing)
    }

    /// The smaller surface is the one that is eaten: true, false, or not known.
    pub fn small_anode(&self) -> Option<bool> {
        match (self.eaten, self.wetted) {
            (Eaten::Neither, _) => Some(false),
            (Eaten::Either, _) | (_, Wetted::NotKnown) => None,
            (_, Wetted::Areas(..)) => self.area_ratio.map(|ratio| ratio > 1.0),
            (eaten, Wetted::Fastener) => Some(eaten == Eaten::First),
            (_, Wetted::Faces) => Some(false),
        }
    }

    /// What the areas do, in words.
    pub fn area_words(&self) -> String {
        let told = |ratio: f64| format!("cathode {} times the anode", significant(ratio));
        match (self.eaten, self.area_ratio, self.wetted) {
            (Eaten::Neither, ..) => "one metal: areas do not matter".to_owned(),
            (_, Some(ratio), _) if ratio <= THUMB_RATIO => {
                format!("small cathode in a large anode, mild: {}, within the rule of thumb of 0.01", told(ratio))
            }
            (_, Some(ratio), _) if ratio <= 1.0 => {
                format!("the anode is the larger, but short of 100 times the cathode: {}", told(ratio))
            }
            (_, Some(ratio), _) => format!("small anode in a large cathode, bad: {}", told(ratio)),
            (Eaten::Either, _, Wetted::Fastener | Wetted::Areas(..)) => {
                "which is the anode is not certain: were it the smaller surface, the areas would be bad".to_owned()
            }
            (Eaten::First, _, Wetted::Fastener) => {
                "small anode in a large cathode, bad: the fastener is eaten".to_owned()
            }
            (Eaten::Second, _, Wetted::Fastener) => {
                "small cathode in a large anode, mild: the sheet round the fastener is eaten".to_owned()
            }
            (_, _, Wetted::Faces) => "faces alike in size: attack spreads over the whole lap".to_owned(),
            _ => "areas not given: attack grows with wetted cathode over wetted anode".to_owned(),
        }
    }

    /// What there is to be warned of that the index does not see; none where there is nothing.
    pub fn warning(&self) -> Option<String> {
        if self.small_anode() == Some(true) {
            return Some(format!("the index says nothing of areas: {}", self.area_words()));
        }
        let uncertain = self.eaten == Eaten::Either && matches!(self.wetted, Wetted::Fastener | Wetted::Areas(..));
        uncertain.then(|| format!("the index says nothing of areas: {}", self.area_words()))
    }

    /// Difference of indices against the limit of the exposure.
    pub fn check(&self) -> Check {
        let demand = self.index_difference_v.map(|(_, most)| most);
        let mut terms = vec![term("limit", self.limit_v, "V")];
        if let (Some((_, a)), Some((_, b))) = (self.first.index_v, self.second.index_v) {
            terms.extend([term("index_1", a, "V"), term("index_2", b, "V")]);
        }
        let sides = (demand, Some(self.limit_v), "V");
        let check = Check::compare("galvanic pair", CLAUSE, sides, Level::Stated, self.index_standing())
            .at(format!("{} on {}, {}", self.first.name, self.second.name, self.exposure.name()))
            .by("|index_1 − index_2| ≤ limit of the exposure", terms);
        let warned = self.warning();
        match (check.verdict, self.index_difference_v) {
            (Verdict::Fails, Some((least, most))) if least <= self.limit_v => {
                let why = format!(
                    "the difference lies between {} and {} V: it may or may not be within",
                    short(least),
                    short(most)
                );
                check.demoted(Verdict::NotAssessed, why)
            }
            (Verdict::Fails, _) => {
                let why = format!("{} eaten: {}; {}", self.eaten_name(), self.area_words(), self.first_remedy());
                check.because(why)
            }
            (Verdict::Passes, _) => match warned {
                Some(warning) => check.because(warning),
                None => check,
            },
            _ => check.because("no anodic index is known of one of them: go by the potentials"),
        }
    }

    fn first_remedy(&self) -> String {
        self.remedies().into_iter().next().map_or_else(String::new, |remedy| remedy.text)
    }

    /// The smaller surface and the larger; none where they are alike or not known.
    fn small_and_large(&self) -> Option<(&Metal, &Metal)> {
        match self.wetted {
            Wetted::Fastener => Some((&self.first, &self.second)),
            Wetted::Areas(a, b) if a < b => Some((&self.first, &self.second)),
            Wetted::Areas(a, b) if b < a => Some((&self.second, &self.first)),
            _ => None,
        }
    }

    /// What to do, the most urgent first.
    pub fn remedies(&self) -> Vec<Remedy> {
        let remedy = |text: &str, source, standing| Remedy { text: text.to_owned(), source, standing };
        if self.eaten == Eaten::Neither {
            return vec![remedy("nothing: one metal", "arithmetic on the index", Standing::Read)];
        }
        let mut all = Vec::new();
        let exceeds = self.index_difference_v.is_none_or(|(_, most)| most > self.limit_v);
        let small_anode = self.small_anode() == Some(true);
        let doubtful = small_anode || self.eaten == Eaten::Either;
        if let Some((_, large)) = self.small_and_large()
            && (small_anode || (exceeds && self.eaten == Eaten::Either))
        {
            let text =
                format!("change the smaller part, a rivet say, to the metal of {} or a more noble one", large.name);
            all.push(remedy(&text, MIL_1250, Standing::Read));
        }
        if exceeds {
            let text = "isolate: sleeve and washers, or tape between, that neither conduct nor soak up water";
            all.push(remedy(text, MIL_1250, Standing::Read));
            all.push(remedy("seal the joint all round so that no water bridges the two", MIL_1250, Standing::Read));
        }
        if doubtful || exceeds {
            let text = "paint the cathode too: paint on the anode alone makes a small anode of every scratch";
            all.push(remedy(text, "rule of corrosion handbooks, from memory", Standing::Memory));
        }
        if self.exposure == Exposure::Harsh {
            let source = "judgement for salted service; MIL-STD-1250A asks for faying surfaces impervious or sealed";
            all.push(remedy("assemble wet, with sealant or primer between the faces", source, Standing::Assumed));
        } else if all.is_empty() {
            all.push(remedy("nothing besides paint", CLAUSE, self.index_standing()));
        }
        all
    }

    /// Sources of what the areas do: that a small anode is bad, by how much it is not, that only wetted area counts.
    pub fn area_sources() -> [&'static str; 3] {
        [MIL_1250, THUMB_SOURCE, WETTED]
    }
}

fn short(volts: f64) -> String {
    significant(clean(volts))
}

/// Two sources, the same one told once.
fn together(a: &str, b: &str) -> String {
    if a == b { a.to_owned() } else { format!("{a}; {b}") }
}

/// What index, potentials and orders say, each by itself.
fn views(first: &Metal, second: &Metal) -> Vec<SourceView> {
    let mut views = Vec::new();
    if let Some((a, b)) = first.index_v.zip(second.index_v) {
        views.push(SourceView {
            series: "anodic index".to_owned(),
            second_over_first_v: None,
            // The greater index is the less noble.
            eaten: lower((-a.1, -a.0), (-b.1, -b.0)),
            source: together(&first.source, &second.source),
            standing: first.standing.with(second.standing),
        });
    }
    let both = |own: &[Entry], others: &[Entry]| -> Vec<(Entry, Entry)> {
        let pair = |e: &Entry| Some((e.clone(), others.iter().find(|o| o.series == e.series)?.clone()));
        own.iter().filter_map(pair).collect()
    };
    for (a, b) in both(&first.potentials, &second.potentials) {
        views.push(SourceView {
            second_over_first_v: Some(difference(a.range, b.range)),
            // A range that straddles nought leaves it open, and a gap of nothing too.
            eaten: Some(lower(a.range, b.range).unwrap_or(Eaten::Either)),
            series: a.series,
            source: together(&a.source, &b.source),
            standing: a.standing.with(b.standing),
        });
    }
    for (a, b) in both(&first.places, &second.places) {
        views.push(SourceView {
            second_over_first_v: None,
            eaten: lower(a.range, b.range),
            series: a.series,
            source: together(&a.source, &b.source),
            standing: a.standing.with(b.standing),
        });
    }
    views
}

/// The one that all sources name which tell them apart; either where they disagree or none tells.
fn verdict(views: &[SourceView]) -> Eaten {
    let mut told = views.iter().filter_map(|v| v.eaten);
    let Some(first) = told.next() else { return Eaten::Either };
    if told.all(|other| other == first) { first } else { Eaten::Either }
}
