//! The lines of a recipe said anew.

use std::ops::Range as Bytes;

use evencrumb_manuscript::{Query, QueryKind, Weight};
use evencrumb_measure::Estimate;

use super::food::{Recipe, ScaledFood, scaled};
use crate::sheet::{Line, Sheet};

/// Less of a food than the smallest spoon holds.
pub static TOO_LITTLE_TO_MEASURE: QueryKind = QueryKind { name: "too-little-to-measure", weight: Weight::Look };
/// No spoons are as exact as this food wants.
pub static SCALE_NEEDED: QueryKind = QueryKind { name: "scale-needed", weight: Weight::Look };

/// A part of the recipe, scaled.
#[derive(Clone, Debug)]
pub struct ScaledComponent {
    /// What heads it; nothing for a list without a heading.
    pub name: Option<String>,
    /// Grams that are eaten of it. The pans' grease is taken to grow with it.
    pub grams: Estimate,
    /// Whether some of its foods have no weight, so that the grams are "at least".
    pub at_least: bool,
    /// Its lines, in the order written.
    pub lines: Vec<ScaledLine>,
}

/// A line of the recipe, scaled.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaledLine {
    /// Bytes of the manuscript.
    pub place: Bytes<usize>,
    /// Its number in the manuscript, from 1.
    pub number: usize,
    /// The line as the author wrote it.
    pub text: String,
    /// Its foods, the first of alternatives only.
    pub foods: Vec<ScaledFood>,
    /// The others of "or".
    pub alternatives: Vec<ScaledFood>,
    /// What else must be said, in whole sentences.
    pub notes: Vec<String>,
}

/// Every line of the sheet, scaled; what can't be measured is asked about.
pub(super) fn components(sheet: &Sheet, recipe: &Recipe<'_>, queries: &mut Vec<Query>) -> Vec<ScaledComponent> {
    let mut components = Vec::new();
    for component in &sheet.components {
        let lines: Vec<ScaledLine> = component.lines.iter().map(|written| line(written, recipe)).collect();
        queries.extend(lines.iter().flat_map(asked));
        components.push(ScaledComponent {
            name: component.name.clone(),
            grams: component.total.grams.times(recipe.factor),
            at_least: !component.total.unweighed.is_empty(),
            lines,
        });
    }
    components
}

fn line(written: &Line, recipe: &Recipe<'_>) -> ScaledLine {
    let weighed = &written.weighed;
    let foods = weighed.foods.iter().map(|one| scaled(weighed, one, recipe)).collect();
    // An alternative without an amount of its own takes that of the first food.
    let measured = weighed.alternatives.iter().filter(|one| !one.item.amounts.is_empty());
    let alternatives = measured.map(|one| scaled(weighed, one, recipe)).collect();
    let more = weighed.read.more.as_ref().map(|purpose| match purpose.as_str() {
        "" => "What is added beyond that is not scaled.".to_owned(),
        purpose => format!("What is added for {purpose} is not scaled."),
    });
    ScaledLine {
        place: written.place.clone(),
        number: written.number,
        text: weighed.text.clone(),
        foods,
        alternatives,
        notes: more.into_iter().collect(),
    }
}

fn asked(line: &ScaledLine) -> Vec<Query> {
    line.foods.iter().filter_map(|food| asked_of(food, line)).collect()
}

fn asked_of(food: &ScaledFood, line: &ScaledLine) -> Option<Query> {
    let now = food.now.as_ref().filter(|now| now.too_little || now.scale_needed)?;
    let spoons = food.or.as_ref().filter(|or| or.scale_needed).unwrap_or(now);
    let (kind, message) = if now.too_little {
        let message = format!("“{}” becomes {}, which no spoon of a kitchen measures.", food.written, spoons.words);
        (&TOO_LITTLE_TO_MEASURE, message)
    } else {
        let message = format!(
            "{} of “{}” would be {:.0} % {}, and what raises, salts or binds is never moved by more than 3 %.",
            spoons.words,
            food.written,
            spoons.error_share.abs() * 100.0,
            if spoons.error_share < 0.0 { "too little" } else { "too much" }
        );
        (&SCALE_NEEDED, message)
    };
    // A pinch weighs less than any scale of a kitchen shows.
    let weighed = food.printed_grams.filter(|_| now.scale_needed);
    let fine = weighed.is_some_and(|grams| grams < 5.0);
    let mend = match weighed.map(super::weight::in_grams) {
        Some(grams) if fine => {
            format!("Weigh {grams} on a scale that shows tenths of a gram or finer, or make a larger batch.")
        }
        Some(grams) => format!("Weigh {grams}, or make a larger batch."),
        None => "Take a few grains, or make a larger batch.".to_owned(),
    };
    Some(Query::new(kind, line.place.clone(), message, mend))
}
