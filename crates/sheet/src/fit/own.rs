//! The pans an author owns.

use evencrumb_measure::Pan;

/// A pan of the author's own, measured by her.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnPan {
    /// The pan, by the name she gives it.
    pub pan: Pan,
    /// How many of it she has.
    pub have: u32,
    /// How it takes up heat; nothing when not told.
    pub colour: Option<Colour>,
}

/// How a pan takes up heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Colour {
    /// Bright metal.
    Light,
    /// Dark or coated metal.
    Dark,
    /// Glass or glazed ware.
    Glass,
}
