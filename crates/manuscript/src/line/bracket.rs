//! Notes in brackets, lifted out of a line so that the rest reads through.

use super::cut::Cut;

/// A line without its brackets, and what stood in them.
pub struct Lifted<'a> {
    /// The line without brackets.
    pub rest: Cut<'a>,
    /// Contents of each bracket, in order, without the brackets themselves.
    pub notes: Vec<Cut<'a>>,
}

/// Lifts the brackets out of the tokens from `from` on. Nested brackets belong to the outer one; a bracket that is never
/// closed runs to the end of the line. Linear in the length.
pub fn lift<'a>(cut: &Cut<'a>, from: usize) -> Lifted<'a> {
    let mut lifted = Lifted { rest: Cut { text: cut.text, tokens: Vec::new() }, notes: Vec::new() };
    let mut at = from;
    while at < cut.tokens.len() {
        let token = &cut.tokens[at];
        if token.is_mark('(') {
            let close = cut.closing(at);
            let tokens = cut.tokens[at + 1..close]
                .iter()
                .filter(|token| !token.is_mark('(') && !token.is_mark(')'))
                .cloned()
                .collect();
            lifted.notes.push(Cut { text: cut.text, tokens });
            at = close + 1;
        } else {
            if !token.is_mark(')') {
                lifted.rest.tokens.push(token.clone());
            }
            at += 1;
        }
    }
    lifted
}
