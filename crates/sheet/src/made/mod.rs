//! What is made and then used: "1 cup pear puree, from above", "half a batch of the vanilla sponge".
//!
//! Such a line weighs and holds a share of what it names, be that a component of the same manuscript or another
//! manuscript of the folder. [`mention`] decides whether a line names something made, [`share`] how much of it is taken,
//! [`settle`] computes what that holds, each thing after what goes into it; [`elsewhere`] weighs the other manuscripts.

mod elsewhere;
mod mention;
mod rest;
mod settle;
mod share;

use std::sync::Arc;

use evencrumb_manuscript::{QueryKind, Weight};
use evencrumb_measure::Estimate;

use crate::sheet::Sheet;
use crate::total::Total;

pub(crate) use elsewhere::Elsewhere;
pub(crate) use rest::{Rest, of as rest, used as rest_used};
pub(crate) use settle::settle;

/// What a line takes of something made.
#[derive(Clone, Debug)]
pub struct Made {
    /// What it is called where it is made: the heading of the component, or the title.
    pub name: String,
    /// Where it is made.
    pub origin: Origin,
    /// How much of it is taken, where 1 is all that is made at once; nothing when the line doesn't tell.
    pub share: Option<Estimate>,
    /// What that share holds.
    pub total: Total,
    /// The sheet of the other manuscript, where it is made there.
    pub sheet: Option<Arc<Sheet>>,
}

/// Where something is made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A component of the same manuscript, by number.
    Component(usize),
    /// Another manuscript of the folder, by its name, whole or one component of it.
    Manuscript {
        /// The title.
        title: String,
        /// The component, by its heading.
        component: Option<String>,
    },
}

/// A line names what was made above or in another manuscript, and it was found.
pub static MADE_ABOVE_OR_ELSEWHERE: QueryKind = QueryKind { name: "made-above-or-elsewhere", weight: Weight::Note };
/// A line asks for a batch of something that is nowhere.
pub static PART_NOT_FOUND: QueryKind = QueryKind { name: "part-not-found", weight: Weight::MustMend };
/// Another manuscript that a line takes of has something to mend.
pub static MENDED_THERE_FIRST: QueryKind = QueryKind { name: "to-mend-there-first", weight: Weight::MustMend };
/// A line names something that several manuscripts could be.
pub static MADE_TWICE: QueryKind = QueryKind { name: "made-in-several-places", weight: Weight::MustMend };
/// Something is made with itself.
pub static GOES_IN_A_CIRCLE: QueryKind = QueryKind { name: "goes-in-a-circle", weight: Weight::MustMend };
/// How much of a made thing is taken is not known.
pub static SHARE_NOT_KNOWN: QueryKind = QueryKind { name: "share-not-known", weight: Weight::MustMend };
/// Lines together take more of a made thing than there is.
pub static TAKEN_TOO_OFTEN: QueryKind = QueryKind { name: "more-taken-than-made", weight: Weight::Look };
/// The rest of a made thing is kept for another bake.
pub static REST_KEPT_BACK: QueryKind = QueryKind { name: "rest-kept-back", weight: Weight::Note };
/// Lines together take less than there is.
pub static LEFT_OVER: QueryKind = QueryKind { name: "made-and-left-over", weight: Weight::Look };

#[cfg(test)]
mod tests;
