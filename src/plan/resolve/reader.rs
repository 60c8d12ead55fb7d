//! The reader that `resolve` goes through a plan with: bounds, defaults and their listing, sections.

use crate::catalogue::{Catalogue, SectionShape};
use crate::check::Standing;
use crate::error::Problem;
use crate::form::{DAY, Document, is_day};
use crate::mechanics::section::{Hat, RectangularTube};
use crate::plan::file::{self, SectionChoice};
use crate::quantity::{Duration, Kind, Length, Ratio};
use crate::shared::Kept;
use crate::shop::hours::Time;

use super::{Assumption, PerAxle, Section};

/// Reads entries one by one, keeping every problem and every default it meets.
pub(super) struct Reader<'a> {
    pub(super) document: &'a Document,
    pub(super) catalogue: &'a Catalogue,
    /// Assumptions are listed; where many plans are read in turn, nobody asks for them.
    pub(super) listing: bool,
    pub(super) problems: Vec<Problem>,
    pub(super) assumed: Vec<Assumption>,
}

impl Reader<'_> {
    /// A part of the plan, read anew unless it was kept and comes from the same. What reads it is a plain function, so that
    /// it sees nothing but what it comes from. Once there is a problem nothing more is kept: parts may be left out then.
    pub(super) fn part<K: PartialEq, T: Clone>(
        &mut self,
        kept: &mut Kept<K, T>,
        from: K,
        read: fn(&mut Self, &K) -> T,
    ) -> T {
        if let Some(part) = kept.from(&from) {
            return part;
        }
        let part = read(self, &from);
        if self.problems.is_empty() {
            kept.keep(from, part.clone());
        }
        part
    }

    pub(super) fn keep<T>(&mut self, result: Result<T, Problem>) -> Option<T> {
        result.map_err(|p| self.problems.push(p)).ok()
    }

    pub(super) fn keep_all<T>(&mut self, result: Result<T, Vec<Problem>>) -> Option<T> {
        result.map_err(|p| self.problems.extend(p)).ok()
    }

    /// The value at this path as the user wrote it, or as it is understood.
    pub(super) fn written(&self, path: &str, understood: &str) -> String {
        self.document.written(path).unwrap_or_else(|| understood.to_owned())
    }

    /// Checks bounds in the inside unit of `kind`.
    pub(super) fn bound(&mut self, path: &str, value: f64, least: f64, most: f64, kind: Kind) -> f64 {
        if !(least..=most).contains(&value) {
            let written = self.written(path, &kind.print(value));
            let (least, most) = (kind.print(least), kind.print(most));
            self.problems.push(Problem::out_of_range(path, written, format!("{least} to {most}")));
        }
        value
    }

    /// Whether this is a day of the calendar, written so that days sort as text.
    pub(super) fn is_day(&mut self, path: &str, day: &str) -> bool {
        let good = is_day(day);
        if !good {
            self.problems.push(Problem::out_of_range(path, format!("\"{day}\""), DAY));
        }
        good
    }

    pub(super) fn length(&mut self, path: &str, value: Length, least_mm: f64, most_mm: f64) -> f64 {
        self.bound(path, value.mm(), least_mm, most_mm, Kind::Length)
    }

    pub(super) fn optional_length(
        &mut self,
        path: &str,
        value: Option<Length>,
        least_mm: f64,
        most_mm: f64,
    ) -> Option<f64> {
        value.map(|v| self.length(path, v, least_mm, most_mm))
    }

    /// A default, noted as an assumption about `field`.
    ///
    /// A row of the user's own can replace it, so that its value has bounds like any other.
    pub(super) fn fallback(
        &mut self,
        field: &str,
        key: &str,
        (least, most): (f64, f64),
        kind: Kind,
    ) -> (f64, Standing) {
        let value = self.catalogue.fallback_value(key, kind);
        let standing = self.note(field, key);
        let value = self.keep(value).unwrap_or(least);
        if !(least..=most).contains(&value) {
            let allowed = format!("{} to {}", kind.print(least), kind.print(most));
            self.problems.push(Problem::out_of_range(format!("default {key}"), kind.print(value), allowed));
        }
        (value, standing)
    }

    /// Lists a catalogue row that was not read in its source.
    pub(super) fn list(&mut self, field: &str, value: impl Into<String>, source: &str, standing: Standing) {
        if standing > Standing::Given && self.listing {
            let (field, value, source) = (field.to_owned(), value.into(), source.to_owned());
            self.assumed.push(Assumption { field, value, source, standing });
        }
    }

    /// Notes that a default stands in.
    pub(super) fn note(&mut self, field: &str, key: &str) -> Standing {
        let Some(row) = self.keep(self.catalogue.fallback(key)) else { return Standing::Assumed };
        if !self.listing {
            return row.standing;
        }
        // Without an entry of the plan, a catalogue row of the plan's own replaces the default.
        let field = if field.is_empty() { format!("default {key}") } else { field.to_owned() };
        let (value, source) = (row.value.clone(), format!("{}; {}", row.meaning, row.source));
        self.assumed.push(Assumption { field, value, source, standing: row.standing });
        row.standing
    }

    /// The user's value within bounds, or the default.
    pub(super) fn or_fallback(
        &mut self,
        given: Option<f64>,
        field: &str,
        key: &str,
        bounds: (f64, f64),
        kind: Kind,
    ) -> (f64, Standing) {
        match given {
            Some(v) => (self.bound(field, v, bounds.0, bounds.1, kind), Standing::Given),
            None => self.fallback(field, key, bounds, kind),
        }
    }

    pub(super) fn ratio(&mut self, given: Option<Ratio>, field: &str, key: &str, most: f64) -> f64 {
        self.or_fallback(given.map(Ratio::value), field, key, (0.0, most), Kind::Ratio).0
    }

    pub(super) fn time(&mut self, given: Option<Duration>, field: &str, key: &str) -> Time {
        let (hours, standing) = self.or_fallback(given.map(Duration::hours), field, key, (0.0, 1000.0), Kind::Duration);
        Time { hours, standing }
    }

    pub(super) fn per_axle(&mut self, path: &str, given: Option<file::PerAxle>) -> Option<PerAxle> {
        given.map(|axles| PerAxle {
            front_kg: self.bound(&format!("{path}.front"), axles.front.kg(), 100.0, 20_000.0, Kind::Mass),
            rear_kg: self.bound(&format!("{path}.rear"), axles.rear.kg(), 100.0, 40_000.0, Kind::Mass),
        })
    }

    /// A section's numbers; `listed` says whether its catalogue row is an assumption of its own.
    pub(super) fn section(&mut self, path: &str, choice: &SectionChoice, listed: bool) -> Option<Section> {
        let (shape, depth_mm, width_mm, flange_mm, wall_mm, label, standing);
        if let Some(name) = &choice.section {
            let row = self.keep(self.catalogue.section(&format!("{path}.section"), name))?;
            shape = row.shape;
            if choice.shape.is_some_and(|given| given != shape) {
                self.problems.push(Problem::contradiction(
                    format!("{path}.shape"),
                    self.written(&format!("{path}.shape"), "another shape"),
                    format!("the section \"{name}\" has another shape; leave one of them out"),
                ));
            }
            depth_mm = choice.depth.unwrap_or(row.depth).mm();
            width_mm = choice.width.unwrap_or(row.width).mm();
            flange_mm = choice.flange.or(row.flange).map(Length::mm);
            wall_mm = choice.wall.unwrap_or(row.wall).mm();
            standing = row.standing;
            label = name.clone();
            if listed {
                let source = row.source.clone();
                self.list(path, name, &source, standing);
            }
        } else {
            let mut need = |name: &str, value: Option<Length>| {
                if value.is_none() {
                    self.problems.push(Problem::missing(
                        format!("{path}.{name}"),
                        format!("measure it, or name a section of the catalogue: write {name} = \"2 in\""),
                    ));
                }
                value.map(Length::mm)
            };
            let sizes = (need("depth", choice.depth), need("width", choice.width), need("wall", choice.wall));
            if choice.shape.is_none() {
                self.problems
                    .push(Problem::missing(format!("{path}.shape"), "write shape = \"rectangular tube\" or \"hat\""));
            }
            let (Some(d), Some(w), Some(t)) = sizes else { return None };
            shape = choice.shape?;
            (depth_mm, width_mm, wall_mm) = (d, w, t);
            flange_mm = choice.flange.map(Length::mm);
            standing = Standing::Given;
            label = format!("{} {d} x {w} x {t} mm", if shape == SectionShape::Hat { "hat" } else { "tube" });
        }
        let profile = match (shape, flange_mm) {
            (SectionShape::RectangularTube, _) => {
                RectangularTube { depth_mm, width_mm, wall_mm, outer_radius_mm: 0.0 }.profile(path)
            }
            (SectionShape::Hat, Some(flange_mm)) => {
                Hat { depth_mm, crown_mm: width_mm, flange_mm, wall_mm, outer_radius_mm: 0.0 }.profile(path)
            }
            (SectionShape::Hat, None) => {
                Err(vec![Problem::missing(format!("{path}.flange"), "a hat has flanges: write flange = \"3/4 in\"")])
            }
        };
        let profile = self.keep_all(profile)?;
        let sizes = (shape, [depth_mm, width_mm, flange_mm.unwrap_or(0.0)]);
        Some(Section { label, wall_mm, sizes, properties: profile.properties(), profile, standing })
    }

    pub(super) fn default_section(&mut self, field: &str) -> Option<Section> {
        let name = self.keep(self.catalogue.fallback("section"))?.value.clone();
        self.note(field, "section");
        self.section(field, &SectionChoice { section: Some(name), ..SectionChoice::default() }, false)
    }
}
