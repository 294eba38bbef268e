//! The text, and what can be read in it.
//!
//! Reading never fails: every text gives a value and its queries. This crate knows how cooks write (numbers in words,
//! brackets, alternatives, headings); which food a word means is asked of a [`FoodWords`], which the pantry answers.

pub mod figures;
mod food_words;
pub mod layout;
pub mod line;
mod method;
mod prose;
mod query;
pub mod sound;
mod text;
pub mod token;
pub mod word;
mod words;

pub use food_words::{FoodId, FoodWords, Named};
pub use layout::{Component, Fact, FactKind, LineRead, Manuscript, Node, NodeKind, Yield, read};
pub use method::{Measured, Share, Step, Use};
pub use query::{Query, QueryKind, Weight};
pub use text::{LARGEST_TEXT, Text, TextRefused, read_text};
