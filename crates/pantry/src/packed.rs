//! The form in which our foods lie in the program: written by `build.rs`, read once at the start.

use serde::{Deserialize, Serialize};

use crate::row::Food;

/// Our foods with what is looked up in them. A food's number is its place among them.
#[derive(Debug, Serialize, Deserialize)]
pub struct Packed<'p> {
    /// The foods, in the order of their files.
    pub foods: Vec<Food>,
    /// Every name as it is looked up, sorted, with the number of its food.
    #[serde(borrow)]
    pub names: Vec<(&'p str, u32)>,
    /// For a food that is a part of a fruit (lemon juice), sorted: the fruits that give it.
    pub given_by: Vec<(u32, Vec<u32>)>,
}
