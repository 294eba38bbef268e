//! The foods known here: what they are made of, what a cup or a piece of each weighs, and what they are called.

mod nutrient;
pub mod table;

pub use nutrient::Nutrient;
pub use table::{Factors, Portion, Row, Table};
