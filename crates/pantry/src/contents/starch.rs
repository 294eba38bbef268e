//! Starch where nobody measured it: none by nature, or what fibre and sugars leave of the carbohydrate.
//!
//! SR28 gives starch for few foods. Carbohydrate is found by difference, so what is left of it after fibre and sugars is
//! starch and some other things (acids, pectins, gums, small chains). How much of that rest is starch was counted over
//! the foods of SR28 that have all four values; the shares below are the middle and the 5th and 95th of a hundred.

use evencrumb_measure::Range;

use super::{Held, Known};
use crate::nutrient::Nutrient;
use crate::row::{Food, Role};

/// Grams in 100 g that no recipe would notice.
const NEXT_TO_NONE: f64 = 0.5;
/// More of a rest than this in cream, butter or sugar is a thickener's or another food's, and nature says nothing of it.
const MOST_BY_NATURE: f64 = 3.5;
/// Grams of the rest below which a vegetable is no starchy one.
const STARCHY: f64 = 5.0;
/// Baking powders whose filler is starch (SR28 18369, 18370); in the low-sodium kind (18371) much of the rest is an acid.
const FILLED_POWDERS: [u32; 2] = [18369, 18370];

/// Which share of the rest is starch: best, low, high; and in what.
type Share = (f64, f64, f64, &'static str);

/// 212 foods of SR28's baked products, cereal grains, pasta and breakfast cereals whose rest is above 5 g.
const GRAIN: Share = (0.96, 0.76, 1.05, "grain and what is baked of it, 212 foods of SR28");
/// 47 vegetables whose rest is above 5 g.
const ROOT: Share = (0.90, 0.40, 1.04, "starchy vegetables, 47 foods of SR28");
/// 28 legumes whose rest is above 5 g.
const PULSE: Share = (0.89, 0.43, 1.06, "pulses, 28 foods of SR28");
/// 36 nuts and seeds: most of their rest is no starch, but that of a cashew is.
const NUT: Share = (0.21, 0.01, 1.12, "nuts and seeds, 36 foods of SR28");
/// 47 fruits: ripe ones hold next to none, bananas some.
const FRUIT: Share = (0.0, 0.0, 0.82, "fruit, 47 foods of SR28");
/// A washed starch is starch and water. Common practice, no source.
const PURE: Share = (1.0, 0.93, 1.03, "washed starch, common practice without a source");

/// The starch of 100 g, from the other values; `None` where no rule reaches.
pub(super) fn reckoned(food: &Food, group: Option<&str>, given: impl Fn(Nutrient) -> Option<f64>) -> Option<Held> {
    let none = |why: &'static str| Some(Held { range: Range::exact(0.0), known: Known::ByNature(why) });
    let is = |roles: &[Role]| food.roles.iter().any(|role| roles.contains(role));
    if is(&[Role::Yeast]) {
        return none("what a yeast stores is glycogen");
    }
    if is(&[Role::Acid, Role::Salt]) {
        return none("acids and salts hold none");
    }
    let (fibre, sugars) = (given(Nutrient::Fibre), given(Nutrient::Sugars));
    let rest = given(Nutrient::Carbohydrate)? - fibre.unwrap_or(0.0) - sugars.unwrap_or(0.0);
    if rest <= NEXT_TO_NONE {
        return none("fibre and sugars leave no carbohydrate for it");
    }
    let flesh = group
        .is_some_and(|group| ["Beef", "Pork", "Lamb", "Poultry", "Finfish"].iter().any(|it| group.starts_with(it)));
    if rest <= MOST_BY_NATURE && (flesh || is(&[Role::Dairy, Role::Egg, Role::Fat, Role::Sugar, Role::Alcohol])) {
        return none("milk, eggs, meat, fat, sugar and spirits hold none");
    }
    // Without both, the rest is not known to be a rest.
    fibre.and(sugars)?;
    let (best, low, high, of) = share(food, group, rest)?;
    let range = Range::new(low * rest, best * rest, high * rest)?;
    Some(Held { range, known: Known::Derived { rest, of } })
}

fn share(food: &Food, group: Option<&str>, rest: f64) -> Option<Share> {
    if food.roles.contains(&Role::Leavener) {
        return food.table.filter(|row| FILLED_POWDERS.contains(row)).map(|_| GRAIN);
    }
    if food.roles.contains(&Role::Starch) {
        return Some(PURE);
    }
    match group {
        Some("Cereal Grains and Pasta" | "Baked Products" | "Breakfast Cereals") => Some(GRAIN),
        Some("Legumes and Legume Products") => Some(PULSE),
        Some("Nut and Seed Products") => Some(NUT),
        Some("Fruits and Fruit Juices") => Some(FRUIT),
        Some("Vegetables and Vegetable Products") => (rest > STARCHY).then_some(ROOT),
        Some(_) => None,
        None => match food.roles.first()? {
            Role::Flour => Some(GRAIN),
            Role::NutFlour | Role::Nut | Role::Seed => Some(NUT),
            _ => None,
        },
    }
}
