//! Amounts at the head of a line, behind a name, and in brackets.

use evencrumb_measure::{Dimension, Number, Unit};

use super::{Asked, Reading};
use crate::food_words::Named;
use crate::line::amount::{self, Amount, Names, Term};
use crate::line::cut::Cut;
use crate::line::name::{self, Ask};
use crate::line::{fruit, kind, number};
use crate::token::Kind as Token;
use crate::words::WORDS;

/// The amounts that open the tokens at `at`: the first as written and those beside it that measure the same.
pub(super) fn amounts(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> (Vec<Amount>, usize) {
    let names = Asked { cut, ask };
    let mut next = at;
    while cut.longest(next, &WORDS.before_amount).is_some()
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
            if or_so_many(cut, next + 1, close, &mut found[0]) {
                next = close + 1;
                continue;
            }
            let Some((inner, end)) = bracket_amounts(cut, next + 1, close, &names) else { break };
            if end < close || inner.iter().any(|amount| amount.bare) {
                break;
            }
            // "2 (6-ounce) fillets": a measure before the name says how large each of them is.
            let together = (next..close).any(|at| cut.any(at, &["total", "altogether", "about", "in"]));
            let each = cut.any(close.saturating_sub(1), &["each"])
                || found[0].bare
                    && found[0].terms[0].low.value() > 1.0
                    && close + 1 < cut.tokens.len()
                    && inner[0].unit().dimension() != Dimension::Count
                    && !together;
            join(&mut found, inner, each);
            next = close + 1;
            continue;
        }
        if let Some(after) = further_term(cut, next, &names, &mut found) {
            next = after;
            continue;
        }
        let behind_colon =
            || amount::amount(cut, next + 1, &names).filter(|(other, _)| cut.mark(next, ':') && !other.bare);
        let Some((other, after)) = beside(cut, next, &names).or_else(behind_colon) else { break };
        // "1 cup or 2 of flour": only a measure of the same may stand beside.
        if found[0].bare && !other.is_weight() {
            break;
        }
        // "2 6-oz fillets", "4 4-ounce chicken breasts": a number right behind a number counts what is so heavy.
        let each = found[0].bare && cut.get(next).is_some_and(crate::token::Token::is_number);
        join(&mut found, vec![other], each);
        next = after;
    }
    (found, next)
}

/// "1 cup (200 g) plus 2 tablespoons (25 g)": what is added, with what it measures besides. Gives the token after.
fn further_term(cut: &Cut<'_>, at: usize, names: &dyn Names, found: &mut Vec<Amount>) -> Option<usize> {
    let joined = cut.any(at, &["plus", "and"]) || cut.mark(at, '+') || cut.mark(at, '&');
    let (term, next) = amount::amount(cut, at + 1, names).filter(|(term, _)| joined && !term.bare)?;
    if found.len() < 2 || found[0].bare || term.each.is_some() || next >= cut.tokens.len() {
        return None;
    }
    let close = cut.closing(next);
    let beside = bracket_amounts(cut, next + 1, close, names).filter(|(_, end)| cut.mark(next, '(') && *end == close);
    let weight = |amounts: &[Amount]| amounts.iter().find(|amount| amount.is_weight()).cloned();
    let (weighed, further) = (weight(&found[1..]), beside.as_ref().and_then(|(amounts, _)| weight(amounts)));
    found.truncate(1);
    if let Some(mut weighed) = weighed {
        weighed.terms.extend(further.map_or_else(|| term.terms.clone(), |further| further.terms));
        found.push(weighed);
    }
    found[0].terms.extend(term.terms);
    Some(if beside.is_some() { close + 1 } else { next })
}

/// "1 cup (or 2)", "2 (or 3) eggs": the bracket makes a range of the number before it.
pub(super) fn or_so_many(cut: &Cut<'_>, from: usize, to: usize, amount: &mut Amount) -> bool {
    let [term] = amount.terms.as_mut_slice() else { return false };
    if !cut.any(from, &["or", "to"]) {
        return false;
    }
    let Some((other, mut next)) = number::number(cut, from + 1) else { return false };
    if let Some((unit, after)) = amount::unit(cut, next).filter(|(unit, _)| *unit == term.unit) {
        debug_assert_eq!(unit, term.unit);
        next = after;
    }
    if next != to {
        return false;
    }
    term.low = term.low.min(other);
    term.high = term.high.max(other);
    true
}

/// Dictation's "for tablespoons" and "too cups": four and two, heard as other words.
pub(super) fn heard(cut: &Cut<'_>, at: usize) -> Option<(Amount, usize)> {
    let value = if cut.any(at, &["for"]) {
        4
    } else if cut.any(at, &["to", "too"]) {
        2
    } else {
        return None;
    };
    let (unit, next) = amount::unit(cut, at + 1).filter(|(unit, _)| unit.dimension() != Dimension::Count)?;
    let mut heard = fruit::one(cut, at, next);
    heard.terms = vec![Term::of(Number::whole(value), Number::whole(value), unit)];
    heard.bare = false;
    Some((heard, next))
}

/// Adds amounts from a bracket; "(14 oz each)" says what one of the counted things holds.
pub(super) fn join(found: &mut Vec<Amount>, inner: Vec<Amount>, each: bool) {
    if each && found.len() == 1 && found[0].each.is_none() && found[0].unit().dimension() == Dimension::Count {
        found[0].each = inner.into_iter().next().map(Box::new);
    } else {
        found.extend(inner);
    }
}

/// Amounts in a bracket, with slashes, commas or "or" between: "(113 g / 4 oz)".
pub(super) fn bracket_amounts(
    cut: &Cut<'_>,
    from: usize,
    to: usize,
    names: &dyn Names,
) -> Option<(Vec<Amount>, usize)> {
    let mut found = Vec::new();
    let mut at = from;
    while at < to {
        let Some((amount, next)) = amount::amount(cut, at, names).filter(|(_, next)| *next <= to) else { break };
        found.push(amount);
        at = next;
        // "(about 5 medium, 340 g)"
        if let Some((size, after)) = cut.longest(at, &WORDS.sizes)
            && let Some(last) = found.last_mut().filter(|last| last.bare && cut.mark(after, ','))
            && amount::amount(cut, after + 1, names).is_some()
        {
            last.size = Some(size.to_owned());
            at = after;
        }
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
pub(super) fn vague(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> Option<(Amount, usize)> {
    let mut start = at;
    let (mut size, mut fill) = (None, None);
    if let Some((word, next)) = cut.longest(start, &WORDS.sizes) {
        size = Some(word.to_owned());
        start = next;
    } else if let Some((word, next)) = cut.longest(start, &WORDS.fills) {
        fill = Some(word.to_owned());
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
    let next = next + usize::from(cut.any(next, &["each"]));
    let of = cut.any(next, &["of"]);
    let found = name::find(cut, next, cut.tokens.len(), ask);
    let food_follows = found.named.is_some();
    // "heaping teaspoon ground ginger", "tablespoon olive oil": a measure that is spelt out, and its food at once.
    let spelt_out = unit.dimension() == Dimension::Volume
        && (fill.is_some() || cut.tokens[start].folded.len() > 2)
        && food_follows
        && found.around.unknown.is_empty()
        && found.from <= next + 3;
    let starts_name = name::starts(cut, start, ask) || ask(&cut.tokens[start].key).is_some_and(|_| !of);
    if starts_name && unit.is_vague() && name::longest(cut, start, ask).is_some_and(|named| named.counted) {
        // "small knob of ginger": the unit is part of a name that is counted.
        return Some((fruit::one(cut, at, start), start)).filter(|_| start > at);
    }
    if starts_name || !(of || spelt_out || (unit.is_vague() && food_follows)) {
        return None;
    }
    let mut one = fruit::one(cut, at, next);
    one.terms = vec![Term::of(Number::ONE, Number::ONE, unit)];
    one.size = size;
    one.fill = fill;
    one.bare = false;
    Some((one, next))
}

/// Passes over words between amount and name that mean nothing: "of", "the", "a".
pub(super) fn skip_words(cut: &Cut<'_>, mut at: usize) -> usize {
    loop {
        if cut.any(
            at,
            &["of", "the", "each", "total", "worth", "a", "an", "some", "little", "bit", "um", "uh", "its", "their"],
        ) && at + 1 < cut.tokens.len()
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
pub(super) fn amounts_at(cut: &Cut<'_>, at: usize, names: &dyn Names) -> (Vec<Amount>, usize) {
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
pub(super) fn beside(cut: &Cut<'_>, at: usize, names: &dyn Names) -> Option<(Amount, usize)> {
    let mark = cut.mark(at, '/')
        || cut.mark(at, '|')
        || cut.mark(at, '=')
        || cut.any(at, &["or"])
        || cut.mark(at, '-')
        || cut.mark(at, '–')
        || cut.mark(at, ',');
    amount::amount(cut, at + usize::from(mark), names).filter(|(other, _)| !other.bare)
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

impl<'a> Reading<'_, 'a> {
    /// "rye, dark": a name turned about its comma, as professionals list it.
    fn turned(&self, rest: &Cut<'a>, from: usize, to: usize) -> Option<Named> {
        let comma = (from + 1..to).find(|at| rest.mark(*at, ','))?;
        (self.ask)(&format!("{} {}", name::key(rest, comma + 1, to), name::key(rest, from, comma)))
    }

    /// The first place after the name where amounts stand and everything before them names a food.
    pub(super) fn later_amount(&self, rest: &Cut<'a>, from: usize) -> Option<(usize, Vec<Amount>, usize)> {
        let names = Asked { cut: rest, ask: self.ask };
        for at in from + 1..rest.tokens.len().min(from + 16) {
            let token = &rest.tokens[at];
            // "Nutmeg pinch": one of a measure without its number ends the line.
            if let Some((unit, end)) = amount::unit(rest, at)
                .filter(|(unit, end)| unit.is_vague() && *unit != Unit::Sprinkle && *end >= rest.tokens.len())
                && name::find(rest, from, at, self.ask).named.is_some()
            {
                let mut one = fruit::one(rest, at, end);
                one.terms = vec![Term::of(Number::ONE, Number::ONE, unit)];
                one.bare = false;
                return Some((at, vec![one], end));
            }
            let starts = token.is_number()
                || token.is_mark('~')
                || token.is_any(&["about", "a", "an", "half", "one", "x"])
                || WORDS.numbers.contains_key(token.folded.as_str())
                || WORDS.fills.has(&token.folded) && rest.get(at + 1).is_some_and(crate::token::Token::is_number);
            // "glucose syrup DE 60"
            let name_of_syrup = rest.any(at - 1, &["de"]) && token.is_number();
            if !starts
                || name_of_syrup
                || number::is_grade(rest, at)
                || kind::temperature_at(rest, at)
                || number::in_ratio(rest, at)
            {
                continue;
            }
            let start = at + usize::from(token.is_any(&["x"]));
            let Some((mut first, mut end)) = amount::amount(rest, start, &names) else { continue };
            // `Apples, 1/4" slice, 5#`: how large the pieces are cut.
            if matches!(first.unit(), Unit::Inch | Unit::Centimetre) && end < rest.tokens.len() {
                continue;
            }
            // "Garlic, minced, 4 cloves": what is counted ends the line, so it is no food of its own.
            if first.bare
                && let Some((unit, after)) = amount::unit(rest, end).filter(|(_, after)| *after >= rest.tokens.len())
                && unit.dimension() == Dimension::Count
            {
                first.terms[0].unit = unit;
                first.bare = false;
                end = after;
            }
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
            // "glucose syrup DE 42: 75 g": a number of the name; the amount is yet to come.
            let amount_behind = first.bare
                && matches!(rest.get(end).map(|token| token.kind), Some(Token::Mark(':' | '–' | '…' | '-')))
                && amount::amount(rest, end + 1, &names).is_some_and(|(other, _)| !other.bare);
            if amount_behind {
                continue;
            }
            let found = name::find(rest, from, name_end, self.ask);
            let known = found.named.or_else(|| self.turned(rest, from, name_end));
            // "croissant dough, 3 folds, 1.8 kg": of what is not counted, the measure that ends the line is the amount.
            let weighed_later = || {
                (end..rest.tokens.len()).any(|at| {
                    rest.tokens[at].is_number()
                        && amount::amount(rest, at, &names)
                            .is_some_and(|(other, next)| other.is_weight() && next >= rest.tokens.len())
                })
            };
            if first.bare && !known.is_some_and(|named| named.counted) && weighed_later() {
                continue;
            }
            let percent_follows = rest.get(end).is_some_and(crate::token::Token::is_number)
                && (rest.mark(end + 1, '%') || rest.tokens[end..].iter().any(|token| token.is_mark('%')));
            let bare_fits = !first.bare || end >= rest.tokens.len() || rest.cut_after(end) || percent_follows;
            let unknown_fits = !first.bare || (end >= rest.tokens.len() && name_end >= from + 2);
            if name_end == from || (known.is_none() && !unknown_fits) || !bare_fits {
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
}
