//! What may be left out by how it is written: "Optional: 1/2 cup raisins", "(30 g candied ginger)", "nuts, if you like",
//! and all below "For the optional glaze".

use super::list::{is_amount, opens_with_amount};
use super::section;
use super::vocabulary::VOCABULARY;
use crate::line::Cut;

/// How far a saying is looked for: letters behind a mark, and bytes before the sign that ends a label.
const LONGEST_SAYING: usize = 24;

/// Bytes of "Optional: " or "(optional) " before an ingredient.
pub fn label(text: &str) -> usize {
    let open = text.starts_with(['(', '[']);
    let Some(end) =
        text.find([':', ')', ']']).filter(|end| *end <= LONGEST_SAYING && open != text[*end..].starts_with(':'))
    else {
        return 0;
    };
    let rest = text[end + 1..].trim_start();
    let known = VOCABULARY.rows.optional.has(&words(&text[..end]));
    if known && !rest.is_empty() { text.len() - rest.len() } else { 0 }
}

/// What a whole line in brackets holds, when that is an amount and something behind it. "(about 2 cups)" and "(or 60 ml oil)" speak of the line before.
pub fn bracketed(text: &str) -> Option<&str> {
    let inside = in_brackets(text)?;
    let cut = Cut::of(inside);
    let opens = opens_with_amount(&cut, 0) && !cut.any(0, &["about", "or", "approx", "roughly", "around"]);
    (opens && !is_amount(inside)).then_some(inside)
}

/// What stands between the bracket that opens the text and the one that ends it.
pub fn in_brackets(text: &str) -> Option<&str> {
    let inside = text.strip_prefix('(')?.trim_end_matches('.').strip_suffix(')')?;
    let mut depth = 0;
    let own = inside.chars().all(|c| {
        depth += i32::from(c == '(') - i32::from(c == ')');
        depth >= 0
    });
    own.then_some(inside)
}

/// Whether the line says that it may be left out: "…, if you like".
pub fn is_said(text: &str) -> bool {
    label(text) > 0
        || bracketed(text).is_some()
        || text.match_indices([',', '(', ';', '-', '–', '—']).any(|(at, sign)| {
            let behind = &text[at + sign.len()..];
            let end = behind.char_indices().nth(LONGEST_SAYING).map_or(behind.len(), |(end, _)| end);
            VOCABULARY.rows.optional.begins(&words(&behind[..end]))
        })
}

/// Whether all below the heading may be left out.
pub fn heads(name: &str) -> bool {
    let words = words(name);
    let starts = std::iter::once(0).chain(words.match_indices(' ').map(|(at, _)| at + 1));
    starts.into_iter().any(|at| VOCABULARY.rows.optional.begins(&words[at..])) || is_said(name)
}

fn words(text: &str) -> String {
    section::plain(text.trim_start_matches(['(', '[']))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_what_may_be_left_out() {
        for text in [
            "Optional: 1/2 cup raisins",
            "(optional) 30 g ginger",
            "(30 g ginger)",
            "(1 cup (140 g) raisins, optional)",
            "1/2 cup seeds, if you like",
            "1/2 cup seeds (if using)",
        ] {
            assert!(is_said(text), "{text}");
        }
        for text in
            ["1 cup sugar, or more if you like", "(about 2 cups)", "(see note)", "1 cup raisins (140 g)", "(240 g)"]
        {
            assert!(!is_said(text), "{text}");
        }
        assert!(heads("For the optional glaze") && heads("To serve, if you like") && !heads("Glaze"));
    }
}
