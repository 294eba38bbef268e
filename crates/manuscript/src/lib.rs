//! The text, and what can be read in it.
//!
//! Reading never fails: every text gives a value and its queries. This crate knows how cooks write (numbers in words,
//! brackets, alternatives, headings); which food a word means is asked of a [`FoodWords`], which the pantry answers.

mod food_words;
pub mod line;
mod query;
pub mod token;
pub mod word;
mod words;

pub use food_words::{FoodId, FoodWords, Named};
pub use query::{Query, QueryKind, Weight};
