//! The letter of a size beside eggs: "3 L eggs", "6 eggs (M)", "2 eggs, S", "eggs – 3 L".

use crate::line::cut::Cut;
use crate::token::Kind;

/// Reads such letters as the words they stand for; a litre of milk stays one.
pub(super) fn spell_out(cut: &mut Cut<'_>) {
    for at in 0..cut.tokens.len() {
        let size = match cut.tokens[at].folded.as_str() {
            "s" => "small",
            "m" => "medium",
            "l" => "large",
            _ => continue,
        };
        let eggs = |at: usize| cut.any(at, &["egg", "eggs"]);
        let opens = at > 0 && (cut.mark(at - 1, '(') || cut.mark(at - 1, ','));
        let behind = at > 1 && opens && eggs(at - 2) || at > 0 && eggs(at - 1);
        // Nobody writes eggs in litres where the number ends the line; "Eggs, liquid 3 L" does.
        let counted = at > 1
            && at + 1 == cut.tokens.len()
            && cut.tokens[at - 1].is_number()
            && eggs(0)
            && cut.tokens[1..at - 1].iter().all(|token| matches!(token.kind, Kind::Mark(_)));
        if counted || eggs(at + 1) || behind && !cut.get(at + 1).is_some_and(|next| next.kind == Kind::Word) {
            cut.tokens[at].folded = size.into();
            cut.tokens[at].key = size.into();
        }
    }
}
