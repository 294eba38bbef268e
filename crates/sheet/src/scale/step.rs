//! Amounts that the method says and that must change. The text itself is left as it is.

use std::ops::Range as Bytes;

use evencrumb_manuscript::{Manuscript, Share};

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

/// Every amount of the method that must change, in the order of the text.
pub(super) fn amounts(text: &str, manuscript: &Manuscript, sheet: &Sheet, recipe: &Recipe<'_>) -> Vec<StepAmount> {
    let places = Lines::of(text);
    let number = |at: usize| places.position(at).0;
    let mut found: Vec<StepAmount> = Vec::new();
    for (at, step) in manuscript.steps.iter().enumerate() {
        for used in &step.uses {
            let (Share::Amount(written) | Share::Remaining(Some(written))) = &used.share else { continue };
            let line = sheet.components.get(used.component).and_then(|component| component.lines.get(used.line));
            let Some(one) = line.and_then(|line| line.weighed.foods.first()) else { continue };
            if is_for_each(text, &step.sentences, used.place.start) {
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
    for measured in manuscript.measured.iter().filter(|measured| measured.per.is_none() && whole(&measured.what)) {
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
    found.sort_by_key(|amount| amount.place.start);
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
