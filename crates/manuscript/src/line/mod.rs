//! One line of an ingredient list: which foods, how much, in what state, and what the author added.
//!
//! ```
//! use evencrumb_manuscript::{FoodWords, line};
//! let foods: &[&str] = &["flour", "egg"];
//! let read = line::read("2 large eggs, beaten", foods);
//! assert_eq!(read.foods[0].name, "eggs");
//! assert_eq!(read.foods[0].preparation, "beaten");
//! ```
//!
//! Reading never fails. A line that is no ingredient says what it is ([`Kind`]); a food that is not known stays
//! without one and carries its words.

mod amount;
mod behind;
mod bracket;
mod custom;
mod cut;
mod fruit;
mod kind;
mod marker;
mod name;
mod number;
mod reader;
mod tail;

use std::ops::Range;

use crate::food_words::{FoodId, FoodWords};
use crate::query::{Query, QueryKind, Weight};

pub use amount::{Amount, Term, is_pack, is_sold_in_sizes};
pub use cut::Cut;
pub use name::key;

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Nothing but space.
    Blank,
    /// Something that goes into the bowl.
    Ingredient,
    /// The head of a component or of a part of the recipe.
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

impl Kind {
    /// What people call it, with its article.
    pub fn words(self) -> &'static str {
        match self {
            Kind::Blank => "an empty line",
            Kind::Ingredient => "an ingredient",
            Kind::Heading => "a heading",
            Kind::Yield => "what the recipe makes",
            Kind::Equipment => "a thing to bake with",
            Kind::Step => "a step of the method",
            Kind::Temperature => "an oven temperature",
            Kind::Time => "a time",
            Kind::Storage => "how to keep it",
            Kind::Chatter => "talk",
        }
    }
}

/// A line as read.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What the line is.
    pub kind: Kind,
    /// The foods it names, the first of alternatives only.
    pub foods: Vec<Item>,
    /// The others of "or".
    pub alternatives: Vec<Item>,
    /// Whether the author says it may be left out.
    pub optional: bool,
    /// Whether it is used in more than one place.
    pub divided: bool,
    /// Whether it speaks of what is left of something named before.
    pub remaining: bool,
    /// What the line is for when it is not eaten whole: `greasing`, `dusting`, `taste` and the others of `words.toml`.
    pub purpose: Option<String>,
    /// "plus more for …": what the unmeasured extra is for, empty when the line does not say.
    pub more: Option<String>,
    /// What a careful reader would ask.
    pub queries: Vec<Query>,
}

/// A food of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The food's name in the author's words, without amounts, states and notes.
    pub name: String,
    /// Bytes of the line where the name stands.
    pub place: Range<usize>,
    /// Which food it is, when the pantry knows.
    pub food: Option<FoodId>,
    /// Words before the name that are not known and were passed over.
    pub unknown: Vec<String>,
    /// What is used of the counted thing, when that is not the whole: `zest`, `juice`, `white`, `yolk`.
    pub part: Option<String>,
    /// The amounts, the first as the author wrote it first, the others measures of the same.
    pub amounts: Vec<Amount>,
    /// Size of one: `small`, `medium`, `large`, `extra large`, `jumbo`.
    pub size: Option<String>,
    /// How it lay in the measure: ways of filling in the pantry's words.
    pub ways: Vec<String>,
    /// What is done to it, in the author's words.
    pub preparation: String,
    /// Whether it names another recipe or component instead of a food ("half a batch of the sponge").
    pub reference: bool,
    /// Whether an amount stands in the line that could not be read, so that nothing may be weighed, not even a pinch.
    pub unread: bool,
}

/// A number that is no amount any kitchen holds.
pub static NUMBER_NOT_READ: QueryKind = QueryKind { name: "number-not-read", weight: Weight::MustMend };
/// A line that is no ingredient.
pub static NO_INGREDIENT: QueryKind = QueryKind { name: "no-ingredient", weight: Weight::Note };
/// A food that the pantry does not know.
pub static FOOD_NOT_KNOWN: QueryKind = QueryKind { name: "food-not-known", weight: Weight::MustMend };
/// A word before a known food that was passed over.
pub static WORD_PASSED_OVER: QueryKind = QueryKind { name: "word-passed-over", weight: Weight::Look };
/// A number without a unit for a food that is not counted.
pub static UNIT_MISSING: QueryKind = QueryKind { name: "unit-missing", weight: Weight::Look };
/// Digits that ran together: 21/2 for 2 1/2.
pub static NUMBER_RUN_TOGETHER: QueryKind = QueryKind { name: "number-run-together", weight: Weight::Look };
/// An amount in what was taken for a remark.
pub static AMOUNT_LEFT_OVER: QueryKind = QueryKind { name: "amount-left-over", weight: Weight::Look };
/// A measured extra that is told and not added.
pub static EXTRA_NOT_ADDED: QueryKind = QueryKind { name: "extra-not-added", weight: Weight::Look };
/// One amount for two foods.
pub static AMOUNT_SHARED: QueryKind = QueryKind { name: "amount-shared", weight: Weight::Look };
/// Words behind a food that may make another thing of it: a solution, a substitute.
pub static ANOTHER_FOOD: QueryKind = QueryKind { name: "another-food", weight: Weight::Look };
/// Words after "or" that name no food known here.
pub static OTHER_NOT_KNOWN: QueryKind = QueryKind { name: "other-not-known", weight: Weight::Look };
/// A point or a space that was taken to part thousands.
pub static NUMBER_WITH_THOUSANDS: QueryKind = QueryKind { name: "number-with-thousands", weight: Weight::Look };
/// A measured food with "chopped" behind it and no comma: measured before or after.
pub static CHOPPED_BEFORE_OR_AFTER: QueryKind = QueryKind { name: "chopped-before-or-after", weight: Weight::Look };
/// A part of a thing that is no food known here: the cores of apples.
pub static PART_NOT_WEIGHED: QueryKind = QueryKind { name: "part-not-weighed", weight: Weight::MustMend };
/// A measure whose size nobody knows: a bushel, a mug.
pub static MEASURE_NOT_READ: QueryKind = QueryKind { name: "measure-not-read", weight: Weight::MustMend };
/// An amount of nothing: "0 g sugar".
pub static AMOUNT_NOTHING: QueryKind = QueryKind { name: "amount-nothing", weight: Weight::Look };
/// An amount for each of something else: "1 cup per egg".
pub static AMOUNT_PER: QueryKind = QueryKind { name: "amount-per", weight: Weight::Look };
/// A raised figure behind a number, taken for the mark of a footnote.
pub static FOOTNOTE: QueryKind = QueryKind { name: "footnote", weight: Weight::Look };
/// Speech that takes back what it said before.
pub static SPOKEN_CORRECTION: QueryKind = QueryKind { name: "spoken-correction", weight: Weight::Look };
/// A line longer than is read.
pub static LINE_TOO_LONG: QueryKind = QueryKind { name: "line-too-long", weight: Weight::Look };

/// Reads one line.
pub fn read<F: FoodWords + ?Sized>(text: &str, foods: &F) -> Line {
    let short = crate::token::shortened(text);
    let mut line = read_cut(Cut::of(short), foods);
    if short.len() < text.len() {
        line.queries.push(Query::new(
            &LINE_TOO_LONG,
            short.len()..text.len(),
            format!("The line has {} characters; the first {} were read.", text.chars().count(), short.chars().count()),
            "Break it into several lines.",
        ));
    }
    line
}

/// Reads one line that is cut already, and no longer than is read.
pub(crate) fn read_cut<F: FoodWords + ?Sized>(cut: Cut<'_>, foods: &F) -> Line {
    reader::read(cut, &|name: &str| foods.food(name))
}

// What the reader of whole manuscripts needs of the line's machinery.
pub(crate) use amount::unit;
pub(crate) use name::key as words_key;
pub(crate) use number::may_open as may_open_number;
pub use number::{Numbers, number, numbers};

#[cfg(test)]
mod tests;
