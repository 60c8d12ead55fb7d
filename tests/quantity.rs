//! Shop dimensions against the exact factors of NIST SP 811 (2008) appendix B, and the laws of reading and printing.
// Fractions of an inch are exact: those cases ask for the very number.

use proptest::prelude::*;
use raisedbody::quantity::{Kind, Length, ShopUnits, inches_64};
use rstest::rstest;

const INCH_MM: f64 = 25.4;

// 1 in = 25.4 mm exactly (NIST SP 811, B.8): each value is the fraction times 25.4, with no rounding on the way.
#[rstest]
#[case("17/64 in", 6.746_875)]
#[case("1/4\"", 6.35)]
#[case("4 1/4 in", 107.95)]
#[case("4-1/4 in", 107.95)]
#[case("4-1/4in", 107.95)]
#[case("  5/8   inch ", 15.875)]
#[case("1.5 inches", 38.1)]
#[case("6 ft 3 1/2 in", 1917.7)]
#[case("6' 3-1/2\"", 1917.7)]
#[case("6′3 1/2″", 1917.7)]
#[case("-6 ft 3 1/2 in", -1917.7)]
#[case("−2 in", -50.8)]
#[case("+3 mm", 3.0)]
#[case("10 feet", 3048.0)]
#[case("1 foot", 304.8)]
#[case("1/2 ft", 152.4)]
#[case("108 mm", 108.0)]
#[case("2.44 m", 2440.0)]
#[case(".5 cm", 5.0)]
#[case("5. cm", 50.0)]
#[case("20 um", 0.02)]
#[case("20 µm", 0.02)]
#[case("20 μm", 0.02)]
#[case("1 mil", 0.0254)]
#[case("1.08e2 mm", 108.0)]
#[case("108E0 mm", 108.0)]
#[case("4-1/4 in (108.0 mm)", 107.95)]
#[case("108.0 mm (4-1/4 in)", 108.0)]
fn lengths(#[case] text: &str, #[case] mm: f64) {
    assert_eq!(Kind::Length.parse(text).unwrap(), mm);
    assert_eq!(text.parse::<Length>().unwrap().mm(), mm);
}

// NIST SP 811 (2008) B.8 and B.9 unless said. Printed with as many digits as the table has.
#[rstest]
#[case(Kind::Area, "1 ft2", 0.092_903_04, 0.0)]
#[case(Kind::Area, "1 sq ft", 0.092_903_04, 0.0)]
#[case(Kind::Area, "1 in²", 6.4516e-4, 0.0)]
#[case(Kind::Volume, "1 gal", 3.785_412, 5e-7)]
#[case(Kind::Volume, "1 fl oz", 0.029_573_53, 5e-9)]
#[case(Kind::Mass, "1 lb", 0.453_592_37, 0.0)]
#[case(Kind::Mass, "1 oz", 0.028_349_52, 5e-9)]
#[case(Kind::Mass, "2 lb 8 oz", 1.133_981, 5e-7)]
#[case(Kind::Mass, "7.6 t", 7600.0, 0.0)]
#[case(Kind::LinearMass, "1 lb/ft", 1.488_164, 5e-7)]
#[case(Kind::ArealMass, "1 lb/ft2", 4.882_428, 5e-7)]
#[case(Kind::ArealMass, "1 oz/ft2", 0.305_151_7, 5e-8)]
#[case(Kind::ArealMass, "275 g/m2", 0.275, 1e-15)]
#[case(Kind::Density, "1 lb/ft3", 16.018_46, 5e-6)]
#[case(Kind::Density, "7.14 g/cm³", 7140.0, 1e-9)]
#[case(Kind::Force, "1 lbf", 4.448_222, 5e-7)]
#[case(Kind::Force, "1 kip", 4448.222, 5e-4)]
#[case(Kind::LineLoad, "1 lbf/in", 0.175_126_8, 5e-8)]
#[case(Kind::LineLoad, "1 lbf/ft", 0.014_593_90, 5e-9)]
#[case(Kind::LineLoad, "1.9 kN/m", 1.9, 0.0)]
#[case(Kind::Pressure, "1 psi", 0.006_894_757, 5e-10)]
#[case(Kind::Pressure, "1 ksi", 6.894_757, 5e-7)]
#[case(Kind::Pressure, "1 psf", 4.788_026e-5, 5e-12)]
#[case(Kind::Pressure, "1.03 kPa", 0.001_03, 1e-18)]
#[case(Kind::Pressure, "310 N/mm²", 310.0, 0.0)]
#[case(Kind::Speed, "75 mph", 75.0 * 0.447_04, 0.0)]
#[case(Kind::Speed, "100 km/h", 27.777_78, 5e-6)]
#[case(Kind::Speed, "1 kn", 0.514_444_4, 5e-8)]
#[case(Kind::Temperature, "32 degF", 0.0, 1e-12)]
#[case(Kind::Temperature, "95 °F", 35.0, 1e-12)]
#[case(Kind::Temperature, "-40 F", -40.0, 1e-12)]
#[case(Kind::Temperature, "273.15 K", 0.0, 1e-12)]
#[case(Kind::Temperature, "-5.5 degC", -5.5, 0.0)]
#[case(Kind::Duration, "90 min", 1.5, 1e-15)]
#[case(Kind::Duration, "1 h 30 min", 1.5, 1e-15)]
#[case(Kind::Duration, "2 d", 48.0, 0.0)]
#[case(Kind::TemperatureDifference, "30 K", 30.0, 0.0)]
#[case(Kind::Irradiance, "1000 W/m²", 1000.0, 0.0)]
#[case(Kind::FilmCoefficient, "17 W/m2K", 17.0, 0.0)]
#[case(Kind::FilmCoefficient, "17 W/(m² K)", 17.0, 0.0)]
#[case(Kind::LossRate, "1 mil/a", 25.4, 0.0)]
#[case(Kind::Angle, "3.141592653589793 rad", 180.0, 1e-12)]
#[case(Kind::RollStiffness, "600 kNm/rad", 600_000.0, 0.0)]
#[case(Kind::RollStiffness, "1 kNm/deg", 57_295.779_513, 1e-6)]
#[case(Kind::RollStiffness, "1 lbf in/deg", 6.473_553_85, 1e-7)]
#[case(Kind::RollStiffness, "1 lbf ft/deg", 77.682_646, 1e-6)]
#[case(Kind::FuelUse, "1 lb/hph", 608.277_388, 1e-6)]
#[case(Kind::SpreadingRate, "10 m2/L", 10.0, 0.0)]
// 0.09290304 m2 over 3.785411784 L.
#[case(Kind::SpreadingRate, "100 ft2/gal", 2.454_238_674_7, 1e-9)]
#[case(Kind::Ratio, "15 %", 0.15, 1e-16)]
#[case(Kind::Ratio, "15%", 0.15, 1e-16)]
#[case(Kind::Ratio, "0.3", 0.3, 0.0)]
fn other_quantities(#[case] kind: Kind, #[case] text: &str, #[case] value: f64, #[case] half_last_digit: f64) {
    let read = kind.parse(text).unwrap();
    assert!((read - value).abs() <= half_last_digit, "{text}: {read} is not {value}");
}

/// Longer than any dimension; the message shows its beginning.
fn three_hundred_digits() -> String {
    "1".repeat(300) + " in"
}

// What is not understood says what was written, where reading stopped (characters from 1), why, and a right example.
#[rstest]
#[case("4 1/4", 6, "no unit")]
#[case("4.25", 5, "no unit")]
#[case("65 mph", 4, "\"mph\" is no unit of length")]
#[case("3 kg", 3, "\"kg\" is no unit of length")]
#[case("1 m2", 3, "\"m2\" is no unit of length")]
#[case("1 IN", 3, "\"IN\" is no unit of length")]
#[case("1/0 in", 3, "a fraction over nought")]
#[case("1/ in", 3, "no number after the fraction bar")]
#[case("/4 in", 1, "no number before the fraction bar")]
#[case("4,5 in", 2, "no comma")]
#[case("1,200 mm", 2, "no comma")]
#[case("", 1, "no number")]
#[case("   ", 1, "no number")]
#[case("4 1/4 1/2 in", 7, "\"1/2\" is no unit")]
#[case("4.5 1/4 in", 5, "\"1/4\" is no unit")]
#[case("3 in 2 ft", 6, "smaller unit")]
#[case("3 in 2 in", 6, "smaller unit")]
#[case("1/2 ft 3 in", 8, "only the last part may have a fraction")]
#[case("6 ft -3 in", 6, "unexpected text")]
#[case("6 ft oops", 6, "unexpected text")]
#[case("1e400 mm", 1, "too large")]
#[case("NaN mm", 1, "no number")]
#[case("inf mm", 1, "no number")]
#[case("in", 1, "no number")]
#[case("--2 in", 2, "no number")]
#[case("4-1/4 in (108.0 mm", 10, "no closing bracket")]
#[case("4-1/4 in (120.0 mm)", 10, "a different length")]
#[case("4-1/4 in (108.0)", 16, "no unit")]
#[case(&three_hundred_digits(), 1, "longer than 200 characters")]
fn not_understood(#[case] text: &str, #[case] at: usize, #[case] why: &str) {
    let error = Kind::Length.parse(text).unwrap_err();
    let message = error.to_string();
    let shown: String = text.chars().take(60).collect();
    assert!(message.contains(&format!("\"{shown}\"")), "{message}: does not show what was written");
    assert!(message.contains(why), "{message}: does not say \"{why}\"");
    assert!(message.contains(&format!("at character {at})")), "{message}: is not at {at}");
    assert_eq!(error.at, at);
    assert!(message.contains("for example \"4 1/4 in\""), "{message}: gives no example");
}

#[rstest]
#[case(Kind::Temperature, "5 degC 3 degC")]
#[case(Kind::Temperature, "35")]
#[case(Kind::Ratio, "15 kg")]
#[case(Kind::Ratio, "0.3 (0.3)")]
#[case(Kind::Mass, "4 in")]
#[case(Kind::Speed, "4 m")]
#[case(Kind::Pressure, "310 MPa (45 ksi)")]
fn not_understood_of_other_kinds(#[case] kind: Kind, #[case] text: &str) {
    let message = kind.parse(text).unwrap_err().to_string();
    assert!(message.contains(kind.name()) && message.contains(kind.examples()[0]), "{message}");
}

#[test]
fn every_example_reads_and_every_kind_has_its_name() {
    for kind in Kind::ALL {
        assert_eq!(Kind::from_name(kind.name()), Some(kind));
        for example in kind.examples() {
            kind.parse(example).unwrap();
        }
    }
}

// Nearest 1/64 in of the millimetres, by hand: 6.4 mm is 16.126/64, 1 m is 2519.685/64 = 39 24/64 (to 2520).
#[rstest]
#[case(6.4, "1/4 in")]
#[case(6.746_875, "17/64 in")]
#[case(107.95, "4-1/4 in")]
#[case(-107.95, "-4-1/4 in")]
#[case(25.4, "1 in")]
#[case(1000.0, "39-3/8 in")]
#[case(0.1, "0 in")]
#[case(-0.1, "0 in")]
fn inches_in_lowest_terms(#[case] mm: f64, #[case] text: &str) {
    assert_eq!(inches_64(mm), text);
}

fn finite() -> impl Strategy<Value = f64> {
    use proptest::num::f64::{NEGATIVE, NORMAL, POSITIVE, SUBNORMAL, ZERO};
    NORMAL | SUBNORMAL | ZERO | POSITIVE | NEGATIVE
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn what_is_printed_reads_back_exactly(x in finite(), kind in prop::sample::select(Kind::ALL.to_vec())) {
        prop_assert_eq!(kind.parse(&kind.print(x)).unwrap(), x);
    }

    #[test]
    fn shop_inches_read_back_within_half_of_their_step(mm in -1e6..1e6f64) {
        // A little for the arithmetic: a spacing of f64 near 1e6.
        let within = INCH_MM / 128.0 + 1e-9;
        prop_assert!((Kind::Length.parse(&inches_64(mm)).unwrap() - mm).abs() <= within);
        for units in [ShopUnits::Inches, ShopUnits::Metric] {
            prop_assert!((Kind::Length.parse(&units.length(mm)).unwrap() - mm).abs() <= within);
        }
    }

    #[test]
    fn a_fraction_is_its_quotient(whole in 0u32..500, top in 1u32..64, power in 1u32..7) {
        let bottom = 1u32 << power;
        // 25.4 is 254/10: whole numbers up to the one division, so this is the f64 next to the true value.
        let mm = f64::from((whole * bottom + top) * 254) / f64::from(10 * bottom);
        for text in [format!("{whole} {top}/{bottom} in"), format!("{whole}-{top}/{bottom}in")] {
            prop_assert!((Kind::Length.parse(&text).unwrap() - mm).abs() <= mm * f64::EPSILON);
        }
    }

    #[test]
    fn no_text_panics(text in "\\PC*", kind in prop::sample::select(Kind::ALL.to_vec())) {
        if let Err(error) = kind.parse(&text) {
            prop_assert!(error.at >= 1 && !error.problem.is_empty());
        }
    }

    // Close to what a shop writes, so that the inner branches are reached.
    #[test]
    fn no_near_miss_panics(text in r#"[-−]?[0-9]{0,4}[ .,/-]?[0-9]{0,3}(/[0-9]{0,3})?[e ]?( ?(ft|in|mm|'|"|m|kg|%|\(|\)) ?){0,3}[0-9/ ]{0,4}"#) {
        for kind in Kind::ALL {
            if let Ok(value) = kind.parse(&text) {
                prop_assert!(value.is_finite());
            }
        }
    }
}
