//! Words behind a name that belong to it, where speech and hurried hands put no comma: "oats old fashioned".

use super::cut::Cut;
use super::name::{self, Ask};
use crate::food_words::Named;
use crate::words::WORDS;

/// Most words behind a name that are tried.
const MOST: usize = 5;
/// What "the instant stuff" may end with.
const KINDS: &[&str] = &["kind", "kinds", "sort", "sorts", "type", "stuff", "one", "ones", "variety", "version"];

/// A finer name than the one looked up.
pub struct Finer {
    pub named: Named,
    pub key: String,
    /// The token after the words that belong to it.
    pub to: usize,
}

/// The finer food that the tokens behind a name make of it; `end` is where the name ends.
pub fn finer(cut: &Cut<'_>, key: &str, end: usize, to: usize, ask: Ask<'_>) -> Option<Finer> {
    let last = to.min(end + MOST);
    if !cut.is_word(end) {
        return None;
    }
    said_again(cut, key, end, last, ask)
        .or_else(|| the_kind(cut, key, end, last, ask))
        .or_else(|| turned_round(cut, key, end, last, ask))
}

/// "milk whole milk", "salt fine sea salt": the name again with more said.
fn said_again(cut: &Cut<'_>, key: &str, end: usize, last: usize, ask: Ask<'_>) -> Option<Finer> {
    let head = key.rsplit(' ').next()?;
    (end + 2..=last).filter(|to| cut.is_word(to - 1) && cut.tokens[to - 1].key == head).find_map(|to| {
        (end..to.saturating_sub(1)).find_map(|from| {
            let key = name::key(cut, from, to);
            (from == end || name::only_states(cut, end, from)).then_some(())?;
            Some(Finer { named: ask(&key)?, key, to })
        })
    })
}

/// "yeast the instant stuff", "oats the old fashioned kind".
fn the_kind(cut: &Cut<'_>, key: &str, end: usize, last: usize, ask: Ask<'_>) -> Option<Finer> {
    if !cut.any(end, &["the", "that"]) {
        return None;
    }
    let kind = (end + 2..last.max(end + 2) + 1).find(|at| cut.any(*at, KINDS))?;
    let joined = format!("{} {key}", name::key(cut, end + 1, kind));
    Some(Finer { named: ask(&joined)?, key: joined, to: kind + 1 })
}

/// "oats old fashioned", "chocolate chips semi sweet". What is done to the food makes no other of it: cream whipped is
/// still weighed as cream.
fn turned_round(cut: &Cut<'_>, key: &str, end: usize, last: usize, ask: Ask<'_>) -> Option<Finer> {
    // "lemon juiced and zested" is read as parts of the fruit.
    if cut.longest(end, &WORDS.parts).is_some() {
        return None;
    }
    let done = cut.longest(end, &WORDS.ways).is_some_and(|(way, _)| !matches!(way, "whole" | "slivered" | "sliced"));
    if done || cut.longest(end, &WORDS.tails).is_some_and(|_| !cut.any(end, &["extra"])) {
        return None;
    }
    (end + 1..=last).rev().filter(|to| (end..*to).all(|at| cut.is_word(at) || cut.joins(at))).find_map(|to| {
        let joined = format!("{} {key}", name::key(cut, end, to));
        Some(Finer { named: ask(&joined)?, key: joined, to })
    })
}
