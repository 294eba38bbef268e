//! The foods known in one kitchen, found by their names.

use std::sync::{LazyLock, OnceLock};

use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FoodId, FoodWords, Named};
use evencrumb_measure::Unit;

use crate::near::Near;
use crate::packed::Packed;
use crate::row::{Food, Yield};

/// Foods with an index of their names.
#[derive(Debug)]
pub struct Pantry {
    ours: Packed<'static>,
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

static OURS: LazyLock<Pantry> = LazyLock::new(|| {
    let bytes = include_bytes!(concat!(env!("OUT_DIR"), "/foods.bin"));
    let ours = postcard::from_bytes(bytes).expect("the build wrote it, and every test that asks for a food opens it");
    Pantry { ours, near: OnceLock::new() }
});

impl Pantry {
    /// The foods that come with the program.
    pub fn ours() -> &'static Pantry {
        &OURS
    }

    /// The food with this number, which must come from this pantry.
    pub fn food(&self, id: FoodId) -> &Food {
        &self.ours.foods[id.0 as usize]
    }

    /// The food that a name means, however it is written.
    pub fn named(&self, name: &str) -> Option<FoodId> {
        self.keyed(&name_key(name))
    }

    /// What a whole fruit (or another thing) gives of this food, each with the thing that gives it.
    pub fn given_by(&self, food: FoodId) -> impl Iterator<Item = (&Food, &Yield)> {
        let given_by = &self.ours.given_by;
        let fruits = given_by.binary_search_by_key(&food.0, |(part, _)| *part).ok().map(|at| &given_by[at].1);
        fruits.into_iter().flatten().filter_map(move |at| {
            let fruit = &self.ours.foods[*at as usize];
            let given = fruit.juice.iter().chain(&fruit.zest).find(|given| self.named(&given.food) == Some(food))?;
            Some((fruit, given))
        })
    }

    /// The foods whose names are nearest to the words, nearest first; only such as a reader could have meant.
    pub fn nearest(&self, words: &str, most: usize) -> Vec<Guess<'_>> {
        let foods = &self.ours.foods;
        let near = self.near.get_or_init(|| Near::of(foods));
        near.to(words, most).into_iter().map(|(at, nearness)| Guess { food: &foods[at], nearness }).collect()
    }

    /// The food of a name that is folded already.
    fn keyed(&self, key: &str) -> Option<FoodId> {
        let names = &self.ours.names;
        names.binary_search_by_key(&key, |(name, _)| *name).ok().map(|at| FoodId(names[at].1))
    }
}

impl FoodWords for Pantry {
    fn food(&self, name: &str) -> Option<Named> {
        let id = self.keyed(name)?;
        let food = self.food(id);
        let counted = food.piece.iter().any(|piece| piece.unit == Unit::Piece);
        Some(Named { food: id, strict: food.strict, counted })
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
