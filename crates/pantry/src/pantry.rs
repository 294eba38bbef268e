//! The foods known in one kitchen, found by their names.

use std::sync::{LazyLock, OnceLock};

use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FoodId, FoodWords, Named};
use evencrumb_measure::Unit;
use rustc_hash::FxHashMap;

use crate::near::Near;
use crate::row::{self, Fault, Food, Whose, Yield};

/// Foods with an index of their names.
#[derive(Clone, Debug, Default)]
pub struct Pantry {
    foods: Vec<Food>,
    names: FxHashMap<String, u32>,
    /// For a food that is a part of a fruit (lemon juice): the fruits that give it.
    given_by: FxHashMap<u32, Vec<u32>>,
    faults: Vec<Fault>,
    /// Made when the first name is not known; most texts never need it.
    near: OnceLock<Near>,
}

/// A food whose name is near to words that name none. It is said and never used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess<'p> {
    /// The food.
    pub food: &'p Food,
    /// How near, from 0 to 1.
    pub nearness: f64,
}

/// Our own rows, in the order of their files.
pub const FILES: &[(&str, &str)] = &[
    ("flours.toml", include_str!("../data/foods/flours.toml")),
    ("gluten_free.toml", include_str!("../data/foods/gluten_free.toml")),
    ("starches_gums.toml", include_str!("../data/foods/starches_gums.toml")),
    ("leaveners_setting.toml", include_str!("../data/foods/leaveners_setting.toml")),
    ("grains.toml", include_str!("../data/foods/grains.toml")),
    ("sugars.toml", include_str!("../data/foods/sugars.toml")),
    ("chocolate.toml", include_str!("../data/foods/chocolate.toml")),
    ("flavours.toml", include_str!("../data/foods/flavours.toml")),
    ("drinks.toml", include_str!("../data/foods/drinks.toml")),
    ("decorations.toml", include_str!("../data/foods/decorations.toml")),
    ("dairy.toml", include_str!("../data/foods/dairy.toml")),
    ("plant_dairy.toml", include_str!("../data/foods/plant_dairy.toml")),
    ("fats.toml", include_str!("../data/foods/fats.toml")),
    ("eggs.toml", include_str!("../data/foods/eggs.toml")),
    ("nuts_seeds.toml", include_str!("../data/foods/nuts_seeds.toml")),
    ("fruit.toml", include_str!("../data/foods/fruit.toml")),
    ("dried_fruit.toml", include_str!("../data/foods/dried_fruit.toml")),
    ("preserves_juice.toml", include_str!("../data/foods/preserves_juice.toml")),
    ("vegetables.toml", include_str!("../data/foods/vegetables.toml")),
    ("savoury.toml", include_str!("../data/foods/savoury.toml")),
];

/// Where [`FILES`] parts into two of about the same size.
const HALF_THE_BYTES: usize = 9;

/// Rows of a file, each food with the keys of its names.
type Keyed = (Vec<(Food, Vec<String>)>, Vec<Fault>);

fn keyed(file: &str, text: &str) -> Keyed {
    let (foods, faults) = row::read(file, text, Whose::Ours);
    let keys = |food: &Food| food.names().map(name_key).collect();
    (foods.into_iter().map(|food| (keys(&food), food)).map(|(keys, food)| (food, keys)).collect(), faults)
}

static OURS: LazyLock<Pantry> = LazyLock::new(|| {
    let mut pantry = Pantry::default();
    // Every command waits for these 800 kB, so both cores read them; files are joined in their order, whoever was first.
    let (head, tail) = FILES.split_at(HALF_THE_BYTES);
    let read = |files: &'static [(&str, &str)]| files.iter().map(|(file, text)| keyed(file, text)).collect::<Vec<_>>();
    let (first, second) = std::thread::scope(|scope| {
        let other = scope.spawn(|| read(tail));
        (read(head), other.join().unwrap_or_else(|_| read(tail)))
    });
    for (foods, faults) in first.into_iter().chain(second) {
        pantry.faults.extend(faults);
        pantry.add(foods);
    }
    pantry.link();
    pantry
});

impl Pantry {
    /// The foods that come with the program.
    pub fn ours() -> &'static Pantry {
        &OURS
    }

    /// The foods at hand, in a fixed order: [`FoodId`]s count along it.
    pub fn foods(&self) -> &[Food] {
        &self.foods
    }

    /// What is wrong in the rows.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The food with this number, which must come from this pantry.
    pub fn food(&self, id: FoodId) -> &Food {
        &self.foods[id.0 as usize]
    }

    /// The food that a name means, however it is written.
    pub fn named(&self, name: &str) -> Option<FoodId> {
        self.names.get(&name_key(name)).map(|at| FoodId(*at))
    }

    /// What a whole fruit (or another thing) gives of this food, each with the thing that gives it.
    pub fn given_by(&self, food: FoodId) -> impl Iterator<Item = (&Food, &Yield)> {
        let name = &self.food(food).name;
        self.given_by.get(&food.0).into_iter().flatten().filter_map(move |at| {
            let fruit = &self.foods[*at as usize];
            let given = fruit
                .juice
                .iter()
                .chain(&fruit.zest)
                .find(|given| self.named(&given.food).is_some_and(|it| self.food(it).name == *name))?;
            Some((fruit, given))
        })
    }

    /// The foods whose names are nearest to the words, nearest first; only such as a reader could have meant.
    pub fn nearest(&self, words: &str, most: usize) -> Vec<Guess<'_>> {
        let near = self.near.get_or_init(|| Near::of(&self.foods));
        near.to(words, most).into_iter().map(|(at, nearness)| Guess { food: &self.foods[at], nearness }).collect()
    }

    fn add(&mut self, foods: Vec<(Food, Vec<String>)>) {
        for (food, keys) in foods {
            let Ok(at) = u32::try_from(self.foods.len()) else { return };
            for key in keys {
                self.names.entry(key).or_insert(at);
            }
            self.foods.push(food);
        }
    }

    fn link(&mut self) {
        for (at, fruit) in (0u32..).zip(&self.foods) {
            for given in fruit.juice.iter().chain(&fruit.zest) {
                if let Some(part) = self.names.get(&name_key(&given.food)) {
                    self.given_by.entry(*part).or_default().push(at);
                }
            }
        }
    }
}

impl FoodWords for Pantry {
    fn food(&self, name: &str) -> Option<Named> {
        let at = *self.names.get(name)?;
        let food = &self.foods[at as usize];
        let counted = food.piece.iter().any(|piece| piece.unit == Unit::Piece);
        Some(Named { food: FoodId(at), strict: food.strict, counted })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_food_by_any_of_its_names() {
        let pantry = Pantry::ours();
        let name = |words| pantry.named(words).map(|id| pantry.food(id).name.as_str());
        assert_eq!(name("Plain Flour"), name("all-purpose flour"));
        assert_eq!(name("eggs"), Some("egg"));
        assert!(name("bicarbonate of soda").is_some());
        assert_eq!(name("moon dust"), None);
    }

    #[test]
    fn ok_the_nearest_is_named() {
        let pantry = Pantry::ours();
        let near: Vec<&str> =
            pantry.nearest("all pupose flour", 1).iter().map(|guess| guess.food.name.as_str()).collect();
        assert_eq!(near, ["all-purpose flour"]);
    }
}
