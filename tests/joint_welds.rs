//! Fillets and butts in sheet by EN 1993-1-3:2006, 8.5, and AISI S100-16, J2 (all from memory): values by hand, limits, laws.

use proptest::prelude::*;
use raisedbody::mechanics::joint::Format;
use raisedbody::mechanics::joint::weld::{LapWeld, butt_n};
use rstest::rstest;

fn weld(t: f64, l: f64, b: f64) -> LapWeld {
    LapWeld { thickness_mm: t, length_mm: l, width_mm: b, fu_mpa: 360.0 }
}

fn near(value: f64, by_hand: f64) -> bool {
    (value - by_hand).abs() < 0.05
}

// t 1.5, fu 360, γM2 1.25: side pair 1.5 × 30 × (0.9 − 0.45 × 30/40) × 360/1.25 = 7290; at L = b and beyond 0.45 × 1.5 × 40 ×
// 288 = 7776; end 1.5 × 40 × 0.7 × 288 = 12 096, of 30 mm 1.5 × 30 × (1 − 0.225) × 288 = 10 044.
#[rstest]
#[case(30.0, 7290.0, 10_044.0)]
#[case(40.0, 7776.0, 12_096.0)]
#[case(60.0, 7776.0, 12_096.0)]
fn european_fillets_by_hand(#[case] l: f64, #[case] sides: f64, #[case] end: f64) {
    assert!(near(weld(1.5, l, 40.0).side_pair_n(), sides), "{}", weld(1.5, l, 40.0).side_pair_n());
    assert!(near(weld(1.5, l, 40.0).end_n(), end));
}

// t 1.5, Fu 360: along, L 30 (L/t 20): 0.8 × 30 × 1.5 × 360 = 12 960, over 2.55; L 45 (L/t 30): 0.75 × 45 × 1.5 × 360 =
// 18 225, over 3.05; across, L 30: 16 200, over 2.35. Butt 40 × 1.5 × 250 = 15 000.
#[test]
fn american_fillets_by_hand() {
    assert!(near(weld(1.5, 30.0, 40.0).aisi_along_n(Format::Allowable), 12_960.0 / 2.55));
    assert!(near(weld(1.5, 45.0, 60.0).aisi_along_n(Format::Allowable), 18_225.0 / 3.05));
    assert!(near(weld(1.5, 30.0, 40.0).aisi_across_n(Format::Allowable), 16_200.0 / 2.35));
    assert!(near(weld(1.5, 30.0, 40.0).aisi_across_n(Format::Factored), 16_200.0 * 0.65));
    assert!(near(butt_n(40.0, 1.5, 250.0), 15_000.0));
}

#[rstest]
#[case(LapWeld { thickness_mm: 4.1, ..weld(1.5, 30.0, 40.0) }, "thickness")]
#[case(LapWeld { thickness_mm: f64::NAN, ..weld(1.5, 30.0, 40.0) }, "thickness")]
#[case(LapWeld { length_mm: 0.0, ..weld(1.5, 30.0, 40.0) }, "length")]
#[case(LapWeld { width_mm: -1.0, ..weld(1.5, 30.0, 40.0) }, "width")]
#[case(LapWeld { fu_mpa: 600.0, ..weld(1.5, 30.0, 40.0) }, "fu")]
fn outside_the_rules(#[case] weld: LapWeld, #[case] path: &str) {
    assert_eq!(weld.validate().unwrap_err()[0].path(), path);
}

proptest! {
    // A longer side weld never holds less, without a jump where it is as long as the sheet is wide.
    #[test]
    fn longer_is_never_weaker(t in 0.45..4.0f64, l in 5.0..200.0f64, more in 0.0..100.0f64, b in 10.0..200.0f64) {
        prop_assert!(weld(t, l + more, b).side_pair_n() >= weld(t, l, b).side_pair_n() * (1.0 - 1e-12));
        prop_assert!(weld(t, l + more, b).end_n() >= weld(t, l, b).end_n() * (1.0 - 1e-12));
        let (below, above) = (weld(t, b * (1.0 - 1e-9), b).side_pair_n(), weld(t, b * (1.0 + 1e-9), b).side_pair_n());
        prop_assert!((below - above).abs() < 1e-6 * below);
    }
}
