//! Money: prices as they stand on a receipt, exact in the smallest coin.

use crate::number::Number;

/// A currency by its code of three letters (ISO 4217).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency([u8; 3]);

impl Default for Currency {
    fn default() -> Currency {
        Currency::US_DOLLAR
    }
}

impl Currency {
    /// The currency of a kitchen that names none.
    pub const US_DOLLAR: Currency = Currency(*b"USD");

    /// The currency of this code, in capitals or not; `None` for anything but three letters.
    pub fn named(code: &str) -> Option<Currency> {
        let code: [u8; 3] = code.trim().as_bytes().try_into().ok()?;
        code.iter().all(u8::is_ascii_alphabetic).then(|| Currency(code.map(|letter| letter.to_ascii_uppercase())))
    }

    /// The code, as `USD`.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or_default()
    }

    /// What is written before the number: the sign where it can mean only this currency, else the code and a space.
    pub fn sign(&self) -> String {
        match &self.0 {
            b"USD" => "$".to_owned(),
            b"GBP" => "£".to_owned(),
            b"EUR" => "€".to_owned(),
            _ => format!("{} ", self.code()),
        }
    }

    /// Digits after the point: how many tens the smallest coin goes into one (ISO 4217, from memory).
    pub fn places(self) -> u8 {
        match &self.0 {
            b"JPY" | b"KRW" | b"ISK" | b"VND" | b"CLP" | b"PYG" | b"XAF" | b"XOF" => 0,
            b"KWD" | b"BHD" | b"OMR" | b"JOD" | b"TND" | b"IQD" | b"LYD" => 3,
            _ => 2,
        }
    }

    /// How many of the smallest coin are one.
    pub fn coins(self) -> u32 {
        10u32.pow(u32::from(self.places()))
    }
}

/// A sum of money in the smallest coin of its currency (cents); whole, so that prices add up to the cent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(u64);

impl Money {
    /// A number of the currency's units, as 4.20; `None` when it is no whole number of its smallest coin.
    pub fn of(units: Number, currency: Currency) -> Option<Money> {
        let coins = units.times(Number::whole(currency.coins()))?;
        coins.is_whole().then(|| Money(coins.parts().0))
    }

    /// The number of the smallest coin.
    pub fn coins(self) -> u64 {
        self.0
    }

    /// So many times the money; more than can be counted is cut.
    #[must_use]
    pub fn times(self, count: u64) -> Money {
        Money(self.0.saturating_mul(count))
    }

    /// The sum; more than can be counted is cut.
    #[must_use]
    pub fn plus(self, other: Money) -> Money {
        Money(self.0.saturating_add(other.0))
    }

    /// The number of coins for reckoning with unsure figures; exact below 9 x 10^15.
    #[expect(clippy::cast_precision_loss, reason = "no price comes near 2^53 cents")]
    pub fn value(self) -> f64 {
        self.0 as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn coins(text: &str, currency: &str) -> Option<u64> {
        Money::of(Number::decimal(text)?, Currency::named(currency)?).map(Money::coins)
    }

    #[test]
    fn ok_exact_in_the_smallest_coin() {
        assert_eq!(coins("4.20", "usd"), Some(420));
        assert_eq!(coins("0.1", "EUR"), Some(10));
        assert_eq!(coins("14", "GBP"), Some(1400));
        assert_eq!(coins("250", "JPY"), Some(250));
        assert_eq!(coins("1.005", "KWD"), Some(1005));
    }

    #[test]
    fn err_less_than_the_smallest_coin_and_no_code() {
        assert_eq!(coins("4.205", "USD"), None);
        assert_eq!(coins("4.2", "JPY"), None);
        assert_eq!(Currency::named("dollars"), None);
        assert_eq!(Currency::named("U$D"), None);
    }

    /// In floating point 0.10 and 0.20 are not 0.30.
    #[test]
    fn ok_prices_add_up_to_the_cent() {
        let price = |text| Money::of(Number::decimal(text).expect("a number"), Currency::US_DOLLAR).expect("cents");
        assert_eq!(price("0.10").plus(price("0.20")), price("0.30"));
        assert_eq!(price("1.10").times(3), price("3.30"));
    }
}
