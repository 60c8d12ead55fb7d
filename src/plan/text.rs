//! The text of a plan that was read: what changed is written into it, all else stays as the planner wrote it.

use toml::{Table, Value};
use toml_edit::{ArrayOfTables, Decor, DocumentMut, Item, RawString, TableLike};

use super::aligned::aligned;

/// The text with its entries made these; nothing where that is not what it would say.
pub(super) fn rewritten(source: &str, entries: &Table) -> Option<String> {
    let old = source.parse::<Table>().ok()?;
    if old == *entries {
        return Some(source.to_owned());
    }
    let mut document = source.parse::<DocumentMut>().ok()?;
    let mut edit = Edit::default();
    edit.table(document.as_table_mut(), &old, entries, Some(0));
    edit.settle(&mut document);
    let text = document.to_string();
    let says = |text: &String| text.parse::<Table>().is_ok_and(|table| table == *entries);
    // Every line of the source ends as that system ends lines; so do the new ones, unless they stand in a text.
    let returns = source.matches("\r\n").count();
    let crlf = (returns > 0 && returns == source.matches('\n').count())
        .then(|| text.replace("\r\n", "\n").replace('\n', "\r\n"))
        .filter(says);
    crlf.or_else(|| Some(text).filter(says))
}

/// What is being written into the text.
#[derive(Default)]
struct Edit {
    /// Comments that stood by themselves above something that is gone, and after which header.
    loose: Vec<(isize, String)>,
}

impl Edit {
    /// Makes the entries of a table new ones. `place` is that of the header that it stands under, none in braces; what is given back
    /// stands before its closing brace.
    fn table(&mut self, table: &mut dyn TableLike, old: &Table, new: &Table, place: Option<isize>) -> String {
        let mut end = String::new();
        for key in old.keys().filter(|key| !new.contains_key(*key)) {
            end += &self.remove(table, key, place);
        }
        for (key, value) in new {
            let was = old.get(key);
            if was == Some(value) {
                continue;
            }
            match (was, table.get_mut(key)) {
                (Some(was), Some(item)) => {
                    let above = self.item(item, was, value, place);
                    if let (Some(above), Some(mut key)) = (above, table.key_mut(key)) {
                        key.leaf_decor_mut().set_prefix(above);
                    }
                }
                _ => {
                    table.insert(key, new_item(value));
                }
            }
        }
        end
    }

    fn header(&mut self, table: &mut toml_edit::Table, old: &Table, new: &Table, place: Option<isize>) {
        let place = table.position().or(place);
        self.table(table, old, new, place);
        if new.is_empty() {
            // With nothing in it only its own header says that it is there.
            table.set_implicit(false);
            table.set_dotted(false);
        }
    }

    /// Makes an item another; gives the comment above a header that has become a value.
    fn item(&mut self, item: &mut Item, was: &Value, value: &Value, place: Option<isize>) -> Option<String> {
        match (&mut *item, was, value) {
            (Item::Value(own), _, _) => self.value(own, was, value),
            (Item::Table(own), Value::Table(was), Value::Table(new)) => self.header(own, was, new, place),
            (Item::ArrayOfTables(own), Value::Array(was), Value::Array(new)) if are_tables(new) => {
                self.headers(own, was, new, place);
            }
            _ => {
                let above = first_place(item).map_or_else(String::new, |(_, above)| above);
                *item = Item::Value(new_value(value));
                return Some(above.trim_start_matches(['\r', '\n']).to_owned());
            }
        }
        None
    }

    fn value(&mut self, own: &mut toml_edit::Value, was: &Value, value: &Value) {
        match (&mut *own, was, value) {
            (toml_edit::Value::InlineTable(own), Value::Table(was), Value::Table(new)) => {
                let end = take_end(own.iter_mut().last().map(|(_, value)| value.decor_mut()));
                let left = self.table(own, was, new, None);
                own.set_trailing(joined(&left, written(Some(own.trailing()))));
                give_end(own.iter_mut().last().map(|(_, value)| value.decor_mut()), end);
                if new.is_empty() {
                    own.set_dotted(false);
                }
            }
            (toml_edit::Value::Array(own), Value::Array(was), Value::Array(new)) => self.list(own, was, new),
            _ => {
                let mut new = new_value(value);
                *new.decor_mut() = own.decor().clone();
                *own = new;
            }
        }
    }

    /// A list in brackets. A comment behind the comma stands before the next item, and goes with the item on its line.
    fn list(&mut self, array: &mut toml_edit::Array, old: &[Value], new: &[Value]) {
        let mut tails = vec![String::new()];
        let mut items: Vec<Option<(String, toml_edit::Value)>> = Vec::new();
        let end = take_end(array.iter_mut().last().map(toml_edit::Value::decor_mut));
        for value in array.iter() {
            let (tail, lead) = behind_comma(written(value.decor().prefix()));
            if let Some(own) = tails.last_mut() {
                own.push_str(tail);
            }
            tails.push(String::new());
            items.push(Some((lead.to_owned(), value.clone())));
        }
        let trailing = written(Some(array.trailing())).to_owned();
        let (tail, rest) = if items.is_empty() { ("", trailing.as_str()) } else { behind_comma(&trailing) };
        if let Some(own) = tails.last_mut() {
            own.push_str(tail);
        }
        // New items stand as the others do: each on its line, or one behind the other.
        let line = items.iter().flatten().last().and_then(|(lead, _)| lead.rfind('\n').map(|at| lead[at..].to_owned()));
        let comma = array.trailing_comma();
        array.clear();
        let mut before = std::mem::take(&mut tails[0]);
        for (value, was) in new.iter().zip(aligned(old, new)) {
            let kept = was.and_then(|i| Some((i, items.get_mut(i)?.take()?)));
            let (lead, mut item) = match kept {
                Some((i, (lead, mut item))) => {
                    if old[i] != *value {
                        self.value(&mut item, &old[i], value);
                    }
                    (lead, item)
                }
                None => (line.clone().unwrap_or_else(|| " ".to_owned()), new_value(value)),
            };
            let lead = if array.is_empty() && !lead.contains('\n') { "" } else { lead.as_str() };
            item.decor_mut().set_prefix(joined(&before, lead));
            array.push_formatted(item);
            before = was.map_or_else(String::new, |i| std::mem::take(&mut tails[i + 1]));
        }
        array.set_trailing_comma(comma);
        array.set_trailing(joined(&before, rest));
        give_end(array.iter_mut().last().map(toml_edit::Value::decor_mut), end);
    }

    /// Tables with a header each.
    fn headers(&mut self, tables: &mut ArrayOfTables, old: &[Value], new: &[Value], place: Option<isize>) {
        let mut items: Vec<Option<toml_edit::Table>> = std::mem::take(tables).into_iter().map(Some).collect();
        let from = aligned(old, new);
        let mut at = items.iter().flatten().find_map(toml_edit::Table::position).or(place);
        for (j, (value, was)) in new.iter().zip(&from).enumerate() {
            let Value::Table(value) = value else { continue };
            let kept = was.and_then(|i| Some((old[i].as_table()?, items.get_mut(i)?.take()?)));
            let table = match kept {
                Some((was, mut table)) => {
                    self.header(&mut table, was, value, place);
                    at = last_place(&table).or(at);
                    table
                }
                None => {
                    // Before the next that was there, or behind all that the last one has.
                    let next = from[j..].iter().flatten().find_map(|&i| items.get(i)?.as_ref()?.position());
                    let mut table = new_table(value);
                    table.set_position(next.or(at));
                    table
                }
            };
            tables.push(table);
        }
        for gone in items.into_iter().flatten() {
            self.let_go(&Item::Table(gone));
        }
    }

    /// Takes an entry out; gives what is to stand before the closing brace.
    fn remove(&mut self, table: &mut dyn TableLike, key: &str, place: Option<isize>) -> String {
        let above = table.key(key).map_or("", |key| written(key.leaf_decor().prefix())).to_owned();
        let next = table.iter().skip_while(|(own, _)| *own != key).skip(1);
        let next = next.filter(|(_, item)| item.is_value()).map(|(own, _)| own.to_owned()).next();
        let item = table.remove(key);
        if let Some(item) = item.as_ref().filter(|item| !item.is_value()) {
            self.let_go(item);
            return String::new();
        }
        let left = if place.is_some() { stands_alone(&above) } else { behind_comma(&above).0 };
        match (next.and_then(|next| table.key_mut(&next)), place) {
            (Some(mut next), _) => {
                let decor = next.leaf_decor_mut();
                decor.set_prefix(joined(left, written(decor.prefix())));
            }
            (None, Some(place)) => self.loose.push((place, left.to_owned())),
            (None, None) => return left.to_owned(),
        }
        String::new()
    }

    /// A part with a header goes; what stood above it by itself does not.
    fn let_go(&mut self, item: &Item) {
        if let Some((place, above)) = first_place(item) {
            self.loose.push((place, stands_alone(&above).to_owned()));
        }
    }

    /// Puts comments that lost what they stood above before the next header, or at the end.
    fn settle(mut self, document: &mut DocumentMut) {
        self.loose.sort_by_key(|(after, _)| *after);
        for (after, text) in self.loose.into_iter().rev().filter(|(_, text)| !text.is_empty()) {
            let mut all = Vec::new();
            document.iter().for_each(|(_, item)| headers_of(item, &mut all));
            let next = all.into_iter().filter(|table| is_seen(table)).filter_map(toml_edit::Table::position);
            let next = next.filter(|place| *place > after).min();
            match next.and_then(|place| table_at(document.as_table_mut(), place)) {
                Some(table) => {
                    let own = joined(&text, written(table.decor().prefix()));
                    table.decor_mut().set_prefix(own);
                }
                None => document.set_trailing(joined(&text, written(Some(document.trailing())))),
            }
        }
    }
}

fn written(raw: Option<&RawString>) -> &str {
    raw.and_then(RawString::as_str).unwrap_or_default()
}

/// A comment and what stands after it, on another line.
fn joined(comment: &str, rest: &str) -> String {
    let gap = if comment.is_empty() || rest.starts_with(['\r', '\n']) { "" } else { "\n" };
    format!("{comment}{gap}{rest}")
}

/// Whether its header stands in the text.
fn is_seen(table: &toml_edit::Table) -> bool {
    !table.is_implicit() && !table.is_dotted()
}

/// What stands on the line of the item before, and the rest.
fn behind_comma(prefix: &str) -> (&str, &str) {
    let end = prefix.find('\n').unwrap_or(prefix.len());
    let end = if prefix[..end].ends_with('\r') { end - 1 } else { end };
    if prefix[..end].contains('#') { prefix.split_at(end) } else { ("", prefix) }
}

/// Comments above an entry that a blank line parts from it.
fn stands_alone(above: &str) -> &str {
    let mut end = 0;
    let mut at = 0;
    for line in above.split_inclusive('\n') {
        if line.ends_with('\n') && line.trim().is_empty() {
            end = at;
        }
        at += line.len();
    }
    if above[..end].contains('#') { &above[..end] } else { "" }
}

/// Takes the space before a closing bracket from the last item, to give it to what is last afterwards.
fn take_end(last: Option<&mut Decor>) -> String {
    let Some(decor) = last else { return String::new() };
    let end = written(decor.suffix()).to_owned();
    if end.contains('#') {
        return String::new();
    }
    decor.set_suffix("");
    end
}

fn give_end(last: Option<&mut Decor>, end: String) {
    if let Some(decor) = last
        && written(decor.suffix()).is_empty()
    {
        decor.set_suffix(end);
    }
}

fn headers_of<'t>(item: &'t Item, found: &mut Vec<&'t toml_edit::Table>) {
    match item {
        Item::Table(table) => {
            found.push(table);
            table.iter().for_each(|(_, item)| headers_of(item, found));
        }
        Item::ArrayOfTables(tables) => {
            for table in tables {
                found.push(table);
                table.iter().for_each(|(_, item)| headers_of(item, found));
            }
        }
        _ => {}
    }
}

/// Place and comment of the first header in the text that belongs to an item.
fn first_place(item: &Item) -> Option<(isize, String)> {
    let mut all = Vec::new();
    headers_of(item, &mut all);
    let seen = all.into_iter().filter(|table| is_seen(table));
    let first = seen.filter_map(|table| Some((table.position()?, table))).min_by_key(|(place, _)| *place);
    first.map(|(place, table)| (place, written(table.decor().prefix()).to_owned()))
}

/// Place of the last header of a table and all in it.
fn last_place(table: &toml_edit::Table) -> Option<isize> {
    let inner = table.iter().flat_map(|(_, item)| {
        let mut all = Vec::new();
        headers_of(item, &mut all);
        all
    });
    std::iter::once(table).chain(inner).filter_map(toml_edit::Table::position).max()
}

/// The table whose header has this place.
fn table_at(table: &mut toml_edit::Table, place: isize) -> Option<&mut toml_edit::Table> {
    if is_seen(table) && table.position() == Some(place) {
        return Some(table);
    }
    table.iter_mut().find_map(|(_, item)| match item {
        Item::Table(inner) => table_at(inner, place),
        Item::ArrayOfTables(inner) => inner.iter_mut().find_map(|inner| table_at(inner, place)),
        _ => None,
    })
}

fn are_tables(items: &[Value]) -> bool {
    !items.is_empty() && items.iter().all(Value::is_table)
}

/// An entry that was not there: tables get a header.
fn new_item(value: &Value) -> Item {
    match value {
        Value::Table(entries) => Item::Table(new_table(entries)),
        Value::Array(items) if are_tables(items) => {
            Item::ArrayOfTables(items.iter().filter_map(Value::as_table).map(new_table).collect())
        }
        other => Item::Value(new_value(other)),
    }
}

fn new_table(entries: &Table) -> toml_edit::Table {
    let mut table: toml_edit::Table = entries.iter().map(|(key, value)| (key.as_str(), new_item(value))).collect();
    table.set_implicit(!table.is_empty() && table.iter().all(|(_, item)| !item.is_value()));
    table
}

fn new_value(value: &Value) -> toml_edit::Value {
    match value {
        Value::String(text) => text.into(),
        Value::Integer(number) => (*number).into(),
        Value::Float(number) => (*number).into(),
        Value::Boolean(flag) => (*flag).into(),
        Value::Datetime(day) => (*day).into(),
        Value::Array(items) => toml_edit::Value::Array(items.iter().map(new_value).collect()),
        Value::Table(entries) => {
            toml_edit::Value::InlineTable(entries.iter().map(|(key, value)| (key.as_str(), new_value(value))).collect())
        }
    }
}
