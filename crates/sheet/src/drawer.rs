//! Grams said in cups and spoons that a drawer holds.

use evencrumb_manuscript::{Query, QueryKind, Weight};
use evencrumb_measure::say::{self, Care};
use evencrumb_measure::{Hold, MOST_MILLILITRES, Number, Range, Scoops, Unit, drawer};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::row::{Food, Role, Size};
use evencrumb_pantry::weigh::{self, Basis, Kitchen};

use crate::line::{WeighedItem, WeighedLine};

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

/// What a bake forgives of a food that neither raises, salts nor binds it, where being closer would take scoops that nobody
/// fills (common practice, no source).
pub(crate) const FORGIVEN: f64 = 0.05;

/// The scoops that a cook would fill: the fewest within the error that is allowed; and where those are three measures one
/// after another, or the smallest spoon again and again, fewer within what is forgiven.
pub(crate) fn handy(care: Care, allowed_error_share: f64, scoops: impl Fn(f64) -> Scoops) -> Scoops {
    let close = scoops(allowed_error_share);
    if care == Care::Exact || !is_fiddly(&close) {
        return close;
    }
    let forgiven = scoops(FORGIVEN.max(allowed_error_share));
    if is_fiddly(&forgiven) || forgiven.hold != Hold::Within { close } else { forgiven }
}

/// Whether it reads as spoons that nobody owns or fills: "3/8 teaspoon", three measures one after another.
pub(crate) fn is_fiddly(scoops: &Scoops) -> bool {
    joins(scoops) > 1 || scoops.scoops.last().is_some_and(|(count, measure)| *count > 1 && measure.size.parts().1 == 8)
}

/// How many times "plus" is said.
pub(crate) fn joins(scoops: &Scoops) -> usize {
    say::scoops(scoops).matches(" plus ").count()
}

/// A weight that was asked for in measures and not said.
pub static NO_WEIGHT_TO_MEASURE: QueryKind = QueryKind { name: "no-weight-to-measure", weight: Weight::MustMend };
/// More than anybody counts in cups.
pub static TOO_MUCH_TO_MEASURE: QueryKind = QueryKind { name: "too-much-to-measure", weight: Weight::MustMend };

/// What must be asked of a line that was to be said in measures.
pub fn asked(line: &WeighedLine, pantry: &Pantry) -> Vec<Query> {
    let no_weight = |place, what: &str| {
        Query::new(
            &NO_WEIGHT_TO_MEASURE,
            place,
            format!("“{what}” says no weight, so there is nothing to say in cups and spoons."),
            "Write the weight before the food, as “85 g honey”.",
        )
    };
    if line.foods.is_empty() {
        return vec![no_weight(0..line.text.len(), line.text.trim())];
    }
    let of = |one: &WeighedItem| {
        let food = one.item.food.map(|id| pantry.food(id))?;
        let Some(grams) = &one.weighed.grams else {
            return one.item.amounts.is_empty().then(|| no_weight(one.item.place.clone(), &one.item.name));
        };
        let (density, _) = weigh::grams_per_millilitre(food, &one.item.ways, false)?;
        let litres = grams.best() / density.best() / 1000.0;
        (litres * 1000.0 > MOST_MILLILITRES).then(|| {
            Query::new(
                &TOO_MUCH_TO_MEASURE,
                one.item.place.clone(),
                format!("That is {litres:.0} litres of {}, and nobody counts more than 1000 in cups.", food.name),
                "Weigh it, or ask for a smaller part of it.",
            )
        })
    };
    line.foods.iter().filter_map(of).collect()
}

/// Says grams of a food in measures; `None` when no measure of it is known, and beyond a thousand litres, where nobody
/// counts cups.
pub fn in_measures(grams: f64, food: &Food, ways: &[String], kitchen: Kitchen) -> Option<InMeasures> {
    let (by_cup, basis) = weigh::grams_per_millilitre(food, ways, false)?;
    let small = weigh::is_by_teaspoon(food, grams / by_cup.best());
    let (density, basis) = if small { weigh::grams_per_millilitre(food, ways, true)? } else { (by_cup, basis) };
    if grams / density.best() > MOST_MILLILITRES {
        return None;
    }
    let scoops =
        handy(care(food), allowed_error_share(food), |allowed| drawer(grams / density.best(), allowed, kitchen.custom));
    let grams = density.times(scoops.millilitres);
    Some(InMeasures { scoops, grams, basis })
}

/// What a line of counted eggs comes to: eggs are cracked, and only beaten ones are measured. Nothing for other foods.
pub fn counted_eggs(one: &WeighedItem, pantry: &Pantry, kitchen: Kitchen) -> Option<(String, InMeasures)> {
    let food = pantry.food(one.item.food?);
    let amount = one.item.amounts.first().filter(|amount| amount.bare && amount.unit() == Unit::Piece)?;
    // Eggs of hens, their whites and yolks: of foods of eggs they alone have a jumbo size.
    if food.roles.first() != Some(&Role::Egg) || !food.piece.iter().any(|piece| piece.size == Some(Size::Jumbo)) {
        return None;
    }
    let beaten = [one.item.ways.as_slice(), &["beaten".to_owned()]].concat();
    let found = in_measures(one.weighed.grams.as_ref()?.best(), food, &beaten, kitchen)?;
    let count = weigh::in_words(amount);
    let are = if amount.terms.iter().all(|term| term.high <= Number::ONE) { "it is" } else { "they are" };
    Some((format!("{count} {}; beaten, {are} {}", one.item.name, say::scoops(&found.scoops)), found))
}

#[cfg(test)]
mod tests {
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
        // 12.5 g: 4 % off, and one spoon.
        assert_eq!(said(12.0, "granulated sugar"), "1 tablespoon");
        // What raises is never moved so far.
        let soda = said(3.1, "baking soda");
        assert!(soda.contains("plus"), "{soda}");
    }

    #[test]
    fn ok_eggs_are_counted_and_measured_beaten() {
        let pantry = Pantry::ours();
        let said = |text: &str| {
            let line = crate::line::weigh(text, pantry, Kitchen::default());
            counted_eggs(&line.foods[0], pantry, Kitchen::default()).map(|(words, _)| words)
        };
        let eggs = said("3 eggs").expect("counted");
        assert!(eggs.starts_with("3 eggs; beaten, they are "), "{eggs}");
        assert_eq!(said("150 g egg"), None);
        assert_eq!(said("3 bananas"), None);
    }

    #[test]
    fn err_more_than_anybody_counts_and_nothing_to_count() {
        assert_eq!(said(1e6, "granulated sugar"), "?");
        assert!(said(8e5, "granulated sugar").contains("cups"));
        let pantry = Pantry::ours();
        let names = |text: &str| -> Vec<&str> {
            let line = crate::line::weigh(text, pantry, Kitchen::default());
            asked(&line, pantry).iter().map(|query| query.kind.name).collect()
        };
        assert_eq!(names("1000000 g sugar"), ["too-much-to-measure"]);
        assert_eq!(names("sugar"), ["no-weight-to-measure"]);
        assert_eq!(names(""), ["no-weight-to-measure"]);
        assert!(names("85 g honey").is_empty());
    }

    #[test]
    fn err_a_food_that_no_measure_is_known_of() {
        assert_eq!(said(10.0, "edible gold leaf"), "?");
    }
}
