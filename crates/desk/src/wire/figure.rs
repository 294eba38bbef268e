//! Numbers as they go out: finite, rounded to a millionth, whole numbers without a point.

use evencrumb_measure::Range;
use serde::{Serialize, Serializer};

/// A finite number, rounded to six decimals so that the same line gives the same bytes on every machine.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transparent))]
pub struct Figure(f64);

impl Figure {
    /// The number as it goes out; `None` when it is not finite, since JSON has no word for that.
    pub fn of(value: f64) -> Option<Figure> {
        let rounded = (value * 1e6).round() / 1e6;
        // Beyond 10^300 the product is infinite; no kitchen holds that either.
        rounded.is_finite().then_some(Figure(rounded + 0.0))
    }

    /// The number.
    pub fn value(self) -> f64 {
        self.0
    }

    /// A number that is finite by construction; anything else would be zero.
    pub(super) fn sound(value: f64) -> Figure {
        Figure::of(value).unwrap_or(Figure(0.0))
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.0.fract().abs() <= 0.0 && self.0.abs() < 1e15 {
            #[expect(clippy::cast_possible_truncation, reason = "a whole number below 10^15 fits")]
            return serializer.serialize_i64(self.0 as i64);
        }
        serializer.serialize_f64(self.0)
    }
}

/// A best value with the low and high between which it lies nine times in ten.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Span {
    /// The value most likely to be right.
    pub best: Figure,
    /// One kitchen in twenty lies below this.
    pub low: Figure,
    /// One kitchen in twenty lies above this.
    pub high: Figure,
}

impl From<Range> for Span {
    fn from(range: Range) -> Span {
        Span { best: Figure::sound(range.best()), low: Figure::sound(range.low()), high: Figure::sound(range.high()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(value: f64) -> String {
        serde_json::to_string(&Figure::of(value)).expect("a number")
    }

    #[test]
    fn ok_rounded_and_whole() {
        assert_eq!(written(90.0), "90");
        assert_eq!(written(1.0 / 3.0), "0.333333");
        assert_eq!(written(0.1 + 0.2), "0.3");
        assert_eq!(written(-0.000_000_01), "0");
    }

    #[test]
    fn err_what_json_cannot_say() {
        assert_eq!(Figure::of(f64::NAN), None);
        assert_eq!(Figure::of(f64::INFINITY), None);
    }
}
