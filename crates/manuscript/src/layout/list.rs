//! Several ingredients on one line, and the furniture of tables within a line.

use std::ops::Range;

use crate::line::{Cut, numbers, unit};

/// Whether an amount opens the text at token `at`: a number, "a cup", "a good pinch", or a word such as "pinch".
pub fn opens_with_amount(cut: &Cut<'_>, at: usize) -> bool {
    if cut.any(at, &["a", "an"]) {
        return (at + 1..at + 4).any(|at| unit(cut, at).is_some()) || (at + 2..at + 4).any(|at| cut.any(at, &["of"]));
    }
    numbers(cut, at).is_some()
        || unit(cut, at).is_some()
            && (cut.any(at + 1, &["of"]) || cut.any(at, &["pinch", "handful", "dash", "splash", "knob"]))
}

/// The parts of "2 cups flour, 1 tsp salt and 3 eggs", when each clearly has its amount; else the whole.
pub fn parts(text: &str, surely: bool) -> Vec<Range<usize>> {
    let whole = std::iter::once(0..text.len()).collect::<Vec<_>>();
    if !text.contains([',', ';']) {
        return whole;
    }
    let cut = Cut::of(text);
    let mut starts = vec![0];
    let mut ends = Vec::new();
    let mut depth = 0usize;
    for (at, token) in cut.tokens.iter().enumerate() {
        if token.is_mark('(') {
            depth += 1;
        } else if token.is_mark(')') {
            depth = depth.saturating_sub(1);
        }
        let joins = token.is_mark(',') || token.is_mark(';') || token.is_any(&["and"]);
        let last_start = *starts.last().unwrap_or(&0);
        if depth > 0 || !joins || token.place.start <= last_start {
            continue;
        }
        let next = at + 1 + usize::from(cut.any(at + 1, &["and"]));
        let opens = opens_with_amount(&cut, next) && !cut.any(next, &["half"]);
        let comma = !token.is_mark(',') || cut.get(next).is_some_and(|token| token.spaced);
        // A word has stood since the last amount, so the part before has a food of its own.
        let words_before = cut.tokens[..at]
            .iter()
            .rev()
            .take_while(|token| token.place.start >= last_start)
            .filter(|token| token.kind == crate::token::Kind::Word)
            .count();
        if opens && comma && words_before >= 1 {
            ends.push(token.place.start);
            starts.push(cut.tokens[next].place.start);
        }
    }
    let enough = if surely { 2 } else { 3 };
    if starts.len() < enough || !(surely || opens_with_amount(&cut, 0)) {
        return whole;
    }
    ends.push(text.len());
    starts
        .into_iter()
        .zip(ends)
        .map(|(start, end)| start..start + text[start..end].trim_end_matches([' ', '.', ',', ';']).len())
        .collect()
}

/// The line as it is read: leaders of dots made a dash, bars of a table spaces, a scanner's l a one. The length stays.
pub fn plain(text: &str) -> String {
    if text.starts_with("l ") || text.starts_with("l/") {
        let rest = &text[1..];
        let rest = rest.strip_prefix(" l/").map_or_else(|| rest.to_owned(), |part| format!(" 1/{part}"));
        return plain(&format!("1{rest}"));
    }
    if !text.contains("...") && !text.contains('|') {
        return text.to_owned();
    }
    let table = text.starts_with('|') || text.matches('|').count() >= 2;
    let mut plain = String::with_capacity(text.len());
    let mut rest = text;
    let mut dashed = false;
    while let Some(c) = rest.chars().next() {
        let dots = rest.len() - rest.trim_start_matches('.').len();
        if dots >= 3 {
            // A space stands on either side of the dash.
            plain.push(' ');
            plain.push(if dashed { ' ' } else { '-' });
            plain.extend(std::iter::repeat_n(' ', dots - 2));
            dashed = true;
            rest = &rest[dots..];
            continue;
        }
        plain.push(if table && c == '|' { ' ' } else { c });
        rest = &rest[c.len_utf8()..];
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str, surely: bool) -> Vec<&str> {
        parts(text, surely).into_iter().map(|part| &text[part]).collect()
    }

    #[test]
    fn ok_lists() {
        assert_eq!(
            cut("3 tbsp flour, a pinch of salt, 1 tsp milk.", true),
            ["3 tbsp flour", "a pinch of salt", "1 tsp milk"]
        );
        assert_eq!(cut("2 cups flour, 1 tsp salt and 3 eggs", false), ["2 cups flour", "1 tsp salt", "3 eggs"]);
        assert_eq!(cut("1 cup flour, sifted", false), ["1 cup flour, sifted"]);
        assert_eq!(cut("1 cup walnuts (about 4 oz, 2 handfuls), chopped", false).len(), 1);
    }

    #[test]
    fn ok_leaders() {
        assert_eq!(plain("Salt ..... 3 g"), "Salt  -    3 g");
        assert_eq!(plain("1 tsp. salt"), "1 tsp. salt");
    }
}
