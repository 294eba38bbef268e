//! Weights: rounded the way a kitchen scale is read, with the range behind when it shows.

use super::Care;
use crate::range::Range;
use crate::unit::Unit;

/// A weight in grams with its range: `125 g (110 to 150)`.
///
/// Steps are 0.1 g below 5 g, 1 g below 100 g and 5 g above, halves up; [`Care::Exact`] takes the next finer step
/// until it moves the best value by 3 % at most. An exactly known whole weight is what the author wrote and prints as
/// it stands: 113 g stays 113 g. The bracket uses the step of the best value, and is left out when it would only
/// repeat it. Thousands are parted, `2,340 g`, and never become kilograms, so that all lines of a recipe can be
/// compared. What is there but would print as nothing is `under 0.1 g`.
pub fn grams(weight: Range, care: Care) -> String {
    said(weight, care, "g", &GRAM_STEPS)
}

/// Grams as [`grams`] prints their best value, when they are not exactly known: `158.2` is 160.
pub fn printed_grams(grams: f64, care: Care) -> f64 {
    Step::careful(grams, care, &GRAM_STEPS).round(grams)
}

/// A weight in ounces with its range; the range is given in grams: `4.4 oz (3.9 to 5.3)`.
///
/// Steps are 0.01 oz below 1 oz and 0.1 oz above; the rest as for [`grams`].
pub fn ounces(weight: Range, care: Care) -> String {
    let ounce = Unit::Ounce.grams().unwrap_or(f64::INFINITY);
    said(weight.times(1.0 / ounce), care, "oz", &OUNCE_STEPS)
}

/// The share by which printing may move what [`Care::Exact`] is for.
const EXACT_WITHIN: f64 = 0.03;

/// Printing steps with the weight they are used from, finest first.
const GRAM_STEPS: [(f64, Step); 3] = [(0.0, Step::tenths(1)), (5.0, Step::tenths(0)), (100.0, Step::FIVE)];
const OUNCE_STEPS: [(f64, Step); 2] = [(0.0, Step::tenths(2)), (1.0, Step::tenths(1))];

/// A printing step: `many` units of the last printed place, where `places` digits follow the decimal point.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Step {
    many: f64,
    places: i32,
}

impl Step {
    const FIVE: Step = Step { many: 5.0, places: 0 };

    const fn tenths(places: i32) -> Step {
        Step { many: 1.0, places }
    }

    fn usual(value: f64, steps: &[(f64, Step)]) -> Step {
        let held = steps.iter().rev().find(|(from, _)| value.abs() >= *from);
        held.map_or(Step::tenths(0), |(_, step)| *step)
    }

    /// The usual step, or the first finer one that moves `value` little enough.
    fn careful(value: f64, care: Care, steps: &[(f64, Step)]) -> Step {
        let mut step = Step::usual(value, steps);
        // Ten places are finer than any weight that a recipe could mean.
        while care == Care::Exact && (step.round(value) - value).abs() > EXACT_WITHIN * value.abs() && step.places < 10
        {
            step = step.finer();
        }
        step
    }

    fn finer(self) -> Step {
        if self == Step::FIVE { Step::tenths(0) } else { Step::tenths(self.places + 1) }
    }

    /// To the nearest step, halves away from zero. The small addition is for halves such as 1.15, which binary
    /// numbers hold a hair too low.
    fn round(self, value: f64) -> f64 {
        let scale = 10f64.powi(self.places);
        let steps = (value.abs() * scale / self.many + 0.5 + 1e-9).floor();
        (steps * self.many / scale).copysign(value)
    }

    fn digits(self, value: f64) -> String {
        let rounded = self.round(value);
        // A range may start just below nothing; "-0" is no weight.
        let sign = if rounded < 0.0 { "-" } else { "" };
        let places = usize::try_from(self.places).unwrap_or(0);
        let text = format!("{:.places$}", rounded.abs());
        match text.split_once('.') {
            None => format!("{sign}{}", thousands(&text)),
            Some((whole, part)) => match part.trim_end_matches('0') {
                "" => format!("{sign}{}", thousands(whole)),
                part => format!("{sign}{}.{part}", thousands(whole)),
            },
        }
    }
}

fn said(weight: Range, care: Care, unit: &str, steps: &[(f64, Step)]) -> String {
    let best = weight.best();
    let exact = weight.high() - weight.low() <= 0.0;
    if exact && best.fract().abs() <= 0.0 {
        return format!("{} {unit}", Step::tenths(0).digits(best));
    }
    let step = Step::careful(best, care, steps);
    let words = step.digits(best);
    // The low end may be far finer than the best value: a range that starts at 0 says that there may be nothing.
    let low_step = if step.round(weight.low()).abs() > 0.0 { step } else { Step::usual(weight.low(), steps) };
    let (low, high) = (low_step.digits(weight.low()), step.digits(weight.high()));
    if low == words && high == words {
        if words == "0" {
            return format!("under {} {unit}", step.digits(10f64.powi(-step.places)));
        }
        return format!("{words} {unit}");
    }
    format!("{words} {unit} ({low} to {high})")
}

/// Parts thousands by commas: `2340` is `2,340`.
pub(super) fn thousands(digits: &str) -> String {
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (at, digit) in digits.char_indices() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn range(low: f64, best: f64, high: f64) -> Range {
        Range::new(low, best, high).expect("ordered")
    }

    fn usual(value: f64) -> String {
        grams(range(value, value, value * (1.0 + 1e-9)), Care::Usual)
    }

    fn exact(value: f64) -> String {
        grams(range(value, value, value * (1.0 + 1e-9)), Care::Exact)
    }

    #[test]
    fn ok_steps_of_a_kitchen_scale() {
        assert_eq!(usual(0.15), "0.2 g");
        assert_eq!(usual(1.15), "1.2 g");
        assert_eq!(usual(4.94), "4.9 g");
        assert_eq!(usual(4.97), "5 g");
        assert_eq!(usual(5.5), "6 g");
        assert_eq!(usual(99.4), "99 g");
        assert_eq!(usual(102.4), "100 g");
        assert_eq!(usual(102.5), "105 g");
        assert_eq!(usual(1997.6), "2,000 g");
        assert_eq!(usual(2338.0), "2,340 g");
        assert_eq!(usual(1_234_567.0), "1,234,565 g");
    }

    #[test]
    fn ok_a_leavener_is_never_moved_by_more_than_3_percent() {
        assert_eq!(exact(0.74), "0.74 g");
        assert_eq!(exact(2.54), "2.5 g");
        assert_eq!(exact(5.4), "5.4 g");
        assert_eq!(exact(13.6), "14 g");
        assert_eq!(exact(0.001_23), "0.0012 g");
        assert_eq!(exact(102.5), "105 g");
    }

    #[test]
    fn ok_printed_grams_are_those_that_are_said() {
        for value in [0.74, 4.94, 13.6, 158.2, 237.5] {
            assert_eq!(format!("{} g", printed_grams(value, Care::Usual)), usual(value));
            assert_eq!(format!("{} g", printed_grams(value, Care::Exact)), exact(value));
        }
    }

    #[test]
    fn ok_a_stated_whole_weight_prints_as_stated() {
        assert_eq!(grams(Range::exact(113.0), Care::Usual), "113 g");
        assert_eq!(grams(Range::exact(2341.0), Care::Usual), "2,341 g");
        assert_eq!(grams(Range::exact(113.4), Care::Usual), "115 g");
        assert_eq!(grams(Range::exact(0.0), Care::Usual), "0 g");
    }

    #[test]
    fn ok_the_bracket_shows_only_when_it_says_something() {
        assert_eq!(grams(range(110.0, 125.0, 150.0), Care::Usual), "125 g (110 to 150)");
        assert_eq!(grams(range(124.0, 125.0, 126.0), Care::Usual), "125 g");
        assert_eq!(grams(range(124.0, 125.0, 128.0), Care::Usual), "125 g (125 to 130)");
        assert_eq!(grams(range(0.3, 120.0, 300.0), Care::Usual), "120 g (0.3 to 300)");
        assert_eq!(grams(range(0.0, 0.04, 0.3), Care::Usual), "0 g (0 to 0.3)");
    }

    #[test]
    fn ok_what_is_there_never_prints_as_nothing() {
        assert_eq!(usual(0.04), "under 0.1 g");
        assert_eq!(ounces(range(0.1, 0.1, 0.11), Care::Usual), "under 0.01 oz");
    }

    #[test]
    fn ok_ounces() {
        assert_eq!(ounces(range(110.0, 125.0, 150.0), Care::Usual), "4.4 oz (3.9 to 5.3)");
        assert_eq!(ounces(Range::exact(113.398), Care::Usual), "4 oz");
        assert_eq!(ounces(Range::exact(2.5), Care::Exact), "0.09 oz");
        assert_eq!(ounces(Range::exact(0.84), Care::Exact), "0.03 oz");
        assert_eq!(ounces(Range::exact(1.0), Care::Exact), "0.035 oz");
    }

    /// Reads `125 g (110 to 150)` back to its three numbers.
    fn read(text: &str) -> (f64, f64, f64) {
        let number = |word: &str| word.replace(',', "").parse::<f64>().expect("a number");
        let (best, rest) = text.split_once(" g").expect("grams");
        let Some(best) = best.strip_prefix("under ").map(|_| 0.0).or_else(|| Some(number(best))) else {
            unreachable!("one of the two")
        };
        match rest.strip_prefix(" (").and_then(|rest| rest.strip_suffix(')')).and_then(|rest| rest.split_once(" to ")) {
            Some((low, high)) => (number(low), best, number(high)),
            None => (best, best, best),
        }
    }

    proptest! {
        #[test]
        fn ok_read_back_within_the_printing_step(best in 0.0..20_000.0f64, down in 0.0..1.0f64, up in 0.0..1.0f64, small in 0.0..1.0f64) {
            for best in [best, best * small * small * small] {
                let weight = range(best * (1.0 - down), best, best * (1.0 + up));
                let (low, read_best, high) = read(&grams(weight, Care::Usual));
                let step = if best < 5.0 { 0.1 } else if best < 100.0 { 1.0 } else { 5.0 };
                for (said, meant) in [(low, weight.low()), (read_best, best), (high, weight.high())] {
                    prop_assert!((said - meant).abs() <= step / 2.0 + 1e-6, "{} from {weight:?}", grams(weight, Care::Usual));
                }
                prop_assert!(low <= read_best && read_best <= high);
                let (_, careful, _) = read(&grams(weight, Care::Exact));
                prop_assert!((careful - best).abs() <= 0.03 * best + 1e-9);
            }
        }

        #[test]
        fn ok_any_finite_range_can_be_said(low in any::<f64>(), best in any::<f64>(), high in any::<f64>()) {
            if let Some(weight) = Range::new(low, best, high) {
                prop_assert!(grams(weight, Care::Exact).contains(" g"));
                prop_assert!(ounces(weight, Care::Exact).contains(" oz"));
            }
        }
    }
}
