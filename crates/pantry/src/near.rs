//! Names near to words that name no food: a look-up by the threes of letters they share, then a closer look at the few.
//!
//! A text of ten thousand unknown words must not compare each with twelve thousand names, so an index gives the
//! candidates and only those are compared. Every step is deterministic.

use std::cmp::Reverse;

use evencrumb_manuscript::word::name_key;
use rustc_hash::FxHashMap;

/// An index of names by their threes of letters.
#[derive(Clone, Debug, Default)]
pub struct Near {
    /// Each name's key and the number of its food.
    names: Vec<(String, u32)>,
    threes: FxHashMap<[char; 3], Vec<u32>>,
}

/// Characters of the asked words that are compared.
const LONGEST_ASKED: usize = 64;
/// How many candidates are looked at closely.
const CANDIDATES: usize = 40;
/// Names less near than this are not worth saying.
const LEAST: f64 = 0.5;
/// Letters less alike than this are chance: "custard" and "yellow mustard", "dextrin" and "dextrose".
const LEAST_LETTERS: f64 = 0.75;
/// What words in common count for when the last word, which says what the thing is, differs: "candied pecan" is no peel.
const ANOTHER_THING: f64 = 0.6;

impl Near {
    /// The index of these names, folded already, each with the number of its food.
    pub fn of<'n>(names: impl Iterator<Item = (&'n str, u32)>) -> Near {
        let mut near = Near::default();
        for (number, (key, food)) in (0u32..).zip(names) {
            for three in threes(key) {
                near.threes.entry(three).or_default().push(number);
            }
            near.names.push((key.to_owned(), food));
        }
        near
    }

    /// The numbers of the foods nearest to the words, each once with its nearness from 0 to 1, nearest first.
    pub fn to(&self, words: &str, most: usize) -> Vec<(u32, f64)> {
        let asked: String = name_key(words).chars().take(LONGEST_ASKED).collect();
        let mut shared = vec![0u32; self.names.len()];
        for three in threes(&asked) {
            for number in self.threes.get(&three).into_iter().flatten() {
                shared[*number as usize] += 1;
            }
        }
        // The most shared threes for their length first; ties in the order of the rows.
        let mut candidates: Vec<(Reverse<u32>, usize)> = (0..)
            .zip(shared)
            .filter(|(_, count)| *count > 0)
            .map(|(number, count)| (Reverse(count * 1000 / (short(self.names[number].0.len()) + 4)), number))
            .collect();
        if candidates.len() > CANDIDATES {
            candidates.select_nth_unstable(CANDIDATES);
            candidates.truncate(CANDIDATES);
        }
        candidates.sort_unstable();
        let mut nearest: Vec<(u32, f64)> = Vec::new();
        for (_, number) in candidates {
            let (name, at) = &self.names[number];
            // The letters are slow to compare, so that is left out where it could not make the name one of those told.
            let least = nearest.get(most.saturating_sub(1)).map_or(LEAST, |(_, nearness)| *nearness);
            let words = likeness_of_words(&asked, name);
            let nearness = if most_likeness_of_letters(&asked, name) >= least.max(words).max(LEAST_LETTERS) {
                let letters = strsim::normalized_damerau_levenshtein(&asked, name);
                if letters >= LEAST_LETTERS { words.max(letters) } else { words }
            } else {
                words
            };
            match nearest.iter_mut().find(|(known, _)| known == at) {
                Some((_, so_far)) => *so_far = so_far.max(nearness),
                None if nearness >= LEAST => nearest.push((*at, nearness)),
                None => {}
            }
            nearest.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        }
        nearest.truncate(most);
        nearest
    }
}

/// A length as the threes are counted.
fn short(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX - 4)
}

/// The threes of letters of a name, with its beginning and end marked, each once.
fn threes(name: &str) -> Vec<[char; 3]> {
    let letters: Vec<char> = [' ', ' '].into_iter().chain(name.chars()).chain([' ']).collect();
    let mut threes: Vec<[char; 3]> = letters.windows(3).map(|three| [three[0], three[1], three[2]]).collect();
    threes.sort_unstable();
    threes.dedup();
    threes
}

/// How near two names are by the share of words they have in common, from 0 to 0.95. They are as near as that or as the
/// likeness of their letters, whichever is more.
fn likeness_of_words(asked: &str, name: &str) -> f64 {
    let (a, b): (Vec<&str>, Vec<&str>) = (asked.split(' ').collect(), name.split(' ').collect());
    let shared = a.iter().filter(|word| b.contains(word)).count();
    let heads_agree = a.last() == b.last();
    #[expect(clippy::cast_precision_loss, reason = "names have a handful of words")]
    let words = 2.0 * shared as f64 / (a.len() + b.len()) as f64 * if heads_agree { 1.0 } else { ANOTHER_THING };
    words * 0.95
}

/// What the likeness of their letters can be at most: each letter that the other lacks costs a change. Letters whose
/// numbers end alike count as one, which only makes it more.
fn most_likeness_of_letters(asked: &str, name: &str) -> f64 {
    let mut counts = [0i32; 64];
    let (mut asked_length, mut name_length, mut common) = (0u32, 0u32, 0u32);
    for c in asked.chars() {
        counts[c as usize % 64] += 1;
        asked_length += 1;
    }
    for c in name.chars() {
        let left = &mut counts[c as usize % 64];
        common += u32::from(*left > 0);
        *left -= 1;
        name_length += 1;
    }
    // A shade more, for the likeness itself is rounded another way.
    f64::from(common) / f64::from(asked_length.max(name_length).max(1)) + 1e-9
}
