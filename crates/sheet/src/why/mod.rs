//! Where a figure comes from: walked back to lines, foods, rows of the table and assumptions.
//!
//! [`question`] reads what is asked ("sugar per serving"), [`answer`] walks the sheet. What comes out is a tree of
//! reasons, each with its figure and what it leans on; faces lay it out.

mod answer;
mod question;

use evencrumb_measure::{Estimate, Source};
use evencrumb_pantry::{Nutrient, Pantry};

use crate::sheet::Sheet;

pub use question::{Misunderstood, Of, Question, What, read};

/// A figure and where it comes from.
#[derive(Clone, Debug)]
pub struct Why {
    /// The figure, and under it what it is made of.
    pub figure: Reason,
    /// Foods for which it is not known, so that the figure is a least.
    pub unknown: Vec<String>,
    /// What makes it unsure, the strongest first: the influence, and how far it may pull down and up in the figure's unit.
    pub doubts: Vec<(String, f64, f64)>,
}

/// A step on the way back.
#[derive(Clone, Debug)]
pub struct Reason {
    /// What it is, in words.
    pub words: String,
    /// The figure, where the step has one.
    pub value: Option<Estimate>,
    /// The unit of the figure: `g`, `kcal`, `mg` or `µg`.
    pub unit: &'static str,
    /// What it leans on.
    pub source: Option<&'static Source>,
    /// What it is made of, the largest first where things are added up.
    pub under: Vec<Reason>,
}

/// Answers a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn why(sheet: &Sheet, question: &str, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let question = read(question, sheet)?;
    answer::answer(sheet, &question, pantry)
}

impl What {
    /// The unit of its figures.
    pub fn unit(self) -> &'static str {
        match self {
            What::Grams => "g",
            What::Nutrient(nutrient) => nutrient.unit(),
        }
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            What::Grams => "weight",
            What::Nutrient(nutrient) => Nutrient::name(nutrient),
        }
    }
}

#[cfg(test)]
mod tests;
