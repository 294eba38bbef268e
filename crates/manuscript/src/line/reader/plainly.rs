//! Amounts written with marks that say nothing more: "1 (one) cup", "200+ g", "1 (2-inch) piece".

use evencrumb_measure::Unit;

use crate::line::amount;
use crate::line::cut::Cut;
use crate::line::number;

/// Takes such marks out of a line.
pub(super) fn write(cut: &mut Cut<'_>) {
    number_in_words(cut);
    at_least(cut);
    length_in_bracket(cut);
}

/// "1 (one) cup", "Two (2) eggs": the number told once more.
fn number_in_words(cut: &mut Cut<'_>) {
    let Some((first, next)) = number::number(cut, 0) else { return };
    let again = cut.mark(next, '(').then(|| number::number(cut, next + 1)).flatten();
    if let Some((_, close)) = again.filter(|(again, close)| *again == first && cut.mark(*close, ')')) {
        cut.tokens.drain(next..=close);
    }
}

/// "200+ g flour", "1 cup+ milk": as much or a little more.
fn at_least(cut: &mut Cut<'_>) {
    let more = |at: &usize| {
        let measure = || amount::unit(cut, at + 1).is_some() && cut.tokens[at - 1].is_number();
        let behind = || amount::unit(cut, at - 1).is_some_and(|(_, next)| next == *at);
        let digits = cut.get(at + 1).is_some_and(crate::token::Token::is_number);
        cut.mark(*at, '+') && !cut.tokens[*at].spaced && !digits && (measure() || behind())
    };
    if let Some(at) = (1..cut.tokens.len().min(6)).find(more) {
        cut.tokens.remove(at);
    }
}

/// "1 (2-inch) piece ginger" is a 2-inch piece.
fn length_in_bracket(cut: &mut Cut<'_>) {
    let Some((_, open)) = number::number(cut, 0).filter(|(_, next)| cut.mark(*next, '(')) else { return };
    let close = cut.closing(open);
    let length = number::number(cut, open + 1)
        .and_then(|(_, next)| amount::unit(cut, next + usize::from(cut.joins(next))))
        .is_some_and(|(unit, next)| matches!(unit, Unit::Inch | Unit::Centimetre) && next == close);
    if length && cut.any(close + 1, &["piece", "pieces", "knob", "knobs"]) {
        cut.tokens.remove(close);
        cut.tokens.remove(open);
    }
}
