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
    let values: Vec<_> = Nutrient::ALL.iter().copied().zip(held(food, pantry)).collect();
    values.iter().any(|(_, value)| value.is_some()).then_some(Contents { values, origin })
}

/// How much of each nutrient 100 g of the edible part hold, in its unit and the order of [`Nutrient::ALL`]; `None` where
/// nobody knows.
pub fn held(food: &Food, pantry: &Pantry) -> Vec<Option<f64>> {
    values(food, pantry, DEEPEST)
}

fn values(food: &Food, pantry: &Pantry, depth: usize) -> Vec<Option<f64>> {
    if let Some(row) = food.table.and_then(|number| Table::embedded().row(number)) {
        return Nutrient::ALL.iter().map(|nutrient| row.value(*nutrient)).collect();
    }
    if let Some(own) = &food.composition {
        return Nutrient::ALL.iter().map(|nutrient| own.value(*nutrient)).collect();
    }
    let known = !food.parts.is_empty() && depth > 0;
    let mut sums = vec![known.then_some(0.0); Nutrient::ALL.len()];
    for part in food.parts.iter().filter(|_| known) {
        let held = pantry.named(&part.food).map(|food| values(pantry.food(food), pantry, depth - 1));
        for (at, sum) in sums.iter_mut().enumerate() {
            let held = held.as_ref().and_then(|held| held[at]);
            *sum = sum.zip(held).map(|(sum, held)| sum + part.share * held);
        }
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(name: &str, nutrient: Nutrient) -> Option<f64> {
        let pantry = Pantry::ours();
        super::held(pantry.food(pantry.named(name).expect("a food of ours")), pantry)[nutrient as usize]
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
        assert_eq!(super::held(&foods[0], Pantry::ours())[Nutrient::Fat as usize], None);
    }
}
