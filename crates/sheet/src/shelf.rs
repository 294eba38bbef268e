//! The other manuscripts of the kitchen folder, for lines that name one ("half a batch of the vanilla sponge").
//!
//! This crate touches no disk, so that whoever has the folder brings the shelf. Titles are asked for often and must be
//! cheap; a whole text is asked for only when a line names it.

/// A place where other manuscripts can be found.
pub trait Shelf {
    /// What each manuscript is called: its title, and other names it goes by, as that of its file.
    fn names(&self) -> Vec<Vec<String>>;

    /// The text of one of them, by its place in [`Shelf::names`]; nothing when it can't be read.
    fn text(&self, at: usize) -> Option<String>;
}

/// The shelf of a kitchen without other manuscripts.
#[derive(Clone, Copy, Debug, Default)]
pub struct Empty;

impl Shelf for Empty {
    fn names(&self) -> Vec<Vec<String>> {
        Vec::new()
    }

    fn text(&self, _: usize) -> Option<String> {
        None
    }
}

/// Manuscripts in memory, each with its title and its text.
impl Shelf for &[(&str, &str)] {
    fn names(&self) -> Vec<Vec<String>> {
        self.iter().map(|(title, _)| vec![(*title).to_owned()]).collect()
    }

    fn text(&self, at: usize) -> Option<String> {
        self.get(at).map(|(_, text)| (*text).to_owned())
    }
}
