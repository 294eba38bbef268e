//! What stood in brackets.

use super::opening::{amounts_at, bracket_amounts, join, or_so_many};
use super::parting::parts;
use super::shared::{describes_only, key_of, same_food};
use super::{Asked, Further, Reading};
use crate::line::Item;
use crate::line::cut::Cut;
use crate::line::name;
use crate::line::tail;
use crate::words::WORDS;

/// Most tokens of a kind told in a bracket: "gluten-free", "sun-dried", "semi-sweet".
const LONGEST_KIND: usize = 4;

impl<'a> Reading<'_, 'a> {
    /// Reads what stood in brackets.
    pub(super) fn notes(&mut self, notes: &[Cut<'a>]) {
        for note in notes {
            let names = Asked { cut: note, ask: self.ask };
            let end = note.tokens.len();
            // "(from 60 g eggs)" tells of the thing it was taken from.
            if self.of_a_choice(note) {
                continue;
            }
            if note.any(0, &["from"]) {
                tail::read(note, 0, end, &mut self.tail);
                continue;
            }
            let first = self.line.foods.first_mut().and_then(|item| item.amounts.first_mut());
            if first.is_some_and(|first| or_so_many(note, 0, end, first))
                || self.made_of(note)
                || self.kinds_offered(note)
                || self.kind_told(note)
            {
                continue;
            }
            if let Some((amounts, next)) = bracket_amounts(note, 0, end, &names) {
                let only = next >= end
                    || note.any(next, &["total", "each", "or", "in", "altogether", "before", "packed"])
                    || note.longest(next, &WORDS.prepared_weights).is_some()
                    || note.longest(next, &WORDS.sizes).is_some()
                    || describes_only(note, next, end);
                let each = note.tokens.iter().any(|token| token.is_any(&["each"]));
                let counts_pieces = amounts.iter().all(|amount| amount.bare);
                let useful = !counts_pieces
                    || next >= end
                    || note.longest(next, &WORDS.sizes).is_some()
                    || self.names_same_food(note, next, end);
                if (only || self.names_same_food(note, next, end))
                    && useful
                    && let Some(owner) = self.owner(note)
                {
                    let mut amounts = amounts;
                    if note.has(&WORDS.prepared_weights) && !note.tokens.iter().any(|token| token.is_any(&["before"])) {
                        // What is left in the sieve, or of the peelings, is what goes in the bowl.
                        for amount in &mut amounts {
                            amount.fill = Some("drained".to_owned());
                        }
                    }
                    let start = note.tokens.first().map_or(0, |token| token.place.start);
                    match self.further {
                        Some(Further::Extra(end)) if start >= end => {
                            tail::read(note, 0, note.tokens.len(), &mut self.tail);
                            continue;
                        }
                        Some(Further::Summed(end)) if start >= end => {
                            let whole = self.line.foods[owner].amounts[1..].iter_mut().find(|whole| whole.is_weight());
                            if let (Some(whole), Some(further)) = (whole, amounts.iter().find(|one| one.is_weight())) {
                                whole.terms.extend(further.terms.iter().copied());
                                continue;
                            }
                        }
                        _ => {}
                    }
                    let size = note.longest(next, &WORDS.sizes).map(|(size, _)| size.to_owned());
                    let item = &mut self.line.foods[owner];
                    if counts_pieces && item.size.is_none() {
                        item.size = size;
                    }
                    join(&mut item.amounts, amounts, each);
                    tail::read(note, next, end, &mut self.tail);
                    continue;
                }
            }
            if self.size_told(note, 0, end) {
                continue;
            }
            let counted = self.line.foods.last().and_then(|item| item.amounts.first()).is_some_and(|first| first.bare);
            if counted && self.takes_parts(note, 0, end) {
                continue;
            }
            let optional = usize::from(note.any(0, &["optional"]));
            if self.other_choice(note, optional, end) || self.works_too(note, optional, end) {
                continue;
            }
            for (from, to) in parts(note) {
                tail::read(note, from, to, &mut self.tail);
            }
        }
    }

    /// "1 cup (240 ml) milk or (250 g) yogurt": a measure behind "or" is the choice's.
    fn of_a_choice(&mut self, note: &Cut<'a>) -> bool {
        let (Some(first), Some(food)) = (note.tokens.first(), self.line.foods.last()) else { return false };
        let between = food.place.start..first.place.start;
        let ors = self.cut.tokens.iter().filter(|token| token.is_any(&["or"]) && between.contains(&token.place.start));
        let Some(choice) = ors.count().checked_sub(1) else { return false };
        let names = Asked { cut: note, ask: self.ask };
        let Some((amounts, next)) = bracket_amounts(note, 0, note.tokens.len(), &names) else { return false };
        let Some(item) = self.line.alternatives.get_mut(choice).filter(|_| next >= note.tokens.len()) else {
            return false;
        };
        // What the choice took of the first food's measures besides the measure itself is not its own.
        item.amounts.truncate(1);
        item.amounts.extend(amounts);
        true
    }

    /// "milk (oat or soy)": kinds of the food; the first is taken, the others are choices.
    fn kinds_offered(&mut self, note: &Cut<'a>) -> bool {
        let [item] = self.line.foods.as_slice() else { return false };
        let base = key_of(&item.name);
        let ors: Vec<usize> = (1..note.tokens.len())
            .filter(|at| note.any(*at, &["or"]) || note.mark(*at, ',') || note.mark(*at, '/'))
            .collect();
        let mut kinds = Vec::new();
        let mut from = 0;
        for to in ors.iter().copied().chain([note.tokens.len()]) {
            if from < to {
                let Some(named) = (self.ask)(&format!("{} {base}", name::key(note, from, to))) else { return false };
                kinds.push((named, note.place(from, to), note.written(from, to)));
            }
            from = to + 1;
        }
        // "ginger (fresh, grated)" says twice what it is.
        if kinds.len() < 2 || kinds.iter().all(|(named, ..)| named.food == kinds[0].0.food) {
            return false;
        }
        let choices: Vec<Item> = kinds
            .into_iter()
            .map(|(named, place, said)| Item {
                food: Some(named.food),
                name: format!("{said} {}", item.name),
                place,
                ..item.clone()
            })
            .collect();
        self.line.foods.clear();
        for (at, choice) in choices.into_iter().enumerate() {
            if at == 0 { self.line.foods.push(choice) } else { self.line.alternatives.push(choice) }
        }
        true
    }

    /// "(soy milk works too)": as good as an "or".
    fn works_too(&mut self, note: &Cut<'a>, from: usize, to: usize) -> bool {
        let ends = |at: &usize| note.longest(*at, &WORDS.works).is_some_and(|(_, next)| next >= to);
        let Some(at) = (from + 1..to).find(ends) else { return false };
        let found = name::find(note, from, at, self.ask);
        if found.named.is_none() || found.from != from || found.to != at || same_food(self.line.foods.last(), &found) {
            return false;
        }
        let amounts = self.line.foods.last().map(|item| item.amounts.clone()).unwrap_or_default();
        let item = self.item_with(note, &found, amounts);
        self.line.alternatives.push(item);
        true
    }

    /// Whose amount a bracket tells: that of the food before it. "2 eggs (110 g) and 1 yolk (20 g)" tells two; of foods
    /// that share one amount nobody can say.
    fn owner(&self, note: &Cut<'a>) -> Option<usize> {
        let foods = &self.line.foods;
        let start = note.tokens.first()?.place.start;
        let owner = foods.iter().rposition(|item| item.place.start < start).or((foods.len() == 1).then_some(0))?;
        let amount_at = |item: &Item| item.amounts.first().map(|amount| amount.place.clone());
        let shared = |index: usize| index != owner && amount_at(&foods[index]) == amount_at(&foods[owner]);
        let of_all =
            foods.len() > 1 && note.tokens.iter().any(|token| token.is_any(&["total", "altogether", "together"]));
        (!of_all && !(0..foods.len()).any(shared)).then_some(owner)
    }

    /// "1 flax egg (1 Tbsp ground flax + 3 Tbsp water)": what is counted and no food of its own is made of what the
    /// bracket lists.
    fn made_of(&mut self, note: &Cut<'a>) -> bool {
        let [item] = self.line.foods.as_slice() else { return false };
        let key = key_of(&item.name);
        let counted = (self.ask)(&key).is_some_and(|named| named.counted);
        // A chia egg is a food of its own; an egg is made of nothing.
        let plain = counted && !key.contains(' ');
        if plain || item.reference || item.amounts.first().is_none_or(|first| !first.bare) {
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
        if counted {
            self.line.foods[0].preparation = note.written(0, note.tokens.len()).to_owned();
            return true;
        }
        self.line.foods.clear();
        for (found, amounts) in listed {
            let item = self.item_with(note, &found, amounts);
            self.push(item, &found);
        }
        true
    }

    /// "dark chocolate (70%)", "oats (certified gluten free)", "milk (soy)": what the bracket says and the name together
    /// name a food. Whether a part of the bracket did so.
    fn kind_told(&mut self, note: &Cut<'a>) -> bool {
        let parts = parts(note);
        let Some((from, to)) = parts.first().copied() else { return false };
        // "mixed seeds (pumpkin, sunflower)" lists what is in it.
        if parts.len() > 1 && !parts[1..].iter().any(|part| describes_only(note, part.0, part.1)) {
            return false;
        }
        let from = from + usize::from(note.any(from, &["certified"]));
        let behind = ["cocoa", "cacao", "solids", "minimum", "min"];
        let kind = |at: &usize| (note.is_word(*at) || note.mark(*at, '%')) && !note.any(*at, &behind);
        let to = (from..to).rev().find(kind).map_or(to, |at| at + 1);
        let share = note.mark(to.saturating_sub(1), '%');
        // What is done to a food later changes what it weighs, not what it is; a frozen fruit is the fruit.
        let done = note.longest(from, &WORDS.ways).is_some_and(|(way, _)| way != "whole");
        let words = (from..to).all(|at| note.is_word(at) || note.joins(at));
        if done || note.any(from, &["frozen"]) || to > from + LONGEST_KIND || !(words || share) {
            return false;
        }
        let [item] = self.line.foods.as_mut_slice() else { return false };
        let (said, key) = (name::key(note, from, to), key_of(&item.name));
        let mut bases = key.match_indices(' ').map(|(at, _)| &key[at + 1..]);
        let named =
            std::iter::once(key.as_str()).chain(&mut bases).find_map(|base| (self.ask)(&format!("{said} {base}")));
        let Some(named) = named.filter(|named| Some(named.food) != item.food) else { return false };
        item.food = Some(named.food);
        let told = note.written(0, note.tokens.len());
        let space = if item.preparation.is_empty() { "" } else { ", " };
        item.preparation = format!("{}{space}{told}", item.preparation);
        true
    }

    pub(super) fn names_same_food(&self, note: &Cut<'a>, from: usize, to: usize) -> bool {
        let found = name::find(note, from, to, self.ask);
        let Some(item) = self.line.foods.first() else { return false };
        same_food(Some(item), &found)
            || (found.named.is_some() && item.part.is_none() && item.name.to_lowercase().contains(&found.key))
    }
}
