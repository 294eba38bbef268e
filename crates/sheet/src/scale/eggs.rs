//! Eggs that don't come out whole: whole ones with a yolk or a white, or a part of one beaten.

use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_manuscript::{Query, QueryKind, Weight};
use evencrumb_measure::{
    Beaten, EggBatch, EggGrams, EggPart, EggWay, Eggs, Hold, Number, USUAL_ERROR, say, whole_egg_batches,
};
use evencrumb_pantry::weigh;

use super::count;
use super::factor;
use super::food::{Recipe, Said, number};
use super::line::ScaledComponent;
use super::weight;
use crate::line::WeighedItem;
use crate::sheet::Sheet;

/// A batch that needs a part of an egg.
pub static PART_OF_AN_EGG: QueryKind = QueryKind { name: "part-of-an-egg", weight: Weight::Look };

/// How far whole eggs with a yolk or a white may be from the egg that is wanted, as a share, before they are not said.
pub const WITHOUT_A_SCALE: f64 = 0.10;

/// Eggs that don't come out whole.
#[derive(Clone, Debug, PartialEq)]
pub struct EggSplit {
    /// How many eggs it would be.
    pub eggs: f64,
    /// The nearest way without a scale.
    pub nearest: EggWay,
    /// The way with a scale or spoons.
    pub beaten: Beaten,
}

/// The eggs of a line, taken so many times.
pub(super) struct Split {
    count: f64,
    size: String,
    eggs: Eggs,
    one: EggGrams,
}

/// The eggs of a line whose first amount counts them; nothing for any other food.
pub(super) fn split(one: &WeighedItem, amount: &Amount, recipe: &Recipe<'_>) -> Option<Split> {
    let item = &one.item;
    let is_egg = item.food.is_some() && item.food == recipe.pantry.named("egg") && item.part.is_none();
    let plain = amount.bare && amount.each.is_none() && amount.terms.len() == 1;
    if !is_egg || !plain {
        return None;
    }
    let (low, high) = amount.quantity(recipe.kitchen.custom);
    let each = grams_of_one(one, amount, recipe)?;
    let count = f64::midpoint(low, high) * recipe.factor;
    let size = count::size(amount, item);
    let eggs = evencrumb_measure::eggs(count, each, recipe.kitchen.custom);
    Some(Split { count, size, eggs, one: each })
}

/// What one egg of the size meant weighs, and its parts.
fn grams_of_one(one: &WeighedItem, amount: &Amount, recipe: &Recipe<'_>) -> Option<EggGrams> {
    let counted = |name: &str| {
        let one_of_it = evencrumb_manuscript::line::Term { low: Number::ONE, high: Number::ONE, ..amount.terms[0] };
        let item = Item {
            food: recipe.pantry.named(name),
            amounts: vec![Amount { terms: vec![one_of_it], about: false, ..amount.clone() }],
            ..one.item.clone()
        };
        weigh::weigh(&item, None, recipe.pantry, recipe.kitchen).grams.map(|grams| grams.best())
    };
    let egg = recipe.pantry.food(one.item.food?);
    let (beaten, _) = weigh::grams_per_millilitre(egg, &["beaten".to_owned()], false)?;
    Some(EggGrams {
        edible: counted("egg")?,
        white: counted("egg white")?,
        yolk: counted("egg yolk")?,
        beaten_per_millilitre: beaten.best(),
    })
}

impl Split {
    fn is_whole(&self) -> bool {
        (self.count - self.count.round()).abs() < 1e-6 && self.count > 0.5
    }

    fn whole(&self, eggs: u32) -> String {
        format!("{eggs} {}{}", self.size, if eggs == 1 { "egg" } else { "eggs" })
    }

    /// The way that leads and the one that stands beside it. A yolk or a white is no small egg: the weighed way leads, and
    /// the other is said only where it is near. Whole eggs lead where a bake forgives the difference.
    pub(super) fn ways(&self, item: &Item) -> (Option<Said>, Option<Said>) {
        let nearest = self.nearest();
        let Some(beaten) = self.beaten(item) else { return (Some(nearest), None) };
        let whole = self.eggs.ways.first().is_some_and(|way| way.part == EggPart::None && way.whole > 0);
        if whole && nearest.error_share.abs() <= USUAL_ERROR {
            return (Some(nearest), Some(beaten));
        }
        let near = nearest.error_share.abs() <= WITHOUT_A_SCALE;
        (Some(beaten), near.then_some(nearest))
    }

    /// The nearest way without a scale.
    fn nearest(&self) -> Said {
        let Some(way) = self.eggs.ways.first().filter(|_| !self.is_whole()) else {
            return Said { words: self.whole(self.eggs.beaten.whole), ..Said::default() };
        };
        let part = match way.part {
            EggPart::None => "",
            EggPart::Yolk => "1 yolk",
            EggPart::White => "1 white",
        };
        let words = match (way.whole, part) {
            (0, part) => part.to_owned(),
            (whole, "") => self.whole(whole),
            (whole, part) => format!("{} plus {part}", self.whole(whole)),
        };
        Said { words, error_share: way.error_grams / self.eggs.grams, ..Said::default() }
    }

    /// The way with a scale or spoons; nothing when the eggs come out whole.
    fn beaten(&self, item: &Item) -> Option<Said> {
        if self.is_whole() {
            return None;
        }
        let beaten = &self.eggs.beaten;
        let whole = if beaten.whole > 0 { format!("{} plus ", self.whole(beaten.whole)) } else { String::new() };
        let another = if beaten.whole > 0 { "another" } else { "one" };
        let grams =
            |share: f64| weight::in_grams(say::printed_grams(share * beaten.grams / self.one.edible, say::Care::Usual));
        if item.preparation.contains("separated") {
            // White and yolk of a beaten egg can't be told apart again.
            let words =
                format!("{whole}{} white and {} yolk of {another}", grams(self.one.white), grams(self.one.yolk));
            return Some(Said { words, ..Said::default() });
        }
        // Spoons that are far off are no help beside grams.
        let spoons = match beaten.spoons.hold {
            Hold::Within => format!(" ({})", say::scoops(&beaten.spoons)),
            _ => String::new(),
        };
        let words = format!("{whole}{} of {another}, beaten{spoons}", grams(self.one.edible));
        Some(Said { words, error_share: beaten.error_grams / self.eggs.grams, ..Said::default() })
    }

    /// What a script wants of it.
    pub(super) fn split(&self) -> Option<EggSplit> {
        let nearest = *self.eggs.ways.first().filter(|_| !self.is_whole())?;
        Some(EggSplit { eggs: self.count, nearest, beaten: self.eggs.beaten.clone() })
    }
}

/// The batches nearest to this one in which every counted egg, white and yolk comes out whole; none when they do.
pub(super) fn whole_batches(sheet: &Sheet, recipe: &Recipe<'_>) -> Vec<EggBatch> {
    let names = ["egg", "egg white", "egg yolk"].map(|name| recipe.pantry.named(name));
    let lines = sheet.components.iter().flat_map(|component| &component.lines);
    let counts: Vec<Number> = lines
        .flat_map(|line| &line.weighed.foods)
        .filter(|one| one.item.food.is_some() && names.contains(&one.item.food))
        .filter_map(|one| count::exact(one.item.amounts.first()?))
        .collect();
    let whole = |count: &Number| {
        (count.value() * recipe.factor).fract().min(1.0 - (count.value() * recipe.factor).fract()) < 1e-6
    };
    let Some((first, rest)) = counts.split_first().filter(|_| !counts.iter().all(whole)) else { return Vec::new() };
    let step = rest.iter().try_fold(*first, |step, count| common_part(step, *count));
    step.map(|step| whole_egg_batches(step, recipe.factor)).unwrap_or_default()
}

/// The largest number of which both are whole multiples.
fn common_part(one: Number, other: Number) -> Option<Number> {
    let ((a, b), (c, d)) = (one.parts(), other.parts());
    let (mut high, mut low) = (a.checked_mul(d)?, c.checked_mul(b)?);
    while low > 0 {
        (high, low) = (low, high % low);
    }
    Number::fraction(high, b.checked_mul(d)?)
}

/// Asks about the first line whose eggs don't come out whole.
pub(super) fn query(components: &[ScaledComponent], batches: &[EggBatch]) -> Option<Query> {
    let lines = components.iter().flat_map(|component| &component.lines);
    let (line, split) = lines
        .flat_map(|line| line.foods.iter().map(move |food| (line, food)))
        .find_map(|(line, food)| Some((line, food.eggs.as_ref()?)))?;
    let message = format!(
        "This batch wants {} eggs, which is no whole number; the line says the nearest ways.",
        number(split.eggs)
    );
    let words: Vec<String> = batches.iter().map(|batch| factor::times_in_words(batch.factor.value())).collect();
    let mend = format!(
        "The nearest {} no part of an egg: {}.",
        if words.len() > 1 { "batches that need" } else { "batch that needs" },
        words.join(", or ")
    );
    Some(Query::new(&PART_OF_AN_EGG, line.place.clone(), message, mend))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_the_common_part_of_counts() {
        let part = |a: (u64, u64), b: (u64, u64)| {
            common_part(Number::fraction(a.0, a.1).expect("small"), Number::fraction(b.0, b.1).expect("small"))
                .map(|it| it.to_string())
        };
        assert_eq!(part((6, 1), (4, 1)).as_deref(), Some("2"));
        assert_eq!(part((3, 2), (2, 1)).as_deref(), Some("1/2"));
        assert_eq!(part((5, 1), (3, 1)).as_deref(), Some("1"));
    }
}
