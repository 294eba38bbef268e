//! What `evencrumb why --json` answers.

use evencrumb_measure::Estimate;
use evencrumb_sheet::why::{Reason, Why};
use serde::Serialize;

use super::{Figure, Open, SCHEMA};

/// A figure and where it comes from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WhyAnswer {
    /// The number of the contract.
    pub schema: u32,
    /// The title of the manuscript; null when none was found.
    pub title: Option<String>,
    /// What was asked, as it was given.
    pub asked: String,
    /// What is wrong in the files of the kitchen folder: what was read, what was taken instead, how to mend it.
    pub kitchen_faults: Vec<String>,
    /// The figure, and under it what it is made of.
    pub figure: ReasonAnswer,
    /// Foods for which it is not known; where there are any, the figure is a least.
    pub unknown: Vec<String>,
    /// What makes it unsure, the strongest first.
    pub doubts: Vec<DoubtAnswer>,
}

/// A step on the way back.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ReasonAnswer {
    /// What it is, in words.
    pub words: String,
    /// The figure; null where the step has none. `high` is null at the top when something is not known.
    pub value: Option<Open>,
    /// The unit of the figure, for money the code of the currency; null where there is no figure.
    pub unit: Option<String>,
    /// The short name of the source it leans on; null where it leans on what stands under it.
    pub source: Option<String>,
    /// The title of the source.
    pub title: Option<String>,
    /// How well the source was seen, as in `basis` of `weigh`.
    pub status: Option<String>,
    /// What it is made of.
    pub under: Vec<ReasonAnswer>,
}

/// Something that makes a figure unsure.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct DoubtAnswer {
    /// What it is, in words.
    pub words: String,
    /// How far it may pull the figure down, in the figure's unit.
    pub down: Figure,
    /// How far it may pull the figure up.
    pub up: Figure,
}

impl WhyAnswer {
    /// The answer to a question about a sheet with this title.
    pub fn of(why: &Why, asked: &str, title: Option<&str>) -> WhyAnswer {
        let doubt = |(words, down, up): &(String, f64, f64)| DoubtAnswer {
            words: words.clone(),
            down: Figure::sound(*down),
            up: Figure::sound(*up),
        };
        let mut figure = ReasonAnswer::of(&why.figure);
        if let Some(value) = figure.value.as_mut().filter(|_| !why.unknown.is_empty()) {
            value.high = None;
        }
        WhyAnswer {
            schema: SCHEMA,
            title: title.map(str::to_owned),
            asked: asked.to_owned(),
            kitchen_faults: Vec::new(),
            figure,
            unknown: why.unknown.clone(),
            doubts: why.doubts.iter().map(doubt).collect(),
        }
    }
}

impl ReasonAnswer {
    fn of(reason: &Reason) -> ReasonAnswer {
        ReasonAnswer {
            words: reason.words.clone(),
            value: reason.value.as_ref().map(|value: &Estimate| Open::of(value, false)),
            unit: reason.value.as_ref().map(|_| reason.unit.clone()),
            source: reason.source.map(|source| source.id.clone()),
            title: reason.source.map(|source| source.title.clone()),
            status: reason.source.map(|source| source.status.clone()),
            under: reason.under.iter().map(ReasonAnswer::of).collect(),
        }
    }
}
