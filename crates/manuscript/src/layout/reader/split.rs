//! Amounts and foods on rows of their own, as a table is pasted: "200 g", then "flour"; or all amounts, then all foods.

use std::collections::VecDeque;

use super::super::NodeKind;
use super::super::rows::Mark;
use super::Reader;
use crate::food_words::FoodWords;
use crate::line::{Cut, unit};

/// Lines of the component at hand, by number, that wait for what stands in another row.
#[derive(Default)]
pub struct Waiting {
    /// Those that are nothing but an amount.
    amounts: VecDeque<usize>,
    /// Those without any number.
    foods: VecDeque<usize>,
    /// Whether an amount alone has begun a line: then a further one begins one too.
    amounts_first: bool,
    /// Whether a food was joined with the amount in a row below it.
    joined: bool,
}

impl Waiting {
    /// Whether an amount waits for its food.
    pub fn has_amounts(&self) -> bool {
        !self.amounts.is_empty()
    }

    /// Begins anew, for another component.
    pub fn clear(&mut self) {
        *self = Waiting::default();
    }
}

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Joins the row to the line that waits for it, if one does.
    pub(super) fn completes(&mut self, at: usize, text: &str) -> bool {
        if self.row(at).mark != Mark::None && self.row(at).mark != Mark::Bullet {
            return false;
        }
        let amount = self.row(at).amount;
        let short = !text.ends_with(['.', '!', '?', ':']) && self.words(at) <= 10;
        let waits = if amount {
            let stands = self.waiting.amounts_first || !self.waiting.joined && self.is_whole(text);
            if stands { None } else { self.waiting.foods.pop_front() }
        } else if short && !text.contains(|c: char| c.is_numeric()) {
            self.waiting.amounts.pop_front()
        } else {
            None
        };
        let Some(nth) = waits else { return false };
        self.waiting.joined |= amount;
        let Some(component) = self.out.components.last() else { return false };
        let Some(line) = component.lines.get(nth) else { return false };
        let joined = format!("{} {text}", line.text);
        let body = self.row(at).body.clone();
        let next_to_it = nth + 1 == component.lines.len();
        // "1", then "cup", then "flour".
        if !amount && unit(&Cut::of(text), 0).is_some_and(|(_, next)| next >= Cut::of(text).tokens.len()) {
            self.waiting.amounts.push_front(nth);
        }
        let read = self.read_line(&joined);
        if let Some(line) = self.out.components.last_mut().and_then(|component| component.lines.get_mut(nth)) {
            line.line = std::rc::Rc::unwrap_or_clone(read);
            line.text = joined;
            line.place = if next_to_it { line.place.start..body.end } else { body };
        }
        self.say(at, NodeKind::IngredientLine);
        true
    }

    /// Whether any amount waits for its food.
    pub(super) fn waits(&self) -> bool {
        self.waiting.has_amounts()
    }

    /// Notes that the line put in last waits, when it is an amount alone or has no number.
    pub(super) fn wait(&mut self, at: usize, text: &str) {
        let Some(component) = self.out.components.last() else { return };
        let nth = component.lines.len() - 1;
        if self.row(at).amount && !self.waiting.amounts_first && self.is_whole(text) {
            self.waiting.clear();
        } else if self.row(at).amount {
            self.waiting.amounts_first = self.waiting.amounts_first || self.waiting.foods.is_empty();
            self.waiting.amounts.push_back(nth);
        } else if text.contains(|c: char| c.is_numeric()) {
            // What is complete parts what stands above it from what stands below.
            self.waiting.foods.clear();
        } else if !self.needs_none(text) {
            self.waiting.foods.push_back(nth);
        }
    }

    /// Whether an amount is an ingredient by itself: "3 cloves".
    fn is_whole(&self, text: &str) -> bool {
        self.read_line(text).foods.iter().any(|item| item.food.is_some())
    }

    /// Whether a line without number waits for none: "salt to taste", "salt, pepper, nutmeg".
    fn needs_none(&self, text: &str) -> bool {
        let read = self.read_line(text);
        read.foods.len() > 1 || read.purpose.is_some() || text.contains(" to ") || text.contains(" for ")
    }
}
