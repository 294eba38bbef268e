//! Eggs that scaling has made less than whole.
//!
//! What an egg weighs is an argument: it depends on country and size class, and the pantry knows which is meant.

use super::{Scoops, USUAL_ERROR, drawer};
use crate::number::Number;
use crate::unit::Custom;

/// What one egg of the size meant weighs without its shell, and its parts; grams, all positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EggGrams {
    /// White and yolk together.
    pub edible: f64,
    /// The white alone.
    pub white: f64,
    /// The yolk alone.
    pub yolk: f64,
    /// Beaten egg, grams per millilitre, so that it can be said in spoons.
    pub beaten_per_millilitre: f64,
}

/// The part of an egg that goes in beside whole ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EggPart {
    /// Whole eggs only.
    None,
    /// One yolk more. It brings fat and no water to speak of, so it is no small egg.
    Yolk,
    /// One white more. It brings water and protein and no fat.
    White,
}

/// Whole eggs and perhaps one part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EggWay {
    /// Whole eggs.
    pub whole: u32,
    /// What goes in beside them.
    pub part: EggPart,
    /// How much egg that is too much (or, negative, too little), in grams.
    pub error_grams: f64,
}

/// Whole eggs, and the rest weighed from one egg beaten.
#[derive(Clone, Debug, PartialEq)]
pub struct Beaten {
    /// Eggs that go in whole.
    pub whole: u32,
    /// Grams of the beaten egg; nothing when the number is whole.
    pub grams: f64,
    /// The same in spoons, within 3 % or the nearest.
    pub spoons: Scoops,
    /// How far the spoons, not the scale, are off; in grams of egg.
    pub error_grams: f64,
}

/// What to do about a number of eggs that is not whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Eggs {
    /// Egg wanted, in grams.
    pub grams: f64,
    /// Without a scale: nearest first, at least one. With equal errors fewer whole eggs come first.
    pub ways: Vec<EggWay>,
    /// With a scale or spoons.
    pub beaten: Beaten,
}

/// More eggs than this are beaten by the bucket, and are said as this many.
const MOST_EGGS: f64 = 1e6;

/// The ways to put `count` eggs into a bowl; what is no number, or below nothing, counts as none.
pub fn eggs(count: f64, egg: EggGrams, custom: Custom) -> Eggs {
    let count = if count.is_finite() { count.clamp(0.0, MOST_EGGS) } else { 0.0 };
    // 2.9999999 is three eggs that went through a division.
    let near = (count + 1e-6).floor();
    let (whole, share) = (whole(near), if count - near < 1e-6 { 0.0 } else { count - near });
    let wanted = count * egg.edible;
    let mut ways = Vec::new();
    for whole in whole.saturating_sub(1)..=whole + 1 {
        for (part, grams) in [(EggPart::None, 0.0), (EggPart::Yolk, egg.yolk), (EggPart::White, egg.white)] {
            // A part more than an egg more is another whole egg; nothing at all is no way to bake.
            if (whole == 0 && part == EggPart::None && count > 0.0) || grams >= egg.edible {
                continue;
            }
            ways.push(EggWay { whole, part, error_grams: f64::from(whole) * egg.edible + grams - wanted });
        }
    }
    ways.retain(|way| way.error_grams.abs() < egg.edible);
    ways.sort_by(|one, other| by_distance(one.error_grams, other.error_grams));
    let grams = share * egg.edible;
    let spoons = drawer(grams / egg.beaten_per_millilitre, USUAL_ERROR, custom);
    let error_grams = spoons.millilitres * egg.beaten_per_millilitre - grams;
    let error_grams = if grams > 0.0 && error_grams.is_finite() { error_grams } else { 0.0 };
    Eggs { grams: wanted, ways, beaten: Beaten { whole, grams, spoons, error_grams } }
}

/// A batch size that needs no part of an egg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EggBatch {
    /// Eggs in it.
    pub eggs: u32,
    /// How many times the recipe it is.
    pub factor: Number,
}

/// Batch sizes near `factor` that make whole eggs of `one_batch` eggs: the nearest first, at most one below and one
/// above, or only the one that was asked for when it is whole already. None for a recipe without eggs.
pub fn whole_egg_batches(one_batch: Number, factor: f64) -> Vec<EggBatch> {
    if one_batch == Number::ZERO || !factor.is_finite() || factor <= 0.0 {
        return Vec::new();
    }
    let wanted = (one_batch.value() * factor).min(MOST_EGGS);
    let nearest = wanted.round();
    let counts = if (wanted - nearest).abs() < 1e-6 { vec![nearest] } else { vec![wanted.floor(), wanted.ceil()] };
    let (over, under) = one_batch.parts();
    let batches = counts.into_iter().map(whole).filter(|eggs| *eggs > 0).filter_map(|eggs| {
        let factor = Number::whole(eggs).times(Number::fraction(under, over)?)?;
        Some(EggBatch { eggs, factor })
    });
    let mut batches: Vec<EggBatch> = batches.collect();
    batches.sort_by(|one, other| by_distance(one.factor.value() - factor, other.factor.value() - factor));
    batches
}

/// Nearer to nothing first; distances that differ only by how a computer counts stay in their order.
fn by_distance(one: f64, other: f64) -> std::cmp::Ordering {
    ((one.abs() * 1e9).round()).total_cmp(&(other.abs() * 1e9).round())
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between nothing and MOST_EGGS")]
fn whole(value: f64) -> u32 {
    value as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say;
    use proptest::prelude::*;

    /// Large eggs as the brief of the trade has them (50, 33 and 17 g: common practice); density of beaten egg assumed.
    const LARGE: EggGrams = EggGrams { edible: 50.0, white: 33.0, yolk: 17.0, beaten_per_millilitre: 1.03 };

    fn ways(count: f64) -> Vec<String> {
        let ways = eggs(count, LARGE, Custom::Us).ways;
        ways.iter().map(|way| format!("{} {:?} {:+.1}", way.whole, way.part, way.error_grams)).collect()
    }

    #[test]
    fn ok_whole_eggs_with_a_yolk_or_white() {
        assert_eq!(ways(1.33)[0], "1 Yolk +0.5");
        assert_eq!(ways(1.67)[0], "1 White -0.5");
        assert_eq!(ways(1.5)[..2], ["1 Yolk -8.0", "1 White +8.0"]);
        assert_eq!(ways(2.0)[0], "2 None +0.0");
        assert_eq!(ways(0.33)[0], "0 Yolk +0.5");
        assert_eq!(ways(2.999_999_9)[0], "3 None +0.0");
    }

    #[test]
    fn ok_beaten_egg_by_weight_and_by_spoon() {
        let eggs = eggs(1.5, LARGE, Custom::Us);
        assert_eq!((eggs.beaten.whole, eggs.beaten.grams), (1, 25.0));
        assert_eq!(say::scoops(&eggs.beaten.spoons), "1 tablespoon plus 2 teaspoons");
        assert!(eggs.beaten.error_grams.abs() < 0.03 * 25.0);
    }

    fn batches(over: u64, under: u64, factor: f64) -> Vec<String> {
        let batches = whole_egg_batches(Number::fraction(over, under).expect("small"), factor);
        batches.iter().map(|batch| format!("{} eggs, {} times", batch.eggs, batch.factor)).collect()
    }

    #[test]
    fn ok_batches_that_need_no_part_of_an_egg() {
        assert_eq!(batches(3, 1, 1.55), ["5 eggs, 1 2/3 times", "4 eggs, 1 1/3 times"]);
        assert_eq!(batches(2, 1, 1.5), ["3 eggs, 1 1/2 times"]);
        assert_eq!(batches(3, 2, 1.0), ["1 eggs, 2/3 times", "2 eggs, 1 1/3 times"]);
        assert_eq!(batches(1, 1, 0.4), ["1 eggs, 1 times"]);
    }

    #[test]
    fn err_no_eggs_and_no_numbers() {
        assert_eq!(batches(0, 1, 2.0), [""; 0]);
        assert_eq!(batches(3, 1, f64::NAN), [""; 0]);
        assert!(eggs(f64::NAN, LARGE, Custom::Us).grams.abs() <= 0.0);
        let none = EggGrams { edible: 0.0, white: 0.0, yolk: 0.0, beaten_per_millilitre: 0.0 };
        assert!(eggs(1.5, none, Custom::Us).beaten.error_grams.abs() <= 0.0);
    }

    proptest! {
        #[test]
        fn ok_some_way_is_within_a_sixth_of_an_egg(count in 0.3..60.0f64) {
            let eggs = eggs(count, LARGE, Custom::Metric);
            prop_assert!(eggs.ways[0].error_grams.abs() <= 8.6);
            prop_assert!((f64::from(eggs.beaten.whole) * 50.0 + eggs.beaten.grams - eggs.grams).abs() < 1e-3);
        }
    }
}
