//! A part of the recipe that is wanted by its name: half the frosting, 500 g of dough. It is made alone, as most mean it.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::say;

use super::factor::{self, Factor};
use super::target::same_piece;
use super::{Refused, weight};
use crate::sheet::Sheet;
use crate::total::Total;

/// Said of a part that is scaled alone.
fn alone(times: f64) -> String {
    let all = factor::times_in_words(times);
    let all = if all.starts_with("about") { "so many times the recipe".to_owned() } else { format!("“{all}”") };
    format!("Only its lines follow, and the rest of the recipe stays as it is; for all of it ask for {all}.")
}

/// So many times a part.
pub(super) fn times(times: f64, name: &str, sheet: &Sheet) -> Result<Factor, Refused> {
    let pieces = sheet.makes.word.as_deref().is_some_and(|word| same_piece(word, name));
    // The cake of "cake with buttercream" is all of it, the buttercream is a part.
    let title = sheet.title.as_deref().and_then(|title| title.split(" with ").next().map(name_key));
    let title = title.is_some_and(|title| title.ends_with(&name_key(name)));
    if pieces || title {
        return Ok(Factor::plain(times, String::new()));
    }
    let found = found(name, sheet)?;
    let how = match found.alone {
        Some(_) => format!("{} of {} is wanted. {}", capital(&factor::in_words(times)), found.called, alone(times)),
        None => format!("{} of {} is wanted.", factor::in_words(times), found.called),
    };
    Ok(Factor { part: found.alone, ..Factor::plain(times, how) })
}

/// So many grams of a part, raw.
pub(super) fn grams(grams: f64, name: &str, sheet: &Sheet) -> Result<Factor, Refused> {
    let Found { called: part, total, alone: only } = found(name, sheet)?;
    let all = total.grams.best();
    if all <= 0.0 || !total.unweighed.is_empty() {
        return Err(Refused::new(
            format!("what {part} weighs is not known"),
            "Write grams beside the lines without a weight, or ask for so many times the recipe.",
        ));
    }
    let printed = |grams: f64| weight::in_grams(say::printed_grams(grams, say::Care::Usual));
    let times = grams / all;
    let rest = only.map(|_| format!(" {}", alone(times))).unwrap_or_default();
    let how = format!(
        "{} of the recipe weighs {} raw, and {} are wanted.{rest}",
        capital(&part),
        printed(all),
        printed(grams)
    );
    Ok(Factor { part: only, ..Factor::plain(times, how) })
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// What may be called by these in a recipe of one part.
const ALL_OF_IT: &[&str] = &["dough", "batter", "mixture", "mix", "mass"];

/// What a name means.
struct Found<'s> {
    called: String,
    total: &'s Total,
    /// The component, where it is one of several and is made alone.
    alone: Option<usize>,
}

/// The part of this name; all of it where there is but one and dough or batter is asked for.
fn found<'s>(name: &str, sheet: &'s Sheet) -> Result<Found<'s>, Refused> {
    let asked = name_key(name);
    let words: Vec<&str> = asked.split(' ').collect();
    let is_it = |heading: &str| {
        let key = name_key(heading);
        let own: Vec<&str> = key.split(' ').collect();
        words.iter().all(|word| own.contains(word))
    };
    let parts = sheet.components.iter().enumerate();
    let named: Vec<_> = parts.filter(|(_, part)| part.name.as_deref().is_some_and(is_it)).collect();
    match (named.as_slice(), sheet.components.as_slice()) {
        ([(at, part)], all) => Ok(Found {
            called: format!("“{}”", part.heading()),
            total: &part.total,
            alone: (all.len() > 1).then_some(*at),
        }),
        ([], [all]) if ALL_OF_IT.contains(&asked.as_str()) => {
            Ok(Found { called: format!("the {name}"), total: &all.total, alone: None })
        }
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
