//! The letter of a size beside eggs: "3 L eggs", "6 eggs (M)", "2 eggs, S".

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
        if eggs(at + 1) || behind && !cut.get(at + 1).is_some_and(|next| next.kind == Kind::Word) {
            cut.tokens[at].folded = size.into();
            cut.tokens[at].key = size.into();
        }
    }
}
