//! Parts that follow a name: the rest of it, parts of a fruit, other foods, other measures, preparation.

use super::opening::{amounts_at, vague};
use super::shared::{after_place, completed, describes_only, key_of, name_is_far, same_food, splits};
use super::{Asked, Reading};
use crate::food_words::Named;
use crate::line::amount::Amount;
use crate::line::cut::Cut;
use crate::line::name::{self, Found};
use crate::line::{EXTRA_NOT_ADDED, Item, fruit, tail};
use crate::query::Query;
use crate::words::WORDS;
use evencrumb_measure::{Dimension, Unit};

impl<'a> Reading<'_, 'a> {
    /// "sugar, brown": the part after the comma completes the name when together they name another food.
    pub(super) fn inverted(&mut self, rest: &Cut<'a>, from: usize, part: (usize, usize)) -> bool {
        let Some(item) = self.line.foods.last() else { return false };
        let (start, end) =
            (part.0, (part.0..part.1).find(|at| rest.longest(*at, &WORDS.tails).is_some()).unwrap_or(part.1));
        if start >= end || rest.longest(start, &WORDS.ways).is_some_and(|(way, _)| way != "whole") {
            return false;
        }
        let name_from =
            (from..rest.tokens.len()).find(|at| rest.tokens[*at].place.start >= item.place.start).unwrap_or(from);
        let name_to = (name_from..part.0)
            .find(|at| rest.tokens[*at].place.end > item.place.end || rest.tokens[*at].is_mark(','))
            .unwrap_or(part.0);
        let base = name::key(rest, name_from, name_to);
        for to in (start + 1..=end).rev() {
            let joined = format!("{} {base}", name::key(rest, start, to));
            let Some(named) = (self.ask)(&joined) else { continue };
            let known = item.food;
            if known == Some(named.food)
                || rest
                    .longest(start, &WORDS.states)
                    .is_some_and(|(_, next)| next >= to && known.is_some() && rest.any(start, &["fresh", "frozen"]))
            {
                return false;
            }
            let written = format!("{} {}", rest.written(start, to), item.name);
            if let Some(item) = self.line.foods.last_mut() {
                item.name = written;
                item.food = Some(named.food);
                item.unknown.clear();
            }
            if to < part.1 {
                tail::read(rest, to, part.1, &mut self.tail);
            }
            return true;
        }
        false
    }

    /// Reads a part that follows the name. Gives the number of foods named so far.
    pub(super) fn tail_part(&mut self, rest: &Cut<'a>, from: usize, to: usize, listed: usize) -> usize {
        let names = Asked { cut: rest, ask: self.ask };
        // "2 lemons, zested and juiced"
        if self.takes_parts(rest, from, to) {
            return listed;
        }
        let start = from + usize::from(rest.any(from, &["or"]));
        if start > from {
            let (own, name_at) = amounts_at(rest, start, &names);
            let base = self.line.foods.last().map(|item| key_of(&item.name)).unwrap_or_default();
            let found = completed(rest, name::find(rest, name_at, to, self.ask), &base, true, self.ask);
            if found.named.is_some() && !name_is_far(rest, name_at, &found) {
                let amounts = if own.is_empty() {
                    self.line.foods.last().map(|item| item.amounts.clone()).unwrap_or_default()
                } else {
                    own
                };
                let tail = found.tail;
                let item = self.item_with(rest, &found, amounts);
                self.line.alternatives.push(item);
                tail::read(rest, tail, to, &mut self.tail);
                return listed;
            }
        }
        // "2 eggs plus 1 yolk", "salt, pepper": another food, with its own amount or in a list.
        let plus = rest.any(from, &["plus", "and"]) || rest.mark(from, '+') || rest.mark(from, '&');
        let (own, name_at) = amounts_at(rest, from + usize::from(plus), &names);
        let more = rest.any(from + 1, &["more", "extra"]);
        if !own.is_empty() && !more {
            let base = self.line.foods.last().map(|item| key_of(&item.name)).unwrap_or_default();
            let found = completed(rest, name::find(rest, name_at, to, self.ask), &base, plus, self.ask);
            if found.named.is_some()
                && plus
                && !name_is_far(rest, name_at, &found)
                && !same_food(self.line.foods.last(), &found)
            {
                let tail = found.tail;
                let item = self.item_with(rest, &found, own);
                self.push(item, &found);
                tail::read(rest, tail, to, &mut self.tail);
                return listed + 1;
            }
            // "200 g flour, 1 tsp baking powder": a line that holds a list, each with its amount.
            let another = !plus
                && found.named.is_some()
                && found.around.unknown.is_empty()
                && !same_food(self.line.foods.last(), &found)
                && !rest.any(from, &["about", "approx", "from", "or"])
                && found.from <= name_at + 3;
            if another {
                let tail = found.tail;
                let item = self.item_with(rest, &found, own);
                self.push(item, &found);
                // "300 g flour 100 g sugar 3 eggs": there may be more.
                return if tail > from && tail < to { self.tail_part(rest, tail, to, listed + 1) } else { listed + 1 };
            }
            let sum = plus && (name_at >= to || (found.named.is_some() && same_food(self.line.foods.last(), &found)));
            if sum
                && self
                    .line
                    .foods
                    .last()
                    .is_some_and(|item| item.amounts.first().is_some_and(|first| !first.bare || own[0].bare))
                && tail::purpose(rest, name_at).is_none()
            {
                // "1 cup flour plus 2 tablespoons"
                if let Some(first) = self.line.foods.last_mut().and_then(|item| item.amounts.first_mut()) {
                    first.terms.extend(own[0].terms.iter().copied());
                }
                return listed;
            }
            if plus {
                // "plus 2 tablespoons for dusting": said, not added.
                let place = own[0].place.clone();
                let words = rest.text.get(place.clone()).unwrap_or_default().to_owned();
                self.line.queries.push(Query::new(
                    &EXTRA_NOT_ADDED,
                    place,
                    format!("The extra “{words}” is told and not added to the amount."),
                    "If it goes into the bowl, give it a line of its own.",
                ));
                let (what, next) = tail::purpose(rest, name_at)
                    .map_or((String::new(), name_at), |(what, next)| (what.to_owned(), next));
                self.tail.more = Some(what);
                tail::read(rest, next.min(to), to, &mut self.tail);
                return listed;
            }
            // ", 1 stick (113 g)", ", about 2 large": a measure of the same.
            let rest_is_flag = name_at >= to
                || describes_only(rest, name_at, to)
                || rest.longest(name_at, &WORDS.tails).is_some()
                || rest.any(name_at, &["each", "total"])
                || same_food(self.line.foods.last(), &found);
            if rest_is_flag
                && (!own[0].bare
                    || rest.any(from, &["about", "approx", "approximately", "from"])
                    || rest.longest(name_at, &WORDS.sizes).is_some())
            {
                let size = rest.longest(name_at, &WORDS.sizes).map(|(size, _)| size.to_owned());
                let each = rest.any(name_at, &["each", "apiece"]) || rest.any(name_at.saturating_sub(1), &["each"]);
                if let Some(first) =
                    self.line.foods.last_mut().and_then(|item| item.amounts.first_mut()).filter(|first| {
                        each && first.each.is_none()
                            && first.unit().dimension() == Dimension::Count
                            && own[0].is_weight()
                    })
                {
                    // "3 eggs, 55 g each"
                    first.each = own.into_iter().next().map(Box::new);
                    tail::read(rest, name_at, to, &mut self.tail);
                    return listed;
                }
                for item in &mut self.line.foods {
                    if item.amounts.is_empty() || listed == 1 {
                        item.amounts.extend(own.iter().cloned());
                        if item.size.is_none() {
                            item.size.clone_from(&size);
                        }
                    }
                }
                tail::read(rest, name_at, to, &mut self.tail);
                return listed;
            }
        }
        if let Some(listed) = self.mixed_in(rest, from, to, listed) {
            return listed;
        }
        if own.is_empty()
            && let Some((found, amounts, end)) = self.food_first(rest, from, to)
        {
            let item = self.item_with(rest, &found, amounts);
            self.push(item, &found);
            tail::read(rest, end, to, &mut self.tail);
            return listed + 1;
        }
        // A list: "cinnamon, nutmeg and cloves".
        if own.is_empty() && !plus || (plus && own.is_empty() && listed > 0 && !more) {
            let at = from + usize::from(plus);
            let splits = splits(rest, at, to);
            let end = splits.first().map_or(to, |split| split.at);
            let found = name::find(rest, at, end, self.ask);
            let exact = found.named.is_some()
                && found.around.unknown.is_empty()
                && found.tail >= end
                && found.around.before.len() + found.around.after.len() <= 2;
            let list_goes_on = self.is_list(rest);
            if exact && list_goes_on && !same_food(self.line.foods.last(), &found) {
                let item = self.item_with(rest, &found, Vec::new());
                self.push(item, &found);
                return match splits.first() {
                    Some(split) => self.tail_part(rest, split.at, to, listed + 1),
                    None => listed + 1,
                };
            }
        }
        tail::read(rest, from, to, &mut self.tail);
        listed
    }

    /// "beaten with 1 tablespoon water", "dissolved in 1/2 cup milk": what is mixed in goes into the bowl too.
    pub(super) fn mixed_in(&mut self, rest: &Cut<'a>, from: usize, to: usize, listed: usize) -> Option<usize> {
        let names = Asked { cut: rest, ask: self.ask };
        let at = (from..to).find(|at| rest.any(*at, &["with", "in"]))?;
        let (own, name_at) = amounts_at(rest, at + 1, &names);
        let own = match own.is_empty() {
            true => {
                let start = at + 1 + usize::from(rest.any(at + 1, &["a", "an"]));
                vague(rest, start, self.ask).into_iter().map(|found| found.0).collect()
            }
            false => own,
        };
        let found = name::find(
            rest,
            if own.len() == 1 && name_at <= at + 1 { after_place(rest, &own[0]) } else { name_at },
            to,
            self.ask,
        );
        if own.is_empty()
            || found.named.is_none()
            || name_is_far(rest, name_at, &found)
            || same_food(self.line.foods.last(), &found)
        {
            return None;
        }
        tail::read(rest, from, at, &mut self.tail);
        let tail = found.tail;
        let item = self.item_with(rest, &found, own);
        self.push(item, &found);
        tail::read(rest, tail, to, &mut self.tail);
        Some(listed + 1)
    }

    /// "flour 2 c, sugar 1 c": a further food with its amount behind it.
    fn food_first(&self, rest: &Cut<'a>, from: usize, to: usize) -> Option<(Found, Vec<Amount>, usize)> {
        let names = Asked { cut: rest, ask: self.ask };
        let at = (from + 1..to.min(from + 6)).find(|at| rest.tokens[*at].is_number())?;
        let found = name::find(rest, from, at, self.ask);
        let (amounts, end) = amounts_at(rest, at, &names);
        let first = amounts.first()?;
        let counted = found.named.is_some_and(|named| named.counted);
        let sound = found.from == from && found.to == at && found.around.unknown.is_empty() && (!first.bare || counted);
        (sound && end <= to && !same_food(self.line.foods.last(), &found)).then_some((found, amounts, end))
    }

    /// Whether the line is a list of foods: an "and" late in it, no amount, or "each".
    pub(super) fn is_list(&self, rest: &Cut<'a>) -> bool {
        let amounts = self.line.foods.first().is_some_and(|item| !item.amounts.is_empty());
        let each = rest.tokens.iter().any(|token| token.is_any(&["each"]));
        !amounts || each
    }

    /// "2 lemons, zested and juiced": turns the fruit into its parts.
    pub(super) fn takes_parts(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let Some(item) = self.line.foods.last().filter(|item| item.part.is_none()).cloned() else { return false };
        let Some(first) = item.amounts.first() else { return false };
        if !first.bare && first.unit() != Unit::Piece {
            return false;
        }
        let from_name = rest.tokens.iter().position(|token| token.place.start >= item.place.start);
        let to_name = rest.tokens.iter().rposition(|token| token.place.end <= item.place.end);
        let (Some(from_name), Some(to_name)) = (from_name, to_name) else { return false };
        let thing = Found {
            key: name::key(rest, from_name, to_name + 1),
            named: item.food.map(|food| Named { food, strict: false, counted: true }),
            ..Found::default()
        };
        let Some(parts) = fruit::taken(rest, from, to, &thing, self.ask) else { return false };
        let mut written = vec![rest.written(from, to).to_owned()];
        if !item.preparation.is_empty() {
            written.insert(0, item.preparation.clone());
        }
        self.last_becomes(&item, parts, &written.join(", "));
        true
    }

    /// The last food, `item`, gives way to the parts of it that are used.
    fn last_becomes(&mut self, item: &Item, parts: Vec<(String, Option<Named>, String)>, preparation: &str) {
        self.line.foods.pop();
        for (part, named, key) in parts {
            self.line.foods.push(Item {
                name: key,
                food: named.map(|named| named.food),
                part: Some(part),
                preparation: preparation.to_owned(),
                ..item.clone()
            });
        }
    }

    /// "1 lemon (zest and juice)": the same where the parts stand in a bracket.
    pub(super) fn takes_parts_of_last(&mut self, note: &Cut<'a>) -> bool {
        let Some(item) = self.line.foods.last().filter(|item| item.part.is_none()).cloned() else { return false };
        if !item.amounts.first().is_some_and(|first| first.bare) {
            return false;
        }
        let thing = Found {
            key: key_of(&item.name),
            named: item.food.map(|food| Named { food, strict: false, counted: true }),
            ..Found::default()
        };
        let Some(parts) = fruit::taken(note, 0, note.tokens.len(), &thing, self.ask) else { return false };
        self.last_becomes(&item, parts, note.written(0, note.tokens.len()));
        true
    }
}
