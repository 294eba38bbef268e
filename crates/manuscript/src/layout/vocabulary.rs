//! The word lists of `data/layout.toml`: what headings, page leftovers and wrapped rows are known by.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use serde::Deserialize;

/// The lists.
#[derive(Deserialize)]
pub struct Vocabulary {
    /// What headings open.
    pub sections: Sections,
    /// What is no part of the recipe.
    pub furniture: Furniture,
    /// Words of headings and wrapped rows.
    pub rows: RowWords,
}

/// What headings open.
#[derive(Deserialize)]
pub struct Sections {
    /// Headings of what goes in.
    pub ingredients: Words,
    /// Headings of what is done.
    pub method: Words,
    /// Last words of such headings.
    pub method_ends: Words,
    /// Headings of notes.
    pub notes: Words,
    /// Last words of such headings.
    pub notes_ends: Words,
    /// Headings of things to bake with.
    pub equipment: Words,
    /// Headings of a page's figures and talk.
    pub nutrition: Words,
}

/// What pages, printers and scanners leave.
#[derive(Deserialize)]
pub struct Furniture {
    /// How such rows start.
    pub starts: Words,
    /// Such rows as a whole.
    pub rows: Words,
    /// How they end after a number.
    pub counted: Words,
    /// First words of a page's labels.
    pub labels: Words,
    /// Words of the head row of a table.
    pub columns: Words,
    /// What columns of further batches are called.
    pub batches: Words,
    /// How rows begin that only add up.
    pub sums: Words,
}

/// Words of headings and wrapped rows.
#[derive(Deserialize)]
pub struct RowWords {
    /// With a number, heads of some of the steps.
    pub stages: Words,
    /// Before a colon, words that announce the title.
    pub naming: Words,
    /// With a number, words that number a sheet.
    pub sheets: Words,
    /// Last words of a line that goes on.
    pub dangling: Words,
    /// First words of a row that goes on with the one above.
    pub linking: Words,
    /// What one who dictates says before an ingredient.
    pub leading: Words,
    /// What says that something may be left out.
    pub optional: Words,
    /// What in a heading says that the part is made more than once.
    pub repeats: Words,
    /// How a heading begins that speaks of one of several.
    pub of_each: Words,
    /// What is done.
    pub doing: Words,
    /// What makes pans and oven ready.
    pub readying: Words,
    /// Words of a date.
    pub calendar: Words,
}

/// A list of folded words or phrases, by their first words: nearly every row begins with none of them.
#[derive(Deserialize)]
#[serde(from = "Vec<String>")]
pub struct Words(FxHashMap<String, Vec<String>>);

impl From<Vec<String>> for Words {
    fn from(phrases: Vec<String>) -> Words {
        let mut by_first: FxHashMap<String, Vec<String>> = FxHashMap::default();
        for phrase in phrases {
            by_first.entry(first(&phrase).to_owned()).or_default().push(phrase);
        }
        Words(by_first)
    }
}

fn first(phrase: &str) -> &str {
    phrase.split(' ').next().unwrap_or_default()
}

impl Words {
    /// Whether the list holds the folded phrase.
    pub fn has(&self, phrase: &str) -> bool {
        self.beginning_like(phrase).iter().any(|known| known == phrase)
    }

    /// Whether one of the list begins with the folded word.
    pub fn opens(&self, word: &str) -> bool {
        self.0.contains_key(word)
    }

    /// Those of the list that begin with the first word of the text.
    fn beginning_like(&self, text: &str) -> &[String] {
        self.0.get(first(text)).map_or(&[], Vec::as_slice)
    }

    /// Whether one of the list begins the folded words.
    pub fn begins(&self, words: &str) -> bool {
        self.begun(words).is_some()
    }

    /// What follows the longest of the list that begins the folded words.
    pub fn begun<'w>(&self, words: &'w str) -> Option<&'w str> {
        let rest =
            |known: &String| words.strip_prefix(known.as_str()).filter(|rest| rest.is_empty() || rest.starts_with(' '));
        self.beginning_like(words).iter().filter_map(rest).min_by_key(|rest| rest.len())
    }
}

/// The lists, read once.
pub static VOCABULARY: LazyLock<Vocabulary> = LazyLock::new(|| {
    toml::from_str(include_str!("../../data/layout.toml")).expect("layout.toml is read by a test before it ships")
});
