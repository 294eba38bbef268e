//! Several ingredients on one line, and the furniture of tables within a line.

use std::borrow::Cow;
use std::ops::Range;

use super::optional;
use super::section;
use super::vocabulary::VOCABULARY;
use crate::line::{Cut, numbers, unit};
use crate::token::is_bullet;
use crate::word;
use crate::words::WORDS;

/// Whether an amount opens the text at token `at`: a number, "a cup", "a good pinch", or a word such as "pinch".
pub fn opens_with_amount(cut: &Cut<'_>, at: usize) -> bool {
    if cut.any(at, &["a", "an"]) {
        return (at + 1..at + 4).any(|at| unit(cut, at).is_some()) || (at + 2..at + 4).any(|at| cut.any(at, &["of"]));
    }
    numbers(cut, at).is_some()
        || unit(cut, at).is_some()
            && (cut.any(at + 1, &["of"]) || cut.any(at, &["pinch", "handful", "dash", "splash", "knob"]))
}

/// Whether the text is an amount and nothing else: "1 1/2 cups", "200 g", "3".
pub fn is_amount(text: &str) -> bool {
    if text.len() > 40 || !text.starts_with(|c: char| c.is_numeric() || c == '.') {
        return false;
    }
    let cut = Cut::of(text);
    let Some(read) = numbers(&cut, 0) else { return false };
    let next = unit(&cut, read.next).map_or(read.next, |(_, next)| next);
    // "2 large" waits for its eggs.
    let next = cut.longest(next, &WORDS.sizes).map_or(next, |(_, next)| next);
    let next = next + usize::from(cut.mark(next, '.'));
    let next = if cut.mark(next, '(') { cut.closing(next) + 1 } else { next };
    next >= cut.tokens.len()
}

/// Whether the text is a name, a dash and an amount: "Curd - 1 tbsp".
pub fn is_dashed(text: &str) -> bool {
    let cut = [" - ", " – ", " — "].into_iter().find_map(|sign| text.split_once(sign));
    cut.is_some_and(|(name, amount)| {
        name.starts_with(char::is_alphabetic) && is_amount(amount.split([',', '(']).next().unwrap_or(amount).trim())
    })
}

/// The parts of "2 cups flour, 1 tsp salt and 3 eggs", when each clearly has its amount; else the whole.
pub fn parts(text: &str, surely: bool) -> Vec<Range<usize>> {
    let whole = std::iter::once(0..text.len()).collect::<Vec<_>>();
    for sign in ["; ", " / ", " • ", " · ", " | ", " + "] {
        if let Some(parts) = signed_parts(text, sign, surely) {
            return parts;
        }
    }
    if !text.contains([',', ';']) {
        return whole;
    }
    if let Some(parts) = named_first(text, surely) {
        return parts;
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
    if tells_how_split(&cut, &starts) {
        return whole;
    }
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

/// "5 eggs, 3 whole and 2 yolks", "3 apples, 1 grated and 2 sliced": the counts behind the first make it up, and what
/// stands behind each is a part, a size or a state and no further food.
fn tells_how_split(cut: &Cut<'_>, starts: &[usize]) -> bool {
    let mut counts = Vec::new();
    for (nth, start) in starts.iter().enumerate() {
        let Some(at) = cut.tokens.iter().position(|token| token.place.start == *start) else { return false };
        let Some(read) = numbers(cut, at) else { return false };
        let told = [&WORDS.parts, &WORDS.sizes, &WORDS.states, &WORDS.fills, &WORDS.ways];
        let split = || told.iter().any(|list| cut.longest(read.next, list).is_some());
        if unit(cut, read.next).is_some() || nth > 0 && !split() {
            return false;
        }
        counts.push(read.low.value());
    }
    counts.len() >= 2 && (counts[1..].iter().sum::<f64>() - counts[0]).abs() < 1e-9
}

/// The parts of "cornmeal 200 g, flour 100 g, salt 1 tsp": each ends with its amount.
fn named_first(text: &str, surely: bool) -> Option<Vec<Range<usize>>> {
    let least = if surely { 2 } else { 3 };
    let mut parts = Vec::new();
    let mut start = 0;
    for piece in text.split_inclusive([',', ';']) {
        let said = piece.trim_end_matches([',', ';', '.', ' ']);
        let lead = said.len() - said.trim_start().len();
        let number = said.find(|c: char| c.is_numeric())?;
        if !said[lead..].starts_with(char::is_alphabetic)
            || !said[..number].ends_with(' ')
            || !is_amount(&said[number..])
        {
            return None;
        }
        parts.push(start + lead..start + said.len());
        start += piece.len();
    }
    (parts.len() >= least).then_some(parts)
}

/// Cells parted by wide gaps, when each is an ingredient with its amount before it: "1000 g puff     250 g butter".
pub fn cells(written: &str) -> Option<Vec<Range<usize>>> {
    if !written.contains("   ") || written.len() > 400 {
        return None;
    }
    let mut cells = Vec::new();
    let mut start = 0;
    for piece in written.split("   ") {
        // A bullet may stand in each.
        let lead = piece.len() - piece.trim_start_matches(|c: char| c.is_whitespace() || is_bullet(c)).len();
        if !piece.trim().is_empty() {
            cells.push(start + lead..start + piece.trim_end().len().max(lead));
        }
        start += piece.len() + 3;
    }
    let whole = |cell: &Range<usize>| {
        let text = &written[cell.clone()];
        opens_with_amount(&Cut::of(text), 0) && !is_amount(text) && text.contains(char::is_alphabetic)
    };
    (cells.len() >= 2 && cells.iter().all(whole)).then_some(cells)
}

/// The parts between signs that stand between ingredients only, when most of them open with an amount.
fn signed_parts(text: &str, sign: &str, surely: bool) -> Option<Vec<Range<usize>>> {
    let least = if surely { 2 } else { 3 };
    if text.starts_with('|') || text.matches(sign).count() + 1 < least {
        return None;
    }
    let mut parts = Vec::new();
    let mut start = 0;
    for piece in text.split(sign) {
        let said = piece.trim_end_matches([' ', '.', ',', ';']);
        let lead = said.len() - said.trim_start().len();
        if !said.trim().is_empty() {
            parts.push(start + lead..start + said.len());
        }
        start += piece.len() + sign.len();
    }
    let amounts = parts.iter().filter(|part| opens_with_amount(&Cut::of(&text[(*part).clone()]), 0)).count();
    let named = parts.iter().all(|part| !is_amount(&text[part.clone()]));
    (named && parts.len() >= least && amounts * 3 >= parts.len() * 2).then_some(parts)
}

/// Bytes of "you'll need " before an amount, as one says it who dictates.
fn lead(text: &str) -> usize {
    let known = &VOCABULARY.rows.leading;
    let first = text.split(' ').next().unwrap_or_default();
    if first.len() > LONGEST_LEADING || !known.opens(&word::fold(first)) {
        return 0;
    }
    let ends = text.match_indices(' ').take(MOST_LEADING).map(|(at, _)| at);
    let lead = ends.filter(|end| known.has(&section::plain(&text[..*end]))).last();
    lead.map(|end| end + 1).filter(|from| opens_with_amount(&Cut::of(&text[*from..]), 0)).unwrap_or(0)
}

/// Longest first word of such a saying in bytes, and most words of one.
const LONGEST_LEADING: usize = 12;
const MOST_LEADING: usize = 5;

/// The line as it is read: leaders of dots made a dash, bars of a table spaces, a scanner's l a one, and no brackets
/// around the whole nor "Optional:" or "you'll need" before it. The length stays.
pub fn plain(text: &str) -> Cow<'_, str> {
    let label = match optional::label(text) {
        0 => lead(text),
        label => label,
    };
    let said = &text[label..];
    let (open, inside) = optional::bracketed(said).map_or((0, said), |inside| (1, inside));
    if label + open == 0 {
        return unleadered(text);
    }
    let before = " ".repeat(label + open);
    format!("{before}{}{}", unleadered(inside), " ".repeat(said.len() - inside.len() - open)).into()
}

fn unleadered(text: &str) -> Cow<'_, str> {
    if text.starts_with("l ") || text.starts_with("l/") {
        let rest = &text[1..];
        let rest = rest.strip_prefix(" l/").map_or_else(|| rest.to_owned(), |part| format!(" 1/{part}"));
        return unleadered(&format!("1{rest}")).into_owned().into();
    }
    if !text.contains("...") && !text.contains('|') {
        return text.into();
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
    plain.into()
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
        assert_eq!(
            cut("600ml cream / 1 tin milk / a pinch of salt / 150g halva, crumbled", false),
            ["600ml cream", "1 tin milk", "a pinch of salt", "150g halva, crumbled"]
        );
        assert_eq!(cut("2 cups flour; 1 egg, beaten, for the tops; salt; 1 tsp milk.", false).len(), 4);
        assert_eq!(
            cut("cornmeal 200 g, flour 100 g, salt 1 tsp.", false),
            ["cornmeal 200 g", "flour 100 g", "salt 1 tsp"]
        );
        assert_eq!(cut("butter, cold, 200 g", false).len(), 1);
        assert_eq!(cut("200g/7oz flour", false).len(), 1);
        assert_eq!(cut("5 eggs, 3 whole and 2 yolks", true).len(), 1);
        assert_eq!(cut("3 apples, 1 grated and 2 sliced", false).len(), 1);
        assert_eq!(cut("3 eggs, 1 apple and 2 pears", false).len(), 3);
        assert_eq!(cut("2 eggs, 2 yolks and 3 whites", false).len(), 3);
        assert_eq!(cut("1 cup milk / 240 ml / 8 oz", false).len(), 1);
        assert_eq!(cut("1 cup flour, sifted", false), ["1 cup flour, sifted"]);
        assert_eq!(cut("1 cup walnuts (about 4 oz, 2 handfuls), chopped", false).len(), 1);
    }

    #[test]
    fn ok_cells() {
        assert_eq!(cells("1000 g puff     250 g butter    12 apples").map(|cells| cells.len()), Some(3));
        assert_eq!(cells("200 g    7 oz    flour"), None);
        assert_eq!(cells("200 g flour      • 1 tsp salt").map(|cells| cells.len()), Some(2));
        assert_eq!(cells("flour    200 g"), None);
    }

    #[test]
    fn ok_leaders() {
        assert_eq!(plain("Salt ..... 3 g"), "Salt  -    3 g");
        assert_eq!(plain("1 tsp. salt"), "1 tsp. salt");
    }
}
