//! Where the list ends and the method begins without a heading that says so: "Beat the butter", "1. mash bananas".

use super::super::rows::Mark;
use super::Reader;
use crate::food_words::FoodWords;
use crate::method;
use crate::word;
use crate::words::WORDS;

/// How many rows ahead are looked at.
const AHEAD: usize = 20;

/// Longest row that is looked into for heat and time, in bytes.
const LONGEST_LOOKED_AT: usize = 1000;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Whether the row, no ingredient by itself, is the first step. `opens` says whether it begins a block of rows.
    pub(super) fn begins_method(&mut self, at: usize, opens: bool) -> bool {
        let row = self.row(at);
        let apart = opens || row.mark == Mark::Number || self.words(at) > 5 || row.text.ends_with('.');
        if apart && self.step_like(at) && !self.begins_bare(at) {
            return true;
        }
        // "1. mash bananas": an item that opens with a verb, at the head of a list of its own.
        if self.row(at).mark != Mark::None && self.blank_before(at) && self.opens_with_verb(at) {
            return true;
        }
        self.orders_plainly(at) || self.blank_before(at) && self.rest_is_method(at)
    }

    /// "Beat whites till stiff" straight below the list: a verb that begins no food, and no ingredient after it.
    fn orders_plainly(&mut self, at: usize) -> bool {
        let text = self.row(at).text.clone();
        let words: Vec<_> = text.split(' ').take(3).map(word::key).collect();
        let first = word::fold(&words[0]);
        let food = (1..=words.len()).any(|count| self.foods.food(&words[..count].join(" ")).is_some());
        let (next, end) = (self.said_from[at + 1], self.end);
        words.len() >= 3
            && WORDS.verbs.has(&first)
            && !WORDS.states.has(&first)
            && !food
            && !text.contains(|c: char| c.is_numeric())
            && (next >= end || !self.ingredient_like(next) && !self.ingredient_like(self.said_from[next + 1]))
    }

    /// Whether no ingredient follows any more, and what follows speaks of heat or time.
    fn rest_is_method(&mut self, at: usize) -> bool {
        let mut next = at;
        let mut bakes = false;
        for _ in 0..AHEAD {
            if next >= self.end {
                break;
            }
            if self.ingredient_like(next) || self.row(next).amount {
                return false;
            }
            let body = self.row(next).body.clone();
            if !bakes && body.len() <= LONGEST_LOOKED_AT {
                let step = method::step(self.text, body);
                bakes = !step.heats.is_empty() || !step.times.is_empty();
            }
            next = self.said_from[next + 1];
        }
        bakes
    }

    /// Whether the row heads the method in words that are not listed: steps follow it.
    pub(super) fn heads_method(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        if !self.blank_before(at) || next >= self.end || self.words(at) > 6 || self.ingredient_like(next) {
            return false;
        }
        let (row, below) = (self.row(at), self.row(next));
        let shouted = !row.text.contains(char::is_lowercase) && below.text.contains(char::is_lowercase);
        let marked = below.mark == Mark::Number || row.text.ends_with([':', '?']) || row.decorated || shouted;
        marked && !row.text.ends_with('.') && self.step_like(next) && !self.step_like(at)
    }
}
