//! The reader of ingredient lines: amounts, then the name, then what the author added.

mod column;
mod doubt;
mod egg_size;
mod finish;
mod following;
mod named;
mod note;
mod opening;
mod parting;
mod plainly;
mod shared;
mod speech;
mod unit;
mod unread;

use super::amount::{self, Amount, Names};
use super::bracket::{self, Lifted};
use super::cut::Cut;
use super::name::{self, Ask};
use super::tail::Tail;
use super::{Kind, Line, NO_INGREDIENT, fruit, kind, marker};
use crate::query::Query;
use crate::token::{Kind as Token, LONGEST_LINE};
use crate::words::WORDS;
use opening::{amounts, skip_words};
use parting::parts;
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
pub fn read(cut: Cut<'_>, ask: Ask<'_>) -> Line {
    let text = cut.text;
    debug_assert!(text.len() <= LONGEST_LINE + 4);
    let offset = marker::length(text);
    let cut = if offset == 0 { cut } else { Cut::of(&text[offset..]) };
    let mut line = blank();
    if cut.tokens.iter().all(|token| matches!(token.kind, Token::Mark(_))) {
        line.kind = if cut.tokens.is_empty() { Kind::Blank } else { Kind::Chatter };
        return line;
    }
    if let Some(label) = label(&cut, ask) {
        let from = offset + cut.tokens[label].place.start;
        let mut line = read(Cut::of(&text[from..]), ask);
        shift(&mut line, from);
        return line;
    }
    let mut cut = cut;
    speech::drop_hums(&mut cut);
    speech::drop_stutter(&mut cut);
    let mut taken_back = Vec::new();
    // "five eggs no six no wait seven": the last word counts.
    while let Some((mended, query)) = speech::corrected(&cut, ask) {
        cut = mended;
        taken_back.push(query);
    }
    let mut line = of_cut(cut, ask);
    line.queries.extend(taken_back);
    shift(&mut line, offset);
    line
}

/// Reads a line that is cut and has nothing before or behind it that is not its own.
fn of_cut(cut: Cut<'_>, ask: Ask<'_>) -> Line {
    let mut line = blank();
    let mut cut = cut;
    speech::hear_number(&mut cut, ask);
    plainly::write(&mut cut);
    column::close_up(&mut cut);
    egg_size::spell_out(&mut cut);
    let lead = speech::leads(&cut);
    if lead > 0 && (!amounts(&cut, lead, ask).0.is_empty() || food_and_amount(&cut, lead, ask)) {
        cut.tokens.drain(..lead);
    }
    if verb_leads(&cut, ask) {
        cut.tokens.drain(..1);
    }
    let below = unread::below_nothing(&mut cut);
    let picked = unread::picked(&cut);
    if picked > 0 && !amounts(&cut, picked, ask).0.is_empty() {
        cut.tokens.drain(..picked);
    }
    let mut opens = amounts(&cut, 0, ask);
    let strange = unread::strange_measure(&mut cut, &opens, ask);
    let mut other = kind::other(&cut, ask, opens_amount(&cut, ask, &opens), opens.1);
    let fillers = speech::fillers(&cut);
    if other.is_none() && opens.0.is_empty() && fillers > 0 {
        cut.tokens.drain(..fillers);
        opens = amounts(&cut, 0, ask);
        other = kind::other(&cut, ask, opens_amount(&cut, ask, &opens), opens.1);
    }
    if let Some(other) = other {
        line.kind = other;
        line.queries.push(taken_for(other, &cut));
        return line;
    }
    line.kind = Kind::Ingredient;
    Reading { cut: &cut, ask, line: &mut line, tail: Tail::default(), further: None }.read(opens);
    unread::leave_out(&cut, &mut line, below, strange);
    line
}

/// Whether an amount opens the line, or the parts of a counted thing ("zest of 2 lemons").
fn opens_amount(cut: &Cut<'_>, ask: Ask<'_>, opens: &(Vec<Amount>, usize)) -> bool {
    !opens.0.is_empty() || fruit::source(cut, 0, cut.tokens.len(), ask, &Asked { cut, ask }).is_some()
}

/// "so that's butter a hundred grams": whether a food stands at `at` and an amount right behind it.
fn food_and_amount(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> bool {
    let names = Asked { cut, ask };
    let mut behind = (at + 1..cut.tokens.len().min(at + 5)).map(|end| (end, amount::amount(cut, end, &names)));
    let Some((end, Some((amount, _)))) = behind.find(|(_, amount)| amount.is_some()) else { return false };
    let found = name::find(cut, at, end, ask);
    !amount.bare && found.named.is_some() && found.from == at && found.to == end
}

/// "Cream 1 cup butter with 2 cups sugar": the word before the amount tells what to do, for a food of its own stands
/// behind it; "Cream 1 cup" is cream, and so is that of "cream 1 cup sugar 2 cups", where each amount stands behind.
fn verb_leads(cut: &Cut<'_>, ask: Ask<'_>) -> bool {
    let verb = cut.begins(0, &WORDS.verb_nouns) || cut.begins(0, &WORDS.verbs);
    let ends_in_amount = cut.tokens.last().is_some_and(crate::token::Token::is_number)
        || amount::unit(cut, cut.tokens.len().saturating_sub(1)).is_some();
    verb && !ends_in_amount && name::find(cut, 0, 1, ask).named.is_some() && heads_what_follows(cut, (0, 1), 1, ask)
}

/// Whether the amount at `at` measures another food than the name before it: "Egg wash: 1 egg", but not "Butter: 225 g"
/// nor "Oil: 2 tbsp olive", which goes on with its name.
fn heads_what_follows(cut: &Cut<'_>, (from, to): (usize, usize), at: usize, ask: Ask<'_>) -> bool {
    let head = name::find(cut, from, to, ask);
    let Some((amount, next)) = amount::amount(cut, at, &Asked { cut, ask }) else { return false };
    let part = name::find(cut, next, cut.tokens.len(), ask);
    // "Orange zest: 1 orange" tells where it comes from.
    let last = head.key.rsplit(' ').next().unwrap_or_default();
    let source = WORDS.parts.has(last)
        && ask(&format!("{} {last}", part.key)).is_some_and(|whole| Some(whole.food) == head.named.map(|it| it.food));
    let goes_on = source || ask(&format!("{} {}", part.key, head.key)).is_some();
    let near = part.from <= next + 1;
    let another = part.named.is_some_and(|part| head.named.is_some_and(|head| head.food != part.food));
    another && !goes_on && near && (!amount.bare || part.named.is_some_and(|part| part.counted))
}

/// "For the crust: 1 1/2 cups crumbs", "Print ▸ 2 eggs": the token after a label that names no food and has an amount
/// behind it.
fn label(cut: &Cut<'_>, ask: Ask<'_>) -> Option<usize> {
    let ends_label = |mark: &Token| matches!(mark, Token::Mark(c) if *c == ':' || crate::token::is_bullet(*c));
    let end = cut.tokens.iter().take(6).position(|token| ends_label(&token.kind)).filter(|at| *at > 0)?;
    let names = Asked { cut, ask };
    let plain = cut.tokens[..end].iter().all(|token| token.kind == Token::Word);
    let behind = amount::amount(cut, end + 1, &names).is_some_and(|(amount, next)| {
        next < cut.tokens.len()
            && !kind::temperature_at(cut, end + 1)
            && (!amount.bare || name::find(cut, next, cut.tokens.len(), ask).named.is_some())
    });
    // "Soaker: flax 80 g, water 200 g"
    let food_behind = || {
        let number = (end + 2..cut.tokens.len().min(end + 7)).find(|at| cut.tokens[*at].is_number())?;
        let (amount, _) = amount::amount(cut, number, &names)?;
        name::find(cut, end + 1, number, ask).named.filter(|_| !amount.bare)
    };
    let named = name::find(cut, 0, end, ask).named.is_some() && !heads_what_follows(cut, (0, end), end + 1, ask);
    let other = cut.longest(0, &WORDS.labels).is_some();
    (plain && !named && !other && (behind || food_behind().is_some())).then_some(end + 1)
}

fn taken_for(kind: Kind, cut: &Cut<'_>) -> Query {
    let place = cut.place(0, cut.tokens.len()).start..cut.text.len();
    Query::new(
        &NO_INGREDIENT,
        place,
        format!("“{}” was taken for {}, so nothing in it is weighed.", cut.text.trim(), kind.words()),
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
            let mut next = Some(amount);
            // What each of a pack holds has a place of its own.
            while let Some(amount) = next {
                move_range(&mut amount.place);
                next = amount.each.as_deref_mut();
            }
        }
    }
    for query in &mut line.queries {
        move_range(&mut query.place);
    }
}

/// A measure behind the name that adds to the first, by the byte where it ends: a bracket behind it measures it.
#[derive(Clone, Copy, Debug)]
enum Further {
    /// "1 cup sugar (200 g) plus 2 tablespoons (25 g)".
    Summed(usize),
    /// "plus 2 tablespoons (25 g) for the top": told, not added.
    Extra(usize),
}

struct Reading<'r, 'a> {
    cut: &'r Cut<'a>,
    ask: Ask<'r>,
    line: &'r mut Line,
    tail: Tail,
    further: Option<Further>,
}

impl<'a> Reading<'_, 'a> {
    fn read(mut self, (amounts, next): (Vec<Amount>, usize)) {
        let Lifted { rest, notes } = bracket::lift(self.cut, next);
        let rest = self.choices(rest);
        let mut parts = parts(&rest);
        if !amounts.is_empty() {
            parts = parts.into_iter().flat_map(|part| self.run_on(&rest, part)).collect();
        }
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
        let mut later = None;
        if amounts.is_empty()
            && let Some((at, found, end)) = self.later_amount(&rest, leading)
        {
            amounts = found;
            to = to.min(at);
            later = Some((at, end));
        }
        // "2 large, ripe bananas": a part that only describes joins the next.
        while used < parts.len() && describes_only(&rest, from, to) && later.is_none() {
            to = parts[used].1;
            used += 1;
        }
        if from >= to && used < parts.len() && later.is_none() {
            (from, to) = parts[used];
            used += 1;
        }
        let name_end = self.names(&rest, from, to, amounts);
        // "flour, all-purpose": the next part may complete the name.
        if later.is_none()
            && self.line.foods.len() == 1
            && used < parts.len()
            && self.inverted(&rest, from, parts[used])
        {
            used += 1;
        }
        let mut tails: Vec<(usize, usize)> = Vec::new();
        // "Yeast, instant 1.5 oz": what stands between the name and its amount.
        if let Some((name_to, _)) = later {
            for part in parts.iter().filter(|part| part.0 >= to && part.0 < name_to) {
                let part = (part.0, part.1.min(name_to));
                if self.line.foods.len() != 1 || !self.inverted(&rest, from, part) {
                    tails.push(part);
                }
            }
        }
        if name_end < to {
            tails.push((name_end, to));
        }
        match later {
            Some((_, end)) => {
                let mut behind =
                    parts.iter().filter(|part| part.1 > end).map(|part| (part.0.max(end), part.1)).peekable();
                // "Sugar: 1 cup brown"
                behind.next_if(|part| part.0 == end && self.line.foods.len() == 1 && self.inverted(&rest, from, *part));
                tails.extend(behind);
            }
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
