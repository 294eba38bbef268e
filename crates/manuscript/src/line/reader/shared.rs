//! Words that two names share, and small questions about names.

use super::opening::skip_words;
use crate::food_words::Named;
use crate::line::Item;
use crate::line::amount::Amount;
use crate::line::cut::Cut;
use crate::line::name::{self, Around, Ask, Found};
use crate::token::Kind as Token;
use crate::words::WORDS;

/// The key of a name in the author's words.
pub(super) fn key_of(name: &str) -> String {
    let cut = Cut::of(name);
    name::key(&cut, 0, cut.tokens.len())
}

pub(super) fn same_food(item: Option<&Item>, found: &Found) -> bool {
    item.is_some_and(|item| item.food.is_some() && item.food == found.named.map(|named| named.food))
}

/// The first token after an amount, "of" passed over.
pub(super) fn after_place(cut: &Cut<'_>, amount: &Amount) -> usize {
    let at = cut.tokens.iter().position(|token| token.place.start >= amount.place.end).unwrap_or(cut.tokens.len());
    skip_words(cut, at)
}

/// A name that does not begin where it should: what stands before it is talk.
pub(super) fn name_is_far(cut: &Cut<'_>, at: usize, found: &Found) -> bool {
    found.from > at + 4 || found.around.unknown.len() > 2 || cut.any(at, &["until", "if", "as", "so", "to"])
}

/// Whether the tokens only describe: sizes, states, ways, fills and nothing that could be a food.
pub(super) fn describes_only(cut: &Cut<'_>, from: usize, to: usize) -> bool {
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
pub(super) enum SplitWord {
    Or,
    And,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Split {
    pub(super) at: usize,
    pub(super) word: SplitWord,
}

/// Where "or", "and", "&", "+", "/" and "plus" part names.
pub(super) fn splits(cut: &Cut<'_>, from: usize, to: usize) -> Vec<Split> {
    let mut found = Vec::new();
    for at in from + 1..to {
        let token = &cut.tokens[at];
        // "give or take"
        if cut.longest(at - 1, &WORDS.tails).is_some_and(|(_, next)| next > at) {
            continue;
        }
        if token.is_any(&["or"])
            || (token.is_mark('/') && cut.is_word(at + 1) && cut.is_word(at - 1) && !cut.joins_phrase(at))
        {
            // "and/or"
            found.push(Split { at, word: SplitWord::Or });
        } else if (token.is_any(&["and", "n"]) || token.is_mark('&') || token.is_mark('+')) && !cut.mark(at + 1, '/') {
            found.push(Split { at, word: SplitWord::And });
        }
    }
    found
}

/// Foods that stand for themselves before "or": butter or olive oil is no butter oil. So does whatever is written in the
/// plural ("almonds or coconut flour").
const STAPLES: &[&str] = &[
    "butter",
    "margarine",
    "sugar",
    "honey",
    "water",
    "cream",
    "egg",
    "flour",
    "salt",
    "oil",
    "chocolate",
    "yogurt",
    "syrup",
    "cheese",
    "oat",
    "rice",
];

/// "almond or oat milk": when the left words and the right's last words together name a food, that is the left food,
/// unless the left words are a food that could not be its adjective.
pub(super) fn shared_head(cut: &Cut<'_>, from: usize, to: usize, left: Found, right: &Found, ask: Ask<'_>) -> Found {
    if right.named.is_none() {
        return left;
    }
    let stands_alone = left.named.is_some()
        && (STAPLES.contains(&left.key.as_str())
            || (left.from < left.to && cut.tokens[left.to - 1].folded != cut.tokens[left.to - 1].key));
    if stands_alone {
        return left;
    }
    let right_words: Vec<&str> = right.key.split(' ').collect();
    // "salted or unsalted butter", "whole wheat or bread flour": what was taken for a state may belong to the name, so the
    // words from the first on are tried before those of the name alone.
    // "ground or freshly grated nutmeg": where the left is nothing but states, all of the right belongs to it.
    let states_only = left.named.is_none() && left.from >= left.to;
    let heads = (1..right_words.len()).chain(states_only.then_some(0)).map(|head| right_words[head..].join(" "));
    let stretches = [(from, to), (left.from.max(from), left.to.min(to).max(left.from))];
    for head in heads {
        for (start, end) in stretches {
            let joined = format!("{} {head}", name::key(cut, start, end));
            let named = ask(&joined).filter(|named| {
                // "red or green grapes" are grapes both ways; "butter or oil" are not both oil.
                left.named.is_none() || right.named.is_none_or(|right| right.food != named.food)
            });
            if let Some(named) = named {
                let whole = (start, end) == (from, to) && start < left.from;
                let around = if whole || left.from >= left.to { Around::default() } else { left.around };
                return Found { named: Some(named), key: joined, from: start, to: end, around, ..left };
            }
        }
    }
    left
}

/// "lemon and orange zest", "baking powder and soda": words that belong to both sides.
pub(super) fn shared_words(
    cut: &Cut<'_>,
    (from, to): (usize, usize),
    left: Found,
    right: Found,
    ask: Ask<'_>,
) -> (Found, Found) {
    let right = completed(cut, right, &left.key, left.named.is_some(), ask);
    let left = shared_head(cut, from, to, left, &right, ask);
    (left, right)
}

/// A name made of these words and some of the left's: "yolk" after "egg" is an egg yolk, "chunk" after "dark chocolate
/// chip" a dark chocolate chunk, "dried" after "fresh thyme" dried thyme.
fn leaning(words: &str, left_key: &str, ask: Ask<'_>) -> Option<(Named, String)> {
    let left: Vec<&str> = left_key.split(' ').take(5).collect();
    let before = (1..=left.len()).rev().flat_map(|to| (0..to).map(move |from| (from, to)));
    let behind = (1..left.len()).chain([0]).map(|from| format!("{words} {}", left[from..].join(" ")));
    let same = ask(left_key).map(|named| named.food);
    before
        .map(|(from, to)| format!("{} {words}", left[from..to].join(" ")))
        .chain(behind)
        .find_map(|joined| Some((ask(&joined).filter(|named| Some(named.food) != same)?, joined)))
}

/// Where the tail begins behind a name that ends at `at`, when nothing stands there that could belong to the name.
fn tail_from(cut: &Cut<'_>, at: usize, to: usize) -> Option<usize> {
    let ends = at >= to || !cut.is_word(at) || cut.longest(at, &WORDS.tails).is_some() || describes_only(cut, at, to);
    ends.then_some(at)
}

/// "2 eggs plus 1 yolk": a right side that names no food may lean on the first word of the left.
pub(super) fn completed(cut: &Cut<'_>, right: Found, left_key: &str, left_known: bool, ask: Ask<'_>) -> Found {
    // "1 c brown sugar & 1/2 c white", "lemon juice plus 1 teaspoon zest": a part alone is first of what stands before.
    let part_alone = WORDS.parts.has(&right.key) && !cut.any(right.from, &["whites", "yolks"]);
    if right.named.is_some() && !part_alone || !left_known {
        return right;
    }
    // "dried" after rosemary, "regular whole wheat" after flour: the head may be the left's last word, and what was
    // taken for a state may belong to the name.
    for from in right.from.saturating_sub(2)..=right.from {
        if (from..right.from).any(|at| !cut.is_word(at) || cut.any(at, &["or", "and", "plus"])) {
            continue;
        }
        for to in (right.from.max(from) + 1..=right.to).rev() {
            let words = name::key(cut, from, to);
            if let Some((named, key)) = leaning(&words, left_key, ask) {
                let Some(tail) = tail_from(cut, to, right.to) else { continue };
                return Found { named: Some(named), key, from, to, tail, ..right };
            }
        }
    }
    right
}
