//! A number as it was written: a third stays 1/3 and never becomes 0.333.

use std::cmp::Ordering;
use std::fmt;

/// An exact, non-negative fraction in lowest terms.
///
/// Recipes write numbers as fractions, and a third of a cup three times must be a cup.
/// Numbers too large or too fine to be an amount in a kitchen have no `Number`: the
/// constructors give `None`, and the reader then says so in a query.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Number {
    over: u64,
    under: u64,
}

/// No kitchen amount has a numerator or denominator beyond this; it keeps products inside `u128`.
const LARGEST: u128 = 1_000_000_000_000;

impl Number {
    /// Nothing at all; also what an amount is before anything is added to it.
    pub const ZERO: Number = Number { over: 0, under: 1 };
    /// One.
    pub const ONE: Number = Number { over: 1, under: 1 };
    /// One half.
    pub const HALF: Number = Number { over: 1, under: 2 };

    /// The fraction `over / under`; `None` when `under` is zero or either is beyond what a kitchen holds.
    pub fn fraction(over: u64, under: u64) -> Option<Number> {
        Number::reduced(u128::from(over), u128::from(under))
    }

    /// A whole number; numbers beyond a million million are cut to it.
    pub fn whole(value: u32) -> Number {
        Number { over: u64::from(value), under: 1 }
    }

    /// Reads digits with at most one decimal mark (`.` or `,`), as in `2`, `0.5`, `1,25` or `.75`.
    ///
    /// A comma before exactly three digits after a first group that is not zero parts thousands
    /// (`1,000`), as everywhere in English writing; `0,125` is an eighth.
    pub fn decimal(text: &str) -> Option<Number> {
        let (whole, part) = match text.find(['.', ',']) {
            None => (text, ""),
            Some(at) => (&text[..at], &text[at + 1..]),
        };
        let comma = text[whole.len()..].starts_with(',');
        let thousands = comma && part.len() == 3 && !whole.is_empty() && !whole.starts_with('0');
        let places = if thousands { 0 } else { part.len() };
        let digits = whole.bytes().chain(part.bytes());
        if places > 9
            || !(1..=12).contains(&(whole.len() + part.len()))
            || !digits.clone().all(|digit| digit.is_ascii_digit())
        {
            return None;
        }
        let over = digits.fold(0, |over, digit| over * 10 + u64::from(digit - b'0'));
        Number::fraction(over, 10u64.pow(u32::try_from(places).ok()?))
    }

    fn reduced(over: u128, under: u128) -> Option<Number> {
        if under == 0 {
            return None;
        }
        if under == 1 && over <= LARGEST {
            return Some(Number { over: u64::try_from(over).ok()?, under: 1 });
        }
        let divisor = greatest_common_divisor(over, under).max(1);
        let (over, under) = (over / divisor, under / divisor);
        if over > LARGEST || under > LARGEST {
            return None;
        }
        Some(Number { over: u64::try_from(over).ok()?, under: u64::try_from(under).ok()? })
    }

    /// The sum, or `None` beyond what a kitchen holds.
    pub fn plus(self, other: Number) -> Option<Number> {
        let (a, b) = (u128::from(self.over), u128::from(self.under));
        let (c, d) = (u128::from(other.over), u128::from(other.under));
        Number::reduced(a * d + c * b, b * d)
    }

    /// The product, or `None` beyond what a kitchen holds.
    pub fn times(self, other: Number) -> Option<Number> {
        Number::reduced(
            u128::from(self.over) * u128::from(other.over),
            u128::from(self.under) * u128::from(other.under),
        )
    }

    /// The nearest floating-point value.
    #[expect(clippy::cast_precision_loss, reason = "both parts stay below 10^12, which f64 holds exactly")]
    pub fn value(self) -> f64 {
        self.over as f64 / self.under as f64
    }

    /// Numerator and denominator in lowest terms.
    pub fn parts(self) -> (u64, u64) {
        (self.over, self.under)
    }

    /// Whether this is a whole number.
    pub fn is_whole(self) -> bool {
        self.under == 1
    }
}

impl PartialOrd for Number {
    fn partial_cmp(&self, other: &Number) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Number {
    fn cmp(&self, other: &Number) -> Ordering {
        let left = u128::from(self.over) * u128::from(other.under);
        left.cmp(&(u128::from(other.over) * u128::from(self.under)))
    }
}

/// `1 1/2`, `3/4`, `2`; decimals that were written as decimals print as such when short.
impl fmt::Display for Number {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.under == 1 {
            return write!(out, "{}", self.over);
        }
        if self.under > 16 || [5, 7, 9, 10, 11, 13, 14, 15].contains(&self.under) {
            return out.write_str(&crate::say::decimal(self.value(), 3));
        }
        match (self.over / self.under, self.over % self.under) {
            (0, part) => write!(out, "{part}/{}", self.under),
            (whole, part) => write!(out, "{whole} {part}/{}", self.under),
        }
    }
}

fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn decimal(text: &str) -> String {
        Number::decimal(text).map_or_else(|| "not a number".to_owned(), |number| number.to_string())
    }

    #[test]
    fn ok_decimals_with_point_or_comma() {
        assert_eq!(decimal("2"), "2");
        assert_eq!(decimal("0.5"), "1/2");
        assert_eq!(decimal("0,5"), "1/2");
        assert_eq!(decimal(".75"), "3/4");
        assert_eq!(decimal("1,000"), "1000");
        assert_eq!(decimal("0,125"), "1/8");
        assert_eq!(decimal("2.2"), "2.2");
        assert_eq!(decimal("1,25"), "1 1/4");
    }

    #[test]
    fn err_what_no_kitchen_holds() {
        assert_eq!(decimal("99999999999999999999"), "not a number");
        assert_eq!(decimal("1e999"), "not a number");
        assert_eq!(decimal("."), "not a number");
        assert_eq!(Number::fraction(1, 0), None);
    }

    #[test]
    fn ok_three_thirds_are_one() {
        let third = Number::fraction(1, 3).expect("a third is a number");
        let two = third.plus(third).expect("small");
        assert_eq!(two.plus(third), Some(Number::ONE));
    }

    proptest! {
        #[test]
        fn ok_order_agrees_with_value(a in 0u64..5000, b in 1u64..64, c in 0u64..5000, d in 1u64..64) {
            let (x, y) = (Number::fraction(a, b).expect("small"), Number::fraction(c, d).expect("small"));
            prop_assert_eq!(x < y, x.value() < y.value());
            prop_assert!((x.plus(y).expect("small").value() - x.value() - y.value()).abs() < 1e-9);
        }
    }
}
