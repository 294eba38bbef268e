//! A whole manuscript: title, facts, components with their lines, method, notes, and what every byte of it is.
//!
//! ```
//! use evencrumb_manuscript::read;
//! let foods: &[&str] = &["flour", "egg"];
//! let manuscript = read("Plain Cake\n\n2 cups flour\n3 eggs\n\nMix and bake.\n", foods);
//! assert_eq!(manuscript.title.as_deref(), Some("Plain Cake"));
//! assert_eq!(manuscript.components[0].lines.len(), 2);
//! ```
//!
//! Reading never fails. What a row is goes by where it stands: between ingredients a row is an ingredient unless
//! clearly something else, in the method everything is a step.

mod fact;
mod furniture;
mod list;
mod optional;
mod reader;
mod repeated;
mod rows;
mod section;
mod vocabulary;

use std::ops::Range;

use crate::figures::Heat;
use crate::food_words::FoodWords;
use crate::line::Line;
use crate::method::{Measured, Step};
use crate::query::{Query, QueryKind, Weight};

pub use fact::{Fact, FactKind, PANS, Yield};

/// A manuscript as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Manuscript {
    /// What it is called.
    pub title: Option<String>,
    /// What the author tells before the recipe.
    pub headnote: String,
    /// What it makes, its pan, oven and times.
    pub facts: Vec<Fact>,
    /// The parts of the ingredient list.
    pub components: Vec<Component>,
    /// The method.
    pub steps: Vec<Step>,
    /// By component and line, the byte where a step first names it; nothing for what no step takes.
    pub first_uses: Vec<Vec<Option<usize>>>,
    /// Notes, by their places.
    pub notes: Vec<Range<usize>>,
    /// What batters, layers and pieces weigh as the author says.
    pub measured: Vec<Measured>,
    /// What every byte of the text is, in order and without gaps.
    pub nodes: Vec<Node>,
    /// Where a second recipe stands, which is not read.
    pub second: Option<Range<usize>>,
    /// What a careful reader would ask; those of a line stand in its [`LineRead`].
    pub queries: Vec<Query>,
}

impl Manuscript {
    /// The step that a byte stands in. Steps stand in the order of the text.
    pub fn step_at(&self, at: usize) -> Option<&Step> {
        let behind = self.steps.partition_point(|step| step.place.start <= at);
        self.steps[..behind].last().filter(|step| step.place.contains(&at))
    }

    /// The oven's temperature: the one of the facts, else the first of the method.
    pub fn oven(&self) -> Option<&Heat> {
        let stated = |kind| self.facts.iter().filter(move |fact| fact.kind == kind).find_map(|fact| fact.heats.first());
        stated(FactKind::Oven)
            .or_else(|| stated(FactKind::Pan))
            .or_else(|| stated(FactKind::BakeTime))
            .or_else(|| stated(FactKind::PrepTime))
            .or_else(|| stated(FactKind::TotalTime))
            .or_else(|| self.steps.iter().flat_map(|step| &step.heats).find(|heat| heat.celsius >= 90.0))
    }
}

/// A part of the ingredient list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Component {
    /// Its heading as written, without colon, rules or stars; `None` when there is none.
    pub name: Option<String>,
    /// Bytes of its heading and lines.
    pub place: Range<usize>,
    /// Its lines.
    pub lines: Vec<LineRead>,
}

/// An ingredient line with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct LineRead {
    /// Bytes of the manuscript, without bullet or number.
    pub place: Range<usize>,
    /// What was read: the line as written with single spaces. Places in [`LineRead::line`] are bytes of this text.
    pub text: String,
    /// The reading.
    pub line: Line,
}

/// A stretch of the text and what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What it is.
    pub kind: NodeKind,
    /// Its bytes.
    pub place: Range<usize>,
}

/// What a stretch of the text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NodeKind {
    /// The title.
    Title,
    /// What the author tells first.
    Headnote,
    /// A fact.
    Fact,
    /// A heading.
    Heading,
    /// An ingredient line.
    IngredientLine,
    /// A step of the method.
    Step,
    /// A note.
    Note,
    /// What a web page or a scanner left behind.
    Junk,
    /// A second recipe in the same text.
    SecondRecipe,
    /// Nothing.
    Blank,
}

/// A second recipe in the text.
pub static SECOND_RECIPE: QueryKind = QueryKind { name: "second-recipe", weight: Weight::MustMend };
/// A number that a scanner read as a letter.
pub static SCANNED_NUMBER: QueryKind = QueryKind { name: "scanned-number", weight: Weight::Look };
/// What looks like an ingredient stands outside the list: before it, in a step or in a note.
pub static OUTSIDE_THE_LIST: QueryKind = QueryKind { name: "ingredient-outside-the-list", weight: Weight::Look };
/// A list with amounts for several batches side by side, of which the first is taken.
pub static COLUMN_TAKEN: QueryKind = QueryKind { name: "first-column-taken", weight: Weight::Look };
/// No ingredient was found.
pub static NO_LINES: QueryKind = QueryKind { name: "no-ingredients-found", weight: Weight::MustMend };
/// No step was found.
pub static NO_STEPS: QueryKind = QueryKind { name: "no-method-found", weight: Weight::Look };
/// No title was found.
pub static NO_TITLE: QueryKind = QueryKind { name: "no-title-found", weight: Weight::Look };
/// The ingredients were taken out of sentences.
pub static LINES_FROM_PROSE: QueryKind = QueryKind { name: "ingredients-from-sentences", weight: Weight::Look };

/// A part whose heading says that it is made more than once, or for each of several.
pub static PART_REPEATED: QueryKind = QueryKind { name: "part-repeated", weight: Weight::Look };
/// Two parts that look like two sizes of one.
pub static PARTS_OF_TWO_SIZES: QueryKind = QueryKind { name: "parts-of-two-sizes", weight: Weight::Look };

/// Reads a manuscript.
pub fn read<F: FoodWords + ?Sized>(text: &str, foods: &F) -> Manuscript {
    reader::read(text, foods)
}

#[cfg(test)]
mod tests;
