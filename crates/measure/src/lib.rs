//! What an amount is: numbers as written, units, figures that know how unsure they are, and where they come from.
//!
//! ```
//! use evencrumb_measure::{Custom, Number, Unit};
//!
//! let amount = Number::fraction(3, 4).expect("three quarters");
//! let cup = Unit::written("cups").and_then(|unit| unit.millilitres(Custom::Us)).expect("a cup is a volume");
//! assert_eq!(cup.times(amount.value()).best().round(), 177.0);
//! ```
//!
//! Know these three: [`Number`] (exact, as written), [`Unit`] (what one holds or weighs), [`Estimate`] (a figure and
//! why it is unsure). This crate knows nothing of foods or of how a page is laid out.

mod drawer;
mod money;
mod number;
mod pan;
mod range;
pub mod say;
mod source;
mod unit;

pub use drawer::{
    Beaten, EXACT_ERROR, EggBatch, EggGrams, EggPart, EggWay, Eggs, Hold, MOST_MILLILITRES, Measure, Scoops,
    USUAL_ERROR, drawer, eggs, spoons, whole_egg_batches,
};
pub use money::{Currency, Money};
pub use number::Number;
pub use pan::{Assumed, Handbook, Inner, Pan, Plan, Read, Shape, Style, Tube};
pub use range::{Estimate, Estimates, Influence, Pull, Range};
pub use source::Source;
pub use unit::{Custom, Dimension, Unit};
