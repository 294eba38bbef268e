//! The one place where a figure becomes words. A page, a card and a terminal all ask here, so they can't disagree.
//!
//! ```
//! use evencrumb_measure::say::{self, Care};
//! use evencrumb_measure::{Number, Range, Unit};
//!
//! let flour = Range::new(110.0, 125.0, 150.0).expect("ordered");
//! assert_eq!(say::grams(flour, Care::Usual), "125 g (110 to 150)");
//! // 2.54 g of baking powder is 2.5 g, but 0.84 g is not 0.8 g: that would be 5 % less.
//! assert_eq!(say::grams(Range::exact(0.84), Care::Exact), "0.84 g");
//! let half = Number::fraction(3, 2).expect("small");
//! assert_eq!(say::measure(half, Unit::Cup), "1 1/2 cups");
//! assert_eq!(say::spoken(half, Unit::Cup), "one and a half cups");
//! ```

mod money;
mod number;
mod scoops;
mod spoken;
mod weight;

pub use money::money;
pub use number::{decimal, measure, number};
pub use scoops::scoops;
pub use spoken::spoken;
pub use weight::{grams, ounces, printed_grams};

/// How far printing may move a weight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Care {
    /// Flour, sugar, milk: the step of a kitchen scale and of a calm page.
    #[default]
    Usual,
    /// A leavener, salt or a gum: never moved by more than 3 %.
    Exact,
}
