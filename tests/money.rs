//! Prices: exact per-unit conversions by the definitions of NIST SP 811, coins of ISO 4217, and what is refused.

use iso_currency::Currency;
use proptest::prelude::*;
use raisedbody::money::{Amount, Money, Per, Price};
use rstest::rstest;
use rust_decimal::Decimal;

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

#[rstest]
#[case("1.85 USD/kg", "1.85", Per::Kilogram)]
#[case("0.62 USD", "0.62", Per::Each)]
#[case("0.62 USD/each", "0.62", Per::Each)]
#[case("95 USD/h", "95", Per::Hour)]
#[case("31 USD / L", "31", Per::Litre)]
#[case("  12.40   USD/m2", "12.40", Per::SquareMetre)]
#[case("2 USD/m", "2", Per::Metre)]
#[case("0 USD", "0", Per::Each)]
fn prices_read_as_written(#[case] text: &str, #[case] amount: &str, #[case] per: Per) {
    let price: Price = text.parse().unwrap();
    assert_eq!((price.money.amount, price.per), (decimal(amount), per));
    assert_eq!(price.money.currency, Currency::USD);
}

// Amounts chosen as multiples of the exact definition, so that the quotient has no remainder: 1 ft = 0.3048 m,
// 1 lb = 0.453 592 37 kg, 1 ft2 = 0.092 903 04 m2, 1 gal = 3.785 411 784 L (NIST SP 811 B.8); 1 h = 60 min.
#[rstest]
#[case("0.3048 USD/ft", "1", Per::Metre)]
#[case("3.81 USD/ft", "12.5", Per::Metre)]
#[case("0.90718474 USD/lb", "2", Per::Kilogram)]
#[case("0.09290304 USD/ft2", "1", Per::SquareMetre)]
#[case("7.570823568 USD/gal", "2", Per::Litre)]
#[case("1.50 USD/min", "90", Per::Hour)]
fn other_units_convert_exactly(#[case] text: &str, #[case] amount: &str, #[case] per: Per) {
    let price: Price = text.parse().unwrap();
    assert_eq!((price.money.amount, price.per), (decimal(amount), per));
}

#[rstest]
#[case("500 kg", "500", Per::Kilogram, "500 kg")]
#[case("500kg", "500", Per::Kilogram, "500 kg")]
#[case(" 100 lb ", "45.359237", Per::Kilogram, "45.359237 kg")]
#[case("40 ft", "12.192", Per::Metre, "12.192 m")]
#[case("90 min", "1.5", Per::Hour, "1.5 h")]
#[case("2000", "2000", Per::Each, "2000 pieces")]
#[case("2000 pieces", "2000", Per::Each, "2000 pieces")]
#[case("1.50 gal", "5.678117676", Per::Litre, "5.678117676 L")]
fn amounts_read_as_written(#[case] text: &str, #[case] quantity: &str, #[case] per: Per, #[case] printed: &str) {
    let amount: Amount = text.parse().unwrap();
    assert_eq!((amount.quantity, amount.per, amount.to_string().as_str()), (decimal(quantity), per, printed));
    assert_eq!(printed.parse(), Ok(amount));
}

#[rstest]
#[case("kg", "does not begin with a decimal number")]
#[case("", "does not begin with a decimal number")]
#[case("1,5 kg", "does not begin with a decimal number")]
#[case("5 stone", "\"stone\" is no unit of price")]
#[case("-5 kg", "below nought")]
#[case("79228162514264337593543950335 gal", "out of range")]
fn what_is_no_amount_says_why(#[case] text: &str, #[case] why: &str) {
    let message = text.parse::<Amount>().unwrap_err();
    assert!(message.contains(why), "{message}");
}

#[rstest]
#[case("1.85USD", "an amount and a currency code")]
#[case("", "an amount and a currency code")]
#[case("USD 1.85", "not a decimal number")]
#[case("1,85 USD", "not a decimal number")]
#[case("NaN USD", "not a decimal number")]
#[case("ten USD", "not a decimal number")]
#[case("1.85 US", "three-letter code")]
#[case("1.85 dollars", "three-letter code")]
#[case("1.85 ABC", "\"ABC\" is not a currency code")]
#[case("1.85 usd", "\"usd\" is not a currency code")]
#[case("1.85 USD/stone", "\"stone\" is no unit of price; write one of each, m, ft")]
#[case("1.85 USD/", "\"\" is no unit of price")]
#[case("1.85 USD/kg/h", "no unit of price")]
#[case("70000000000000000000000000000 USD/ft2", "out of range")]
#[case("70000000000000000000000000000 USD/min", "out of range")]
fn what_is_no_price_says_why(#[case] text: &str, #[case] why: &str) {
    let message = text.parse::<Price>().unwrap_err().to_string();
    assert!(message.contains(&format!("\"{text}\"")) && message.contains(why), "{message}");
    assert!(message.contains("for example \"1.85 USD/kg\""), "{message}");
}

// Minor units of ISO 4217: 2 for USD and EUR, none for JPY, 3 for KWD. Half goes away from nought.
#[rstest]
#[case("0.125", Currency::USD, "0.13 USD")]
#[case("-0.125", Currency::USD, "-0.13 USD")]
#[case("0.124999", Currency::EUR, "0.12 EUR")]
#[case("1234.5", Currency::JPY, "1235 JPY")]
#[case("1234.4999", Currency::JPY, "1234 JPY")]
#[case("1.23450", Currency::KWD, "1.235 KWD")]
fn amounts_round_to_the_smallest_coin(#[case] amount: &str, #[case] currency: Currency, #[case] printed: &str) {
    let money = Money { amount: decimal(amount), currency }.rounded();
    assert_eq!(money.to_string(), printed);
    assert_eq!(money.rounded(), money);
}

#[test]
fn zero_is_no_money() {
    assert!(Money::zero(Currency::EUR).amount.is_zero());
}

proptest! {
    #[test]
    fn a_printed_price_reads_back_equal(
        cents in -10_000_000i64..10_000_000,
        unit in prop::sample::select(vec!["", "/m", "/ft", "/m2", "/ft2", "/kg", "/lb", "/L", "/gal", "/h", "/min"]),
        code in prop::sample::select(vec!["USD", "EUR", "JPY", "KWD"]),
    ) {
        let price: Price = format!("{} {code}{unit}", Decimal::new(cents, 2)).parse().unwrap();
        prop_assert_eq!(price.to_string().parse::<Price>().unwrap(), price);
    }

    #[test]
    fn no_text_panics(text in "\\PC*") {
        if let Err(error) = text.parse::<Price>() {
            prop_assert!(!error.problem.is_empty());
        }
    }

    #[test]
    fn no_near_miss_panics(text in "[-+]?[0-9._]{0,32} ?[A-Z]{0,4}/?[a-zA-Z0-9]{0,4}") {
        if let Ok(price) = text.parse::<Price>() {
            // What reads must also round.
            prop_assert_eq!(price.money.rounded().currency, price.money.currency);
        }
    }
}
