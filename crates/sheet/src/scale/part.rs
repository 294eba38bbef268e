//! A part of the recipe as a measure of how much is made: half the frosting, 500 g of dough. The whole recipe goes with it.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::say;

use super::factor::{self, Factor};
use super::target::same_piece;
use super::{Refused, weight};
use crate::sheet::Sheet;
use crate::total::Total;

const WHOLE_GOES_WITH_IT: &str = "The whole recipe is scaled by as much.";

/// So many times a part.
pub(super) fn times(times: f64, name: &str, sheet: &Sheet) -> Result<Factor, Refused> {
    let pieces = sheet.makes.word.as_deref().is_some_and(|word| same_piece(word, name));
    let title = sheet.title.as_deref().is_some_and(|title| name_key(title).ends_with(&name_key(name)));
    let how = if pieces || title {
        String::new()
    } else {
        let (part, _) = found(name, sheet)?;
        format!("{} of {part} is wanted. {WHOLE_GOES_WITH_IT}", factor::in_words(times))
    };
    Ok(Factor { times, how, pans: Vec::new() })
}

/// So many grams of a part, raw.
pub(super) fn grams(grams: f64, name: &str, sheet: &Sheet) -> Result<Factor, Refused> {
    let (part, total) = found(name, sheet)?;
    let all = total.grams.best();
    if all <= 0.0 || !total.unweighed.is_empty() {
        return Err(Refused::new(
            format!("what {part} weighs is not known"),
            "Write grams beside the lines without a weight, or ask for so many times the recipe.",
        ));
    }
    let printed = |grams: f64| weight::in_grams(say::printed_grams(grams, say::Care::Usual));
    let how = format!(
        "{} of the recipe weighs {} raw, and {} are wanted. {WHOLE_GOES_WITH_IT}",
        capital(&part),
        printed(all),
        printed(grams)
    );
    Ok(Factor { times: grams / all, how, pans: Vec::new() })
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// What may be called by these in a recipe of one part.
const ALL_OF_IT: &[&str] = &["dough", "batter", "mixture", "mix", "mass"];

/// The part of this name; all of it where there is but one and dough or batter is asked for.
fn found<'s>(name: &str, sheet: &'s Sheet) -> Result<(String, &'s Total), Refused> {
    let asked = name_key(name);
    let words: Vec<&str> = asked.split(' ').collect();
    let is_it = |heading: &str| {
        let key = name_key(heading);
        let own: Vec<&str> = key.split(' ').collect();
        words.iter().all(|word| own.contains(word))
    };
    let named = sheet.components.iter().filter(|part| part.name.as_deref().is_some_and(is_it));
    let named: Vec<_> = named.collect();
    match (named.as_slice(), sheet.components.as_slice()) {
        ([part], _) => Ok((format!("“{}”", part.name.as_deref().unwrap_or_default()), &part.total)),
        ([], [all]) if ALL_OF_IT.contains(&asked.as_str()) => Ok((format!("the {name}"), &all.total)),
        _ => {
            let parts: Vec<String> =
                sheet.components.iter().filter_map(|part| Some(format!("“{}”", part.name.as_deref()?))).collect();
            let mend = if parts.is_empty() {
                "It has no named parts: ask for so many times the recipe, for servings, for pieces or for pans."
                    .to_owned()
            } else {
                format!("Its parts are {}. Name one, or ask for so many times the recipe.", parts.join(", "))
            };
            let what = if named.len() > 1 { "more than one part" } else { "no part" };
            Err(Refused::new(format!("the recipe has {what} called “{name}”"), &mend))
        }
    }
}
