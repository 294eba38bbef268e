//! What 100 g of a food hold: from the row of the table, from the food's own row, or mixed from its parts.

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
    pub values: Vec<(Nutrient, Option<f64>)>,
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
    let values: Vec<_> = Nutrient::ALL.iter().map(|it| (*it, value(food, *it, pantry, DEEPEST))).collect();
    values.iter().any(|(_, value)| value.is_some()).then_some(Contents { values, origin })
}

/// How much of one nutrient 100 g of the edible part hold, in the nutrient's unit; `None` where nobody knows.
pub fn held(food: &Food, nutrient: Nutrient, pantry: &Pantry) -> Option<f64> {
    value(food, nutrient, pantry, DEEPEST)
}

fn value(food: &Food, nutrient: Nutrient, pantry: &Pantry, depth: usize) -> Option<f64> {
    if let Some(row) = food.table.and_then(|number| Table::embedded().row(number)) {
        return row.value(nutrient);
    }
    if let Some(own) = &food.composition {
        return own.value(nutrient);
    }
    if food.parts.is_empty() || depth == 0 {
        return None;
    }
    food.parts.iter().try_fold(0.0, |sum, part| {
        let held = value(pantry.food(pantry.named(&part.food)?), nutrient, pantry, depth - 1)?;
        Some(sum + part.share * held)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(name: &str, nutrient: Nutrient) -> Option<f64> {
        let pantry = Pantry::ours();
        super::held(pantry.food(pantry.named(name).expect("a food of ours")), nutrient, pantry)
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

    #[test]
    fn err_parts_that_name_each_other() {
        let text = "[[food]]\nname = \"left\"\nparts = [{ food = \"right\", share = 1 }]\n";
        let (foods, _) = crate::row::read("foods.toml", text, crate::row::Whose::Author);
        assert_eq!(value(&foods[0], Nutrient::Fat, Pantry::ours(), DEEPEST), None);
    }
}
