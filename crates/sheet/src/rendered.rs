//! Fat that is fried out of meat and poured off: "Fry the bacon until crisp and pour off the fat."
//!
//! What goes is fat and nothing else, so that a line is counted in two: what is no fat, all of it, and as much of its fat as
//! stays.

use evencrumb_manuscript::Manuscript;
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::contents;
use evencrumb_pantry::table::Table;
use evencrumb_pantry::{Food, Nutrient, Pantry};

use crate::fit::has_any;
use crate::line::WeighedLine;

/// The share of its fat that meat leaves in the pan, where that is poured off: ground beef about 4 tenths, bacon that is
/// fried crisp about 7. Common practice, no source.
const POURED_OFF: (f64, f64, f64) = (0.3, 0.55, 0.8);
/// The same where some of it is told to stay: "pour off all but 2 tablespoons of the fat". Common practice, no source.
const SOME_POURED_OFF: (f64, f64, f64) = (0.1, 0.35, 0.7);

const FATS: &[&str] = &["fat", "grease", "dripping", "lard", "schmaltz"];
const POURS: &[&str] = &[
    "pour off",
    "pour away",
    "pour out",
    "drain off",
    "drain away",
    "tip off",
    "tip away",
    "tip out",
    "spoon off",
    "discard",
    "drain",
    "throw away",
];
const SOME: &[&str] =
    &["all but", "most", "some", "excess", "any", "half", "surplus", "extra", "leaving", "keep", "keeping"];
/// What is poured into a bowl for later is no waste.
const KEPT: &[&str] = &["reserve", "reserving", "save", "saving", "set aside", "use it", "use the fat"];
const FRIES: &[&str] =
    &["fry", "frying", "cook", "brown", "render", "roast", "crisp", "sear", "sauté", "saute", "sizzle", "grill"];

/// How many sentences before the pouring the frying may stand.
const BEFORE: usize = 2;

/// Pourings that are looked at; a hostile text must not be slow.
const MOST_POURED: usize = 20;

/// Marks the lines whose fat is poured off.
pub(crate) fn mark(text: &str, manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry) {
    let sentences: Vec<_> = manuscript.steps.iter().flat_map(|step| &step.sentences).collect();
    let words = |nth: usize| text.get(sentences[nth].clone()).unwrap_or_default().to_lowercase();
    let poured = (0..sentences.len()).filter_map(|nth| Some((nth, poured_off(&words(nth))?)));
    for (nth, (at, share)) in poured.take(MOST_POURED) {
        let fries = (nth.saturating_sub(BEFORE)..=nth).filter(|nth| has_any(&words(*nth), FRIES));
        let Some(fries) = fries.min() else { continue };
        let between = sentences[fries].start..sentences[nth].start + at;
        for taken in manuscript.steps.iter().flat_map(|step| &step.uses) {
            if !between.contains(&taken.place.start) {
                continue;
            }
            let line = lines.get_mut(taken.component).and_then(|lines| lines.get_mut(taken.line));
            let Some(line) = line.filter(|line| line.read.purpose.is_none()) else { continue };
            let foods = line.foods.iter().filter_map(|one| one.item.food);
            if foods.map(|food| pantry.food(food)).any(renders) {
                line.fat_left = Range::new(1.0 - share.2, 1.0 - share.1, 1.0 - share.0)
                    .map(|left| Estimate::of(left, Influence::named("how much fat is poured off")));
            }
        }
    }
}

/// Where a sentence in small letters pours off fat, and which share of it.
fn poured_off(words: &str) -> Option<(usize, (f64, f64, f64))> {
    if !has_any(words, FATS) || has_any(words, KEPT) {
        return None;
    }
    POURS.iter().find_map(|pours| {
        let at = words.find(pours).filter(|_| has_any(words, &[pours]))?;
        let behind = &words[at..];
        let object = &behind[..behind.find([',', ';', '.', ':', '(']).unwrap_or(behind.len())];
        let object = object.split(" and ").next().unwrap_or(object);
        let share = if has_any(behind, SOME) { SOME_POURED_OFF } else { POURED_OFF };
        has_any(object, FATS).then_some((at, share))
    })
}

/// Groups of the table whose foods give off fat when they are fried, or are fat to fry in.
const GROUPS: &[&str] = &[
    "Pork Products",
    "Beef Products",
    "Poultry Products",
    "Sausages and Luncheon Meats",
    "Lamb, Veal, and Game Products",
    "Fats and Oils",
];
/// From which share of fat on a food of the dairy is a fat to fry in, as butter.
const BUTTER: f64 = 0.7;

fn renders(food: &Food) -> bool {
    let Some(row) = food.table.and_then(|number| Table::embedded().row(number)) else { return false };
    let butter = || row.value(Nutrient::Fat).is_some_and(|fat| fat >= 100.0 * BUTTER);
    GROUPS.contains(&row.group()) || row.group() == "Dairy and Egg Products" && butter()
}

/// Grams of an item in two, what is no fat and the fat that stays, where some of the fat is poured off; and the share of fat
/// in a gram before.
pub(crate) fn in_two(
    line: &WeighedLine,
    food: &Food,
    grams: &Estimate,
    pantry: &Pantry,
) -> Option<([Estimate; 2], f64)> {
    let left = line.fat_left.as_ref()?;
    let fat = contents::holds(food, Nutrient::Fat, pantry)?.range.best() / 100.0;
    (fat > 0.0 && fat <= 1.0).then(|| ([grams.times(1.0 - fat), grams.times(fat).product(left)], fat))
}

/// Kilocalories of a gram of fat.
const ENERGY: f64 = 9.0;

/// What a gram of the part that is no fat holds, and a gram of the fat, by what a gram of the whole holds.
pub(crate) fn shares_in_two(shares: &[Range], fat: f64) -> [Vec<Range>; 2] {
    let of = |is_fat: bool| {
        let one = |(share, nutrient): (&Range, &Nutrient)| match (is_fat, is_of_fat(*nutrient)) {
            _ if *nutrient == Nutrient::Energy && is_fat => Range::exact(ENERGY),
            _ if *nutrient == Nutrient::Energy => without(*share, ENERGY * fat).times(1.0 / (1.0 - fat).max(1e-6)),
            (true, true) => share.times(1.0 / fat),
            (false, false) => share.times(1.0 / (1.0 - fat).max(1e-6)),
            _ => Range::exact(0.0),
        };
        shares.iter().zip(Nutrient::ALL).map(one).collect()
    };
    [of(false), of(true)]
}

fn without(range: Range, off: f64) -> Range {
    let less = |value: f64| (value - off).max(0.0);
    Range::new(less(range.low()), less(range.best()), less(range.high())).unwrap_or(Range::exact(0.0))
}

/// Whether a nutrient is fat or a kind of it. Cholesterol and the vitamins in it are left where they are.
fn is_of_fat(nutrient: Nutrient) -> bool {
    matches!(
        nutrient,
        Nutrient::Fat
            | Nutrient::SaturatedFat
            | Nutrient::TransFat
            | Nutrient::MonounsaturatedFat
            | Nutrient::PolyunsaturatedFat
    ) || nutrient as usize >= Nutrient::Acid4To0 as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use evencrumb_pantry::weigh::Kitchen;

    fn total(bacon: &str, method: &str) -> crate::total::Total {
        let text = format!(
            "Rolls\n\n{bacon}\n400 g flour\n200 g milk\n\nMethod\n1. {method}\n2. Mix the flour, milk and bacon, and bake 20 minutes at 200C.\n"
        );
        let pantry = Pantry::ours();
        crate::sheet(&text, &evencrumb_manuscript::read(&text, pantry), pantry, Kitchen::default()).total
    }

    /// What is poured off is fat: energy goes with it by 9 kcal a gram, and protein and salt stay.
    #[test]
    fn ok_fat_that_is_poured_off_is_not_eaten() {
        let of = |total: &crate::total::Total, nutrient| total.nutrient(nutrient).amount;
        for bacon in ["200 g bacon", "200 g streaky bacon", "200 g ground pork"] {
            let bacon_sentence = if bacon.contains("pork") { "pork" } else { "bacon" };
            let raw = total(bacon, &format!("Fry the {bacon_sentence} until crisp."));
            for method in [
                "Fry the bacon until crisp, pour off the fat, and chop.",
                "Fry the bacon until crisp and pour off the fat.",
                "Fry the bacon until crisp. Drain off the grease.",
                "Cook the bacon until the fat runs. Lift it out and discard the fat.",
            ] {
                let off = total(bacon, &method.replace("bacon", bacon_sentence));
                let gone = of(&raw, Nutrient::Fat).best() - of(&off, Nutrient::Fat).best();
                assert!(gone > 15.0, "{bacon}: {method} {gone}");
                assert!((raw.grams.best() - off.grams.best() - gone).abs() < 1e-6, "{method}");
                let energy = of(&raw, Nutrient::Energy).best() - of(&off, Nutrient::Energy).best();
                assert!((energy - 9.0 * gone).abs() < 1e-6, "{method} {energy}");
                for stays in [Nutrient::Protein, Nutrient::Sodium, Nutrient::Water] {
                    assert!((of(&raw, stays).best() - of(&off, stays).best()).abs() < 1e-6, "{method} {stays:?}");
                }
                let width = |total: &crate::total::Total| {
                    let range = of(total, Nutrient::Fat).range();
                    range.high() - range.low()
                };
                assert!(width(&off) > 1.5 * width(&raw), "nobody knows how much: {method}");
            }
        }
    }

    #[test]
    fn ok_fat_that_is_kept_or_of_something_else_stays() {
        let raw = total("200 g bacon", "Fry the bacon until crisp.").grams.best();
        for method in [
            "Fry the bacon until crisp. Pour off the fat and reserve it for the dough.",
            "Fry the bacon in its fat until crisp.",
            "Trim the bacon and discard the fat.",
            "Fry the bacon until crisp. Pour off the water.",
        ] {
            assert!((total("200 g bacon", method).grams.best() - raw).abs() < 1e-6, "{method}");
        }
        let some =
            total("200 g bacon", "Fry the bacon until crisp. Pour off all but 1 tablespoon of the fat.").grams.best();
        let all = total("200 g bacon", "Fry the bacon until crisp. Pour off the fat.").grams.best();
        assert!(all < some && some < raw, "{all} {some} {raw}");
    }
}
