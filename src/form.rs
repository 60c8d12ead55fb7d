//! Reads a TOML text into a type by that type's own JSON Schema, listing every independent problem with its place.
//!
//! One walker serves plans and catalogue files alike: the types generate the schema, the schema finds unknown keys,
//! missing entries, wrong types and unreadable quantities, and only then the type itself is filled.

use std::collections::HashMap;
use std::ops::Range;

use schemars::{JsonSchema, generate::SchemaSettings};
use serde::de::DeserializeOwned;
use serde_json::Value as Json;
use toml::de::{DeTable, DeValue};
use toml::{Table, Value};

use crate::error::{Error, Placed, Problem, nearest};
use crate::files::check_length;
use crate::money::{Amount, Price};
use crate::quantity::Kind;

/// The JSON Schema (draft 2020-12) of a form, with every sub-schema written out in place.
pub fn schema_of<T: JsonSchema>() -> Json {
    let mut settings = SchemaSettings::draft2020_12();
    settings.inline_subschemas = true;
    Json::from(settings.into_generator().into_root_schema_for::<T>())
}

/// More items than any list of a bus has: windows, rivets' old holes along a line, things fitted out, rows of a catalogue. Lists
/// are compared with each other further on, so that the time goes with the square of this.
pub const MOST_ITEMS: usize = 10_000;

/// More than is ever written in one entry, notes among them. Names stand in every table, drawing and page, many times each.
pub const MOST_LETTERS: usize = 10_000;

/// What a day must look like.
pub(crate) const DAY: &str = "a day as year-month-day: \"2026-12-01\"";

/// Whether this is a day of the calendar, written so that days sort as text.
pub(crate) fn is_day(day: &str) -> bool {
    let date = day.parse::<toml::value::Datetime>();
    day.len() == 10 && date.is_ok_and(|d| d.date.is_some() && d.time.is_none() && d.offset.is_none())
}

/// A TOML text as a table, with the place of every entry.
#[derive(Debug, Clone)]
pub struct Document {
    /// The entries.
    pub table: Table,
    places: HashMap<String, (usize, usize)>,
}

impl From<Table> for Document {
    /// Entries that were never a text: they have no places.
    fn from(table: Table) -> Self {
        Self { table, places: HashMap::new() }
    }
}

impl Document {
    /// Parses TOML; an error names line and column.
    pub fn parse(text: &str) -> Result<Self, Error> {
        check_length("text", text)?;
        let lines = Lines::of(text);
        let parsed = DeTable::parse(text).map_err(|e| {
            let (line, column) = lines.place(e.span().map_or(0, |span| span.start));
            Error::Syntax { line, column, message: e.message().to_owned() }
        })?;
        let mut places = HashMap::new();
        let table = convert_table(parsed.get_ref(), "", &lines, &mut places);
        Ok(Self { table, places })
    }

    /// Line and column of the entry at this path, or of the nearest entry around it.
    pub fn place(&self, path: &str) -> Option<(usize, usize)> {
        let mut path = path;
        loop {
            if let Some(place) = self.places.get(path) {
                return Some(*place);
            }
            path = &path[..path.rfind(['.', '['])?];
        }
    }

    /// Gives problems their places, and their values as the user wrote them.
    pub fn placed(&self, problems: Vec<Problem>) -> Vec<Placed> {
        let mut placed: Vec<Placed> =
            problems.into_iter().map(|p| Placed { place: self.place(p.path()), problem: self.as_written(p) }).collect();
        placed.sort_by_key(|p| p.place);
        placed
    }

    /// Everything that does not fit the schema: unknown keys, missing entries, wrong types, unreadable quantities.
    pub fn problems(&self, schema: &Json) -> Vec<Problem> {
        let mut problems = Vec::new();
        walk_table(&self.table, schema, "", &mut problems);
        problems
    }

    /// A problem found in the crate's own units shows the quantity as written: `2.6 m`, not `2600 mm`.
    fn as_written(&self, problem: Problem) -> Problem {
        let Some((value, written)) = problem.value().zip(self.written(problem.path())) else { return problem };
        // Values in messages are rounded to the whole unit at worst.
        let same = |kind: Kind| {
            kind.parse(value).ok().zip(kind.parse(&written).ok()).is_some_and(|(a, b)| (a - b).abs() <= 0.5)
        };
        if Kind::ALL.into_iter().any(same) { problem.with_value(written) } else { problem }
    }

    /// Fills a type whose schema this is.
    pub fn read<T: DeserializeOwned>(&self, schema: &Json) -> Result<T, Error> {
        let problems = self.problems(schema);
        if problems.is_empty() { self.fill() } else { Err(Error::Input(self.placed(problems))) }
    }

    /// Fills a type with what fits, leaving out the sections' entries that these problems are about; nothing where
    /// what is left does not make a whole.
    pub fn read_rest<T: DeserializeOwned>(&self, problems: &[Problem]) -> Option<T> {
        let mut rest = self.clone();
        for problem in problems {
            // A list with an item that does not fit is left out as a whole.
            let path = problem.path().split_once('[').map_or(problem.path(), |(list, _)| list);
            let (section, name) = path.rsplit_once('.').unwrap_or(("", path));
            let mut table = &mut rest.table;
            for step in section.split('.').filter(|step| !step.is_empty()) {
                table = table.get_mut(step)?.as_table_mut()?;
            }
            table.remove(name);
        }
        rest.fill().ok()
    }

    /// Fills a type with what was found to fit its schema.
    pub fn fill<T: DeserializeOwned>(&self) -> Result<T, Error> {
        T::deserialize(Value::Table(self.table.clone())).map_err(|e| {
            Error::from(Problem::Unreadable { path: String::new(), value: String::new(), problem: e.to_string() })
        })
    }

    /// The value at a path as the user wrote it.
    pub fn written(&self, path: &str) -> Option<String> {
        let mut value: Option<&Value> = None;
        for step in path.split('.') {
            let (name, indices) = step.split_once('[').unwrap_or((step, ""));
            let mut here = match value {
                None => self.table.get(name)?,
                Some(outer) => outer.as_table()?.get(name)?,
            };
            for index in indices.split('[').filter(|i| !i.is_empty()) {
                here = here.as_array()?.get(index.trim_end_matches(']').parse::<usize>().ok()?)?;
            }
            value = Some(here);
        }
        value.map(show)
    }
}

/// Byte offsets of line starts.
struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Lines<'a> {
    fn of(text: &'a str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { text, starts }
    }

    fn place(&self, at: usize) -> (usize, usize) {
        let line = self.starts.partition_point(|&start| start <= at);
        let start = self.starts[line - 1];
        (line, self.text.get(start..at).map_or(1, |before| before.chars().count() + 1))
    }
}

fn convert_table(
    table: &DeTable<'_>,
    path: &str,
    lines: &Lines<'_>,
    places: &mut HashMap<String, (usize, usize)>,
) -> Table {
    table
        .iter()
        .map(|(key, value)| {
            let name = key.get_ref().to_string();
            let inner = join(path, &name);
            places.entry(inner.clone()).or_insert_with(|| lines.place(key.span().start));
            let value = convert_value(value.get_ref(), &value.span(), &inner, lines, places);
            (name, value)
        })
        .collect()
}

fn convert_value(
    value: &DeValue<'_>,
    span: &Range<usize>,
    path: &str,
    lines: &Lines<'_>,
    places: &mut HashMap<String, (usize, usize)>,
) -> Value {
    match value {
        DeValue::String(text) => Value::String(text.to_string()),
        DeValue::Boolean(value) => Value::Boolean(*value),
        DeValue::Datetime(value) => Value::Datetime(*value),
        DeValue::Array(items) => Value::Array(
            items
                .iter()
                .enumerate()
                .map(|(i, item)| {
                    let inner = format!("{path}[{i}]");
                    places.insert(inner.clone(), lines.place(item.span().start));
                    convert_value(item.get_ref(), &item.span(), &inner, lines, places)
                })
                .collect(),
        ),
        DeValue::Table(table) => Value::Table(convert_table(table, path, lines, places)),
        // Numbers keep their text until here; the toml crate's own reader turns it into a value.
        DeValue::Integer(_) | DeValue::Float(_) => lines
            .text
            .get(span.clone())
            .and_then(|written| format!("x = {written}").parse::<Table>().ok())
            .and_then(|mut table| table.remove("x"))
            .unwrap_or(Value::Float(f64::NAN)),
    }
}

fn join(path: &str, name: &str) -> String {
    if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") }
}

/// A value as it would be written, cut to a length that fits a message.
pub fn show(value: &Value) -> String {
    let text = match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    };
    shortened(&text)
}

/// A text cut to a length that fits a message or a cell.
pub fn shortened(text: &str) -> String {
    if text.chars().count() > 60 { text.chars().take(57).chain("...".chars()).collect() } else { text.to_owned() }
}

/// A list, or a table, of more than [`MOST_ITEMS`].
pub(crate) fn too_many(path: &str, count: usize, what: &str) -> Problem {
    let path = if path.is_empty() { "plan" } else { path };
    Problem::out_of_range(path, format!("{count} {what}"), format!("at most {MOST_ITEMS} {what}"))
}

fn walk_table(table: &Table, schema: &Json, path: &str, problems: &mut Vec<Problem>) {
    let properties = schema.get("properties").and_then(Json::as_object);
    if table.len() > MOST_ITEMS {
        problems.push(too_many(path, table.len(), "entries"));
        return;
    }
    for (key, value) in table {
        let inner = join(path, key);
        if let Some(schema) = properties.and_then(|p| p.get(key)) {
            walk(value, schema, &inner, problems);
        } else if let Some(schema) = schema.get("additionalProperties").filter(|s| s.is_object()) {
            walk(value, schema, &inner, problems);
        } else {
            let known = properties.into_iter().flat_map(|p| p.keys().map(String::as_str));
            let key = shortened(key);
            let nearest = nearest(&key, known).map(str::to_owned);
            problems.push(Problem::UnknownKey { path: join(path, &key), nearest });
        }
    }
    for name in schema.get("required").and_then(Json::as_array).into_iter().flatten().filter_map(Json::as_str) {
        if !table.contains_key(name) {
            let inner = join(path, name);
            let fix = properties.and_then(|p| p.get(name)).map(|schema| how_to_write(name, &inner, schema));
            problems.push(Problem::missing(inner, fix.unwrap_or_else(|| format!("write {name}"))));
        }
    }
}

/// What to write for an entry that is missing: an example, the words allowed, or what belongs there.
fn how_to_write(name: &str, path: &str, schema: &Json) -> String {
    let schema = choose(schema);
    if let Some(example) = schema.get("examples").and_then(|e| e.get(0)) {
        return format!("write {name} = {example}");
    }
    let words = words_of(schema);
    if !words.is_empty() {
        return format!("write {name} = \"{}\"", words.join("\" or \""));
    }
    if schema.get("type").and_then(Json::as_str) == Some("object") {
        let entries = schema.get("required").and_then(Json::as_array).into_iter().flatten().filter_map(Json::as_str);
        return format!("write the table [{path}] with {}", entries.collect::<Vec<_>>().join(", "));
    }
    let meaning = schema.get("description").and_then(Json::as_str).unwrap_or_default();
    format!("write {name}: {}", meaning.trim_end_matches('.'))
}

/// The alternative that is not `null`.
fn choose(schema: &Json) -> &Json {
    schema
        .get("anyOf")
        .and_then(Json::as_array)
        .and_then(|all| all.iter().find(|s| s.get("type").and_then(Json::as_str) != Some("null")))
        .unwrap_or(schema)
}

fn walk(value: &Value, schema: &Json, path: &str, problems: &mut Vec<Problem>) {
    let schema = choose(schema);
    let unreadable = |problem: String| Problem::Unreadable { path: path.to_owned(), value: show(value), problem };
    let words = words_of(schema);
    if !words.is_empty() {
        match value.as_str() {
            Some(text) if words.contains(&text) => {}
            Some(text) => problems.push(Problem::UnknownName {
                path: path.to_owned(),
                value: shortened(text),
                what: "choice".to_owned(),
                nearest: Some(
                    nearest(text, words.iter().copied()).map_or_else(|| words.join("\" or \""), str::to_owned),
                ),
            }),
            None => problems.push(unreadable(format!("{} is not one of {}", show(value), words.join(", ")))),
        }
        return;
    }
    let types: Vec<&str> = match schema.get("type") {
        Some(Json::String(one)) => vec![one],
        Some(Json::Array(many)) => many.iter().filter_map(Json::as_str).filter(|t| *t != "null").collect(),
        _ => return,
    };
    // Of an entry that may be a text or a table, what was written is looked at; a wrong one is told of the first.
    let table = value.is_table() && types.contains(&"object");
    match (if table { Some("object") } else { types.first().copied() }, value) {
        (Some("object"), Value::Table(table)) => walk_table(table, schema, path, problems),
        (Some("array"), Value::Array(items)) if items.len() > MOST_ITEMS => {
            problems.push(too_many(path, items.len(), "items"));
        }
        (Some("array"), Value::Array(items)) => {
            if let Some(inner) = schema.get("items") {
                for (i, item) in items.iter().enumerate() {
                    walk(item, inner, &format!("{path}[{i}]"), problems);
                }
            }
        }
        (Some("string"), value) => walk_string(value, schema, path, problems),
        (Some("integer"), Value::Integer(n)) => {
            let least = schema.get("minimum").and_then(Json::as_f64).unwrap_or(f64::NEG_INFINITY);
            // Whatever else is allowed, the number has room.
            let room = match schema.get("format").and_then(Json::as_str) {
                Some("uint32") => f64::from(u32::MAX),
                _ => f64::INFINITY,
            };
            let most = schema.get("maximum").and_then(Json::as_f64).unwrap_or(room);
            if (*n as f64) < least || (*n as f64) > most {
                let most = if most.is_finite() { format!(" to {most}") } else { " or more".to_owned() };
                problems.push(Problem::out_of_range(path, n, format!("{least}{most}")));
            }
        }
        (Some("boolean"), Value::Boolean(_)) | (Some("number"), Value::Integer(_)) | (None, _) => {}
        (Some("number"), Value::Float(n)) if n.is_finite() => {}
        (Some(expected), _) => {
            let expected = match expected {
                "object" => "a table of entries",
                "array" => "a list",
                "integer" => "a whole number",
                "boolean" => "true or false",
                _ => "a number",
            };
            problems.push(unreadable(format!("{} is not {expected}", show(value))));
        }
    }
}

fn words_of(schema: &Json) -> Vec<&str> {
    if let Some(words) = schema.get("enum").and_then(Json::as_array) {
        return words.iter().filter_map(Json::as_str).collect();
    }
    // An enum whose variants carry documentation becomes a list of constants.
    let variants = schema.get("oneOf").and_then(Json::as_array).into_iter().flatten();
    variants.flat_map(|v| v.get("const").and_then(Json::as_str).into_iter().chain(words_of(v))).collect()
}

fn walk_string(value: &Value, schema: &Json, path: &str, problems: &mut Vec<Problem>) {
    let unreadable = |problem: String| Problem::Unreadable { path: path.to_owned(), value: show(value), problem };
    let format = schema.get("format").and_then(Json::as_str);
    let kind = format.and_then(Kind::from_name);
    let Some(text) = value.as_str() else {
        let problem = match (kind, value) {
            (Some(kind), Value::Integer(_) | Value::Float(_)) => {
                format!(
                    "{} has no unit; write a {} as text, for example \"{}\"",
                    show(value),
                    kind.name(),
                    kind.examples()[0]
                )
            }
            _ => format!("{} is not text; put it in quotes", show(value)),
        };
        problems.push(unreadable(problem));
        return;
    };
    // No letter is shorter than a byte.
    let letters = if text.len() > MOST_LETTERS { text.chars().count() } else { 0 };
    if letters > MOST_LETTERS {
        problems.push(Problem::out_of_range(path, format!("{letters} letters"), format!("at most {MOST_LETTERS}")));
    } else if let Some(kind) = kind {
        if let Err(e) = kind.parse(text) {
            problems.push(unreadable(e.to_string()));
        }
    } else if format == Some("price")
        && let Err(e) = text.parse::<Price>()
    {
        problems.push(unreadable(e.to_string()));
    } else if format == Some("amount")
        && let Err(e) = text.parse::<Amount>()
    {
        problems.push(unreadable(e));
    }
}
