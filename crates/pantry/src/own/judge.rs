//! Which figures of an author's own file cannot be so: what no kitchen weighs, and slips among several weighings.

/// Grams that a kitchen scale can say, from a pinch of yeast to a sack (common practice, no source).
const SCALE: std::ops::RangeInclusive<f64> = 0.01..=100_000.0;
/// Grams in a millilitre of anything that is eaten: popped corn and dried herbs weigh some 0.03, syrups 1.45, salt pressed
/// into a block 2.2 (from memory).
const PACKED: std::ops::RangeInclusive<f64> = 0.02..=3.0;
/// How many times the others a weighing may be, and which part of them, before it is taken for a slip of the pen: a
/// digit too many or a spoon for a cup. Nobody fills one cup so differently (common practice, no source).
const NO_SLIP: std::ops::RangeInclusive<f64> = 0.4..=2.5;

/// How many times the middle one of three and more weighings another may be, and which part of it, before it is asked
/// whether it belongs to them at all: a dipped cup among spooned ones (common practice, no source).
const NEAR: std::ops::RangeInclusive<f64> = 0.8..=1.25;
/// How many times the usual scatter of the others it must then lie away, to be left out. 3.5 is the usual bound for such a
/// test of the median, and 1.4826 turns a median deviation into a standard one (both from memory).
const SCATTERS: f64 = 3.5 * 1.4826;

/// What is wrong with a weighing beside others of the same measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Slip {
    /// What it should be near.
    pub near: f64,
    /// Whether it can't be so at all; else it is only left out.
    pub impossible: bool,
}

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

/// For each of several weighings of one measure what it should be near, when it is too far from that to be so, or too far
/// from the others to belong to them.
///
/// Of three and more the middle one is what the others are held against. Two that disagree, or a single one, are held
/// against what is `usual`; where nobody knows that, neither of two can be believed.
pub(super) fn slips(values: &[f64], usual: Option<f64>) -> Vec<Option<Slip>> {
    let far = |value: f64, from: f64| !NO_SLIP.contains(&(value / from));
    let slip = |near: f64| Slip { near, impossible: true };
    let against = |from: f64| values.iter().map(|value| far(*value, from).then_some(slip(from))).collect::<Vec<_>>();
    let none = || vec![None; values.len()];
    match values {
        [] => none(),
        [_] => usual.map_or_else(none, against),
        [one, other] if !far(*one, *other) && !far(*other, *one) => none(),
        [one, other] => match usual {
            None => vec![Some(slip(*other)), Some(slip(*one))],
            Some(usual) => {
                let told = against(usual);
                if told.iter().any(Option::is_some) {
                    return told;
                }
                // Both may be so by themselves, but not together.
                let is_farther = (one / usual).ln().abs() > (other / usual).ln().abs();
                if is_farther { vec![Some(slip(*other)), None] } else { vec![None, Some(slip(*one))] }
            }
        },
        _ => {
            let middle = middle(values);
            let told = against(middle);
            if told.iter().all(Option::is_some) {
                return usual.map_or(told, against);
            }
            let strange = strangers(values, middle);
            told.into_iter().zip(strange).map(|(impossible, strange)| impossible.or(strange)).collect()
        }
    }
}

/// The middle one; of an even number the two in the middle count alike, as shares.
fn middle(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    (sorted[sorted.len() / 2] * sorted[(sorted.len() - 1) / 2]).sqrt()
}

/// Those that lie more than a quarter from the middle one, and many times as far as the others scatter.
fn strangers(values: &[f64], middle: f64) -> Vec<Option<Slip>> {
    let away = |value: f64| (value / middle).ln().abs();
    let mut all: Vec<f64> = values.iter().map(|value| away(*value)).collect();
    all.sort_by(f64::total_cmp);
    let scatter = f64::midpoint(all[all.len() / 2], all[(all.len() - 1) / 2]);
    let is_strange = |value: f64| !NEAR.contains(&(value / middle)) && away(value) > SCATTERS * scatter;
    let slip = Slip { near: middle, impossible: false };
    values.iter().map(|value| is_strange(*value).then_some(slip)).collect()
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

    /// By hand: 101 is the middle, the others lie 1 % from it and 160 lies 58 %.
    #[test]
    fn err_one_that_does_not_belong_to_the_others_is_left_out() {
        let found = |values: &[f64]| slips(values, None).iter().map(Option::is_some).collect::<Vec<_>>();
        assert_eq!(found(&[100.0, 101.0, 160.0]), [false, false, true]);
        assert_eq!(found(&[100.0, 70.0, 101.0, 99.0]), [false, true, false, false]);
        assert_eq!(slips(&[100.0, 101.0, 160.0], None)[2], Some(Slip { near: 101.0, impossible: false }));
        assert_eq!(found(&[100.0, 101.0, 120.0]), [false; 3], "a quarter away is not strange");
        assert_eq!(found(&[80.0, 100.0, 130.0]), [false; 3], "where all scatter, none is strange");
        assert_eq!(found(&[100.0, 160.0]), [false; 2], "of two nobody can say which");
    }
}
