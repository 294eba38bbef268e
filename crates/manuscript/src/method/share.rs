//! How much of a line a step takes: "half of the sugar", "1/2 cup of the milk", "the remaining flour".

use super::Share;
use crate::line::{Cut, number, numbers, unit};
use crate::token::Kind as Token;

/// What is said before the name at `at` of how much of it is taken.
pub(super) fn share(cut: &Cut<'_>, at: usize) -> Share {
    let floor = at.saturating_sub(8);
    let stop = (floor..at).rev().find(|at| {
        matches!(cut.tokens[*at].kind, Token::Mark(',' | ';' | '.' | ':'))
            || cut.any(*at, &["and", "with", "then", "in"]) && !cut.any(at + 1, &["a"])
    });
    let from = stop.map_or(floor, |stop| stop + 1);
    let amount = (from..at).find_map(|start| {
        let count = numbers(cut, start).map(|read| read.next);
        let next = count.or_else(|| cut.any(start, &["a", "an"]).then_some(start + 1))?;
        let (_, end) = unit(cut, next)?;
        (end <= at).then(|| cut.written(start, end).to_owned())
    });
    let has = |words: &[&str]| (from..at).any(|at| cut.any(at, words));
    if has(&["remaining", "rest", "remainder"]) {
        return Share::Remaining(amount);
    }
    if has(&["reserved"]) {
        return Share::Reserved;
    }
    if let Some(amount) = amount {
        return Share::Amount(amount);
    }
    if has(&["of", "half"]) {
        for start in from..at {
            let part = if cut.any(start, &["half"]) {
                Some((0.5, start + 1))
            } else {
                number(cut, start).map(|(number, next)| (number.value(), next))
            };
            // "a cup and a half of flour" is an amount and no half.
            let counted = start > 0
                && (cut.any(start - 1, &["and"])
                    || start > 1 && cut.any(start - 1, &["a"]) && cut.any(start - 2, &["and"]));
            if let Some((part, next)) = part.filter(|_| !counted).filter(|(part, _)| *part > 0.0 && *part < 1.0)
                && cut.any(next, &["of", "the"])
            {
                return Share::Part(part);
            }
        }
    }
    Share::All
}

#[cfg(test)]
mod tests {
    use crate::method::trial::uses;

    #[test]
    fn ok_shares() {
        let list = "1 cup sugar\n2 cups flour\n1/2 tsp salt";
        assert_eq!(
            uses(list, "Mix half of the sugar with a third of the flour."),
            ["0 Part(0.5)", "1 Part(0.3333333333333333)"]
        );
        assert_eq!(
            uses(list, "Mix 1/2 cup of the sugar and the remaining flour."),
            ["0 Amount(\"1/2 cup\")", "1 Remaining(None)"]
        );
        assert_eq!(
            uses(list, "Add a pinch of salt and the rest of the sugar."),
            ["2 Amount(\"a pinch\")", "0 Remaining(None)"]
        );
        assert_eq!(uses(list, "Add the reserved sugar."), ["0 Reserved"]);
    }
}
