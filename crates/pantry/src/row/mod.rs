//! One food as its row says it: names, weights of measures, what it holds, what it does.
//!
//! Our rows and the author's own `foods.toml` are read by the same reader, so nothing here may stop at a fault: what
//! can be read is used, and what cannot is a [`Fault`] with its place and its mend. What the words mean is told in
//! `data/README.md`.
//!
//! ```
//! use evencrumb_pantry::row::{Whose, read};
//!
//! let text = "[[food]]\nname = \"teff flour\"\ncup = [{ way = \"spooned\", best = 160, low = 140, high = 180 }]";
//! let (foods, faults) = read("foods.toml", text, Whose::Author);
//! assert_eq!(foods[0].cup[0].grams.range.best(), 160.0);
//! assert_eq!(foods[0].cup[0].grams.from.source.id, "own");
//! assert!(faults.is_empty());
//! ```

mod fault;
mod reader;
mod word;

use evencrumb_measure::{Range, Source, Unit};
use serde::{Deserialize, Serialize};

use crate::nutrient::Nutrient;

pub use fault::{Fault, Place};
pub use reader::read;
pub(crate) use reader::{FOOD_KEYS, Fields, Reader, UNSAID, Value};
pub use word::{Allergen, Gluten, Role, Size, SugarKind, Way};

/// Whose rows are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Ours: every value names its source and its range.
    Ours,
    /// The author's: a value without a source is her own, and one without a range is taken to 15 % either side.
    Author,
}

/// A food.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Food {
    /// The name with hyphens between the words.
    pub id: String,
    /// The plain name, singular and lower case.
    pub name: String,
    /// What else it is called.
    pub also: Vec<String>,
    /// The row of the table whose composition is this food's.
    pub table: Option<u32>,
    /// Why that row may stand in, when it is a near relative and not the food itself.
    pub stand_in: Option<String>,
    /// Grams in one US cup, for each way of filling it; the first is used when a line names none.
    pub cup: Vec<CupWeight>,
    /// Grams in one US teaspoon, where spoons were weighed apart from cups.
    pub teaspoon: Option<Cited>,
    /// Grams of the edible part of one; the first is used when a line names none.
    pub piece: Vec<PieceWeight>,
    /// The share of the weight as bought that is eaten; all of it when there is none.
    pub edible: Option<Cited>,
    /// The juice of one medium fruit.
    pub juice: Option<Yield>,
    /// The zest of one medium fruit.
    pub zest: Option<Yield>,
    /// What people with an allergy ask for.
    pub allergens: Vec<Allergen>,
    /// Whether a row of the author's own leaves them out, so that nobody may say that it holds none. Ours tell all.
    #[serde(skip)]
    pub allergens_untold: bool,
    /// Whether it holds gluten; `None` when the row does not say, and then nobody may say that it holds none.
    pub gluten: Option<Gluten>,
    /// Where its sugars count; `None` when the row does not say.
    pub sugar: Option<SugarKind>,
    /// What it does in a recipe, the chief thing first.
    pub roles: Vec<Role>,
    /// Whether an unknown word before the name makes it another food.
    pub strict: bool,
    /// Names of it that mean another food when they are measured in certain ways.
    pub meant: Vec<Meant>,
    /// What 100 g hold, when no row of the table says it.
    pub composition: Option<Composition>,
    /// The food whose composition it has in a kitchen with the measures of the UK or Australia, where the trade means
    /// another by the name.
    pub abroad: Option<String>,
    /// Of what it is mixed, when that says what it holds.
    pub parts: Vec<Part>,
    /// Where the shares of the parts come from.
    pub parts_from: Option<Citation>,
    /// The food as which an author has this one weighed and counted.
    #[serde(skip)]
    pub like: Option<String>,
    /// What the author's own file says of it, in sentences.
    #[serde(skip)]
    pub own: Vec<String>,
    /// Where the row stands.
    #[serde(skip)]
    pub place: Place,
}

/// A value with its range and its source.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cited {
    /// The value: grams, or a share for [`Food::edible`].
    pub range: Range,
    /// Where it comes from.
    pub from: Citation,
    /// Where it is written.
    #[serde(skip)]
    pub place: Place,
}

/// What a value leans on.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Citation {
    /// The source.
    #[serde(with = "source_number")]
    pub source: &'static Source,
    /// The row of the source, when it is not the food's own.
    pub row: Option<u32>,
    /// The words of the source's portion.
    pub portion: Option<String>,
    /// For a figure of the author's own: what she says it comes from.
    pub words: Option<String>,
}

impl PartialEq for Citation {
    fn eq(&self, other: &Citation) -> bool {
        (&self.source.id, self.row, &self.portion, &self.words)
            == (&other.source.id, other.row, &other.portion, &other.words)
    }
}

/// What one cup weighs, filled in one way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CupWeight {
    /// How it is filled; `None` when the row does not say.
    pub way: Option<Way>,
    /// Grams in one US cup.
    pub grams: Cited,
    /// Why a liquid may be lighter or heavier than liquids are.
    pub dense: Option<String>,
}

/// What one counted thing weighs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PieceWeight {
    /// What is counted.
    pub unit: Unit,
    /// How large, where the trade sorts by size.
    pub size: Option<Size>,
    /// Grams of the edible part of one.
    pub grams: Cited,
}

/// What one medium fruit gives of another food.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Yield {
    /// The name of what it gives.
    pub food: String,
    /// Grams of it.
    pub grams: Cited,
}

/// A name that means another food by how it is measured: a teaspoon of red pepper is the spice.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Meant {
    /// The name, one of the food's own.
    pub name: String,
    /// Units, and ways of filling, with which it means the other food.
    pub by: Vec<By>,
    /// The other food.
    pub food: String,
    /// Where it is written.
    #[serde(skip)]
    pub place: Place,
}

/// How something is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum By {
    /// In this unit.
    Unit(Unit),
    /// Filled or made so.
    Way(Way),
}

/// What 100 g of the edible part hold, as far as it is known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Composition {
    /// Each nutrient once, in the unit of the nutrient.
    pub values: Vec<(Nutrient, f64)>,
    /// Where they come from.
    pub from: Citation,
    /// Where they are written.
    #[serde(skip)]
    pub place: Place,
}

impl Composition {
    /// How much of it is in 100 g; `None` when the row does not say.
    pub fn value(&self, nutrient: Nutrient) -> Option<f64> {
        self.values.iter().find(|(it, _)| *it == nutrient).map(|(_, value)| *value)
    }
}

/// One part of a mixture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// The name of the food.
    pub food: String,
    /// Its share of the weight, from 0 to 1.
    pub share: f64,
}

impl Food {
    /// Its name and everything else it is called.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.name).chain(&self.also).map(String::as_str)
    }

    /// What one cup weighs filled this way; without a way, as the row's first entry has it.
    pub fn cup_filled(&self, way: Option<Way>) -> Option<&CupWeight> {
        match way {
            Some(way) => self.cup.iter().find(|cup| cup.way == Some(way)),
            None => self.cup.first(),
        }
    }
}

/// A source is packed as its number in the list of sources, which is compiled into reader and packer alike.
mod source_number {
    use evencrumb_measure::Source;
    use serde::de::Error as _;
    use serde::{Deserialize as _, Deserializer, Serialize as _, Serializer};

    pub fn serialize<S: Serializer>(source: &&'static Source, to: S) -> Result<S::Ok, S::Error> {
        Source::all().iter().position(|it| it == *source).serialize(to)
    }

    pub fn deserialize<'d, D: Deserializer<'d>>(from: D) -> Result<&'static Source, D::Error> {
        let number = Option::<usize>::deserialize(from)?;
        number.and_then(|at| Source::all().get(at)).ok_or_else(|| D::Error::custom("no such source"))
    }
}

#[cfg(test)]
mod tests;
