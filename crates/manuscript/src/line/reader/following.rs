//! Parts that follow a name: the rest of it, parts of a fruit, other foods, other measures, preparation.

use super::opening::{amounts_at, skip_words, vague};
use super::shared::{after_place, completed, describes_only, key_of, name_is_far, same_food, splits};
use super::{Asked, Further, Reading};
use crate::food_words::Named;
use crate::line::amount::{Amount, Term};
use crate::line::cut::Cut;
use crate::line::name::{self, Found};
use crate::line::{AMOUNT_SHARED, ANOTHER_FOOD, EXTRA_NOT_ADDED, Item, OTHER_NOT_KNOWN, fruit, number, tail};
use crate::query::Query;
use crate::words::WORDS;
use evencrumb_measure::{Dimension, Unit};

/// An amount at the head of a part and the food behind it, if one is named there.
struct Headed {
    amounts: Vec<Amount>,
    found: Found,
    /// The token after the amount.
    name_at: usize,
}

/// A rule for a part between two tokens: whether it knew the part and read it.
type Rule<'r, 'a> = fn(&mut Reading<'r, 'a>, &Cut<'a>, usize, usize) -> bool;

impl<'r, 'a> Reading<'r, 'a> {
    /// "sugar, brown": the part after the comma completes the name when together they name another food.
    pub(super) fn inverted(&mut self, rest: &Cut<'a>, from: usize, part: (usize, usize)) -> bool {
        let Some(item) = self.line.foods.last() else { return false };
        let (start, end) = (
            part.0 + usize::from(rest.any(part.0, &["certified"])),
            (part.0..part.1).find(|at| rest.longest(*at, &WORDS.tails).is_some()).unwrap_or(part.1),
        );
        let part_of_it = rest.longest(start, &WORDS.parts).is_some() && rest.any(start + 1, &["of"]);
        if start >= end || part_of_it {
            return false;
        }
        let name_from =
            (from..rest.tokens.len()).find(|at| rest.tokens[*at].place.start >= item.place.start).unwrap_or(from);
        let name_to = (name_from..part.0)
            .find(|at| rest.tokens[*at].place.end > item.place.end || rest.tokens[*at].is_mark(','))
            .unwrap_or(part.0);
        let base = name::key(rest, name_from, name_to);
        // "butter, browned" is weighed as butter, and browned then.
        if rest.any(start, &["browned"])
            || rest.longest(start, &WORDS.ways).is_some_and(|(way, _)| way != "whole")
            || rest.any(start, &["peeled"])
        {
            return self.handled_fresh(rest, start, &base);
        }
        for to in (start + 1..=end).rev() {
            let joined = format!("{} {base}", name::key(rest, start, to));
            let Some(named) = (self.ask)(&joined) else { continue };
            let known = item.food;
            // "sesame, black/white mix" is neither.
            let shared = rest.mark(to, '/') || rest.any(to, &["or", "and"]);
            if known == Some(named.food)
                || shared && to < part.1
                || rest
                    .longest(start, &WORDS.states)
                    .is_some_and(|(_, next)| next >= to && known.is_some() && rest.any(start, &["frozen"]))
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

    /// "ginger, grated": nobody grates or peels a powder, so that of a plant whose plain name is the powder the fresh one
    /// is meant. The words stay a remark.
    fn handled_fresh(&mut self, rest: &Cut<'a>, at: usize, base: &str) -> bool {
        let way = rest.longest(at, &WORDS.ways).map(|(way, _)| way);
        let dry = matches!(way, Some("ground" | "crushed" | "crumbled" | "whole" | "pieces"));
        let Some(item) = self.line.foods.last_mut().filter(|_| !dry) else { return false };
        let powder = (self.ask)(&format!("ground {base}")).map(|named| named.food);
        let fresh = (self.ask)(&format!("fresh {base}"));
        if let Some(fresh) = fresh.filter(|fresh| powder.is_some() && powder == item.food && powder != Some(fresh.food))
        {
            item.food = Some(fresh.food);
        }
        false
    }

    /// Reads a part that follows the name by the first rule that knows it; what none knows is a remark.
    pub(super) fn tail_part(&mut self, rest: &Cut<'a>, from: usize, to: usize) {
        let rules: [Rule<'r, 'a>; 19] = [
            Self::likened,
            Self::half_another,
            Self::size_told,
            Self::parts_taken,
            Self::part_of_the_same_fruit,
            Self::other_choice,
            Self::further_fruit,
            Self::of_the_choice,
            Self::remark_and_more,
            Self::same_again,
            Self::further_food,
            Self::food_in_a_list,
            Self::sum,
            Self::extra_told,
            Self::fruit_of_the_part,
            Self::same_measure,
            Self::mixed_in,
            Self::amount_behind_food,
            Self::food_without_amount,
        ];
        if !rules.iter().any(|rule| rule(self, rest, from, to)) {
            self.ask_of_food(rest, from, to);
            tail::read(rest, from, to, &mut self.tail);
        }
    }

    /// "1 cup butter, milk": a part that is nothing but another food's name is kept as a remark, and asked about.
    fn ask_of_food(&mut self, rest: &Cut<'a>, from: usize, to: usize) {
        // "ginger, cinnamon and nutmeg": the first of those joined speaks for all.
        let start = skip_words(rest, from + usize::from(joins_more(rest, from)));
        let end = splits(rest, start, to).first().map_or(to, |split| split.at);
        let found = name::find(rest, start, end, self.ask);
        let Some(item) = self.line.foods.last() else { return };
        let alone = found.named.is_some() && found.from == start && found.to == end;
        let of_it = same_food(Some(item), &found) || item.food.is_none() || item.amounts.is_empty();
        if !alone
            || of_it
            || self.gives_last(&found)
            || rest.begins(start, &WORDS.parts)
            || describes_only(rest, from, to)
        {
            return;
        }
        let words = rest.written(from, to);
        self.line.queries.push(Query::new(
            &AMOUNT_SHARED,
            rest.place(from, to),
            format!(
                "“{words}” names a food and has no amount; it was kept as a remark about {}, and not weighed.",
                item.name
            ),
            "If it goes into the bowl, give it a line of its own.",
        ));
    }

    /// "butter the size of an egg": one, as large as the thing.
    fn likened(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let says = |at: usize| {
            let big = rest.any(at, &["as"]) && rest.any(at + 1, &["big", "large"]) && rest.any(at + 2, &["as"]);
            let size = rest.any(at, &["size"]) && rest.any(at + 1, &["of"]);
            let thing = if size { at + 2 } else { at + 3 } + 1;
            (big || size).then_some(thing)
        };
        let Some(thing) = (from..to.min(from + 2)).find_map(says) else { return false };
        let like = (1..=2).rev().find_map(|count| {
            let (words, next) = rest.phrase(thing, count)?;
            Some((WORDS.likened.get(words.as_str())?, next))
        });
        let Some(((low, high), next)) = like else { return false };
        let Some(item) = self.line.foods.last_mut() else { return false };
        if item.amounts.is_empty() {
            // No number is written.
            item.amounts.push(Amount { unnumbered: true, ..fruit::one(rest, from, next) });
        }
        let [amount] = item.amounts.as_mut_slice() else { return false };
        if amount.each.is_some() || !matches!(amount.unit(), Unit::Piece | Unit::Knob) {
            return false;
        }
        // A knob has a size of its own, which the thing's takes the place of.
        amount.terms[0].unit = Unit::Piece;
        let mut each = fruit::one(rest, from, next);
        each.terms = vec![Term::of(*low, *high, Unit::Tablespoon)];
        each.bare = false;
        amount.each = Some(Box::new(each));
        tail::read(rest, from, to, &mut self.tail);
        true
    }

    /// "2 cups flour, half whole wheat": a share that is another food is not told apart here; it is asked about.
    fn half_another(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let at = from + usize::from(joins_more(rest, from));
        if !rest.any(at, &["half"]) || self.line.foods.len() != 1 {
            return false;
        }
        let item = &self.line.foods[0];
        let base = key_of(&item.name);
        let last = base.rsplit(' ').next().unwrap_or_default();
        let another = |half: usize| {
            let kind = half + 1 + if rest.any(half + 1, &["of"]) { 2 } else { 0 };
            let end = (kind..to).find(|at| joins_more(rest, *at) || rest.mark(*at, ',')).unwrap_or(to);
            let said = name::key(rest, kind, end);
            let other = [format!("{said} {last}"), said].iter().find_map(|name| (self.ask)(name));
            kind < end && other.is_some_and(|other| Some(other.food) != item.food)
        };
        if item.food.is_none() || !(at..to).any(|at| rest.any(at, &["half"]) && another(at)) {
            return false;
        }
        let words = rest.written(from, to);
        self.line.queries.push(Query::new(
            &ANOTHER_FOOD,
            rest.place(from, to),
            format!("“{words}” says that a share is another food; all of it was weighed as {}.", item.name),
            "Give each kind a line of its own, with its amount.",
        ));
        tail::read(rest, from, to, &mut self.tail);
        true
    }

    /// "2 eggs, medium": the size of what is counted.
    pub(super) fn size_told(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let at = from + usize::from(rest.any(from, &["size"]));
        let Some((size, next)) = rest.longest(at, &WORDS.sizes) else { return false };
        let next = next + usize::from(rest.any(next, &["size", "sized", "ones", "eggs"]));
        let Some(item) = self.line.foods.last_mut().filter(|item| item.size.is_none() && next >= to) else {
            return false;
        };
        item.size = Some(size.to_owned());
        true
    }

    /// "2 lemons, zested and juiced": the parts of the fruit are used and not the fruit.
    fn parts_taken(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let of_pieces = self.line.foods.last().and_then(|item| item.amounts.first());
        of_pieces.is_some_and(|first| first.bare || first.unit() == Unit::Piece) && self.takes_parts(rest, from, to)
    }

    /// "zest of 2 lemons, juice of 1": the fruit named last is meant.
    fn part_of_the_same_fruit(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let Some(item) = self.line.foods.last() else { return false };
        let from = from + usize::from(rest.any(from, &["and", "plus"]) || rest.mark(from, '+') || rest.mark(from, '&'));
        let names = Asked { cut: rest, ask: self.ask };
        let Some((part, named, key, amount)) = fruit::part_of(rest, (from, to), &item.name, self.ask, &names) else {
            return false;
        };
        // "oranges, juice of 4": the fruit had no amount and is no food of its own.
        let item = item.clone();
        if item.amounts.is_empty() && item.part.is_none() {
            self.line.foods.pop();
        }
        let further = Item {
            name: key,
            food: Some(named.food),
            part: Some(part),
            place: rest.place(from, to),
            amounts: vec![amount],
            ways: Vec::new(),
            unknown: Vec::new(),
            ..item
        };
        self.line.foods.push(further);
        true
    }

    /// "or 3/4 cup oil": another food in place of the last.
    pub(super) fn other_choice(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        if from >= to || !rest.any(from, &["or", "sub", "substitute"]) {
            return false;
        }
        let mut start = from + 1;
        while rest.mark(start, ':') || rest.any(start, &["use", "sub", "substitute", "else", "with"]) {
            start += 1;
        }
        let Headed { amounts, found, name_at } = self.headed(rest, start, to, true);
        if found.named.is_none() || name_is_far(rest, name_at, &found) {
            self.ask_of_other(rest, start, to);
            return false;
        }
        let amounts = if amounts.is_empty() {
            self.line.foods.last().map(|item| item.amounts.clone()).unwrap_or_default()
        } else {
            amounts
        };
        let tail = found.tail;
        let item = self.item_with(rest, &found, amounts);
        self.line.alternatives.push(item);
        // "or oil (or ghee)", "or oil, or ghee": every choice is kept.
        if !self.other_choice(rest, tail + usize::from(rest.mark(tail, ',')), to) {
            tail::read(rest, tail, to, &mut self.tail);
        }
        true
    }

    /// "or flax egg": a few words behind "or" that are no talk and name nothing known are asked about.
    fn ask_of_other(&mut self, rest: &Cut<'a>, from: usize, to: usize) {
        let plain = |at: usize| {
            rest.is_word(at)
                && rest.longest(at, &WORDS.tails).is_none()
                && !WORDS.chatter.has(&rest.tokens[at].folded)
                && !rest.any(at, &["more", "less", "so", "similar", "other", "another", "equivalent", "whatever"])
        };
        let to = (from..to).find(|at| rest.longest(*at, &WORDS.tails).is_some()).unwrap_or(to);
        if from >= to
            || to > from + 4
            || !(from..to).all(|at| plain(at) || rest.joins(at))
            || describes_only(rest, from, to)
        {
            return;
        }
        let words = rest.written(from, to);
        self.line.queries.push(Query::new(
            &OTHER_NOT_KNOWN,
            rest.place(from, to),
            format!("“{words}” after “or” names no food known here; only what stands before was read."),
            "Name it another way, or add it to your foods.",
        ));
    }

    /// "zested + 2 tbsp juice", "chopped and 1 tsp salt": a remark, then a food with its amount.
    fn remark_and_more(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let names = Asked { cut: rest, ask: self.ask };
        let last = self.line.foods.last().map(|item| item.name.clone()).unwrap_or_default();
        let joint = (from + 1..to).filter(|at| joins_more(rest, *at)).find(|at| {
            let Headed { amounts, found, name_at } = self.headed(rest, at + 1, to, true);
            let counted = found.named.is_some_and(|named| named.counted);
            let food = found.named.is_some() && found.from <= name_at + 2;
            // "zest only plus juice of 1"
            let part = || fruit::part_of(rest, (at + 1, to), &last, self.ask, &names).is_some();
            food && amounts.first().is_some_and(|first| !first.bare || counted) || part()
        });
        let Some(joint) = joint.filter(|joint| {
            let headed = self.headed(rest, from, *joint, false);
            headed.amounts.is_empty() && !rest.any(from, &["with", "in", "plus"])
        }) else {
            return false;
        };
        self.tail_part(rest, from, joint);
        self.tail_part(rest, joint, to);
        true
    }

    /// "plus zest of 1 lemon": parts of a fruit that is not the food before.
    fn further_fruit(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let names = Asked { cut: rest, ask: self.ask };
        let source = || fruit::source(rest, from + 1, to, self.ask, &names).filter(|source| source.amount.is_some());
        let Some(source) = joins_more(rest, from).then(source).flatten() else { return false };
        self.push_source(rest, source, &[]);
        true
    }

    /// "2 eggs or 1 egg plus 2 yolks": what is added behind a choice is the choice's, and can't be weighed with the first.
    fn of_the_choice(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let parted = from == 0 || rest.mark(from - 1, ',');
        if parted || !joins_more(rest, from) || says_more(rest, from) || !self.is_choice(rest, from) {
            return false;
        }
        let Headed { amounts, found, .. } = self.headed(rest, from + 1, to, true);
        if amounts.is_empty() || found.named.is_none() {
            return false;
        }
        let words = rest.written(from, to);
        self.line.queries.push(Query::new(
            &OTHER_NOT_KNOWN,
            rest.place(from, to),
            format!("“{words}” belongs to the choice behind “or”, of which only the first part was read."),
            "Give the choice a line of its own, or write a recipe for each.",
        ));
        tail::read(rest, from, to, &mut self.tail);
        true
    }

    /// "butter a hundred grams and sugar the same": the amount of the food before.
    fn same_again(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let start = from + usize::from(joins_more(rest, from));
        let same = |at: &usize| rest.any(*at, &["same", "ditto", "likewise"]);
        let Some(same_at) = (start + 1..to.min(start + 8)).find(same) else { return false };
        let end = same_at - usize::from(rest.any(same_at - 1, &["the"]));
        let found = name::find(rest, start, end, self.ask);
        let amounts = self.line.foods.last().map(|item| item.amounts.clone()).unwrap_or_default();
        let another = found.from == start && found.to == end && !same_food(self.line.foods.last(), &found);
        if found.named.is_none() || !another || amounts.is_empty() {
            return false;
        }
        let item = self.item_with(rest, &found, amounts);
        self.push(item, &found);
        tail::read(rest, same_at + 1, to, &mut self.tail);
        true
    }

    /// "plus 1 yolk", "and 2 tbsp milk": a further food with its own amount.
    fn further_food(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        if !joins_more(rest, from) || says_more(rest, from) {
            return false;
        }
        let Headed { amounts, found, name_at } = self.headed(rest, from + 1, to, true);
        let another = !amounts.is_empty()
            && found.named.is_some()
            && !name_is_far(rest, name_at, &found)
            && !same_food(self.line.foods.last(), &found);
        if another {
            self.push_and_go_on(rest, &found, amounts, from, to);
        }
        another
    }

    /// "200 g flour, 1 tsp baking powder": a line that holds a list, each with its amount.
    fn food_in_a_list(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        if joins_more(rest, from) || says_more(rest, from) || rest.any(from, &["about", "approx", "from", "or"]) {
            return false;
        }
        let Headed { amounts, found, name_at } = self.headed(rest, from, to, false);
        let another = !amounts.is_empty()
            && found.named.is_some()
            && found.around.unknown.is_empty()
            && !same_food(self.line.foods.last(), &found)
            && !self.gives_last(&found)
            && !self.separated_from_last(&found)
            && found.from <= name_at + 3;
        if another {
            self.push_and_go_on(rest, &found, amounts, from, to);
        }
        another
    }

    /// "1 cup flour plus 2 tablespoons", "less 2 tablespoons": more or less of the same.
    fn sum(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let minus = rest.any(from, &["minus", "less"]);
        if !(minus || joins_more(rest, from)) || says_more(rest, from) {
            return false;
        }
        let Headed { amounts, found, name_at } = self.headed(rest, from + 1, to, true);
        let same = name_at >= to || same_food(self.line.foods.last(), &found);
        let Some(own) = amounts.first().filter(|_| same && tail::purpose(rest, name_at).is_none()) else {
            return false;
        };
        let first = self.line.foods.last_mut().and_then(|item| item.amounts.first_mut());
        let Some(first) = first.filter(|first| !first.bare || own.bare) else { return false };
        first.terms.extend(own.terms.iter().map(|term| Term { minus: term.minus || minus, ..*term }));
        self.further = Some(Further::Summed(own.place.end));
        true
    }

    /// "plus 2 tablespoons for dusting": said, not added.
    fn extra_told(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        if !joins_more(rest, from) || says_more(rest, from) {
            return false;
        }
        let Headed { amounts, name_at, .. } = self.headed(rest, from + 1, to, true);
        let Some(own) = amounts.first() else { return false };
        // "plus 1 Tbsp for the top" is eaten as the rest is; what is for the pan or the board is told.
        if let Some(("finishing" | "serving", next)) = tail::purpose(rest, name_at)
            && let Some(first) = self.line.foods.last_mut().and_then(|item| item.amounts.first_mut())
            && first.bare == own.bare
            && !own.unnumbered
        {
            first.terms.extend(own.terms.iter().map(|term| Term { apart: true, ..*term }));
            self.further = Some(Further::Summed(own.place.end));
            tail::read(rest, next.min(to), to, &mut self.tail);
            return true;
        }
        let words = rest.text.get(own.place.clone()).unwrap_or_default();
        self.further = Some(Further::Extra(own.place.end));
        self.line.queries.push(Query::new(
            &EXTRA_NOT_ADDED,
            own.place.clone(),
            format!("The extra “{words}” is told and not added to the amount."),
            "If it goes into the bowl, give it a line of its own.",
        ));
        let (what, next) =
            tail::purpose(rest, name_at).map_or((String::new(), name_at), |(what, next)| (what.to_owned(), next));
        self.tail.more = Some(what);
        tail::read(rest, next.min(to), to, &mut self.tail);
        true
    }

    /// "1/4 cup lime juice, 2-3 limes": the fruit that the juice comes from is no food of its own.
    fn fruit_of_the_part(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let Headed { amounts, found, .. } = self.headed(rest, from, to, false);
        let told = amounts.first().is_some_and(|first| first.bare) && self.gives_last(&found) && found.tail >= to;
        // "Lemon zest – ½ lemon": the fruit tells how much.
        if let Some(item) = self.line.foods.last_mut().filter(|item| told && item.amounts.is_empty()) {
            let part = key_of(&item.name).rsplit(' ').next().and_then(|word| WORDS.parts.stands_for(word));
            item.part = part.map(str::to_owned);
            item.amounts = amounts;
            return true;
        }
        if told {
            self.tail.preparation.push(rest.written(from, to).to_owned());
        }
        told
    }

    /// ", 1 stick (113 g)", ", about 2 large", ", 55 g each": a measure of the same.
    fn same_measure(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        if joins_more(rest, from) || says_more(rest, from) {
            return false;
        }
        let from = from + usize::from(rest.any(from, &["the"]));
        let Headed { amounts, found, name_at } = self.headed(rest, from, to, false);
        let Some(own) = amounts.first() else { return false };
        let size = rest.longest(name_at, &WORDS.sizes).map(|(size, _)| size.to_owned());
        let only_a_measure = name_at >= to
            || describes_only(rest, name_at, to)
            || rest.longest(name_at, &WORDS.tails).is_some()
            || rest.any(name_at, &["each", "total"])
            || same_food(self.line.foods.last(), &found);
        let surely = !own.bare || size.is_some() || rest.any(from, &["about", "approx", "approximately", "from"]);
        // "4 eggs, 1 tbsp reserved for glazing" takes of them.
        let kept = rest.any(name_at, &["reserved", "kept", "saved", "set", "of"]) && !own.bare;
        if !only_a_measure || !surely || kept {
            return false;
        }
        let each = rest.any(name_at, &["each", "apiece"]) || rest.any(name_at.saturating_sub(1), &["each"]);
        let single = self.line.foods.len() == 1;
        let counted = self.line.foods.last_mut().and_then(|item| item.amounts.first_mut()).filter(|first| {
            each && first.each.is_none() && first.unit().dimension() == Dimension::Count && own.is_weight()
        });
        if let Some(counted) = counted {
            // "3 eggs, 55 g each"
            counted.each = amounts.into_iter().next().map(Box::new);
        } else {
            for item in self.line.foods.iter_mut().filter(|item| item.amounts.is_empty() || single) {
                item.amounts.extend(amounts.iter().cloned());
                if item.size.is_none() {
                    item.size.clone_from(&size);
                }
            }
        }
        tail::read(rest, name_at, to, &mut self.tail);
        true
    }

    /// "beaten with 1 tablespoon water", "dissolved in 1/2 cup milk": what is mixed in goes into the bowl too.
    fn mixed_in(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let names = Asked { cut: rest, ask: self.ask };
        let Some(at) = (from..to).find(|at| rest.any(*at, &["with", "in"])) else { return false };
        let (own, name_at) = amounts_at(rest, at + 1, &names);
        let own = match own.is_empty() {
            true => {
                let start = at + 1 + usize::from(rest.any(at + 1, &["a", "an"]));
                vague(rest, start, self.ask).into_iter().map(|found| found.0).collect()
            }
            false => own,
        };
        if own.is_empty() && self.amount_behind_food(rest, at + 1, to) {
            // "raisins 150, soaked in rum 50"
            tail::read(rest, from, at, &mut self.tail);
            return true;
        }
        let food_at = if own.len() == 1 && name_at <= at + 1 { after_place(rest, &own[0]) } else { name_at };
        let found = name::find(rest, food_at, to, self.ask);
        if own.is_empty()
            || found.named.is_none()
            || name_is_far(rest, name_at, &found)
            || same_food(self.line.foods.last(), &found)
        {
            return false;
        }
        tail::read(rest, from, at, &mut self.tail);
        self.push_and_go_on(rest, &found, own, from, to);
        true
    }

    /// "flour 2 c, sugar 1 c": a further food with its amount behind it.
    fn amount_behind_food(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let from = from + usize::from(rest.mark(from, '/') || joins_more(rest, from));
        let names = Asked { cut: rest, ask: self.ask };
        let Some(at) = (from + 1..to.min(from + 6)).find(|at| number::number(rest, *at).is_some()) else {
            return false;
        };
        let found = name::find(rest, from, at, self.ask);
        let (amounts, end) = amounts_at(rest, at, &names);
        let Some(first) = amounts.first() else { return false };
        // "butter 250/sugar 250": where the first food's amount stands behind it, so do the others'.
        let behind = self
            .line
            .foods
            .last()
            .is_some_and(|item| item.amounts.first().is_some_and(|amount| amount.place.start >= item.place.end));
        let sound = found.from == from
            && found.to == at
            && found.around.unknown.is_empty()
            && (!first.bare || behind || found.named.is_some_and(|named| named.counted));
        if !sound || found.named.is_none() || end > to || same_food(self.line.foods.last(), &found) {
            return false;
        }
        self.push_and_go_on(rest, &Found { tail: end, ..found }, amounts, from, to);
        true
    }

    /// "cinnamon, nutmeg and cloves": a list of foods, with one amount or none.
    fn food_without_amount(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
        let at = from + usize::from(joins_more(rest, from));
        let names = Asked { cut: rest, ask: self.ask };
        if !self.is_list(rest) || at > from && says_more(rest, from) || !amounts_at(rest, at, &names).0.is_empty() {
            return false;
        }
        let splits = splits(rest, at, to);
        let end = splits.first().map_or(to, |split| split.at);
        let found = name::find(rest, at, end, self.ask);
        let exact = found.named.is_some()
            && found.around.unknown.is_empty()
            && found.tail >= end
            && found.around.before.len() + found.around.after.len() <= 2;
        if !exact || same_food(self.line.foods.last(), &found) {
            return false;
        }
        let item = self.item_with(rest, &found, Vec::new());
        self.push(item, &found);
        if let Some(split) = splits.first() {
            self.tail_part(rest, split.at, to);
        }
        true
    }

    /// The amount at `from` and the food behind it; `leans` lets the name lean on words of the food before
    /// ("2 eggs plus 1 yolk").
    fn headed(&self, rest: &Cut<'a>, from: usize, to: usize, leans: bool) -> Headed {
        let names = Asked { cut: rest, ask: self.ask };
        // "plus an additional 2 tablespoons"
        let more =
            (from..to).find(|at| !rest.any(*at, &["an", "another", "additional", "extra", "further"])).unwrap_or(from);
        let from = if rest.get(more).is_some_and(crate::token::Token::is_number) { more } else { from };
        // "DE 60 – 150 g": an amount that runs into the next part is none of this.
        let (amounts, name_at) = match amounts_at(rest, from, &names) {
            (_, beyond) if beyond > to => (Vec::new(), skip_words(rest, from)),
            // "1 tsp cinnamon, pinch nutmeg"
            (none, name_at) if none.is_empty() => match vague(rest, from, self.ask) {
                Some((one, next)) if one.unit().is_vague() && next < to => (vec![one], skip_words(rest, next)),
                _ => (none, name_at),
            },
            found => found,
        };
        let base = self.line.foods.last().map(|item| key_of(&item.name)).unwrap_or_default();
        let found = completed(rest, name::find(rest, name_at, to, self.ask), &base, leans, self.ask);
        Headed { amounts, found, name_at }
    }

    /// Takes a further food and reads what follows it, which may be the next: "300 g flour 100 g sugar 3 eggs".
    fn push_and_go_on(&mut self, rest: &Cut<'a>, found: &Found, amounts: Vec<Amount>, from: usize, to: usize) {
        let item = self.item_with(rest, found, amounts);
        self.push(item, found);
        if found.tail > from && found.tail < to {
            self.tail_part(rest, found.tail, to);
        }
    }

    /// Whether the last food is a part of this one: the juice of a lime.
    fn gives_last(&self, found: &Found) -> bool {
        let Some(food) = self.line.foods.last().and_then(|item| item.food) else { return false };
        found.named.is_some()
            && WORDS
                .parts
                .names()
                .into_iter()
                .any(|part| (self.ask)(&format!("{} {part}", found.key)).is_some_and(|named| named.food == food))
    }

    /// "6 eggs, separated, 4 whites reserved": whether the food is a part of the last, which was counted whole.
    fn separated_from_last(&self, found: &Found) -> bool {
        let Some(item) = self.line.foods.last() else { return false };
        let whole = key_of(&item.name);
        let part = |part: &str| (self.ask)(&format!("{whole} {part}")).map(|named| named.food);
        self.is_separated(item)
            && WORDS.parts.names().into_iter().any(|name| part(name) == found.named.map(|named| named.food))
    }

    /// Whether the eggs were said to be separated.
    fn is_separated(&self, item: &Item) -> bool {
        self.tail.preparation.iter().chain([&item.preparation]).any(|words| words.contains("separated"))
    }

    /// Whether "or" stands between the last food and this token.
    fn is_choice(&self, rest: &Cut<'a>, at: usize) -> bool {
        let food = self.line.foods.last().map_or(0, |item| item.place.start);
        rest.tokens[..at].iter().any(|token| token.is_any(&["or"]) && token.place.start > food)
    }

    /// Whether the line is a list of foods: no amount, or "each".
    fn is_list(&self, rest: &Cut<'a>) -> bool {
        let amounts = self.line.foods.first().is_some_and(|item| !item.amounts.is_empty());
        let each = rest.tokens.iter().any(|token| token.is_any(&["each"]));
        !amounts || each
    }

    /// Turns the last food into the parts of it that tokens `from` to `to` speak of: "1 lemon (zest and juice)".
    pub(super) fn takes_parts(&mut self, said: &Cut<'a>, from: usize, to: usize) -> bool {
        let Some(item) = self.line.foods.last().filter(|item| item.part.is_none()).cloned() else { return false };
        // "4 eggs, separated (whites whipped)": both parts are used.
        if self.is_separated(&item) {
            return false;
        }
        let thing = Found {
            key: key_of(&item.name),
            named: item.food.map(|food| Named { food, strict: false, counted: true }),
            ..Found::default()
        };
        let Some(parts) = fruit::taken(said, from, to, &thing, self.ask) else { return false };
        self.line.foods.pop();
        let done = [item.preparation.as_str(), said.written(from, to)];
        let preparation = done.iter().filter(|words| !words.is_empty()).copied().collect::<Vec<_>>().join(", ");
        for (part, named, key) in parts {
            self.line.foods.push(Item {
                name: key,
                food: named.map(|named| named.food),
                part: Some(part),
                preparation: preparation.clone(),
                ..item.clone()
            });
        }
        true
    }
}

/// Whether a word at `at` joins something further: "plus", "and", "+", "&".
fn joins_more(cut: &Cut<'_>, at: usize) -> bool {
    cut.any(at, &["plus", "and", "also"]) || cut.mark(at, '+') || cut.mark(at, '&')
}

/// Whether "more" or "extra" follows at once: the tail reads that.
fn says_more(cut: &Cut<'_>, at: usize) -> bool {
    cut.any(at + 1, &["more", "extra"])
}
