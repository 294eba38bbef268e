//! The foods known here: what they are made of, what a cup or a piece of each weighs, and what they are called.
//!
//! Know these three: [`Pantry`] (foods found by name), [`Food`] (one row), [`weigh`] (grams of what a line asks for).
//! This crate knows nothing of recipes and totals.

pub mod check;
pub mod contents;
pub mod fold;
mod near;
mod nutrient;
pub mod own;
mod packed;
mod pantry;
pub mod row;
pub mod table;
pub mod weigh;

pub use nutrient::Nutrient;
pub use pantry::{Guess, Meaning, Pantry};
pub use row::{Fault, Food};
pub use table::{Factors, Portion, Row, Table};
