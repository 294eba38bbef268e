//! Whole packs: what must be bought beyond what is there, and what is left over.

use evencrumb_manuscript::FoodId;
use evencrumb_measure::{Estimate, Money};

use super::{Need, Price, Stock};

/// Packs of one food to be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Purchase {
    /// The food.
    pub food: FoodId,
    /// The pack in the author's words.
    pub pack: String,
    /// How many packs the best figures ask for; at least one.
    pub packs: u64,
    /// How many packs are enough in nineteen kitchens of twenty.
    pub packs_to_be_sure: u64,
    /// What one pack costs.
    pub price: Money,
    /// Grams as bought that are left of packs and stock when the recipe is made.
    pub left_over: Estimate,
}

/// What must be bought; nothing of a food that is there.
pub(super) fn purchases(needs: &[Need], prices: &[Price], stock: &[Stock]) -> Vec<Purchase> {
    needs.iter().filter_map(|need| purchase(need, prices, stock)).collect()
}

fn purchase(need: &Need, prices: &[Price], stock: &[Stock]) -> Option<Purchase> {
    let price = prices.iter().find(|price| price.food == need.food)?;
    let here: Estimate = stock.iter().filter(|stock| stock.food == price.food).map(|stock| &stock.grams).sum();
    // In packs, because eggs of a dozen are counted and not weighed: what an egg weighs falls out.
    let missing = need.grams.less(&here).over(&price.grams)?.range();
    let packs = whole(missing.best());
    #[expect(clippy::cast_precision_loss, reason = "packs are cut at a million")]
    let all: Estimate = [&here, &price.grams.times(packs as f64)].into_iter().sum();
    (packs > 0).then(|| Purchase {
        food: price.food,
        pack: price.pack.clone(),
        packs,
        packs_to_be_sure: whole(missing.high()),
        price: price.price,
        left_over: all.less(&need.grams),
    })
}

/// So many whole packs; a hair more than a whole number is that number.
fn whole(packs: f64) -> u64 {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between nothing and a million")]
    let whole = (packs - 1e-9).ceil().clamp(0.0, 1e6) as u64;
    whole
}
