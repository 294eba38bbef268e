//! What a careful reader would ask the author: a query, as proofreaders say.
//!
//! A query is about what someone wrote. It is data and never an error: the text was read all the same, and the
//! query says what was taken. Sentences are written here and where the query is made; faces only lay them out.

use std::ops::Range;

/// How much a query matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// A figure is missing or wrong until this is mended.
    MustMend,
    /// Something was taken that the author may not have meant.
    Look,
    /// Worth knowing, nothing to do.
    Note,
}

impl Weight {
    /// The word people read.
    pub fn word(self) -> &'static str {
        match self {
            Weight::MustMend => "must mend",
            Weight::Look => "look",
            Weight::Note => "note",
        }
    }
}

/// A kind of query: its short name says what is wrong.
#[derive(Debug, PartialEq, Eq)]
pub struct QueryKind {
    /// In plain words with hyphens, as `food-not-known`.
    pub name: &'static str,
    /// How much it matters.
    pub weight: Weight,
}

/// One query, with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Query {
    /// What is wrong.
    pub kind: &'static QueryKind,
    /// Bytes of the text in question; of the line for a line's own queries, of the manuscript for a manuscript's.
    pub place: Range<usize>,
    /// What was read and what was taken instead; stands alone.
    pub message: String,
    /// How to mend it.
    pub mend: String,
}

impl Query {
    /// A query about the given bytes.
    pub fn new(
        kind: &'static QueryKind,
        place: Range<usize>,
        message: impl Into<String>,
        mend: impl Into<String>,
    ) -> Query {
        Query { kind, place, message: message.into(), mend: mend.into() }
    }

    /// The same query about a place `by` bytes further on.
    #[must_use]
    pub fn moved(mut self, by: usize) -> Query {
        self.place = self.place.start + by..self.place.end + by;
        self
    }
}
