//! A build plan: its file, its evaluation, and comparisons of several.

mod aligned;
mod batch;
mod bows;
mod choose;
mod compare;
mod cut_asked;
mod cut_cards;
mod cut_job;
mod cut_list;
mod cuts;
mod details;
mod drilling;
mod effects;
mod end_caps;
mod essentials;
mod evaluate;
mod exits;
pub mod file;
mod flatness;
mod flats;
mod gate;
mod joints;
mod lift;
mod measure_up;
mod metrics;
mod offer;
mod order;
mod outlook;
mod paint;
mod pairs;
mod relaid;
mod resolve;
mod results;
mod rivet_lots;
mod rows;
mod schedule;
mod skin_loads;
mod splices;
mod sweep;
mod text;
mod thinned;

use std::path::Path;
use std::sync::{Arc, OnceLock};

use serde_json::Value as Json;
use toml::{Table, Value};

use crate::catalogue::{Catalogue, Rows};
use crate::error::{Error, Problem};
use crate::files::read_text;
use crate::form::{Document, schema_of};
use crate::shop::odds::Cause;
use crate::shop::price_book::PriceBook;

pub use crate::files::write_whole;
pub use batch::{Depth, JobColumn, QuotedJob, job_numbers};
pub use bows::{BowAnswer, BowShape, BowSummary};
pub use choose::{Aim, Choice, Chosen, HardLimit, Objective, Stop, not_beaten};
pub use compare::{Comparison, compare};
pub use cut_cards::{BarCard, CutPlace, CutStep, SheetCard};
pub use cut_job::{bar_cuts, sheet_cuts};
pub use cut_list::{BarCuts, CutBy, CutList, Purchase, SheetCuts, Source};
pub use cuts::{Cuts, RANKED_BY};
pub use details::{Detail, EdgeAdvice, bare_edge};
pub use drilling::{BitUse, Drilling, OldLine, PILOT_MM};
pub use end_caps::{CapCorner, CapPiece, EndCapSummary};
pub use exits::ExitCount;
pub use flatness::{Advice, FlatPanel, FlatnessSummary, PanelRow, PanelSize, SuctionBow};
pub use flats::{BendLine, Flat, FlatHole, FlatKind, JIG_END_MM, JIG_WIDTH_MM};
pub use gate::{Gate, GateRow, GateState, QuestionKey};
pub use lift::{BraceAtStep, LiftStep, LiftSummary, SupportLoads};
pub use measure_up::{MEASURE_UP_NOTES, MeasureUp, WrittenReading};
pub use metrics::Metric;
pub use offer::{Offer, SheetWay};
pub use paint::{CoatRow, PaintOutlook, PaintSummary};
pub use pairs::ContactPair;
pub use relaid::LiesOn;
pub use resolve::Assumption;
pub use results::{
    CAUTIONS, Effect, Evaluation, HeightRange, JointCase, LifeCost, MassSummary, OrderLine, Reminder, Span,
    ThinnedJoint, ZoneOutlook,
};
pub use rivet_lots::RivetLot;
pub use schedule::HangingRow;
pub use skin_loads::{LoadCase, SkinLoad};
pub use splices::{PostSplice, SpliceFasteners, SpliceSummary};
pub use sweep::{Axis, MOST_COMBINATIONS, Sweep};

/// A build plan that was read and found whole: every entry readable, nothing contradictory.
#[derive(Debug, Clone)]
pub struct Plan {
    document: Document,
    /// The text that it was read from, before any change: what is written keeps the planner's own words where it can.
    source: Option<Arc<str>>,
    file: file::File,
    catalogue: Arc<Catalogue>,
    resolved: Arc<resolve::Resolved>,
}

impl PartialEq for Plan {
    fn eq(&self, other: &Self) -> bool {
        self.document.table == other.document.table
    }
}

/// The JSON Schema of the plan file.
pub fn plan_schema() -> &'static Json {
    static SCHEMA: OnceLock<Json> = OnceLock::new();
    SCHEMA.get_or_init(schema_of::<file::File>)
}

impl Plan {
    /// Reads a plan file; catalogue files and a price book that it names are read too and become part of the plan.
    ///
    /// # Errors
    /// A file that cannot be read, text that is not TOML, or every independent problem of the plan at once.
    pub fn read(path: impl AsRef<Path>) -> Result<Self, Error> {
        let path = path.as_ref();
        Self::from_text(&read_text(path)?, path.parent().unwrap_or(Path::new(".")))
    }

    /// Reads a plan from its text; catalogue files and a price book are looked for in the folder `beside`.
    ///
    /// # Example
    /// ```
    /// use raisedbody::plan::Plan;
    /// let text = std::fs::read_to_string("examples/workshop_bus.toml").unwrap();
    /// let plan = Plan::from_text(&text, ".".as_ref()).unwrap();
    /// assert_eq!(plan.file().name, "Workshop bus");
    /// ```
    pub fn from_text(text: &str, beside: &Path) -> Result<Self, Error> {
        let mut document = Document::parse(text)?;
        inline_catalogue_files(&mut document, beside)?;
        inline_price_book(&mut document, beside)?;
        Self::from_document(document, Some(text.into()))
    }

    fn from_document(document: Document, source: Option<Arc<str>>) -> Result<Self, Error> {
        if let Some(found) = document.table.get("schema").and_then(Value::as_integer)
            && found > file::SCHEMA
        {
            return Err(Error::NewerSchema { found, supported: file::SCHEMA });
        }
        let standard = Catalogue::standard()?;
        let with_own = |file: &file::File| match &file.catalogue {
            Some(own) => Arc::new(standard.extended(&own.rows)),
            None => Arc::clone(&standard),
        };
        let mut unfit = document.problems(plan_schema());
        if !unfit.is_empty() {
            // Other sections may hold problems of their own; those of a section that does not fit may be its echo.
            // A row of the plan's own that does not fit would be missed wherever it is named.
            let own_rows = unfit.iter().any(|problem| problem.path().starts_with("catalogue"));
            if let Some(rest) = document.read_rest::<file::File>(&unfit).filter(|_| !own_rows) {
                let section = |problem: &Problem| problem.path().split(['.', '[']).next().map(str::to_owned);
                let sections: Vec<_> = unfit.iter().map(section).collect();
                let further = resolve::resolve(&rest, &document, &with_own(&rest)).err().unwrap_or_default();
                unfit.extend(further.into_iter().filter(|problem| !sections.contains(&section(problem))));
            }
            return Err(Error::Input(document.placed(unfit)));
        }
        let file: file::File = document.fill()?;
        let catalogue = with_own(&file);
        let resolved = resolve::resolve(&file, &document, &catalogue)
            .map_err(|problems| Error::Input(document.placed(problems)))?;
        Ok(Self { document, source, file, catalogue, resolved: Arc::new(resolved) })
    }

    /// The plan as written.
    pub fn file(&self) -> &file::File {
        &self.file
    }

    /// The catalogue with the plan's own rows.
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// The entries as written.
    pub fn table(&self) -> &Table {
        &self.document.table
    }

    /// The plan as TOML text that reads back as an equal plan.
    ///
    /// A plan that was read, and those made from it, keep the planner's comments, order, blank lines and spelling of values wherever
    /// nothing was changed. A comment goes with the entry that it stands above or beside; one that a blank line parts from an entry
    /// that was taken out stays. Rows of catalogue files and prices of a book are part of the plan and stand in its text.
    ///
    /// # Example
    /// ```
    /// use raisedbody::plan::Plan;
    /// let text = std::fs::read_to_string("examples/mobile_library.toml").unwrap();
    /// let plan = Plan::from_text(&text, ".".as_ref()).unwrap();
    /// assert_eq!(plan.to_text(), text);
    /// let wider = plan.replace(&"vehicle.body_width = \"2.50 m\"".parse().unwrap()).unwrap();
    /// assert_eq!(wider.to_text(), text.replace("body_width = \"2.44 m\"", "body_width = \"2.50 m\""));
    /// ```
    pub fn to_text(&self) -> String {
        let kept = self.source.as_deref().and_then(|source| text::rewritten(source, &self.document.table));
        kept.unwrap_or_else(|| self.document.table.to_string())
    }

    /// Writes the plan: a neighbour file first, then renamed, so that the file is whole or not there.
    ///
    /// # Errors
    /// The file exists and `overwrite` is false, or the system refuses.
    pub fn write(&self, path: impl AsRef<Path>, overwrite: bool) -> Result<(), Error> {
        write_whole(path.as_ref(), self.to_text().as_bytes(), overwrite)
    }

    /// This plan with some entries changed: tables are merged entry by entry, everything else is replaced.
    ///
    /// Where a new entry excludes an old one (a gauge and a thickness, a weighing and a height, an outline and a lean), the
    /// old one is taken out. The schema and the
    /// whole validation apply as to a file; new catalogue files and price books are looked for in the current folder. Of a new price
    /// book whatever the plan has no entry of its own for is taken over; prices of a book that was read before are the plan's own, so
    /// take `prices` out first ([`without`](Self::without)) to have another book's.
    ///
    /// # Errors
    /// As for [`Plan::read`].
    pub fn replace(&self, changes: &Table) -> Result<Self, Error> {
        let mut document = Document::from(changed(&self.document.table, changes));
        inline_catalogue_files(&mut document, Path::new("."))?;
        inline_price_book(&mut document, Path::new("."))?;
        Self::from_document(document, self.source.clone())
    }

    /// This plan with an entry, or a whole part, taken out.
    ///
    /// # Errors
    /// No such entry in the plan; as for [`Plan::read`] where it cannot be left out.
    ///
    /// # Example
    /// ```
    /// use raisedbody::plan::Plan;
    /// let plan = Plan::read("examples/mobile_library.toml").unwrap();
    /// assert!(!plan.without("end_caps").unwrap().table().contains_key("end_caps"));
    /// assert!(plan.without("skin.gauge").is_err());
    /// ```
    pub fn without(&self, path: &str) -> Result<Self, Error> {
        let mut document = Document::from(self.document.table.clone());
        let (sections, name) = path.rsplit_once('.').unwrap_or(("", path));
        let mut steps = sections.split('.').filter(|step| !step.is_empty());
        let table = steps.try_fold(&mut document.table, |table, step| table.get_mut(step)?.as_table_mut());
        if table.and_then(|table| table.remove(name)).is_none() {
            let problem =
                "the plan has no such entry; name one that it has by its path, such as end_caps or shop.prime_time";
            return Err(Problem::contradiction("path", path, problem).into());
        }
        Self::from_document(document, self.source.clone())
    }

    /// What may turn out otherwise than quoted, as [`odds`](crate::shop::odds::odds) takes it.
    pub fn causes(&self) -> &[Cause] {
        &self.resolved.odds
    }

    /// Evaluates the plan.
    ///
    /// # Errors
    /// A catalogue whose own rows are unusable.
    pub fn evaluate(&self) -> Result<Evaluation, Error> {
        evaluate::evaluate(self)
    }
}

/// The entries of a plan with some changed, and without the old ones that new ones exclude.
fn changed(old: &Table, changes: &Table) -> Table {
    let mut table = old.clone();
    merge(&mut table, changes);
    for (part, name) in [("survey", "post"), ("raise", "insert")] {
        // Another section by name comes with its own sizes.
        let new = changes.get(part).and_then(|part| part.get(name));
        let old = table.get_mut(part).and_then(|part| part.get_mut(name));
        if let (Some(new), Some(old)) = (new.filter(|n| n.get("section").is_some()), old) {
            *old = new.clone();
        }
    }
    let exclusive: [(&[&str], [&str; 2]); 7] = [
        (&["skin"], ["gauge", "thickness"]),
        (&["survey"], ["outline", "lean"]),
        (&["paint"], ["coats", "unpainted"]),
        (&["paint"], ["inside_coats", "unpainted"]),
        (&["paint"], ["sealant_waste", "hand"]),
        (&["vehicle"], ["cg_height", "weighing"]),
        (&["vehicle", "weighing"], ["axle_lift", "tilt_angle"]),
    ];
    for (path, [one, other]) in exclusive {
        let new = path.iter().try_fold(changes, |table, name| table.get(*name)?.as_table());
        let old = path.iter().try_fold(&mut table, |table, name| table.get_mut(*name)?.as_table_mut());
        let (Some(new), Some(old)) = (new, old) else { continue };
        for (given, other) in [(one, other), (other, one)] {
            if new.contains_key(given) && !new.contains_key(other) {
                old.remove(other);
            }
        }
    }
    table
}

fn merge(old: &mut Table, new: &Table) {
    for (key, value) in new {
        match (old.get_mut(key), value) {
            (Some(Value::Table(old)), Value::Table(new)) => merge(old, new),
            _ => {
                old.insert(key.clone(), value.clone());
            }
        }
    }
}

/// Reads the files of `catalogue.files` and puts their rows into the plan, before the plan's own rows.
fn inline_catalogue_files(document: &mut Document, beside: &Path) -> Result<(), Error> {
    let Some(Value::Table(own)) = document.table.get_mut("catalogue") else { return Ok(()) };
    let Some(Value::Array(files)) = own.get("files") else { return Ok(()) };
    let names: Vec<String> = files.iter().filter_map(|f| f.as_str().map(str::to_owned)).collect();
    if names.len() != files.len() {
        // The schema walk reports the entry that is not text.
        return Ok(());
    }
    let mut all = Table::new();
    for name in &names {
        let unreadable = |e: &dyn std::fmt::Display| Problem::Unreadable {
            path: "catalogue.files".to_owned(),
            value: name.clone(),
            problem: format!("in {name}: {e}"),
        };
        let rows = match Rows::read(&beside.join(name)) {
            Err(e @ (Error::Syntax { .. } | Error::Input(_))) => return Err(unreadable(&e).into()),
            other => other?,
        };
        let table = Table::try_from(&rows).map_err(|e| unreadable(&e))?;
        append_rows(&mut all, &table);
    }
    if let Some(Value::Table(rows)) = own.get("rows") {
        append_rows(&mut all, rows);
    }
    own.remove("files");
    own.insert("rows".to_owned(), Value::Table(all));
    Ok(())
}

/// Reads the file of `prices.book` and puts its entries beneath those of the plan.
fn inline_price_book(document: &mut Document, beside: &Path) -> Result<(), Error> {
    let Some(Value::Table(own)) = document.table.get_mut("prices") else { return Ok(()) };
    let Some(Value::String(name)) = own.get("book") else { return Ok(()) };
    let unreadable = |e: &dyn std::fmt::Display| Problem::Unreadable {
        path: "prices.book".to_owned(),
        value: name.clone(),
        problem: format!("in {name}: {e}"),
    };
    let (_, mut all) = match read_text(&beside.join(name)).and_then(|text| PriceBook::with_entries(&text)) {
        Err(e @ (Error::Syntax { .. } | Error::Input(_))) => return Err(unreadable(&e).into()),
        other => other?,
    };
    let invented = |table: &Table| table.get("invented").and_then(Value::as_bool) == Some(true);
    let either = invented(&all) || invented(own);
    // Whole entries: a price of the plan's own comes without the breaks of the book's.
    all.extend(std::mem::take(own).into_iter().filter(|(key, _)| key != "book"));
    if either {
        all.insert("invented".to_owned(), Value::Boolean(true));
    }
    *own = all;
    Ok(())
}

fn append_rows(all: &mut Table, more: &Table) {
    for (key, value) in more {
        match (all.get_mut(key), value) {
            (Some(Value::Array(old)), Value::Array(new)) => old.extend(new.iter().cloned()),
            (Some(Value::Table(old)), Value::Table(new)) => merge(old, new),
            _ => {
                all.insert(key.clone(), value.clone());
            }
        }
    }
}
