//! Grams as they are bought: with core, peel and stone, and with the liquor of a tin.
//!
//! A price is paid for what is bought. So pack, stock and line are all brought to grams as bought before they are
//! compared: 900 g of pears are 900 g of a bag of pears, and five pears are a little more than the flesh of five.

use evencrumb_manuscript::line::{self, AMOUNT_NOTHING, Item, WORD_PASSED_OVER};
use evencrumb_manuscript::{FoodId, Query, Weight};
use evencrumb_measure::{Estimate, Unit};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::{self, Kitchen};

use crate::eaten;
use crate::line::{WeighedItem, WeighedLine};

/// What a text of the author's kitchen speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// A pack as it stands in the shop.
    Pack,
    /// What is in the cupboard.
    Stock,
}

/// Grams as bought of a food of a line; nothing when the line gives it no weight.
pub fn of_line(line: &WeighedLine, one: &WeighedItem, pantry: &Pantry, kitchen: Kitchen) -> Option<Estimate> {
    let grams = match undrained(&one.item) {
        Some(whole) => weigh::weigh(&whole, line.read.purpose.as_deref(), pantry, kitchen).grams,
        None => one.weighed.grams.clone(),
    };
    as_bought(&line.text, &one.item, &grams?, pantry)
}

/// How many packs a line opens, where it counts packs of no stated size and the price is one of such packs: "1 can
/// chickpeas, drained" is the whole of a "400 g can", whatever is left in the sieve.
pub fn packs_of_line(one: &WeighedItem, pack: &str, pantry: &Pantry) -> Option<f64> {
    let [amount] = &one.item.amounts[..] else { return None };
    let [opened] = &amount.terms[..] else { return None };
    if !line::is_sold_in_sizes(opened.unit) || amount.each.is_some() {
        return None;
    }
    let read = line::read(&format!("{pack} {}", pantry.food(one.item.food?).name), pantry);
    let priced = read.foods.first()?.amounts.first()?;
    let said = || pack.split(|c: char| !c.is_alphabetic()).any(|word| Unit::written(word) == Some(opened.unit));
    let in_pack = match &priced.terms[..] {
        [term] if term.unit == opened.unit && term.low == term.high => term.low.value(),
        [_] if priced.is_weight() && priced.each.is_none() && said() => 1.0,
        _ => return None,
    };
    (in_pack > 0.0).then(|| f64::midpoint(opened.low.value(), opened.high.value()) / in_pack)
}

/// Grams as bought of an amount of a food that stands outside a recipe, as `2 lb`, `12 large` or `6 x 330 ml`, read as
/// a line of a recipe is. `name` is how the author calls the food. Nothing when no weight can be read in it.
///
/// ```
/// use evencrumb_pantry::{Pantry, weigh::Kitchen};
/// use evencrumb_sheet::cost::{Whose, grams_as_bought};
///
/// let pantry = Pantry::ours();
/// let egg = pantry.named("egg").expect("a food of ours");
/// let dozen = grams_as_bought("12 large", "egg", egg, Whose::Pack, pantry, Kitchen::default());
/// assert_eq!(dozen.expect("eggs have a weight").best(), 600.0);
/// ```
pub fn grams_as_bought(
    amount: &str,
    name: &str,
    food: FoodId,
    whose: Whose,
    pantry: &Pantry,
    kitchen: Kitchen,
) -> Option<Estimate> {
    // In a list "- 2 lb" is a bullet and 2 lb; here it would be less than nothing.
    if !amount.trim_start().starts_with(|first: char| first.is_alphanumeric() || first == '.') {
        return None;
    }
    // A name may swallow a word of the amount, so the pantry's own name is tried where the author's did not do.
    // "6 eggs" names what it counts itself.
    let names = [name, &pantry.food(food).name, ""];
    names.into_iter().find_map(|name| {
        let text = format!("{} {name}", amount.trim());
        let mut read = line::read(&text, pantry);
        // In a recipe "500 flour" is taken for grams and asked about. A price leans on its pack, so nothing is taken here.
        // A stock may say that there is nothing left.
        let sound = [WORD_PASSED_OVER.name, AMOUNT_NOTHING.name];
        let unsound = |query: &Query| query.kind.weight != Weight::Note && !sound.contains(&query.kind.name);
        if read.foods.len() != 1 || !read.alternatives.is_empty() || read.queries.iter().any(unsound) {
            return None;
        }
        let mut item = read.foods.pop().filter(|item| item.food == Some(food) && !item.amounts.is_empty())?;
        move_away(&mut item, whose);
        let weighed = weigh::weigh(&item, None, pantry, kitchen);
        if weighed.queries.iter().any(unsound) {
            return None;
        }
        as_bought(&text, &item, &weighed.grams?, pantry)
    })
}

fn as_bought(text: &str, item: &Item, grams: &Estimate, pantry: &Pantry) -> Option<Estimate> {
    match eaten::edible_share(pantry.food(item.food?)) {
        Some(share) if !eaten::is_as_bought(text, item) => grams.over(&share),
        _ => Some(grams.clone()),
    }
}

/// The item with the whole tin for its weight, where the line drains it.
fn undrained(item: &Item) -> Option<Item> {
    let drained = |amount: &line::Amount| amount.fill.as_deref() == Some("drained");
    let says_so = item.preparation.to_lowercase().contains("drained") || item.amounts.iter().any(drained);
    if !says_so || item.amounts.iter().all(drained) {
        return None;
    }
    let mut whole = Item { preparation: String::new(), ..item.clone() };
    whole.amounts.retain(|amount| !drained(amount));
    Some(whole)
}

/// Doubts of one line alone ("about", "a pinch") are named by its bytes. These are moved beyond the bytes of any line, so
/// that "about 2 lb" on a bag is not taken for the same doubt as "about 900 g" in a recipe, and cancelled against it.
fn move_away(item: &mut Item, whose: Whose) {
    let by = match whose {
        Whose::Pack => 1_000_000,
        Whose::Stock => 2_000_000,
    };
    for amount in &mut item.amounts {
        let mut next = Some(amount);
        while let Some(amount) = next {
            amount.place = amount.place.start + by..amount.place.end + by;
            next = amount.each.as_deref_mut();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(amount: &str, name: &str) -> String {
        let pantry = Pantry::ours();
        let food = pantry.named(name).expect("a food of ours");
        grams_as_bought(amount, name, food, Whose::Pack, pantry, Kitchen::default())
            .map_or("?".to_owned(), |grams| format!("{:.0}", grams.best()))
    }

    fn line(text: &str) -> f64 {
        let pantry = Pantry::ours();
        let line = crate::line::weigh(text, pantry, Kitchen::default());
        of_line(&line, &line.foods[0], pantry, Kitchen::default()).expect("a weight").best()
    }

    #[test]
    fn ok_packs_as_people_write_them() {
        assert_eq!(said("2 lb", "pear"), "907");
        assert_eq!(said("1/2 gallon", "whole milk"), "1952");
        assert_eq!(said("6 x 330 ml", "ginger ale"), "2042");
        assert_eq!(said("500g", "plain flour"), "500");
        assert_eq!(said("1 stick", "unsalted butter"), "113");
        assert_eq!(said("1.5 kg bag", "flour"), "1500");
        assert_eq!(said("1 dozen", "egg"), "600");
    }

    #[test]
    fn err_packs_that_say_no_weight() {
        assert_eq!(said("", "pear"), "?");
        assert_eq!(said("a bag", "all-purpose flour"), "?");
        assert_eq!(said("500", "all-purpose flour"), "?");
        assert_eq!(said("2 packs of 500 g", "all-purpose flour"), "?");
        assert_eq!(said("2 lb apples or", "pear"), "?");
    }

    /// Worked by hand: a medium pear has 178 g of flesh, which is 90 % of it.
    #[test]
    fn ok_cores_are_paid_for() {
        assert_eq!(said("6", "pear"), format!("{:.0}", 6.0 * 178.0 / 0.9));
        assert!((line("5 medium pears") - 5.0 * 178.0 / 0.9).abs() < 1e-9);
        assert!((line("900 g pears") - 900.0).abs() < 1e-9);
        assert!((line("900 g peeled pears") - 1000.0).abs() < 1e-9);
    }

    #[test]
    fn ok_the_liquor_of_a_tin_is_paid_for() {
        assert!((line("1 can (400 g) chickpeas, drained") - 400.0).abs() < 1e-9);
        assert!((line("1 (400 g) can chickpeas, drained and rinsed") - 400.0).abs() < 1e-9);
    }

    #[test]
    fn ok_every_food_of_ours_can_be_priced_by_weight() {
        let pantry = Pantry::ours();
        let mut lost = Vec::new();
        for food in pantry.foods() {
            let id = pantry.named(&food.name).expect("named by its name");
            if grams_as_bought("2 lb", &food.name, id, Whose::Pack, pantry, Kitchen::default()).is_none() {
                lost.push(food.name.as_str());
            }
        }
        assert_eq!(lost, Vec::<&str>::new());
    }
}
