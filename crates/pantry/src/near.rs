//! Names near to words that name no food: a look-up by the threes of letters they share, then a closer look at the few.
//!
//! A text of ten thousand unknown words must not compare each with twelve thousand names, so an index gives the
//! candidates and only those are compared. Every step is deterministic.

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
        let mut shared: FxHashMap<u32, u32> = FxHashMap::default();
        for three in threes(&asked) {
            for number in self.threes.get(&three).into_iter().flatten() {
                *shared.entry(*number).or_default() += 1;
            }
        }
        let mut candidates: Vec<(u32, u32)> = shared.into_iter().collect();
        // The most shared threes for their length first; ties in the order of the names.
        let length = |number: u32| u32::try_from(self.names[number as usize].0.len()).unwrap_or(u32::MAX);
        candidates.sort_by_key(|(number, count)| (std::cmp::Reverse(count * 1000 / (length(*number) + 4)), *number));
        candidates.truncate(CANDIDATES);
        let mut nearest: Vec<(u32, f64)> = Vec::new();
        for (number, _) in candidates {
            let (name, at) = &self.names[number as usize];
            let nearness = nearness(&asked, name);
            match nearest.iter_mut().find(|(known, _)| known == at) {
                Some((_, so_far)) => *so_far = so_far.max(nearness),
                None => nearest.push((*at, nearness)),
            }
        }
        nearest.retain(|(_, nearness)| *nearness >= LEAST);
        nearest.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        nearest.truncate(most);
        nearest
    }
}

/// The threes of letters of a name, with its beginning and end marked, each once.
fn threes(name: &str) -> Vec<[char; 3]> {
    let letters: Vec<char> = [' ', ' '].into_iter().chain(name.chars()).chain([' ']).collect();
    let mut threes: Vec<[char; 3]> = letters.windows(3).map(|three| [three[0], three[1], three[2]]).collect();
    threes.sort_unstable();
    threes.dedup();
    threes
}

/// How near two names are: the share of words they have in common, or the likeness of their letters, whichever is more.
fn nearness(asked: &str, name: &str) -> f64 {
    let letters = strsim::normalized_damerau_levenshtein(asked, name);
    let (a, b): (Vec<&str>, Vec<&str>) = (asked.split(' ').collect(), name.split(' ').collect());
    let shared = a.iter().filter(|word| b.contains(word)).count();
    let heads_agree = a.last() == b.last();
    #[expect(clippy::cast_precision_loss, reason = "names have a handful of words")]
    let words = 2.0 * shared as f64 / (a.len() + b.len()) as f64 * if heads_agree { 1.0 } else { 0.8 };
    letters.max(words * 0.95)
}
