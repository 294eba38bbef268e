//! What the faces ask: a line weighed, a food told with all its sources, and the same answers as JSON.
//!
//! ```
//! use evencrumb_desk::line;
//! use evencrumb_pantry::{Pantry, weigh::Kitchen};
//!
//! let line = line::weigh("2 large eggs, beaten", Pantry::ours(), Kitchen::default());
//! assert_eq!(line.foods[0].weighed.grams.as_ref().map(|grams| grams.best()), Some(100.0));
//! assert!(!line.must_be_mended());
//! ```
//!
//! Know these three: [`line::WeighedLine`] (a line with the weights of its foods), [`contents::contents`] (what 100 g of
//! a food hold), [`wire`] (the JSON that others script against). This crate lays nothing out for people and prints
//! nothing; the program and the workbench do.

pub mod contents;
pub mod kitchen;
pub mod line;
pub mod wire;
