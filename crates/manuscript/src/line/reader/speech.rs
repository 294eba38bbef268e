//! Speech written down by a machine: words that only open it, and words that take back what was said.

use super::opening::amounts;
use crate::line::SPOKEN_CORRECTION;
use crate::line::amount;
use crate::line::cut::Cut;
use crate::line::name::{self, Ask};
use crate::line::number;
use crate::query::Query;
use crate::token::{Kind, Token};
use crate::words::WORDS;
use evencrumb_measure::Dimension;

/// Takes out "um" and "uh" wherever they stand; a line of nothing else stays.
pub(super) fn drop_hums(cut: &mut Cut<'_>) {
    let hummed = |token: &Token| token.is_any(&["um", "uh", "uhm", "erm"]);
    if !cut.tokens.iter().all(hummed) {
        cut.tokens.retain(|token| !hummed(token));
    }
}

/// "six six large eggs", "a a cup of": a number, an article or a measure said twice over counts once.
pub(super) fn drop_stutter(cut: &mut Cut<'_>) {
    let again: Vec<usize> = (1..cut.tokens.len())
        .filter(|at| {
            let (before, word) = (&cut.tokens[at - 1], &cut.tokens[*at]);
            // Nearly no word is said twice, and the rest is not asked of the others.
            word.kind == Kind::Word
                && word.folded == before.folded
                && (WORDS.numbers.contains_key(word.folded.as_str())
                    || word.is_any(&["a", "an", "the", "of", "and"])
                    || word.folded.len() > 2 && amount::unit(cut, *at).is_some())
        })
        .collect();
    for at in again.into_iter().rev() {
        cut.tokens.remove(at);
    }
}

/// "won teaspoon of salt", "for eggs beaten": a number heard as another word, where a measure or a counted food follows.
pub(super) fn hear_number(cut: &mut Cut<'_>, ask: Ask<'_>) {
    let at = fillers(cut);
    let number = cut.get(at).and_then(|word| WORDS.heard_numbers.get(word.folded.as_str()));
    let Some(number) = number else { return };
    let next = cut.longest(at + 1, &WORDS.sizes).map_or(at + 1, |found| found.1);
    let measure = amount::unit(cut, next).is_some_and(|(unit, after)| {
        unit.dimension() != Dimension::Count && !unit.is_vague() && after < cut.tokens.len()
    });
    let plural = cut.get(next).is_some_and(|word| word.kind == Kind::Word && word.folded != word.key);
    let counted = || name::find(cut, next, cut.tokens.len(), ask).named.is_some_and(|named| named.counted);
    if measure || plural && counted() && !cut.mark(cut.tokens.len() - 1, ':') {
        cut.tokens[at].folded = number.as_str().into();
        cut.tokens[at].key = number.as_str().into();
    }
}

/// The token after "um", "okay so", "and then": they open a line of speech and say nothing of it.
pub(super) fn fillers(cut: &Cut<'_>) -> usize {
    passed(cut, 0, |at| cut.longest(at, &WORDS.fillers).map(|found| found.1))
}

/// The token after "first you need", "let's see": they open an ingredient where an amount follows.
pub(super) fn leads(cut: &Cut<'_>) -> usize {
    passed(cut, 0, |at| {
        let found = [&WORDS.fillers, &WORDS.leads].into_iter().filter_map(|list| cut.longest(at, list));
        found.map(|found| found.1).max()
    })
}

fn passed(cut: &Cut<'_>, mut at: usize, after: impl Fn(usize) -> Option<usize>) -> usize {
    while let Some(next) = after(at) {
        at = next + usize::from(cut.mark(next, ',') || cut.mark(next, '…'));
    }
    if at < cut.tokens.len() { at } else { 0 }
}

/// "two cups sugar no wait one and a half cups": the line as if the first had not been said, and the query that tells so.
///
/// What is said again takes the place of its like: an amount and a food that of the whole, an amount that of the amount,
/// a unit that of the unit, a food that of the food. Anything else behind such words is left to be read as it stands.
pub(super) fn corrected<'a>(cut: &Cut<'a>, ask: Ask<'_>) -> Option<(Cut<'a>, Query)> {
    let (at, next) = (1..cut.tokens.len()).find_map(|at| {
        let behind = |next: usize| next + usize::from(cut.mark(next, ','));
        if let Some((_, next)) = cut.longest(at, &WORDS.corrections) {
            return Some((at, behind(next)));
        }
        // "five eggs no six": "no salt" takes nothing back, so a number must follow.
        let (_, next) = cut.longest(at, &WORDS.recounts)?;
        (!amounts(cut, behind(next), ask).0.is_empty()).then_some((at, behind(next)))
    })?;
    let end = cut.tokens.len();
    let before = amounts(cut, 0, ask);
    let (again, after) = amounts(cut, next, ask);
    let food = |from: usize, to: usize| name::find(cut, from, to, ask).named.is_some();
    let without = |gone: std::ops::Range<usize>| {
        let kept = cut.tokens.iter().enumerate().filter(|(at, _)| !gone.contains(at));
        Cut { text: cut.text, tokens: kept.map(|(_, token)| token.clone()).collect() }
    };
    let mended = if !again.is_empty() && food(after, end) {
        without(0..next)
    } else if !again.is_empty() && !before.0.is_empty() && before.1 <= at {
        // The food stays with its new amount, and with the old unit where only a number is said again.
        let number_end = number::numbers(cut, 0).map_or(0, |read| read.next);
        let kept = if again[0].bare && !before.0[0].bare && number_end > 0 { number_end } else { before.1 };
        let tokens = cut.tokens[next..after].iter().chain(&cut.tokens[kept..at]).chain(&cut.tokens[after..]);
        Cut { text: cut.text, tokens: tokens.cloned().collect() }
    } else if let Some(unit_at) =
        (0..at).rev().find(|unit_at| amount::unit(cut, *unit_at).is_some_and(|(_, to)| to == at))
        && amount::unit(cut, next).is_some()
    {
        without(unit_at..next)
    } else if food(next, end) && !before.0.is_empty() && before.1 <= at {
        without(before.1..next)
    } else {
        return None;
    };
    let query = Query::new(
        &SPOKEN_CORRECTION,
        cut.place(0, next),
        format!("“{}” was taken back by what follows it; it is not counted.", cut.written(0, next)),
        "If both are meant, give each a line of its own; else take the first out.",
    );
    Some((mended, query))
}
