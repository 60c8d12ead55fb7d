//! Which items of a list were there before it was changed.

use std::ops::Range;

use toml::Value;

/// More comparisons of old items with new ones than this, and lists are compared item by item in their order.
const MOST_COMPARED: usize = 1_000_000;

/// For each new item the old one that it comes from, in rising order: equal ones, ones of the same name, and between those what is
/// left, one after another.
pub(super) fn aligned(old: &[Value], new: &[Value]) -> Vec<Option<usize>> {
    let mut from = vec![None; new.len()];
    let alike = |(a, b): &(&Value, &Value)| same(a, b);
    let head = old.iter().zip(new).take_while(alike).count();
    let tail = old[head..].iter().rev().zip(new[head..].iter().rev()).take_while(alike).count();
    for (i, from) in from.iter_mut().enumerate().take(head) {
        *from = Some(i);
    }
    for (i, from) in from.iter_mut().rev().enumerate().take(tail) {
        *from = Some(old.len() - 1 - i);
    }
    let (olds, news) = (head..old.len() - tail, head..new.len() - tail);
    if olds.len().saturating_mul(news.len()) <= MOST_COMPARED {
        common(old, new, (&olds, &news), &mut from);
    }
    // What is left between two that were found.
    let mut next = olds.start;
    for j in news.clone() {
        if let Some(i) = from[j] {
            next = i + 1;
            continue;
        }
        let until = from[j..news.end].iter().flatten().next().copied().unwrap_or(olds.end);
        let other = |i: usize| name(&old[i]).is_some() && name(&new[j]).is_some();
        if next < until && !other(next) {
            from[j] = Some(next);
            next += 1;
        }
    }
    from
}

fn name(item: &Value) -> Option<&str> {
    item.get("name").and_then(Value::as_str)
}

fn same(a: &Value, b: &Value) -> bool {
    a == b || name(a).is_some_and(|own| name(b) == Some(own))
}

/// The longest common row of items.
fn common(old: &[Value], new: &[Value], (olds, news): (&Range<usize>, &Range<usize>), from: &mut [Option<usize>]) {
    let width = news.len() + 1;
    let mut longest = vec![0_usize; (olds.len() + 1) * width];
    for i in (0..olds.len()).rev() {
        for j in (0..news.len()).rev() {
            longest[i * width + j] = if same(&old[olds.start + i], &new[news.start + j]) {
                longest[(i + 1) * width + j + 1] + 1
            } else {
                longest[(i + 1) * width + j].max(longest[i * width + j + 1])
            };
        }
    }
    let (mut i, mut j) = (0, 0);
    while i < olds.len() && j < news.len() {
        if same(&old[olds.start + i], &new[news.start + j]) {
            from[news.start + j] = Some(olds.start + i);
            (i, j) = (i + 1, j + 1);
        } else if longest[(i + 1) * width + j] >= longest[i * width + j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
}
