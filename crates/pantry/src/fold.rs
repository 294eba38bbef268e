//! Names are compared as the manuscript's words are: one rule folds both.

pub use evencrumb_manuscript::word::{name_key as fold, singular};
