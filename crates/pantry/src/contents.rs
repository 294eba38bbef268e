//! What 100 g of a food hold: from the row of the table, from the food's own row, or mixed from its parts.
//!
//! Starch, which the table gives for few foods, is reckoned where a rule reaches; who asks is told so.

mod nature;
mod starch;

use evencrumb_measure::Range;

use crate::nutrient::Nutrient;
use crate::pantry::Pantry;
use crate::row::{Citation, Food};
use crate::table::{Row, Table};

/// How deep parts may hold parts. No food of a kitchen is mixed of mixtures of mixtures further than this, and rows
/// that name each other in a circle end here.
const DEEPEST: usize = 6;

/// What 100 g of the edible part hold.
pub struct Contents<'p> {
    /// Every nutrient in the order of a label; `None` where nobody knows, which is not zero.
    pub values: Vec<(Nutrient, Option<Held>)>,
    /// Where the values come from.
    pub origin: Origin<'p>,
}

/// Where a composition comes from.
pub enum Origin<'p> {
    /// A row of the table.
    Table(Row<'static>),
    /// The food's own row.
    Own(&'p Citation),
    /// Its parts, by their shares; with the source of the shares.
    Mixed(Option<&'p Citation>),
}

/// How much of one nutrient 100 g hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// The amount in the nutrient's unit. Exact where a row gives it: how far foods differ from their rows is not said here.
    pub range: Range,
    /// How it is known.
    pub known: Known,
}

/// How an amount is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Known {
    /// A row says it.
    Given,
    /// No row says it, and by its nature the food holds none; with the reason.
    ByNature(&'static str),
    /// No row says it; it was reckoned from the carbohydrate that fibre and sugars leave.
    Derived {
        /// Grams they leave.
        rest: f64,
        /// Of which foods it was counted how much of that is starch.
        of: &'static str,
    },
    /// Added up of parts, of which at least one was reckoned.
    OfReckonedParts,
}

impl Known {
    /// What to tell of an amount that no row gives; nothing to tell of one that a row gives.
    pub fn in_words(self) -> Option<String> {
        match self {
            Known::Given => None,
            Known::ByNature(why) => Some(format!("none by nature: {why}")),
            Known::Derived { rest, of } => Some(format!(
                "derived: {rest:.1} g of carbohydrate are neither fibre nor sugars; how much of such a rest is starch, from {of}"
            )),
            Known::OfReckonedParts => {
                Some("derived: added up of parts, of which not every one has a value in its row".to_owned())
            }
        }
    }
}

/// What 100 g of a food hold; `None` when neither the table nor its row nor its parts say anything.
///
/// A mixture knows a nutrient only if each of its parts does.
pub fn contents<'p>(food: &'p Food, pantry: &'p Pantry) -> Option<Contents<'p>> {
    let table_row = food.table.and_then(|number| Table::embedded().row(number));
    let origin = match (table_row, &food.composition) {
        (Some(row), _) => Origin::Table(row),
        (None, Some(own)) => Origin::Own(&own.from),
        (None, None) if !food.parts.is_empty() => Origin::Mixed(food.parts_from.as_ref()),
        (None, None) => return None,
    };
    let values: Vec<_> = Nutrient::ALL.iter().copied().zip(held(food, pantry)).collect();
    values.iter().any(|(_, value)| value.is_some()).then_some(Contents { values, origin })
}

/// How much of each nutrient 100 g of the edible part hold, in its unit and the order of [`Nutrient::ALL`]; `None` where
/// nobody knows.
pub fn held(food: &Food, pantry: &Pantry) -> Vec<Option<Held>> {
    values(food, pantry, DEEPEST)
}

/// How much of one nutrient 100 g hold, as [`held`].
pub fn holds(food: &Food, nutrient: Nutrient, pantry: &Pantry) -> Option<Held> {
    held(food, pantry)[nutrient as usize]
}

fn values(food: &Food, pantry: &Pantry, depth: usize) -> Vec<Option<Held>> {
    let row = food.table.and_then(|number| Table::embedded().row(number));
    if row.is_some() || food.composition.is_some() {
        let given = |nutrient| match row {
            Some(row) => row.value(nutrient),
            None => food.composition.as_ref().and_then(|own| own.value(nutrient)),
        };
        let held = |nutrient: &Nutrient| match given(*nutrient) {
            Some(amount) => Some(Held { range: Range::exact(amount), known: Known::Given }),
            None if *nutrient == Nutrient::Starch => starch::reckoned(food, row.map(Row::group), given),
            None => nature::none(food, *nutrient, given),
        };
        return Nutrient::ALL.iter().map(held).collect();
    }
    let none = Held { range: Range::exact(0.0), known: Known::Given };
    let mut sums = vec![(!food.parts.is_empty() && depth > 0).then_some(none); Nutrient::ALL.len()];
    for part in food.parts.iter().filter(|_| depth > 0) {
        let held = pantry.named(&part.food).map(|food| values(pantry.food(food), pantry, depth - 1));
        for (at, sum) in sums.iter_mut().enumerate() {
            let held = held.as_ref().and_then(|held| held[at]);
            *sum = sum.zip(held).and_then(|(sum, held)| sum.with(held, part.share));
        }
    }
    sums
}

impl Held {
    /// A mixture's amount with a share of another part.
    fn with(self, part: Held, share: f64) -> Option<Held> {
        let reckoned = matches!(part.known, Known::Derived { .. } | Known::OfReckonedParts);
        let known = if reckoned { Known::OfReckonedParts } else { self.known };
        let (sum, part) = (self.range, part.range.times(share));
        let range = Range::new(sum.low() + part.low(), sum.best() + part.best(), sum.high() + part.high())?;
        Some(Held { range, known })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(name: &str, nutrient: Nutrient) -> Option<f64> {
        let pantry = Pantry::ours();
        holds(pantry.food(pantry.named(name).expect("a food of ours")), nutrient, pantry).map(|held| held.range.best())
    }

    #[test]
    fn ok_a_row_of_the_table() {
        assert_eq!(held("hazelnut", Nutrient::Fat), Some(60.75));
    }

    /// Half hazelnut (60.75 g of fat in SR28 row 12120) and half sugar (none), so 30.375 g by hand; the table may give
    /// sugar a trace.
    #[test]
    fn ok_a_mixture_by_its_shares() {
        let fat = held("praline paste", Nutrient::Fat).expect("both parts know their fat");
        assert!((fat - 30.375).abs() < 0.2, "{fat}");
    }

    /// The table knows that butter holds no caffeine, and does not know its fructose.
    #[test]
    fn ok_unknown_is_not_zero() {
        assert_eq!(held("salted butter", Nutrient::Caffeine), Some(0.0));
        assert_eq!(held("salted butter", Nutrient::Fructose), None);
    }

    /// SR28 20081: 76.31 g carbohydrate, 2.7 g fibre, 0.27 g sugars leave 73.34 g, of which 0.96 are 70.4.
    #[test]
    fn ok_the_starch_of_a_flour_is_derived_and_says_so() {
        let pantry = Pantry::ours();
        let flour = pantry.food(pantry.named("all-purpose flour").expect("a food of ours"));
        let starch = holds(flour, Nutrient::Starch, pantry).expect("a rule reaches it");
        assert!((starch.range.best() - 70.4).abs() < 0.1, "{starch:?}");
        assert!(starch.range.low() < 60.0 && starch.range.high() > 72.0);
        assert!(starch.known.in_words().is_some_and(|words| words.starts_with("derived: 73.3 g")));
    }

    /// A value of the table is never put aside for a derived one: cashews hold 23.49 g in SR28 row 12087.
    #[test]
    fn ok_starch_that_a_row_gives() {
        assert_eq!(held("cashew", Nutrient::Starch), Some(23.49));
    }

    #[test]
    fn ok_no_starch_by_nature() {
        for food in [
            "granulated sugar",
            "unsalted butter",
            "whole milk",
            "egg",
            "table salt",
            "vodka",
            "cream of tartar",
            "cheddar",
            "active dry yeast",
        ] {
            assert_eq!(held(food, Nutrient::Starch), Some(0.0), "{food}");
        }
    }

    /// Chocolate, spices and thickened creams: no rule was counted for them.
    #[test]
    fn err_starch_that_no_rule_reaches_is_unknown() {
        assert_eq!(held("light sour cream", Nutrient::Starch), None);
        assert_eq!(held("ground cinnamon", Nutrient::Starch), None);
    }

    #[test]
    fn err_parts_that_name_each_other() {
        let text = "[[food]]\nname = \"left\"\nparts = [{ food = \"right\", share = 1 }]\n";
        let (foods, _) = crate::row::read("foods.toml", text, crate::row::Whose::Author);
        assert_eq!(super::held(&foods[0], Pantry::ours())[Nutrient::Fat as usize], None);
    }
}
