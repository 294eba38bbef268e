//! What `evencrumb sheet --json` answers.

use evencrumb_manuscript::Yield;
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_pantry::{Nutrient, Pantry};
use evencrumb_sheet::total::Total;
use evencrumb_sheet::{Component, Line, Placed, Sheet};
use serde::Serialize;

use super::weigh::QueryWeight;
use super::{Figure, SCHEMA, Span, WeighAnswer};
use crate::kitchen;

/// All figures of one manuscript.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SheetAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The title; null when none was found.
    pub title: Option<String>,
    /// Whose measures, eggs, law and air were taken, in words.
    pub kitchen: String,
    /// What the text says that it makes.
    #[serde(rename = "yield")]
    pub makes: YieldAnswer,
    /// The parts, in the order written.
    pub components: Vec<ComponentAnswer>,
    /// The whole batch.
    pub totals: TotalsAnswer,
    /// Pans; empty until pans are computed.
    pub pans: Vec<String>,
    /// What a careful reader would ask, in the order of the text.
    pub queries: Vec<PlacedQueryAnswer>,
}

/// What a recipe makes.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct YieldAnswer {
    /// How many pieces.
    pub pieces: Option<Count>,
    /// The author's word for a piece, as `cookies`.
    pub word: Option<String>,
    /// How many servings.
    pub servings: Option<Count>,
    /// The whole of it, as `one 9-inch cake`.
    pub container: Option<String>,
}

/// A number, or two with "to" between.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Count {
    /// The lower.
    pub low: Figure,
    /// The upper.
    pub high: Figure,
}

/// A part of the recipe.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ComponentAnswer {
    /// What heads it; null for a list without a heading.
    pub name: Option<String>,
    /// Its ingredient lines.
    pub lines: Vec<LineAnswer>,
    /// Grams that are eaten of it.
    pub grams: Open,
}

/// An ingredient line: what `weigh` answers for it, and its place in the recipe.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LineAnswer {
    /// The line weighed; columns of its queries count in the line.
    #[serde(flatten)]
    pub weighed: WeighAnswer,
    /// Its number in the manuscript, from 1.
    pub line: usize,
    /// Its share of the component's weight, from 0 to 1.
    pub share: Option<Figure>,
    /// Grams for 100 g of the component's flours, starches and nut flours.
    pub bakers_percent: Option<Figure>,
}

/// A figure that may be a least: where something is not known, `high` is null.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Open {
    /// The value most likely to be right, of what is known.
    pub best: Figure,
    /// One kitchen in twenty lies below this.
    pub low: Figure,
    /// One kitchen in twenty lies above this; null when a part is not known, so that all this is "at least".
    pub high: Option<Figure>,
}

/// The whole batch.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TotalsAnswer {
    /// Grams that are eaten, raw.
    pub grams: Open,
    /// Grams after baking, by a stated assumption; null when nothing is baked.
    pub grams_baked: Option<Open>,
    /// Foods that have no weight here.
    pub unweighed: Vec<String>,
    /// Into how many servings it is cut; null when the text does not say.
    pub servings: Option<Span>,
    /// What was assumed, in words.
    pub assumptions: Vec<String>,
    /// Cost; null until prices are read.
    pub cost: Option<Figure>,
    /// What it holds, in the order of a label.
    pub nutrients: Vec<NutrientSum>,
}

/// One nutrient.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NutrientSum {
    /// Its plain name, as `saturated fat`.
    pub name: String,
    /// The unit of every value: `kcal`, `g`, `mg` or `µg`.
    pub unit: String,
    /// In the whole batch.
    pub batch: Open,
    /// In one serving; null when the text does not say how many there are.
    pub serving: Option<Open>,
    /// In 100 g as it is eaten, baked where it is baked; null when nothing has a weight.
    pub per_100_g: Option<Open>,
    /// In 100 g raw.
    pub per_100_g_raw: Option<Open>,
    /// Foods for which nobody knows it; unknown is not zero.
    pub unknown: Vec<String>,
}

/// A query with its place in the manuscript.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PlacedQueryAnswer {
    /// Its name, as `food-not-known`.
    pub name: String,
    /// How much it matters.
    pub weight: QueryWeight,
    /// Line of the manuscript, from 1.
    pub line: usize,
    /// Column in Unicode scalar values, from 1.
    pub column: usize,
    /// What was read and what was taken.
    pub message: String,
    /// How to mend it.
    pub mend: String,
}

impl SheetAnswer {
    /// The answer for a sheet; pantry and kitchen are those it was computed with.
    pub fn of(sheet: &Sheet, pantry: &Pantry, kitchen: Kitchen) -> SheetAnswer {
        SheetAnswer {
            schema: SCHEMA,
            title: sheet.title.clone(),
            kitchen: kitchen::in_words(kitchen),
            makes: YieldAnswer::of(&sheet.makes),
            components: sheet.components.iter().map(|one| ComponentAnswer::of(one, pantry, kitchen)).collect(),
            totals: TotalsAnswer::of(sheet),
            pans: Vec::new(),
            queries: sheet.queries.iter().map(PlacedQueryAnswer::of).collect(),
        }
    }
}

impl YieldAnswer {
    fn of(makes: &Yield) -> YieldAnswer {
        let count = |(low, high): (f64, f64)| Count { low: Figure::sound(low), high: Figure::sound(high) };
        YieldAnswer {
            pieces: makes.pieces.map(count),
            word: makes.word.clone(),
            servings: makes.servings.map(count),
            container: makes.container.clone(),
        }
    }
}

impl ComponentAnswer {
    fn of(component: &Component, pantry: &Pantry, kitchen: Kitchen) -> ComponentAnswer {
        let line = |line: &Line| LineAnswer {
            weighed: WeighAnswer::of(&line.weighed, pantry, kitchen),
            line: line.number,
            share: line.share.and_then(Figure::of),
            bakers_percent: line.bakers_percent.and_then(Figure::of),
        };
        ComponentAnswer {
            name: component.name.clone(),
            lines: component.lines.iter().map(line).collect(),
            grams: Open::of(&component.total.grams, !component.total.unweighed.is_empty()),
        }
    }
}

impl Open {
    /// A figure, open upwards when part of it is not known.
    fn of(estimate: &Estimate, at_least: bool) -> Open {
        let range = estimate.range();
        let high = (!at_least).then(|| Figure::sound(range.high()));
        Open { best: Figure::sound(range.best()), low: Figure::sound(range.low()), high }
    }
}

impl TotalsAnswer {
    fn of(sheet: &Sheet) -> TotalsAnswer {
        let total = &sheet.total;
        let open = !total.unweighed.is_empty();
        let servings = sheet.servings();
        let kept = sheet.kept.as_ref();
        let mut assumptions: Vec<String> = kept.iter().map(|(_, why)| (*why).to_owned()).collect();
        assumptions.push("the composition of each food is taken to differ by 8 % from its table row".to_owned());
        TotalsAnswer {
            grams: Open::of(&total.grams, open),
            grams_baked: kept.map(|(kept, _)| Open::of(&total.grams.product(kept), open)),
            unweighed: total.unweighed.clone(),
            servings: servings.as_ref().map(|servings| servings.range().into()),
            assumptions,
            cost: None,
            nutrients: Nutrient::ALL
                .iter()
                .map(|nutrient| NutrientSum::of(*nutrient, total, servings.as_ref(), kept.map(|(kept, _)| kept)))
                .collect(),
        }
    }
}

impl NutrientSum {
    fn of(nutrient: Nutrient, total: &Total, servings: Option<&Estimate>, kept: Option<&Estimate>) -> NutrientSum {
        let sum = total.nutrient(nutrient);
        let open = !sum.unknown.is_empty() || !total.unweighed.is_empty();
        let raw = (total.grams.best() > 0.0).then(|| sum.amount.times(100.0 / total.grams.best()));
        let baked = raw.as_ref().map(|raw| kept.map_or_else(|| raw.clone(), |kept| raw.product(&one_over(kept))));
        NutrientSum {
            name: nutrient.name().to_owned(),
            unit: nutrient.unit().to_owned(),
            batch: Open::of(&sum.amount, open),
            serving: servings.map(|servings| Open::of(&sum.amount.product(&one_over(servings)), open)),
            per_100_g: baked.as_ref().map(|amount| Open::of(amount, open)),
            per_100_g_raw: raw.as_ref().map(|amount| Open::of(amount, open)),
            unknown: sum.unknown.clone(),
        }
    }
}

/// One over a figure that is not zero: low and high change places.
fn one_over(figure: &Estimate) -> Estimate {
    let range = figure.range();
    let over = |value: f64| if value > 0.0 { 1.0 / value } else { 0.0 };
    let turned = Range::new(over(range.high()), over(range.best()), over(range.low()))
        .unwrap_or(Range::exact(over(range.best())));
    match figure.pulls().first() {
        Some(pull) => Estimate::of(turned, pull.influence.clone()),
        None => Estimate::of(turned, Influence::named("division")),
    }
}

impl PlacedQueryAnswer {
    fn of(placed: &Placed) -> PlacedQueryAnswer {
        PlacedQueryAnswer {
            name: placed.query.kind.name.to_owned(),
            weight: placed.query.kind.weight.into(),
            line: placed.line,
            column: placed.column,
            message: placed.query.message.clone(),
            mend: placed.query.mend.clone(),
        }
    }
}
