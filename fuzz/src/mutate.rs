//! Changes to an input that keep most of it readable, beside libFuzzer's own changes of bytes.

use libfuzzer_sys::fuzzer_mutate;
use rand::rngs::SmallRng;
use rand::{Rng, SeedableRng};

use crate::anything::{Edit, LIBRARY, SHAPED, VALUES, WORKSHOP, edited};
use crate::pool::Pool;

/// Changes what lies in the first `size` bytes of `data`; gives how long it is then, at most `most`.
///
/// One change in eight is libFuzzer's, of bytes; the others take the text as lines of TOML whose entries `pool` knows.
pub fn mutate(data: &mut [u8], size: usize, most: usize, seed: u32, pool: &Pool) -> usize {
    let mut random = SmallRng::seed_from_u64(u64::from(seed));
    let Ok(text) = std::str::from_utf8(&data[..size]) else { return fuzzer_mutate(data, size, most) };
    if random.random_ratio(1, 8) {
        return fuzzer_mutate(data, size, most);
    }
    let mut text = text.to_owned();
    for _ in 0..random.random_range(1..4) {
        text = changed(&text, &mut random, pool);
    }
    let bytes = text.as_bytes();
    if bytes.len() > most.min(data.len()) {
        return fuzzer_mutate(data, size, most);
    }
    data[..bytes.len()].copy_from_slice(bytes);
    bytes.len()
}

/// Changes readings: one in eight times as libFuzzer does, else the last cell of some rows, or a row is left out or written twice.
pub fn mutate_cells(data: &mut [u8], size: usize, most: usize, seed: u32) -> usize {
    const CELLS: [&str; 8] = ["", "0 mm", "-3 mm", "1e300 m", "66 1/4 in", "1990", "nan mm", "x"];
    let mut random = SmallRng::seed_from_u64(u64::from(seed));
    let text = std::str::from_utf8(&data[..size]).unwrap_or_default().to_owned();
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if random.random_ratio(1, 8) || lines.is_empty() {
        return fuzzer_mutate(data, size, most);
    }
    for _ in 0..random.random_range(1..4) {
        let line = random.random_range(0..lines.len());
        match random.random_range(0..6) {
            0 => lines.insert(line, lines[line].clone()),
            1 if lines.len() > 1 => drop(lines.remove(line)),
            kind => {
                let name = lines[line].rsplit_once(',').map_or("", |(name, _)| name).to_owned();
                let near = format!("{:.1} mm", random.random_range(-3000.0..3000.0));
                let cell = if kind < 4 { &near } else { CELLS[random.random_range(0..CELLS.len())] };
                lines[line] = format!("{name},{cell}");
            }
        }
    }
    let bytes = (lines.join("\n") + "\n").into_bytes();
    if bytes.len() > most.min(data.len()) {
        return fuzzer_mutate(data, size, most);
    }
    data[..bytes.len()].copy_from_slice(&bytes);
    bytes.len()
}

fn changed(text: &str, random: &mut SmallRng, pool: &Pool) -> String {
    let at = random.random_range(0.0..1.0);
    let edit = match random.random_range(0..12) {
        0 => Edit::Value(at, VALUES[random.random_range(0..VALUES.len())]),
        1..4 => Edit::Digits(at, random.random_range(0..4000)),
        4 => Edit::Without(at),
        5 => Edit::Twice(at),
        6 => Edit::Anything(at, line_of_an_example(random).to_owned()),
        _ => return with_entry(text, random, pool),
    };
    edited(text, &edit)
}

fn line_of_an_example(random: &mut SmallRng) -> &'static str {
    let example = [LIBRARY, WORKSHOP, SHAPED][random.random_range(0..3)];
    let lines = example.lines().count();
    example.lines().nth(random.random_range(0..lines)).unwrap_or_default()
}

/// With an entry that the form knows: in place of the same one, in its table, or in a table of its own at the end.
fn with_entry(text: &str, random: &mut SmallRng, pool: &Pool) -> String {
    let entry = pool.any(random);
    let written = format!("{} = {}", entry.key, entry.value(random));
    let mut lines: Vec<&str> = text.lines().collect();
    let is_header = |line: &&str| line.trim_start().starts_with('[');
    let start = match (entry.header.as_str(), lines.iter().position(|line| line.trim() == entry.header)) {
        ("", _) => 0,
        (_, Some(header)) => header + 1,
        (header, None) => return format!("{text}\n{header}\n{written}\n"),
    };
    let end = lines[start..].iter().position(is_header).map_or(lines.len(), |own| start + own);
    let same = |line: &&str| line.split('=').next().is_some_and(|key| key.trim() == entry.key);
    match lines[start..end].iter().position(same) {
        Some(own) => lines[start + own] = &written,
        None => lines.insert(start, &written),
    }
    lines.join("\n") + "\n"
}
