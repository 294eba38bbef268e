//! What `evencrumb measures --json` answers.

use evencrumb_measure::{Measure, say};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::drawer;
use evencrumb_sheet::line::{WeighedItem, WeighedLine};
use serde::Serialize;

use super::{BasisAnswer, Figure, FoodName, QueryAnswer, SCHEMA, Span};

/// The weights of a line in measures that a drawer holds.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MeasuresAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The line as it was given.
    pub text: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it.
    pub kitchen_faults: Vec<String>,
    /// An entry for each food the line names.
    pub foods: Vec<InMeasuresAnswer>,
    /// What a careful reader would ask, in the order of the line.
    pub queries: Vec<QueryAnswer>,
}

/// One food in measures.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct InMeasuresAnswer {
    /// Which food; null when it is not known here.
    pub food: Option<FoodName>,
    /// The food's name in the author's words.
    pub written: String,
    /// Grams asked for; null when nobody can say.
    pub grams: Option<Span>,
    /// The scoops in words, as `1/2 cup plus 2 tablespoons`; null when no measure of the food is known.
    pub words: Option<String>,
    /// How many of which measure, largest first.
    pub scoops: Vec<ScoopAnswer>,
    /// How far the scoops are from the grams asked for, as a share of them; negative when they hold too little.
    pub error_share: Option<Figure>,
    /// Whether only a scale can be as exact as this food wants.
    pub scale_needed: bool,
    /// Grams that the scoops hold, with the doubt of how they are filled.
    pub holds: Option<Span>,
    /// What the filling leans on.
    pub basis: Vec<BasisAnswer>,
}

/// A number of one measure.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScoopAnswer {
    /// How many.
    pub count: u32,
    /// The size of the measure in its unit, as 0.5 for the half cup.
    pub size: Figure,
    /// The unit.
    pub unit: String,
}

impl MeasuresAnswer {
    /// The answer for a weighed line.
    pub fn of(line: &WeighedLine, pantry: &Pantry, kitchen: Kitchen) -> MeasuresAnswer {
        let asked = drawer::asked(line, pantry);
        MeasuresAnswer {
            schema: SCHEMA,
            text: line.text.clone(),
            kitchen_faults: Vec::new(),
            foods: line.foods.iter().map(|one| InMeasuresAnswer::of(one, pantry, kitchen)).collect(),
            queries: line.queries.iter().chain(&asked).map(|query| QueryAnswer::of(query, line)).collect(),
        }
    }
}

impl InMeasuresAnswer {
    fn of(one: &WeighedItem, pantry: &Pantry, kitchen: Kitchen) -> InMeasuresAnswer {
        let grams = one.weighed.grams.as_ref();
        let food = one.item.food.map(|id| pantry.food(id));
        let eggs = drawer::counted_eggs(one, pantry, kitchen);
        let (eggs, beaten) = eggs.map_or((None, None), |(words, found)| (Some(words), Some(found)));
        let found = beaten.or_else(|| {
            food.zip(grams).and_then(|(food, grams)| drawer::in_measures(grams.best(), food, &one.item.ways, kitchen))
        });
        InMeasuresAnswer {
            food: food.map(FoodName::of),
            written: one.item.name.clone(),
            grams: grams.map(|grams| grams.range().into()),
            words: eggs.or_else(|| found.as_ref().map(|found| say::scoops(&found.scoops))),
            scoops: found.as_ref().map(|found| ScoopAnswer::all(&found.scoops.scoops)).unwrap_or_default(),
            error_share: found.as_ref().and_then(|found| Figure::of(found.scoops.error_share)),
            scale_needed: found.as_ref().is_some_and(|found| found.scoops.scale_needed()),
            holds: found.as_ref().map(|found| found.grams.into()),
            basis: found.map(|found| found.basis.iter().map(BasisAnswer::of).collect()).unwrap_or_default(),
        }
    }
}

impl ScoopAnswer {
    /// The scoops of an amount, in their order.
    pub(super) fn all(scoops: &[(u32, Measure)]) -> Vec<ScoopAnswer> {
        let one = |(count, measure): &(u32, Measure)| ScoopAnswer {
            count: *count,
            size: Figure::sound(measure.size.value()),
            unit: measure.unit.name().to_owned(),
        };
        scoops.iter().map(one).collect()
    }
}
