//! What stood in brackets.

use super::opening::{amounts_at, bracket_amounts, join};
use super::parting::parts;
use super::shared::{describes_only, key_of, same_food};
use super::{Asked, Reading};
use crate::line::cut::Cut;
use crate::line::name;
use crate::line::tail;
use crate::words::WORDS;

impl<'a> Reading<'_, 'a> {
    /// Reads what stood in brackets.
    pub(super) fn notes(&mut self, notes: &[Cut<'a>]) {
        for note in notes {
            let names = Asked { cut: note, ask: self.ask };
            let end = note.tokens.len();
            if let Some((amounts, next)) = bracket_amounts(note, 0, end, &names) {
                let only = next >= end
                    || note.any(
                        next,
                        &["total", "each", "or", "drained", "in", "altogether", "before", "after", "packed"],
                    )
                    || note.longest(next, &WORDS.sizes).is_some()
                    || describes_only(note, next, end);
                let each = note.tokens.iter().any(|token| token.is_any(&["each"]));
                let counts_pieces = amounts.iter().all(|amount| amount.bare);
                let useful = !counts_pieces
                    || next >= end
                    || note.longest(next, &WORDS.sizes).is_some()
                    || self.names_same_food(note, next, end);
                if (only || self.names_same_food(note, next, end)) && useful {
                    let mut amounts = amounts;
                    if note.tokens.iter().any(|token| token.is_any(&["drained"])) {
                        // What is left in the sieve is what goes in the bowl.
                        for amount in &mut amounts {
                            amount.fill = Some("drained".to_owned());
                        }
                    }
                    let size = note.longest(next, &WORDS.sizes).map(|(size, _)| size.to_owned());
                    let single = self.line.foods.len() == 1;
                    if let Some(item) = self.line.foods.first_mut().filter(|_| single) {
                        if counts_pieces && item.size.is_none() {
                            item.size = size;
                        }
                        join(&mut item.amounts, amounts, each);
                    }
                    tail::read(note, next, end, &mut self.tail);
                    continue;
                }
            }
            if self.size_told(note, 0, end) || self.made_of(note) {
                continue;
            }
            let counted = self.line.foods.last().and_then(|item| item.amounts.first()).is_some_and(|first| first.bare);
            if counted && self.takes_parts(note, 0, end) {
                continue;
            }
            let optional = usize::from(note.any(0, &["optional"]));
            if self.other_choice(note, optional, end) {
                continue;
            }
            for (from, to) in parts(note) {
                tail::read(note, from, to, &mut self.tail);
            }
        }
    }

    /// "1 flax egg (1 Tbsp ground flax + 3 Tbsp water)": what is counted and no food of its own is made of what the
    /// bracket lists.
    fn made_of(&mut self, note: &Cut<'a>) -> bool {
        let [item] = self.line.foods.as_slice() else { return false };
        let counted = (self.ask)(&key_of(&item.name)).is_some_and(|named| named.counted);
        if counted || item.reference || item.amounts.first().is_none_or(|first| !first.bare) {
            return false;
        }
        let names = Asked { cut: note, ask: self.ask };
        let ends: Vec<usize> = (0..note.tokens.len())
            .filter(|at| note.mark(*at, '+') || note.any(*at, &["and", "plus", "with"]))
            .collect();
        let mut from = 0;
        let mut listed = Vec::new();
        for to in ends.into_iter().chain([note.tokens.len()]) {
            let (amounts, name_at) = amounts_at(note, from, &names);
            let found = name::find(note, name_at, to, self.ask);
            if amounts.first().is_none_or(|first| first.bare) || found.named.is_none() {
                return false;
            }
            listed.push((found, amounts));
            from = to + 1;
        }
        if listed.len() < 2 {
            return false;
        }
        self.line.foods.clear();
        for (found, amounts) in listed {
            let item = self.item_with(note, &found, amounts);
            self.push(item, &found);
        }
        true
    }

    pub(super) fn names_same_food(&self, note: &Cut<'a>, from: usize, to: usize) -> bool {
        let found = name::find(note, from, to, self.ask);
        let Some(item) = self.line.foods.first() else { return false };
        same_food(Some(item), &found)
            || (found.named.is_some() && item.part.is_none() && item.name.to_lowercase().contains(&found.key))
    }
}
