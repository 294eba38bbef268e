//! Foods between an amount and what follows: one, alternatives, lists.

use super::opening::amounts_at;
use super::parting::parts;
use super::shared::{Split, SplitWord, completed, describes_only, same_food, shared_head, shared_words, splits};
use super::{Asked, Reading};
use crate::line::amount::{self, Amount};
use crate::line::cut::Cut;
use crate::line::name::{self, Around, Found};
use crate::line::{Item, fruit};
use evencrumb_measure::Unit;

impl<'a> Reading<'_, 'a> {
    /// "zest and juice of 1 lemon".
    pub(super) fn of_fruit(&mut self, rest: &Cut<'a>, source: fruit::Source) {
        let next = self.push_source(rest, source, &[]);
        for (from, to) in parts(rest).into_iter().filter(|part| part.1 > next) {
            self.tail_part(rest, from.max(next), to);
        }
    }

    /// Takes the parts of a fruit; "1 tablespoon zest of 2 lemons" measures them before the fruit is counted. Gives the
    /// token after.
    pub(super) fn push_source(&mut self, rest: &Cut<'a>, source: fruit::Source, amounts: &[Amount]) -> usize {
        for (part, named, key) in source.parts {
            let mut item = self.item(rest, &source.thing);
            item.name = key;
            item.food = named.map(|named| named.food);
            item.part = amounts.is_empty().then_some(part);
            item.amounts = amounts.iter().chain(&source.amount).cloned().collect();
            item.preparation = source.before.join(" ");
            self.push(item, &source.thing);
        }
        source.next
    }

    /// Reads the names between `from` and `to`: alternatives, lists, sums of foods. Gives the token where the tail begins.
    pub(super) fn names(&mut self, rest: &Cut<'a>, from: usize, to: usize, amounts: Vec<Amount>) -> usize {
        let names = Asked { cut: rest, ask: self.ask };
        if let Some(source) = fruit::source(rest, from, to, self.ask, &names) {
            return self.push_source(rest, source, &amounts);
        }
        let whole = name::find(rest, from, to, self.ask);
        let splits = splits(rest, from, to);
        // A known name that spans the word ("half and half") is not parted by it.
        let splits: Vec<Split> = splits
            .into_iter()
            .filter(|split| !(whole.named.is_some() && split.at > whole.from && split.at < whole.to))
            .filter(|split| {
                // "fresh or frozen berries" is one food, "salted or unsalted butter" are two.
                // A state is a few words, and so is what it shares: a long line is not searched through for each "or".
                let near = split.at - from <= 4;
                let two_foods = near
                    && (split.at + 1..to.min(split.at + 8)).any(|at| {
                        (self.ask)(&format!(
                            "{} {}",
                            name::key(rest, from, split.at),
                            name::key(rest, at, to.min(split.at + 8))
                        ))
                        .is_some()
                    });
                two_foods || !describes_only(rest, from, split.at)
            })
            .collect();
        let Some(first) = splits.first().copied().filter(|split| split.at < to) else {
            return self.one_name(rest, whole, amounts);
        };
        let left = name::find(rest, from, first.at, self.ask);
        let mut next_split = splits.iter().skip(1).map(|split| split.at);
        let right_end = next_split.next().unwrap_or(to);
        match first.word {
            SplitWord::Or => self.alternatives(rest, from, to, &splits, left, amounts),
            SplitWord::And => {
                let right_at = first.at + 1;
                if left.named.is_some()
                    && let Some(source) = fruit::source(rest, right_at, to, self.ask, &names)
                {
                    // "2 tsp vanilla extract and the seeds of 1 vanilla bean"
                    self.one_name(rest, left, amounts);
                    return self.push_source(rest, source, &[]);
                }
                let (own, name_at) = amounts_at(rest, right_at, &names);
                let right = name::find(rest, name_at, right_end, self.ask);
                let (left, right) = if own.is_empty() {
                    shared_words(rest, (from, first.at), left, right, self.ask)
                } else {
                    let right = completed(rest, right, &left.key, left.named.is_some(), self.ask);
                    (left, right)
                };
                match (left.named, right.named) {
                    (Some(_), Some(_)) => {
                        self.one_name(rest, left, amounts.clone());
                        let mut end = right.tail;
                        let second = self.item_with(rest, &right, own);
                        self.push(second, &right);
                        let mut last = right_end;
                        for split in splits.iter().skip(1).filter(|split| split.word == SplitWord::And) {
                            let (own, name_at) = amounts_at(rest, split.at + 1, &names);
                            let found = name::find(rest, name_at, to, self.ask);
                            if split.at != last && split.at > end || found.named.is_none() {
                                break;
                            }
                            end = found.tail;
                            let item = self.item_with(rest, &found, own);
                            self.push(item, &found);
                            last = to;
                        }
                        end
                    }
                    _ => self.one_name(rest, whole, amounts),
                }
            }
        }
    }

    /// "butter or margarine": the first counts, the others are alternatives.
    pub(super) fn alternatives(
        &mut self,
        rest: &Cut<'a>,
        from: usize,
        to: usize,
        splits: &[Split],
        left: Found,
        amounts: Vec<Amount>,
    ) -> usize {
        let names = Asked { cut: rest, ask: self.ask };
        let ors: Vec<usize> = splits.iter().filter(|split| split.word == SplitWord::Or).map(|split| split.at).collect();
        let end_of = |index: usize| ors.get(index + 1).copied().unwrap_or(to);
        let mut others: Vec<(Vec<Amount>, Found)> = Vec::new();
        for (index, at) in ors.iter().enumerate() {
            let (own, name_at) =
                amounts_at(rest, at + 1 + usize::from(rest.any(at + 1, &["use", "sub", "substitute", "else"])), &names);
            let mut other = name::find(rest, name_at, end_of(index), self.ask);
            if rest.mark(*at, '/') {
                // "tapioca starch/flour" is tapioca flour, and no wheat.
                let first = left.key.split(' ').next().unwrap_or_default();
                let joined = format!("{first} {}", other.key);
                if let Some(named) = (self.ask)(&joined).filter(|_| left.key.contains(' ')) {
                    other = Found { named: Some(named), key: joined, ..other };
                }
            }
            // "fresh yeast or 7 g dried", "chips or chunks": the other leans on the first's words.
            let other = completed(rest, other, &left.key, left.named.is_some(), self.ask);
            others.push((own, other));
        }
        // "almond or oat milk", "lemon, orange or lime zest": the last word belongs to all.
        let last = others.last().map(|(_, found)| found.clone()).unwrap_or_default();
        let left = shared_head(rest, from, ors[0], left, &last, self.ask);
        let before_last = others.len() - 1;
        for (_, found) in &mut others[..before_last] {
            *found = shared_head(rest, found.from, found.to, found.clone(), &last, self.ask);
        }
        let first_other = &others[0].1;
        let mut end = others.last().map_or(left.tail, |(_, found)| found.tail);
        if first_other.named.is_none() && others[0].0.is_empty() && left.named.is_some() {
            // "or whatever you have": talk, kept with the tail.
            end = left.tail.max(ors[0]);
            self.one_name(rest, left, amounts);
            return end;
        }
        let same_amounts = amounts.clone();
        self.one_name(rest, left, amounts);
        for (own, found) in others {
            if found.named.is_none() || same_food(self.line.foods.last(), &found) {
                continue;
            }
            let amounts = if own.is_empty() { same_amounts.clone() } else { own };
            let item = self.item_with(rest, &found, amounts);
            self.line.alternatives.push(item);
        }
        end
    }

    /// Pushes one food; gives where its tail begins.
    pub(super) fn one_name(&mut self, rest: &Cut<'a>, found: Found, amounts: Vec<Amount>) -> usize {
        let (found, amounts) = self.unit_behind(rest, found, amounts);
        let tail = found.tail;
        let item = self.item_with(rest, &found, amounts);
        self.push(item, &found);
        tail
    }

    /// "2 rhubarb stalks", "3 thyme sprigs": the last word is what is counted, and those before it name the food.
    fn unit_behind(&self, rest: &Cut<'a>, found: Found, mut amounts: Vec<Amount>) -> (Found, Vec<Amount>) {
        let last = found.to.saturating_sub(1);
        let unit = (last > found.from).then(|| amount::unit(rest, last)).flatten().map(|(unit, _)| unit);
        let counted = matches!(
            unit,
            Some(
                Unit::Sprig | Unit::Stalk | Unit::Leaf | Unit::Clove | Unit::Head | Unit::Pod | Unit::Ear | Unit::Bunch
            )
        );
        // "3 mint leaves" are leaves of mint, though mint leaves are known by that name.
        let not_counted = found.named.is_none_or(|named| !named.counted);
        let (Some(unit), true, true) = (unit, not_counted, counted) else { return (found, amounts) };
        let Some(first) = amounts.first_mut().filter(|first| first.bare) else { return (found, amounts) };
        let shorter = name::find(rest, found.from, last, self.ask);
        let same = found.named.is_none_or(|named| shorter.named.is_some_and(|shorter| shorter.food == named.food));
        if shorter.named.is_none() || !same {
            return (found, amounts);
        }
        for term in &mut first.terms {
            term.unit = unit;
        }
        first.bare = false;
        (Found { tail: found.tail, around: found.around, ..shorter }, amounts)
    }

    pub(super) fn item_with(&mut self, rest: &Cut<'a>, found: &Found, amounts: Vec<Amount>) -> Item {
        let mut item = self.item(rest, found);
        for amount in &amounts {
            if let Some(fill) = &amount.fill
                && !item.ways.contains(fill)
            {
                item.ways.push(fill.clone());
            }
            if item.size.is_none() && amount.bare {
                item.size.clone_from(&amount.size);
            }
        }
        item.amounts = amounts;
        item
    }

    pub(super) fn item(&self, rest: &Cut<'a>, found: &Found) -> Item {
        let Around { size, fill, ways, before, after, unknown, promises } = found.around.clone();
        let mut ways = ways;
        ways.extend(fill);
        let mut preparation: Vec<String> = before;
        preparation.extend(promises);
        preparation.extend(after);
        Item {
            name: rest.written(found.from, found.to).trim().to_owned(),
            place: rest.place(found.from, found.to),
            food: found.named.map(|named| named.food),
            unknown,
            part: None,
            amounts: Vec::new(),
            size,
            ways,
            preparation: preparation.join(" "),
            reference: false,
            unread: false,
        }
    }

    pub(super) fn push(&mut self, mut item: Item, found: &Found) {
        self.settle_unit(&mut item, found);
        if item.amounts.first().is_some_and(|amount| amount.unit() == Unit::Batch) {
            // Another recipe or component is meant, whatever food shares its name.
            item.reference = true;
            item.food = None;
        }
        self.assume_unit(&mut item, found.named);
        self.line.foods.push(item);
    }
}
