//! The method: what each step says of heat, time and when it is done, and which ingredients it takes.

mod index;
mod link;
mod measured;
mod share;
mod step;
#[cfg(test)]
mod trial;

use std::ops::Range;

use crate::figures::{Heat, Minutes};
use crate::query::{QueryKind, Weight};

pub use link::link;
pub use step::{sentences, step};

/// A step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Step {
    /// Bytes of the manuscript, without its number.
    pub place: Range<usize>,
    /// Its sentences.
    pub sentences: Vec<Range<usize>>,
    /// Temperatures of the oven; those of water, jam or crumb stand in `inside`.
    pub heats: Vec<Heat>,
    /// Temperatures of what is cooked.
    pub inside: Vec<Heat>,
    /// Times.
    pub times: Vec<Minutes>,
    /// "until …", as written.
    pub done: Vec<Range<usize>>,
    /// Words for what it is baked in.
    pub pans: Vec<Range<usize>>,
    /// Whether something is cooked in it, so that water goes off.
    pub cooks: bool,
    /// The component it works on, when that can be told.
    pub component: Option<usize>,
    /// The ingredient lines it takes.
    pub uses: Vec<Use>,
}

impl Step {
    /// The sentence that a byte stands in.
    pub fn sentence_at(&self, at: usize) -> Option<&Range<usize>> {
        let behind = self.sentences.partition_point(|sentence| sentence.start <= at);
        self.sentences[..behind].last().filter(|sentence| sentence.contains(&at))
    }
}

/// A line that a step takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Use {
    /// The component, by number.
    pub component: usize,
    /// The line of the component, by number.
    pub line: usize,
    /// How much of it.
    pub share: Share,
    /// Where the step names it.
    pub place: Range<usize>,
}

/// How much of a line a step takes.
#[derive(Clone, Debug, PartialEq)]
pub enum Share {
    /// All, as far as the step says.
    All,
    /// A part, as one half.
    Part(f64),
    /// An amount, in the author's words.
    Amount(String),
    /// What is left, with the amount when one is said.
    Remaining(Option<String>),
    /// What was put aside.
    Reserved,
}

/// A weight the author gives in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What weighs it: batter, layer.
    pub what: String,
    /// Grams, lowest and highest.
    pub grams: (f64, f64),
    /// Millilitres that the same sentence gives for it ("about 2 cups (490 g)"), by US cups and spoons.
    pub millilitres: Option<f64>,
    /// What of it, as cup, layer, pan; `None` for the whole.
    pub per: Option<String>,
    /// Where it stands.
    pub place: Range<usize>,
}

/// One name in the method that fits very many lines.
pub static TOO_MANY_LINES: QueryKind = QueryKind { name: "name-fits-too-many-lines", weight: Weight::Look };
