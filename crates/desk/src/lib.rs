//! The same answers as the terminal gives, as JSON for those who script against them.
//!
//! Know these two: [`wire`] (the JSON) and [`kitchen::in_words`] (what is taken where no kitchen says otherwise). This
//! crate lays nothing out for people and prints nothing; the program and the workbench do.

pub mod disk;
pub mod folder;
pub mod kitchen;
pub mod own_foods;
pub mod prices;
pub mod rows;
pub mod shelf;
pub mod stock;
pub mod wire;
