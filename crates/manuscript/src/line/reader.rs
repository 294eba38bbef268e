//! The reader of ingredient lines: amounts, then the name, then what the author added.

mod finish;
mod following;
mod named;
mod note;
mod opening;
mod shared;
mod unit;

use super::amount::{self, Amount, Names};
use super::bracket::{self, Lifted};
use super::cut::Cut;
use super::name::{self, Ask};
use super::tail::Tail;
use super::{Kind, Line, NO_INGREDIENT, fruit, kind, marker};
use crate::query::Query;
use crate::token::{Kind as Token, LONGEST_LINE};
use opening::{amounts, skip_words};
use shared::describes_only;

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
            Token::Mark(',' | ';' | '–' | '|' | '*' | '…' | '†' | '‡' | '=') => true,
            Token::Mark('-') => token.spaced || next_spaced,
            // A full stop, not the point of "Tbsp." or of a short form.
            Token::Mark('.') => {
                next_spaced
                    && at > from
                    && cut.tokens[at - 1].folded.len() > 3
                    && amount::unit(cut, at - 1).is_none_or(|(_, next)| next == at)
            }
            // "1:1" is a proportion.
            Token::Mark(':') => {
                next_spaced || token.spaced || !at.checked_sub(1).is_some_and(|last| cut.tokens[last].is_number())
            }
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
        let name_end = self.names(&rest, from, to, amounts);
        // "flour, all-purpose": the next part may complete the name.
        if amount_end.is_none()
            && self.line.foods.len() == 1
            && used < parts.len()
            && self.inverted(&rest, from, parts[used])
        {
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
            self.tail_part(&rest, from, to);
        }
        self.notes(&notes);
        self.finish();
    }
}
