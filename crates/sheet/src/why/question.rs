//! What is asked: a figure, and of what; or that it was not understood.

use evencrumb_measure::Number;
use evencrumb_pantry::Nutrient;

use crate::sheet::Sheet;

/// Which figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Grams.
    Grams,
    /// Money.
    Cost,
    /// A nutrient.
    Nutrient(Nutrient),
    /// Energy in kilojoules.
    Kilojoules,
    /// Salt as labels outside the USA count it: 2.5 times the sodium.
    Salt,
    /// Sugars of foods that count as added.
    AddedSugars,
    /// A nutrient in percent: grams in 100 g. Only while a question is read.
    PerHundred,
    /// How many it makes or serves.
    Yield,
    /// Which foods hold what people with an allergy ask for.
    Allergens,
    /// Water for 100 g of flours and starches.
    Hydration,
    /// The share of the flour that is in levain, poolish, biga or starter.
    Prefermented,
    /// The share of a line in its component.
    Share,
    /// Grams of a line for 100 g of the flours, starches and nut flours of its component.
    BakersPercent,
    /// How full the pan is.
    Full,
    /// How deep the batter stands in the pan.
    Deep,
}

/// Of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Of {
    /// The whole batch as it is eaten.
    Batch,
    /// The whole batch before heat.
    RawBatch,
    /// So many grams, raw or as it is eaten.
    Weighing {
        /// How many.
        grams: Number,
        /// Whether before heat.
        raw: bool,
    },
    /// A component, by number, raw.
    Component(usize),
    /// Lines: component and line.
    Lines(Vec<(usize, usize)>),
}

/// One of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// One serving, or one piece where servings are not said.
    Serving,
    /// One piece.
    Piece,
}

/// A question as understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Which figure.
    pub what: What,
    /// Of what.
    pub of: Of,
    /// Divided by what, if by anything.
    pub per: Option<Per>,
    /// How many servings or pieces it is asked of.
    pub times: Number,
    /// The figure as the page says it, where one was quoted.
    pub quoted: Option<f64>,
    /// Whether one of what a line counts is meant, as one egg of four.
    pub one: bool,
    /// What else was said: which pan, or which allergen.
    pub about: Vec<String>,
}

/// A question that was not understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{said}")]
pub struct Misunderstood {
    /// What was read and why it gives nothing.
    pub said: String,
    /// What can be asked.
    pub mend: String,
    /// The words, where they were not understood at all and questions near to them help.
    pub(super) near_to: Option<String>,
}

pub(super) fn refused(said: String, mend: &str) -> Misunderstood {
    Misunderstood { said, mend: mend.to_owned(), near_to: None }
}

impl Question {
    /// The whole of a figure, with nothing else said.
    pub(super) fn plain(what: What, of: Of) -> Question {
        Question { what, of, per: None, times: Number::ONE, quoted: None, one: false, about: Vec::new() }
    }
}

impl What {
    /// Whether it is no sum of which a part could be told.
    pub(super) fn is_the_same_for_any_part(self) -> bool {
        matches!(
            self,
            What::Hydration
                | What::Prefermented
                | What::Share
                | What::BakersPercent
                | What::Full
                | What::Deep
                | What::Yield
                | What::Allergens
        )
    }
}

pub(super) fn misunderstood(words: &str, sheet: &Sheet) -> Misunderstood {
    let parts: Vec<String> =
        sheet.components.iter().filter_map(|part| part.name.as_ref()).map(|name| format!("“{name}”")).collect();
    let parts = if parts.is_empty() { String::new() } else { format!(" Components here are {}.", parts.join(", ")) };
    Misunderstood {
        said: format!("“{}” was not understood as a question about this sheet", words.trim()),
        mend: format!(
            "You can ask for a weight, a cost, energy or any nutrient (of a serving, a piece, 100 g, a component, a line or an ingredient), for a share or baker’s percentage, hydration, how full or how deep the pan is, and allergens.{parts}"
        ),
        near_to: Some(words.to_owned()),
    }
}
