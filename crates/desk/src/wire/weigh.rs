//! What `evencrumb weigh --json` answers.

use evencrumb_manuscript::line::{Amount, Kind, Term};
use evencrumb_manuscript::{Query, Weight};
use evencrumb_pantry::weigh::{Basis, Kitchen};
use evencrumb_pantry::{Food, Pantry};
use serde::Serialize;

use super::{Figure, SCHEMA, Span};
use crate::kitchen::{self, Found};
use evencrumb_sheet::eaten;
use evencrumb_sheet::line::{WeighedItem, WeighedLine};
use evencrumb_sheet::made::{Made, Origin};

/// One line, weighed.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WeighAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The line as it was given.
    pub text: String,
    /// What the line is.
    pub kind: LineKind,
    /// Whose measures, eggs, law and air were taken, in words.
    pub kitchen: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it. Left out
    /// in the lines of a sheet, which tells them once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kitchen_faults: Option<Vec<String>>,
    /// An entry for each food the line names, the first of alternatives only; empty when it is no ingredient.
    pub foods: Vec<ItemAnswer>,
    /// Whether it may be left out.
    pub optional: bool,
    /// Whether it is used in more than one place.
    pub divided: bool,
    /// Whether it speaks of what is left of something named before.
    pub remaining: bool,
    /// What it is for when it is not eaten whole, as `greasing` or `dusting`.
    pub purpose: Option<String>,
    /// What an unmeasured "plus more" is for; empty when the line does not say, null when there is no "more".
    pub more: Option<String>,
    /// The others of "or", in the shape of `foods`. They are never counted.
    pub alternatives: Vec<ItemAnswer>,
    /// What a careful reader would ask, in the order of the line.
    pub queries: Vec<QueryAnswer>,
}

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum LineKind {
    /// Nothing but space.
    Blank,
    /// Something that goes into the bowl.
    Ingredient,
    /// The head of a part of the recipe.
    Heading,
    /// How much the recipe makes.
    Yield,
    /// A thing to bake with.
    Equipment,
    /// An instruction.
    Step,
    /// An oven temperature.
    Temperature,
    /// A time.
    Time,
    /// How to keep it.
    Storage,
    /// Talk.
    Chatter,
}

/// A food of a line.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ItemAnswer {
    /// Which food; null when it is not known here, or when the line names another recipe instead (`reference`). A near
    /// name is never taken for it.
    pub food: Option<FoodName>,
    /// The food's name in the author's words.
    pub written: String,
    /// The first amount as written, a sum in its first unit; null when the line gives none, or only a
    /// word such as "a few".
    pub quantity: Option<Quantity>,
    /// Every amount of the line, the first as the author wrote it first, the others measures of the same.
    pub amounts: Vec<AmountAnswer>,
    /// Size of one: `small`, `medium`, `large`, `extra large`, `jumbo`.
    pub size: Option<String>,
    /// What is used of the counted thing, when that is not the whole: `zest`, `juice`, `white`, `yolk`.
    pub part: Option<String>,
    /// What is done to it, in the author's words.
    pub preparation: Option<String>,
    /// Whether it names another recipe or component instead of a food.
    pub reference: bool,
    /// Where what it names is made, and how much of it is taken; null for a food, and where a line is weighed alone.
    pub made: Option<MadeAnswer>,
    /// Grams as the line states or measures them; null when nobody can say.
    pub grams: Option<Span>,
    /// What of those grams is eaten; null when all of it is.
    pub eaten: Option<EatenAnswer>,
    /// What the grams lean on, in the order of the reckoning.
    pub basis: Vec<BasisAnswer>,
}

/// What is eaten of a food of a line, without peel and stones of what was weighed with them and without what stays in the
/// pan. Totals count this; the line keeps its grams.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EatenAnswer {
    /// Grams of it; null when the line has no weight.
    pub grams: Option<Span>,
    /// The share of the line's grams, from 0 to 1.
    pub share: Span,
    /// Why it is not all of it.
    pub why: String,
}

/// What a line takes of a component or of another manuscript.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MadeAnswer {
    /// What it is called where it is made.
    pub name: String,
    /// The title of the other manuscript; null when it is made in this one.
    pub manuscript: Option<String>,
    /// How much of it is taken, where 1 is all that is made at once; null when that is not known.
    pub share: Option<Span>,
}

/// A food by its names.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FoodName {
    /// The name that stays, with hyphens between the words.
    pub id: String,
    /// The plain name.
    pub name: String,
}

/// How much, in one unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Quantity {
    /// The number, or the lower end of "2 to 3".
    pub low: Figure,
    /// The number, or the upper end.
    pub high: Figure,
    /// The unit spelt out in the singular, as `tablespoon`; `piece` where things are counted.
    pub unit: String,
}

/// An amount term by term: `1 cup plus 2 tablespoons` is one cup with two tablespoons in `plus`.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AmountAnswer {
    /// The number of the first term, or the lower end of "2 to 3".
    pub low: Figure,
    /// The number of the first term, or the upper end.
    pub high: Figure,
    /// The unit of the first term, as in [`Quantity`].
    pub unit: String,
    /// Whether the author wrote "about".
    pub about: bool,
    /// How full the measure is: `heaped`, `scant`, `level`, `packed`, `sifted`, `spooned`, `dipped`.
    pub fill: Option<String>,
    /// What one of a counted thing holds: `14 ounces` in "2 (14 oz) cans".
    pub each: Option<Box<AmountAnswer>>,
    /// The further terms, in the order written.
    pub plus: Vec<TermAnswer>,
}

/// A further term of an amount.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct TermAnswer {
    /// The number, or the lower end of "2 to 3".
    pub low: Figure,
    /// The number, or the upper end.
    pub high: Figure,
    /// The unit, as in [`Quantity`].
    pub unit: String,
    /// Whether it is taken off ("1 cup minus 1 tablespoon").
    pub minus: bool,
}

/// One thing a figure leans on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BasisAnswer {
    /// What was taken, in words.
    pub words: String,
    /// The short name of the source.
    pub source: String,
    /// The title of the source as a reader would look for it.
    pub title: String,
    /// How well the source was seen: `read in the text`, `read in a copy`, `computed`, `common practice, no source`
    /// or `from memory`.
    pub status: String,
}

/// What a careful reader would ask.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct QueryAnswer {
    /// The short name of what is wrong, as `food-not-known`.
    pub name: String,
    /// How much it matters.
    pub weight: QueryWeight,
    /// Where in the line, in Unicode scalar values from 1.
    pub column: usize,
    /// What was read and what was taken instead.
    pub message: String,
    /// How to mend it.
    pub mend: String,
}

/// How much a query matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub enum QueryWeight {
    /// A figure is missing or wrong until it is mended; the program then ends with 1.
    #[serde(rename = "must mend")]
    MustMend,
    /// Something was taken that the author may not have meant.
    Look,
    /// Worth knowing, nothing to do.
    Note,
}

impl WeighAnswer {
    /// The answer for a weighed line; pantry and kitchen are those it was weighed with.
    pub fn of(line: &WeighedLine, pantry: &Pantry, found: &Found) -> WeighAnswer {
        let items =
            |items: &[WeighedItem]| items.iter().map(|it| ItemAnswer::of(line, it, pantry, found.kitchen)).collect();
        WeighAnswer {
            schema: SCHEMA,
            text: line.text.clone(),
            kind: line.read.kind.into(),
            kitchen: kitchen::in_words(found),
            kitchen_faults: None,
            foods: items(&line.foods),
            optional: line.read.optional,
            divided: line.read.divided,
            remaining: line.read.remaining,
            purpose: line.read.purpose.clone(),
            more: line.read.more.clone(),
            alternatives: items(&line.alternatives),
            queries: line.queries.iter().map(|query| QueryAnswer::of(query, line)).collect(),
        }
    }
}

impl ItemAnswer {
    fn of(line: &WeighedLine, one: &WeighedItem, pantry: &Pantry, kitchen: Kitchen) -> ItemAnswer {
        let item = &one.item;
        let grams = one.weighed.grams.as_ref();
        let quantity = item.amounts.first().filter(|amount| !amount.unnumbered).map(|amount| {
            let (low, high) = amount.quantity(kitchen.custom);
            let unit = amount.unit().name().to_owned();
            Quantity { low: Figure::sound(low), high: Figure::sound(high), unit }
        });
        ItemAnswer {
            food: item.food.filter(|_| !item.reference).map(|food| FoodName::of(pantry.food(food))),
            written: item.name.clone(),
            quantity,
            amounts: item.amounts.iter().map(AmountAnswer::of).collect(),
            size: item.size.clone(),
            part: item.part.clone(),
            preparation: Some(item.preparation.clone()).filter(|words| !words.is_empty()),
            reference: item.reference,
            made: one.made.as_deref().map(MadeAnswer::of),
            grams: grams.map(|grams| grams.range().into()),
            eaten: eaten::share(line, item, pantry).map(|(share, why)| EatenAnswer {
                grams: grams.map(|grams| grams.product(&share).range().into()),
                share: share.range().into(),
                why,
            }),
            basis: one.weighed.basis.iter().map(BasisAnswer::of).collect(),
        }
    }
}

impl MadeAnswer {
    fn of(made: &Made) -> MadeAnswer {
        let manuscript = match &made.origin {
            Origin::Component(_) => None,
            Origin::Manuscript { title, .. } => Some(title.clone()),
        };
        MadeAnswer { name: made.name.clone(), manuscript, share: made.share.as_ref().map(|share| share.range().into()) }
    }
}

impl AmountAnswer {
    fn of(amount: &Amount) -> AmountAnswer {
        let first = TermAnswer::of(&amount.terms[0]);
        AmountAnswer {
            low: first.low,
            high: first.high,
            unit: first.unit,
            about: amount.about,
            fill: amount.fill.clone(),
            each: amount.each.as_ref().map(|each| Box::new(AmountAnswer::of(each))),
            plus: amount.terms[1..].iter().map(TermAnswer::of).collect(),
        }
    }
}

impl TermAnswer {
    fn of(term: &Term) -> TermAnswer {
        TermAnswer {
            low: Figure::sound(term.low.value()),
            high: Figure::sound(term.high.value()),
            unit: term.unit.name().to_owned(),
            minus: term.minus,
        }
    }
}

impl FoodName {
    /// The names of a food.
    pub(super) fn of(food: &Food) -> FoodName {
        FoodName { id: food.id.clone(), name: food.name.clone() }
    }
}

impl BasisAnswer {
    pub(super) fn of(basis: &Basis) -> BasisAnswer {
        BasisAnswer {
            words: basis.words.clone(),
            source: basis.source.id.clone(),
            title: basis.source.title.clone(),
            status: basis.source.status.clone(),
        }
    }
}

impl QueryAnswer {
    pub(super) fn of(query: &Query, line: &WeighedLine) -> QueryAnswer {
        QueryAnswer {
            name: query.kind.name.to_owned(),
            weight: query.kind.weight.into(),
            column: line.column(query),
            message: query.message.clone(),
            mend: query.mend.clone(),
        }
    }
}

impl QueryWeight {
    /// The words people read.
    pub fn word(self) -> &'static str {
        match self {
            QueryWeight::MustMend => Weight::MustMend.word(),
            QueryWeight::Look => Weight::Look.word(),
            QueryWeight::Note => Weight::Note.word(),
        }
    }
}

impl From<Weight> for QueryWeight {
    fn from(weight: Weight) -> QueryWeight {
        match weight {
            Weight::MustMend => QueryWeight::MustMend,
            Weight::Look => QueryWeight::Look,
            Weight::Note => QueryWeight::Note,
        }
    }
}

impl From<Kind> for LineKind {
    fn from(kind: Kind) -> LineKind {
        match kind {
            Kind::Blank => LineKind::Blank,
            Kind::Ingredient => LineKind::Ingredient,
            Kind::Heading => LineKind::Heading,
            Kind::Yield => LineKind::Yield,
            Kind::Equipment => LineKind::Equipment,
            Kind::Step => LineKind::Step,
            Kind::Temperature => LineKind::Temperature,
            Kind::Time => LineKind::Time,
            Kind::Storage => LineKind::Storage,
            Kind::Chatter => LineKind::Chatter,
        }
    }
}
