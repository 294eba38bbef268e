//! Sums of money, rounded to the smallest coin.

use super::weight::thousands;
use crate::money::Currency;
use crate::range::Range;

/// A sum in the currency's units with its range: `$4.20`, `€18.40 (17.90 to 19.10)`, `SEK 42.00`.
///
/// Halves go up. The bracket is left out when it would only repeat the best value. What costs something but less than
/// half of the smallest coin is `under $0.01`, since it is not free.
pub fn money(sum: Range, currency: Currency) -> String {
    let best = digits(sum.best(), currency);
    let (low, high) = (digits(sum.low(), currency), digits(sum.high(), currency));
    let sign = currency.sign();
    if low == best && high == best {
        let nothing = digits(0.0, currency);
        if best == nothing && sum.best() > 0.0 {
            return format!("under {sign}{}", digits(1.0 / f64::from(currency.coins()), currency));
        }
        return format!("{sign}{best}");
    }
    format!("{sign}{best} ({low} to {high})")
}

fn digits(value: f64, currency: Currency) -> String {
    let coins = f64::from(currency.coins());
    // The small addition is for halves, which binary numbers hold a hair too low.
    let rounded = (value.max(0.0) * coins + 0.5 + 1e-6).floor() / coins;
    let places = usize::from(currency.places());
    let text = format!("{rounded:.places$}");
    match text.split_once('.') {
        Some((whole, part)) => format!("{}.{part}", thousands(whole)),
        None => thousands(&text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(low: f64, best: f64, high: f64, code: &str) -> String {
        money(Range::new(low, best, high).expect("ordered"), Currency::named(code).expect("a code"))
    }

    #[test]
    fn ok_sums() {
        assert_eq!(said(4.2, 4.2, 4.2, "USD"), "$4.20");
        assert_eq!(said(17.9, 18.4, 19.1, "EUR"), "€18.40 (17.90 to 19.10)");
        assert_eq!(said(18.3999, 18.4, 18.4001, "GBP"), "£18.40");
        assert_eq!(said(1234.5, 1234.5, 1234.5, "CAD"), "CAD 1,234.50");
        assert_eq!(said(250.4, 250.4, 250.4, "JPY"), "JPY 250");
        assert_eq!(said(1.005, 1.005, 1.005, "USD"), "$1.01");
    }

    #[test]
    fn ok_what_costs_something_is_never_free() {
        assert_eq!(said(0.002, 0.004, 0.0049, "USD"), "under $0.01");
        assert_eq!(said(0.0, 0.0, 0.0, "USD"), "$0.00");
    }
}
