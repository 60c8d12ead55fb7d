//! Any text at all, and the examples' text with anything written into it: an error that says where, or a plan that is
//! evaluated, drawn and written out. Never a panic. Random texts by proptest; no published source. `fuzz/` goes on from here.

use proptest::prelude::*;
use proptest::sample::select;

use crate::common::anything::{Edit, LIBRARY, SHAPED, VALUES, WORKSHOP, draws, edited, evaluates, reads};

fn answers(written: &str) {
    if let Some(plan) = reads(written) {
        draws(&plan, &evaluates(&plan));
    }
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        (0.0..1.0, select(&VALUES)).prop_map(|(at, value)| Edit::Value(at, value)),
        (0.0..1.0, 0..4000u32).prop_map(|(at, number)| Edit::Digits(at, number)),
        (0.0..1.0).prop_map(Edit::Without),
        (0.0..1.0).prop_map(Edit::Twice),
        (0.0..1.0, "\\PC{0,12}|[\"\\[\\]{}=.,'\\\\\n\r\t]{1,3}").prop_map(|(at, s)| Edit::Anything(at, s)),
    ]
}

proptest! {
    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        answers(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn anything_that_looks_like_toml(written in "([a-z\\[\\]{}\"'=,.# 0-9\n_-]|schema|survey|= ){0,120}") {
        answers(&written);
    }

    #[test]
    fn examples_with_anything_in_them(base in select(&[LIBRARY, WORKSHOP, SHAPED]), edits in prop::collection::vec(edit(), 1..4)) {
        answers(&edits.iter().fold(base.to_owned(), |text, e| edited(&text, e)));
    }
}
