//! What `evencrumb food --json` answers.

use evencrumb_pantry::row::{Citation, Cited, CupWeight, PieceWeight, Yield};
use evencrumb_pantry::{Food, Guess, Pantry, Table};
use serde::Serialize;

use super::{Figure, SCHEMA, Span};
use evencrumb_pantry::contents::{self, Contents, Origin};

/// All that is known of a food, or the nearest when the name is not known.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FoodAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The name that was asked for.
    pub asked: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it.
    pub kitchen_faults: Vec<String>,
    /// The food; null when no food here has this name.
    pub food: Option<FoodRow>,
    /// When there is no food: at most three whose names are near, nearest first.
    pub nearest: Vec<Near>,
}

/// A food whose name is near to what was asked. It is told and never used.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Near {
    /// The name that stays.
    pub id: String,
    /// The plain name.
    pub name: String,
    /// How near, from 0 to 1.
    pub nearness: Figure,
}

/// A food.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FoodRow {
    /// The name that stays, with hyphens between the words.
    pub id: String,
    /// The plain name.
    pub name: String,
    /// What else it is called.
    pub also: Vec<String>,
    /// What the kitchen's `foods.toml` says of it, a sentence each; empty where it says nothing.
    pub own: Vec<String>,
    /// The food as which `foods.toml` has it weighed and counted; null for all others.
    pub like: Option<String>,
    /// Grams in one US cup by the way of filling; the first is taken when a line names none.
    pub cup: Vec<CupAnswer>,
    /// Grams in one US teaspoon, where spoons were weighed apart from cups.
    pub teaspoon: Option<CitedGrams>,
    /// Grams of the edible part of one; the first is taken when a line names none.
    pub pieces: Vec<PieceAnswer>,
    /// The share of the weight as bought that is eaten; null when all of it is.
    pub edible: Option<CitedShare>,
    /// The juice of one medium fruit.
    pub juice: Option<GivenAnswer>,
    /// The zest of one medium fruit.
    pub zest: Option<GivenAnswer>,
    /// For a juice or zest: what one fruit gives of it.
    pub given_by: Vec<GivenAnswer>,
    /// What people with an allergy ask for, as `milk` or `tree nut: almond`. It says what the food is, never what a
    /// factory also handles, and it is no promise about a packet. Null when a row of the author's own leaves them out.
    pub allergens: Option<Vec<String>>,
    /// `none`, `contains`, `oats`, or `check` where packets differ; null when nobody says.
    pub gluten: Option<String>,
    /// Where its sugars count: `none`, `added`, `intrinsic`, `milk`, `juice`; null when nobody says.
    pub sugar: Option<String>,
    /// What it does in a recipe, the chief thing first.
    pub roles: Vec<String>,
    /// Whether an unknown word before the name makes it another food.
    pub strict: bool,
    /// The row of the table whose composition is this food's.
    pub table: Option<TableAnswer>,
    /// Why that row may stand in, when it is a near relative and not the food itself.
    pub stand_in: Option<String>,
    /// What 100 g hold; null when nobody knows.
    pub composition: Option<CompositionAnswer>,
}

/// A source, and where in it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SourceAnswer {
    /// The short name.
    pub source: String,
    /// The title as a reader would look for it.
    pub title: String,
    /// How well it was seen, as in the answers of `weigh`.
    pub status: String,
    /// The row of the table, where the source is one.
    pub row: Option<u32>,
    /// The words of the source's portion.
    pub portion: Option<String>,
    /// For a figure of the author's own: whose measure and which weighings, or the label; null for all others.
    pub words: Option<String>,
}

/// Grams with their source.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CitedGrams {
    /// Grams.
    pub grams: Span,
    /// Where they come from.
    pub from: SourceAnswer,
}

/// A share, from 0 to 1, with its source.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CitedShare {
    /// The share.
    pub share: Span,
    /// Where it comes from.
    pub from: SourceAnswer,
}

/// What one US cup weighs, filled in one way.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CupAnswer {
    /// How it is filled, as `spooned` or `chopped`; null when nobody says.
    pub way: Option<String>,
    /// Grams in one US cup of 236.6 ml.
    pub grams: Span,
    /// Where they come from.
    pub from: SourceAnswer,
    /// Why a liquid is lighter or heavier than liquids are.
    pub dense: Option<String>,
}

/// What one counted thing weighs.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PieceAnswer {
    /// What is counted, as `piece`, `stick` or `slice`.
    pub unit: String,
    /// How large, where the trade sorts by size.
    pub size: Option<String>,
    /// Grams of the edible part of one.
    pub grams: Span,
    /// Where they come from.
    pub from: SourceAnswer,
}

/// What one fruit gives of another food.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct GivenAnswer {
    /// The other food: what the fruit gives, or in `given_by` the fruit.
    pub food: String,
    /// Grams.
    pub grams: Span,
    /// Where they come from.
    pub from: SourceAnswer,
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TableAnswer {
    /// Its number in SR28.
    pub row: u32,
    /// Its description, brand words taken out; null when the packed table lacks the row.
    pub description: Option<String>,
    /// Its food group.
    pub group: Option<String>,
}

/// What 100 g of the edible part hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CompositionAnswer {
    /// How it is known.
    pub by: CompositionFrom,
    /// Where it comes from; for a mixture, where the shares do; null when nobody says.
    pub from: Option<SourceAnswer>,
    /// Of what it is mixed, when that is how it is known.
    pub parts: Vec<PartAnswer>,
    /// Every nutrient, those of a label first.
    pub nutrients: Vec<NutrientAnswer>,
}

/// How a composition is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum CompositionFrom {
    /// A row of the table.
    Table,
    /// The food's own row.
    Own,
    /// Mixed from its parts by their shares.
    Parts,
}

/// One part of a mixture.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PartAnswer {
    /// The food.
    pub food: String,
    /// Its share of the weight, from 0 to 1.
    pub share: Figure,
}

/// How much of a nutrient is in 100 g.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct NutrientAnswer {
    /// The plain name, as `saturated fat`.
    pub name: String,
    /// `kcal`, `g`, `mg` or `µg`.
    pub unit: String,
    /// How much; null when nobody knows, which is not zero.
    pub value: Option<Figure>,
    /// How it was reckoned, with its range, where no row says it; null where a row does.
    pub reckoned: Option<Reckoned>,
}

/// A value that no row gives and a rule does.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Reckoned {
    /// How, in words.
    pub how: String,
    /// The least it may be.
    pub low: Figure,
    /// The most it may be.
    pub high: Figure,
}

impl FoodAnswer {
    /// The answer for a name.
    pub fn of(asked: &str, pantry: &Pantry) -> FoodAnswer {
        let food = pantry.named(asked).map(|id| {
            let food = pantry.food(id);
            let given_by = pantry.given_by(id).map(|(fruit, given)| given_answer(&fruit.name, given, fruit)).collect();
            let meanings = pantry.meanings(id).map(|meaning| {
                let otherwise =
                    meaning.otherwise.map_or(String::new(), |food| format!(", and not {}", pantry.food(food).name));
                format!("“{}” means it in your kitchen{otherwise}", meaning.word)
            });
            let own = food.own.iter().cloned().chain(meanings).collect();
            FoodRow { own, ..FoodRow::of(food, given_by, pantry) }
        });
        let nearest = match food {
            Some(_) => Vec::new(),
            None => pantry.nearest(asked, 3).iter().map(Near::of).collect(),
        };
        FoodAnswer { schema: SCHEMA, asked: asked.to_owned(), kitchen_faults: Vec::new(), food, nearest }
    }
}

impl Near {
    fn of(guess: &Guess<'_>) -> Near {
        Near { id: guess.food.id.clone(), name: guess.food.name.clone(), nearness: Figure::sound(guess.nearness) }
    }
}

impl FoodRow {
    fn of(food: &Food, given_by: Vec<GivenAnswer>, pantry: &Pantry) -> FoodRow {
        FoodRow {
            id: food.id.clone(),
            name: food.name.clone(),
            also: food.also.clone(),
            own: Vec::new(),
            like: food.like.clone(),
            cup: food.cup.iter().map(|cup| cup_answer(cup, food)).collect(),
            teaspoon: food
                .teaspoon
                .as_ref()
                .map(|spoon| CitedGrams { grams: spoon.range.into(), from: source(&spoon.from, food) }),
            pieces: food.piece.iter().map(|piece| piece_answer(piece, food)).collect(),
            edible: food
                .edible
                .as_ref()
                .map(|edible: &Cited| CitedShare { share: edible.range.into(), from: source(&edible.from, food) }),
            juice: food.juice.as_ref().map(|given| given_answer(&given.food, given, food)),
            zest: food.zest.as_ref().map(|given| given_answer(&given.food, given, food)),
            given_by,
            allergens: (!food.allergens_untold || !food.allergens.is_empty())
                .then(|| food.allergens.iter().map(|it| it.name().to_owned()).collect()),
            gluten: food.gluten.map(|it| it.name().to_owned()),
            sugar: food.sugar.map(|it| it.name().to_owned()),
            roles: food.roles.iter().map(|it| it.name().to_owned()).collect(),
            strict: food.strict,
            table: food.table.map(|number| {
                let row = Table::embedded().row(number);
                TableAnswer {
                    row: number,
                    description: row.map(|row| row.description().to_owned()),
                    group: row.map(|row| row.group().to_owned()),
                }
            }),
            stand_in: food.stand_in.clone(),
            composition: contents::contents(food, pantry).map(|held| composition(&held, food)),
        }
    }
}

fn cup_answer(cup: &CupWeight, food: &Food) -> CupAnswer {
    CupAnswer {
        way: cup.way.map(|way| way.name().to_owned()),
        grams: cup.grams.range.into(),
        from: source(&cup.grams.from, food),
        dense: cup.dense.clone(),
    }
}

fn piece_answer(piece: &PieceWeight, food: &Food) -> PieceAnswer {
    PieceAnswer {
        unit: piece.unit.name().to_owned(),
        size: piece.size.map(|size| size.name().to_owned()),
        grams: piece.grams.range.into(),
        from: source(&piece.grams.from, food),
    }
}

/// `cited_by` is the food whose row says it, which names the row of the table when the citation does not.
fn given_answer(other: &str, given: &Yield, cited_by: &Food) -> GivenAnswer {
    GivenAnswer { food: other.to_owned(), grams: given.grams.range.into(), from: source(&given.grams.from, cited_by) }
}

fn composition(held: &Contents<'_>, food: &Food) -> CompositionAnswer {
    let (by, from) = match held.origin {
        Origin::Table(_) => {
            let table = evencrumb_measure::Source::by_id("sr28");
            let from = table.map(|it| Citation { source: it, row: food.table, portion: None, words: None });
            (CompositionFrom::Table, from.map(|from| source(&from, food)))
        }
        Origin::Own(citation) => (CompositionFrom::Own, Some(source(citation, food))),
        Origin::Mixed(citation) => (CompositionFrom::Parts, citation.map(|from| source(from, food))),
    };
    let parts = match by {
        CompositionFrom::Parts => {
            food.parts.iter().map(|it| PartAnswer { food: it.food.clone(), share: Figure::sound(it.share) }).collect()
        }
        CompositionFrom::Table | CompositionFrom::Own => Vec::new(),
    };
    let nutrients = held.values.iter().map(|(nutrient, value)| NutrientAnswer {
        name: nutrient.name().to_owned(),
        unit: nutrient.unit().to_owned(),
        value: value.and_then(|held| Figure::of(held.range.best())),
        reckoned: value.and_then(|held| {
            let how = held.known.in_words()?;
            Some(Reckoned { how, low: Figure::of(held.range.low())?, high: Figure::of(held.range.high())? })
        }),
    });
    CompositionAnswer { by, from, parts, nutrients: nutrients.collect() }
}

/// A citation of the table without a row means the food's own row.
fn source(citation: &Citation, food: &Food) -> SourceAnswer {
    let it = citation.source;
    SourceAnswer {
        source: it.id.clone(),
        title: it.title.clone(),
        status: it.status.clone(),
        row: citation.row.or(if it.id == "sr28" { food.table } else { None }),
        portion: citation.portion.clone(),
        words: citation.words.clone(),
    }
}
