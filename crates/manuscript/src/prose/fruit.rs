//! Parts of a fruit or an egg in a sentence: "the juice and zest of one orange", "the juice of another lemon".

use super::Span;
use crate::food_words::FoodWords;
use crate::line::{self, Cut, Kind, numbers};
use crate::words::WORDS;

/// Most tokens of the parts, and of the thing.
const REACH: usize = 7;

/// The parts that are named from token `at` on, and the token after the thing they are of.
pub fn parts<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, foods: &F) -> Option<(Span, usize)> {
    let part = |at: usize| cut.longest(at, &WORDS.parts).is_some();
    let state = |at: usize| [&WORDS.ways, &WORDS.states].iter().any(|list| cut.longest(at, list).is_some());
    if !part(at) && !state(at) {
        return None;
    }
    let listed = |at: usize| {
        part(at)
            || state(at)
            || cut.joins(at)
            || cut.any(at, &["and", "the", "all"])
            || cut.mark(at, ',')
            || cut.mark(at, '&')
    };
    let of = (at + 1..at + REACH).take_while(|next| listed(next - 1)).find(|next| cut.any(*next, &["of", "from"]))?;
    let another = cut.any(of + 1, &["another"]);
    let thing = match numbers(cut, of + 1) {
        Some(read) => read.next,
        None if another || cut.any(of + 1, &["a", "an"]) => of + 2,
        None => return None,
    };
    let named = |end: &usize| foods.food(&line::words_key(cut, thing, *end)).is_some();
    let end = (thing + 1..=thing + 3).rev().filter(|end| (thing..*end).all(|at| cut.is_word(at))).find(named)?;
    let place = cut.place(at, end);
    let mut text = cut.text[place.clone()].split_whitespace().collect::<Vec<_>>().join(" ");
    if another {
        text = text.replacen("another", "one", 1);
    }
    let read = line::read(&text, foods);
    let whole = read.kind == Kind::Ingredient
        && read.foods.iter().all(|item| item.food.is_some() && item.part.is_some() && !item.amounts.is_empty());
    (whole && !read.foods.is_empty()).then_some(((place, text, read), end))
}
