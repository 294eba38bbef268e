//! One figure for another: "ratio of sugar to almonds".

use evencrumb_pantry::Pantry;

use super::answer::plain;
use super::question::refused;
use super::{Misunderstood, Priced, Reason, Why, why};
use crate::sheet::Sheet;

/// What is asked of which, where a ratio is asked for: "ratio of sugar to almonds", "sugar to almond ratio".
pub(super) fn sides(question: &str) -> Option<(String, String)> {
    let question = question.trim().trim_end_matches('?').to_lowercase();
    let words: Vec<&str> = question.split_whitespace().collect();
    let at = words.iter().position(|word| *word == "ratio")?;
    let rest = if at + 1 == words.len() { &words[..at] } else { &words[at + 1..] };
    // A ratio of ratios is nothing that a baker asks for.
    if rest.contains(&"ratio") {
        return None;
    }
    let rest = rest.join(" ");
    let rest = rest.trim_start_matches("of ").trim_start_matches("between ").trim_start_matches("the ");
    let (one, other) = rest.split_once(" to ").or_else(|| rest.split_once(" and "))?;
    Some((one.trim().to_owned(), other.trim().to_owned())).filter(|(one, other)| !one.is_empty() && !other.is_empty())
}

/// Grams of the one for a gram of the other.
pub(super) fn answer(
    (one, other): (&str, &str),
    sheet: &Sheet,
    pantry: &Pantry,
    priced: Option<Priced<'_>>,
) -> Result<Why, Misunderstood> {
    let of = |what: &str| why(sheet, &format!("grams of {what}"), pantry, priced);
    let (first, second) = (of(one)?, of(other)?);
    let grams = |why: &Why| why.figure.value.clone().filter(|value| value.best() > 0.0 && why.figure.unit == "g");
    let Some((above, below)) = grams(&first).zip(grams(&second)) else {
        return Err(refused(
            format!("There is no ratio of {one} to {other}: one of them has no weight"),
            "Ask for the grams of each.",
        ));
    };
    let figure = Reason {
        value: Some(above.product(&below.inverse())),
        unit: String::new(),
        under: vec![first.figure, second.figure],
        ..plain(format!("grams of {one} for a gram of {other}"))
    };
    Ok(Why::of(figure, [first.unknown, second.unknown].concat()))
}
