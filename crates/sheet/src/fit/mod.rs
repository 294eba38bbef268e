//! Which pan takes the batter.

mod own;

pub use own::{Colour, OwnPan};
