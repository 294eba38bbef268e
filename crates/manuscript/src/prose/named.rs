//! Foods that sentences name without an amount: "dust with powdered sugar". None is passed over in silence.

use std::collections::HashSet;
use std::ops::Range;

use crate::food_words::{FoodId, FoodWords};
use crate::layout::LineRead;
use crate::line::{self, Cut};
use crate::word;
use crate::words::WORDS;

/// Most words of a name.
const LONGEST: usize = 4;

/// What was read so far: the foods, and the words of their lines.
#[derive(Default)]
pub struct Known {
    foods: HashSet<FoodId>,
    lines: Vec<HashSet<String>>,
}

impl Known {
    /// Of these lines.
    pub fn of(lines: &[LineRead]) -> Known {
        let mut known = Known::default();
        for read in lines {
            let items = read.line.foods.iter().chain(&read.line.alternatives);
            known.foods.extend(items.filter_map(|item| item.food));
            let words = read.text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
            known.lines.push(words.map(|word| word::key(word).to_string()).collect());
        }
        known
    }

    /// Whether what is named is a food that was read, in other words or as a part of it: "the chocolate", "nuts" of
    /// walnuts, "the whites" of eggs.
    fn has<F: FoodWords + ?Sized>(&self, food: FoodId, name: &str, foods: &F) -> bool {
        let words: Vec<&str> = name.split(' ').collect();
        let (first, last) = (words[0], words[words.len() - 1]);
        let whole = |known: &String| {
            foods.food(&format!("{known} {name}")).is_some_and(|named| named.food == food)
                || words.len() > 1 && known == first && foods.food(known).is_some_and(|named| named.counted)
                || words.len() == 1 && known.ends_with(last)
        };
        self.foods.contains(&food)
            || self.lines.iter().any(|line| words.iter().all(|word| line.contains(*word)) || line.iter().any(whole))
    }
}

/// The foods of a text that are named without an amount and are none of the known, each once. `offset` is where the text
/// stands in the manuscript.
pub fn named<F: FoodWords + ?Sized>(
    text: &str,
    offset: usize,
    known: &mut Known,
    foods: &F,
) -> Vec<(Range<usize>, String)> {
    let mut found = Vec::new();
    for sentence in crate::method::sentences(text, 0) {
        let cut = Cut::of(&text[sentence.clone()]);
        let mut at = 0;
        while at < cut.tokens.len() {
            if cut.any(at, SERVED) {
                break;
            }
            let ends =
                (at + 1..=at + LONGEST).rev().filter(|end| (at..*end).all(|at| cut.is_word(at) || cut.joins(at)));
            let food = |end: usize| foods.food(&line::words_key(&cut, at, end)).map(|named| (named.food, end));
            let Some((food, end)) = ends.filter(|end| cut.is_word(end - 1)).find_map(food) else {
                at += 1;
                continue;
            };
            let name = line::words_key(&cut, at, end);
            // "The brown butter" after a sentence that browned it.
            let worked = at > 0
                && cut.any(at - 1, &["the"])
                && WORDS.verbs.has(&cut.tokens[at].folded)
                && foods.food(&line::words_key(&cut, at + 1, end)).is_some_and(|rest| known.foods.contains(&rest.food));
            if !is_done(&cut, at, end) && !worked && !cut.any(end, MADE) && !known.has(food, &name, foods) {
                let place = cut.place(at, end);
                let written = cut.text[place.clone()].split_whitespace().collect::<Vec<_>>().join(" ");
                found.push((place.start + sentence.start + offset..place.end + sentence.start + offset, written));
                known.foods.insert(food);
            }
            at = end;
        }
    }
    found
}

/// Whether the word is what is done and no food: "Butter the pan", "and cream it", "flour a board".
fn is_done(cut: &Cut<'_>, at: usize, end: usize) -> bool {
    let word = cut.tokens[at].folded.as_str();
    end == at + 1
        && (WORDS.verbs.has(word) || WORDS.verb_nouns.has(word))
        && (at == 0
            || cut.any(end, &["the", "a", "an", "it", "them", "your", "and", "until", "two"])
                && !cut.any(at - 1, &["with", "of", "in", "the", "some", "more", "little", "or", "using"]))
}

/// After these a sentence tells what is eaten beside it.
const SERVED: &[&str] = &["serve", "serves", "served", "serving", "eat", "enjoy", "tastes", "keeps"];

/// What a food before these is a part of, is made already or is only for the work.
const MADE: &[&str] =
    &["mixture", "batter", "dough", "bath", "cake", "filling", "syrup", "paper", "crust", "layer", "foam"];
