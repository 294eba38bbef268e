//! Cups and spoons in words.

use super::number::measure;
use crate::drawer::{Hold, Measure, Scoops};
use crate::number::Number;

/// Scoops as a cook follows them: `1/2 cup plus 2 tablespoons`; with what is wrong behind when the drawer can't do it.
///
/// Measures of one unit are joined where the sum is itself a kitchen number: a cup and half a cup are `1 1/2 cups`,
/// two thirds are `2/3 cup`, but a half and a third stay `1/2 cup plus 1/3 cup`, and a half and an eighth of a teaspoon
/// stay apart too, since nobody owns a 5/8 spoon.
pub fn scoops(scoops: &Scoops) -> String {
    let percent = (scoops.error_share * 100.0).round();
    let off = if percent.abs() < 1.0 {
        String::new()
    } else {
        format!(" ({} % too {})", percent.abs(), if percent < 0.0 { "little" } else { "much" })
    };
    match scoops.hold {
        Hold::Within if scoops.scoops.is_empty() => "nothing".to_owned(),
        Hold::Within => joined(&scoops.scoops),
        Hold::Nearest => format!("about {}{off}; a scale is needed to do better", joined(&scoops.scoops)),
        Hold::PartOfSmallest(part) => {
            let part = match part.parts() {
                (1, 1) => "about 1/8 teaspoon",
                (1, 2) => "about half of 1/8 teaspoon",
                (1, 3) => "about a third of 1/8 teaspoon",
                (2, 3) => "about two thirds of 1/8 teaspoon",
                (3, 4) => "about three quarters of 1/8 teaspoon",
                // A quarter is the least that an eye can judge.
                _ if percent > 10.0 => return "less than a quarter of 1/8 teaspoon; a scale is needed".to_owned(),
                _ => "about a quarter of 1/8 teaspoon",
            };
            format!("{part}{off}; a scale is needed")
        }
    }
}

fn joined(scoops: &[(u32, Measure)]) -> String {
    let mut amounts: Vec<(Number, Measure)> = Vec::new();
    for (count, kind) in scoops {
        let Some(amount) = kind.size.times(Number::whole(*count)) else { continue };
        let last = amounts.last_mut().filter(|(_, last)| last.unit == kind.unit);
        match last {
            Some((sum, _)) if sum.plus(amount).is_some_and(in_a_kitchen) => *sum = sum.plus(amount).unwrap_or(*sum),
            _ => amounts.push((amount, *kind)),
        }
    }
    // Two thirds that were a third and a third come before a half.
    for of_a_unit in amounts.chunk_by_mut(|one, other| one.1.unit == other.1.unit) {
        of_a_unit.sort_by_key(|amount| std::cmp::Reverse(amount.0));
    }
    let words: Vec<String> = amounts.iter().map(|(amount, kind)| measure(*amount, kind.unit)).collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [one, other] => format!("{one} plus {other}"),
        [first, rest @ ..] => format!("{first} plus {}", rest.join(" plus ")),
    }
}

fn in_a_kitchen(sum: Number) -> bool {
    matches!(sum.parts().1, 1..=4)
}
