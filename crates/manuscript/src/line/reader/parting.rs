//! Where a line is parted: by its marks, by "or" in a row of choices, and by measures where foods run together.

use super::opening::skip_words;
use super::{Asked, Reading};
use crate::line::amount;
use crate::line::cut::Cut;
use crate::line::name;
use crate::token::Kind as Token;

/// Where commas, dashes and colons part a line.
pub(super) fn parts(cut: &Cut<'_>) -> Vec<(usize, usize)> {
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
    /// "lemon, orange or lime zest", "walnuts, pecans or almonds": commas between foods, or between words that share their
    /// last one, are as good as the "or" behind them.
    pub(super) fn choices(&self, mut rest: Cut<'a>) -> Cut<'a> {
        let parts = parts(&rest);
        let Some(last) = (1..parts.len().min(6)).find(|part| {
            let (from, to) = parts[*part];
            (from..to).any(|at| rest.any(at, &["or"]))
        }) else {
            return rest;
        };
        let (from, to) = parts[last];
        let or = (from..to).find(|at| rest.any(*at, &["or"])).unwrap_or(from);
        // "walnuts, pecans, or almonds": the comma before the "or" says nothing more.
        let doubled = from == or;
        let commas: Vec<usize> = (0..last).map(|part| parts[part].1).collect();
        let right = name::find(&rest, or + 1, to, self.ask);
        let head = right.key.split_once(' ').filter(|_| right.named.is_some()).map(|(_, head)| head);
        let shared = |from: usize, to: usize| {
            head.is_some_and(|head| (self.ask)(&format!("{} {head}", name::key(&rest, from, to))).is_some())
        };
        let plain = |from: usize, to: usize| {
            let found = name::find(&rest, from, to, self.ask);
            found.named.is_some() && found.from == from && found.to == to
        };
        let each = |takes: &dyn Fn(usize, usize) -> bool| {
            (0..=last - usize::from(doubled)).all(|part| {
                let (start, end) = if part == last { (from, or) } else { parts[part] };
                let start = skip_words(&rest, start);
                start < end && end <= start + 3 && takes(start, end)
            })
        };
        let names_food = each(&shared) || right.named.is_some() && each(&plain);
        if names_food && commas.iter().all(|comma| rest.mark(*comma, ',')) {
            let word = rest.tokens[or].clone();
            for comma in commas[..last - usize::from(doubled)].iter().copied() {
                let place = rest.tokens[comma].place.clone();
                rest.tokens[comma] = crate::token::Token { place, ..word.clone() };
            }
            if doubled {
                rest.tokens.remove(or - 1);
            }
        }
        rest
    }

    /// "one teaspoon soda one teaspoon cinnamon and a quarter teaspoon nutmeg": where nobody parts the foods of a line, each
    /// measure behind a food opens the next.
    pub(super) fn run_on(&self, rest: &Cut<'a>, (from, to): (usize, usize)) -> Vec<(usize, usize)> {
        let names = Asked { cut: rest, ask: self.ask };
        // Where a measure opens, or a number that may count pieces: its token, whether it is measured, where its name begins.
        let mut opens: Vec<(usize, bool, usize)> = Vec::new();
        let mut at = from + 1;
        while at < to {
            let joint = usize::from(rest.any(at, &["and", "plus"]) || rest.mark(at, '+') || rest.mark(at, '&'));
            let words = rest.get(at + joint).is_some_and(|token| token.is_number() || token.kind == Token::Word);
            match words.then(|| amount::amount(rest, at + joint, &names)).flatten() {
                Some((amount, after)) => {
                    opens.push((at, !amount.bare, after));
                    at = after.max(at + 1);
                }
                None => at += 1,
            }
        }
        let plain = |at: usize, to: usize| {
            let found = name::find(rest, skip_words(rest, at), to, self.ask);
            found.named.filter(|_| found.around.unknown.is_empty() && found.from <= at + 3 && found.tail >= to)
        };
        let mut parts = vec![(from, to)];
        let mut name_from = skip_words(rest, from);
        for (index, (at, measured, after)) in opens.iter().copied().enumerate() {
            let end = opens.get(index + 1).map_or(to, |next| next.0);
            let next_food = name::find(rest, skip_words(rest, after), end, self.ask);
            let sound = next_food.named.is_some_and(|named| measured || named.counted) && next_food.from <= after + 3;
            if sound && plain(name_from, at).is_some() {
                if let Some(last) = parts.last_mut() {
                    last.1 = at;
                }
                parts.push((at, to));
                name_from = after;
            }
        }
        parts
    }
}
