//! Columns of a professional's table that measure nothing: baker's percentages, a mark between a number and its unit,
//! how many of a thing go to a pound.

use crate::line::amount;
use crate::line::cut::Cut;
use crate::token::{Kind, Token};
use evencrumb_measure::Dimension;

/// Takes such columns out of a line; what is left reads as the line would without the table.
pub(super) fn close_up(cut: &mut Cut<'_>) {
    unit_beside_number(cut);
    let column = |token: &Token| token.is_mark('%') || token.is_any(&["ct", "count"]);
    if cut.tokens.iter().any(column) && weighs(cut, 0, cut.tokens.len()) {
        percentages(cut);
        grade(cut);
    }
}

/// "Espresso | 350 | ml": the number and its unit each in a column of their own.
fn unit_beside_number(cut: &mut Cut<'_>) {
    let between = |at: &usize| {
        cut.mark(*at, '|')
            && cut.tokens[at - 1].is_number()
            && (amount::unit(cut, at + 1).is_some() || cut.mark(at + 1, '%'))
    };
    let marks: Vec<usize> = (1..cut.tokens.len()).filter(between).collect();
    for at in marks.into_iter().rev() {
        cut.tokens.remove(at);
    }
}

/// "72% - 720 g - water", "1000 g | 100% | flour": a percentage that stands between two columns is no part of the name.
/// "200 g | 70% chocolate" and "Chocolate 70% 200 g" keep theirs.
fn percentages(cut: &mut Cut<'_>) {
    let column = |at: &usize| {
        let opens = *at == 0 || parts(&cut.tokens[at - 1]);
        let ends = |next: Option<&Token>| next.is_none_or(|next| parts(next) || *at == 0 && next.is_number());
        cut.tokens[*at].is_number() && cut.mark(at + 1, '%') && opens && ends(cut.get(at + 2))
    };
    let Some(at) = (0..cut.tokens.len()).find(column) else { return };
    // Where it opens the line its mark goes with it, and the mark before it where it ends the line.
    let to = at + 2 + usize::from(cut.get(at + 2).is_some_and(parts));
    cut.tokens.drain(at..to);
}

/// "Choc chips, 1000 ct: 2.27 kg", "Prunes 40/50 ct 2 kg": how many make up a pound or a kilogram says how large one is.
fn grade(cut: &mut Cut<'_>) {
    let counted = |at: &usize| cut.any(*at, &["ct", "count"]) && *at > 1 && cut.tokens[at - 1].is_number();
    let Some(at) = (0..cut.tokens.len()).find(counted) else { return };
    let from = if at > 3 && (cut.mark(at - 2, '/') || cut.mark(at - 2, '-') || cut.mark(at - 2, '–')) {
        at - 3
    } else {
        at - 1
    };
    let words_before = cut.tokens[..from].iter().any(|token| token.kind == Kind::Word);
    if words_before && weighs(cut, at + 1, cut.tokens.len()) {
        cut.tokens.drain(from..=at);
    }
}

fn parts(token: &Token) -> bool {
    matches!(token.kind, Kind::Mark('|' | '–' | ':' | ';' | ',' | '…')) || token.is_mark('-') && token.spaced
}

/// Whether a weight or a volume stands between two tokens.
fn weighs(cut: &Cut<'_>, from: usize, to: usize) -> bool {
    (from + 1..to).any(|at| {
        let measure =
            || amount::unit(cut, at).is_some_and(|(unit, _)| !unit.is_vague() && unit.dimension() != Dimension::Count);
        cut.tokens[at - 1].is_number() && measure()
    })
}
