//! How far a food of some kitchen differs from the row that stands for it: crops, brands and recipes differ.

use evencrumb_measure::Range;
use evencrumb_pantry::Nutrient;
use evencrumb_pantry::contents::{Held, Known};

/// What is said of it in words.
pub const IN_WORDS: &str = "what a food holds is taken to differ from its table row by 8 % for what is weighed in grams (less for a food that is nearly pure), 5 % in energy, 20 % in minerals and vitamins, and 2 % in the sodium of salt and soda";

/// What is weighed in grams. Common practice, no source; as are the two below.
const GRAMS: f64 = 0.08;
/// Energy, in which errors of fat, protein and carbohydrate partly make up for each other.
const ENERGY: f64 = 0.05;
/// Minerals and vitamins, which differ with soil, season and storage.
const TRACES: f64 = 0.20;

/// Sodium of what is nearly nothing but a salt: damp and the other salts of the sea. Common practice, no source.
const SALTS: f64 = 0.02;
/// Milligrams of sodium in 100 g from which that is so: pure salt holds 39,300 and pure baking soda 27,400, by their
/// formulas.
const NEARLY_SALT_MG: f64 = 26_000.0;

/// What 100 g of the food hold in nine kitchens of ten, around what its row says.
///
/// Of a food that is nearly pure little can be anything else: sugar that holds 99.8 g of sugars holds 0.2 g of others,
/// and 8 % of that are what can differ. An amount that was reckoned has its own range already.
pub fn differing(held: Held, nutrient: Nutrient) -> Range {
    if held.known != Known::Given {
        return held.range;
    }
    let best = held.range.best();
    let spread = match nutrient.unit() {
        "g" => GRAMS * best.min(100.0 - best).max(0.0),
        "kcal" => ENERGY * best,
        _ if nutrient == Nutrient::Sodium && best >= NEARLY_SALT_MG => SALTS * best,
        _ => TRACES * best,
    };
    Range::new(best - spread, best, best + spread).unwrap_or(held.range)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn width(best: f64, nutrient: Nutrient) -> f64 {
        let range = differing(Held { range: Range::exact(best), known: Known::Given }, nutrient);
        range.high() - range.best()
    }

    #[test]
    fn ok_pure_foods_differ_little_and_traces_much() {
        assert!(width(99.8, Nutrient::Sugars) < 0.02);
        assert!((width(50.0, Nutrient::Fat) - 4.0).abs() < 1e-9);
        assert!((width(400.0, Nutrient::Energy) - 20.0).abs() < 1e-9);
        assert!((width(38_758.0, Nutrient::Sodium) - 775.16).abs() < 1e-6);
        assert!((width(600.0, Nutrient::Sodium) - 120.0).abs() < 1e-9);
        assert!((width(100.0, Nutrient::Calcium) - 20.0).abs() < 1e-9);
    }
}
