//! The foods known here: what they are made of, what a cup or a piece of each weighs, and what they are called.

pub mod fold;
mod nutrient;
pub mod row;
pub mod table;

pub use nutrient::Nutrient;
pub use row::{Fault, Food};
pub use table::{Factors, Portion, Row, Table};
