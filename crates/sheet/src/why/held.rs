//! Which foods of the recipe hold what people with an allergy ask for, as the rows of the foods have it.
//!
//! It says what the foods are, never what a factory also handles, and promises nothing.

use evencrumb_manuscript::layout::OUTSIDE_THE_LIST;
use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FoodId, QueryKind};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::row::{Allergen, Food, Gluten};

use super::answer::plain;
use super::names::named;
use super::words::EMPTY;
use super::{Misunderstood, Question, Reason, Why};
use crate::line::WeighedItem;
use crate::made::{GOES_IN_A_CIRCLE, MADE_TWICE, Origin, PART_NOT_FOUND};
use crate::sheet::{Component, Placed, Sheet};

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
    let mut walk = Walk::default();
    walk.sheet(sheet, None, None);
    let Walk { known, mut unsaid, .. } = walk;
    let known = || known.iter().map(|(line, food)| (*line, pantry.food(*food)));
    let mut found: Vec<&str> = Vec::new();
    let mut under = Vec::new();
    for allergen in Allergen::ALL.iter().filter(|allergen| wanted(allergen.name())) {
        if let Some(lines) = listed(known().filter(|(_, food)| food.allergens.contains(allergen))) {
            found.push(allergen.name());
            under.push(plain(format!("{}: {lines}", allergen.name())));
        }
    }
    let of_allergens = question.about.is_empty() || question.about.iter().any(|about| about != "gluten");
    let untold = listed(known().filter(|(_, food)| of_allergens && food.allergens_untold));
    unsaid.extend(untold.map(|lines| format!("allergens not told by its row: {lines}")));
    let of_unsaid = unsaid.iter().cloned().map(plain).collect::<Vec<_>>();
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
                // Whoever asks for gluten alone must not read "no source" where a pack may hold it, and nobody where no
                // row says it.
                let is_doubt = gluten.is_none() || gluten != Some(Gluten::Contains) && !question.about.is_empty();
                unsaid.extend(is_doubt.then(|| format!("{says}: {lines}")));
                under.push(plain(format!("{says}: {lines}")));
            }
        }
    }
    under.extend(of_unsaid);
    under.push(plain(
        "This is what the foods are by their rows, never what a factory also handles: read every pack. It is no label and no promise; labels come with a later stage."
            .to_owned(),
    ));
    Why::of(Reason { under, ..plain(first_line(&question.about, &found, &unsaid)) }, Vec::new())
}

/// The sentence that is read first, and copied: it says "no source" only where everything could be looked into.
fn first_line(about: &[String], found: &[&str], unsaid: &[String]) -> String {
    let of = if about.is_empty() { "allergens".to_owned() } else { about.join(", ") };
    let mut because = unsaid.iter().take(MOST_SAID_FIRST).map(String::as_str).collect::<Vec<_>>().join("; ");
    if unsaid.len() > MOST_SAID_FIRST {
        because.push_str(&format!("; and {} more, told below", unsaid.len() - MOST_SAID_FIRST));
    }
    match (found, unsaid.is_empty()) {
        ([], true) => format!("{of}: no source was found among the listed ingredients that are known here"),
        ([], false) => format!("{of}: cannot be said: {because}"),
        // "Gluten: found: gluten" says it twice.
        ([only], _) if of == *only => format!("{of}: found among the listed ingredients"),
        (found, true) => format!("{of}: found among the listed ingredients: {}", found.join(", ")),
        (found, false) => format!(
            "{of}: found among the listed ingredients: {}; whether there is more cannot be said: {because}",
            found.join(", ")
        ),
    }
}

/// How many reasons the first line gives for what can't be said.
const MOST_SAID_FIRST: usize = 3;

/// A line, and the other recipe that it stands in.
#[derive(Clone, Copy)]
struct Place<'s> {
    number: usize,
    recipe: Option<&'s str>,
}

impl std::fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}", self.number)?;
        self.recipe.map_or(Ok(()), |title| write!(f, " of “{title}”"))
    }
}

/// All foods of a recipe and of the recipes that it is made with, each with its place, and what nothing can be said of.
#[derive(Default)]
struct Walk<'s> {
    known: Vec<(Place<'s>, FoodId)>,
    unsaid: Vec<String>,
    /// What was walked, so that a recipe that many lines take of is looked into once.
    met: Vec<(*const Sheet, Option<usize>)>,
}

impl<'s> Walk<'s> {
    /// Walks all of a sheet, or one component of it with what that is made with.
    fn sheet(&mut self, sheet: &'s Sheet, only: Option<usize>, recipe: Option<&'s str>) {
        let me = (std::ptr::from_ref(sheet), only);
        if self.met.contains(&me) {
            return;
        }
        self.met.push(me);
        let components = sheet.components.iter().enumerate().filter(|(part, _)| only.is_none_or(|only| only == *part));
        for line in components.flat_map(|(_, component)| &component.lines) {
            let place = Place { number: line.number, recipe };
            let asked = |kinds: &[&QueryKind]| {
                let here = |placed: &&Placed| line.place.contains(&placed.query.place.start);
                sheet.queries.iter().filter(here).any(|placed| kinds.contains(&placed.query.kind))
            };
            if asked(&[&PART_NOT_FOUND, &GOES_IN_A_CIRCLE, &MADE_TWICE]) {
                let text = line.weighed.text.trim();
                self.unsaid.push(format!("{place} is another recipe that could not be opened (“{text}”)"));
                continue;
            }
            // The others of "or" may be what is taken.
            for one in line.weighed.foods.iter().chain(&line.weighed.alternatives) {
                self.food(one, place, (sheet, only), recipe);
            }
        }
        let in_a_line = |placed: &Placed| {
            let lines = sheet.components.iter().flat_map(|component| &component.lines);
            let at = &placed.query.place;
            lines.into_iter().any(|line| line.place.start < at.end && at.start < line.place.end)
        };
        for placed in sheet.queries.iter().filter(|placed| placed.query.kind == &OUTSIDE_THE_LIST) {
            if !in_a_line(placed) {
                let place = Place { number: placed.line, recipe };
                self.unsaid.push(format!("{place}: {}", placed.query.message.trim_end_matches('.')));
            }
        }
    }

    fn food(
        &mut self,
        one: &'s WeighedItem,
        place: Place<'s>,
        (sheet, only): (&'s Sheet, Option<usize>),
        recipe: Option<&'s str>,
    ) {
        let Some(made) = &one.made else {
            match one.item.food {
                Some(food) => self.known.push((place, food)),
                None => {
                    self.unsaid
                        .push(format!("{place}: “{}” is not known here, so nothing can be said of it", one.item.name));
                }
            }
            return;
        };
        match (&made.origin, &made.sheet) {
            // Where the whole recipe is walked, its other parts are too.
            (Origin::Component(part), _) => {
                if only.is_some() {
                    self.sheet(sheet, Some(*part), recipe);
                }
            }
            (Origin::Manuscript { title, component }, Some(other)) => {
                let is_it = |part: &Component| part.name.as_deref() == component.as_deref();
                let part = component.as_ref().and_then(|_| other.components.iter().position(is_it));
                self.sheet(other, part, Some(title));
            }
            (Origin::Manuscript { title, .. }, None) => {
                self.unsaid.push(format!("{place} is another recipe that could not be opened (“{title}”)"));
            }
        }
    }
}

/// Numbers of lines, and the other recipe that they stand in.
type InRecipe<'a> = (Option<&'a str>, Vec<String>);

/// As `unsalted butter (lines 8, 16; line 4 of “Pie Crust”), whole milk (line 12)`.
fn listed<'a>(found: impl Iterator<Item = (Place<'a>, &'a Food)>) -> Option<String> {
    let mut by_food: Vec<(&str, Vec<InRecipe<'_>>)> = Vec::new();
    for (place, food) in found {
        let at = by_food.iter().position(|(name, _)| *name == food.name).unwrap_or_else(|| {
            by_food.push((&food.name, Vec::new()));
            by_food.len() - 1
        });
        let recipes = &mut by_food[at].1;
        let at = recipes.iter().position(|(recipe, _)| *recipe == place.recipe).unwrap_or_else(|| {
            recipes.push((place.recipe, Vec::new()));
            recipes.len() - 1
        });
        let number = place.number.to_string();
        if !recipes[at].1.contains(&number) {
            recipes[at].1.push(number);
        }
    }
    let in_recipe = |(recipe, lines): &InRecipe<'_>| {
        let of = recipe.map(|title| format!(" of “{title}”")).unwrap_or_default();
        format!("line{} {}{of}", if lines.len() == 1 { "" } else { "s" }, lines.join(", "))
    };
    let said = |(name, recipes): &(&str, Vec<InRecipe<'_>>)| {
        format!("{name} ({})", recipes.iter().map(in_recipe).collect::<Vec<_>>().join("; "))
    };
    let all: Vec<String> = by_food.iter().map(said).collect();
    (!all.is_empty()).then(|| all.join(", "))
}
