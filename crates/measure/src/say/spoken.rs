//! Amounts as they are said aloud, for those who listen to a page.

use super::number::name;
use crate::number::Number;
use crate::unit::Unit;

/// An amount in words: `one and a half cups`, `two thirds of a cup`, `half an ounce`.
///
/// Fractions that have no kitchen word, and whole numbers from a thousand on, stay digits, which a screen reader says
/// well by itself: `0.3 of a cup`.
pub fn spoken(amount: Number, unit: Unit) -> String {
    let (over, under) = amount.parts();
    let one = format!("{} {}", article(unit.name()), unit.name());
    let (whole, rest) = (over / under, over % under);
    if rest == 0 {
        return format!("{} {}", whole_in_words(whole), name(amount, unit));
    }
    match (whole, part(rest, under)) {
        (0, Some(part)) if part == "a half" => format!("half {one}"),
        (0, Some(part)) => format!("{part} of {one}"),
        (0, None) => format!("{amount} of {one}"),
        (_, Some(part)) => format!("{} and {part} {}", whole_in_words(whole), name(amount, unit)),
        (_, None) => format!("{amount} {}", name(amount, unit)),
    }
}

/// `a third`, `two thirds`; `None` when cooks have no word for it.
fn part(over: u64, under: u64) -> Option<String> {
    let one = match under {
        2 => "half",
        3 => "third",
        4 => "quarter",
        8 => "eighth",
        16 => "sixteenth",
        _ => return None,
    };
    Some(match over {
        1 => format!("{} {one}", article(one)),
        _ => format!("{} {one}s", whole_in_words(over)),
    })
}

fn article(word: &str) -> &'static str {
    if word.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" }
}

const SMALL: [&str; 20] = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

fn whole_in_words(value: u64) -> String {
    let at = usize::try_from(value).unwrap_or(usize::MAX);
    match at {
        0..=19 => SMALL[at].to_owned(),
        20..=99 if at.is_multiple_of(10) => TENS[at / 10].to_owned(),
        20..=99 => format!("{}-{}", TENS[at / 10], SMALL[at % 10]),
        100..=999 if at.is_multiple_of(100) => format!("{} hundred", SMALL[at / 100]),
        100..=999 => format!("{} hundred and {}", SMALL[at / 100], whole_in_words(value % 100)),
        _ => value.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn said(over: u64, under: u64, unit: Unit) -> String {
        spoken(Number::fraction(over, under).expect("small"), unit)
    }

    #[test]
    fn ok_as_said_aloud() {
        assert_eq!(said(3, 2, Unit::Cup), "one and a half cups");
        assert_eq!(said(1, 2, Unit::Cup), "half a cup");
        assert_eq!(said(1, 2, Unit::Ounce), "half an ounce");
        assert_eq!(said(2, 3, Unit::Cup), "two thirds of a cup");
        assert_eq!(said(1, 8, Unit::Teaspoon), "an eighth of a teaspoon");
        assert_eq!(said(11, 4, Unit::Teaspoon), "two and three quarters teaspoons");
        assert_eq!(said(1, 1, Unit::Piece), "one piece");
        assert_eq!(said(0, 1, Unit::Cup), "no cups");
        assert_eq!(said(250, 1, Unit::Gram), "two hundred and fifty grams");
        assert_eq!(said(3, 10, Unit::Cup), "0.3 of a cup");
        assert_eq!(said(13, 10, Unit::Cup), "1.3 cups");
    }

    /// The value of words that [`spoken`] gave, without the unit.
    fn read(text: &str) -> f64 {
        let mut total = 0.0;
        let mut current = 0.0;
        for word in text.split([' ', '-']) {
            let under =
                ["half", "third", "quarter", "eighth", "sixteenth"].iter().position(|part| word.starts_with(part));
            if let Some(at) = SMALL.iter().position(|small| *small == word) {
                current += f64::from(u32::try_from(at).expect("small"));
            } else if let Some(at) = TENS.iter().skip(2).position(|tens| *tens == word) {
                current += 10.0 * f64::from(u32::try_from(at + 2).expect("small"));
            } else if word == "hundred" {
                current *= 100.0;
            } else if word == "and" {
                (total, current) = (total + current, 0.0);
            } else if let Some(at) = under {
                let over = if current > 0.0 { current } else { 1.0 };
                (total, current) = (total + over / [2.0, 3.0, 4.0, 8.0, 16.0][at], 0.0);
            }
        }
        total + current
    }

    proptest! {
        #[test]
        fn ok_read_back_is_the_same(over in 1u64..1999, under in prop::sample::select(vec![1u64, 2, 3, 4, 8, 16])) {
            let over = over % (1000 * under);
            let value = Number::fraction(over, under).expect("small").value();
            let words = said(over, under, Unit::Cup);
            prop_assert!((read(&words) - value).abs() < 1e-9, "{words}");
        }
    }
}
