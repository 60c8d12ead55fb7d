//! Buckling of a pressed sheet between rivets, and the longest spacings made from it.
// Where equality is asked, the two must be the same number, not close ones.

use proptest::prelude::*;
use raisedbody::check::Standing;
use raisedbody::mechanics::joint::inter_rivet::{
    Bending, EndFixity, InterRivet, aisi_stress_spacing_mm, aisi_strip_spacing_mm, en_1993_1_8_unchecked_mm,
};
use rstest::rstest;

/// Half of the last printed digit, and a little for the arithmetic.
fn assert_prints(value: f64, printed: f64, decimals: i32) {
    let half = 0.5 * 10f64.powi(-decimals) + 1e-9;
    assert!((value - printed).abs() <= half, "{value} does not print as {printed}");
}

fn line(fixity: EndFixity, bending: Bending, thickness_mm: f64) -> InterRivet {
    InterRivet { fixity, bending, modulus_mpa: 205_000.0, fy_mpa: 350.0, thickness_mm }
}

// Derived by hand from F = c π² E / (12 (1 − ν²)) (t/s)², E 205 000 MPa, ν 0.3.
#[rstest]
#[case(1.2, 50.0, EndFixity::RoundHead, Bending::Plate(0.3), 320.2)]
#[case(1.2, 50.0, EndFixity::RoundHead, Bending::Strip, 291.4)]
#[case(0.9, 75.0, EndFixity::RoundHead, Bending::Plate(0.3), 80.0)]
fn stress_between_rivets(
    #[case] thickness_mm: f64,
    #[case] pitch_mm: f64,
    #[case] fixity: EndFixity,
    #[case] bending: Bending,
    #[case] printed_mpa: f64,
) {
    assert_prints(line(fixity, bending, thickness_mm).stress_mpa(pitch_mm), printed_mpa, 1);
}

#[test]
fn yield_caps_the_stress() {
    let mut close = line(EndFixity::RoundHead, Bending::Plate(0.3), 1.2);
    assert!(close.elastic_mpa(30.0) > 800.0);
    assert_eq!(close.stress_mpa(30.0), 350.0);
    close.fy_mpa = 230.0;
    assert_eq!(close.stress_mpa(50.0), 230.0);
    assert_eq!(close.pitch_mm(230.1), None);
}

// Coefficients of aircraft structures textbooks, from memory; effective lengths: bolts 0.5 and rivets 0.65
// (aerospacengineering.net, inter-rivet buckling), 0.6 (EN 1993-1-8).
#[rstest]
#[case(EndFixity::FlatHead, 4.0, Standing::Memory)]
#[case(EndFixity::SpotWeld, 3.5, Standing::Memory)]
#[case(EndFixity::RoundHead, 3.0, Standing::Memory)]
#[case(EndFixity::CountersunkTension, 1.5, Standing::Memory)]
#[case(EndFixity::CountersunkShear, 1.0, Standing::Memory)]
#[case(EndFixity::default(), 1.5, Standing::Assumed)]
#[case(EndFixity::Own(2.0), 2.0, Standing::Given)]
#[case(EndFixity::EffectiveLength(0.5), 4.0, Standing::Given)]
#[case(EndFixity::EffectiveLength(0.65), 2.4, Standing::Given)]
#[case(EndFixity::EffectiveLength(0.6), 2.8, Standing::Given)]
fn end_fixity(#[case] fixity: EndFixity, #[case] c: f64, #[case] standing: Standing) {
    assert_prints(fixity.coefficient(), c, 1);
    assert_eq!(fixity.standing(), standing);
    assert_eq!(line(fixity, Bending::Strip, 1.0).standing(), Standing::Memory.with(standing));
}

#[test]
fn a_sheet_that_cannot_be_is_refused_field_by_field() {
    let broken = InterRivet {
        fixity: EndFixity::Own(f64::NAN),
        bending: Bending::Plate(0.7),
        modulus_mpa: 205.0,
        fy_mpa: 0.0,
        thickness_mm: -1.0,
    };
    let problems = broken.validate().unwrap_err();
    let paths: Vec<&str> = problems.iter().map(|p| p.path()).collect();
    assert_eq!(paths, ["fixity", "poisson", "modulus", "fy", "thickness"]);
    assert_eq!(line(EndFixity::HollowBlind, Bending::Plate(0.3), 1.2).validate(), Ok(()));
    for length in [-0.6, 0.0, 0.4, 2.1, f64::NAN] {
        let problems = line(EndFixity::EffectiveLength(length), Bending::Strip, 1.2).validate().unwrap_err();
        assert_eq!(problems[0].value(), Some(length.to_string().as_str()));
    }
    assert_eq!(line(EndFixity::EffectiveLength(0.5), Bending::Strip, 1.2).validate(), Ok(()));
}

#[test]
fn fixities_have_names() {
    for fixity in EndFixity::NAMED {
        assert_eq!(fixity.name().parse(), Ok(fixity));
    }
    let problem = "round".parse::<EndFixity>().unwrap_err();
    assert_eq!(problem.to_string(), "fixity: unknown fixity \"round\"; did you mean \"round head\"?");
}

/// Euler over 0.6 s with a safety factor of 1.67 gives 1.17 where AISI S100 I1.3 prints 1.16.
#[test]
fn the_constant_of_the_compression_sheet_is_eulers() {
    let strut = line(EndFixity::EffectiveLength(0.6), Bending::Strip, 1.0);
    let euler = strut.elastic_mpa(1.0) / 1.67 / strut.modulus_mpa;
    assert_prints(euler.sqrt(), 1.17, 2);
    assert_prints(aisi_stress_spacing_mm(205_000.0, 205_000.0, 1.0), 1.16, 2);
}

// Elementary: √(235 / 235) = 1; √(235 / 940) = 1/2.
#[rstest]
#[case(235.0, 1.2, 10.8)]
#[case(940.0, 1.0, 4.5)]
fn pitch_without_a_check(#[case] fy_mpa: f64, #[case] thickness_mm: f64, #[case] pitch_mm: f64) {
    assert_prints(en_1993_1_8_unchecked_mm(fy_mpa, thickness_mm), pitch_mm, 9);
}

proptest! {
    /// Stress falls with the pitch, the plate is the stiffer reading, and turning the formula round comes back to it.
    #[test]
    fn stress_and_pitch_are_each_others_inverse(
        thickness_mm in 0.4_f64..3.0, pitch_mm in 5.0_f64..400.0, c in 1.0_f64..4.0, nu in 0.0_f64..0.5,
    ) {
        let plate = line(EndFixity::Own(c), Bending::Plate(nu), thickness_mm);
        let strip = line(EndFixity::Own(c), Bending::Strip, thickness_mm);
        let stress_mpa = plate.stress_mpa(pitch_mm);
        prop_assert!(stress_mpa <= plate.fy_mpa);
        prop_assert!(strip.stress_mpa(pitch_mm) <= stress_mpa);
        prop_assert!(plate.stress_mpa(pitch_mm * 1.01) <= stress_mpa);
        let back_mm = plate.pitch_mm(stress_mpa).unwrap();
        // Under the cap the same pitch; at the cap the largest pitch that still reaches yield.
        if stress_mpa < plate.fy_mpa {
            prop_assert!((back_mm / pitch_mm - 1.0).abs() < 1e-12);
        } else {
            prop_assert!(back_mm >= pitch_mm * (1.0 - 1e-12));
            prop_assert!((plate.elastic_mpa(back_mm) / plate.fy_mpa - 1.0).abs() < 1e-12);
        }
    }

    /// The clause as written has two floors; the one for wide strips never decides, and there is no jump between them.
    #[test]
    fn the_strip_rule_is_the_clause_as_written(
        fy_mpa in 150.0_f64..550.0, thickness_mm in 0.4_f64..3.0, width_mm in 0.5_f64..200.0,
    ) {
        let root = (203_000.0 / fy_mpa).sqrt();
        let floor = if width_mm / thickness_mm < 0.50 * root { 1.11 } else { 1.33 };
        let written_mm = (3.0 * width_mm).max(floor * thickness_mm * root);
        let ours_mm = aisi_strip_spacing_mm(203_000.0, fy_mpa, thickness_mm, width_mm);
        prop_assert!((ours_mm / written_mm - 1.0).abs() < 1e-12);
    }
}
