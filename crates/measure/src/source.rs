//! Where facts come from. Every figure leans on one of these, and a reader may ask which.

use std::sync::LazyLock;

use serde::Deserialize;

/// Something a figure leans on: a table, a law, a habit, a memory.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// The short name that data rows cite.
    pub id: String,
    /// The title as a reader would look for it.
    pub title: String,
    /// When it was published or came into force, as it states it.
    pub date: Option<String>,
    /// How well it was seen: `read in the text`, `read in a copy`, `computed`, `common practice, no source`, `from memory`.
    pub status: String,
    /// Whether there is something printed that a reader could open; if not, figures are at least 15 % wide.
    pub printed: bool,
    /// What a reader should know before leaning on it.
    pub note: Option<String>,
}

impl Source {
    /// The source with this id; an id with a row behind it (`sr28:12120`) gives the source before the colon.
    pub fn by_id(id: &str) -> Option<&'static Source> {
        let id = id.split(':').next().unwrap_or(id);
        SOURCES.iter().find(|source| source.id == id)
    }

    /// Every source, in the order of `data/sources.toml`.
    pub fn all() -> &'static [Source] {
        &SOURCES
    }
}

#[derive(Deserialize)]
struct File {
    source: Vec<Source>,
}

static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(|| {
    let file: File =
        toml::from_str(include_str!("../data/sources.toml")).expect("sources.toml is read by a test before it ships");
    file.source
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_every_source_has_a_known_status() {
        let known = ["read in the text", "read in a copy", "computed", "common practice, no source", "from memory"];
        for source in Source::all() {
            assert!(known.contains(&source.status.as_str()), "{}: {}", source.id, source.status);
        }
        assert!(Source::by_id("sr28:12120").is_some());
    }
}
