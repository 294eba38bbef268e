//! Which foods of the recipe hold what people with an allergy ask for, as the rows of the foods have it.
//!
//! It says what the foods are, never what a factory also handles, and promises nothing.

use evencrumb_manuscript::word::name_key;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::row::{Allergen, Food, Gluten};

use super::answer::plain;
use super::names::named;
use super::words::EMPTY;
use super::{Misunderstood, Question, Reason, Why};
use crate::line::WeighedItem;
use crate::made::Origin;
use crate::sheet::{Line, Sheet};

/// Everyday words for what is asked of, and the beginning of the names that it means; nothing means all.
const ASKED: &[(&str, &str)] = &[
    ("gluten", "gluten"),
    ("coeliac", "gluten"),
    ("celiac", "gluten"),
    ("milk", "milk"),
    ("dairy", "milk"),
    ("lactose", "milk"),
    ("egg", "egg"),
    ("nut", "tree nut"),
    ("almond", "tree nut: almond"),
    ("hazelnut", "tree nut: hazelnut"),
    ("walnut", "tree nut: walnut"),
    ("pecan", "tree nut: pecan"),
    ("pistachio", "tree nut: pistachio"),
    ("cashew", "tree nut: cashew"),
    ("peanut", "peanut"),
    ("soy", "soy"),
    ("soya", "soy"),
    ("sesame", "sesame"),
    ("wheat", "wheat"),
    ("rye", "rye"),
    ("barley", "barley"),
    ("oat", "oats"),
    ("fish", "fish"),
    ("mustard", "mustard"),
    ("lupin", "lupin"),
    ("celery", "celery"),
    ("sulphite", "sulphite"),
    ("coconut", "coconut"),
];
/// Words that name no food but what people with an allergy ask for, even where a line says "whole wheat flour".
const CLASSES: &[&str] = &["nut", "dairy", "lactose", "wheat", "gluten", "soya"];
const DIETS: &[&str] = &["vegan", "vegetarian", "kosher", "halal", "keto", "paleo"];

/// What is asked for when the words ask whether something is in it; an empty list for all allergens.
///
/// # Errors
/// For diets, of which no row of a food says anything.
pub(super) fn asked(words: &[String], sheet: &Sheet) -> Result<Option<Vec<String>>, Misunderstood> {
    let any = |some: &[&str]| words.iter().any(|word| some.contains(&word.as_str()));
    let verdict = any(&["is", "are", "suitable", "for"]) || words.len() == 1;
    if let Some(diet) = words.iter().find(|word| DIETS.contains(&word.as_str())).filter(|_| verdict && words.len() < 6)
    {
        return Err(Misunderstood {
            said: format!("No row of a food says whether it is {diet}, so nobody here can say it of the recipe"),
            mend: "Ask “allergens”, which names the foods that hold milk, egg, fish and others.".to_owned(),
            near_to: None,
        });
    }
    if any(&["allergen", "allergy", "allergic"]) {
        return Ok(Some(means(words)));
    }
    // "How much milk" asks for grams.
    let amount = any(&["much", "many", "gram", "weight", "cost", "share", "percent", "percentage"]);
    let whether = any(&["free", "contain", "contains", "have", "has", "any", "without", "coeliac", "celiac", "safe"])
        || words.len() > 2 && ["is", "are"].contains(&words[0].as_str()) && words[1] == "there"
        || is_asked_alone(words, sheet);
    let about = means(words);
    Ok((whether && !amount && !about.is_empty()).then_some(about))
}

/// "Nuts", "wheat", "tree nut": one of what is asked for and nothing else, unless a line is called so.
fn is_asked_alone(words: &[String], sheet: &Sheet) -> bool {
    let mut alone: Vec<String> = words.iter().filter(|word| !EMPTY.contains(&word.as_str())).cloned().collect();
    if alone == ["tree", "nut"] {
        alone.remove(0);
    }
    let [word] = alone.as_slice() else { return false };
    let lines = || sheet.components.iter().flat_map(|part| &part.lines).flat_map(|line| &line.weighed.foods);
    match CLASSES.contains(&word.as_str()) {
        true => !lines().any(|one| name_key(&one.item.name) == *word),
        false => ASKED.iter().any(|(said, _)| said == word) && named(&alone, sheet).is_none(),
    }
}

fn means(words: &[String]) -> Vec<String> {
    let meant = |said: &&(&str, &str)| words.iter().any(|word| word.strip_suffix("free").unwrap_or(word) == said.0);
    let mut about: Vec<String> = ASKED.iter().filter(meant).map(|(_, means)| (*means).to_owned()).collect();
    if about.iter().any(|means| means == "tree nut") {
        about.push("peanut".to_owned());
    }
    about
}

pub(super) fn answer(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Why {
    let wanted =
        |name: &str| question.about.is_empty() || question.about.iter().any(|about| name.starts_with(about.as_str()));
    let all = || sheet.components.iter().flat_map(|part| &part.lines).flat_map(foods);
    let known = || all().filter_map(|(line, one)| Some((line, pantry.food(one.item.food?))));
    let mut found: Vec<&str> = Vec::new();
    let mut under = Vec::new();
    for allergen in Allergen::ALL.iter().filter(|allergen| wanted(allergen.name())) {
        if let Some(lines) = listed(known().filter(|(_, food)| food.allergens.contains(allergen))) {
            found.push(allergen.name());
            under.push(plain(format!("{}: {lines}", allergen.name())));
        }
    }
    if wanted("gluten") {
        let of = |gluten| listed(known().filter(|(_, food)| food.gluten == gluten));
        for (gluten, says) in [
            (Some(Gluten::Contains), "gluten"),
            (Some(Gluten::Oats), "oats, in which gluten of other grains is often found"),
            (Some(Gluten::Check), "gluten in some packs, so read yours"),
            (None, "gluten not told by its row"),
        ] {
            if let Some(lines) = of(gluten) {
                found.extend((gluten == Some(Gluten::Contains)).then_some("gluten"));
                under.push(plain(format!("{says}: {lines}")));
            }
        }
    }
    let strangers: Vec<String> = all().filter_map(|(line, one)| unknown(line, one)).collect();
    under.extend(strangers.iter().map(|words| plain(words.clone())));
    under.push(plain(
        "This is what the foods are by their rows, never what a factory also handles: read every pack. It is no label and no promise; labels come with a later stage."
            .to_owned(),
    ));
    let of = match question.about.as_slice() {
        [] => "allergens".to_owned(),
        about => about.join(", "),
    };
    let words = match found.as_slice() {
        [] => format!("{of}: no source was found among the listed ingredients that are known here"),
        found => format!("{of}: found among the listed ingredients: {}", found.join(", ")),
    };
    Why::of(Reason { under, ..plain(words) }, Vec::new())
}

/// The foods of a line, the others of "or" among them.
fn foods(line: &Line) -> impl Iterator<Item = (&Line, &WeighedItem)> {
    line.weighed.foods.iter().chain(&line.weighed.alternatives).map(move |one| (line, one))
}

/// As `unsalted butter (lines 8 and 16), whole milk (line 12)`.
fn listed<'a>(found: impl Iterator<Item = (&'a Line, &'a Food)>) -> Option<String> {
    let mut by_food: Vec<(&str, Vec<String>)> = Vec::new();
    for (line, food) in found {
        let number = line.number.to_string();
        match by_food.iter_mut().find(|(name, _)| *name == food.name) {
            Some((_, lines)) if lines.contains(&number) => {}
            Some((_, lines)) => lines.push(number),
            None => by_food.push((&food.name, vec![number])),
        }
    }
    let said = |(name, lines): &(&str, Vec<String>)| {
        format!("{name} (line{} {})", if lines.len() == 1 { "" } else { "s" }, lines.join(", "))
    };
    let all: Vec<String> = by_food.iter().map(said).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// What nothing can be said of.
fn unknown(line: &Line, one: &WeighedItem) -> Option<String> {
    match one.made.as_ref().map(|made| &made.origin) {
        Some(Origin::Component(_)) => None,
        Some(Origin::Manuscript { title, .. }) => {
            Some(format!("line {}: ask the recipe “{title}” for what is in it", line.number))
        }
        None if one.item.food.is_none() => {
            Some(format!("line {}: “{}” is not known here, so nothing can be said of it", line.number, one.item.name))
        }
        None => None,
    }
}
