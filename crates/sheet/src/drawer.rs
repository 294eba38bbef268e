//! Grams said in cups and spoons that a drawer holds.

use evencrumb_measure::{Range, Scoops, drawer, say::Care};
use evencrumb_pantry::row::{Food, Role};
use evencrumb_pantry::weigh::{self, Basis, Kitchen};

/// A weight in measures.
#[derive(Clone, Debug, PartialEq)]
pub struct InMeasures {
    /// The scoops, and how far they are from what was asked.
    pub scoops: Scoops,
    /// Grams that the scoops hold as this food fills them, with the doubt of the filling.
    pub grams: Range,
    /// What the filling leans on.
    pub basis: Vec<Basis>,
}

/// The error a bake forgives: 3 %, and 2 % for what raises, salts or binds it.
pub fn allowed_error_share(food: &Food) -> f64 {
    match care(food) {
        Care::Exact => 0.02,
        Care::Usual => 0.03,
    }
}

/// Whether the food is one of those that are never moved by more than a little.
pub fn care(food: &Food) -> Care {
    let exact = [Role::Leavener, Role::Yeast, Role::Salt, Role::Gum, Role::Acid];
    if food.roles.iter().any(|role| exact.contains(role)) { Care::Exact } else { Care::Usual }
}

/// Says grams of a food in measures; `None` when no measure of it is known.
pub fn in_measures(grams: f64, food: &Food, ways: &[String], kitchen: Kitchen) -> Option<InMeasures> {
    let (by_cup, basis) = weigh::grams_per_millilitre(food, ways, false)?;
    let small = grams / by_cup.best() < 12.0;
    let (density, basis) = if small { weigh::grams_per_millilitre(food, ways, true)? } else { (by_cup, basis) };
    let scoops = drawer(grams / density.best(), allowed_error_share(food), kitchen.custom);
    let grams = density.times(scoops.millilitres);
    Some(InMeasures { scoops, grams, basis })
}

#[cfg(test)]
mod tests {
    use evencrumb_measure::say;
    use evencrumb_pantry::Pantry;

    use super::*;

    fn said(grams: f64, name: &str) -> String {
        let pantry = Pantry::ours();
        let food = pantry.food(pantry.named(name).expect("a food of ours"));
        in_measures(grams, food, &[], Kitchen::default()).map_or("?".to_owned(), |found| say::scoops(&found.scoops))
    }

    #[test]
    fn ok_weights_in_scoops() {
        assert_eq!(said(85.0, "honey"), "1/4 cup");
        assert_eq!(said(250.0, "all-purpose flour"), "2 cups");
        assert_eq!(said(100.0, "granulated sugar"), "1/2 cup");
    }

    #[test]
    fn err_a_food_that_no_measure_is_known_of() {
        assert_eq!(said(10.0, "edible gold leaf"), "?");
    }
}
