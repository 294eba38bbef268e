//! The word lists of `data/words.toml`, ready for look-up by phrase.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use compact_str::CompactString;
use rustc_hash::FxHashMap;
use serde::Deserialize;

/// Lists of words, each phrase with what it stands for.
pub struct Words {
    /// Size words to the pantry's size.
    pub sizes: Phrases,
    /// How full a measure is.
    pub fills: Phrases,
    /// States that change what a cup weighs, to the pantry's way.
    pub ways: Phrases,
    /// States that change nothing that is weighed.
    pub states: Phrases,
    /// Words that promise something to a reader.
    pub promises: Phrases,
    /// Words that begin a tail.
    pub tails: Phrases,
    /// What a line is for.
    pub purposes: Phrases,
    /// Parts of a fruit or an egg.
    pub parts: Phrases,
    /// Heads of components.
    pub components: Phrases,
    /// Things to bake with.
    pub equipment: Phrases,
    /// Verbs that open an instruction.
    pub verbs: Phrases,
    /// Nouns that open an instruction only before "the" and the like.
    pub verb_nouns: Phrases,
    /// Other openings of an instruction.
    pub openers: Phrases,
    /// Words of talk.
    pub chatter: Phrases,
    /// Number words to their value.
    pub numbers: FxHashMap<String, u32>,
    /// Fraction words to their denominator.
    pub fractions: FxHashMap<String, u32>,
    /// Short forms to the words they stand for.
    pub abbreviations: FxHashMap<String, CompactString>,
}

/// Phrases of one list by their first words, for nearly every word of a line begins none.
pub struct Phrases(FxHashMap<String, Vec<Phrase>>);

/// A phrase of a list.
pub struct Phrase {
    words: String,
    stands_for: String,
}

impl Phrase {
    /// Its words after the first.
    pub fn further_words(&self) -> impl Iterator<Item = &str> {
        self.words.split(' ').skip(1)
    }

    /// What it stands for; the empty text in a list without groups.
    pub fn stands_for(&self) -> &str {
        &self.stands_for
    }
}

impl Phrases {
    fn plain(words: Vec<String>) -> Phrases {
        Phrases::groups(BTreeMap::from([(String::new(), words)]))
    }

    fn groups(groups: BTreeMap<String, Vec<String>>) -> Phrases {
        let mut phrases: FxHashMap<String, Vec<Phrase>> = FxHashMap::default();
        for (name, all) in groups {
            for words in all {
                let first = words.split(' ').next().unwrap_or_default().to_owned();
                let phrase = Phrase { words, stands_for: name.clone() };
                let same_first = phrases.entry(first).or_default();
                let words = phrase.further_words().count();
                let shorter = same_first.partition_point(|known| known.further_words().count() >= words);
                same_first.insert(shorter, phrase);
            }
        }
        Phrases(phrases)
    }

    /// The phrases that begin with this folded word, those of most words first.
    pub fn beginning_with(&self, word: &str) -> &[Phrase] {
        self.0.get(word).map_or(&[], Vec::as_slice)
    }

    /// Whether the list holds the folded phrase.
    pub fn has(&self, phrase: &str) -> bool {
        let first = phrase.split(' ').next().unwrap_or_default();
        self.beginning_with(first).iter().any(|known| known.words == phrase)
    }
}

#[derive(Deserialize)]
struct File {
    sizes: BTreeMap<String, Vec<String>>,
    fills: BTreeMap<String, Vec<String>>,
    ways: BTreeMap<String, Vec<String>>,
    states: List,
    promises: List,
    tails: List,
    purposes: BTreeMap<String, Vec<String>>,
    parts: BTreeMap<String, Vec<String>>,
    components: List,
    equipment: List,
    verbs: Verbs,
    chatter: List,
    numbers: Numbers,
    abbreviations: FxHashMap<String, CompactString>,
}

#[derive(Deserialize)]
struct List {
    words: Vec<String>,
}

#[derive(Deserialize)]
struct Verbs {
    words: Vec<String>,
    nouns: Vec<String>,
    openers: Vec<String>,
}

#[derive(Deserialize)]
struct Numbers {
    values: FxHashMap<String, u32>,
    fractions: FxHashMap<String, u32>,
}

/// The lists, read once.
pub static WORDS: LazyLock<Words> = LazyLock::new(|| {
    let file: File =
        toml::from_str(include_str!("../data/words.toml")).expect("words.toml is read by a test before it ships");
    Words {
        sizes: Phrases::groups(file.sizes),
        fills: Phrases::groups(file.fills),
        ways: Phrases::groups(file.ways),
        states: Phrases::plain(file.states.words),
        promises: Phrases::plain(file.promises.words),
        tails: Phrases::plain(file.tails.words),
        purposes: Phrases::groups(file.purposes),
        parts: Phrases::groups(file.parts),
        components: Phrases::plain(file.components.words),
        equipment: Phrases::plain(file.equipment.words),
        verbs: Phrases::plain(file.verbs.words),
        verb_nouns: Phrases::plain(file.verbs.nouns),
        openers: Phrases::plain(file.verbs.openers),
        chatter: Phrases::plain(file.chatter.words),
        numbers: file.numbers.values,
        fractions: file.numbers.fractions,
        abbreviations: file.abbreviations,
    }
});
