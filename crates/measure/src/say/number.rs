//! Numbers as a cook reads them off a spoon.

use super::weight::thousands;
use crate::number::Number;
use crate::unit::Unit;

/// A number as kitchen fractions where they are near enough, else as a short decimal: `1 1/2`, `2/3`, `0.3`.
///
/// Takes the nearest whole number, half, third, quarter, eighth or sixteenth when it lies within 2 % of the value
/// (the coarser one when two are equally near). Otherwise two decimals, or two digits below 0.1. From 100 on a
/// fraction would be under 1 % and whole numbers are said. Not-a-number counts as zero, as in [`Range::exact`].
///
/// [`Range::exact`]: crate::Range::exact
pub fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    if value < 0.0 {
        return format!("-{}", number(-value));
    }
    if value >= 100.0 {
        return thousands(&format!("{value:.0}"));
    }
    match kitchen(value) {
        Some(fraction) => fraction.to_string(),
        None => short(value),
    }
}

/// A number with at most so many decimals, none of them needless: `2.5`, `100`.
pub fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}

/// An amount in a measure, spelt out: `1/2 cup`, `2 tablespoons`. More than one takes the plural, as does none.
pub fn measure(amount: Number, unit: Unit) -> String {
    format!("{amount} {}", name(amount, unit))
}

/// The name of the unit as it follows this amount.
pub(super) fn name(amount: Number, unit: Unit) -> String {
    if amount > Number::ONE || amount == Number::ZERO { plural(unit) } else { unit.name().to_owned() }
}

fn plural(unit: Unit) -> String {
    let name = unit.name();
    match unit {
        Unit::Percent => name.to_owned(),
        Unit::Leaf | Unit::Loaf => format!("{}ves", &name[..name.len() - 1]),
        _ if ["ch", "sh", "x", "s"].iter().any(|end| name.ends_with(end)) => format!("{name}es"),
        _ => format!("{name}s"),
    }
}

/// How far a kitchen fraction may lie from the value it stands for, as a share of it.
const WITHIN: f64 = 0.02;

/// The nearest kitchen fraction; `None` when even that is not near. Coarse ones first, so that they win a draw.
fn kitchen(value: f64) -> Option<Number> {
    let mut nearest: Option<(f64, Number)> = None;
    for parts in [1u32, 2, 3, 4, 8, 16] {
        // Below 100, so the cast is exact.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 1600")]
        let over = (value * f64::from(parts)).round() as u64;
        let Some(fraction) = Number::fraction(over, u64::from(parts)) else { continue };
        let error = (fraction.value() - value).abs();
        if error <= WITHIN * value && nearest.is_none_or(|(least, _)| error < least - 1e-12) {
            nearest = Some((error, fraction));
        }
    }
    nearest.map(|(_, fraction)| fraction)
}

fn short(value: f64) -> String {
    let mut places = 2usize;
    // Two digits that count: 0.0123 is 0.012. Nobody measures below a millionth of anything.
    while value * 10f64.powi(i32::try_from(places).unwrap_or(0)) < 10.0 && places < 8 {
        places += 1;
    }
    decimal(value, places)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn part(over: u64, under: u64) -> Number {
        Number::fraction(over, under).expect("small")
    }

    #[test]
    fn ok_kitchen_fractions_within_2_percent() {
        assert_eq!(number(1.5), "1 1/2");
        assert_eq!(number(0.66), "2/3");
        assert_eq!(number(0.3), "0.3");
        assert_eq!(number(0.65), "0.65");
        assert_eq!(number(0.0625), "1/16");
        assert_eq!(number(2.99), "3");
        assert_eq!(number(0.0), "0");
        assert_eq!(number(0.0123), "0.012");
        assert_eq!(number(250.4), "250");
        assert_eq!(number(1200.0), "1,200");
    }

    #[test]
    fn err_what_is_no_number_is_said_as_nothing() {
        assert_eq!(number(f64::NAN), "0");
        assert_eq!(number(f64::INFINITY), "0");
        assert_eq!(number(-0.5), "-1/2");
    }

    #[test]
    fn ok_no_needless_decimals() {
        assert_eq!((decimal(2.5, 3), decimal(100.0, 0), decimal(30.04, 1)), ("2.5".into(), "100".into(), "30".into()));
    }

    #[test]
    fn ok_plurals() {
        assert_eq!(measure(Number::HALF, Unit::Cup), "1/2 cup");
        assert_eq!(measure(Number::whole(2), Unit::Tablespoon), "2 tablespoons");
        assert_eq!(measure(part(3, 2), Unit::FluidOunce), "1 1/2 fluid ounces");
        assert_eq!(measure(Number::ONE, Unit::Pinch), "1 pinch");
        assert_eq!(measure(Number::whole(3), Unit::Pinch), "3 pinches");
        assert_eq!(measure(Number::whole(2), Unit::Leaf), "2 leaves");
        assert_eq!(measure(Number::whole(2), Unit::Box), "2 boxes");
        assert_eq!(measure(Number::whole(12), Unit::Percent), "12 percent");
        assert_eq!(measure(part(3, 10), Unit::Cup), "0.3 cup");
    }

    proptest! {
        #[test]
        fn ok_read_back_within_2_percent(value in 0.0..400.0f64, small in 0.0..1.0f64) {
            for value in [value, value * small * small * small] {
                let text = number(value);
                let read: f64 = text.replace(',', "").split(' ').map(|word| match word.split_once('/') {
                    Some((over, under)) => over.parse::<f64>().expect("digits") / under.parse::<f64>().expect("digits"),
                    None => word.parse::<f64>().expect("digits"),
                }).sum();
                prop_assert!((read - value).abs() <= 0.05 * value + 1e-7, "{value} said {text}");
                if value > 0.1 {
                    prop_assert!((read - value).abs() <= 0.02 * value + 0.005, "{value} said {text}");
                }
            }
        }

        #[test]
        fn ok_exact_fractions_are_said_exactly(over in 0u64..1600, under in prop::sample::select(vec![1u64, 2, 3, 4, 8, 16])) {
            let over = over % (100 * under);
            let fraction = part(over, under);
            prop_assert_eq!(number(fraction.value()), fraction.to_string());
        }
    }
}
