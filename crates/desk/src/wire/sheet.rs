//! What `evencrumb sheet --json` answers.

use evencrumb_manuscript::Yield;
use evencrumb_measure::Estimate;
use evencrumb_pantry::{Nutrient, Pantry};
use evencrumb_sheet::composition;
use evencrumb_sheet::total::Total;
use evencrumb_sheet::used::LineUse;
use evencrumb_sheet::{Component, Line, Placed, Sheet, Variant};
use serde::Serialize;

use super::pans::{BatterAnswer, PanAnswer};
use super::weigh::QueryWeight;
use super::{CostAnswer, Figure, SCHEMA, Span, WeighAnswer};
use crate::kitchen::{self, Found};

/// All figures of one manuscript.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SheetAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The title; null when none was found.
    pub title: Option<String>,
    /// The choices that were asked for, with "; " between, in place of the first of alternatives; null for the recipe as
    /// it is written.
    pub choice: Option<String>,
    /// Whose measures, eggs, law and air were taken, in words.
    pub kitchen: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it.
    pub kitchen_faults: Vec<String>,
    /// What the text says that it makes.
    #[serde(rename = "yield")]
    pub makes: YieldAnswer,
    /// The parts, in the order written.
    pub components: Vec<ComponentAnswer>,
    /// The whole batch.
    pub totals: TotalsAnswer,
    /// What goes into the pans; null when nothing is baked and no pan is named.
    pub batter: Option<BatterAnswer>,
    /// The pans that the text names, each with the batter in it.
    pub pans: Vec<PanAnswer>,
    /// The same recipe with each of the alternatives, and without what is optional.
    pub variants: Vec<VariantAnswer>,
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
    /// What it costs, with what it takes of others, in the currency of `totals.cost`; null when nothing in it has a
    /// price.
    pub cost: Option<Open>,
    /// Grams that are eaten of it.
    pub grams: Open,
    /// What it holds raw, in the order of a label.
    pub nutrients: Vec<PartNutrient>,
}

/// One nutrient of a component.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PartNutrient {
    /// Its plain name, as `saturated fat`.
    pub name: String,
    /// The unit: `kcal`, `g`, `mg` or `µg`.
    pub unit: String,
    /// In the whole component.
    pub component: Open,
    /// In 100 g of it raw; null when it has no weight.
    pub per_100_g_raw: Option<Open>,
    /// Foods for which nobody knows it; unknown is not zero.
    pub unknown: Vec<String>,
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
    /// Grams of it that are eaten, of all its foods together: without peel and stones of what was weighed with them, and
    /// without what stays in the pan or is used by a later line. Null when nothing has a weight, or when it is counted
    /// elsewhere.
    pub eaten: Option<Span>,
    /// What is used of it costs, in the currency of `totals.cost`; null when it has no price or is counted elsewhere.
    pub cost: Option<Open>,
    /// Its share of the component's weight, from 0 to 1.
    pub share: Option<Figure>,
    /// Grams for 100 g of the component's flours, starches and nut flours.
    pub bakers_percent: Option<Figure>,
    /// The steps that use it, in the order of the method.
    pub uses: Vec<UseAnswer>,
    /// The share of the line that no step uses, from 0 to 1; below 0 when the steps use more than there is; null when
    /// that can't be told.
    pub left_over: Option<Figure>,
}

/// A step that uses a line.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct UseAnswer {
    /// The step, from 1.
    pub step: usize,
    /// How much of the line, where 1 is all; null when the step doesn't tell.
    pub share: Option<Figure>,
}

/// The recipe with another choice.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct VariantAnswer {
    /// In words, as `walnuts in place of pecans`.
    pub name: String,
    /// Lines of the manuscript where the choice stands.
    pub lines: Vec<usize>,
    /// The whole batch then.
    pub totals: TotalsAnswer,
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
    /// Grams of one piece as it is eaten; null when the text does not say how many there are.
    pub grams_piece: Option<Open>,
    /// Grams of one serving as it is eaten; null as [`NutrientSum::serving`].
    pub grams_serving: Option<Open>,
    /// Foods that have no weight here.
    pub unweighed: Vec<String>,
    /// Into how many servings it is cut; null when the text does not say.
    pub servings: Option<Span>,
    /// What was assumed, in words.
    pub assumptions: Vec<String>,
    /// What it costs; null when the kitchen folder holds no price.
    pub cost: Option<CostAnswer>,
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
    /// In the whole batch as it is eaten: heat takes water only.
    pub batch: Open,
    /// In one piece; null when the text does not say how many there are.
    pub piece: Option<Open>,
    /// In one serving, or in one piece where servings are not said; null when neither is.
    pub serving: Option<Open>,
    /// In 100 g as it is eaten, baked where it is baked; null when nothing has a weight.
    pub per_100_g: Option<Open>,
    /// In 100 g raw.
    pub per_100_g_raw: Option<Open>,
    /// Foods for which nobody knows it; unknown is not zero.
    pub unknown: Vec<String>,
    /// Foods of which no row says it and a rule reckoned it; their part is in the values and their ranges.
    pub derived: Vec<String>,
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
    pub fn of(sheet: &Sheet, pantry: &Pantry, found: &Found) -> SheetAnswer {
        SheetAnswer {
            schema: SCHEMA,
            title: sheet.title.clone(),
            choice: None,
            kitchen: kitchen::in_words(found),
            kitchen_faults: Vec::new(),
            makes: YieldAnswer::of(&sheet.makes),
            components: sheet.components.iter().map(|one| ComponentAnswer::of(one, pantry, found)).collect(),
            totals: TotalsAnswer::of(sheet),
            batter: sheet.fit.batter.as_ref().map(BatterAnswer::of),
            pans: sheet
                .fit
                .batter
                .iter()
                .flat_map(|batter| sheet.fit.pans.iter().map(|pan| PanAnswer::of(pan, batter)))
                .collect(),
            variants: sheet.variants.iter().map(VariantAnswer::of).collect(),
            queries: sheet.queries.iter().map(PlacedQueryAnswer::of).collect(),
        }
    }
}

impl YieldAnswer {
    pub(super) fn of(makes: &Yield) -> YieldAnswer {
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
    fn of(component: &Component, pantry: &Pantry, found: &Found) -> ComponentAnswer {
        let line = |line: &Line| LineAnswer {
            weighed: WeighAnswer::of(&line.weighed, pantry, found),
            line: line.number,
            eaten: line.eaten.as_ref().map(|eaten| eaten.range().into()),
            cost: None,
            share: line.share.and_then(Figure::of),
            bakers_percent: line.bakers_percent.and_then(Figure::of),
            uses: line.uses.steps.iter().map(UseAnswer::of).collect(),
            left_over: line.uses.left.and_then(Figure::of),
        };
        ComponentAnswer {
            name: component.name.clone(),
            lines: component.lines.iter().map(line).collect(),
            cost: None,
            grams: Open::of(&component.total.grams, !component.total.unweighed.is_empty()),
            nutrients: Nutrient::ALL.iter().map(|nutrient| PartNutrient::of(*nutrient, &component.total)).collect(),
        }
    }
}

impl PartNutrient {
    fn of(nutrient: Nutrient, total: &Total) -> PartNutrient {
        let sum = total.nutrient(nutrient);
        let open = !sum.unknown.is_empty() || !total.unweighed.is_empty();
        PartNutrient {
            name: nutrient.name().to_owned(),
            unit: nutrient.unit().to_owned(),
            component: Open::of(&sum.amount, open),
            per_100_g_raw: per_100_g(&sum.amount, total).map(|amount| Open::of(&amount, open)),
            unknown: sum.unknown.clone(),
        }
    }
}

/// An amount of the whole for 100 g of it; nothing when it has no weight.
fn per_100_g(amount: &Estimate, total: &Total) -> Option<Estimate> {
    (total.grams.best() > 0.0).then(|| amount.times(100.0 / total.grams.best()))
}

impl UseAnswer {
    fn of(one: &LineUse) -> UseAnswer {
        UseAnswer { step: one.step, share: one.share.and_then(Figure::of) }
    }
}

impl VariantAnswer {
    fn of(variant: &Variant) -> VariantAnswer {
        VariantAnswer {
            name: variant.offer.name.clone(),
            lines: variant.offer.lines.clone(),
            totals: TotalsAnswer::of(&variant.sheet),
        }
    }
}

impl Open {
    /// A figure, open upwards when part of it is not known.
    pub(super) fn of(estimate: &Estimate, at_least: bool) -> Open {
        let range = estimate.range();
        let high = (!at_least).then(|| Figure::sound(range.high()));
        Open { best: Figure::sound(range.best()), low: Figure::sound(range.low()), high }
    }
}

impl TotalsAnswer {
    fn of(sheet: &Sheet) -> TotalsAnswer {
        let total = &sheet.total;
        let open = !total.unweighed.is_empty();
        let (servings, pieces) = (sheet.servings(), sheet.pieces());
        let kept = sheet.kept.as_ref();
        let ready = sheet.ready(total);
        let grams_of_one = |number: &Option<Estimate>| {
            number.as_ref().map(|number| Open::of(&ready.grams.product(&number.inverse()), open))
        };
        let mut assumptions = kept.map(|kept| kept.why.clone()).unwrap_or_default();
        assumptions.push(composition::IN_WORDS.to_owned());
        assumptions.extend(too_little(total));
        TotalsAnswer {
            grams: Open::of(&total.grams, open),
            grams_baked: kept.map(|_| Open::of(&ready.grams, open)),
            grams_piece: grams_of_one(&pieces),
            grams_serving: grams_of_one(&servings),
            unweighed: total.unweighed.clone(),
            servings: servings.as_ref().map(|servings| servings.range().into()),
            assumptions,
            cost: None,
            nutrients: Nutrient::ALL
                .iter()
                .map(|nutrient| NutrientSum::of(*nutrient, total, &ready, (pieces.as_ref(), servings.as_ref())))
                .collect(),
        }
    }
}

/// What was said of foods that are not known and of which there is too little to matter.
fn too_little(total: &Total) -> Option<String> {
    let mut foods: Vec<String> = Vec::new();
    for food in Nutrient::ALL.iter().flat_map(|nutrient| total.nutrient(*nutrient).too_little) {
        if !foods.contains(&food) {
            foods.push(food);
        }
    }
    (!foods.is_empty()).then(|| {
        format!(
            "not all is known of what {} holds; where all it could hold is less than the doubt of a figure, the figure's high end was raised by that",
            foods.join(", ")
        )
    })
}

impl NutrientSum {
    fn of(
        nutrient: Nutrient,
        total: &Total,
        ready: &Total,
        (pieces, servings): (Option<&Estimate>, Option<&Estimate>),
    ) -> NutrientSum {
        let (sum, raw) = (ready.nutrient(nutrient), total.nutrient(nutrient));
        let open = !sum.unknown.is_empty() || !total.unweighed.is_empty();
        let of_one = |number: &Estimate| Open::of(&sum.amount.product(&number.inverse()), open);
        NutrientSum {
            name: nutrient.name().to_owned(),
            unit: nutrient.unit().to_owned(),
            batch: Open::of(&sum.amount, open),
            piece: pieces.map(of_one),
            serving: servings.map(of_one),
            per_100_g: per_100_g(&sum.amount, ready).map(|amount| Open::of(&amount, open)),
            per_100_g_raw: per_100_g(&raw.amount, total).map(|amount| Open::of(&amount, open)),
            unknown: sum.unknown.clone(),
            derived: sum.derived.clone(),
        }
    }
}

impl PlacedQueryAnswer {
    pub(super) fn of(placed: &Placed) -> PlacedQueryAnswer {
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
