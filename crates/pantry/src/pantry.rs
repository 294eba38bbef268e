//! The foods known in one kitchen, found by their names.

use std::collections::BTreeMap;
use std::sync::{LazyLock, OnceLock};

use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FoodId, FoodWords, Named};
use evencrumb_measure::{Custom, Unit};
use rustc_hash::FxHashMap;

use crate::near::Near;
use crate::packed::Packed;
use crate::row::{Food, Yield};

/// Foods found by their names: ours, which every kitchen shares, and what one author adds to them.
#[derive(Clone, Debug)]
pub struct Pantry {
    ours: &'static Shelf,
    /// The author's foods; their numbers go on where ours end.
    own: Vec<Food>,
    /// What her words mean, folded. They come before our names.
    own_names: BTreeMap<String, FoodId>,
    /// For a food of ours that she knows better: hers.
    instead: BTreeMap<FoodId, FoodId>,
    /// The meanings she gave to words.
    meanings: Vec<Meaning>,
}

/// Our foods. A food's number is its place among them.
#[derive(Debug)]
struct Shelf {
    packed: Packed<'static>,
    /// Their numbers by their names; a reader asks at nearly every word.
    names: FxHashMap<&'static str, u32>,
    /// Made when the first name is not known; most texts never need it.
    near: OnceLock<Near>,
}

/// A word to which the author gave a meaning.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meaning {
    /// The word as she wrote it.
    pub word: String,
    /// The food it means in her kitchen.
    pub food: FoodId,
    /// What it would mean without her, when that is another food.
    pub otherwise: Option<FoodId>,
}

/// A food whose name is near to words that name none. It is said and never used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess<'p> {
    /// The food.
    pub food: &'p Food,
    /// How near, from 0 to 1.
    pub nearness: f64,
}

static SHELF: LazyLock<Shelf> = LazyLock::new(|| {
    let bytes = include_bytes!(concat!(env!("OUT_DIR"), "/foods.bin"));
    let packed: Packed<'static> =
        postcard::from_bytes(bytes).expect("the build wrote it, and every test that asks for a food opens it");
    let names = packed.names.iter().copied().collect();
    Shelf { packed, names, near: OnceLock::new() }
});

static OURS: LazyLock<Pantry> = LazyLock::new(|| Pantry {
    ours: &SHELF,
    own: Vec::new(),
    own_names: BTreeMap::new(),
    instead: BTreeMap::new(),
    meanings: Vec::new(),
});

impl Pantry {
    /// The foods that come with the program. A clone of it costs nothing and can be added to.
    pub fn ours() -> &'static Pantry {
        &OURS
    }

    /// Every food of this kitchen, each once: ours in the order of their files, then the author's.
    pub fn foods(&self) -> impl Iterator<Item = &Food> {
        let ours = (0u32..).zip(&self.ours.packed.foods).map(|(number, _)| self.food(self.known_here(FoodId(number))));
        let replaced = |number: &u32| self.instead.values().any(|hers| hers.0 == *number);
        let first_own = u32::try_from(self.ours.packed.foods.len()).unwrap_or(u32::MAX);
        let own = (first_own..).zip(&self.own).filter(move |(number, _)| !replaced(number)).map(|(_, food)| food);
        ours.chain(own)
    }

    /// The food with this number, which must come from this pantry.
    pub fn food(&self, id: FoodId) -> &Food {
        let (at, ours) = (id.0 as usize, &self.ours.packed.foods);
        if at < ours.len() { &ours[at] } else { &self.own[at - ours.len()] }
    }

    /// The food that a name means, however it is written.
    pub fn named(&self, name: &str) -> Option<FoodId> {
        self.keyed(&name_key(name))
    }

    /// What a whole fruit (or another thing) gives of this food, each with the thing that gives it.
    pub fn given_by(&self, food: FoodId) -> impl Iterator<Item = (&Food, &Yield)> {
        let given_by = &self.ours.packed.given_by;
        let part = self.instead.iter().find(|(_, hers)| **hers == food).map_or(food, |(ours, _)| *ours);
        let fruits = given_by.binary_search_by_key(&part.0, |(part, _)| *part).ok().map(|at| &given_by[at].1);
        fruits.into_iter().flatten().filter_map(move |at| {
            let fruit = self.food(self.known_here(FoodId(*at)));
            let given = fruit.juice.iter().chain(&fruit.zest).find(|given| self.named(&given.food) == Some(food))?;
            Some((fruit, given))
        })
    }

    /// The foods whose names are nearest to the words, nearest first; only such as a reader could have meant.
    pub fn nearest(&self, words: &str, most: usize) -> Vec<Guess<'_>> {
        let ours = self.ours.near.get_or_init(|| Near::of(self.ours.packed.names.iter().copied()));
        let own = Near::of(self.own_names.iter().map(|(name, food)| (name.as_str(), food.0)));
        let mut nearest: Vec<(FoodId, f64)> = Vec::new();
        for (number, nearness) in own.to(words, most).into_iter().chain(ours.to(words, most)) {
            let food = self.known_here(FoodId(number));
            match nearest.iter_mut().find(|(known, _)| *known == food) {
                Some((_, so_far)) => *so_far = so_far.max(nearness),
                None => nearest.push((food, nearness)),
            }
        }
        nearest.sort_by(|one, other| other.1.total_cmp(&one.1));
        nearest.truncate(most);
        nearest.into_iter().map(|(id, nearness)| Guess { food: self.food(id), nearness }).collect()
    }

    /// The words to which the author gave this meaning.
    pub fn meanings(&self, food: FoodId) -> impl Iterator<Item = &Meaning> {
        self.meanings.iter().filter(move |meaning| self.known_here(meaning.food) == food)
    }

    /// Puts a food of the author's own beside ours. From now on its names mean it, whatever they meant before.
    pub fn put(&mut self, food: Food) -> FoodId {
        let id = self.number(food);
        for name in self.food(id).names().map(name_key).collect::<Vec<_>>() {
            self.own_names.insert(name, id);
        }
        id
    }

    /// Puts what the author knows of a food in its place; every name of it stays.
    pub fn put_instead(&mut self, of: FoodId, food: Food) {
        match (self.known_here(of).0 as usize).checked_sub(self.ours.packed.foods.len()) {
            Some(own) => self.own[own] = food,
            None => {
                let id = self.number(food);
                self.instead.insert(of, id);
            }
        }
    }

    /// Our foods as shops of a country sell them: by the names of a kitchen with the measures of the UK or Australia some
    /// hold something else than at home.
    #[must_use]
    pub fn of_kitchen(custom: Custom) -> Pantry {
        let mut pantry = Pantry::ours().clone();
        if !matches!(custom, Custom::Uk | Custom::Australian) {
            return pantry;
        }
        for food in Pantry::ours().foods() {
            let other = food.abroad.as_ref().and_then(|other| pantry.named(other));
            let Some((id, other)) = pantry.named(&food.name).zip(other) else { continue };
            let Food { table, stand_in, composition, parts, parts_from, .. } = pantry.food(other).clone();
            pantry.put_instead(id, Food { table, stand_in, composition, parts, parts_from, ..food.clone() });
        }
        pantry
    }

    /// Gives a word a meaning, whatever it meant before.
    pub fn mean(&mut self, word: &str, food: FoodId) {
        let otherwise = self.named(word).filter(|meant| *meant != food);
        self.own_names.insert(name_key(word), food);
        self.meanings.push(Meaning { word: word.to_owned(), food, otherwise });
    }

    fn number(&mut self, food: Food) -> FoodId {
        let at = self.ours.packed.foods.len() + self.own.len();
        self.own.push(food);
        FoodId(u32::try_from(at).expect("nobody keeps four thousand million foods"))
    }

    /// The food as this kitchen knows it.
    pub(crate) fn known_here(&self, id: FoodId) -> FoodId {
        *self.instead.get(&id).unwrap_or(&id)
    }

    /// The food of a name that is folded already.
    fn keyed(&self, key: &str) -> Option<FoodId> {
        let ours = || self.ours.names.get(key).map(|number| FoodId(*number));
        self.own_names.get(key).copied().or_else(ours).map(|id| self.known_here(id))
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

    /// SR28 row 20082 gives self-rising flour with salt 1193 mg of sodium; the UK kind holds some 360 (from memory).
    #[test]
    fn ok_self_raising_flour_of_a_country_without_salt_in_it() {
        use crate::{Nutrient, contents};
        let sodium = |pantry: &Pantry, name: &str| {
            let food = pantry.food(pantry.named(name).expect("known"));
            contents::holds(food, Nutrient::Sodium, pantry).expect("known").range.best()
        };
        for name in ["self-raising flour", "wholemeal self-raising flour"] {
            assert!(sodium(Pantry::ours(), name) > 600.0, "{name}: {}", sodium(Pantry::ours(), name));
            for custom in [Custom::Uk, Custom::Australian] {
                let there = Pantry::of_kitchen(custom);
                assert!((300.0..420.0).contains(&sodium(&there, name)), "{name}: {}", sodium(&there, name));
            }
        }
        let hers = crate::own::read(
            "foods.toml",
            "[[food]]\nname = \"mill flour\"\nlike = \"self-raising flour\"\n",
            crate::weigh::Kitchen { custom: Custom::Uk, ..Default::default() },
        );
        assert!(sodium(&hers.pantry, "mill flour") < 420.0);
        assert!((sodium(&Pantry::of_kitchen(Custom::Metric), "self-raising flour") - 1193.0).abs() < 100.0);
    }

    #[test]
    fn ok_the_nearest_is_named() {
        let pantry = Pantry::ours();
        let near: Vec<&str> =
            pantry.nearest("all pupose flour", 1).iter().map(|guess| guess.food.name.as_str()).collect();
        assert_eq!(near, ["all-purpose flour"]);
    }
}
