//! A recipe made larger or smaller: what somebody wants, how many times the recipe that is, and each line said anew in
//! measures that a drawer holds.
//!
//! ```
//! use evencrumb_pantry::{Pantry, weigh::Kitchen};
//! use evencrumb_sheet::{Setting, scale, sheet, shelf};
//!
//! let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
//! let setting = Setting { pantry, kitchen, shelf: &shelf::Empty, pans: &[] };
//! let text = "Squares\n\nMakes 16 squares\n\n1 1/2 cups sugar\n3 eggs\n\nMethod\n1. Mix and bake.\n";
//! let manuscript = evencrumb_manuscript::read(text, pantry);
//! let sheet = sheet(text, &manuscript, pantry, kitchen);
//! let scaled = scale::to("24 squares", text, &manuscript, &sheet, &setting).expect("it can be computed");
//! let sugar = &scaled.components[0].lines[0].foods[0];
//! assert_eq!(sugar.now.as_ref().map(|now| now.words.as_str()), Some("2 1/4 cups"));
//! ```
//!
//! The author's text is never changed, and times are never scaled.

mod count;
mod eggs;
mod factor;
mod food;
mod line;
mod pan;
mod part;
mod scoop;
mod step;
mod target;
mod volume;
mod weight;

use evencrumb_manuscript::{Manuscript, QueryKind, Weight};
use evencrumb_measure::EggBatch;

use crate::fit::as_mine;
use crate::place::Lines;
use crate::sheet::{Placed, Setting, Sheet};

pub use eggs::{EggSplit, PART_OF_AN_EGG};
pub use factor::{Factor, in_words as factor_in_words};
pub use food::{Said, ScaledFood};
pub use line::{ScaledComponent, ScaledLine};
pub use step::StepAmount;
pub use target::{Target, read as read_target};

/// A text in which no ingredient was read.
pub static NOTHING_TO_SCALE: QueryKind = QueryKind { name: "nothing-to-scale", weight: Weight::MustMend };

/// A target that was not understood, or that this recipe can't be scaled to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// What was read and what is wrong with it; no full stop at its end.
    pub message: String,
    /// How to mend it.
    pub mend: String,
}

impl Refused {
    fn new(message: String, mend: &str) -> Refused {
        Refused { message, mend: mend.to_owned() }
    }
}

/// A recipe scaled.
#[derive(Clone, Debug)]
pub struct Scaled {
    /// How many times the recipe, and why.
    pub factor: Factor,
    /// The parts with their lines, as in the sheet.
    pub components: Vec<ScaledComponent>,
    /// Amounts that the method says and that must change.
    pub steps: Vec<StepAmount>,
    /// The batches nearest to this one that need no part of an egg; none when this one needs none.
    pub whole_egg_batches: Vec<EggBatch>,
    /// What a careful reader would ask about the new batch, in the order of the text.
    pub queries: Vec<Placed>,
}

/// Scales a recipe to a target in plain words. `text` is the text that `manuscript` was read from, and `sheet` its
/// sheet, which was computed in this `setting`.
///
/// # Errors
/// Gives what was not understood, or why this recipe can't be scaled to it, and how to mend that.
pub fn to(
    words: &str,
    text: &str,
    manuscript: &Manuscript,
    sheet: &Sheet,
    setting: &Setting<'_>,
) -> Result<Scaled, Refused> {
    let mut target = target::read(words)?;
    if let Target::Pans(wanted) = &mut target {
        *wanted = wanted.drain(..).map(|read| as_mine(read, words, setting.pans)).collect();
    }
    let (factor, mut queries) = factor::of(&target, text, manuscript, sheet, setting)?;
    let Setting { pantry, kitchen, .. } = *setting;
    let recipe = food::Recipe { factor: factor.times, cups: food::has_cups(sheet), pantry, kitchen };
    let part = factor.part.and_then(|part| sheet.components.get(part));
    let alone = part.map(|part| Sheet { components: vec![part.clone()], ..sheet.clone() });
    let of = alone.as_ref().unwrap_or(sheet);
    let components = line::components(of, &recipe, &mut queries);
    let whole_egg_batches = eggs::whole_batches(of, &recipe);
    if !whole_egg_batches.is_empty() {
        queries.extend(eggs::query(&components, &whole_egg_batches));
    }
    let steps = step::amounts(text, manuscript, sheet, factor.part, &recipe);
    if components.iter().all(|component| component.lines.is_empty()) {
        queries = vec![evencrumb_manuscript::Query::new(
            &NOTHING_TO_SCALE,
            0..0,
            "No ingredient line was read in this text, so there is nothing to scale.",
            "Write the ingredients a line each, with their amounts, as “1 1/2 cups (180 g) flour”.",
        )];
    }
    queries.sort_by_key(|query| (query.place.start, query.kind.weight));
    let places = Lines::of(text);
    let placed = |query: evencrumb_manuscript::Query| {
        let (line, column) = places.position(query.place.start);
        Placed { query, line, column }
    };
    Ok(Scaled { factor, components, steps, whole_egg_batches, queries: queries.into_iter().map(placed).collect() })
}

#[cfg(test)]
mod tests;
