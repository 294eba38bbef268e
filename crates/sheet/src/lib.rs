//! One recipe in one kitchen: what each line weighs, what of it is eaten, and what that adds up to.
//!
//! ```
//! use evencrumb_pantry::{Nutrient, Pantry, weigh::Kitchen};
//! use evencrumb_sheet::{line, total};
//!
//! let pantry = Pantry::ours();
//! let lines = ["100 g butter", "100 g sugar"].map(|text| line::weigh(text, pantry, Kitchen::default()));
//! let total = total::of(&lines, pantry);
//! assert_eq!(total.grams.best(), 200.0);
//! assert!(total.nutrient(Nutrient::Sugars).amount.best() > 99.0);
//! ```
//!
//! Know these two: [`line::WeighedLine`] (a line with the weights of its foods) and [`total::Total`] (what lines add up
//! to, with what is not known named). This crate knows nothing of heat, law, days and pages.

mod aside;
mod bake_loss;
mod behind;
mod choice;
pub mod composition;
pub mod cost;
pub mod drawer;
pub mod eaten;
pub mod fit;
pub mod kept;
pub mod line;
pub mod made;
mod makes;
mod measured;
mod place;
mod remaining;
mod rendered;
pub mod scale;
mod sheet;
pub mod shelf;
pub mod total;
pub mod used;
pub mod why;
mod yield_weight;

pub use choice::{Choice, Offer, Variant};
pub use sheet::{Component, Line, Placed, Setting, Sheet, Unchosen, sheet};
