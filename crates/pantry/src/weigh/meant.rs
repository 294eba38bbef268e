//! One name, two foods, told apart by how it is measured: 500 g of pumpkin are the vegetable, a can of it is the puree.

use evencrumb_manuscript::FoodId;
use evencrumb_manuscript::line::Item;
use evencrumb_manuscript::word::name_key;

use crate::pantry::Pantry;
use crate::row::{By, Way};

/// The food an item means. It is the one its name means, unless that food's row says otherwise for how the item is
/// measured. Whoever weighs what the reader read asks here first.
pub fn meant(item: &Item, pantry: &Pantry) -> Option<FoodId> {
    let food = pantry.food(item.food?);
    let ways: Vec<Way> = item.ways.iter().filter_map(|way| Way::named(way)).collect();
    // Filled as only this food is filled: a cup of cubed pumpkin is no puree.
    let filled_so = ways.iter().any(|way| food.cup_filled(Some(*way)).is_some());
    let measured = |by: &By| match by {
        By::Unit(unit) => item.amounts.first().is_some_and(|amount| amount.unit() == *unit),
        By::Way(way) => ways.contains(way),
    };
    let other = food
        .meant
        .iter()
        .filter(|_| !filled_so && item.part.is_none())
        .find(|meant| name_key(&meant.name) == name_key(&item.name) && meant.by.iter().any(measured));
    other.and_then(|meant| pantry.named(&meant.food)).or(item.food)
}
