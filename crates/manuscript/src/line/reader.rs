//! The reader of ingredient lines: amounts, then the name, then what the author added.

use evencrumb_measure::{Dimension, Number, Unit};

use super::amount::{self, Amount, Names, Term};
use super::bracket::{self, Lifted};
use super::cut::Cut;
use super::name::{self, Around, Ask, Found};
use super::tail::{self, Tail};
use super::{
    AMOUNT_SHARED, FOOD_NOT_KNOWN, Item, Kind, Line, NO_INGREDIENT, NUMBER_NOT_READ, UNIT_MISSING, WORD_PASSED_OVER,
    fruit, kind, marker,
};
use crate::food_words::Named;
use crate::query::Query;
use crate::token::{Kind as Token, LONGEST_LINE};
use crate::words::WORDS;

/// Answers the amount reader's questions about names from one cut and one pantry.
struct Asked<'c, 'f> {
    cut: &'c Cut<'c>,
    ask: Ask<'f>,
}

impl Names for Asked<'_, '_> {
    fn name_starts(&self, at: usize) -> bool {
        name::starts(self.cut, at, self.ask)
    }

    fn unit_is_name(&self, at: usize, after: usize) -> bool {
        let Some(with_unit) = name::longest(self.cut, at, self.ask) else { return false };
        let rest = after + usize::from(self.cut.any(after, &["of"]));
        name::find(self.cut, rest, self.cut.tokens.len(), self.ask)
            .named
            .is_none_or(|named| named.food != with_unit.food)
    }
}

/// Reads one line.
pub fn read(text: &str, ask: Ask<'_>) -> Line {
    debug_assert!(text.len() <= LONGEST_LINE + 4);
    let offset = marker::length(text);
    let cut = Cut::of(&text[offset..]);
    let mut line = blank();
    if cut.tokens.iter().all(|token| matches!(token.kind, Token::Mark(_))) {
        line.kind = if cut.tokens.is_empty() { Kind::Blank } else { Kind::Chatter };
        return line;
    }
    if let Some(label) = label(&cut, ask) {
        let from = offset + cut.tokens[label].place.start;
        let mut line = read(&text[from..], ask);
        shift(&mut line, from);
        return line;
    }
    let opens = amounts(&cut, 0, ask);
    let opened =
        !opens.0.is_empty() || fruit::source(&cut, 0, cut.tokens.len(), ask, &Asked { cut: &cut, ask }).is_some();
    if let Some(other) = kind::other(&cut, ask, opened, opens.1) {
        line.kind = other;
        line.queries.push(taken_for(other, text, offset));
        return line;
    }
    line.kind = Kind::Ingredient;
    Reading { cut: &cut, ask, line: &mut line, tail: Tail::default() }.read(opens);
    shift(&mut line, offset);
    line
}

/// "For the crust: 1 1/2 cups crumbs": the token after a label that names no food and has an amount behind it.
fn label(cut: &Cut<'_>, ask: Ask<'_>) -> Option<usize> {
    let colon = cut.tokens.iter().take(6).position(|token| token.is_mark(':')).filter(|at| *at > 0)?;
    let names = Asked { cut, ask };
    let plain = cut.tokens[..colon].iter().all(|token| token.kind == Token::Word);
    let behind = amount::amount(cut, colon + 1, &names).is_some_and(|(amount, next)| {
        next < cut.tokens.len()
            && !kind::temperature_at(cut, colon + 1)
            && (!amount.bare || name::find(cut, next, cut.tokens.len(), ask).named.is_some())
    });
    let named = name::find(cut, 0, colon, ask).named.is_some();
    let other = cut.any(
        0,
        &[
            "makes", "serves", "yield", "yields", "prep", "cook", "bake", "total", "time", "oven", "pan", "chill",
            "rest", "servings", "store", "note", "notes", "tip",
        ],
    );
    (plain && behind && !named && !other).then_some(colon + 1)
}

fn taken_for(kind: Kind, text: &str, offset: usize) -> Query {
    Query::new(
        &NO_INGREDIENT,
        offset..text.len(),
        format!("“{}” was taken for {}, so nothing in it is weighed.", text.trim(), kind.words()),
        "If it is an ingredient, begin the line with the amount and the food.",
    )
}

fn blank() -> Line {
    Line {
        kind: Kind::Blank,
        foods: Vec::new(),
        alternatives: Vec::new(),
        optional: false,
        divided: false,
        remaining: false,
        purpose: None,
        more: None,
        queries: Vec::new(),
    }
}

/// Moves every place by the bytes of the list marker.
fn shift(line: &mut Line, by: usize) {
    let move_range = |place: &mut std::ops::Range<usize>| *place = place.start + by..place.end + by;
    for item in line.foods.iter_mut().chain(&mut line.alternatives) {
        move_range(&mut item.place);
        for amount in &mut item.amounts {
            move_range(&mut amount.place);
        }
    }
    for query in &mut line.queries {
        move_range(&mut query.place);
    }
}

/// The amounts that open the tokens at `at`: the first as written and those beside it that measure the same.
fn amounts(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> (Vec<Amount>, usize) {
    let names = Asked { cut, ask };
    let mut next = at;
    while cut.any(next, LEADING)
        || (next > at && (cut.mark(next, ':') || cut.mark(next, '–') || cut.mark(next, '-') || cut.mark(next, ',')))
    {
        next += 1;
    }
    let mut found: Vec<Amount> = Vec::new();
    if let Some((heard, after)) = heard(cut, next) {
        found.push(heard);
        return (found, after);
    }
    let Some((first, after)) = amount::amount(cut, next, &names).or_else(|| vague(cut, next, ask)) else {
        return (found, at);
    };
    found.push(first);
    next = after;
    loop {
        let bracketed = cut.mark(next, '(');
        if bracketed {
            let close = cut.closing(next);
            let Some((inner, end)) = bracket_amounts(cut, next + 1, close, &names) else { break };
            if end < close || inner.iter().any(|amount| amount.bare) {
                break;
            }
            join(&mut found, inner, cut.any(close.saturating_sub(1), &["each"]));
            next = close + 1;
            continue;
        }
        let beside = cut.mark(next, '/')
            || cut.mark(next, '|')
            || cut.mark(next, '=')
            || cut.any(next, &["or"])
            || cut.mark(next, ',')
            || cut.mark(next, '-')
            || cut.mark(next, '–')
            || cut.mark(next, ':');
        let Some((other, after)) =
            amount::amount(cut, next + usize::from(beside), &names).filter(|(other, _)| !other.bare)
        else {
            break;
        };
        // "1 cup or 2 of flour": only a measure of the same may stand beside.
        if found[0].bare && !other.is_weight() {
            break;
        }
        found.push(other);
        next = after;
    }
    (found, next)
}

/// Words that may stand before the amount and say nothing of it.
const LEADING: &[&str] = &[
    "optional",
    "optionally",
    "the",
    "remaining",
    "reserved",
    "rest",
    "of",
    "um",
    "uh",
    "er",
    "okay",
    "ok",
    "so",
    "next",
    "is",
    "then",
    "now",
    "and",
    "plus",
    "another",
    "we",
    "need",
    "your",
    "other",
    "last",
    "well",
    "right",
];

/// Dictation's "for tablespoons" and "too cups": four and two, heard as other words.
fn heard(cut: &Cut<'_>, at: usize) -> Option<(Amount, usize)> {
    let value = if cut.any(at, &["for"]) {
        4
    } else if cut.any(at, &["to", "too"]) {
        2
    } else {
        return None;
    };
    let (unit, next) = amount::unit(cut, at + 1).filter(|(unit, _)| unit.dimension() != Dimension::Count)?;
    let mut heard = fruit::one(cut, at, next);
    heard.terms = vec![Term { low: Number::whole(value), high: Number::whole(value), unit, minus: false }];
    heard.bare = false;
    Some((heard, next))
}

/// Adds amounts from a bracket; "(14 oz each)" says what one of the counted things holds.
fn join(found: &mut Vec<Amount>, inner: Vec<Amount>, each: bool) {
    if each && found.len() == 1 && found[0].each.is_none() && found[0].unit().dimension() == Dimension::Count {
        found[0].each = inner.into_iter().next().map(Box::new);
    } else {
        found.extend(inner);
    }
}

/// Amounts in a bracket, with slashes, commas or "or" between: "(113 g / 4 oz)".
fn bracket_amounts(cut: &Cut<'_>, from: usize, to: usize, names: &dyn Names) -> Option<(Vec<Amount>, usize)> {
    let mut found = Vec::new();
    let mut at = from;
    while at < to {
        let Some((amount, next)) = amount::amount(cut, at, names).filter(|(_, next)| *next <= to) else { break };
        found.push(amount);
        at = next;
        while at < to
            && (cut.any(at, &["or", "each", "total", "so", "in", "altogether"])
                || matches!(cut.tokens[at].kind, Token::Mark('/' | ',' | ';' | '|' | '=' | '.')))
        {
            at += 1;
        }
    }
    (!found.is_empty()).then_some((found, at))
}

/// "pinch of salt", "knob of butter", "stick of butter": one of a unit without its number.
fn vague(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> Option<(Amount, usize)> {
    let mut start = at;
    let mut size = None;
    if let Some((word, next)) = cut.longest(start, &WORDS.sizes).or_else(|| cut.longest(start, &WORDS.fills)) {
        size = Some(word.to_owned());
        start = next;
    }
    if cut.any(at, &["a", "an"]) {
        // "a small onion", "an egg"
        let found = name::find(cut, at + 1, cut.tokens.len(), ask);
        return found
            .named
            .filter(|named| named.counted && found.around.unknown.is_empty())
            .map(|_| (fruit::one(cut, at, at + 1), at + 1));
    }
    let (unit, next) = amount::unit(cut, start)?;
    let of = cut.any(next, &["of"]);
    let food_follows = name::find(cut, next, cut.tokens.len(), ask).named.is_some();
    let starts_name = name::starts(cut, start, ask) || ask(&cut.tokens[start].key).is_some_and(|_| !of);
    if starts_name || !(of || (unit.is_vague() && food_follows)) {
        return None;
    }
    let mut one = fruit::one(cut, at, next);
    one.terms = vec![Term { low: Number::ONE, high: Number::ONE, unit, minus: false }];
    one.size = size;
    one.bare = false;
    Some((one, next))
}

struct Reading<'r, 'a> {
    cut: &'r Cut<'a>,
    ask: Ask<'r>,
    line: &'r mut Line,
    tail: Tail,
}

/// Where commas, dashes and colons part a line.
fn parts(cut: &Cut<'_>) -> Vec<(usize, usize)> {
    let mut parts = Vec::new();
    let mut from = 0;
    for (at, token) in cut.tokens.iter().enumerate() {
        let next_spaced = cut.get(at + 1).is_none_or(|next| next.spaced);
        let parted = match token.kind {
            Token::Mark(',' | ';' | '–' | ':' | '|' | '*' | '…' | '†' | '‡' | '=') => true,
            Token::Mark('-') => token.spaced || next_spaced,
            Token::Mark('.') => next_spaced && at > from && cut.tokens[at - 1].folded.len() > 3,
            _ => false,
        };
        if parted {
            if at > from {
                parts.push((from, at));
            }
            from = at + 1;
        }
    }
    if from < cut.tokens.len() {
        parts.push((from, cut.tokens.len()));
    }
    parts
}

impl<'a> Reading<'_, 'a> {
    fn read(mut self, (amounts, next): (Vec<Amount>, usize)) {
        let Lifted { rest, notes } = bracket::lift(self.cut, next);
        let parts = parts(&rest);
        let names = Asked { cut: &rest, ask: self.ask };
        if amounts.is_empty()
            && let Some(source) = fruit::source(&rest, 0, rest.tokens.len(), self.ask, &names)
        {
            self.of_fruit(&rest, source);
            self.notes(&notes);
            return self.finish();
        }
        let leading = skip_words(&rest, parts.first().map_or(0, |part| part.0));
        let (mut from, mut used) = (leading, 1);
        let mut to = parts.first().map_or(0, |part| part.1);
        let mut amounts = amounts;
        // "Butter – 100 g", "flour 200g", "eggs 3 lg": the amount stands after the name.
        let mut amount_end = None;
        if amounts.is_empty()
            && let Some((at, found, end)) = self.later_amount(&rest, leading)
        {
            amounts = found;
            to = to.min(at);
            amount_end = Some(end);
        }
        // "2 large, ripe bananas": a part that only describes joins the next.
        while used < parts.len() && describes_only(&rest, from, to) && amount_end.is_none() {
            to = parts[used].1;
            used += 1;
        }
        if from >= to && used < parts.len() && amount_end.is_none() {
            (from, to) = parts[used];
            used += 1;
        }
        let (name_end, mut listed) = self.names(&rest, from, to, amounts);
        // "flour, all-purpose": the next part may complete the name.
        if amount_end.is_none() && listed == 1 && used < parts.len() && self.inverted(&rest, from, parts[used]) {
            used += 1;
        }
        let mut tails: Vec<(usize, usize)> = Vec::new();
        if name_end < to {
            tails.push((name_end, to));
        }
        match amount_end {
            Some(end) => tails.extend(parts.iter().filter(|part| part.1 > end).map(|part| (part.0.max(end), part.1))),
            None => tails.extend(parts.iter().skip(used).copied()),
        }
        // "cinnamon, nutmeg and cloves, 1/4 tsp each": further parts may be foods of their own.
        for (from, to) in tails {
            listed = self.tail_part(&rest, from, to, listed);
        }
        self.notes(&notes);
        self.finish();
    }

    /// "zest and juice of 1 lemon".
    fn of_fruit(&mut self, rest: &Cut<'a>, source: fruit::Source) {
        for (part, named, key) in &source.parts {
            let mut item = self.item(rest, &source.thing);
            item.name = key.clone();
            item.food = named.map(|named| named.food);
            item.part = Some(part.clone());
            item.amounts.extend(source.amount.clone());
            item.preparation = source.before.join(" ");
            self.push(item, &source.thing);
        }
        let mut listed = source.parts.len();
        for (from, to) in parts(rest).into_iter().filter(|part| part.1 > source.next) {
            listed = self.tail_part(rest, from.max(source.next), to, listed);
        }
    }

    /// The first place after the name where amounts stand and everything before them names a food.
    fn later_amount(&self, rest: &Cut<'a>, from: usize) -> Option<(usize, Vec<Amount>, usize)> {
        let names = Asked { cut: rest, ask: self.ask };
        for at in from + 1..rest.tokens.len().min(from + 16) {
            let token = &rest.tokens[at];
            let starts = token.is_number()
                || token.is_mark('~')
                || token.is_any(&["about", "a", "an", "half", "one", "x"])
                || WORDS.numbers.contains_key(&token.folded)
                || WORDS.fills.has(&token.folded) && rest.get(at + 1).is_some_and(crate::token::Token::is_number);
            if !starts || kind::temperature_at(rest, at) {
                continue;
            }
            let start = at + usize::from(token.is_any(&["x"]));
            let Some((first, mut end)) = amount::amount(rest, start, &names) else { continue };
            let mut name_end = at;
            while name_end > from
                && matches!(
                    rest.tokens[name_end - 1].kind,
                    Token::Mark('-' | '–' | ':' | ',' | '=' | '×' | '.' | '*' | '|' | '…' | '~' | '@')
                )
            {
                name_end -= 1;
            }
            if rest.any(name_end - usize::from(name_end > from), &["x"]) && name_end > from + 1 {
                name_end -= 1;
            }
            if rest.any(name_end.saturating_sub(1), &["for", "from", "about", "into", "to", "at", "of", "in", "with"])
                && first.bare
            {
                continue;
            }
            let found = name::find(rest, from, name_end, self.ask);
            let percent_follows = rest.get(end).is_some_and(crate::token::Token::is_number)
                && (rest.mark(end + 1, '%') || rest.tokens[end..].iter().any(|token| token.is_mark('%')));
            let bare_fits = !first.bare || end >= rest.tokens.len() || rest.cut_after(end) || percent_follows;
            let unknown_fits = !first.bare || (end >= rest.tokens.len() && name_end >= from + 2);
            if name_end == from || (found.named.is_none() && !unknown_fits) || !bare_fits {
                continue;
            }
            let mut amounts = vec![first];
            while let Some((other, next)) = beside(rest, end, &names) {
                amounts.push(other);
                end = next;
            }
            return Some((name_end, amounts, end));
        }
        None
    }

    /// Reads the names between `from` and `to`: alternatives, lists, sums of foods. Gives the token where the tail begins
    /// and how many foods were named.
    fn names(&mut self, rest: &Cut<'a>, from: usize, to: usize, amounts: Vec<Amount>) -> (usize, usize) {
        let names = Asked { cut: rest, ask: self.ask };
        if let Some(source) = fruit::source(rest, from, to, self.ask, &names) {
            // "1 tablespoon zest of 2 lemons"
            let next = source.next;
            for (part, named, key) in &source.parts {
                let mut item = self.item(rest, &source.thing);
                item.name = key.clone();
                item.food = named.map(|named| named.food);
                item.part = amounts.is_empty().then(|| part.clone());
                item.amounts = amounts.iter().chain(&source.amount).cloned().collect();
                item.preparation = source.before.join(" ");
                self.push(item, &source.thing);
            }
            return (next, source.parts.len());
        }
        let whole = name::find(rest, from, to, self.ask);
        let splits = splits(rest, from, to);
        // A known name that spans the word ("half and half") is not parted by it.
        let splits: Vec<Split> = splits
            .into_iter()
            .filter(|split| !(whole.named.is_some() && split.at > whole.from && split.at < whole.to))
            .filter(|split| {
                // "fresh or frozen berries" is one food, "salted or unsalted butter" are two.
                let two_foods = (split.at + 1..to).any(|at| {
                    (self.ask)(&format!("{} {}", name::key(rest, from, split.at), name::key(rest, at, to))).is_some()
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
                let (own, name_at) = amounts_at(rest, right_at, &names);
                let right = name::find(rest, name_at, right_end, self.ask);
                let (left, right) = if own.is_empty() {
                    shared_words(rest, left, right, self.ask)
                } else {
                    let right = completed(rest, right, &left.key, left.named.is_some(), self.ask);
                    (left, right)
                };
                match (left.named, right.named) {
                    (Some(_), Some(_)) => {
                        let mut listed = 2;
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
                            listed += 1;
                        }
                        (end, listed)
                    }
                    (Some(_), None) if whole.named.is_some() => self.one_name(rest, whole, amounts),
                    _ => self.one_name(rest, whole, amounts),
                }
            }
        }
    }

    /// "butter or margarine": the first counts, the others are alternatives.
    fn alternatives(
        &mut self,
        rest: &Cut<'a>,
        from: usize,
        to: usize,
        splits: &[Split],
        left: Found,
        amounts: Vec<Amount>,
    ) -> (usize, usize) {
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
            others.push((own, other));
        }
        let (first_other, last_key) = (&others[0].1, others.last().map(|(_, found)| found.clone()).unwrap_or_default());
        // "almond or oat milk": the last word belongs to both.
        let left = shared_head(rest, from, ors[0], left, &last_key, self.ask);
        let mut end = others.last().map_or(left.tail, |(_, found)| found.tail);
        if first_other.named.is_none() && others[0].0.is_empty() && left.named.is_some() {
            // "or whatever you have": talk, kept with the tail.
            end = left.tail.max(ors[0]);
            self.one_name(rest, left, amounts);
            return (end, 1);
        }
        let same_amounts = amounts.clone();
        self.one_name(rest, left, amounts);
        let count = others.len();
        for (index, (own, found)) in others.into_iter().enumerate() {
            let found = if index + 1 < count {
                shared_head(rest, found.from, found.to, found.clone(), &last_key, self.ask)
            } else {
                found
            };
            if found.named.is_none() || same_food(self.line.foods.last(), &found) {
                continue;
            }
            let amounts = if own.is_empty() { same_amounts.clone() } else { own };
            let item = self.item_with(rest, &found, amounts);
            self.line.alternatives.push(item);
        }
        (end, 1)
    }

    /// Pushes one food; gives where its tail begins.
    fn one_name(&mut self, rest: &Cut<'a>, found: Found, amounts: Vec<Amount>) -> (usize, usize) {
        let tail = found.tail;
        let item = self.item_with(rest, &found, amounts);
        self.push(item, &found);
        (tail, 1)
    }

    fn item_with(&mut self, rest: &Cut<'a>, found: &Found, amounts: Vec<Amount>) -> Item {
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

    fn item(&self, rest: &Cut<'a>, found: &Found) -> Item {
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
        }
    }

    /// "3 leaves of gelatine", "2 cloves": unit and name may be a food together, or the name holds the unit.
    fn settle_unit(&self, item: &mut Item, found: &Found) {
        let Some(first) = item.amounts.first_mut() else { return };
        let unit = first.unit();
        if matches!(unit, Unit::Can | Unit::Jar)
            && let Some(named) = (self.ask)(&format!("canned {}", found.key))
        {
            item.food = Some(named.food);
        }
        if item.part.is_some() || first.each.is_some() {
            return;
        }
        if !first.bare
            && unit.dimension() == Dimension::Count
            && !matches!(unit, Unit::Piece | Unit::Batch | Unit::Can | Unit::Package | Unit::Bag | Unit::Box)
            && let Some(named) = (self.ask)(&format!("{} {}", found.key, unit.name()))
        {
            item.food = Some(named.food);
        }
        let last = found.key.rsplit(' ').next().unwrap_or_default();
        if first.bare
            && found.key.contains(' ')
            && let Some(unit) = Unit::named(last).filter(|unit| {
                matches!(unit, Unit::Clove | Unit::Pod | Unit::Sheet | Unit::Slice | Unit::Sprig | Unit::Square)
            })
        {
            for term in &mut first.terms {
                term.unit = unit;
            }
            first.bare = false;
        }
    }

    fn push(&mut self, mut item: Item, found: &Found) {
        self.settle_unit(&mut item, found);
        if item.amounts.first().is_some_and(|amount| amount.unit() == Unit::Batch) {
            // Another recipe or component is meant, whatever food shares its name.
            item.reference = true;
            item.food = None;
        }
        self.assume_unit(&mut item, found.named);
        self.line.foods.push(item);
    }

    /// A bare number before a food that nobody counts: a professional's grams when it is large, a query when it is not.
    fn assume_unit(&mut self, item: &mut Item, named: Option<Named>) {
        let Some(first) = item.amounts.first_mut() else { return };
        let Some(named) = named else {
            // "gelatin mass 42": not known, but a professional's line all the same.
            if first.bare && first.place.start >= item.place.end && first.terms[0].low.value() >= 5.0 {
                first.terms[0].unit = Unit::Gram;
                first.bare = false;
            }
            return;
        };
        if !first.bare
            || item.part.is_some()
            || first.each.is_some()
            || (named.counted && first.terms[0].low.value() < 60.0)
        {
            return;
        }
        let place = first.place.clone();
        let number = self.cut.text.get(place.clone()).unwrap_or_default().to_owned();
        let behind_name = place.start >= item.place.end;
        if first.terms[0].low.value() >= 5.0 || behind_name {
            for term in &mut first.terms {
                term.unit = Unit::Gram;
            }
            first.bare = false;
            self.line.queries.push(Query::new(
                &UNIT_MISSING,
                place,
                format!("“{}” of {} has no unit; it was taken as grams.", number.trim(), item.name),
                format!("Write the unit, as “{} g {}”.", number.trim(), item.name),
            ));
        } else {
            self.line.queries.push(Query::new(
                &UNIT_MISSING,
                place,
                format!(
                    "“{}” of {} has no unit, and {} is not counted; nothing was weighed.",
                    number.trim(),
                    item.name,
                    item.name
                ),
                format!("Write the unit, as “{} cups {}” or its grams.", number.trim(), item.name),
            ));
        }
    }

    /// "sugar, brown": the part after the comma completes the name when together they name another food.
    fn inverted(&mut self, rest: &Cut<'a>, from: usize, part: (usize, usize)) -> bool {
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
    fn tail_part(&mut self, rest: &Cut<'a>, from: usize, to: usize, listed: usize) -> usize {
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
                tail::read(rest, tail, to, &mut self.tail);
                return listed + 1;
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
    fn mixed_in(&mut self, rest: &Cut<'a>, from: usize, to: usize, listed: usize) -> Option<usize> {
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

    /// Whether the line is a list of foods: an "and" late in it, no amount, or "each".
    fn is_list(&self, rest: &Cut<'a>) -> bool {
        let amounts = self.line.foods.first().is_some_and(|item| !item.amounts.is_empty());
        let each = rest.tokens.iter().any(|token| token.is_any(&["each"]));
        !amounts || each
    }

    /// "2 lemons, zested and juiced": turns the fruit into its parts.
    fn takes_parts(&mut self, rest: &Cut<'a>, from: usize, to: usize) -> bool {
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
        self.line.foods.pop();
        let mut written = vec![rest.written(from, to).to_owned()];
        if !item.preparation.is_empty() {
            written.insert(0, item.preparation.clone());
        }
        for (part, named, key) in parts {
            self.line.foods.push(Item {
                name: key,
                food: named.map(|named| named.food),
                part: Some(part),
                preparation: written.join(", "),
                ..item.clone()
            });
        }
        true
    }

    /// Reads what stood in brackets.
    fn notes(&mut self, notes: &[Cut<'a>]) {
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
            if self.takes_parts_of_last(note) {
                continue;
            }
            if note.any(0, &["or", "sub"]) || note.any(0, &["optional"]) && note.any(1, &["or"]) {
                let (own, name_at) =
                    amounts_at(note, 1 + usize::from(note.any(1, &["use", "sub", "substitute"])), &names);
                let base = self.line.foods.last().map(|item| key_of(&item.name)).unwrap_or_default();
                let found = completed(note, name::find(note, name_at, end, self.ask), &base, true, self.ask);
                if found.named.is_some() && !name_is_far(note, name_at, &found) {
                    let amounts = if own.is_empty() {
                        self.line.foods.first().map(|item| item.amounts.clone()).unwrap_or_default()
                    } else {
                        own
                    };
                    let item = self.item_with(note, &found, amounts);
                    self.line.alternatives.push(item);
                    tail::read(note, found.tail, end, &mut self.tail);
                    continue;
                }
            }
            for (from, to) in parts(note) {
                tail::read(note, from, to, &mut self.tail);
            }
        }
    }

    fn takes_parts_of_last(&mut self, note: &Cut<'a>) -> bool {
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
        self.line.foods.pop();
        let written = note.written(0, note.tokens.len()).to_owned();
        for (part, named, key) in parts {
            self.line.foods.push(Item {
                name: key,
                food: named.map(|named| named.food),
                part: Some(part),
                preparation: written.clone(),
                ..item.clone()
            });
        }
        true
    }

    fn names_same_food(&self, note: &Cut<'a>, from: usize, to: usize) -> bool {
        let found = name::find(note, from, to, self.ask);
        let Some(item) = self.line.foods.first() else { return false };
        same_food(Some(item), &found)
            || (found.named.is_some() && item.part.is_none() && item.name.to_lowercase().contains(&found.key))
    }

    /// Moves what the tail says into the line and asks about what was not known.
    fn finish(self) {
        let Reading { cut, line, tail, .. } = self;
        line.optional = tail.optional || cut.tokens.iter().any(|token| token.is_any(&["optional", "optionally"]));
        line.divided = tail.divided;
        line.remaining = tail.remaining
            || cut.tokens.first().is_some_and(|token| token.is_any(&["remaining", "rest", "leftover", "reserved"]))
            || cut.any(1, &["remaining", "rest", "reserved"]);
        line.purpose = tail.purpose;
        line.more = tail.more;
        let count = line.foods.len();
        let amounts = line.foods.iter().find(|item| !item.amounts.is_empty()).map(|item| item.amounts.clone());
        let shares = count > 1 && line.foods.iter().any(|item| item.amounts.is_empty());
        if let Some(amounts) = amounts.filter(|_| shares) {
            if tail.each || cut.tokens.iter().any(|token| token.is_any(&["each"])) {
                for item in line.foods.iter_mut().filter(|item| item.amounts.is_empty()) {
                    item.amounts.clone_from(&amounts);
                }
            } else {
                let place = amounts[0].place.clone();
                let names: Vec<&str> = line.foods.iter().map(|item| item.name.as_str()).collect();
                line.queries.push(Query::new(
                    &AMOUNT_SHARED,
                    place,
                    format!(
                        "One amount stands for {}; it was taken for {} alone.",
                        names.join(" and "),
                        line.foods[0].name
                    ),
                    "Give each its own line, or write “each” after the amount.",
                ));
            }
        }
        for item in &mut line.foods {
            if let Some(fill) = tail.fill.clone()
                && !item.ways.contains(&fill)
            {
                item.ways.push(fill);
            }
            let mut preparation: Vec<String> = Vec::new();
            if !item.preparation.is_empty() {
                preparation.push(item.preparation.clone());
            }
            preparation.extend(tail.preparation.iter().cloned());
            item.preparation = preparation.join(", ");
        }
        for item in line.foods.iter().chain(&line.alternatives) {
            if item.food.is_none() && !item.reference {
                let message = if item.name.is_empty() {
                    "No food was found in this line; nothing is weighed.".to_owned()
                } else {
                    format!("“{}” is not a food known here; nothing is weighed for it.", item.name)
                };
                line.queries.push(Query::new(
                    &FOOD_NOT_KNOWN,
                    item.place.clone(),
                    message,
                    "Name the food another way, or add it to your foods.",
                ));
            } else if !item.unknown.is_empty() {
                line.queries.push(Query::new(
                    &WORD_PASSED_OVER,
                    item.place.clone(),
                    format!(
                        "“{}” was read as {}; the word “{}” is not known here and was passed over.",
                        item.name,
                        item.name,
                        item.unknown.join(" ")
                    ),
                    "If it makes another food, add that food to your foods.",
                ));
            }
        }
        for token in &cut.tokens {
            if matches!(token.kind, Token::Digits(None)) {
                line.queries.push(Query::new(
                    &NUMBER_NOT_READ,
                    token.place.clone(),
                    format!("“{}” is no amount that a kitchen holds; it was left out.", shorten(&token.folded)),
                    "Write the amount as a plain number, a fraction or a mixed number, such as 1 1/2.",
                ));
            }
        }
        if cut.tokens.windows(3).any(|three| {
            three[0].is_number()
                && three[1].is_mark('/')
                && three[2].folded.bytes().all(|byte| byte == b'0')
                && three[2].is_number()
        }) {
            line.queries.push(Query::new(
                &NUMBER_NOT_READ,
                0..cut.text.len(),
                "A fraction over nothing is no amount; it was left out.",
                "Write the amount as a plain number, a fraction or a mixed number, such as 1 1/2.",
            ));
        }
    }
}

/// The key of a name in the author's words.
fn key_of(name: &str) -> String {
    let cut = Cut::of(name);
    name::key(&cut, 0, cut.tokens.len())
}

fn shorten(text: &str) -> String {
    if text.chars().count() <= 24 {
        text.to_owned()
    } else {
        format!("{}…", text.chars().take(24).collect::<String>())
    }
}

fn same_food(item: Option<&Item>, found: &Found) -> bool {
    item.is_some_and(|item| item.food.is_some() && item.food == found.named.map(|named| named.food))
}

/// The first token after an amount, "of" passed over.
fn after_place(cut: &Cut<'_>, amount: &Amount) -> usize {
    let at = cut.tokens.iter().position(|token| token.place.start >= amount.place.end).unwrap_or(cut.tokens.len());
    skip_words(cut, at)
}

/// A name that does not begin where it should: what stands before it is talk.
fn name_is_far(cut: &Cut<'_>, at: usize, found: &Found) -> bool {
    found.from > at + 4 || found.around.unknown.len() > 2 || cut.any(at, &["until", "if", "as", "so", "to"])
}

/// Passes over words between amount and name that mean nothing: "of", "the", "a".
fn skip_words(cut: &Cut<'_>, mut at: usize) -> usize {
    loop {
        if cut.any(at, &["of", "the", "each", "total", "worth", "a", "an", "some", "little", "bit", "um", "uh"])
            && at + 1 < cut.tokens.len()
        {
            let little = cut.any(at, &["little", "bit"]);
            if little && !cut.any(at + 1, &["of", "more", "bit"]) && at > 0 && !cut.any(at - 1, &["a"]) {
                return at;
            }
            at += 1;
        } else if cut.any(at, &["optional", "optionally", "remaining"])
            || (at == 0
                && cut.tokens.first().is_some_and(|token| matches!(token.kind, Token::Mark(':' | '-' | '–' | ','))))
        {
            at += 1;
        } else if cut.any(at, &["rest"]) && cut.any(at + 1, &["of"]) {
            at += 2;
        } else {
            return at;
        }
    }
}

/// Amounts at `at` and the token after, with "of" passed over.
fn amounts_at(cut: &Cut<'_>, at: usize, names: &dyn Names) -> (Vec<Amount>, usize) {
    let start = at + usize::from(cut.any(at, &["from"]));
    match amount::amount(cut, start, names) {
        Some((first, mut next)) => {
            let mut found = vec![first];
            while let Some((other, after)) = beside(cut, next, names) {
                found.push(other);
                next = after;
            }
            (found, skip_words(cut, next))
        }
        None => (Vec::new(), skip_words(cut, at)),
    }
}

/// A further measure of the same beside an amount: "/ 225 g", "or 1/2 cup", "= 113 g".
fn beside(cut: &Cut<'_>, at: usize, names: &dyn Names) -> Option<(Amount, usize)> {
    let mark = cut.mark(at, '/')
        || cut.mark(at, '|')
        || cut.mark(at, '=')
        || cut.any(at, &["or"])
        || cut.mark(at, '-')
        || cut.mark(at, '–')
        || cut.mark(at, ',');
    amount::amount(cut, at + usize::from(mark), names).filter(|(other, _)| !other.bare)
}

/// Whether the tokens only describe: sizes, states, ways, fills and nothing that could be a food.
fn describes_only(cut: &Cut<'_>, from: usize, to: usize) -> bool {
    let mut at = from;
    while at < to {
        let next = [&WORDS.sizes, &WORDS.states, &WORDS.ways, &WORDS.fills]
            .iter()
            .filter_map(|list| cut.longest(at, list))
            .map(|(_, next)| next)
            .max();
        match next {
            Some(next) => at = next,
            None if matches!(cut.tokens[at].kind, Token::Mark(_)) || cut.any(at, &["and", "of", "but"]) => at += 1,
            None => return false,
        }
    }
    from < to
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum SplitWord {
    Or,
    And,
}

#[derive(Clone, Copy, Debug)]
struct Split {
    at: usize,
    word: SplitWord,
}

/// Where "or", "and", "&", "+", "/" and "plus" part names.
fn splits(cut: &Cut<'_>, from: usize, to: usize) -> Vec<Split> {
    let mut found = Vec::new();
    for at in from + 1..to {
        let token = &cut.tokens[at];
        if token.is_any(&["or"]) || (token.is_mark('/') && cut.is_word(at + 1) && cut.is_word(at - 1)) {
            // "and/or"
            found.push(Split { at, word: SplitWord::Or });
        } else if (token.is_any(&["and", "n"]) || token.is_mark('&') || token.is_mark('+')) && !cut.mark(at + 1, '/') {
            found.push(Split { at, word: SplitWord::And });
        }
    }
    found
}

/// "almond or oat milk": when the left words and the right's last words together name a food, that is the left food,
/// unless the left words are a food that could not be its adjective.
fn shared_head(cut: &Cut<'_>, from: usize, to: usize, left: Found, right: &Found, ask: Ask<'_>) -> Found {
    if right.named.is_none() {
        return left;
    }
    let right_words: Vec<&str> = right.key.split(' ').collect();
    // "salted or unsalted butter": the left words alone are states and no name, so all of them count.
    let states_only = left.named.is_none() && left.from >= left.to;
    let (start, end) = if states_only { (from, to) } else { (left.from.max(from), left.to.min(to).max(left.from)) };
    let left_key = name::key(cut, start, end);
    for head in 1..right_words.len() {
        let joined = format!("{left_key} {}", right_words[head..].join(" "));
        if let Some(named) = ask(&joined) {
            let around = if states_only { Around::default() } else { left.around };
            return Found { named: Some(named), key: joined, from: start, to: end, around, ..left };
        }
    }
    left
}

/// "lemon and orange zest", "baking powder and soda": words that belong to both sides.
fn shared_words(cut: &Cut<'_>, left: Found, right: Found, ask: Ask<'_>) -> (Found, Found) {
    let right = completed(cut, right, &left.key, left.named.is_some(), ask);
    let left = shared_head(cut, left.from, left.to, left, &right, ask);
    (left, right)
}

/// "2 eggs plus 1 yolk": a right side that names no food may lean on the first word of the left.
fn completed(cut: &Cut<'_>, right: Found, left_key: &str, left_known: bool, ask: Ask<'_>) -> Found {
    if right.named.is_some() || !left_known {
        return right;
    }
    let first = left_key.split(' ').next().unwrap_or_default();
    let last = left_key.rsplit(' ').next().unwrap_or_default();
    // "dried" after rosemary, "regular whole wheat" after flour: the head may be the left's last word, and what was
    // taken for a state may belong to the name.
    for from in right.from.saturating_sub(2)..=right.from {
        if (from..right.from).any(|at| !cut.is_word(at) || cut.any(at, &["or", "and", "plus"])) {
            continue;
        }
        let words = name::key(cut, from, right.to);
        for joined in [format!("{first} {words}"), format!("{words} {last}")] {
            if let Some(named) = ask(&joined) {
                return Found { named: Some(named), key: joined, tail: right.to, ..right };
            }
        }
    }
    right
}

impl Cut<'_> {
    /// Whether the words end at `at`: at the end, a comma, a bracket or a word that begins a tail.
    fn cut_after(&self, at: usize) -> bool {
        self.get(at).is_none_or(|token| matches!(token.kind, Token::Mark(_)))
            || self.longest(at, &WORDS.tails).is_some()
            || self.longest(at, &WORDS.sizes).is_some()
            || self.longest(at, &WORDS.ways).is_some()
            || self.longest(at, &WORDS.states).is_some()
    }
}
