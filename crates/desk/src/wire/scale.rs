//! What `evencrumb scale --json` answers.

use evencrumb_manuscript::Yield;
use evencrumb_measure::{EggBatch, EggPart, Pan, Read, Shape, Style, say};
use evencrumb_pantry::Pantry;
use evencrumb_sheet::Sheet;
use evencrumb_sheet::scale::{self, EggSplit, Said, Scaled, ScaledComponent, ScaledFood, ScaledLine, StepAmount};
use serde::Serialize;

use super::sheet::{Open, PlacedQueryAnswer, YieldAnswer};
use super::{Figure, FoodName, SCHEMA, ScoopAnswer, Span};
use crate::kitchen::{self, Found};

/// A recipe scaled.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScaleAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The title; null when none was found.
    pub title: Option<String>,
    /// Whose measures, eggs, law and air were taken, in words.
    pub kitchen: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it.
    pub kitchen_faults: Vec<String>,
    /// The target in the words that were given.
    pub asked: String,
    /// How many times the recipe the new batch is.
    pub factor: Figure,
    /// The same in words, as `2 1/2` or `about 0.374`.
    pub factor_words: String,
    /// Why it is so many times, in whole sentences.
    pub how: String,
    /// The heading of the part that is scaled alone, when one was named; null when all of the recipe is scaled.
    pub part: Option<String>,
    /// What the new batch makes, as far as the text says what the recipe makes; not rounded.
    #[serde(rename = "yield")]
    pub makes: YieldAnswer,
    /// Grams of the new batch, or of the part, that are eaten, raw. What greases pans is taken to grow with it.
    pub grams: Open,
    /// The parts, in the order written.
    pub components: Vec<ScaledComponentAnswer>,
    /// Amounts that the method says and that must change, in the order of the text.
    pub steps: Vec<StepAmountAnswer>,
    /// The batches nearest to this one that need no part of an egg; empty when this one needs none.
    pub whole_egg_batches: Vec<EggBatchAnswer>,
    /// What a careful reader would ask about the new batch, in the order of the text.
    pub queries: Vec<PlacedQueryAnswer>,
}

/// A part of the recipe, scaled.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScaledComponentAnswer {
    /// What heads it; null for a list without a heading.
    pub name: Option<String>,
    /// Grams that are eaten of it.
    pub grams: Open,
    /// Its ingredient lines.
    pub lines: Vec<ScaledLineAnswer>,
}

/// An ingredient line, scaled.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScaledLineAnswer {
    /// Its number in the manuscript, from 1.
    pub line: usize,
    /// The line as the author wrote it.
    pub text: String,
    /// An entry for each food the line names.
    pub foods: Vec<ScaledFoodAnswer>,
    /// The others of "or" that have an amount of their own.
    pub alternatives: Vec<ScaledFoodAnswer>,
    /// What else must be said, in whole sentences.
    pub notes: Vec<String>,
}

/// A food of a line, scaled.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScaledFoodAnswer {
    /// Which food; null when it is not known here.
    pub food: Option<FoodName>,
    /// The food's name in the author's words.
    pub written: String,
    /// The new amount; null when the line says none, or when it does not grow with the batch (`notes` then says why).
    pub now: Option<SaidAnswer>,
    /// Another way to say it: beaten egg beside whole eggs, a measure beside a weight.
    pub or: Option<SaidAnswer>,
    /// The new grams; null when nobody knows what the line weighs, or when it does not grow with the batch.
    pub grams: Option<Span>,
    /// The new grams as a scale is read: in steps of 0.1 below 5 g, of 1 below 100 g and of 5 above; finer for what
    /// raises, salts or binds.
    pub printed_grams: Option<Figure>,
    /// How far the printed grams are from the exact ones, as a share of them.
    pub printed_error_share: Option<Figure>,
    /// Where eggs don't come out whole: the ways to put them into the bowl.
    pub eggs: Option<EggSplitAnswer>,
    /// What else must be said, in whole sentences.
    pub notes: Vec<String>,
}

/// An amount in words and scoops.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SaidAnswer {
    /// As a cook follows it, as `2 1/4 cups`.
    pub words: String,
    /// How far it is from the exact amount, as a share of it; negative when it is too little.
    pub error_share: Figure,
    /// How many of which measure, largest first; empty where nothing is scooped, and for "2 to 3".
    pub scoops: Vec<ScoopAnswer>,
    /// Whether only a scale can be as exact as this food wants.
    pub scale_needed: bool,
    /// Whether it is less than a kitchen can measure.
    pub too_little: bool,
}

/// Eggs that don't come out whole.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EggSplitAnswer {
    /// How many eggs it would be.
    pub eggs: Figure,
    /// Whole eggs of the nearest way without a scale.
    pub whole: u32,
    /// What goes in beside them: `yolk`, `white`, or null.
    pub part: Option<String>,
    /// How much egg that is too much or, negative, too little, in grams.
    pub error_grams: Figure,
    /// Whole eggs of the way with a scale or spoons.
    pub beaten_whole: u32,
    /// Grams of another egg, beaten, beside them.
    pub beaten_grams: Figure,
    /// The same in spoons.
    pub beaten_words: String,
}

/// A batch that needs no part of an egg.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EggBatchAnswer {
    /// How many times the recipe it is.
    pub factor: Figure,
    /// The same in words.
    pub factor_words: String,
}

/// An amount that the method says.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StepAmountAnswer {
    /// The step, from 1; null for a weight that stands outside the method.
    pub step: Option<usize>,
    /// Line of the manuscript, from 1.
    pub line: usize,
    /// The amount as written.
    pub written: String,
    /// Of what, in the author's words.
    pub of: String,
    /// The new amount.
    pub now: SaidAnswer,
}

impl ScaleAnswer {
    /// The answer for a recipe scaled to `asked`; the sheet is the one it was scaled from.
    pub fn of(asked: &str, scaled: &Scaled, sheet: &Sheet, pantry: &Pantry, found: &Found) -> ScaleAnswer {
        let times = scaled.factor.times;
        let part = scaled.factor.part.and_then(|part| sheet.components.get(part));
        let total = part.map_or(&sheet.total, |part| &part.total);
        let grams = total.grams.times(times);
        // A part alone makes no cake.
        let makes = if part.is_some() { Yield::default() } else { makes(&sheet.makes, times, &scaled.factor.pans) };
        ScaleAnswer {
            schema: SCHEMA,
            title: sheet.title.clone(),
            kitchen: kitchen::in_words(found),
            kitchen_faults: Vec::new(),
            asked: asked.to_owned(),
            factor: Figure::sound(times),
            factor_words: scale::factor_in_words(times),
            how: scaled.factor.how.clone(),
            part: part.map(|part| part.heading().to_owned()),
            makes: YieldAnswer::of(&makes),
            grams: Open::of(&grams, !total.unweighed.is_empty()),
            components: scaled.components.iter().map(|one| ScaledComponentAnswer::of(one, pantry)).collect(),
            steps: scaled.steps.iter().map(StepAmountAnswer::of).collect(),
            whole_egg_batches: scaled.whole_egg_batches.iter().map(EggBatchAnswer::of).collect(),
            queries: scaled.queries.iter().map(PlacedQueryAnswer::of).collect(),
        }
    }
}

/// What the new batch makes. The words for the whole ("one 9-inch cake") are of the old one and are left out, and so is
/// the number of it: nobody bakes two and a half cakes of one size.
fn makes(makes: &Yield, times: f64, pans: &[Read]) -> Yield {
    let scaled = |(low, high): (f64, f64)| (low * times, high * times);
    if let Some((cups, word)) = cups(pans) {
        let servings = makes.servings.map(scaled);
        return Yield { word: Some(word), pieces: Some((cups, cups)), servings, ..Yield::default() };
    }
    let pieces = makes.pieces.filter(|(_, high)| makes.container.is_none() || *high > 2.0);
    Yield {
        word: makes.word.clone().filter(|_| pieces.is_some()),
        pieces: pieces.map(scaled),
        servings: makes.servings.map(scaled),
        container: None,
        grams_each: makes.grams_each.filter(|_| pieces.is_some()),
    }
}

/// In muffin tins there is a piece for each cup.
fn cups(pans: &[Read]) -> Option<(f64, String)> {
    let tins: Vec<(u32, &Pan)> = pans.iter().filter_map(|read| Some((read.count, read.pan.as_ref()?))).collect();
    let first = tins.first().filter(|_| tins.iter().all(|(_, pan)| pan.shape() == Shape::Muffin))?;
    let word = match first.1.style() {
        Style::Mini => "mini muffins",
        Style::Jumbo => "jumbo muffins",
        _ => "muffins",
    };
    Some((tins.iter().map(|(count, pan)| f64::from(count * pan.count())).sum(), word.to_owned()))
}

impl ScaledComponentAnswer {
    fn of(component: &ScaledComponent, pantry: &Pantry) -> ScaledComponentAnswer {
        ScaledComponentAnswer {
            name: component.name.clone(),
            grams: Open::of(&component.grams, component.at_least),
            lines: component.lines.iter().map(|line| ScaledLineAnswer::of(line, pantry)).collect(),
        }
    }
}

impl ScaledLineAnswer {
    fn of(line: &ScaledLine, pantry: &Pantry) -> ScaledLineAnswer {
        let foods = |foods: &[ScaledFood]| foods.iter().map(|food| ScaledFoodAnswer::of(food, pantry)).collect();
        ScaledLineAnswer {
            line: line.number,
            text: line.text.clone(),
            foods: foods(&line.foods),
            alternatives: foods(&line.alternatives),
            notes: line.notes.clone(),
        }
    }
}

impl ScaledFoodAnswer {
    fn of(food: &ScaledFood, pantry: &Pantry) -> ScaledFoodAnswer {
        ScaledFoodAnswer {
            food: food.food.map(|id| FoodName::of(pantry.food(id))),
            written: food.written.clone(),
            now: food.now.as_ref().map(SaidAnswer::of),
            or: food.or.as_ref().map(SaidAnswer::of),
            grams: food.grams.map(Span::from),
            printed_grams: food.printed_grams.and_then(Figure::of),
            printed_error_share: food.printed_error_share.and_then(Figure::of),
            eggs: food.eggs.as_ref().map(EggSplitAnswer::of),
            notes: food.notes.clone(),
        }
    }
}

impl SaidAnswer {
    fn of(said: &Said) -> SaidAnswer {
        SaidAnswer {
            words: said.words.clone(),
            error_share: Figure::sound(said.error_share),
            scoops: ScoopAnswer::all(&said.scoops),
            scale_needed: said.scale_needed,
            too_little: said.too_little,
        }
    }
}

impl EggSplitAnswer {
    fn of(split: &EggSplit) -> EggSplitAnswer {
        let part = match split.nearest.part {
            EggPart::None => None,
            EggPart::Yolk => Some("yolk"),
            EggPart::White => Some("white"),
        };
        EggSplitAnswer {
            eggs: Figure::sound(split.eggs),
            whole: split.nearest.whole,
            part: part.map(str::to_owned),
            error_grams: Figure::sound(split.nearest.error_grams),
            beaten_whole: split.beaten.whole,
            beaten_grams: Figure::sound(split.beaten.grams),
            beaten_words: say::scoops(&split.beaten.spoons),
        }
    }
}

impl EggBatchAnswer {
    fn of(batch: &EggBatch) -> EggBatchAnswer {
        let factor = batch.factor.value();
        EggBatchAnswer { factor: Figure::sound(factor), factor_words: scale::factor_in_words(factor) }
    }
}

impl StepAmountAnswer {
    fn of(amount: &StepAmount) -> StepAmountAnswer {
        StepAmountAnswer {
            step: amount.step,
            line: amount.line,
            written: amount.written.clone(),
            of: amount.of.clone(),
            now: SaidAnswer::of(&amount.now),
        }
    }
}
