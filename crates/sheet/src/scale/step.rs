//! Amounts that the method says and that must change. The text itself is left as it is.

use std::ops::Range as Bytes;

use evencrumb_manuscript::line::{Cut, numbers};
use evencrumb_manuscript::{Manuscript, Share};
use evencrumb_measure::Unit;

use super::food::{self, Recipe, Said};
use super::weight;
use crate::line::WeighedItem;
use crate::place::Lines;
use crate::sheet::Sheet;
use evencrumb_measure::say::{self, Care};

/// An amount in the method.
#[derive(Clone, Debug, PartialEq)]
pub struct StepAmount {
    /// The step, counted from 1; nothing for a weight that stands outside the method.
    pub step: Option<usize>,
    /// Line of the manuscript, from 1.
    pub line: usize,
    /// Bytes of the manuscript that name the food or what is weighed.
    pub place: Bytes<usize>,
    /// The amount as written.
    pub written: String,
    /// Of what, in the author's words.
    pub of: String,
    /// The new amount.
    pub now: Said,
}

/// What is weighed as a whole, and not by the piece.
const WHOLES: &[&str] = &[
    "batter", "dough", "mixture", "filling", "frosting", "icing", "glaze", "syrup", "custard", "cream", "caramel",
    "ganache", "streusel", "pulp", "puree",
];

/// Every amount of the method that must change, in the order of the text; of the part alone that is scaled, where one is.
pub(super) fn amounts(
    text: &str,
    manuscript: &Manuscript,
    sheet: &Sheet,
    part: Option<usize>,
    recipe: &Recipe<'_>,
) -> Vec<StepAmount> {
    let places = Lines::of(text);
    let number = |at: usize| places.position(at).0;
    let mut found: Vec<StepAmount> = Vec::new();
    for (at, step) in manuscript.steps.iter().enumerate() {
        for used in &step.uses {
            let (Share::Amount(written) | Share::Remaining(Some(written))) = &used.share else { continue };
            let line = sheet.components.get(used.component).and_then(|component| component.lines.get(used.line));
            let Some(one) = line.and_then(|line| line.weighed.foods.first()) else { continue };
            let elsewhere = part.is_some_and(|part| part != used.component);
            if elsewhere || is_for_each(text, &step.sentences, used.place.start) {
                continue;
            }
            let Some(now) = said(written, one, recipe) else { continue };
            let again = found.iter().any(|other| other.place == used.place && other.written == *written);
            if !again {
                found.push(StepAmount {
                    step: Some(at + 1),
                    line: number(used.place.start),
                    place: used.place.clone(),
                    written: written.clone(),
                    of: one.item.name.clone(),
                    now,
                });
            }
        }
    }
    // What a cup, a layer or a piece weighs stays; what the whole weighs does not.
    let whole = |what: &str| WHOLES.contains(&what.trim_end_matches('s'));
    let called = part.map(|part| sheet.components[part].heading().to_lowercase());
    let is_of_it = |what: &str| called.as_ref().is_none_or(|called| called.contains(what.trim_end_matches('s')));
    let told = manuscript.measured.iter().filter(|measured| measured.per.is_none() && whole(&measured.what));
    for measured in told.filter(|measured| is_of_it(&measured.what)) {
        let step = manuscript.steps.iter().position(|step| step.place.contains(&measured.place.start));
        let (printed, error_share) = weight::printed(measured.grams.0, recipe.factor, Care::Usual);
        let upper = say::printed_grams(measured.grams.1 * recipe.factor, Care::Usual);
        let words = if measured.grams.1 > measured.grams.0 {
            format!("{printed} to {}", weight::in_grams(upper))
        } else {
            weight::in_grams(printed)
        };
        found.push(StepAmount {
            step: step.map(|step| step + 1),
            line: number(measured.place.start),
            place: measured.place.clone(),
            written: text.get(measured.place.clone()).unwrap_or_default().trim_end_matches('.').to_owned(),
            of: measured.what.clone(),
            now: Said { words, error_share, ..Said::default() },
        });
    }
    for (at, step) in manuscript.steps.iter().enumerate() {
        for sentence in &step.sentences {
            let untold = unnamed(text, sentence, sheet, recipe).into_iter().filter(|amount| {
                let told = |other: &StepAmount| {
                    let next = other.place.start..other.place.end + other.written.len() + 1;
                    next.contains(&amount.place.start) || amount.place.contains(&other.place.start)
                };
                !found.iter().any(told) && (part.is_none() || amount.component == part)
            });
            let untold: Vec<Unnamed> = untold.collect();
            found.extend(untold.into_iter().map(|amount| StepAmount {
                step: Some(at + 1),
                line: number(amount.place.start),
                written: text.get(amount.place.clone()).unwrap_or_default().to_owned(),
                place: amount.place,
                of: amount.of,
                now: amount.now,
            }));
        }
    }
    found.sort_by_key(|amount| amount.place.start);
    found
}

/// An amount of a step that names no food.
struct Unnamed {
    place: Bytes<usize>,
    of: String,
    /// The component that a line takes it for.
    component: Option<usize>,
    now: Said,
}

/// What a sentence says of what comes out or is kept back of it: "you should have about 1 1/4 cups", "set aside 3 tablespoons".
const COMES_OUT: &[&str] =
    &["aside", "reserve", "reserving", "should", "will", "have", "save", "keep", "left", "yield"];
/// What may stand behind an amount that names nothing.
const NAMES_NOTHING: &[&str] = &["for", "aside", "to", "in", "of", "and", "then", "on", "from", "total", "left"];

/// Amounts of a sentence that name no food, of what comes out or is kept back: they grow as the batch does. Where a line
/// takes as much of something made, that is what is meant.
fn unnamed(text: &str, sentence: &Bytes<usize>, sheet: &Sheet, recipe: &Recipe<'_>) -> Vec<Unnamed> {
    let cut = Cut::of(text.get(sentence.clone()).unwrap_or_default());
    let speaks = (0..cut.tokens.len()).any(|at| cut.any(at, COMES_OUT));
    let mut found = Vec::new();
    let mut next = if speaks { 0 } else { cut.tokens.len() };
    while next < cut.tokens.len() {
        let at = next;
        next += 1;
        let Some(read) = numbers(&cut, at) else { continue };
        next = read.next.max(next);
        let Some(unit) = cut.get(read.next).and_then(|token| Unit::written(&token.folded)) else { continue };
        let measured = unit.grams().is_some() || unit.millilitres(recipe.kitchen.custom).is_some();
        let behind = read.next + 1;
        let of_food = cut.any(behind, &["of"]) && !cut.any(behind + 1, &["it", "this", "that", "them"]);
        let nothing = !cut.is_word(behind) || cut.any(behind, NAMES_NOTHING) && !of_food;
        // "1/4 cup at a time" and "to a 1-cup measure" are said of the work.
        let worked =
            cut.mark(read.next.saturating_sub(1), '-') || at > 0 && cut.any(at - 1, &["by", "a", "an", "every"]);
        let place = cut.tokens[at].place.start + sentence.start..cut.tokens[read.next].place.end + sentence.start;
        if !measured || !nothing || worked || is_for_each(text, std::slice::from_ref(sentence), place.start) {
            continue;
        }
        let written = cut.written(at, read.next + 1);
        let parts = sheet.components.iter().enumerate();
        let lines = parts.flat_map(|(part, component)| component.lines.iter().map(move |line| (part, line)));
        let mut taken =
            lines.filter_map(|(part, line)| Some((part, line.weighed.foods.first().filter(|one| one.made.is_some())?)));
        let same = |one: &WeighedItem| {
            one.item.amounts.first().is_some_and(|amount| match amount.terms.as_slice() {
                [term] => term.unit == unit && term.low == read.low && term.high == read.high,
                _ => false,
            })
        };
        let taken = taken.find(|(_, one)| same(one));
        let (of, component) = match taken {
            Some((part, one)) => (one.item.name.clone(), Some(part)),
            None => ("what is made there".to_owned(), None),
        };
        let line = crate::line::weigh(
            &format!("{written} {}", if component.is_some() { &of } else { "water" }),
            recipe.pantry,
            recipe.kitchen,
        );
        let Some(one) = line.foods.into_iter().next() else { continue };
        let Some(amount) = one.item.amounts.first().cloned() else { continue };
        found.push(Unnamed { place, of, component, now: food::amount(&amount, &one, recipe) });
    }
    found
}

/// Whether an amount is said for one of what is made ("fill each bun with 45 g cream"): more buns take more cream, and
/// each as much as before. "Beat 1 minute after each egg" and "a third of it each time" are said of the work.
fn is_for_each(text: &str, sentences: &[Bytes<usize>], at: usize) -> bool {
    let Some(sentence) = sentences.iter().find(|sentence| sentence.contains(&at)) else { return false };
    let words = text.get(sentence.clone()).unwrap_or_default().to_lowercase();
    let at = at - sentence.start;
    let mut from = 0;
    // What is done then is done with something else.
    let clause = words.split_inclusive([';']).flat_map(|part| part.split_inclusive(" then ")).find(|part| {
        from += part.len();
        at < from
    });
    let words: Vec<&str> =
        clause.unwrap_or_default().split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let work = ["time", "addition", "egg", "batch", "third", "half", "turn", "fold"];
    let each = |at: usize| {
        let before = at.checked_sub(1).map(|at| words[at]);
        let of = words.get(at + 1).copied().unwrap_or_default();
        !work.contains(&of) && !matches!(before, Some("after" | "between" | "with"))
    };
    (0..words.len()).any(|at| matches!(words[at], "each" | "every") && each(at) || words[at] == "apiece")
}

/// An amount of a food in the method, read as in a line and said anew.
fn said(written: &str, one: &WeighedItem, recipe: &Recipe<'_>) -> Option<Said> {
    let read = crate::line::weigh(&format!("{written} {}", one.item.name), recipe.pantry, recipe.kitchen);
    let taken = read.foods.into_iter().next()?;
    let amount = taken.item.amounts.first()?.clone();
    Some(food::amount(&amount, &taken, recipe))
}
