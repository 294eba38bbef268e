//! What is wrong with a row, as something to show and not something that stops the reading.

use std::fmt;
use std::sync::Arc;

/// A line of a file of foods. It is not packed into the program, where no row has a fault: there it is empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// The file's name, without its folders.
    pub file: Arc<str>,
    /// The line, counted from one.
    pub line: usize,
}

impl fmt::Display for Place {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}:{}", self.file, self.line)
    }
}

/// What is wrong with a row, where, and how it is mended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it stands.
    pub place: Place,
    /// The food, when its name could be read.
    pub food: Option<String>,
    /// What was read that is not so.
    pub what: String,
    /// What to write instead, or what was taken.
    pub mend: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let food = self.food.as_deref().unwrap_or("a food without a name");
        write!(out, "{}  {food}: {}\n    mend  {}", self.place, self.what, self.mend)
    }
}
