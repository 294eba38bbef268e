//! What follows a name: preparation, purpose, "divided", "plus more", "optional".

use super::cut::Cut;
use crate::words::WORDS;

/// What a tail says.
#[derive(Clone, Debug, Default)]
pub struct Tail {
    /// May be left out.
    pub optional: bool,
    /// Used in more than one place.
    pub divided: bool,
    /// What is left of something.
    pub remaining: bool,
    /// Every food named gets the amount.
    pub each: bool,
    /// What the line is for.
    pub purpose: Option<String>,
    /// What an unmeasured extra is for; empty when not said.
    pub more: Option<String>,
    /// How full the measure was.
    pub fill: Option<String>,
    /// Preparation in the author's words.
    pub preparation: Vec<String>,
}

/// Reads tokens `from` to `to` as a tail.
pub fn read(cut: &Cut<'_>, from: usize, to: usize, tail: &mut Tail) {
    let mut at = from;
    let mut words_from = from;
    while at < to {
        let Some(next) = flag(cut, at, to, at == words_from, tail) else {
            at += 1;
            continue;
        };
        keep(cut, words_from, at, tail);
        at = next;
        words_from = next;
    }
    keep(cut, words_from, to, tail);
}

/// Keeps the words between two flags as preparation.
fn keep(cut: &Cut<'_>, mut from: usize, mut to: usize, tail: &mut Tail) {
    let loose = |at: usize| {
        let token = &cut.tokens[at];
        matches!(token.kind, crate::token::Kind::Mark(c) if !matches!(c, '%' | '°' | '"'))
            || token.is_any(&["and", "or", "then", "plus", "but"])
    };
    while from < to && loose(from) {
        from += 1;
    }
    while to > from && loose(to - 1) {
        to -= 1;
    }
    if from < to {
        tail.preparation.push(cut.written(from, to).to_owned());
    }
}

/// Reads a flag at `at`; the token after it.
fn flag(cut: &Cut<'_>, at: usize, to: usize, first: bool, tail: &mut Tail) -> Option<usize> {
    if cut.any(at, &["optional", "optionally", "opt"]) {
        tail.optional = true;
        return Some(at + 1);
    }
    if cut.any(at, &["divided"]) {
        tail.divided = true;
        return Some(at + 1);
    }
    if cut.any(at, &["remaining"]) {
        tail.remaining = true;
        return Some(at + 1);
    }
    if cut.any(at, &["each"]) {
        tail.each = true;
        return Some(at + 1);
    }
    let plus = cut.any(at, &["plus", "and", "with"]) || cut.mark(at, '+') || cut.mark(at, '&');
    let little = plus && cut.any(at + 1, &["a"]) && cut.any(at + 2, &["little", "bit", "touch", "few", "handful"]);
    let more_at = at + usize::from(plus) + usize::from(little) * 2;
    // "plus a little for rolling": the extra is for rolling, and not the cup before it.
    if little && let Some((what, next)) = purpose(cut, more_at) {
        tail.more = Some(what.to_owned());
        return Some(next);
    }
    if (plus || first)
        && cut.any(more_at, &["more", "extra", "additional", "some"])
        && (plus || purpose(cut, more_at + 1).is_some())
    {
        let for_at = more_at + 1 + usize::from(cut.any(more_at + 1, &["more"]));
        let (what, next) = purpose(cut, for_at).map_or((String::new(), for_at), |(what, next)| (what.to_owned(), next));
        tail.more = Some(what);
        return Some(next);
    }
    if let Some((what, next)) = purpose(cut, at) {
        tail.purpose.get_or_insert_with(|| what.to_owned());
        return Some(next);
    }
    if first
        && let Some((fill, next)) = cut
            .longest(at, &WORDS.fills)
            .filter(|(_, next)| *next >= to || cut.any(*next, &["and"]) || cut.mark(*next, ',') || cut.mark(*next, '&'))
        && matches!(fill, "packed" | "loose" | "level" | "heaped" | "scant" | "spooned" | "dipped" | "sifted first")
    {
        tail.fill.get_or_insert_with(|| super::name::sifted(fill.to_owned()));
        return Some(next);
    }
    None
}

/// "for greasing", "to taste": what it is for, and the token after the words that belong to it.
pub fn purpose<'w>(cut: &Cut<'_>, at: usize) -> Option<(&'w str, usize)> {
    let (what, mut next) = cut.longest(at, &WORDS.purposes)?;
    // "for dusting the work surface": the object goes with it.
    if cut.any(next, &["the", "your", "a", "over", "on", "pan", "pans", "tin", "tins", "and"]) {
        while cut.is_word(next) || cut.joins(next) {
            next += 1;
        }
    }
    Some((what, next))
}
