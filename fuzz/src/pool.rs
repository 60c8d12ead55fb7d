//! Entries that a form knows, with values that its schema has as examples: what no example of ours writes is tried too.

use std::sync::OnceLock;

use raisedbody::catalogue::Rows;
use raisedbody::form::schema_of;
use raisedbody::plan::{file::Cutting, plan_schema};
use raisedbody::shop::price_book::PriceBook;
use rand::Rng;
use rand::rngs::SmallRng;
use serde_json::Value as Json;

use crate::anything::VALUES;

/// A place for an entry: its header as written (`[skin]`, `[[survey.features]]`, nothing at the top), its key, and its schema.
pub struct Entry {
    pub header: String,
    pub key: String,
    schema: &'static Json,
}

impl Entry {
    /// A value as it would be written: mostly of the schema, now and then anything.
    pub fn value(&self, random: &mut SmallRng) -> String {
        sample(self.schema, random, 0)
    }
}

/// A form with all its entries.
pub struct Pool(Vec<Entry>);

impl Pool {
    fn of(schema: &'static Json) -> Self {
        let mut entries = Vec::new();
        walk(schema, "", false, &mut entries);
        Self(entries)
    }

    /// One of its entries.
    pub fn any(&self, random: &mut SmallRng) -> &Entry {
        &self.0[random.random_range(0..self.0.len())]
    }

    /// The plan's.
    pub fn plan() -> &'static Self {
        static POOL: OnceLock<Pool> = OnceLock::new();
        POOL.get_or_init(|| Self::of(plan_schema()))
    }

    /// A catalogue file's.
    pub fn rows() -> &'static Self {
        static SCHEMA: OnceLock<Json> = OnceLock::new();
        static POOL: OnceLock<Pool> = OnceLock::new();
        POOL.get_or_init(|| Self::of(SCHEMA.get_or_init(schema_of::<Rows>)))
    }

    /// That of a plan's `[cutting]`, which jobs without a bus share.
    pub fn cutting() -> &'static Self {
        static SCHEMA: OnceLock<Json> = OnceLock::new();
        static POOL: OnceLock<Pool> = OnceLock::new();
        POOL.get_or_init(|| Self::of(SCHEMA.get_or_init(schema_of::<Cutting>)))
    }

    /// A price book's.
    pub fn prices() -> &'static Self {
        static SCHEMA: OnceLock<Json> = OnceLock::new();
        static POOL: OnceLock<Pool> = OnceLock::new();
        POOL.get_or_init(|| Self::of(SCHEMA.get_or_init(schema_of::<PriceBook>)))
    }
}

/// The alternative that is not `null`.
fn chosen(schema: &Json) -> &Json {
    let any = schema.get("anyOf").and_then(Json::as_array);
    any.and_then(|all| all.iter().find(|own| kind(own) != "null")).unwrap_or(schema)
}

fn kind(schema: &Json) -> &str {
    schema.get("type").and_then(Json::as_str).unwrap_or_default()
}

fn properties(schema: &Json) -> impl Iterator<Item = (&String, &Json)> {
    schema.get("properties").and_then(Json::as_object).into_iter().flatten()
}

fn walk(schema: &'static Json, path: &str, listed: bool, entries: &mut Vec<Entry>) {
    let header = match (path, listed) {
        ("", _) => String::new(),
        (path, false) => format!("[{path}]"),
        (path, true) => format!("[[{path}]]"),
    };
    for (key, own) in properties(schema) {
        entries.push(Entry { header: header.clone(), key: key.clone(), schema: own });
        let inner = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        let own = chosen(own);
        match (kind(own), own.get("items")) {
            ("object", _) => walk(own, &inner, false, entries),
            ("array", Some(items)) if kind(items) == "object" => walk(items, &inner, true, entries),
            _ => {}
        }
    }
}

fn pick<'a, T>(items: &'a [T], random: &mut SmallRng) -> &'a T {
    &items[random.random_range(0..items.len())]
}

/// Text in TOML that mostly fits the schema.
fn sample(schema: &Json, random: &mut SmallRng, depth: usize) -> String {
    if random.random_ratio(1, 20) || depth > 6 {
        return (*pick(&VALUES, random)).to_owned();
    }
    let schema = chosen(schema);
    if let Some(all) = schema.get("oneOf").and_then(Json::as_array) {
        return sample(pick(all, random), random, depth + 1);
    }
    if let Some(own) = schema.get("const") {
        return own.to_string();
    }
    let listed = |name: &str| schema.get(name).and_then(Json::as_array).filter(|own| !own.is_empty());
    if let Some(own) = listed("enum").or_else(|| listed("examples")) {
        return scaled(&pick(own, random).to_string(), random);
    }
    match kind(schema) {
        "object" => {
            let required: Vec<&str> = listed("required").into_iter().flatten().filter_map(Json::as_str).collect();
            let mut entries = Vec::new();
            for (key, own) in properties(schema) {
                let share = if required.contains(&key.as_str()) { 0.98 } else { 0.3 };
                if random.random_bool(share) {
                    entries.push(format!("{key} = {}", sample(own, random, depth + 1)));
                }
            }
            format!("{{ {} }}", entries.join(", "))
        }
        "array" => {
            let items = schema.get("items").unwrap_or(&Json::Null);
            let count = random.random_range(0..4);
            format!("[{}]", (0..count).map(|_| sample(items, random, depth + 1)).collect::<Vec<_>>().join(", "))
        }
        "integer" => random.random_range(-1..40).to_string(),
        "number" => format!("{:.3}", random.random_range(-1.0..100.0)),
        "boolean" => random.random_bool(0.5).to_string(),
        _ => format!("\"{}\"", pick(&["post", "left", "sheet yard", "1", "18", "door", "steel", ""], random)),
    }
}

/// An example, at times with other digits: half, double, a neighbour.
fn scaled(example: &str, random: &mut SmallRng) -> String {
    if random.random_bool(0.5) {
        return example.to_owned();
    }
    let Some(start) = example.find(|c: char| c.is_ascii_digit()) else { return example.to_owned() };
    let length = example[start..].find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(example.len() - start);
    let Ok(number) = example[start..start + length].parse::<f64>() else { return example.to_owned() };
    let other = number * pick(&[0.0, 0.1, 0.5, 0.9, 1.1, 2.0, 10.0], random);
    format!("{}{other:.2}{}", &example[..start], &example[start + length..])
}
