//! What a food cannot hold, though nobody measured it: a fatty acid without fat, fibre in a crystal of sugar.
//!
//! The table measures these in granulated sugar and leaves them open in turbinado, and a total with one unknown in it is
//! no total.

use evencrumb_measure::Range;

use super::{Held, Known};
use crate::nutrient::Nutrient;
use crate::row::{Food, Role};

/// Grams in 100 g that sugars may leave of the carbohydrate of a sugar: ash and rounding, not fibre.
const NEXT_TO_NONE: f64 = 1.0;

/// None of the nutrient, where the other values leave no room for it; `None` where they do.
pub(super) fn none(food: &Food, nutrient: Nutrient, given: impl Fn(Nutrient) -> Option<f64>) -> Option<Held> {
    let why = match nutrient {
        Nutrient::SaturatedFat | Nutrient::TransFat | Nutrient::MonounsaturatedFat | Nutrient::PolyunsaturatedFat => {
            (given(Nutrient::Fat)? == 0.0).then_some("there is no fat that it could be part of")?
        }
        Nutrient::Fibre if food.roles.contains(&Role::Sugar) => {
            let rest = given(Nutrient::Carbohydrate)? - given(Nutrient::Sugars)?;
            (rest < NEXT_TO_NONE).then_some("sugars leave no carbohydrate for it")?
        }
        _ => return None,
    };
    Some(Held { range: Range::exact(0.0), known: Known::ByNature(why) })
}

#[cfg(test)]
mod tests {
    use crate::contents::holds;
    use crate::nutrient::Nutrient;
    use crate::pantry::Pantry;

    fn held(name: &str, nutrient: Nutrient) -> Option<f64> {
        let pantry = Pantry::ours();
        let food = pantry.food(pantry.named(name).expect("a food of ours"));
        holds(food, nutrient, pantry).map(|held| held.range.best())
    }

    #[test]
    fn ok_a_coarse_sugar_holds_no_fat_and_no_fibre() {
        for name in ["turbinado sugar", "demerara sugar"] {
            assert_eq!(held(name, Nutrient::SaturatedFat), Some(0.0), "{name}");
            assert_eq!(held(name, Nutrient::Fibre), Some(0.0), "{name}");
        }
    }

    #[test]
    fn err_where_there_is_fat_its_kinds_stay_unknown() {
        // The row gives 22 g of fat and says nothing of its monounsaturated part.
        assert_eq!(held("clotted cream", Nutrient::MonounsaturatedFat), None);
    }
}
