//! Amounts that stand in a line and cannot be read: they must be mended, and nothing is weighed in their place.

use std::ops::Range;

use super::opening::skip_words;
use crate::line::amount::Amount;
use crate::line::cut::Cut;
use crate::line::name::{self, Ask};
use crate::line::{AMOUNT_NOTHING, FOOTNOTE, Line, MEASURE_NOT_READ, NUMBER_NOT_READ, UNIT_MISSING, amount};
use crate::query::Query;
use crate::token::{self, Kind as Token};
use crate::words::WORDS;

/// The token after "leaves from", "needles picked off": what is taken of a sprig is weighed by the sprig.
pub(super) fn picked(cut: &Cut<'_>) -> usize {
    let from = 1 + usize::from(cut.any(1, &["picked", "stripped"]));
    let taken = cut.any(0, &["leaves", "leaf", "needles", "fronds"]) && cut.any(from, &["from", "of", "off"]);
    if taken { from + 1 } else { 0 }
}

/// "1 bushel apples", "1 mug flour": takes the word of a measure nobody knows out of the line and gives its place.
pub(super) fn strange_measure(cut: &mut Cut<'_>, opens: &(Vec<Amount>, usize), ask: Ask<'_>) -> Option<Range<usize>> {
    let ([only], at) = (opens.0.as_slice(), opens.1) else { return None };
    let (_, next) = cut.longest(at, &WORDS.strange_measures).filter(|_| only.bare)?;
    let food_at = skip_words(cut, next);
    let food = name::find(cut, food_at, cut.tokens.len(), ask);
    // "1 flat peach" is a peach, and "1 flat teaspoon" level.
    let flat = cut.any(at, &["flat", "flats"])
        && (amount::unit(cut, next).is_some() || cut.get(next).is_some_and(|word| word.folded == word.key));
    if flat || food.named.is_none() || food.from > food_at + 3 || name::starts(cut, at, ask) {
        return None;
    }
    let place = cut.place(at, next);
    cut.tokens.drain(at..next);
    Some(place)
}

/// "-5 cups": takes the stroke out of the line and gives the place of the number that is less than nothing.
pub(super) fn below_nothing(cut: &mut Cut<'_>) -> Option<Range<usize>> {
    let below = cut.mark(0, '-') && cut.get(1).is_some_and(|token| token.is_number() && !token.spaced);
    let place = below.then(|| cut.place(0, 2))?;
    cut.tokens.remove(0);
    Some(place)
}

/// Leaves out amounts that cannot be meant as they stand, and asks.
pub(super) fn leave_out(cut: &Cut<'_>, line: &mut Line, below: Option<Range<usize>>, strange: Option<Range<usize>>) {
    if let Some(place) = strange {
        let word = cut.text[place.clone()].to_owned();
        let query = Query::new(
            &MEASURE_NOT_READ,
            place.clone(),
            format!("How much a “{word}” holds is not known here; nothing was weighed."),
            "Write the grams, or a measure such as cups.",
        );
        leave(line, 0..place.start, query);
    }
    let garbled: Vec<(usize, usize)> = (0..cut.tokens.len()).filter_map(|at| Some((at, garbled(cut, at)?))).collect();
    for (from, to) in garbled {
        let query = Query::new(
            &NUMBER_NOT_READ,
            cut.place(from, to),
            format!("“{}” can be read in more than one way; it was left out.", cut.written(from, to)),
            "Write the amount as a plain number, such as 1000 or 2.5.",
        );
        leave(line, cut.place(from, to), query);
    }
    if let Some(place) = below {
        let query = Query::new(
            &NUMBER_NOT_READ,
            place.clone(),
            format!("“{}” is less than nothing; it was left out.", &cut.text[place]),
            "If the stroke is a bullet, put a space behind it.",
        );
        leave(line, cut.place(0, cut.tokens.len()), query);
    }
    // "2% salt": a share, and nobody says of what.
    let share = cut.get(0).is_some_and(token::Token::is_number) && cut.mark(1, '%');
    let behind = cut.place(0, 2).end;
    if share && line.foods.iter().all(|item| item.amounts.is_empty() && item.place.start >= behind) {
        let query = Query::new(
            &MEASURE_NOT_READ,
            cut.place(0, 2),
            format!("“{}” is a share, and the line does not say of how much; nothing was weighed.", cut.written(0, 2)),
            "Write the grams beside it.",
        );
        line.foods.iter_mut().for_each(|item| item.unread = true);
        line.queries.push(query);
    }
    let holds_nothing = |amount: &Amount| amount.terms.iter().all(|term| term.high.value() <= 0.0);
    let nothing = line.foods.iter().flat_map(|item| &item.amounts).find(|amount| holds_nothing(amount));
    if let Some((place, packs)) = nothing.map(|amount| (amount.place.clone(), amount.each.is_some())) {
        // "0 g" is what a stock may hold; "0x10 g" are no packs that anybody counts.
        let taken = if packs { "it was left out" } else { "it was taken as nothing" };
        let query = Query::new(
            if packs { &NUMBER_NOT_READ } else { &AMOUNT_NOTHING },
            place.clone(),
            format!("“{}” is no amount of a recipe; {taken}.", &cut.text[place.clone()]),
            "Write how much is meant, or take the line out.",
        );
        if packs {
            leave(line, place, query);
        } else {
            line.queries.push(query);
        }
    }
    line.queries.extend(footnotes(cut));
}

/// Takes the amounts that touch a place from their foods, and from all when none does.
fn leave(line: &mut Line, place: Range<usize>, query: Query) {
    let touches = |other: &Range<usize>| other.start < place.end && place.start < other.end;
    for item in line.foods.iter_mut().chain(&mut line.alternatives) {
        if item.amounts.iter().any(|amount| touches(&amount.place)) {
            item.amounts.clear();
            item.unread = true;
        }
    }
    line.queries.retain(|other| other.kind.name != UNIT_MISSING.name || !touches(&other.place));
    line.queries.push(query);
}

/// The token after digits that are parted as no number is: "1,00,000", "1.000,5", "10 00".
fn garbled(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let digits = |at: usize| cut.get(at).filter(|token| matches!(token.kind, Token::Digits(_)));
    let first = digits(at)?;
    let tight = |at: usize| cut.get(at).is_some_and(|token| !token.spaced);
    let parted =
        (cut.mark(at + 1, ',') || cut.mark(at + 1, '.')) && tight(at + 1) && digits(at + 2).is_some() && tight(at + 2);
    if parted && first.folded.contains(['.', ',']) {
        return Some(at + 3);
    }
    let second = digits(at + 1)?;
    let nothing_but = |text: &str| text.len() > 1 && text.bytes().all(|byte| byte == b'0');
    (nothing_but(&second.folded) && crate::line::number::thousands(cut, at).is_none() && !name_of_flour(cut, at + 1))
        .then_some(at + 2)
}

/// "500 00 flour": the zeros are the flour's grade.
fn name_of_flour(cut: &Cut<'_>, at: usize) -> bool {
    cut.any(at + 1, &["flour", "flours"]) || cut.mark(at + 1, '\'') || cut.mark(at + 1, '"')
}

/// "2¹ cups": the raised figures behind a number, which were passed over.
fn footnotes(cut: &Cut<'_>) -> Vec<Query> {
    let behind = |token: &token::Token| {
        let length = token::footnote(cut.text.get(token.place.end..)?)?;
        let (from, to) = (token.place.start, token.place.end + length);
        Some(Query::new(
            &FOOTNOTE,
            from..to,
            format!(
                "“{}” was read as {}, and “{}” as the mark of a footnote.",
                &cut.text[from..to],
                token.folded,
                &cut.text[token.place.end..to]
            ),
            "If it is part of the number, write the number in plain figures.",
        ))
    };
    cut.tokens.iter().filter(|token| matches!(token.kind, Token::Digits(_))).filter_map(behind).collect()
}
