//! One amount for several foods of a sentence: "four ounces each of butter and sugar", "butter, sugar and flour: about
//! 8 ounces of each".

use std::ops::Range;

use crate::food_words::FoodWords;
use crate::line::{self, Cut, Kind, numbers, unit};
use crate::token::Kind as Token;

/// Most tokens of the foods that share an amount.
const REACH: usize = 14;

/// The tokens of the foods and the amount they share, when the amount begins at token `at`.
pub fn span<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, foods: &F) -> Option<Range<usize>> {
    let (_, next) = unit(cut, numbers(cut, at)?.next)?;
    // "8 ounces of each", "8 ounces each"
    let each = next + usize::from(cut.any(next, &["of"]));
    if !cut.any(each, &["each"]) {
        return None;
    }
    let listed =
        |at: usize| cut.get(at).is_some_and(|token| token.kind == Token::Word || token.is_mark(',') || cut.joins(at));
    if each == next && cut.any(each + 1, &["of"]) {
        let end = (each + 2..each + 2 + REACH).find(|at| !listed(*at)).unwrap_or(each + 2 + REACH);
        return (each + 3..=end.min(cut.tokens.len()))
            .rev()
            .map(|end| at..end)
            .find(|span| all_known(cut, span, foods));
    }
    let sign = at.checked_sub(1 + usize::from(at > 0 && cut.any(at - 1, &["about"])))?;
    let parted = matches!(cut.tokens[sign].kind, Token::Mark(':' | ',' | '(' | '–' | '—'));
    let end = each + 1 + usize::from(cut.mark(sign, '(') && cut.mark(each + 1, ')'));
    let first = (sign.saturating_sub(REACH)..sign).rev().take_while(|at| listed(*at)).last()?;
    (first..sign).filter(|_| parted).map(|from| from..end).find(|span| all_known(cut, span, foods))
}

/// Whether the tokens are several foods with an amount, and nothing else.
fn all_known<F: FoodWords + ?Sized>(cut: &Cut<'_>, span: &Range<usize>, foods: &F) -> bool {
    if cut.any(span.end - 1, &["and", "or"])
        || cut.any(span.start, &["of", "and", "the"])
        || !cut.is_word(span.start) && numbers(cut, span.start).is_none()
        || !cut.is_word(span.end - 1) && !cut.mark(span.end - 1, ')')
    {
        return false;
    }
    let read = line::read(&cut.text[cut.place(span.start, span.end)], foods);
    read.kind == Kind::Ingredient
        && read.foods.len() > 1
        && read.foods.iter().all(|item| {
            let plain = matches!(&*item.preparation, "" | "of");
            item.food.is_some() && item.unknown.is_empty() && plain && !item.amounts.is_empty()
        })
}
