//! Which figures of an author's own file cannot be so: what no kitchen weighs, and slips among several weighings.

/// Grams that a kitchen scale can say, from a pinch of yeast to a sack (common practice, no source).
const SCALE: std::ops::RangeInclusive<f64> = 0.01..=100_000.0;
/// Grams in a millilitre of anything that is eaten: popped corn and dried herbs weigh some 0.03, syrups 1.45, salt pressed
/// into a block 2.2 (from memory).
const PACKED: std::ops::RangeInclusive<f64> = 0.02..=3.0;
/// How many times the others a weighing may be, and which part of them, before it is taken for a slip of the pen: a
/// digit too many or a spoon for a cup. Nobody fills one cup so differently (common practice, no source).
const NO_SLIP: std::ops::RangeInclusive<f64> = 0.4..=2.5;

/// Why this cannot be what a measure weighs; `None` when it can. `millilitres` is what the measure holds, where it is
/// filled and not counted.
pub(super) fn no_kitchen_weighs(grams: f64, millilitres: Option<f64>) -> Option<String> {
    if !SCALE.contains(&grams) {
        return Some(format!("{} g is no weight that a kitchen scale says (0.01 g to 100 kg)", shown(grams)));
    }
    let packed = grams / millilitres?;
    (!PACKED.contains(&packed)).then(|| {
        let as_what = if packed > 1.0 { "heavier than any food" } else { "lighter than any food" };
        format!("{} g in a measure of {:.0} ml is {as_what}", shown(grams), millilitres.unwrap_or_default())
    })
}

/// For each of several weighings of one measure what it should be near, when it is too far from that to be so.
///
/// Of three and more the middle one is what the others are held against. Two that disagree, or a single one, are held
/// against what is `usual`; where nobody knows that, neither of two can be believed.
pub(super) fn slips(values: &[f64], usual: Option<f64>) -> Vec<Option<f64>> {
    let far = |value: f64, from: f64| !NO_SLIP.contains(&(value / from));
    let against = |from: f64| values.iter().map(|value| far(*value, from).then_some(from)).collect::<Vec<_>>();
    let none = || vec![None; values.len()];
    match values {
        [] => none(),
        [_] => usual.map_or_else(none, against),
        [one, other] if !far(*one, *other) && !far(*other, *one) => none(),
        [one, other] => match usual {
            None => vec![Some(*other), Some(*one)],
            Some(usual) => {
                let told = against(usual);
                if told.iter().any(Option::is_some) {
                    return told;
                }
                // Both may be so by themselves, but not together.
                let is_farther = (one / usual).ln().abs() > (other / usual).ln().abs();
                if is_farther { vec![Some(*other), None] } else { vec![None, Some(*one)] }
            }
        },
        _ => {
            let mut sorted = values.to_vec();
            sorted.sort_by(f64::total_cmp);
            // Of an even number the two in the middle count alike, as shares.
            let middle = (sorted[sorted.len() / 2] * sorted[(sorted.len() - 1) / 2]).sqrt();
            let told = against(middle);
            let all = told.iter().all(Option::is_some);
            if all { usual.map_or(told, against) } else { told }
        }
    }
}

/// A number as it is said back; one of hundreds of digits would fill the page.
pub(super) fn shown(number: f64) -> String {
    if number == 0.0 || (1e-4..1e9).contains(&number.abs()) { number.to_string() } else { format!("{number:e}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_what_kitchens_weigh() {
        for (grams, millilitres) in [(0.01, None), (96.0, Some(236.6)), (8.0, Some(236.6)), (100_000.0, None)] {
            assert_eq!(no_kitchen_weighs(grams, millilitres), None);
        }
    }

    #[test]
    fn err_what_no_kitchen_weighs() {
        let told = |grams, millilitres| no_kitchen_weighs(grams, millilitres).unwrap_or_default();
        assert_eq!(told(1e308, None), "1e308 g is no weight that a kitchen scale says (0.01 g to 100 kg)");
        assert_eq!(told(0.0, None), "0 g is no weight that a kitchen scale says (0.01 g to 100 kg)");
        assert_eq!(told(800.0, Some(236.6)), "800 g in a measure of 237 ml is heavier than any food");
        assert_eq!(told(4.0, Some(236.6)), "4 g in a measure of 237 ml is lighter than any food");
    }

    #[test]
    fn err_slips_are_found_by_the_others_or_by_what_is_usual() {
        let found = |values: &[f64], usual| slips(values, usual).iter().map(Option::is_some).collect::<Vec<_>>();
        assert_eq!(found(&[98.0, 980.0, 95.0], None), [false, true, false]);
        assert_eq!(found(&[98.0, 9.8, 95.0, 99.0], None), [false, true, false, false]);
        assert_eq!(found(&[98.0, 97.0, 980.0, 970.0], Some(92.0)), [false, false, true, true]);
        assert_eq!(found(&[980.0], Some(92.0)), [true]);
        assert_eq!(found(&[980.0], None), [false]);
        assert_eq!(found(&[98.0, 980.0], Some(92.0)), [false, true]);
        assert_eq!(found(&[50.0, 130.0], Some(60.0)), [false, true]);
        assert_eq!(found(&[98.0, 980.0], None), [true, true]);
        assert_eq!(found(&[196.0, 201.0], Some(80.0)), [false, false], "they agree with each other");
        assert_eq!(found(&[], None), [false; 0]);
    }
}
