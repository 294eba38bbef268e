//! Questions that can be answered, near to one that was not understood.

use evencrumb_manuscript::word::name_key;
use evencrumb_pantry::Pantry;

use super::{Misunderstood, Priced, answered};
use crate::sheet::Sheet;

/// How many are told.
const TOLD: usize = 3;
/// How many are tried; a sheet of a thousand lines must not be slow, and what is further off is not near.
const TRIED: usize = 40;
/// What is asked most, the most usual first; where nothing is near, the first are told.
const USUAL: &[&str] = &[
    "sugar per serving",
    "energy per 100 g",
    "weight of one piece",
    "cost per serving",
    "fat per serving",
    "salt per serving",
    "kilojoules per serving",
    "protein per serving",
    "carbohydrate per serving",
    "fibre per serving",
    "added sugar per serving",
    "raw weight",
    "weight after baking",
    "how full is the pan",
    "how deep is the batter",
    "hydration",
    "allergens",
    "is it gluten free",
    "how many servings",
];

/// The same with the nearest questions, where the words were not understood.
pub(super) fn told(wrong: Misunderstood, sheet: &Sheet, pantry: &Pantry, priced: Option<Priced<'_>>) -> Misunderstood {
    let Some(words) = wrong.near_to.as_deref() else { return wrong };
    let near: Vec<String> = to(words, sheet, |asked| is_answered(asked, sheet, pantry, priced));
    match near.as_slice() {
        [] => wrong,
        near => Misunderstood { mend: format!("Near to it are {}. {}", near.join(", "), wrong.mend), ..wrong },
    }
}

/// Whether a question has a figure on this sheet, and more than that nothing is known.
fn is_answered(asked: &str, sheet: &Sheet, pantry: &Pantry, priced: Option<Priced<'_>>) -> bool {
    let why = answered(sheet, asked, pantry, priced);
    why.is_ok_and(|why| why.figure.value.is_none_or(|value| value.best() > 0.0))
}

/// The nearest questions that are answered, in quotes.
fn to(words: &str, sheet: &Sheet, is_answered: impl Fn(&str) -> bool) -> Vec<String> {
    let key = name_key(words);
    let parts = sheet.components.iter().filter_map(|part| part.name.as_deref());
    // A name with numbers in it would be read as a figure.
    let is_plain = |name: &&str| !name.contains(|c: char| c.is_ascii_digit()) && name.split(' ').count() < 6;
    let foods = sheet.components.iter().flat_map(|part| &part.lines).flat_map(|line| &line.weighed.foods);
    let all = USUAL.iter().map(|asked| (*asked).to_owned());
    let all = all.chain(parts.filter(is_plain).map(|name| format!("weight of {}", name.to_lowercase())));
    let all = all.chain(foods.map(|one| one.item.name.as_str()).filter(is_plain).flat_map(|name| {
        let name = name.to_lowercase();
        [format!("grams of {name}"), format!("share of {name}"), format!("cost of {name}")]
    }));
    let mut near: Vec<(f64, String)> =
        all.map(|asked| (strsim::sorensen_dice(&key, &name_key(&asked)), asked)).collect();
    near.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut seen: Vec<String> = Vec::new();
    let mut told: Vec<String> = Vec::new();
    for (_, asked) in near {
        if told.len() == TOLD || seen.len() == TRIED {
            break;
        }
        if !seen.contains(&asked) {
            if is_answered(&asked) {
                told.push(format!("“{asked}”"));
            }
            seen.push(asked);
        }
    }
    told
}
