//! The word lists of `data/words.toml`, ready for look-up by phrase.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use compact_str::CompactString;
use evencrumb_measure::Number;
use rustc_hash::FxHashMap;
use serde::Deserialize;

use crate::word;

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
    /// Words before an amount that say nothing of it.
    pub before_amount: Phrases,
    /// Words that open speech.
    pub fillers: Phrases,
    /// Words that open an ingredient in speech, where an amount follows.
    pub leads: Phrases,
    /// Words that take back what was said before.
    pub corrections: Phrases,
    /// Words that take back a number, where another follows.
    pub recounts: Phrases,
    /// Words that a machine hears for those of foods.
    pub heard: FxHashMap<String, String>,
    /// Words that a machine hears for a number at the head of a line.
    pub heard_numbers: FxHashMap<String, String>,
    /// Words before a colon that head no part of a recipe.
    pub labels: Phrases,
    /// Whose measures words name: `us`, `metric`, `uk`, `imperial`, `australian`.
    pub customs: Phrases,
    /// Cups that a numbered can holds.
    pub cans: FxHashMap<String, Number>,
    /// Tablespoons, from and to, of what is as large as a thing.
    pub likened: FxHashMap<String, (Number, Number)>,
    /// Words in a remark that make the food before them a choice.
    pub works: Phrases,
    /// Words that make another food of the one before them.
    pub another: Phrases,
    /// Measures of no size that could be known.
    pub strange_measures: Phrases,
    /// Parts of a thing whose weight is not the thing's.
    pub remains: Phrases,
    /// Words beside a weight of what goes in the bowl.
    pub prepared_weights: Phrases,
    /// Words that open a line of a professional's process.
    pub processes: Phrases,
    /// Words that tell what a line is when it is no ingredient.
    pub kinds: Kinds,
    /// Number words to their value.
    pub numbers: FxHashMap<String, u32>,
    /// Fraction words to their denominator.
    pub fractions: FxHashMap<String, u32>,
    /// Short forms to the words they stand for.
    pub abbreviations: FxHashMap<String, CompactString>,
    /// Folded words that are not what they look like. A table of its own, for every word of a text is looked up in it.
    pub odd: FxHashMap<CompactString, Odd>,
}

/// What a word stands for that is a short form, a plural against the rules or the name of a mark.
pub struct Odd {
    /// Its key.
    pub key: CompactString,
    /// The mark that is said by it.
    pub mark: Option<char>,
}

/// Words of `[kinds]`, each list as its row in `words.toml` says.
#[derive(Deserialize)]
pub struct Kinds {
    /// Open a note where a colon follows.
    pub notes: Phrases,
    /// Last words of a heading.
    pub ends_heading: Phrases,
    /// Open a line that says what the recipe makes.
    pub yields: Phrases,
    /// Stand behind those where no number does.
    pub behind_yields: Phrases,
    /// Say in the first words of a sentence what is made or fed.
    pub makes: Phrases,
    /// What is counted when a yield is a number alone.
    pub eaters: Phrases,
    /// Open a line on keeping.
    pub storage: Phrases,
    /// What is kept, as a sentence on keeping begins.
    pub kept: Phrases,
    /// Verbs of keeping, among the first words.
    pub keeps: Phrases,
    /// Where and how long things are kept.
    pub keeping: Phrases,
    /// Stand behind a number of degrees.
    pub degrees: Phrases,
    /// Open a line on the oven.
    pub ovens: Phrases,
    /// Units of time.
    pub time_units: Phrases,
    /// Open a line on time.
    pub times: Phrases,
    /// Open a list of tools.
    pub tools: Phrases,
    /// Where the head noun of a thing to bake with ends.
    pub behind_thing: Phrases,
    /// Things baked that name their tin.
    pub baked_in: Phrases,
    /// Stand behind a verb that opens a step.
    pub behind_verb: Phrases,
    /// Stand behind a verb that is also a food: butter the tin.
    pub behind_noun: Phrases,
    /// Verbs within a long sentence that make it a step.
    pub later_verbs: Phrases,
}

/// Phrases of one list by their first words, for nearly every word of a line begins none.
#[derive(Deserialize)]
#[serde(from = "Vec<String>")]
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

impl From<Vec<String>> for Phrases {
    fn from(words: Vec<String>) -> Phrases {
        Phrases::plain(words)
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

    /// What the phrases stand for, each once, in order.
    pub fn names(&self) -> std::collections::BTreeSet<&str> {
        self.0.values().flatten().map(Phrase::stands_for).collect()
    }

    /// What the folded phrase stands for, if the list holds it.
    pub fn stands_for(&self, phrase: &str) -> Option<&str> {
        let first = phrase.split(' ').next().unwrap_or_default();
        self.beginning_with(first).iter().find(|known| known.words == phrase).map(Phrase::stands_for)
    }

    /// Whether the list holds the folded phrase.
    pub fn has(&self, phrase: &str) -> bool {
        self.stands_for(phrase).is_some()
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
    before_amount: List,
    speech: Speech,
    labels: List,
    customs: BTreeMap<String, Vec<String>>,
    cans: FxHashMap<String, String>,
    likened: FxHashMap<String, (String, String)>,
    works: List,
    another: List,
    strange_measures: List,
    remains: List,
    prepared_weights: List,
    processes: List,
    kinds: Kinds,
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
struct Speech {
    fillers: Vec<String>,
    leads: Vec<String>,
    corrections: Vec<String>,
    recounts: Vec<String>,
    heard_numbers: FxHashMap<String, String>,
    marks: BTreeMap<String, char>,
    heard: FxHashMap<String, String>,
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
        before_amount: Phrases::plain(file.before_amount.words),
        fillers: Phrases::plain(file.speech.fillers),
        leads: Phrases::plain(file.speech.leads),
        corrections: Phrases::plain(file.speech.corrections),
        recounts: Phrases::plain(file.speech.recounts),
        heard: file.speech.heard,
        heard_numbers: file.speech.heard_numbers,
        labels: Phrases::plain(file.labels.words),
        customs: Phrases::groups(file.customs),
        cans: file.cans.into_iter().filter_map(|(can, cups)| Some((can, Number::decimal(&cups)?))).collect(),
        likened: file.likened.into_iter().filter_map(likened).collect(),
        works: Phrases::plain(file.works.words),
        another: Phrases::plain(file.another.words),
        strange_measures: Phrases::plain(file.strange_measures.words),
        remains: Phrases::plain(file.remains.words),
        prepared_weights: Phrases::plain(file.prepared_weights.words),
        kinds: file.kinds,
        processes: Phrases::plain(file.processes.words),
        numbers: file.numbers.values,
        fractions: file.numbers.fractions,
        odd: odd(&file.abbreviations, &file.speech.marks),
        abbreviations: file.abbreviations,
    }
});

/// A thing and its tablespoons.
fn likened((thing, (low, high)): (String, (String, String))) -> Option<(String, (Number, Number))> {
    Some((thing, (Number::decimal(&low)?, Number::decimal(&high)?)))
}

/// The words that are not what they look like; a short form before a plural.
fn odd(
    abbreviations: &FxHashMap<String, CompactString>,
    marks: &BTreeMap<String, char>,
) -> FxHashMap<CompactString, Odd> {
    let mut odd = FxHashMap::default();
    for (word, key) in word::irregular_plurals().iter().chain(abbreviations) {
        odd.insert(word.into(), Odd { key: key.clone(), mark: None });
    }
    for (word, mark) in marks {
        odd.entry(word.into()).or_insert_with(|| Odd { key: word::regular_singular(word), mark: None }).mark =
            Some(*mark);
    }
    odd
}
